package model

import (
	"fmt"
	"math"
	"slices"

	"daub.example/daub/model/fit"
)

// Relative standard uncertainties of METHOD's mass terms (chosen).
const (
	liquidBySpoonRel = 0.03 // an amount of liquid measured by spoon
	spoonSizeRel     = 0.05 // a spoon size neither weighed level nor calibrated: sets differ
)

// normal95 is the half-width of a 95 % interval in standard deviations.
const normal95 = 1.96

// Scales turns spoonfuls of one powder into grams: the weighings of its level
// spoons and the spoons they were made with.
type Scales struct {
	set    SpoonSet
	drawer Drawer
	weighs []weighed
}

// weighed is one size of spoon that was weighed level.
type weighed struct {
	spoon  string
	volume float64 // mL; 0 unknown
	weight SpoonWeight
}

// Scales gathers the powder's weighings for spoons of the given set.
func (p Profile) Scales(set SpoonSet, d Drawer) Scales {
	s := Scales{set: orElse(set, US), drawer: d}
	for _, l := range p.LevelSpoons {
		w, ok := l.Weight()
		if !ok {
			continue
		}
		volume := l.VolumeML
		if spoon, known := d.Spoon(s.set, l.Spoon); known && volume == 0 {
			volume = spoon.VolumeML
		}
		s.weighs = append(s.weighs, weighed{l.Spoon, volume, w})
	}
	return s
}

// Scoop is what one level spoon of a powder weighs, and what is unsure in it.
type Scoop struct {
	Grams float64
	// source is the index of the weighing it rests on.
	source int
	// sizeRel is the relative standard uncertainty of the spoon's size, 0 for
	// a spoon that was weighed level itself.
	sizeRel float64
}

// Scoop is the weight of one level spoon by name. A size that was weighed
// stands for itself; any other goes by volume and the level-spoon density of
// the weighed size nearest to it.
func (s Scales) Scoop(spoon string) (Scoop, error) {
	for i, w := range s.weighs {
		if w.spoon == spoon {
			return Scoop{Grams: w.weight.Mean, source: i}, nil
		}
	}
	if len(s.weighs) == 0 {
		return Scoop{}, fmt.Errorf("no level spoon of this powder has been weighed, so %s has no weight: weigh one, or give the grams added", spoon)
	}
	size, ok := s.drawer.Spoon(s.set, spoon)
	if !ok {
		return Scoop{}, fmt.Errorf("the spoon %q is not known: use a standard one such as 1/2 tsp, or list it among your own spoons", spoon)
	}
	best := -1
	distance := math.Inf(1)
	for i, w := range s.weighs {
		if w.volume <= 0 {
			continue
		}
		if d := math.Abs(math.Log(w.volume / size.VolumeML)); d < distance {
			best, distance = i, d
		}
	}
	if best < 0 {
		return Scoop{}, fmt.Errorf("the weighed spoon %q has no volume, so %s cannot be reckoned from it: give its volume_ml, or weigh %s itself", s.weighs[0].spoon, spoon, spoon)
	}
	rel := spoonSizeRel
	if size.UncertaintyML > 0 {
		rel = size.UncertaintyML / size.VolumeML
	}
	w := s.weighs[best]
	return Scoop{Grams: w.weight.Mean / w.volume * size.VolumeML, source: best, sizeRel: rel}, nil
}

// Teaspoon is the weight of one level teaspoon, g; ok is false without a
// weighing that reaches it.
func (s Scales) Teaspoon() (grams float64, ok bool) {
	scoop, err := s.Scoop("1 tsp")
	return scoop.Grams, err == nil
}

