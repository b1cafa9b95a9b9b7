package page

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPage(t *testing.T) {
	p := New(true)
	p.Line("%s takes 2 × 1 tsp", "Rye\nflour\x1b[31m")
	p.Say(strings.Repeat("word ", 20))
	p.List("Nothing:")
	p.List("Take care:", strings.Repeat("care ", 20))
	require.Equal(t, "Rye flour takes 2 x 1 tsp\n"+
		strings.TrimSpace(strings.Repeat("word ", 16))+"\nword word word word\n\n"+
		"Take care:\n  "+strings.TrimSpace(strings.Repeat("care ", 15))+"\n    care care care care care\n", p.Drain())
	require.Empty(t, p.Drain())
}

func TestTable(t *testing.T) {
	p := New(false)
	p.Table([]Column{{Title: "powder"}, {Title: "g", Right: true}}, [][]string{
		{"clay", "1.50"},
		{strings.Repeat("long name ", 10), "12.00"},
	})
	require.Equal(t, []string{
		"powder" + strings.Repeat(" ", 94) + "      g",
		"clay" + strings.Repeat(" ", 96) + "   1.50",
		strings.Repeat("long name ", 10) + "  12.00",
		"",
	}, strings.Split(p.Drain(), "\n"))
}

// No line of wrapped text is wider than the page, unless a single word is. Only
// printable lines come out.
func TestSayKeepsToTheWidth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(rapid.StringMatching(`\S{1,20}`), 1, 40).Draw(t, "words")
		p := New(rapid.Bool().Draw(t, "ascii"))
		p.Hang("  ", "    ", strings.Join(words, " "))
		for line := range strings.Lines(p.Drain()) {
			require.LessOrEqual(t, ansi.StringWidth(strings.TrimSuffix(line, "\n")), Width)
		}
	})
}

// A table that is too wide for the page leaves out its last columns, as far as they may be.
func TestTableInRoom(t *testing.T) {
	name := strings.Repeat("n", 60)
	columns := []Column{{Title: "powder"}, {Title: "ratio"}, {Title: "trials"}, {Title: "last"}}
	p := New(false)
	require.Equal(t, 3, p.TableInRoom(2, columns, [][]string{{name, "0.943", "3", "2026-02"}}))
	require.NotContains(t, p.Drain(), "last")
	require.Equal(t, 2, p.TableInRoom(2, columns, [][]string{{name + name, "0.943", "3", "2026-02"}}))
	require.Equal(t, 4, p.TableInRoom(2, columns, [][]string{{"oat", "0.943", "3", "2026-02"}}))
}
