package model

import (
	"math"
	"slices"

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

// Spots are the looks of the trial that count, in their order.
func (r Reading) Spots() []Spot {
	far := r.FarOut()
	var spots []Spot
	for i, dish := range r.Dishes {
		if step := r.Trial.Steps[i]; step.Looked && dish.Mixed() {
			spots = append(spots, Spot{X: dish.PowderPerLiquid(), Level: step.Level, Step: i, Far: slices.Contains(far, i)})
		}
	}
	return spots
}
