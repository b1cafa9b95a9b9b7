package tui

import (
	"daub.example/daub/model"
	"daub.example/daub/tui/chart"
)

// trialChart draws the looks of a trial with the curve, its band and the aim.
func trialChart(s *Session, w, h int, ascii bool) []string {
	t, out := s.Trial(), s.Outcome()
	series := chart.Series{Points: Points(out.Reading.Spots())}
	if n := len(series.Points); n > 0 {
		series.Points[n-1].Latest = true
	}
	var levels []model.Knot
	for _, a := range out.Curve {
		levels = append(levels, model.KnotOf(a.Level, a.Dish))
	}
	series.Curve = CurvePoints(levels)
	c := chart.Chart{
		Series: []chart.Series{series}, Aim: t.Aim, HasAim: true,
		XLabel: "g powder per g " + t.Liquid, YLabel: "level", ASCII: ascii, Paint: Paint,
	}
	if d := out.Reading.Dish(); d.Mixed() {
		c.NowX = d.PowderPerLiquid()
	}
	return c.Render(w, h)
}
