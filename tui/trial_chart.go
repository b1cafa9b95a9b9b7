package tui

import (
	"slices"

	"daub.example/daub/tui/chart"
)

// trialChart draws the looks of a trial with the curve, its band and the aim.
func trialChart(s *Session, w, h int, ascii bool) []string {
	t, out := s.Trial(), s.Outcome()
	series := chart.Series{}
	lastLook := -1
	for i, step := range t.Steps {
		if i >= len(out.Reading.Dishes) || !step.Looked || !out.Reading.Dishes[i].Mixed() {
			continue
		}
		lastLook = len(series.Points)
		series.Points = append(series.Points, chart.Point{
			X: out.Reading.Dishes[i].PowderPerLiquid(), Y: step.Level, FarOut: slices.Contains(out.FarOut, i),
		})
	}
	if lastLook >= 0 {
		series.Points[lastLook].Latest = true
	}
	for _, a := range out.Curve {
		if a.Dish != nil {
			series.Curve = append(series.Curve, chart.Knot{Y: a.Level, X: 1 / a.Dish.Median, Low: 1 / a.Dish.High, High: 1 / a.Dish.Low})
		}
	}
	c := chart.Chart{
		Series: []chart.Series{series}, Aim: t.Aim, HasAim: true,
		XLabel: "g powder per g " + t.Liquid, YLabel: "level", ASCII: ascii, Paint: paint,
	}
	if d := out.Reading.Dish(); d.Mixed() {
		c.NowX = d.PowderPerLiquid()
	}
	return c.Render(w, h)
}
