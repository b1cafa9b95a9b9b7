package model

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"daub.example/daub/model/fit"
)

// spoonSizeRel is the relative standard uncertainty of the size of a spoon that was neither
// weighed level nor calibrated: sets differ (chosen).
const spoonSizeRel = 0.05

// Teaspoon is the spoon that ratios per spoon are given for.
const Teaspoon = "1 tsp"

// SpoonWeights turns spoonfuls of one powder into grams. It holds the weighings of its
// level spoons, the pot's among them, and the spoons they were made with.
type SpoonWeights struct {
	Set       SpoonSet
	OwnSpoons OwnSpoons
	weighs    []weighed
	guess     float64 // g/mL of a level spoon, where nothing was weighed; 0 for none
}

// weighed is one size of spoon that was weighed level.
type weighed struct {
	spoon  string
	volume float64 // mL; 0 unknown
	weight SpoonWeight
	of     []weighing
	pot    int    // the number of them that come from the pot
	filled string // tapped or packed; "" as usual
}

// SpoonWeights gathers the powder's weighings for spoons of the given set. They are those
// of level spoons, and what the pot lost to spoons of one size in trials that are not set
// aside. A table marked as given by the pot counts where no trial gives that spoon.
func (p Profile) SpoonWeights(set SpoonSet, own OwnSpoons) SpoonWeights {
	s := SpoonWeights{Set: cmp.Or(set, US), OwnSpoons: own}
	for _, l := range p.LevelSpoons {
		if l.How != ByPot {
			s.add(l.Spoon, l.VolumeML, l.weighings()...).filled = l.Unusual()
		}
	}
	byPot := s.addTrials(p.Trials)
	for _, l := range p.LevelSpoons {
		if l.How == ByPot && !slices.Contains(byPot, l.Spoon) {
			s.add(l.Spoon, l.VolumeML, l.weighings()...).pot += len(l.Grams)
		}
	}
	s.weighs = slices.DeleteFunc(s.weighs, func(w weighed) bool { return w.weight.N == 0 })
	return s
}

// addTrials adds the weighings of trials by the pot, and lists the spoons they give.
func (s *SpoonWeights) addTrials(trials []Trial) (sizes []string) {
	for _, t := range trials {
		if t.SetAside != "" {
			continue
		}
		u := Rounding(cmp.Or(t.ResolutionG, DefaultResolutionG)) * math.Sqrt2 // two readings of the pot
		for _, span := range t.PotSpans() {
			spoon, w, ok := span.single()
			if !ok {
				continue
			}
			w.uScale = u
			w.each *= s.OwnSpoons.sizeIn(s.Set, cmp.Or(t.SpoonSet, US), spoon)
			s.add(spoon, 0, w).pot++
			sizes = append(sizes, spoon)
		}
	}
	return sizes
}

// sizeIn gives the volume of a spoon in one set divided by that in another; 1 where it is
// not known in both.
func (o OwnSpoons) sizeIn(set, other SpoonSet, name string) float64 {
	a, known := o.Spoon(set, name)
	b, also := o.Spoon(other, name)
	if !known || !also {
		return 1
	}
	return a.VolumeML / b.VolumeML
}

// add adds weighings of a spoon; a volume of 0 is that of the set.
func (s *SpoonWeights) add(spoon string, volume float64, ws ...weighing) *weighed {
	at := slices.IndexFunc(s.weighs, func(w weighed) bool { return w.spoon == spoon })
	if at < 0 {
		at = len(s.weighs)
		s.weighs = append(s.weighs, weighed{spoon: spoon})
	}
	w := &s.weighs[at]
	w.of = append(w.of, ws...)
	w.weight, _ = spoonWeight(w.of)
	switch size, known := s.OwnSpoons.Spoon(s.Set, spoon); {
	case volume > 0:
		w.volume = volume
	case known && w.volume == 0:
		w.volume = size.VolumeML
	}
	return w
}

