package glyph

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The digits as a person sees them; drawn by hand.
func TestDigits(t *testing.T) {
	assert.Equal(t, []string{
		"██████     ██████",
		"██  ██  ██     ██",
		"██  ██     ██████",
		"██  ██  ██ ██    ",
		"██████     ██████",
	}, squeezed(Digits("0:2", Large)))
	assert.Equal(t, []string{"█▀▀", "▀▀█", "▀▀▀"}, Digits("5", Small))
	assert.Equal(t, []string{"█ █   █▀▀", "▀▀█   ▀▀█", "  ▀ ▀ ▀▀▀"}, Digits("4.5", Small))
}

// squeezed cuts one of the two columns after the colon, to keep the picture above
// narrow.
func squeezed(lines []string) []string {
	for i, l := range lines {
		r := []rune(l)
		lines[i] = string(append(r[:10:10], r[11:]...))
	}
	return lines
}

func TestEveryDigitIsDrawnAlikeHigh(t *testing.T) {
	for _, size := range []Size{Small, Large} {
		for _, r := range "0123456789:.×–" {
			lines := Digits(string(r), size)
			require.Len(t, lines, size.Lines())
			for _, l := range lines {
				assert.Len(t, []rune(l), len([]rune(lines[0])), "%q", r)
			}
		}
	}
}

func TestLargerSpoonsAreDrawnLarger(t *testing.T) {
	was := 0
	for _, ml := range []float64{0.15, 0.31, 0.62, 1.23, 2.46, 3.7, 4.93, 14.8} {
		n := strings.Count(strings.Join(Spoons(1, ml, false, 80), ""), "█")
		assert.Greater(t, n, was, "%g mL", ml)
		was = n
	}
	three := Spoons(3, 4.93, false, 80)
	assert.Equal(t, 3, strings.Count(three[0], "━━━━"))
	assert.Equal(t, 1, strings.Count(Spoons(14, 4.93, false, 80)[0], "━━━━"), "no room for fourteen")
	assert.Contains(t, Spoons(1, 4.93, true, 80)[0], "▒")
}

func TestBar(t *testing.T) {
	for _, share := range []float64{-1, 0, 0.5, 1, 2} {
		done, left := Bar(share, 10)
		assert.Equal(t, 10, len([]rune(done))+len([]rune(left)))
	}
	done, _ := Bar(0.5, 10)
	assert.Equal(t, "━━━━━", done)
}
