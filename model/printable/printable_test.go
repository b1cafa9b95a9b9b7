package printable

import (
	"bytes"
	"encoding/json"
	"testing"

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

// Whatever a text holds, Line makes one line of it that steers nothing, and doing it again
// changes nothing.
func TestLineIsHarmless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shown := Line(rapid.OneOf(rapid.String(),
			rapid.StringMatching(`[\x1b\x9b\x07\n\[\]0-9;A-Zm\\]{0,30}`)).Draw(t, "text"))
		for _, r := range shown {
			require.False(t, Steers(r), "%q", shown)
		}
		require.Equal(t, shown, Line(shown))
	})
}

func TestASCII(t *testing.T) {
	require.Equal(t, `> 2 x 1/2 tsp +/-9 % at 21 deg C`, ASCII("▸ 2 × 1/2 tsp ±9 % at 21°C"))
	require.Equal(t, "21 deg C", ASCII("21 °C"))
	require.Equal(t, "Mühle", ASCII("Mühle"))
	for _, r := range ASCII("▸›“”·…─│×▇↑↓←→–³Δ±°≥≤") {
		require.Less(t, r, rune(0x80))
	}
}

// Of everything that steers, a screen's line keeps only its colours.
func TestStyled(t *testing.T) {
	for text, want := range map[string]string{
		"\x1b[1;31mred\x1b[0m":           "\x1b[1;31mred\x1b[0m",
		"\x1b[2Jx\x1b]0;t\ay\x1b":        "[2Jx]0;ty",
		"a\u202eb\u200bc\u009bd\x7fe\nf": "abcdef",
		"\x1b[31":                        "[31",
		"süß ▸ 5 µm":                     "süß ▸ 5 µm",
	} {
		require.Equal(t, want, Styled(text), "%q", text)
	}
}

// A character that steers becomes an escape in JSON, and reads back as it was.
func TestJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steering := rapid.SampledFrom([]rune("a\x7f\u009b\u202e\u2028\U000e0041"))
		text := rapid.OneOf(rapid.String(), rapid.StringOf(steering)).Draw(t, "text")
		src, err := json.Marshal(map[string]string{text: text})
		require.NoError(t, err)
		safe := JSON(append(src, '\n'))
		require.False(t, bytes.ContainsFunc(safe[:len(safe)-1], Steers), "%q", safe)
		var was, is map[string]string
		require.NoError(t, json.Unmarshal(src, &was))
		require.NoError(t, json.Unmarshal(safe, &is))
		require.Equal(t, was, is)
	})
}

// The signs are those of CommonMark 0.31 and of the extended autolinks of
// GitHub Flavored Markdown (read).
func TestMarkdown(t *testing.T) {
	for text, want := range map[string]string{
		"":                              "",
		"Rye flour · lot 7 (2.5 g)":     "Rye flour · lot 7 (2.5 g)",
		"<script>alert(1)</script>":     `\<script\>alert(1)\</script\>`,
		"[x](http://x.example) ![y](z)": `\[x\](http\://x.example) !\[y\](z)`,
		"www.x.example, a@x.example":    `www\.x.example, a\@x.example`,
		"*a* _b_ `c` ~~d~~ | e \\ &lt;": "\\*a\\* \\_b\\_ \\`c\\` \\~\\~d\\~\\~ \\| e \\\\ \\&lt;",
		"# x":                           `\# x`,
		"- x":                           `\- x`,
		"1. x":                          `1\. x`,
		"1.5 g":                         "1.5 g",
	} {
		require.Equal(t, want, Markdown(text), "%q", text)
	}
}
