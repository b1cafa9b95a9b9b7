package ui

import (
	"daub.example/daub/model/bench"
	"daub.example/daub/tui/chart"
)

// Points are looks as a chart has them.
func Points(looks []bench.LookPoint) []chart.Point {
	points := make([]chart.Point, len(looks))
	for i, l := range looks {
		points[i] = chart.Point{X: l.X, Y: l.Level, Trial: l.Trial, FarOut: l.Far}
	}
	return points
}

// CurvePoints are the levels of a curve as a chart has them.
func CurvePoints(levels []bench.CurvePoint) []chart.CurvePoint {
	points := make([]chart.CurvePoint, len(levels))
	for i, l := range levels {
		points[i] = chart.CurvePoint{Y: l.Level, X: l.X, Low: l.Low, High: l.High, OneSided: l.OneSided}
	}
	return points
}
