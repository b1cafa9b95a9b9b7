package model

import (
	"math"
	"slices"

	"daub.example/daub/model/fit"
	"gonum.org/v1/gonum/stat/distuv"
)

// Terms lists what this dish's interval is made of, the largest share first,
// each with the half-width in ln R that would be left after doing what would
// shrink it; nil when the level is not reached.
func (r Reading) Terms(a Answer) []Term {
	if a.Budget == nil {
		return nil
	}
	looks := halfWidth(*a.Ratio)
	total := square(halfWidth(*a.Dish))
	after := map[string]float64{ // the term's own half-width afterwards
		"looks":        r.afterLook(a, looks),
		"spoon_weight": a.Masses.SpoonWeight * r.Scales.twoMoreWeighings(),
		"scoops":       a.Masses.Scoops / math.Sqrt2, // twice as many scoops
		"powder_scale": a.Masses.PowderScale / 2,     // twice as much of everything
		"liquid":       r.weighedLiquid(a),
		"spoon_size":   0,
	}
	terms := Terms(*a.Budget)
	for i := range terms {
		t := &terms[i]
		own := t.Share * total
		t.After = math.Sqrt(math.Max(total-own+square(after[t.Key]), 0))
	}
	return terms
}

// afterLook is the half-width of the fit that the best next look is expected
// to leave.
func (r Reading) afterLook(a Answer, now float64) float64 {
	dish := r.Dish()
	var xs []float64
	for _, c := range append(r.candidates(AddPowder), r.candidates(AddLiquid)...) {
		xs = append(xs, dish.with(c).PowderPerLiquid())
	}
	best := now
	for _, o := range r.Curve().Outlooks(a.Level, xs, fit.Expected{}) {
		best = math.Min(best, o.HalfWidth())
	}
	return best
}

// twoMoreWeighings is the factor by which two more weighings of each weighed
// spoon, scattering as those so far, would shrink the spoon weight's term: of
// the spoon for which it shrinks least.
func (s Scales) twoMoreWeighings() float64 {
	factor := 0.0
	for _, w := range s.weighs {
		now := w.weight
		n := float64(now.N)
		scale := square(now.UMean) - square(now.RelSD)/n // the scale's resolution stays
		k := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: priorWeighings + n + 1}.Quantile(0.975)
		u := math.Sqrt(square(now.RelSD)/(n+2) + math.Max(scale, 0))
		factor = math.Max(factor, k*u/(now.K*now.UMean))
	}
	return factor
}

// weighedLiquid is the liquid's half-width had all of it been weighed, or,
// where it was, had there been twice as much.
func (r Reading) weighedLiquid(a Answer) float64 {
	dish := r.dishAtAim()
	weighed := normal95 * rounding(r.Trial.ResolutionG) * math.Sqrt(float64(dish.liquids)) / dish.LiquidG
	if weighed >= a.Masses.Liquid {
		return a.Masses.Liquid / 2
	}
	return weighed
}

// Terms lists what the powder's interval is made of, the largest share first.
// What one more trial like the others would leave stands with "repeats"; the
// other terms belong to single dishes and have no After.
func (r PowderRatio) Terms() []Term {
	if r.Budget == nil {
		return nil
	}
	terms := Terms(*r.Budget)
	for i := range terms {
		if terms[i].Key == "repeats" {
			terms[i].After = r.afterRepeat
		}
	}
	return terms
}

// oneMore is the factor by which one more trial that agrees with the others
// would shrink the powder's interval, by the normal means of the trials.
func oneMore(repeats []fit.Repeat, common float64) float64 {
	u := 0.0
	for _, r := range repeats {
		u += r.StandardUncertainty / float64(len(repeats))
	}
	now, ok := fit.Combine(repeats, common)
	if !ok {
		return 0
	}
	more := append(slices.Clone(repeats), fit.Repeat{LnRatio: now.Powder.Median, StandardUncertainty: u})
	then, _ := fit.Combine(more, common)
	return (then.Powder.High - then.Powder.Low) / (now.Powder.High - now.Powder.Low)
}

// farTrial is the standardised distance from its siblings at which a trial is
// pointed at: two-sided 2 %, as for a look (chosen).
const farTrial = 2.33

// farFrom lists the trials that sit far from where the others put the next
// dish; it takes two others at least. Such a trial is pointed at, never left
// out by itself.
func farFrom(repeats []fit.Repeat) []int {
	if len(repeats) < 3 {
		return nil
	}
	var far []int
	for i, r := range repeats {
		others := append(append([]fit.Repeat(nil), repeats[:i]...), repeats[i+1:]...)
		c, ok := fit.Combine(others, 0)
		if !ok {
			continue
		}
		spread := (c.Next.High - c.Next.Low) / (2 * normal95)
		if math.Abs(r.LnRatio-c.Next.Median) > farTrial*math.Hypot(spread, r.StandardUncertainty) {
			far = append(far, i)
		}
	}
	return far
}
