package model

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"sync"
	"time"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Repeat weighings of level spoonfuls: the relative standard deviation to
// which a standard deviation from few weighings is shrunk, and the weight that
// this has, in weighings (chosen). USDA Standard Reference: ground cinnamon by
// the teaspoon 5.0 %, turmeric 2.0 %, mustard 5.8 %, sorghum flour by the cup
// 4.0 %.
const (
	priorRelSD     = 0.05
	priorWeighings = 2.0
)

// DefaultResolutionG is the scale resolution taken where none is recorded, g (chosen).
const DefaultResolutionG = 0.01

// LevelSpoon holds the weighings of one size of level spoon, struck off flat.
type LevelSpoon struct {
	Spoon string
	// Grams holds one reading per weighing, each of SpoonsEach level spoons.
	Grams       []float64
	SpoonsEach  int     // 0 means 1
	ResolutionG float64 // 0 means DefaultResolutionG
	VolumeML    float64 // 0 means: as the spoon set has it
	How         string
}

// How a level spoon was filled before it was struck off. Files of other
// programs and of former times may say it in other words.
const (
	Loose  = "loose"  // stirred up and let fall in
	Tapped = "tapped" // tapped until it sinks no more
	Packed = "packed" // pressed in
	ByPot  = "pot"    // given by weighing the pot
)

// Fillings lists the ways of filling a level spoon to choose from, the usual one first.
func Fillings() []string { return []string{Loose, Tapped, Packed} }

// Filling gives the way the spoon was filled, one of Fillings. It is the usual one where
// nothing was said, "" where it was said in other words.
func (l LevelSpoon) Filling() string {
	switch how := strings.ToLower(strings.TrimSpace(l.How)); {
	case how == "":
		return Loose
	case slices.Contains(Fillings(), how):
		return how
	default:
		return ""
	}
}

// Unusual gives the Filling where it differs from the usual one; else "".
func (l LevelSpoon) Unusual() string {
	if f := l.Filling(); f != Loose {
		return f
	}
	return ""
}

// Packing holds weighings of one level spoon loose and tapped, to tell how much a spoon
// depends on the hand that fills it. Grams are those of one level spoon.
type Packing struct {
	Spoon   string
	LooseG  []float64
	TappedG []float64
	At      time.Time // zero means not recorded
}

// Clone makes a copy that shares nothing that is ever changed.
func (p Packing) Clone() Packing {
	p.LooseG, p.TappedG = slices.Clone(p.LooseG), slices.Clone(p.TappedG)
	return p
}

// Weights averages the weighings of either filling; ok is false without both.
func (p Packing) Weights() (loose, tapped SpoonWeight, ok bool) {
	loose, have := LevelSpoon{Grams: p.LooseG}.Weight()
	tapped, also := LevelSpoon{Grams: p.TappedG}.Weight()
	return loose, tapped, have && also
}

// Validate lists the problems of a packing, each with its key.
func (p Packing) Validate() []Problem {
	c := &checker{}
	if strings.TrimSpace(p.Spoon) == "" {
		c.add("spoon", `say which, as in spoon = "1 tsp"`, "the packing does not say of which spoon")
	}
	c.text("spoon", "the spoon's name", p.Spoon, false)
	for _, one := range []struct {
		key, how string
		grams    []float64
	}{{"loose_g", "loose", p.LooseG}, {"tapped_g", "tapped", p.TappedG}} {
		if len(one.grams) == 0 || len(one.grams) > maxSpoons {
			c.add(one.key, fmt.Sprintf("give the grams of one level spoon, once or more and up to %d times", maxSpoons),
				"the packing has %d weighings of the %s spoon", len(one.grams), one.how)
		}
		for i, g := range one.grams {
			if !(g > 0 && g <= MaxGrams) {
				c.add(one.key, "give grams above 0", "weighing %d of %s g is not possible", i+1, Number(g))
			}
		}
	}
	return c.problems
}

// Each gives the number of level spoons in one weighing, at least 1.
func (l LevelSpoon) Each() int { return max(l.SpoonsEach, 1) }

// Resolution gives the scale's resolution, g.
func (l LevelSpoon) Resolution() float64 {
	if l.ResolutionG > 0 {
		return l.ResolutionG
	}
	return DefaultResolutionG
}

// weighing is one reading of so many level spoons together.
type weighing struct {
	each   float64 // g per spoon
	scoops float64 // spoons together, above 0
	uScale float64 // standard uncertainty of the whole reading, g
}

// weighings lists the readings with their scoops and scale uncertainty.
func (l LevelSpoon) weighings() []weighing {
	q, u := float64(l.Each()), Rounding(l.Resolution())
	ws := make([]weighing, len(l.Grams))
	for i, g := range l.Grams {
		ws[i] = weighing{g / q, q, u}
	}
	return ws
}

// SpoonWeight holds the weight of one level spoon by its weighings.
type SpoonWeight struct {
	N      int     // weighings
	Scoops float64 // level spoons in them, together
	Mean   float64 // g per level spoon
	SD     float64 // plain sample standard deviation of the weighings, g per level spoon; 0 when N < 2
	// RelSD is the relative standard deviation of a single level spoon, shrunk towards the
	// usual one.
	RelSD float64
	// UMean is the relative standard uncertainty of Mean, with the scale's resolution,
	// which does not average away.
	UMean float64
	// K is the coverage factor for 95 %: Student's t on ν0 + N - 1 degrees
	// of freedom.
	K float64
}

