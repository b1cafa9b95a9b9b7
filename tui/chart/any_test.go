package chart_test

import (
	"math"
	"testing"

	"daub.example/daub/tui/chart"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var weird = []float64{0, -1, 7, 1e300, -1e300, math.MaxFloat64, 1e-300, 1e4, 1e5, math.NaN(), math.Inf(1), math.Inf(-1)}

func genFloat(lo, hi float64) *rapid.Generator[float64] {
	return rapid.OneOf(rapid.Float64Range(lo, hi), rapid.Float64Range(lo, hi), rapid.Float64(),
		rapid.SampledFrom(weird))
}

func genSeries() *rapid.Generator[chart.Series] {
	ratio, level := genFloat(0, 3), genFloat(0, 7)
	return rapid.Custom(func(t *rapid.T) chart.Series {
		return chart.Series{
			Name: rapid.String().Draw(t, "name"),
			Mark: rapid.OneOf(rapid.Just(rune(0)), rapid.RuneFrom([]rune("ABC")), rapid.Rune()).Draw(t, "mark"),
			Points: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) chart.Point {
				return chart.Point{
					X: ratio.Draw(t, "x"), Y: level.Draw(t, "y"),
					Latest: rapid.Bool().Draw(t, "latest"), FarOut: rapid.Bool().Draw(t,
						"far out"), LeftOut: rapid.Bool().Draw(t, "left out"),
				}
			}), 0, 8).Draw(t, "points"),
			Curve: rapid.SliceOfN(rapid.Custom(func(t *rapid.T) chart.CurvePoint {
				return chart.CurvePoint{
					Y: level.Draw(t, "y"), X: ratio.Draw(t, "x"),
					Low: ratio.Draw(t, "low"), High: ratio.Draw(t, "high"),
				}
			}), 0, 8).Draw(t, "curve"),
		}
	})
}

func genChart() *rapid.Generator[chart.Chart] {
	return rapid.Custom(func(t *rapid.T) chart.Chart {
		return chart.Chart{
			Series: rapid.SliceOfN(genSeries(), 0, 7).Draw(t, "series"),
			Aim:    genFloat(0, 7).Draw(t, "aim"), HasAim: rapid.Bool().Draw(t, "has aim"),
			NowX:   genFloat(0, 3).Draw(t, "now"),
			LogX:   rapid.Bool().Draw(t, "log"),
			ASCII:  rapid.Bool().Draw(t, "ascii"),
			XLabel: rapid.String().Draw(t, "x label"),
			YLabel: rapid.String().Draw(t, "y label"),
		}
	})
}

func TestAnyChartAtAnySize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := genChart().Draw(t, "chart")
		w := rapid.IntRange(-1, 160).Draw(t, "w")
		h := rapid.IntRange(-1, 60).Draw(t, "h")
		lines := render(t, c, w, h)
		if c.ASCII {
			for _, s := range lines {
				for _, r := range s {
					require.True(t, r >= ' ' && r <= '~', "%q in %q", r, s)
				}
			}
		}
		require.Equal(t, lines, c.Render(w, h), "the same again")
		c.Paint = func(_ chart.Role, _ int, s string) string { return s }
		require.Equal(t, lines, c.Render(w, h), "paint changes nothing else")
	})
}

func TestEverySmallSize(t *testing.T) {
	for w := range 40 {
		for h := range 26 {
			for _, c := range []chart.Chart{{}, trial(), overlay()} {
				render(t, c, w, h)
				render(t, ascii(c), w, h)
			}
		}
	}
}

func TestHugeSize(t *testing.T) {
	lines := trial().Render(65535, 65535)
	require.Len(t, lines, 65535)
	assert.Equal(t, 65535, ansi.StringWidth(lines[0]))
	assert.Equal(t, 65535, ansi.StringWidth(lines[65534]))
}

func BenchmarkRender(b *testing.B) {
	for name, c := range map[string]chart.Chart{"trial": trial(), "overlay": overlay()} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				c.Render(78, 20)
			}
		})
	}
}
