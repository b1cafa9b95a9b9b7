package ui

import (
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/chart"
)

// Chart makes an empty chart of ratios in a liquid, with its axes named.
func Chart(liquid string, ascii bool) chart.Chart {
	liquid = printable.Line(liquid)
	return chart.Chart{
		XLabel: "g powder per g " + liquid, InverseLabel: "g " + liquid + " per g powder", YLabel: "level",
		ASCII: ascii, Paint: Paint,
	}
}

// ChartSigns explains the signs of a trial's chart for the help.
func ChartSigns(ascii bool) string {
	var signs []string
	for _, s := range chart.Signs(ascii) {
		signs = append(signs, s.Glyph+" "+s.Meaning)
	}
	return "In the chart: " + strings.Join(signs, " · ") + "."
}

// BesideChart makes an empty chart of looks beside a reference dish. Its axis has
// their words instead of levels; Points gives its looks.
func BesideChart(liquid string, ascii bool) chart.Chart {
	c := Chart(liquid, ascii)
	c.YLabel = "beside the reference dish"
	for _, b := range model.Besides() {
		c.Words = append(c.Words, b.Words())
	}
	c.Aim, c.HasAim = besideLevel(model.AsThick), true
	return c
}

func besideLevel(b model.Beside) float64 { return chart.WordLevel(b.Number()-1, len(model.Besides())) }

// Points converts looks to points of a chart; looks beside a dish fit BesideChart.
func Points(looks []bench.LookPoint) []chart.Point {
	points := make([]chart.Point, len(looks))
	for i, l := range looks {
		points[i] = chart.Point{X: l.X, Y: l.Level, Trial: l.Trial, FarOut: l.Far, LeftOut: l.LeftOut}
		if l.Beside != "" {
			points[i].Y = besideLevel(l.Beside)
		}
	}
	return points
}

// CurvePoints converts the levels of a curve to points of a chart.
func CurvePoints(levels []bench.CurvePoint) []chart.CurvePoint {
	points := make([]chart.CurvePoint, len(levels))
	for i, l := range levels {
		points[i] = chart.CurvePoint{Y: l.Level, X: l.X, Low: l.Low, High: l.High, OneSided: l.OneSided}
	}
	return points
}
