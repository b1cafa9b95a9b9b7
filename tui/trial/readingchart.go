package trial

import (
	"math"

	"daub.example/daub/model/bench"
	"daub.example/daub/model/measure"
	"daub.example/daub/model/readings"
	"daub.example/daub/tui/chart"
	"daub.example/daub/tui/ui"
)

// axisLevels is the number of equal parts of a chart's level axis.
const axisLevels = 7

// readingAxis returns a round start and a round step for axisLevels parts, so that
// low and high lie between the ends.
func readingAxis(low, high float64) (start, step float64) {
	for size := math.Pow(10, math.Floor(math.Log10(max(high-low, high/20)/axisLevels))); ; size *= 10 {
		for _, one := range []float64{1, 2, 5} {
			step = one * size
			start = step * (math.Ceil(low/step) - 1)
			if start+axisLevels*step > high {
				return start, step
			}
		}
	}
}

// readingChart draws readings in their own unit against powder per liquid, with
// line, band and the wanted reading.
func readingChart(m readings.Measured, dish bench.Dish, w, h int, ascii bool) []string {
	low, high := m.Wanted, m.Wanted
	for _, p := range m.Points {
		low, high = min(low, p.Reading), max(high, p.Reading)
	}
	start, step := readingAxis(low, high)
	level := func(reading float64) float64 { return (reading - start) / step }

	series := chart.Series{}
	for i, p := range m.Points {
		series.Points = append(series.Points, chart.Point{
			X: p.PowderPerLiquid, Y: level(p.Reading), LeftOut: p.LeftOut, Latest: i == len(m.Points)-1,
		})
	}
	const parts = 24
	for i := range parts + 1 {
		series.Curve = append(series.Curve, curvePoint(m, low*math.Pow(high/low, float64(i)/parts), level))
	}
	c := ui.Chart(m.Basis.Liquid, ascii)
	c.Series, c.Aim, c.HasAim = []chart.Series{series}, level(m.Wanted), true
	c.LevelStart, c.LevelStep, c.YLabel = start, step, m.Kind.Unit()
	if dish.HasRatio() {
		c.NowX = dish.PowderPerLiquid()
	}
	return c.Render(w, h)
}

// curvePoint returns the point of the line at a reading; it is not finite if there
// is none.
func curvePoint(m readings.Measured, reading float64, level func(float64) float64) chart.CurvePoint {
	at := m.At(reading)
	p := chart.CurvePoint{Y: level(reading), X: 1 / at.Ratio.Median, OneSided: !at.Inside}
	if at.Status == measure.Solved {
		p.Low, p.High = 1/at.Ratio.High, 1/at.Ratio.Low
	}
	return p
}
