package bench

import (
	"math"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// LookPoint is one look on a chart: X is g powder per g liquid. One beside a reference dish
// has a comparison and no level.
type LookPoint struct {
	X, Level float64
	Beside   model.Beside
	Trial    int  // its trial's index in the profile
	Step     int  // its step's index in the trial
	Far      bool // sits far from where the others put it
	LeftOut  bool // kept and shown, but left out of the answer by the maker
}

// Open reports whether the look says only "at most" or "at least".
func (s LookPoint) Open() bool { return s.Level == model.MinLevel || s.Level == model.MaxLevel }

// CurvePoint is one level of a curve: the median X with its 95 % interval from Low to High,
// g powder per g liquid. All three are NaN where the level was not reached.
type CurvePoint struct {
	Level, X, Low, High float64
	OneSided            bool // the level was tested from one side only
}

// CurvePointOf inverts an interval of the ratio, from g liquid per g powder to g powder per
// g liquid; nil is a level not reached.
func CurvePointOf(level float64, ratio *fit.Interval, reach fit.Reach) CurvePoint {
	if ratio == nil {
		return CurvePoint{Level: level, X: math.NaN(), Low: math.NaN(), High: math.NaN()}
	}
	return CurvePoint{level, 1 / ratio.Median, 1 / ratio.High, 1 / ratio.Low, reach == fit.OneSided}
}

// LookPoints lists the looks of the trial in their order, those left out too; far lists the
// steps that FarOut gives.
func (r Reading) LookPoints(far []int) []LookPoint {
	var spots []LookPoint
	for i, dish := range r.Dishes {
		if step := r.Trial.Steps[i]; step.Looked && dish.HasRatio() {
			spots = append(spots, LookPoint{
				X: dish.PowderPerLiquid(), Level: step.Level, Beside: step.Beside, Step: i,
				Far: slices.Contains(far, i), LeftOut: step.LeftOut,
			})
		}
	}
	return spots
}
