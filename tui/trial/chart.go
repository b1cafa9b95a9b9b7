package trial

import (
	"daub.example/daub/model/bench"
	"daub.example/daub/tui/chart"
	"daub.example/daub/tui/ui"
)

// trialChart draws the looks of a trial with the curve, its band and the aim.
func trialChart(s *ui.Session, w, h int, ascii bool) []string {
	t, out := s.Trial(), s.Outcome()
	series := chart.Series{Points: ui.Points(out.Reading.LookPoints(out.FarOut))}
	if n := len(series.Points); n > 0 {
		series.Points[n-1].Latest = true
	}
	var levels []bench.CurvePoint
	for _, a := range out.Curve {
		levels = append(levels, bench.CurvePointOf(a.Level, a.Dish, a.Reach))
	}
	series.Curve = ui.CurvePoints(levels)
	c := ui.Chart(t.Liquid, ascii)
	c.Series, c.Aim, c.HasAim = []chart.Series{series}, t.Aim, true
	if d := out.Reading.Dish(); d.Mixed() {
		c.NowX = d.PowderPerLiquid()
	}
	return c.Render(w, h)
}
