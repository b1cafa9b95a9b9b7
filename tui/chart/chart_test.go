package chart_test

import (
	"flag"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daub.example/daub/tui/chart"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden frames")

// line is a fitted line through ratio x at level 5, with beta levels per e-fold;
// its band is half wide there and widens away from it.
func line(x, beta, half float64) (curve []chart.CurvePoint) {
	for y := 1.0; y <= 6; y += 0.5 {
		m := x * math.Exp((y-5)/beta)
		w := half + 0.03*math.Abs(y-5)
		curve = append(curve, chart.CurvePoint{Y: y, X: m, Low: m * math.Exp(-w), High: m * math.Exp(w)})
	}
	return curve
}

func trial() chart.Chart {
	return chart.Chart{
		Series: []chart.Series{{
			Points: []chart.Point{
				{X: 0.06, Y: 0},
				{X: 0.12, Y: 0},
				{X: 0.23, Y: 1},
				{X: 0.29, Y: 2},
				{X: 0.35, Y: 3},
				{X: 0.40, Y: 2, FarOut: true},
				{X: 0.46, Y: 4},
				{X: 0.52, Y: 5},
				{X: 0.58, Y: 6},
				{X: 0.52, Y: 5, Latest: true},
			},
			Curve: line(0.52, 5, 0.08),
		}},
		Aim: 5, HasAim: true,
		NowX:   0.55,
		XLabel: "g powder per g liquid", InverseLabel: "g liquid per g powder",
		YLabel: "level",
	}
}

func twoSteps() chart.Chart {
	return chart.Chart{
		Series: []chart.Series{{Points: []chart.Point{{X: 0.06, Y: 0}, {X: 0.17, Y: 1, Latest: true}}}},
		Aim:    4.5, HasAim: true,
		XLabel: "g powder per g liquid", InverseLabel: "g liquid per g powder",
		YLabel: "level",
	}
}

func overlay() chart.Chart {
	return chart.Chart{
		Series: []chart.Series{
			{
				Name: "Fine oat flour", Mark: 'A',
				Points: []chart.Point{{X: 0.3, Y: 1}, {X: 0.4, Y: 3}, {X: 0.5, Y: 5}, {X: 0.62, Y: 6}, {X: 0.8, Y: 7}},
				Curve:  line(0.52, 5, 0.08),
			},
			{
				Name: "Bentonite", Mark: 'B',
				Points: []chart.Point{{X: 0.05, Y: 0}, {X: 0.1, Y: 2}, {X: 0.14, Y: 4}, {X: 0.19, Y: 6}},
				Curve:  line(0.16, 5, 0.12),
			},
			{
				Name: "Rice starch", Mark: 'C',
				Points: []chart.Point{{X: 0.8, Y: 1}, {X: 1.0, Y: 4}, {X: 1.2, Y: 5}, {X: 1.4, Y: 7}},
				Curve:  line(1.15, 9, 0.05),
			},
		},
		Aim: 5, HasAim: true,
		LogX:   true,
		XLabel: "g powder per g liquid", InverseLabel: "g liquid per g powder",
		YLabel: "level",
	}
}

// repeats is a powder with three trials; its thick end was tested from below only.
func repeats() chart.Chart {
	curve := line(0.52, 5, 0.08)
	for i := range curve {
		curve[i].OneSided = curve[i].Y > 4.5
	}
	return chart.Chart{
		Series: []chart.Series{{
			Points: []chart.Point{
				{X: 0.12, Y: 0},
				{X: 0.23, Y: 1},
				{X: 0.35, Y: 3},
				{X: 0.1, Y: 0, Trial: 1},
				{X: 0.29, Y: 2, Trial: 1},
				{X: 0.44, Y: 4, Trial: 1},
				{X: 0.26, Y: 1, Trial: 3},
				{X: 0.41, Y: 4, Trial: 3},
			},
			Curve: curve,
		}},
		Aim: 5, HasAim: true,
		XLabel: "g powder per g liquid", InverseLabel: "g liquid per g powder",
		YLabel: "level",
	}
}

// unsure is a trial whose answer lies far from its looks.
func unsure() chart.Chart {
	c := twoSteps()
	c.Series[0].Curve = line(1.2, 6, 0.7)
	return c
}

func ascii(c chart.Chart) chart.Chart {
	c.ASCII = true
	return c
}

// render renders and checks the size that Render promises.
func render(t require.TestingT, c chart.Chart, w, h int) []string {
	lines := c.Render(w, h)
	require.Len(t, lines, max(h, 0))
	for i, s := range lines {
		require.Equal(t, max(w, 0), ansi.StringWidth(s), "line %d: %q", i, s)
	}
	return lines
}

// cellAt returns the character in column x of a line without styles.
func cellAt(s string, x int) string { return string([]rune(s)[x]) }

// golden compares a frame with its file.
func golden(t *testing.T, name string, lines []string) {
	t.Helper()
	path := filepath.Join("..", "..", "testdata", "frames", "chart-"+name+".txt")
	got := strings.Join(lines, "\n") + "\n"
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, strings.ReplaceAll(string(want), "\r\n", "\n"), got)
}

func TestFrames(t *testing.T) {
	for _, f := range []struct {
		name  string
		chart chart.Chart
		w, h  int
	}{
		{"trial-46x14", trial(), 46, 14},
		{"trial-76x10", trial(), 76, 10},
		{"trial-30x8", trial(), 30, 8},
		{"two-steps-46x14", twoSteps(), 46, 14},
		{"two-steps-78x20", twoSteps(), 78, 20},
		{"repeats-70x12", repeats(), 70, 12},
		{"repeats-ascii-70x12", ascii(repeats()), 70, 12},
		{"unsure-60x12", unsure(), 60, 12},
		{"overlay-78x20", overlay(), 78, 20},
		{"trial-ascii-60x16", ascii(trial()), 60, 16},
		{"overlay-ascii-78x20", ascii(overlay()), 78, 20},
		{"empty-46x14", chart.Chart{}, 46, 14},
	} {
		t.Run(f.name, func(t *testing.T) {
			golden(t, f.name, render(t, f.chart, f.w, f.h))
		})
	}
}
