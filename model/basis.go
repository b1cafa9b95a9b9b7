package model

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// restFactor is how far apart two rests may be and still be compared.
const restFactor = 3.0

// ComparableRests reports whether two waits, s, are within a factor of three
// of each other. Waits under 5 s count as 5 s: they are all "at once".
func ComparableRests(a, b int) bool {
	const atOnce = 5
	x, y := float64(max(a, atOnce)), float64(max(b, atOnce))
	return math.Max(x, y) <= restFactor*math.Min(x, y)
}

// Basis names what a ratio of a powder holds for beside its level, liquid and rest: trials in
// another liquid, or with a rest more than threefold apart, are another ratio.
type Basis struct {
	Liquid string
	RestS  int
}

// Matches reports whether a trial may count towards the basis.
func (b Basis) Matches(t Trial, f Family) bool {
	t = t.WithDefaults(f)
	return SameLiquid(t.Liquid, b.Liquid) && ComparableRests(*t.RestS, b.RestS)
}

// Bases lists what the profile's used trials rest on: the main one first, on
// which most of them rest, the newest on a tie; then the others, newest first.
func (p Profile) Bases() []Basis {
	var bases []Basis
next:
	for _, i := range p.NewestFirst() {
		t := p.Trials[i]
		t = t.WithDefaults(p.Powder.Kind())
		if !t.Used() {
			continue
		}
		for _, b := range bases {
			if b.Matches(t, p.Powder.Kind()) {
				continue next
			}
		}
		bases = append(bases, Basis{t.Liquid, *t.RestS})
	}
	return p.mainFirst(bases)
}

// NewestFirst is the places of the trials, from 0, newest first by their start;
// of those started at the same moment the later one in the file comes first.
func (p Profile) NewestFirst() []int {
	at := make([]int, 0, len(p.Trials))
	for i := len(p.Trials) - 1; i >= 0; i-- {
		at = append(at, i)
	}
	slices.SortStableFunc(at, func(a, b int) int { return p.Trials[b].Started.Compare(p.Trials[a].Started) })
	return at
}

// SpoonsAtHand are the spoons of the newest trial, else the usual ones.
func (p Profile) SpoonsAtHand() []string {
	if n := p.Newest(); n >= 0 && len(p.Trials[n].Spoons) > 0 {
		return p.Trials[n].Spoons
	}
	return DefaultSpoons()
}

// SharedAim is the aim of most of some profiles, one at least; of equals, the one of
// the first.
func SharedAim(profiles ...Profile) float64 {
	count := map[float64]int{}
	for _, p := range profiles {
		count[p.Aim()]++
	}
	best := profiles[0].Aim()
	for _, p := range profiles {
		if aim := p.Aim(); count[aim] > count[best] {
			best = aim
		}
	}
	return best
}

// LastTrial is when the newest trial that counts was started; zero without.
func (p Profile) LastTrial() time.Time {
	if i := p.NewestWhere(Trial.Used); i >= 0 {
		return p.Trials[i].Started
	}
	return time.Time{}
}

// Aim is the level the newest trial by levels aims at, DefaultAim without one.
func (p Profile) Aim() float64 {
	i := p.NewestWhere(func(t Trial) bool { return t.Match == nil && t.SetAside == "" })
	if i < 0 {
		i = p.NewestWhere(func(t Trial) bool { return t.Match == nil })
	}
	if i >= 0 {
		return p.Trials[i].WithDefaults(p.Powder.Kind()).Aim
	}
	return DefaultAim
}

// Nearest is the basis most like b, the first of equals, and how like: 2 can
// be compared, 1 the same liquid only, 0 neither. Without any it is b itself.
func (b Basis) Nearest(bases []Basis) (found Basis, likeness int) {
	if len(bases) == 0 {
		return b, 0
	}
	found = bases[0]
	for _, other := range bases {
		like := 0
		if SameLiquid(b.Liquid, other.Liquid) {
			like = 1
			if ComparableRests(b.RestS, other.RestS) {
				like = 2
			}
		}
		if like > likeness {
			found, likeness = other, like
		}
	}
	return found, likeness
}

// Choice narrows what a ratio is asked for. Its zero value leaves it to the
// trials: the main liquid and rest.
type Choice struct {
	In   string // the liquid; "" the main one
	Rest *int   // the wait before a look, s; nil the main one
}

