package tui_test

import (
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// namedKey is a key named on a page: its words, the keys that lead to the screen,
// the key, and its effect there.
type namedKey struct{ words, way, key, does string }

const (
	result       = "enter f enter"
	inTwoLiquids = "space down space c" // on a shelf with powders tried in two liquids
)

var (
	readmeKeys = []namedKey{
		{"`n` sets up a new powder", "", "n", "new powder"},
		{"`g` and", "enter", "g", "grams"},
		{"`=` take weights", "enter", "=", "scale"},
		{"`l` adds liquid", "enter", "l", "liquid/powder"},
		{"`p` weighs the pot", "enter", "p", "weigh the powder's pot"},
		{"`u` takes anything back", "enter", "u", "undo"},
		{"`e` mends any earlier step", "enter", "e", "mend a step"},
		{"`i` shows the statistics", "enter", "i", "statistics"},
		{"`?` explains every screen", "", "?", "help"},
		{"`r` at the bench asks once what is measured", "enter", "r", "type a measurement (mm, s)"},
		{"At the result, `p` opens pH and acid", result, "p", "pH and acid"},
		{"`l` at the result", result, "l", "later looks"},
		{"then `c`, keeps the finished dish covered", result + " l", "c", "kept covered, or not"},
		{"at the bench with `m`", "enter", "m", "behaviour"},
		{"`m` on a result brings another powder to that dish", result, "m", "match another powder to this dish"},
		{"in Compare `l`", inTwoLiquids, "l", "liquid and rest"},
	}
	topicKeys = []namedKey{
		{"with m at the bench", "enter", "m", "behaviour"},
		{"l at the result", result, "l", "later looks"},
		{"then c, keeps a finished dish covered", result + " l", "c", "kept covered, or not"},
	}
)

// The keys that the README and the help topics name do what is said of them.
func TestPagesNameKeysThatThereAre(t *testing.T) {
	for _, page := range []struct {
		file  string
		named *regexp.Regexp // the page's words for the key
		keys  []namedKey
	}{
		{"../README.md", regexp.MustCompile("`[^`\\s,]`"), readmeKeys},
		{
			"../cmd/daub/internal/manual/topics.go",
			regexp.MustCompile(`\b[a-zA-Z] (?:at the|on a) (?:bench|result)|, then [a-z],`), topicKeys,
		},
	} {
		src, err := os.ReadFile(page.file)
		require.NoError(t, err)
		text := strings.Join(strings.Fields(string(src)), " ")
		assert.Len(t, page.named.FindAllString(text, -1), len(page.keys), "each is held: %s", page.file)
		for _, k := range page.keys {
			assert.True(t, strings.Contains(text, k.words), "%s no longer says %q", page.file, k.words)
			shelf := drive.Pantry()
			if k.way == inTwoLiquids {
				oat := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
				oat.Trials = append(oat.Trials, drive.Finished("Oat", model.Flour, "honey", 0, 2, 4, 5, 6).Trials...)
				rye := oat.Clone()
				rye.Powder.Name = "Rye"
				shelf = drive.NewShelf(oat, rye)
			}
			d := drive.Start(t, shelf.Deps(), 80, 24).Press(k.way)
			does := ""
			for _, b := range append(d.App.Shown().Keys(), tui.OwnKeys()...) {
				if slices.Contains(b.Keys(), k.key) {
					does = b.Help().Desc
				}
			}
			assert.Equal(t, k.does, does, "%s: %s", page.file, k.words)
		}
	}
}
