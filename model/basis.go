package model

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
)

// restFactor is the largest factor between two rests that may still be compared.
const restFactor = 3.0

// ComparableRests reports whether two waits, s, are within a factor of three
// of each other. Waits under 5 s count as 5 s: they are all "at once".
func ComparableRests(a, b int) bool {
	const atOnce = 5
	x, y := float64(max(a, atOnce)), float64(max(b, atOnce))
	return math.Max(x, y) <= restFactor*math.Min(x, y)
}

// Basis is the liquid and the rest that a ratio holds for. Trials in another liquid, or
// with a rest more than threefold apart, give another ratio.
type Basis struct {
	Liquid string
	RestS  int
}

// Matches reports whether a trial may count towards the basis.
func (b Basis) Matches(t Trial, f Family) bool {
	t = t.WithDefaults(f)
	return SameLiquid(t.Liquid, b.Liquid) && ComparableRests(*t.RestS, b.RestS)
}

// Bases lists the bases of the profile's used trials: first the main one, that of most
// trials, the newest on a tie; then the others, newest first.
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

// NewestFirst lists the indices of the trials, newest first by their start. Of those
// started at the same moment the later one in the file comes first.
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

// SharedAim gives the aim that most of the profiles have; of equals, the first profile's.
// It takes one profile at least.
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

// LastTrial gives the start of the newest used trial; zero without.
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

// Nearest finds the basis most like b, the first of equals. likeness is 2 where the two can
// be compared, 1 for the same liquid only, else 0. Without any basis it gives b itself.
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

// Choice is the liquid and the rest that a ratio is asked for. Its zero value leaves both
// to the trials.
type Choice struct {
	In   string // the liquid; "" the main one
	Rest *int   // the wait before a look, s; nil the main one
}

// Among lists the bases that the choice allows, in their order; where a rest is wanted,
// those with the nearest rest first.
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

// BasisFor returns the basis that a choice picks from the profile. Where no trial fits, it
// is the choice itself, filled up from the main basis.
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

// String puts the choice into words: "in water with a rest of 5 min"; "" for the zero
// value.
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

// Untried lists the liquids and rests of the profiles where the choice allows none of them.
// It is "" where it allows some, and where no trial is finished.
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

// DifferentBases lists the liquids and rests of several profiles, each once, in the order
// of the profiles.
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

// MainBasis gives the basis of most used trials, the newest on a tie. Without one it is
// that of the newest trial beside a dish; without any trial, water and the family's rest.
func (p Profile) MainBasis() Basis {
	var t Trial
	if n := p.NewestWhere(Trial.Finished); n >= 0 {
		t = p.Trials[n]
	}
	t = t.WithDefaults(p.Powder.Kind())
	return append(p.Bases(), Basis{t.Liquid, *t.RestS})[0]
}

// mainFirst sorts the bases by the number of used trials on them, most first. Equals keep
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

// Unfinished reports whether the trial is still being made; one that was set aside is not.
func (t Trial) Unfinished() bool { return t.State != Done && t.SetAside == "" }

// Newest gives the index of the newest trial that is not set aside. Where all are, it is
// the newest of them; -1 without a trial.
func (p Profile) Newest() int {
	if i := p.NewestWhere(func(t Trial) bool { return t.SetAside == "" }); i >= 0 {
		return i
	}
	return p.NewestWhere(func(Trial) bool { return true })
}

// SpoonSet gives the spoon set of the newest trial.
func (p Profile) SpoonSet() SpoonSet {
	if i := p.Newest(); i >= 0 {
		return p.Trials[i].WithDefaults(p.Powder.Kind()).SpoonSet
	}
	return US
}

// NewestUnfinished gives the index of the newest trial that is still being made; -1 without
// one.
func (p Profile) NewestUnfinished() int { return p.NewestWhere(Trial.Unfinished) }

// NewestWhere gives the index of the newest trial, by its start, that keep accepts; -1
// without one. Of trials started at the same moment the later in the file is the newer.
func (p Profile) NewestWhere(keep func(Trial) bool) int {
	newest := -1
	for i, t := range p.Trials {
		if keep(t) && (newest < 0 || !t.Started.Before(p.Trials[newest].Started)) {
			newest = i
		}
	}
	return newest
}

// Unfinished lists the indices of the trials that are still being made.
func (p Profile) Unfinished() []int {
	var open []int
	for i, t := range p.Trials {
		if t.Unfinished() {
			open = append(open, i)
		}
	}
	return open
}
