package chart_test

import (
	"math"
	"strings"
	"testing"

	"daub.example/daub/tui/chart"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A target between two levels takes no level's label away.
func TestHalfTargetsKeepTheWholeLevels(t *testing.T) {
	for _, c := range []chart.Chart{twoSteps(), ascii(twoSteps())} {
		for _, aim := range []float64{1.5, 2.5, 3.5, 4.5, 5.5} {
			c.Aim = aim
			for _, h := range []int{10, 11, 12, 14, 17, 18, 19, 20, 26} {
				lines := render(t, c, 60, h)
				for level := range 8 {
					n := 0
					for _, s := range lines {
						label, _, ok := strings.Cut(strings.NewReplacer("+", "┤").Replace(s), "┤")
						if fields := strings.Fields(label); ok && len(fields) > 0 &&
							fields[0] == string(rune('0'+level)) {
							n++
						}
					}
					assert.Equal(t, 1, n, "level %d, target %v, height %d", level, aim, h)
				}
				assert.Regexp(t, `\d\.5[▸>]`, strings.Join(lines, "\n"))
			}
		}
	}
}

// What is in the dish is always on the axis, however far from the looks.
func TestTheDishIsInSight(t *testing.T) {
	for _, now := range []float64{0.01, 0.2, 0.9, 3, 70} {
		c := trial()
		c.NowX = now
		lines := render(t, c, 60, 12)
		assert.Contains(t, lines[10]+lines[9], "▲", "%v", now)
		assert.Equal(t, now > 2.4, strings.Contains(strings.Join(lines, "\n"), "log scale"), "%v", now)
	}
}

// Both ends of the interval at the target are on the axis, with one cell free of
// the band on either side.
func TestTheAnswerIsInSight(t *testing.T) {
	for _, half := range []float64{0.05, 0.3, 0.7, 1.5} {
		c := ascii(twoSteps())
		c.Series[0].Curve = line(1.2, 6, half)
		c.Aim = 5
		got := []rune(render(t, c, 78, 11)[3])
		require.Equal(t, "5>+", string(got[:3]))
		first, last := strings.IndexRune(string(got), ':'), strings.LastIndex(string(got), ":")
		if half < 0.1 {
			first, last = strings.IndexRune(string(got), '*'), strings.LastIndex(string(got), "*")
		}
		require.Positive(t, first, string(got))
		assert.Contains(t, []string{" ", "-"}, string(got[first-1]), "%v", half)
		assert.Less(t, last, 77, "%v", half)
	}
}

// Each number above the plot stands over the ratio whose inverse it is.
func TestUpperAxisIsTheInverse(t *testing.T) {
	c := chart.Chart{
		Series:       []chart.Series{{Points: []chart.Point{{X: 1, Y: 6}}}},
		InverseLabel: "g water per g powder", YLabel: "level",
	}
	lines := render(t, c, 78, 12)
	require.Contains(t, lines[0], "level  g water per g powder  ")
	for text, ratio := range map[string]float64{" 2 ": 0.5, " 1 ": 1} {
		at := strings.Index(lines[0], text)
		require.Positive(t, at, text)
		assert.InDelta(t, 3+ratio/1.06*74, at+1, 1, text)
	}
	c.LogX = true
	c.Series[0].Points = append(c.Series[0].Points, chart.Point{X: 0.01, Y: 1})
	assert.Contains(t, render(t, c, 78, 12)[0], " 10 ")
	assert.NotContains(t, render(t, c, 36, 12)[0], "10", "no numbers where there is no room for their words")
}

func TestOneSidedIsThin(t *testing.T) {
	dots := func(c chart.Chart) (n int) {
		for _, r := range strings.Join(render(t, c, 78, 20), "") {
			for ; r > 0x2800 && r < 0x2900 && r&0xff != 0; r = 0x2800 | (r & 0xff & (r&0xff - 1)) {
				n++
			}
		}
		return n
	}
	for _, mark := range []rune{0, 'A'} {
		c := trial()
		c.HasAim, c.Series[0].Mark = false, mark
		for i := range c.Series[0].Curve {
			c.Series[0].Curve[i].High = math.NaN()
		}
		whole := dots(c)
		for i := range c.Series[0].Curve {
			c.Series[0].Curve[i].OneSided = true
		}
		assert.Less(t, dots(c), whole*2/3)
	}
}

func TestLegendSaysWhatIsShown(t *testing.T) {
	signs := func(c chart.Chart) string {
		var all []string
		for _, s := range c.Legend() {
			all = append(all, s.Glyph+" "+s.Meaning)
		}
		return strings.Join(all, "; ")
	}
	assert.Equal(t, "● a look; ◆ the last look; ○ hollow: at most, or at least; ! far from the others; "+
		"━ most likely; ⠪ likely range (95 %); ▸ target level; ▲ in the dish now", signs(trial()))
	assert.Equal(t, "o a look; @ the last look; c hollow: at most, or at least; ! far from the others; "+
		"* most likely; : likely range (95 %); > target level; ^ in the dish now", signs(ascii(trial())))
	assert.Equal(t, "● trial 1; ■ trial 2; ★ trial 4; ○ hollow: at most, or at least; ━ most likely; "+
		"┄ tested from one side only; ⠪ likely range (95 %); ▸ target level", signs(repeats()))
	assert.Equal(t, "A trial 1; B trial 2; D trial 4; a small: at most, or at least; * most likely; "+
		"* * tested from one side only; : likely range (95 %); > target level", signs(ascii(repeats())))
	assert.Equal(t, "A a look at powder A; a small: at most, or at least; ━ most likely; ⠪ likely range (95 %); "+
		"▸ target level", signs(overlay()))
	assert.Empty(t, chart.Chart{}.Legend())

	// The help explains the very signs that frames are drawn with.
	c := trial()
	c.Series[0].Points = append(c.Series[0].Points, chart.Point{X: 0.2, Y: 4, LeftOut: true})
	frame := strings.Join(render(t, c, 78, 20), "\n")
	for _, s := range chart.Signs(false) {
		if !strings.ContainsAny(s.Glyph, "━┄⠪") {
			assert.Contains(t, frame, s.Glyph, s.Meaning)
		}
	}
	for _, s := range chart.Signs(true) {
		assert.LessOrEqual(t, s.Glyph, "~")
	}
}

func TestLotsSurviveInTheLegend(t *testing.T) {
	c := overlay()
	for i := range c.Series {
		c.Series[i].Name = "Winter barley flour · lot sack " + string(rune('1'+i))
	}
	head := render(t, c, 70, 20)[0]
	for _, lot := range []string{"sack 1", "sack 2", "sack 3"} {
		assert.Contains(t, head, lot)
	}
	assert.Contains(t, head, "…")
}
