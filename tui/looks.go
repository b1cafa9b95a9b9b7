package tui

import (
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/tui/chart"
)

// Looks are the looks of a trial that can be drawn; farOut are the steps that
// sit far from where the others put them.
func Looks(t model.Trial, reading model.Reading, farOut []int) []chart.Point {
	var points []chart.Point
	for i, dish := range reading.Dishes {
		if step := t.Steps[i]; step.Looked && dish.Mixed() {
			far := slices.Contains(farOut, i)
			points = append(points, chart.Point{X: dish.PowderPerLiquid(), Y: step.Level, FarOut: far})
		}
	}
	return points
}

// CurvePoints is the ratio at a level as a point of a curve, with its band;
// nothing without a ratio. A ratio is g liquid per g powder, the chart shows
// g powder per g liquid.
func CurvePoints(level float64, ratio *fit.Interval) []chart.CurvePoint {
	if ratio == nil {
		return nil
	}
	return []chart.CurvePoint{{Y: level, X: 1 / ratio.Median, Low: 1 / ratio.High, High: 1 / ratio.Low}}
}