// Dish is what the dish holds after a step.
type Dish struct {
	PowderG float64
	LiquidG float64
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

func (e *StepError) Error() string { return fmt.Sprintf("step %d: %v", e.Step+1, e.Err) }

// Unwrap gives the reason.
func (e *StepError) Unwrap() error { return e.Err }

// StartDish is the dish before the first step.
func (t Trial) StartDish() Dish {
	if t.LiquidG <= 0 {
		return Dish{}
	}
	u := rounding(orElse(t.ResolutionG, DefaultResolutionG))
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
	u := rounding(orElse(t.ResolutionG, DefaultResolutionG))
	count := float64(step.Spoons())
	switch step.Add {
	case AddPowder:
		if step.Weighed() {
			return d.addPowder(portion{grams: step.Grams, u: u}), nil
		}
		if step.Spoon == "" {
			return d, fmt.Errorf("powder was added, but neither a spoon nor grams are given")
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
	default:
		return d, nil
	}
}

// LiquidSpoonG is the weight of one spoon of the trial's liquid, g.
func (t Trial) LiquidSpoonG(spoon string, d Drawer) (float64, error) {
	if spoon == "" {
		return 0, fmt.Errorf("liquid was added, but neither a spoon nor grams are given")
	}
	size, ok := d.Spoon(orElse(t.SpoonSet, US), spoon)
	if !ok {
		return 0, fmt.Errorf("the spoon %q is not known: use a standard one such as 1/2 tsp, or list it among your own spoons", spoon)
	}
	density, ok := t.Density()
	if !ok {
		return 0, fmt.Errorf("the density of %q is not known, so a spoon of it has no weight: give the liquid's density, or weigh the liquid", t.Liquid)
	}
	return size.VolumeML * density, nil
}

// Masses are the half-widths in ln R that the dish's masses leave (law of
// propagation, JCGM 100:2008, 5), for the ratio in g/g.
func (d Dish) Masses(s Scales) fit.Masses { return d.masses(s, false) }

// MassesPerSpoon is Masses for the ratio per level spoon: where all powder
// came by that spoon, the spoon's weight cancels.
func (d Dish) MassesPerSpoon(s Scales) fit.Masses { return d.masses(s, true) }

func (d Dish) masses(s Scales, perSpoon bool) fit.Masses {
	share := make([]float64, len(s.weighs)) // of the powder, by the weighing it rests on
	sizes := map[string]float64{}           // share by spoon size that is itself unsure
	sizeRel := map[string]float64{}
	var scoops, powderScale, liquid float64
	for _, p := range d.powder {
		f := p.grams / d.PowderG
		if p.spoon == "" {
			powderScale += (p.u / d.PowderG) * (p.u / d.PowderG)
			continue
		}
		share[p.scoop.source] += f
		single := s.weighs[p.scoop.source].weight.RelSD * p.each / d.PowderG
		scoops += single * single * p.grams / p.each
		if p.scoop.sizeRel > 0 {
			sizes[p.spoon] += f
			sizeRel[p.spoon] = p.scoop.sizeRel
		}
	}
	for _, l := range d.liquid {
		liquid += (l.u / d.LiquidG) * (l.u / d.LiquidG)
	}
	if perSpoon && len(share) > 0 {
		if spoon, err := s.Scoop("1 tsp"); err == nil {
			share[spoon.source] = 1 - share[spoon.source]
		}
	}
	var spoonWeight, spoonSize float64
	for i, f := range share {
		w := s.weighs[i].weight
		spoonWeight += (f * w.K * w.UMean) * (f * w.K * w.UMean)
	}
	for _, name := range sortedKeys(sizes) {
		term := normal95 * sizeRel[name] * sizes[name]
		spoonSize += term * term
	}
	return fit.Masses{
		SpoonWeight: math.Sqrt(spoonWeight),
		Scoops:      normal95 * math.Sqrt(scoops),
		PowderScale: normal95 * math.Sqrt(powderScale),
		Liquid:      normal95 * math.Sqrt(liquid),
		SpoonSize:   math.Sqrt(spoonSize),
	}
}

// sortedKeys are a map's keys in a fixed order, so that sums repeat to the bit.
func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
