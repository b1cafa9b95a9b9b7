package model

import (
	"math"

	"daub.example/daub/model/fit"
)

// Reading is one trial made ready for the fit: what the dish held at each
// look, and what the look said.
type Reading struct {
	Profile Profile
	Trial   Trial // with defaults filled in
	Scales  Scales
	Dishes  []Dish // after each step
	data    fit.Data
	stepOf  []int // per look in data, the step it belongs to
}

// Read reckons a trial of the profile. An error is a *StepError: a step that
// cannot be reckoned; the reading then holds what came before it.
func Read(p Profile, t Trial, d Drawer) (Reading, error) {
	t = t.WithDefaults(p.Powder.Kind())
	r := Reading{Profile: p, Trial: t, Scales: p.Scales(t.SpoonSet, d)}
	dishes, err := t.Dishes(r.Scales)
	r.Dishes = dishes
	r.data.LevelStep = t.LevelStep
	for i, dish := range dishes {
		if step := t.Steps[i]; step.Looked && dish.Mixed() {
			r.data.Looks = append(r.data.Looks, fit.Look{PowderPerLiquid: dish.PowderPerLiquid(), Level: step.Level})
			r.stepOf = append(r.stepOf, i)
		}
	}
	return r, err
}

// Dish is what is in the dish now.
func (r Reading) Dish() Dish {
	if n := len(r.Dishes); n > 0 {
		return r.Dishes[n-1]
	}
	return r.Trial.StartDish()
}

// Looks is the number of looks that count.
func (r Reading) Looks() int { return len(r.data.Looks) }

// Answer is what one trial says about one level: this dish.
type Answer struct {
	fit.Result               // the fit alone
	Dish       *fit.Interval // R with what the masses do not know; nil when not reached
	PerTsp     *fit.Interval // g liquid per level teaspoon; nil when not reached or no spoon weighed
	Budget     *fit.Budget   // shares of Dish's interval; nil when not reached
	Masses     fit.Masses    // the half-widths behind the budget

	trial        int        // its place in the profile
	tspG         float64    // g per level teaspoon, 0 without a weighing
	massesPerTsp fit.Masses // as Masses, for the ratio per teaspoon
}

// Answers reads the trial at several levels at once, in the order given.
func (r Reading) Answers(levels []float64) []Answer {
	results := fit.Levels(r.data, levels)
	answers := make([]Answer, len(results))
	for i, res := range results {
		answers[i] = r.answer(res)
	}
	return answers
}

// At reads the trial at one level.
func (r Reading) At(level float64) Answer { return r.answer(fit.At(r.data, level)) }

func (r Reading) answer(res fit.Result) Answer {
	a := Answer{Result: res}
	if res.Ratio == nil {
		return a
	}
	dish := r.Dishes[r.stepOf[res.Nearest]]
	a.Masses = dish.Masses(r.Scales)
	iv, budget := a.Masses.Widen(*res.Ratio)
	a.Dish, a.Budget = &iv, &budget
	if tsp, ok := r.Scales.Teaspoon(); ok {
		a.tspG, a.massesPerTsp = tsp, dish.MassesPerSpoon(r.Scales)
		per, _ := a.massesPerTsp.Widen(*res.Ratio)
		a.PerTsp = times(per, tsp)
	}
	return a
}

// FarOut lists the steps whose look sits far from where the others put it;
// it is pointed at, never dropped.
func (r Reading) FarOut() []int {
	var steps []int
	for _, look := range fit.FarOut(r.data, r.Trial.Aim) {
		steps = append(steps, r.stepOf[look])
	}
	return steps
}

// halfWidth is half the interval's width in ln R.
func halfWidth(iv fit.Interval) float64 { return (math.Log(iv.High) - math.Log(iv.Low)) / 2 }
