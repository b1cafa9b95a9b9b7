package tui

import "daub.example/daub/tui/chart"

// trialChart draws the looks of a trial with the curve, its band and the aim.
func trialChart(s *Session, w, h int, ascii bool) []string {
	t, out := s.Trial(), s.Outcome()
	series := chart.Series{Points: Looks(t, out.Reading, out.FarOut)}
	if n := len(series.Points); n > 0 {
		series.Points[n-1].Latest = true
	}
	for _, a := range out.Curve {
		series.Curve = append(series.Curve, CurvePoints(a.Level, a.Dish)...)
	}
	c := chart.Chart{
		Series: []chart.Series{series}, Aim: t.Aim, HasAim: true,
		XLabel: "g powder per g " + t.Liquid, YLabel: "level", ASCII: ascii, Paint: Paint,
	}
	if d := out.Reading.Dish(); d.Mixed() {
		c.NowX = d.PowderPerLiquid()
	}
	return c.Render(w, h)
}
