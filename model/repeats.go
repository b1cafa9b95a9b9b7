package model

import (
	"math"
	"slices"
	"time"

	"daub.example/daub/model/fit"
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

// Basis is what a ratio of a powder rests on beside its level: trials in
// another liquid, or with a rest more than threefold apart, are another ratio.
type Basis struct {
	Liquid string
	RestS  int
}

// matches reports whether a trial may count towards the basis.
func (b Basis) matches(t Trial, f Family) bool {
	t = t.WithDefaults(f)
	return SameLiquid(t.Liquid, b.Liquid) && ComparableRests(*t.RestS, b.RestS)
}

// Bases lists what the profile's used trials rest on: the main one first, on
// which most of them rest, the newest on a tie; then the others, newest first.
func (p Profile) Bases() []Basis {
	var bases []Basis
next:
	for _, t := range p.newestFirst() {
		t = t.WithDefaults(p.Powder.Kind())
		if !t.Used() {
			continue
		}
		for _, b := range bases {
			if b.matches(t, p.Powder.Kind()) {
				continue next
			}
		}
		bases = append(bases, Basis{t.Liquid, *t.RestS})
	}
	return p.mainFirst(bases)
}

// newestFirst is the trials, newest first by their start; trials started at
// the same moment keep the later one in the file first.
func (p Profile) newestFirst() []Trial {
	ts := make([]Trial, 0, len(p.Trials))
	for i := len(p.Trials) - 1; i >= 0; i-- {
		ts = append(ts, p.Trials[i])
	}
	slices.SortStableFunc(ts, func(a, b Trial) int { return b.Started.Compare(a.Started) })
	return ts
}

// LastTrial is when the newest trial that counts was started; zero without.
func (p Profile) LastTrial() time.Time {
	if i := p.NewestWhere(Trial.Used); i >= 0 {
		return p.Trials[i].Started
	}
	return time.Time{}
}

// Aim is the level the newest trial aims at, DefaultAim without a trial.
func (p Profile) Aim() float64 {
	if i := p.Newest(); i >= 0 {
		return p.Trials[i].WithDefaults(p.Powder.Kind()).Aim
	}
	return DefaultAim
}

// PowderRatio is what all trials of one powder and lot on one basis say of
// one level: this powder, and the next dish made of it.
type PowderRatio struct {
	Basis  Basis
	Level  float64
	Reach  fit.Reach
	Trials int           // the trials it rests on; with a bound, those that gave one
	Powder *fit.Interval // R of this powder; nil when not reached
	Next   *fit.Interval // R of the next dish; nil when not reached
	Bound  *fit.Bound    // when not reached; nil without any look
	// BetweenTrials is the median of the spread between trials in ln R.
	BetweenTrials float64
	// PerTsp is g liquid per level teaspoon, nil without a weighed spoon.
	PerTsp *fit.Interval
	Budget *fit.Budget // shares of Powder's interval; nil when not reached
	// Far lists the trials, by their place in the profile, that sit far from
	// where the others put them; they are used all the same.
	Far []int
	// Slope is how many levels thicker an e-fold of powder per liquid makes
	// it: the mean of the trials' posterior medians; 0 when not reached.
	Slope float64

	afterRepeat float64 // half-width of Powder in ln R after one more trial
}

// Ratios reads every used trial of the basis at several levels and combines
// them. A trial that cannot be reckoned is left out: Validate reports it.
func (p Profile) Ratios(b Basis, levels []float64, d Drawer) []PowderRatio {
	perLevel := make([][]Answer, len(levels))
	for n, t := range p.Trials {
		if !t.Used() || !b.matches(t, p.Powder.Kind()) {
			continue
		}
		r, err := Read(p, t, d)
		if err != nil {
			continue
		}
		for i, a := range r.Answers(levels) {
			a.trial = n
			perLevel[i] = append(perLevel[i], a)
		}
	}
	out := make([]PowderRatio, len(levels))
	for i, level := range levels {
		out[i] = combine(b, level, perLevel[i])
	}
	return out
}

// combine turns the trials' answers at one level into the powder's.
func combine(b Basis, level float64, answers []Answer) PowderRatio {
	out := PowderRatio{Basis: b, Level: level}
	used := answersOf(answers, fit.Bracketed)
	out.Reach = fit.Bracketed
	if len(used) == 0 {
		used, out.Reach = answersOf(answers, fit.OneSided), fit.OneSided
	}
	if len(used) == 0 {
		out.Reach = fit.NotReached
		out.Bound, out.Trials = tightest(answers)
		return out
	}
	repeats, common := repeatsOf(used, func(a Answer) fit.Masses { return a.Masses })
	c, ok := fit.Combine(repeats, common)
	if !ok {
		out.Reach = fit.NotReached
		return out
	}
	out.Trials = len(used)
	for _, a := range used {
		out.Slope += a.Slope / float64(len(used))
	}
	if tsp := used[0].tspG; tsp > 0 {
		if per, ok := fit.Combine(repeatsOf(used, func(a Answer) fit.Masses { return a.massesPerTsp })); ok {
			out.PerTsp = times(*exp(per.Powder), tsp)
		}
	}
	out.Powder, out.Next = exp(c.Powder), exp(c.Next)
	out.BetweenTrials = c.BetweenTrials
	out.Budget = powderBudget(used, repeats, common, halfWidth(*out.Powder))
	out.afterRepeat = oneMore(repeats, common, c.Powder.Median)
	for _, i := range farFrom(repeats) {
		out.Far = append(out.Far, used[i].trial)
	}
	return out
}

// repeatsOf is what each trial says on its own, and the half-width in ln R of
// the spoon weight that they share.
func repeatsOf(used []Answer, massesOf func(Answer) fit.Masses) (repeats []fit.Repeat, common float64) {
	for _, a := range used {
		own := massesOf(a)
		common += own.SpoonWeight / float64(len(used))
		own.SpoonWeight = 0 // common to all trials: added once, at the end
		iv, _ := own.Widen(*a.Ratio)
		repeats = append(repeats, fit.Repeat{LnRatio: math.Log(iv.Median), StandardUncertainty: halfWidth(iv) / normal95})
	}
	return repeats, common
}

// answersOf are the answers of one reach that have a ratio.
func answersOf(answers []Answer, reach fit.Reach) []Answer {
	var out []Answer
	for _, a := range answers {
		if a.Reach == reach && a.Ratio != nil {
			out = append(out, a)
		}
	}
	return out
}

// tightest is the tightest bound that the trials agree on; where two
// contradict each other, the later trial's stands.
func tightest(answers []Answer) (*fit.Bound, int) {
	var out *fit.Bound
	n := 0
	for _, a := range answers {
		if a.Bound == nil {
			continue
		}
		n++
		b := *a.Bound
		if out != nil {
			both := fit.Bound{Low: math.Max(out.Low, b.Low), High: math.Min(out.High, b.High)}
			if both.Low < both.High {
				b = both
			}
		}
		out = &b
	}
	return out, n
}

// times scales an interval.
func times(iv fit.Interval, c float64) *fit.Interval {
	return &fit.Interval{Median: iv.Median * c, Low: iv.Low * c, High: iv.High * c}
}

// exp turns an interval in ln R into one in R.
func exp(iv fit.Interval) *fit.Interval {
	return &fit.Interval{Median: math.Exp(iv.Median), Low: math.Exp(iv.Low), High: math.Exp(iv.High)}
}

// powderBudget shares the powder's interval out: the trials' own terms in the
// proportions of their budgets, each trial by its weight in the mean, the spoon
// weight they share, and what the spread between trials adds.
func powderBudget(used []Answer, repeats []fit.Repeat, common, half float64) *fit.Budget {
	precision := 0.0
	for _, r := range repeats {
		precision += 1 / square(r.StandardUncertainty)
	}
	own := normal95 * normal95 / precision
	spoon := common * common
	spread := math.Max(half*half-own-spoon, 0)
	total := own + spoon + spread
	var b fit.Budget
	for i, a := range used {
		rest := 1 - a.Budget.SpoonWeight
		if rest <= 0 {
			continue
		}
		weight := 1 / square(repeats[i].StandardUncertainty) / precision
		part := weight * own / total / rest
		b.Looks += part * a.Budget.Looks
		b.Scoops += part * a.Budget.Scoops
		b.PowderScale += part * a.Budget.PowderScale
		b.Liquid += part * a.Budget.Liquid
		b.SpoonSize += part * a.Budget.SpoonSize
	}
	b.SpoonWeight, b.Repeats = spoon/total, spread/total
	return &b
}
