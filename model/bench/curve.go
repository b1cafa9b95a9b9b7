package bench

import (
	"math"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// LookPoint is one look on a chart: X is g powder per g liquid. One beside a
// reference dish says how it stands there, and has no level.
type LookPoint struct {
	X, Level float64
	Beside   model.Beside
	Trial    int  // its place in the profile
	Step     int  // its place in the trial
	Far      bool // sits far from where the others put it
	LeftOut  bool // kept and shown, but the maker leaves it out of the answer
}

// Open reports whether the look says only "at most" or "at least".
func (s LookPoint) Open() bool { return s.Level == model.MinLevel || s.Level == model.MaxLevel }

// CurvePoint is one level of a curve: the median X with its 95 % interval Low to
// High, in g powder per g liquid; NaN where the level was not reached.
type CurvePoint struct {
	Level, X, Low, High float64
	OneSided            bool // the level was tested from one side only
}

// CurvePointOf turns an interval of the ratio over, g powder per g liquid for g
// liquid per g powder; nil is a level not reached.
func CurvePointOf(level float64, ratio *fit.Interval, reach fit.Reach) CurvePoint {
	if ratio == nil {
		return CurvePoint{Level: level, X: math.NaN(), Low: math.NaN(), High: math.NaN()}
	}
	return CurvePoint{level, 1 / ratio.Median, 1 / ratio.High, 1 / ratio.Low, reach == fit.OneSided}
}

// LookPoints are the looks of the trial, those left out too, in their order; far
// are the steps that FarOut lists.
func (r Reading) LookPoints(far []int) []LookPoint {
	var spots []LookPoint
	for i, dish := range r.Dishes {
		if step := r.Trial.Steps[i]; step.Looked && !dish.Guess && dish.Mixed() {
			spots = append(spots, LookPoint{
				X: dish.PowderPerLiquid(), Level: step.Level, Beside: step.Beside, Step: i,
				Far: slices.Contains(far, i), LeftOut: step.LeftOut,
			})
		}
	}
	return spots
}