// Guessing adds a guessed density, the family's, where nothing was weighed. It steers and
// gives no answer.
func (s SpoonWeights) Guessing(f Family) SpoonWeights {
	s.guess = f.SpoonDensity()
	return s
}

// Weighed holds the mean weight of one size of level spoon.
type Weighed struct {
	Spoon  string
	Weight SpoonWeight
	Pot    int    // the number of weighings that come from the pot
	Filled string // tapped or packed; "" as usual, loose
}

// Text writes the weight with its 95 % half-width: "a level 1 tsp weighs 2.31 ± 0.22 g (by
// the pot)".
func (w Weighed) Text() string {
	by := "1 weighing"
	if w.Weight.N != 1 {
		by = fmt.Sprintf("%d weighings", w.Weight.N)
	}
	switch {
	case w.Pot == w.Weight.N:
		by = "by the pot"
	case w.Pot > 0:
		by += fmt.Sprintf(", %d by the pot", w.Pot)
	}
	spoon := w.Spoon
	if w.Filled != "" {
		spoon += ", " + w.Filled + ","
	}
	return fmt.Sprintf("a level %s weighs %s ± %s g (%s)", spoon, SpoonGrams(w.Weight.Mean),
		Significant(w.Weight.HalfWidth(), 2), by)
}

// SpoonGrams writes the weight of a level spoon of powder, g.
func SpoonGrams(g float64) string { return Significant(g, 3) }

// TeaspoonText gives the weight of a level teaspoon found by another spoon: "a level 1 tsp
// weighs 2.64 g (going by the 1/8 tsp)". It is "" where the teaspoon itself was weighed, or
// nothing was.
func (s SpoonWeights) TeaspoonText() string {
	scoop, err := s.Scoop(Teaspoon)
	if err != nil || scoop.Guess || scoop.Source == Teaspoon {
		return ""
	}
	return fmt.Sprintf("a level %s weighs %s g (going by the %s)", Teaspoon, SpoonGrams(scoop.Grams), scoop.Source)
}

// Texts lists the weights of level spoons: a teaspoon, and every size that was weighed.
func (s SpoonWeights) Texts() (texts []string) {
	if text := s.TeaspoonText(); text != "" {
		texts = append(texts, text)
	}
	for _, w := range s.Weighed() {
		texts = append(texts, w.Text())
	}
	return texts
}

// Weighed lists the sizes that were weighed, by themselves or by the pot.
func (s SpoonWeights) Weighed() []Weighed {
	out := make([]Weighed, len(s.weighs))
	for i, w := range s.weighs {
		out[i] = Weighed{w.spoon, w.weight, w.pot, w.filled}
	}
	return out
}

// Filled says how to fill every spoonful, as in the weighings: tapped or packed; "" as
// usual.
func (s SpoonWeights) Filled() string {
	for _, w := range s.weighs {
		if w.filled != "" {
			return w.filled
		}
	}
	return ""
}

// Scoop holds the weight of one level spoon of a powder and its uncertainty.
type Scoop struct {
	Grams float64 // above 0
	// Source names the weighed spoon that the weight comes from; Weight is the result of
	// that spoon's weighings.
	Source string
	Weight SpoonWeight
	// sizeRel is the relative standard uncertainty of the spoon's size, 0 for a spoon that
	// was weighed level itself.
	sizeRel float64
	Guess   bool // nothing was weighed: it gives no answer
}