// HalfWidth gives the half-width of the 95 % interval of the mean, g.
func (w SpoonWeight) HalfWidth() float64 { return w.K * w.UMean * w.Mean }

// Weight averages the weighings into a mean with its uncertainty; ok is false without a
// weighing. Mean and SD are those of JCGM 100:2008, 4.2.
func (l LevelSpoon) Weight() (w SpoonWeight, ok bool) { return spoonWeight(l.weighings()) }

// spoonWeight averages the weighings of one size (METHOD, what a level spoon weighs). A
// weighing of q spoons averages q scoops; the scale counts once, with the largest q.
func spoonWeight(ws []weighing) (w SpoonWeight, ok bool) {
	n := len(ws)
	if n == 0 {
		return SpoonWeight{}, false
	}
	each, scoops, largest := make([]float64, n), make([]float64, n), ws[0]
	for i, one := range ws {
		each[i], scoops[i] = one.each, one.scoops
		w.Scoops += one.scoops
		if one.scoops > largest.scoops {
			largest = one
		}
	}
	w.N, w.Mean = n, stat.Mean(each, scoops)
	if !(w.Mean > 0) || math.IsInf(w.Mean, 0) {
		return SpoonWeight{}, false
	}
	if n > 1 {
		w.SD = stat.StdDev(each, nil)
	}
	squares := priorWeighings * priorRelSD * priorRelSD
	for _, one := range ws {
		off := (one.each - w.Mean) / w.Mean
		squares += one.scoops * off * off
	}
	nu := priorWeighings + float64(n) - 1
	w.RelSD = math.Sqrt(squares / nu)
	w.UMean = math.Hypot(w.RelSD/math.Sqrt(w.Scoops), largest.uScale/(w.Mean*largest.scoops))
	w.K = coverage(nu)
	return w, true
}

// coverage gives the coverage factor for 95 %: Student's t with so many degrees of freedom.
// Results are remembered: a shelf asks for a few of them thousands of times, and each takes
// longer than the rest of a weighing.
func coverage(degrees float64) float64 {
	if k, known := coverages.Load(degrees); known {
		return k.(float64)
	}
	k := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degrees}.Quantile(0.975)
	coverages.Store(degrees, k)
	return k
}

// coverages remembers coverage by degrees of freedom, both float64.
var coverages sync.Map

// Rounding gives the standard uncertainty of a reading rounded to the nearest d: a
// rectangle of width d (JCGM 100:2008, 4.3.7).
func Rounding(d float64) float64 { return d / math.Sqrt(12) }

// PotSpan holds the additions between two weighings of the pot of powder.
type PotSpan struct {
	From, To int // its steps, From ≤ i < To, counted from 0
	LossG    float64
	WeighedG float64 // the part of the loss that was weighed when it was added, g
	// Scoops are the level spoons taken from the pot, one entry a size.
	Scoops []SpoonCount
}

// SpoonedG returns the mass that went in by the spoon, g; 0 or less where the pot gained.
func (s PotSpan) SpoonedG() float64 { return s.LossG - s.WeighedG }

// Closed reports whether the span gives the weight of its spoonfuls.
func (s PotSpan) Closed() bool { return len(s.Scoops) > 0 && s.SpoonedG() > 0 }

// single gives the weighing of level spoons in a span of a single spoon size; ok is false
// for other spans.
func (s PotSpan) single() (spoon string, w weighing, ok bool) {
	if !s.Closed() || len(s.Scoops) > 1 {
		return "", weighing{}, false
	}
	n := float64(s.Scoops[0].Count)
	return s.Scoops[0].Spoon, weighing{each: s.SpoonedG() / n, scoops: n}, true
}

// PotSpans lists the spans between one weighing of the pot and the next, in the order of
// the steps.
func (t Trial) PotSpans() []PotSpan {
	var spans []PotSpan
	before := t.PotG
	span := PotSpan{}
	for i, s := range t.Steps {
		if s.Add == AddPowder {
			span = span.with(s)
		}
		if s.PotG <= 0 {
			continue
		}
		span.To = i + 1
		if before > 0 {
			span.LossG = before - s.PotG
			spans = append(spans, span)
		}
		before, span = s.PotG, PotSpan{From: i + 1}
	}
	return spans
}

// with adds one more addition of powder to the span.
func (s PotSpan) with(step Step) PotSpan {
	if step.Weighed() {
		s.WeighedG += step.Grams
		return s
	}
	i := slices.IndexFunc(s.Scoops, func(c SpoonCount) bool { return c.Spoon == step.Spoon })
	if i < 0 {
		i = len(s.Scoops)
		s.Scoops = append(s.Scoops, SpoonCount{Spoon: step.Spoon})
	}
	s.Scoops[i].Count += step.Spoons()
	return s
}

// PotWeighed reports whether the pot of powder was weighed at any time.
func (t Trial) PotWeighed() bool {
	return t.PotG > 0 || slices.ContainsFunc(t.Steps, func(s Step) bool { return s.PotG > 0 })
}

// PotOpen reports whether spoonfuls wait for the pot to be weighed again.
func (t Trial) PotOpen() bool {
	weighed, spooned := t.PotG > 0, false
	for _, s := range t.Steps {
		spooned = spooned || weighed && s.Add == AddPowder && !s.Weighed()
		if s.PotG > 0 {
			weighed, spooned = true, false
		}
	}
	return spooned
}
