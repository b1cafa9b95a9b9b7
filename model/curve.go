package model

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"daub.example/daub/model/fit"
)

// Spot is one look on a chart: X is g powder per g liquid.
type Spot struct {
	X, Level float64
	Trial    int  // its place in the profile
	Step     int  // its place in the trial
	Far      bool // sits far from where the others put it
}

// Open reports whether the look says only "at most" or "at least".
func (s Spot) Open() bool { return s.Level == MinLevel || s.Level == MaxLevel }

// Knot is one level of a curve with its band, in g powder per g liquid; NaN
// where the level was not reached.
type Knot struct{ Level, X, Low, High float64 }

// KnotOf turns an interval of the ratio over; nil is a level not reached.
func KnotOf(level float64, ratio *fit.Interval) Knot {
	if ratio == nil {
		return Knot{level, math.NaN(), math.NaN(), math.NaN()}
	}
	return Knot{level, 1 / ratio.Median, 1 / ratio.High, 1 / ratio.Low}
}

// Curve is what a chart shows of a powder.
type Curve struct {
	Looks   []Spot
	Knots   []Knot // at CurveLevels
	Dropped []int  // trials that count but cannot be reckoned, by their place
}

// Curve reads the trials that count on a basis. One that cannot be reckoned
// gives no look, for it does not count; it is listed instead.
func (p Profile) Curve(b Basis, d Drawer) Curve {
	var c Curve
	for n, t := range p.Trials {
		if !t.Used() || !b.matches(t, p.Powder.Kind()) {
			continue
		}
		r, err := Read(p, t, d)
		if err != nil {
			c.Dropped = append(c.Dropped, n)
			continue
		}
		for _, s := range r.Spots(r.FarOut()) {
			s.Trial = n
			c.Looks = append(c.Looks, s)
		}
	}
	for _, r := range p.Ratios(b, CurveLevels(), d) {
		c.Knots = append(c.Knots, KnotOf(r.Level, r.Powder))
	}
	return c
}

// DroppedText says which trials of a Curve are left out.
func DroppedText(trials []int) string {
	numbers := make([]string, len(trials))
	for i, n := range trials {
		numbers[i] = strconv.Itoa(n + 1)
	}
	if len(trials) == 1 {
		return "trial " + numbers[0] + " cannot be reckoned and is left out"
	}
	return "trials " + strings.Join(numbers, ", ") + " cannot be reckoned and are left out"
}

// Spots are the looks of the trial that count, in their order; far are the
// steps that FarOut lists.
func (r Reading) Spots(far []int) []Spot {
	var spots []Spot
	for i, dish := range r.Dishes {
		if step := r.Trial.Steps[i]; step.Looked && dish.Mixed() {
			spots = append(spots, Spot{X: dish.PowderPerLiquid(), Level: step.Level, Step: i, Far: slices.Contains(far, i)})
		}
	}
	return spots
}
