package bench

import (
	"cmp"
	"fmt"
	"slices"

	"daub.example/daub/model"
)

// liquidBySpoonRel is the relative standard uncertainty of an amount of liquid
// measured by spoon (chosen).
const liquidBySpoonRel = 0.03

// Dish is what the dish holds after a step. Beside the masses it keeps running
// sums of what is unsure in them, so that a dish costs the same after the first
// step and after the thousandth.
type Dish struct {
	PowderG float64 // g, 0 or more
	LiquidG float64 // g, 0 or more

	spooned   []spooned // powder by the spoon, one entry a size; never changed in place
	scaleVar  float64   // variance of the powder that was weighed, g²
	liquidVar float64   // variance of the liquid, g²
	liquids   int       // additions of liquid, the one at the start among them
}

// spooned is the powder in the dish that came by one size of spoon.
type spooned struct {
	spoon   string
	scoop   model.Scoop
	grams   float64
	squares float64 // Σm² over its single spoons, g²
}

// PowderPerLiquid is x, g powder per g liquid; +Inf without liquid, NaN for
// an empty dish.
func (d Dish) PowderPerLiquid() float64 { return d.PowderG / d.LiquidG }

// Ratio is g liquid per g powder; +Inf without powder, NaN for an empty dish.
func (d Dish) Ratio() float64 { return d.LiquidG / d.PowderG }

// PasteG is all that the dish holds, g.
func (d Dish) PasteG() float64 { return d.PowderG + d.LiquidG }

// Mixed reports whether the dish holds both, so that a look at it counts.
func (d Dish) Mixed() bool { return d.PowderG > 0 && d.LiquidG > 0 }

// addWeighed puts in powder that was weighed; u is the standard uncertainty, g.
func (d Dish) addWeighed(grams, u float64) Dish {
	d.PowderG += grams
	d.scaleVar += square(u)
	return d
}

// addSpoons puts in powder by the level spoon.
func (d Dish) addSpoons(spoon string, scoop model.Scoop, count float64) Dish {
	grams := scoop.Grams * count
	d.PowderG += grams
	d.spooned = slices.Clone(d.spooned)
	i := slices.IndexFunc(d.spooned, func(s spooned) bool { return s.spoon == spoon })
	if i < 0 {
		i = len(d.spooned)
		d.spooned = append(d.spooned, spooned{spoon: spoon, scoop: scoop})
	}
	d.spooned[i].grams += grams
	d.spooned[i].squares += grams * scoop.Grams
	return d
}

// addLiquid puts in liquid; u is the standard uncertainty, g.
func (d Dish) addLiquid(grams, u float64) Dish {
	d.LiquidG += grams
	d.liquidVar += square(u)
	d.liquids++
	return d
}

// take removes grams of paste: powder and liquid shrink alike.
func (d Dish) take(grams float64) Dish {
	keep := 1 - grams/d.PasteG()
	d.PowderG *= keep
	d.LiquidG *= keep
	d.scaleVar *= square(keep)
	d.liquidVar *= square(keep)
	d.spooned = slices.Clone(d.spooned)
	for i := range d.spooned {
		d.spooned[i].grams *= keep
		d.spooned[i].squares *= square(keep)
	}
	return d
}

// StepError says which step of a trial cannot be reckoned, and why.
type StepError struct {
	Step int // from 0
	Err  error
}

// Error counts the step from 1, as a maker does.
func (e *StepError) Error() string { return fmt.Sprintf("step %d: %v", e.Step+1, e.Err) }

// Unwrap gives the reason.
func (e *StepError) Unwrap() error { return e.Err }

// StartDish is the dish before the first step.
func StartDish(t model.Trial) Dish {
	if !(t.LiquidG > 0) {
		return Dish{}
	}
	u := model.Rounding(cmp.Or(t.ResolutionG, model.DefaultResolutionG))
	if t.LiquidBy == model.BySpoon {
		u = liquidBySpoonRel * t.LiquidG
	}
	return Dish{}.addLiquid(t.LiquidG, u)
}

// Dishes is what the dish holds after each step, one entry a step. A step
// that cannot be reckoned gives a *StepError and the dishes before it.
func Dishes(t model.Trial, s model.Scales) ([]Dish, error) {
	dish := StartDish(t)
	dishes := make([]Dish, 0, len(t.Steps))
	for i, step := range t.Steps {
		next, err := apply(t, dish, step, s)
		if err != nil {
			return dishes, &StepError{i, err}
		}
		dish = next
		dishes = append(dishes, dish)
	}
	return dishes, nil
}

// apply is the dish after one more step.
func apply(t model.Trial, d Dish, step model.Step, s model.Scales) (Dish, error) {
	u := model.Rounding(cmp.Or(t.ResolutionG, model.DefaultResolutionG))
	count := float64(step.Spoons())
	switch step.Add {
	case model.AddPowder:
		if step.Weighed() {
			return d.addWeighed(step.Grams, u), nil
		}
		if step.Spoon == "" {
			return d, model.ErrNothingGiven(model.AddPowder)
		}
		scoop, err := s.Scoop(step.Spoon)
		if err != nil {
			return d, err
		}
		return d.addSpoons(step.Spoon, scoop, count), nil
	case model.AddLiquid:
		if step.Weighed() {
			return d.addLiquid(step.Grams, u), nil
		}
		grams, err := t.LiquidSpoonG(step.Spoon, s.Drawer)
		if err != nil {
			return d, err
		}
		return d.addLiquid(grams*count, liquidBySpoonRel*grams*count), nil
	case model.Removed:
		if !(step.Grams > 0 && step.Grams < d.PasteG()) {
			return d, fmt.Errorf("%s g of paste taken out of a dish that holds %s g: give grams above 0 and below that", model.Number(step.Grams), model.Grams(d.PasteG()))
		}
		return d.take(step.Grams), nil
	case model.AddNone:
		return d, nil
	default:
		return d, fmt.Errorf("the addition %q is not known: use powder, liquid, removed or none", string(step.Add))
	}
}
