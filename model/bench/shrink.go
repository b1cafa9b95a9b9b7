package bench

import (
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Terms lists what this dish's interval is made of, the largest share first; nil when the
// level is not reached. Each has the half-width in ln R that would be left after the advice
// to shrink it.
func (r Reading) Terms(a Answer) []Term {
	if a.Budget == nil {
		return nil
	}
	looks := a.Ratio.HalfWidth()
	total := square(a.Dish.HalfWidth())
	after := map[string]float64{ // the term's own half-width afterwards
		"looks":        r.afterLook(a, looks),
		"spoon_weight": a.Masses.SpoonWeight * r.SpoonWeights.TwoMoreWeighings(),
		"scoops":       a.Masses.Scoops / math.Sqrt2, // twice as many scoops
		"powder_scale": a.Masses.PowderScale / 2,     // twice as much of everything
		"liquid":       r.weighedLiquid(a),
		"spoon_size":   0,
	}
	terms := BudgetTerms(*a.Budget)
	for i := range terms {
		t := &terms[i]
		own := t.Share * total
		t.Now = math.Sqrt(total)
		t.After = math.Sqrt(math.Max(total-own+square(after[t.Key]), 0))
		if t.Key == "spoon_weight" || t.Key == "scoops" || t.Key == "spoon_size" {
			if half, ok := r.afterPot(a); ok {
				t.Shrink, t.After = "weigh the pot of powder again", half
			}
		}
	}
	return terms
}

// afterLook gives the half-width of the fit that the best next look is expected to leave.
func (r Reading) afterLook(a Answer, now float64) float64 {
	dish := r.Dish()
	var xs []float64
	for _, c := range append(r.candidates(model.AddPowder), r.candidates(model.AddLiquid)...) {
		xs = append(xs, dish.with(c).PowderPerLiquid())
	}
	best := now
	asked, _ := r.asked(a.Level)
	for _, o := range r.Curve().Outlooks(asked, xs, fit.Expected{}) {
		best = math.Min(best, o.HalfWidth())
	}
	return best
}

// weighedLiquid gives the liquid's half-width had all of it been weighed, or, where it was,
// had there been twice as much.
func (r Reading) weighedLiquid(a Answer) float64 {
	dish := r.DishAtAim()
	weighed := fit.Normal95 * model.Rounding(r.Trial.ResolutionG) * math.Sqrt(float64(dish.liquids)) / dish.LiquidG
	if weighed >= a.Masses.Liquid {
		return a.Masses.Liquid / 2
	}
	return weighed
}
