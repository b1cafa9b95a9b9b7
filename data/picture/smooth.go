package picture

import (
	"math"

	"daub.example/daub/model/bench"
	"gonum.org/v1/gonum/interp"
)

// between is the number of pieces from one level of a curve to the next.
const between = 5

// smooth adds points between those of a curve, so that it has no corners. They lie
// on a cubic through the logarithms that never turns unless the points do (Fritsch
// and Butland 1984, SIAM J. Sci. Stat. Comput. 5(2) 300-304). The given points
// stay.
func smooth(run []bench.CurvePoint) []bench.CurvePoint {
	if len(run) < 3 {
		return run
	}
	levels := make([]float64, len(run))
	for i, k := range run {
		levels[i] = k.Level
	}
	through := func(ratio func(bench.CurvePoint) float64) interp.FritschButland {
		logs := make([]float64, len(run))
		for i, k := range run {
			logs[i] = math.Log(min(max(ratio(k), leastRatio), mostRatio))
		}
		var curve interp.FritschButland
		if err := curve.Fit(levels, logs); err != nil {
			panic(err) // cannot happen: the levels of CurveLevels rise
		}
		return curve
	}
	middle := through(func(k bench.CurvePoint) float64 { return k.X })
	low := through(func(k bench.CurvePoint) float64 { return k.Low })
	high := through(func(k bench.CurvePoint) float64 { return k.High })

	out := []bench.CurvePoint{run[0]}
	for i := 1; i < len(run); i++ {
		a, b := run[i-1], run[i]
		for j := 1; j < between; j++ {
			level := a.Level + (b.Level-a.Level)*float64(j)/between
			out = append(out, bench.CurvePoint{
				Level: level, OneSided: a.OneSided || b.OneSided,
				X: math.Exp(middle.Predict(level)), Low: math.Exp(low.Predict(level)),
				High: math.Exp(high.Predict(level)),
			})
		}
		out = append(out, b)
	}
	return out
}
