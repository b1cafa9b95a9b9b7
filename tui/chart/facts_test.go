package chart_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"daub.example/daub/tui/chart"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rowOf returns the index of the line that a level is written on.
func rowOf(t *testing.T, lines []string, level string) int {
	t.Helper()
	for i, s := range lines {
		label, _, ok := strings.Cut(s, "┤")
		if !ok {
			label, _, ok = strings.Cut(s, "+")
		}
		if ok && strings.TrimRight(strings.TrimSpace(label), "▸>") == level {
			return i
		}
	}
	require.Fail(t, "level is not on the axis", level)
	return 0
}

func TestLevelsAreEvenlySpaced(t *testing.T) {
	for h, step := range map[int]int{10: 1, 12: 1, 14: 1, 19: 2, 20: 2, 26: 3} {
		lines := render(t, trial(), 60, h)
		for level := range 7 {
			d := rowOf(t, lines, fmt.Sprint(level)) - rowOf(t, lines, fmt.Sprint(level+1))
			assert.Equal(t, step, d, "height %d, level %d", h, level)
		}
	}
}

func TestAimIsDashedAndOnTheAxis(t *testing.T) {
	lines := render(t, trial(), 76, 10)
	assert.Contains(t, lines[2], "5▸┤⠤ ⠤ ⠤ ⠤")
	assert.Contains(t, render(t, ascii(trial()), 76, 10)[2], "5>+- - - -")

	lines = render(t, twoSteps(), 46, 14)
	assert.Contains(t, strings.Join(lines, "\n"), "4.5▸┤⠉ ⠉")

	// The target has its label at any height.
	for h := 5; h < 10; h++ {
		assert.Contains(t, strings.Join(render(t, trial(), 30, h), "\n"), "5▸┤", h)
	}

	c := trial()
	for _, aim := range []float64{-1, 7.5, math.NaN(), math.Inf(1)} {
		c.Aim = aim
		assert.NotContains(t, strings.Join(render(t, c, 60, 14), "\n"), "▸", "aim %v", aim)
	}
}

func TestPointsAreAtTheirCells(t *testing.T) {
	// The axis ends at 1.06 times the largest look: 75 cells, 150 dots.
	c := chart.Chart{Series: []chart.Series{{Points: []chart.Point{
		{X: 0, Y: 0},
		{X: 0.25, Y: 2},
		{X: 0.5, Y: 3, FarOut: true},
		{X: 0.75, Y: 4, Latest: true},
		{X: 1, Y: 6},
		{X: 1.02, Y: 7},
	}}}}
	lines := render(t, c, 78, 10)
	for _, p := range []struct {
		x     float64
		level int
		glyph string
	}{
		{0, 0, "○"},
		{0.25, 2, "●"},
		{0.5, 3, "!"},
		{0.75, 4, "◆"},
		{1, 6, "●"},
		{1.02, 7, "○"},
	} {
		column := 3 + int(math.Round(p.x/(1.02*1.06)*149))/2
		assert.Equal(t, p.glyph, cellAt(lines[7-p.level], column), "look at %v", p.x)
	}

	lines = render(t, ascii(c), 78, 10)
	assert.Equal(t, "o", cellAt(lines[1], 3+int(math.Round(1/(1.02*1.06)*74))))
}

func TestLooksBeyondTheAxisAreAtItsEnd(t *testing.T) {
	c := trial()
	c.Series[0].Points = append(c.Series[0].Points, chart.Point{X: 40, Y: 7}, chart.Point{X: 1e300, Y: 3, FarOut: true})
	lines := render(t, c, 76, 10)
	assert.Equal(t, "›", cellAt(lines[0], 75))
	assert.Equal(t, "›", cellAt(lines[4], 75))
	assert.Contains(t, lines[9], " 1.8 ", "the others are not squeezed")

	c.LogX = true
	c.Series[0].Points = append(c.Series[0].Points, chart.Point{X: 0.001, Y: 0})
	assert.Equal(t, "‹", cellAt(render(t, c, 76, 10)[7], 3))
}

func TestBandLiesBetweenItsEdges(t *testing.T) {
	curve := []chart.CurvePoint{{Y: 1, X: 9, Low: 0.4, High: 0.6}, {Y: 6, X: 9, Low: 0.4, High: 0.6}}
	c := chart.Chart{
		Series: []chart.Series{{Points: []chart.Point{{X: 1, Y: 6}}, Curve: curve}},
		ASCII:  true,
	}
	lines := render(t, c, 78, 10)
	from := 3 + int(math.Ceil(0.4/1.06*74))
	to := 3 + int(math.Floor(0.6/1.06*74))
	for level := range 8 {
		got := lines[7-level]
		if level < 1 || level > 6 {
			assert.NotContains(t, got, ":")
			continue
		}
		assert.Equal(t, from, strings.Index(got, ":"))
		assert.Equal(t, to, strings.LastIndex(got, ":"))
		assert.Equal(t, to-from+1, strings.Count(got, ":"))
	}

	c.ASCII = false
	got := render(t, c, 78, 10)[3]
	from, to = 3+int(math.Ceil(0.4/1.06*149))/2, 3+int(math.Floor(0.6/1.06*149))/2
	assert.Equal(t, strings.Repeat(" ", from-3), string([]rune(got)[3:from]))
	assert.NotContains(t, string([]rune(got)[from+1:to]), " ")
	assert.Equal(t, strings.Repeat(" ", 78-to-1), string([]rune(got)[to+1:]))
}

