package chart_test

import (
	"strings"
	"testing"

	"daub.example/daub/tui/chart"
	"github.com/stretchr/testify/assert"
)

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
