package bench

import (
	"cmp"
	"fmt"

	"daub.example/daub/model"
)

// liquidBySpoonRel is the relative standard uncertainty of an amount of liquid
// measured by spoon (chosen).
const liquidBySpoonRel = 0.03

// Dish holds the contents of the dish after a step. It also keeps how the masses came
// about, to work out their uncertainty.
type Dish struct {
	PowderG float64 // g, 0 or more
	LiquidG float64 // g, 0 or more
	// Guess says that some of the powder came by spoons of which nothing is weighed yet:
	// good for steering, not for an answer.
	Guess bool

	powder    *ledger // how the powder came in; nil for none
	steps     int     // the number of steps of the ledger that are in the dish
	liquidVar float64 // variance of the liquid, g²
	liquids   int     // additions of liquid, the one at the start among them
}

// PowderPerLiquid gives x, g powder per g liquid; +Inf without liquid, NaN for an empty
// dish.
func (d Dish) PowderPerLiquid() float64 { return d.PowderG / d.LiquidG }

// Ratio gives g liquid per g powder; +Inf without powder, NaN for an empty dish.
func (d Dish) Ratio() float64 { return d.LiquidG / d.PowderG }

// PasteG gives the mass of the paste, g.
func (d Dish) PasteG() float64 { return d.PowderG + d.LiquidG }

// Mixed reports whether the dish holds both powder and liquid, so that a look at it counts.
func (d Dish) Mixed() bool { return d.PowderG > 0 && d.LiquidG > 0 }

// HasRatio reports whether the dish is mixed and what it holds is no guess, so that its
// ratio may be shown.
func (d Dish) HasRatio() bool { return d.Mixed() && !d.Guess }

// PowderText gives the powder in the dish: "12.30 g powder", "about 12.3 g powder" where the
// pot was weighed and spoons were taken since, or "about 12 g powder" while its weight is a
// guess.
func (d Dish) PowderText() string {
	if !d.Guess && d.powder != nil && d.powder.sincePot(d.steps) {
		return "about " + model.Significant(d.PowderG, 3) + " g powder"
	}
	return GramsText(d.PowderG, d.Guess) + " powder"
}

// GramsText writes a mass: "12.30 g", or "about 12 g" if it is a guess.
func GramsText(grams float64, guess bool) string {
	if guess {
		return "about " + model.Significant(grams, 2) + " g"
	}
	return model.Grams(grams) + " g"
}

// addLiquid adds liquid; u is the standard uncertainty, g.
func (d Dish) addLiquid(grams, u float64) Dish {
	d.LiquidG += grams
	d.liquidVar += square(u)
	d.liquids++
	return d
}

// remove takes out grams of paste: powder and liquid shrink alike.
func (d Dish) remove(grams float64) Dish {
	keep := 1 - grams/d.PasteG()
	d.PowderG *= keep
	d.LiquidG *= keep
	d.liquidVar *= square(keep)
	return d
}

// uScale gives the standard uncertainty of a reading of the trial's scale, g.
func uScale(t model.Trial) float64 {
	return model.Rounding(cmp.Or(t.ResolutionG, model.DefaultResolutionG))
}

// StepError says which step of a trial cannot be calculated, and why.
type StepError struct {
	Step int // from 0
	Err  error
}

// Error counts the step from 1, as a maker does.
func (e *StepError) Error() string { return fmt.Sprintf("step %d: %v", e.Step+1, e.Err) }

// Unwrap gives the reason.
func (e *StepError) Unwrap() error { return e.Err }

// StartDish gives the dish before the first step.
func StartDish(t model.Trial) Dish {
	if !(t.LiquidG > 0) {
		return Dish{}
	}
	u := uScale(t)
	if t.LiquidBy == model.BySpoon {
		u = liquidBySpoonRel * t.LiquidG
	}
	return Dish{}.addLiquid(t.LiquidG, u)
}

// Dishes works out the contents of the dish after each step, one entry a step. A step
// that cannot be calculated gives a *StepError and the dishes before it.
func Dishes(t model.Trial, s model.SpoonWeights) ([]Dish, error) {
	dish := StartDish(t)
	l := newLedger(t, s)
	dishes := make([]Dish, 0, len(t.Steps))
	for i, step := range t.Steps {
		next, err := apply(t, dish, step, s)
		if err != nil {
			return dishes, &StepError{i, err}
		}
		switch step.Add {
		case model.AddPowder:
			grams, guess := l.grams(i)
			next.PowderG, next.Guess = dish.PowderG+grams, dish.Guess || guess
		case model.Removed:
			l.entries[i].keep = 1 - step.Grams/dish.PasteG()
		}
		next.powder, next.steps = l, i+1
		dish = next
		dishes = append(dishes, dish)
	}
	return dishes, nil
}

// apply gives the dish after one more step, with spoonfuls at the spoon weights.
func apply(t model.Trial, d Dish, step model.Step, s model.SpoonWeights) (Dish, error) {
	count := float64(step.Spoons())
	switch step.Add {
	case model.AddPowder:
		if step.Weighed() {
			d.PowderG += step.Grams
			return d, nil
		}
		if step.Spoon == "" {
			return d, model.ErrNothingGiven(model.AddPowder)
		}
		scoop, err := s.Scoop(step.Spoon)
		if err != nil {
			return d, err
		}
		d.PowderG += scoop.Grams * count
		d.Guess = d.Guess || scoop.Guess
		return d, nil
	case model.AddLiquid:
		if step.Weighed() {
			return d.addLiquid(step.Grams, uScale(t)), nil
		}
		grams, err := t.LiquidSpoonG(step.Spoon, s.OwnSpoons)
		if err != nil {
			return d, err
		}
		return d.addLiquid(grams*count, liquidBySpoonRel*grams*count), nil
	case model.Removed:
		if !(step.Grams > 0 && step.Grams < d.PasteG()) {
			return d, fmt.Errorf("%s g of paste taken out of a dish that holds %s g: give grams above 0 and below that",
				model.Number(step.Grams), model.Grams(d.PasteG()))
		}
		return d.remove(step.Grams), nil
	case model.AddNone:
		return d, nil
	default:
		return d, fmt.Errorf("the addition %q is not known: use powder, liquid, removed or none", string(step.Add))
	}
}
