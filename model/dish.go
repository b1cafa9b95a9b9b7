package model

import (
	"cmp"
	"fmt"
	"slices"
)

// liquidBySpoonRel is the relative standard uncertainty of an amount of liquid
// measured by spoon (chosen).
const liquidBySpoonRel = 0.03

// Dish is what the dish holds after a step.
type Dish struct {
	PowderG float64 // g, 0 or more
	LiquidG float64 // g, 0 or more
	powder  []portion
	liquid  []portion
}

// portion is one addition still in the dish.
type portion struct {
	grams float64
	spoon string // "" when weighed
	each  float64
	u     float64 // standard uncertainty of grams, where it was weighed or is liquid
	scoop Scoop
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

func (d Dish) addPowder(p portion) Dish {
	d.PowderG += p.grams
	d.powder = append(slices.Clip(d.powder), p)
	return d
}

func (d Dish) addLiquid(p portion) Dish {
	d.LiquidG += p.grams
	d.liquid = append(slices.Clip(d.liquid), p)
	return d
}

// take removes grams of paste: powder and liquid shrink alike.
func (d Dish) take(grams float64) Dish {
	keep := 1 - grams/d.PasteG()
	shrink := func(ps []portion) []portion {
		out := slices.Clone(ps)
		for i := range out {
			out[i].grams *= keep
			out[i].each *= keep
			out[i].u *= keep
		}
		return out
	}
	return Dish{PowderG: d.PowderG * keep, LiquidG: d.LiquidG * keep, powder: shrink(d.powder), liquid: shrink(d.liquid)}
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
func (t Trial) StartDish() Dish {
	if !(t.LiquidG > 0) {
		return Dish{}
	}
	u := rounding(cmp.Or(t.ResolutionG, DefaultResolutionG))
	if t.LiquidBy == BySpoon {
		u = liquidBySpoonRel * t.LiquidG
	}
	return Dish{}.addLiquid(portion{grams: t.LiquidG, u: u})
}

// Dishes is what the dish holds after each step, one entry a step. A step
// that cannot be reckoned gives a *StepError and the dishes before it.
func (t Trial) Dishes(s Scales) ([]Dish, error) {
	dish := t.StartDish()
	dishes := make([]Dish, 0, len(t.Steps))
	for i, step := range t.Steps {
		next, err := t.apply(dish, step, s)
		if err != nil {
			return dishes, &StepError{i, err}
		}
		dish = next
		dishes = append(dishes, dish)
	}
	return dishes, nil
}

// apply is the dish after one more step.
func (t Trial) apply(d Dish, step Step, s Scales) (Dish, error) {
	u := rounding(cmp.Or(t.ResolutionG, DefaultResolutionG))
	count := float64(step.Spoons())
	switch step.Add {
	case AddPowder:
		if step.Weighed() {
			return d.addPowder(portion{grams: step.Grams, u: u}), nil
		}
		if step.Spoon == "" {
			return d, errNothingGiven(AddPowder)
		}
		scoop, err := s.Scoop(step.Spoon)
		if err != nil {
			return d, err
		}
		return d.addPowder(portion{grams: scoop.Grams * count, spoon: step.Spoon, each: scoop.Grams, scoop: scoop}), nil
	case AddLiquid:
		if step.Weighed() {
			return d.addLiquid(portion{grams: step.Grams, u: u}), nil
		}
		grams, err := t.LiquidSpoonG(step.Spoon, s.drawer)
		if err != nil {
			return d, err
		}
		return d.addLiquid(portion{grams: grams * count, spoon: step.Spoon, u: liquidBySpoonRel * grams * count}), nil
	case Removed:
		if !(step.Grams > 0 && step.Grams < d.PasteG()) {
			return d, fmt.Errorf("%s g of paste taken out of a dish that holds %s g: give grams above 0 and below that", Number(step.Grams), Grams(d.PasteG()))
		}
		return d.take(step.Grams), nil
	case AddNone:
		return d, nil
	default:
		return d, fmt.Errorf("the addition %q is not known: use powder, liquid, removed or none", string(step.Add))
	}
}

// errNothingGiven is the complaint about an addition of no amount.
func errNothingGiven(what Add) error {
	return fmt.Errorf("%s was added, but neither a spoon nor grams are given", string(what))
}

// LiquidSpoonG is the weight of one spoon of the trial's liquid, g.
func (t Trial) LiquidSpoonG(spoon string, d Drawer) (float64, error) {
	if spoon == "" {
		return 0, errNothingGiven(AddLiquid)
	}
	size, ok := d.Spoon(cmp.Or(t.SpoonSet, US), spoon)
	if !ok {
		return 0, fmt.Errorf("the spoon %q is not known: use a standard one such as 1/2 tsp, or list it among your own spoons", spoon)
	}
	density, ok := t.Density()
	if !ok {
		return 0, fmt.Errorf("the density of %q is not known, so a spoon of it has no weight: give the liquid's density, or weigh the liquid", t.Liquid)
	}
	return size.VolumeML * density, nil
}
