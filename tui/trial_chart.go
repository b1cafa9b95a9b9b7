package tui

import (
	"daub.example/daub/model"
	"daub.example/daub/tui/chart"
)

// trialChart draws the looks of a trial with the curve, its band and the aim.
func trialChart(s *Session, w, h int, ascii bool) []string {
	t, out := s.Trial(), s.out
	series := chart.Series{Points: points(out.reading.Spots(out.farOut))}
	if n := len(series.Points); n > 0 {
		series.Points[n-1].Latest = true
	}
	for _, a := range out.curve {
		series.Curve = append(series.Curve, knot(model.KnotOf(a.Level, a.Dish)))
	}
	c := chart.Chart{
		Series: []chart.Series{series}, Aim: t.Aim, HasAim: true,
		XLabel: "g powder per g " + t.Liquid, YLabel: "level", ASCII: ascii, Paint: paint,
	}
	if d := out.reading.Dish(); d.Mixed() {
		c.NowX = d.PowderPerLiquid()
	}
	return c.Render(w, h)
}

// points are looks as a chart has them.
func points(looks []model.Spot) []chart.Point {
	out := make([]chart.Point, len(looks))
	for i, l := range looks {
		out[i] = chart.Point{X: l.X, Y: l.Level, FarOut: l.Far}
	}
	return out
}

// knot is a level of a curve as a chart has it.
func knot(k model.Knot) chart.Knot { return chart.Knot{Y: k.Level, X: k.X, Low: k.Low, High: k.High} }
