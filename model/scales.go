package model

import (
	"cmp"
	"fmt"
	"math"

	"daub.example/daub/model/fit"
	"gonum.org/v1/gonum/stat/distuv"
)

// spoonSizeRel is the relative standard uncertainty of the size of a spoon that
// was neither weighed level nor calibrated: sets differ (chosen).
const spoonSizeRel = 0.05

// Teaspoon is the spoon that ratios per spoon are given for.
const Teaspoon = "1 tsp"

// Scales turns spoonfuls of one powder into grams: the weighings of its level
// spoons and the spoons they were made with.
type Scales struct {
	Set    SpoonSet
	Drawer Drawer
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
	s := Scales{Set: cmp.Or(set, US), Drawer: d}
	for _, l := range p.LevelSpoons {
		w, ok := l.Weight()
		if !ok {
			continue
		}
		volume := l.VolumeML
		if spoon, known := d.Spoon(s.Set, l.Spoon); known && volume == 0 {
			volume = spoon.VolumeML
		}
		s.weighs = append(s.weighs, weighed{l.Spoon, volume, w})
	}
	return s
}

// Scoop is what one level spoon of a powder weighs, and what is unsure in it.
type Scoop struct {
	Grams float64 // above 0
	// source is the name of the weighed spoon it rests on, weight what that
	// spoon's weighings say.
	Source string
	Weight SpoonWeight
	// sizeRel is the relative standard uncertainty of the spoon's size, 0 for
	// a spoon that was weighed level itself.
	sizeRel float64
}

// Scoop is the weight of one level spoon by name. A size that was weighed
// stands for itself; any other goes by volume and the level-spoon density of
// the weighed size nearest to it.
func (s Scales) Scoop(spoon string) (Scoop, error) {
	for _, w := range s.weighs {
		if w.spoon == spoon {
			return Scoop{Grams: w.weight.Mean, Source: w.spoon, Weight: w.weight}, nil
		}
	}
	if len(s.weighs) == 0 {
		return Scoop{}, fmt.Errorf("no level spoon of this powder has been weighed, so %s has no weight: weigh one, or give the grams added", spoon)
	}
	size, ok := s.Drawer.Spoon(s.Set, spoon)
	if !ok {
		return Scoop{}, fmt.Errorf("the spoon %q is not known: use a standard one such as 1/2 tsp, or list it among your own spoons", spoon)
	}
	w, ok := s.nearest(size.VolumeML)
	if !ok {
		return Scoop{}, fmt.Errorf("the weighed spoon %q has no volume, so %s cannot be reckoned from it: give its volume_ml, or weigh %s itself", s.weighs[0].spoon, spoon, spoon)
	}
	rel := spoonSizeRel
	if size.UncertaintyML > 0 {
		rel = size.UncertaintyML / size.VolumeML
	}
	return Scoop{Grams: w.weight.Mean / w.volume * size.VolumeML, Source: w.spoon, Weight: w.weight, sizeRel: rel}, nil
}

// nearest is the weighed spoon whose volume is nearest to the given one, mL, as
// a factor; the first of equals. ok is false where no volume is known.
func (s Scales) nearest(volume float64) (found weighed, ok bool) {
	distance := math.Inf(1)
	for _, w := range s.weighs {
		if w.volume <= 0 {
			continue
		}
		if d := math.Abs(math.Log(w.volume / volume)); d < distance {
			found, distance, ok = w, d, true
		}
	}
	return found, ok
}

// Teaspoon is the weight of one level teaspoon, g; ok is false without a
// weighing that reaches it.
func (s Scales) Teaspoon() (grams float64, ok bool) {
	scoop, err := s.Scoop(Teaspoon)
	return scoop.Grams, err == nil
}

// LiquidSpoonG is the weight of one spoon of the trial's liquid, g.
func (t Trial) LiquidSpoonG(spoon string, d Drawer) (float64, error) {
	if spoon == "" {
		return 0, ErrNothingGiven(AddLiquid)
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

// WeightHalf is the 95 % half-width of the mean weight the scoop rests on,
// relative.
func (s Scoop) WeightHalf() float64 { return s.Weight.K * s.Weight.UMean }

// SizeHalf is the 95 % half-width of the size of the scoop's spoon, relative.
func (s Scoop) SizeHalf() float64 { return fit.Normal95 * s.sizeRel }

// TwoMoreWeighings is the factor by which two more weighings of each weighed
// spoon, scattering as those so far, would shrink the spoon weight's term: of
// the spoon for which it shrinks least.
func (s Scales) TwoMoreWeighings() float64 {
	factor := 0.0
	for _, w := range s.weighs {
		now := w.weight
		n := float64(now.N)
		scale := math.Pow(now.UMean, 2) - math.Pow(now.RelSD, 2)/n // the scale's resolution stays
		k := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: priorWeighings + n + 1}.Quantile(0.975)
		u := math.Sqrt(math.Pow(now.RelSD, 2)/(n+2) + math.Max(scale, 0))
		factor = math.Max(factor, k*u/(now.K*now.UMean))
	}
	return factor
}
