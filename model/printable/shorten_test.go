package printable_test

import (
	"testing"
	"unicode/utf8"

	"daub.example/daub/model/printable"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func shortened(n int, names ...string) []string {
	var out []string
	for i := range names {
		out = append(out, printable.Shorten(names, i, "…",
			func(s string) bool { return utf8.RuneCountInString(s) <= n }))
	}
	return out
}

func TestShortenKeepsWhatDiffers(t *testing.T) {
	for _, c := range []struct {
		n           int
		names, want []string
	}{
		{20, []string{"Rye flour", "Chalk"}, []string{"Rye flour", "Chalk"}},
		{22, []string{"Winter barley flour · lot sack 3"}, []string{"Wint…lour · lot sack 3"}},
		{
			24,
			[]string{"Winter barley flour · lot sack 3", "Winter barley flour · lot sack 4"},
			[]string{"Winte…flour · lot sack 3", "Winte…flour · lot sack 4"},
		},
		{12, []string{"Pale valley clay", "Pale hollow clay"}, []string{"Pale v… clay", "Pale h… clay"}},
		{3, []string{"Pale valley clay"}, []string{"P…y"}},
		{0, []string{"Pale valley clay"}, []string{""}},
	} {
		assert.Equal(t, c.want, shortened(c.n, c.names...))
	}
}

// Whatever the names, the cut ones fit, and two that differ and have room for more than a
// few letters still differ.
func TestShortenAnyNames(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		same := rapid.StringN(0, 20, -1).Draw(t, "same")
		end := rapid.StringN(0, 20, -1).Draw(t, "end")
		names := []string{same + "a" + end, same + "b" + end}
		n := rapid.IntRange(0, 45).Draw(t, "room")
		got := shortened(n, names...)
		for _, s := range got {
			require.LessOrEqual(t, utf8.RuneCountInString(s), n)
		}
		if n >= 3 {
			require.NotEqual(t, got[0], got[1])
		}
	})
}