// Among are the bases that the choice allows, in their order, those with the
// nearest rest first where a rest is wanted.
func (c Choice) Among(bases []Basis) []Basis {
	out := slices.DeleteFunc(slices.Clone(bases), func(b Basis) bool {
		return c.In != "" && !SameLiquid(c.In, b.Liquid) || c.Rest != nil && !ComparableRests(*c.Rest, b.RestS)
	})
	if c.Rest != nil {
		apart := func(b Basis) float64 {
			return math.Abs(math.Log(float64(max(b.RestS, 1)) / float64(max(*c.Rest, 1))))
		}
		slices.SortStableFunc(out, func(a, b Basis) int { return cmp.Compare(apart(a), apart(b)) })
	}
	return out
}

// BasisFor returns the basis that a choice picks from the profile. Where no trial
// allows it, it is the choice itself, of which nothing is known.
func (p Profile) BasisFor(c Choice) Basis {
	if found := c.Among(p.Bases()); len(found) > 0 {
		return found[0]
	}
	b := p.MainBasis()
	b.Liquid = cmp.Or(c.In, b.Liquid)
	if c.Rest != nil {
		b.RestS = *c.Rest
	}
	return b
}

// String is the choice in words: "in water with a rest of 5 min"; "" for the zero value.
func (c Choice) String() string {
	var words []string
	if c.In != "" {
		words = append(words, "in "+c.In)
	}
	if c.Rest != nil {
		words = append(words, "with a rest of "+Seconds(*c.Rest))
	}
	return strings.Join(words, " ")
}

// Untried says which liquids and rests the profiles have where the choice allows none of
// them; "" where it allows some, and where no trial is finished.
func (c Choice) Untried(profiles ...Profile) string {
	bases := DifferentBases(profiles...)
	if len(bases) == 0 || len(c.Among(bases)) > 0 {
		return ""
	}
	have := make([]string, len(bases))
	for i, b := range bases {
		have[i] = fmt.Sprintf("%s, rest %s", b.Liquid, Seconds(b.RestS))
	}
	return fmt.Sprintf("no finished trial %s; there are trials in %s", c, strings.Join(have, "; "))
}

// DifferentBases are the liquids and rests of several profiles, each once, in
// the order of the profiles.
func DifferentBases(profiles ...Profile) []Basis {
	var bases []Basis
	for _, p := range profiles {
		for _, b := range p.Bases() {
			if _, like := b.Nearest(bases); like < 2 {
				bases = append(bases, b)
			}
		}
	}
	return bases
}

// MainBasis is the basis of most finished trials, the newest on a tie; without one that
// counts, of the newest beside a dish; without any, water and the family's rest.
func (p Profile) MainBasis() Basis {
	var t Trial
	if n := p.NewestWhere(Trial.Finished); n >= 0 {
		t = p.Trials[n]
	}
	t = t.WithDefaults(p.Powder.Kind())
	return append(p.Bases(), Basis{t.Liquid, *t.RestS})[0]
}

// mainFirst puts the bases that most finished trials rest on first. Equals keep
// their order.
func (p Profile) mainFirst(bases []Basis) []Basis {
	trials := func(b Basis) (n int) {
		for _, t := range p.Trials {
			if t.Used() && b.Matches(t, p.Powder.Kind()) {
				n++
			}
		}
		return n
	}
	slices.SortStableFunc(bases, func(a, b Basis) int { return trials(b) - trials(a) })
	return bases
}

// Unfinished reports whether the trial is still being made; one that was set
// aside is not.
func (t Trial) Unfinished() bool { return t.State != Done && t.SetAside == "" }

// Newest is the place of the newest trial that is not set aside; where all
// are, of the newest of them. It is -1 without a trial.
func (p Profile) Newest() int {
	if i := p.NewestWhere(func(t Trial) bool { return t.SetAside == "" }); i >= 0 {
		return i
	}
	return p.NewestWhere(func(Trial) bool { return true })
}

// SpoonSet is the set that the newest trial has its spoons from.
func (p Profile) SpoonSet() SpoonSet {
	if i := p.Newest(); i >= 0 {
		return p.Trials[i].WithDefaults(p.Powder.Kind()).SpoonSet
	}
	return US
}

// NewestUnfinished is the place of the newest trial that is still being made;
// -1 without one.
func (p Profile) NewestUnfinished() int { return p.NewestWhere(Trial.Unfinished) }

// NewestWhere is the place of the newest trial, by its start, that keep
// accepts; -1 without one. Of trials started at the same moment the later in
// the file is the newer.
func (p Profile) NewestWhere(keep func(Trial) bool) int {
	newest := -1
	for i, t := range p.Trials {
		if keep(t) && (newest < 0 || !t.Started.Before(p.Trials[newest].Started)) {
			newest = i
		}
	}
	return newest
}

// Unfinished lists the trials that are still being made, by their place.
func (p Profile) Unfinished() []int {
	var open []int
	for i, t := range p.Trials {
		if t.Unfinished() {
			open = append(open, i)
		}
	}
	return open
}