// Scoop gives the weight of one level spoon by name. A size that was weighed stands for
// itself; any other goes by volume and the level-spoon density of the weighed size nearest
// to it.
func (s SpoonWeights) Scoop(spoon string) (Scoop, error) {
	for _, w := range s.weighs {
		if w.spoon == spoon {
			return Scoop{Grams: w.weight.Mean, Source: w.spoon, Weight: w.weight}, nil
		}
	}
	if len(s.weighs) == 0 && s.guess == 0 {
		return Scoop{}, fmt.Errorf("no level spoon of this powder has been weighed, so %s has no weight: "+
			"weigh one, weigh the pot, or give the grams added", spoon)
	}
	size, ok := s.OwnSpoons.Spoon(s.Set, spoon)
	if !ok {
		return Scoop{}, fmt.Errorf("the spoon %q is not known: use a standard one such as 1/2 tsp, or list it "+
			"among your own spoons", spoon)
	}
	rel := spoonSizeRel
	if size.UncertaintyML > 0 {
		rel = size.UncertaintyML / size.VolumeML
	}
	w, ok := s.nearest(size.VolumeML)
	switch {
	case ok:
		return Scoop{
			Grams: w.weight.Mean / w.volume * size.VolumeML, Source: w.spoon, Weight: w.weight,
			sizeRel: rel,
		}, nil
	case s.guess > 0:
		return Scoop{
			Grams: s.guess * size.VolumeML, Weight: SpoonWeight{RelSD: priorRelSD}, sizeRel: rel,
			Guess: true,
		}, nil
	default:
		return Scoop{}, fmt.Errorf("the weighed spoon %q has no volume, so %s cannot be calculated from it: "+
			"give its volume_ml, or weigh %s itself", s.weighs[0].spoon, spoon, spoon)
	}
}

// nearest finds the weighed spoon whose volume is nearest to the given one, mL, as a
// factor; the first of equals. ok is false where no volume is known.
func (s SpoonWeights) nearest(volume float64) (found weighed, ok bool) {
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

// Teaspoon gives the weight of one level teaspoon, g; ok is false without a weighing to
// find it by.
func (s SpoonWeights) Teaspoon() (grams float64, ok bool) {
	scoop, err := s.Scoop(Teaspoon)
	if err != nil || scoop.Guess {
		return 0, false
	}
	return scoop.Grams, true
}

// LiquidSpoonG gives the weight of one spoon of the trial's liquid, g.
func (t Trial) LiquidSpoonG(spoon string, own OwnSpoons) (float64, error) {
	if spoon == "" {
		return 0, ErrNothingGiven(AddLiquid)
	}
	size, ok := own.Spoon(cmp.Or(t.SpoonSet, US), spoon)
	if !ok {
		return 0, fmt.Errorf("the spoon %q is not known: use a standard one such as 1/2 tsp, or list it among "+
			"your own spoons", spoon)
	}
	density, ok := t.Density()
	if !ok {
		return 0, fmt.Errorf("the density of %q is not known, so a spoon of it has no weight: give the liquid's "+
			"density, or weigh the liquid", t.Liquid)
	}
	return size.VolumeML * density, nil
}

// WeightHalf gives the relative 95 % half-width of the mean weight behind the scoop.
func (s Scoop) WeightHalf() float64 { return s.Weight.K * s.Weight.UMean }

// SizeHalf gives the relative 95 % half-width of the size of the scoop's spoon.
func (s Scoop) SizeHalf() float64 { return fit.Normal95 * s.sizeRel }

// TwoMoreWeighings gives the factor by which two more weighings of each weighed spoon would
// shrink the spoon weight's term. They are taken to hold as many spoons and scatter as much
// as those so far. Of several spoons it is the factor that shrinks least.
func (s SpoonWeights) TwoMoreWeighings() float64 {
	factor := 0.0
	for _, w := range s.weighs {
		now := w.weight
		n := float64(now.N)
		scale := math.Pow(now.UMean, 2) - math.Pow(now.RelSD, 2)/now.Scoops // the scale's resolution stays
		k := coverage(priorWeighings + n + 1)
		u := math.Sqrt(math.Pow(now.RelSD, 2)/(now.Scoops*(1+2/n)) + math.Max(scale, 0))
		factor = math.Max(factor, k*u/(now.K*now.UMean))
	}
	return factor
}