func TestLayersLieOverEachOther(t *testing.T) {
	c := chart.Chart{
		Series: []chart.Series{{
			Curve:  []chart.CurvePoint{{Y: 1, X: 0.5, Low: 0.1, High: 0.9}, {Y: 7, X: 0.5, Low: 0.1, High: 0.9}},
			Points: []chart.Point{{X: 0.5, Y: 3}, {X: 1, Y: 6}},
		}},
		Aim: 5, HasAim: true,
		ASCII: true,
	}
	lines := render(t, c, 78, 10)
	x := 3 + int(math.Round(0.5/1.06*74))
	assert.Equal(t, ":", cellAt(lines[1], x-2), "band")
	assert.Contains(t, lines[2], "-:-:-", "aim over band, its gaps too")
	assert.Equal(t, "*", cellAt(lines[1], x), "curve over band")
	assert.Equal(t, "*", cellAt(lines[2], x), "curve over aim")
	assert.Equal(t, "o", cellAt(lines[4], x), "look over curve")

	// Braille shows the band's dots beside a solid curve, not in a dashed one.
	c.ASCII = false
	x = 3 + int(math.Round(0.5/1.06*149))/2
	solid := render(t, c, 78, 10)
	c.Series = append([]chart.Series{{}}, c.Series...)
	dashed := render(t, c, 78, 10)
	dots := func(lines []string) (n int) {
		for y := 1; y <= 6; y++ {
			n += strings.Count(fmt.Sprintf("%b", []rune(lines[y])[x]&0xff), "1")
		}
		return n
	}
	assert.Greater(t, dots(solid), dots(dashed))
}

func TestRatioTicksAreRound(t *testing.T) {
	ticks := func(c chart.Chart, w int) []string {
		lines := render(t, c, w, 10)
		return strings.Fields(lines[9])
	}
	one := func(x float64) chart.Chart {
		return chart.Chart{Series: []chart.Series{{Points: []chart.Point{{X: x, Y: 3}, {X: x / 30, Y: 3}}}}}
	}
	assert.Equal(t, []string{"0", "0.2", "0.4", "0.6", "0.8", "1.0"}, ticks(one(1), 46))
	assert.Equal(t, []string{"0", "0.5", "1.0"}, ticks(one(1), 24))
	assert.Equal(t, []string{"0", "10", "20", "30", "40", "50"}, ticks(one(50), 46))
	assert.Equal(t, []string{"0", "0.01", "0.02", "0.03"}, ticks(one(0.03), 46))

	c := one(3)
	c.LogX = true
	assert.Equal(t, []string{"0.1", "0.2", "0.5", "1", "2"}, ticks(c, 46))
	c.Series[0].Points = []chart.Point{{X: 0.3, Y: 3}, {X: 0.5, Y: 4}}
	assert.Equal(t, []string{"0.30", "0.35", "0.40", "0.45", "0.50", "0.55"}, ticks(c, 60))
}

func TestSeriesAreToldApartWithoutColour(t *testing.T) {
	frame := strings.Join(render(t, overlay(), 78, 20), "\n")
	for _, s := range []string{"(A) Fine oat flour", "(B) Bentonite", "(C) Rice starch"} {
		assert.Contains(t, frame, s)
	}
	for _, s := range []string{"(A)", "(B)", "(C)"} {
		assert.Equal(t, 2, strings.Count(frame, s), "in the legend and at its curve")
	}
	seven := render(t, overlay(), 78, 20)[2]
	assert.Equal(t, []string{"7", "┤", "a", "c"}, strings.Fields(seven), "small letters for bounds")
	assert.NotContains(t, frame, "●")

	// Names that do not fit are cut, never left out.
	legend := render(t, overlay(), 40, 20)[0]
	for _, s := range []string{"(A) F", "(B) B", "(C) R", "…"} {
		assert.Contains(t, legend, s)
	}
	assert.NotContains(t, render(t, overlay(), 78, 6)[0], "oat", "too low for words")
}

func TestNowIsMarkedOnTheAxis(t *testing.T) {
	assert.Equal(t, 1, strings.Count(render(t, trial(), 60, 12)[10-1], "▲"))
	assert.Equal(t, 1, strings.Count(render(t, ascii(trial()), 60, 12)[9], "^"))
}

func TestPaintGetsRuns(t *testing.T) {
	c := trial()
	plain := render(t, c, 60, 12)
	calls := map[chart.Role]int{}
	c.Paint = func(role chart.Role, series int, s string) string {
		calls[role]++
		assert.NotEmpty(t, strings.TrimSpace(s))
		assert.Contains(t, []int{-1, 0}, series)
		return "\x1b[3" + fmt.Sprint(int(role)) + "m" + s + "\x1b[0m"
	}
	painted := render(t, c, 60, 12)
	for i, s := range painted {
		assert.Equal(t, plain[i], ansi.Strip(s))
	}
	for _, role := range []chart.Role{chart.Axis, chart.Band, chart.Aim, chart.Curve, chart.Dot, chart.Label} {
		assert.NotZero(t, calls[role], "role %d", role)
		assert.Less(t, calls[role], 40, "role %d", role)
	}
}

func TestNamesCannotBreakTheFrame(t *testing.T) {
	for _, name := range []string{
		"two\nlines", "\x1b[31mred", "tab\there", "胡麻の粉", "a\u202eb", "e\u0301tude", "👩‍🔬",
		"\xff\xfe",
	} {
		for _, asASCII := range []bool{false, true} {
			c := overlay()
			c.ASCII = asASCII
			c.XLabel, c.YLabel = name, name
			for i := range c.Series {
				c.Series[i].Name, c.Series[i].Mark = name, []rune(name)[0]
			}
			for _, w := range []int{20, 47, 78} {
				for _, s := range render(t, c, w, 20) {
					assert.NotContains(t, s, "\x1b")
					assert.NotContains(t, s, "\n")
				}
			}
		}
	}
}
