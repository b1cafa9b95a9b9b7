package chart_test

import (
	"fmt"
	"strings"
	"testing"

	"daub.example/daub/tui/chart"
	"github.com/stretchr/testify/assert"
)

// In plain ASCII a legend says a lot with a dash, not with a question mark.
func TestALegendInASCIIHasNoQuestionMarks(t *testing.T) {
	c := overlay()
	c.Series[0].Name, c.ASCII = "Pale valley clay · lot B-17", true
	head := render(t, c, 100, 17)[0]
	assert.Contains(t, head, "(A) Pale valley clay - lot B-17")
	assert.NotContains(t, head, "?")
}

// In a low chart too a target between two levels leaves them their labels: it stands
// beside the one in its row.
func TestAHalfTargetTakesNoLabelInALowChart(t *testing.T) {
	for h := 5; h <= 20; h++ {
		c := twoSteps()
		c.HasAim = false
		whole := levelsOf(render(t, c, 60, h))
		c.HasAim = true
		lines := render(t, c, 60, h)
		assert.Equal(t, whole, levelsOf(lines), "height %d", h)
		assert.Contains(t, strings.Join(lines, "\n"), "4.5▸", "height %d", h)
	}
}

// levelsOf lists the whole levels that the level axis names.
func levelsOf(lines []string) (levels []string) {
	for _, line := range lines {
		label, _, _ := strings.Cut(line, "┤")
		for _, word := range strings.FieldsFunc(label, func(r rune) bool { return r == ' ' || r == '▸' }) {
			if len(word) == 1 && word >= "0" && word <= "7" {
				levels = append(levels, word)
			}
		}
	}
	return levels
}

// In a low chart every level is named: those that share a row together.
func TestLevelsOfOneRowAreNamedTogether(t *testing.T) {
	for h := 5; h <= 20; h++ {
		for _, aim := range []float64{2, 3, 5, 6} {
			c := trial()
			c.Aim = aim
			named := map[int]bool{}
			for _, line := range render(t, c, 60, h) {
				label, _, _ := strings.Cut(line, "┤")
				for _, word := range strings.Fields(strings.ReplaceAll(label, "▸", " ")) {
					var from, to int
					if n, _ := fmt.Sscanf(word, "%d+%d", &from, &to); n == 1 {
						to = from
					}
					for level := from; level <= to; level++ {
						named[level] = true
					}
				}
			}
			assert.Len(t, named, 8, "height %d, target %v", h, aim)
		}
	}
}

// Where only one row of values fits, it counts as the answers do, with its unit.
func TestALowChartCountsLiquidPerPowder(t *testing.T) {
	low := render(t, trial(), 60, 8)
	assert.Contains(t, low[len(low)-1], "g liquid per g powder  ")
	assert.Contains(t, low[len(low)-1], " 2 ")
	assert.NotContains(t, strings.Join(low, "\n"), "g powder per g liquid")
}

// On an axis of words each word has its own row. Where there is room the rows are
// equally far apart, and no level is written.
func TestAnAxisOfWords(t *testing.T) {
	words := []string{"much less", "less", "the same", "more", "much more"}
	c := chart.Chart{Words: words, Aim: chart.WordLevel(2, 5), HasAim: true, XLabel: "g powder per g water"}
	for n := range words {
		c.Series = append(c.Series, chart.Series{
			Points: []chart.Point{{X: 0.2 * float64(n+1), Y: chart.WordLevel(n, 5)}},
		})
	}
	for h, step := range map[int]int{8: 1, 11: 1, 13: 2, 16: 3, 20: 4} {
		lines := render(t, c, 60, h)
		at := make([]int, len(words))
		for n, word := range words {
			at[n] = rowOf(t, lines, word)
			_, plot, _ := strings.Cut(lines[at[n]], "┤")
			glyph := "●"
			if n == 0 || n == len(words)-1 {
				glyph = "○" // open: "much more" has no upper end
			}
			assert.Contains(t, plot, glyph, "height %d, %s", h, word)
		}
		for n := 1; n < len(at); n++ {
			assert.Equal(t, step, at[n-1]-at[n], "height %d, %s", h, words[n])
		}
		assert.Contains(t, strings.Join(lines, "\n"), "the same▸┤")
		for _, line := range lines {
			label, _, axis := strings.Cut(line, "┤")
			assert.False(t, axis && strings.ContainsAny(label, "01234567"), line)
		}
	}
	assert.Empty(t, strings.TrimSpace(strings.Join(chart.Chart{Words: words}.Render(60, 6), "")),
		"a row that two words would share is none")
	c.ASCII = true
	assert.Contains(t, strings.Join(render(t, c, 60, 12), "\n"), "the same>+")
}
