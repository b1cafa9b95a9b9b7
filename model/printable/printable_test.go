package printable

import (
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestLine(t *testing.T) {
	for text, want := range map[string]string{
		"":                              "",
		"Rye flour":                     "Rye flour",
		"two\nlines\r\n":                "two lines",
		"a\tb":                          "a b",
		"red \x1b[31mclay\x1b[0m\a":     "red clay",
		"\u009b2Jclay":                  "2Jclay", // the rest of it does no harm
		"title \x1b]0;owned\aof lot 3":  "title of lot 3",
		"turned \u202eyalc\u202c":       "turned yalc",
		"Erdmandelmehl, süß · 0,5 µm –": "Erdmandelmehl, süß · 0,5 µm –",
		"bad \xff byte":                 "bad  byte",
	} {
		require.Equal(t, want, Line(text), "%q", text)
	}
}

// Whatever a text holds, what is shown of it is one line that steers nothing,
// and showing it again changes nothing.
func TestLineIsHarmless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shown := Line(rapid.OneOf(rapid.String(),
			rapid.StringMatching(`[\x1b\x9b\x07\n\[\]0-9;A-Zm\\]{0,30}`)).Draw(t, "text"))
		for _, r := range shown {
			require.False(t, unicode.IsControl(r), "%q", shown)
		}
		require.Equal(t, shown, Line(shown))
	})
}

func TestASCII(t *testing.T) {
	require.Equal(t, `> 2 x 1/2 tsp +/-9 % at 21 deg C`, ASCII("▸ 2 × 1/2 tsp ±9 % at 21°C"))
	require.Equal(t, "Mühle", ASCII("Mühle"))
	for _, r := range ASCII("▸›“”·…─│×▇↑↓←→–³Δ±°≥≤") {
		require.Less(t, r, rune(0x80))
	}
}
