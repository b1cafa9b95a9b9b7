package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daub.example/daub/model/printable"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// steering are characters that steer a terminal or hide in a text, at least one of
// each kind.
var steering = []string{
	"\x1b[31m", "\x1b]0;owned\a", "\b", "\x7f", "\u009b2J", "\u0085", "\u00ad", "\u061c", "\u200b", "\u200d", "\u200e",
	"\u202e", "\u2066", "\u2028", "\u2029", "\ufeff", "\U000e0041", "\U0001bca0",
}

// requireHarmless checks that nothing in texts steers a terminal; line ends and
// tabs are allowed.
func requireHarmless(t assert.TestingT, what string, texts ...string) {
	for _, text := range texts {
		at := strings.IndexFunc(text, func(r rune) bool {
			return !strings.ContainsRune("\n\r\t", r) && printable.Steers(r)
		})
		if at >= 0 {
			assert.Fail(t, "a character steers", "%s: %q", what, text[max(at-40, 0):min(at+40, len(text))])
		}
	}
}

// escaped returns text as TOML writes it in quotes.
func escaped(text string) string {
	var b strings.Builder
	for _, r := range text {
		fmt.Fprintf(&b, `\U%08X`, r)
	}
	return b.String()
}

// everyCommand returns each command on the powders a and b, the recipe mask and a
// file.
func everyCommand(file string) [][]string {
	return [][]string{
		{"list"},
		{"list", "--json"},
		{"list", "--ascii"},
		{"show", "a"},
		{"show", "a", "--json"},
		{"fit", file},
		{"fit", file, "--json"},
		{"check", file},
		{"check", file, "--json"},
		{"compare", "a", "b"},
		{"compare", "a", "b", "--json"},
		{"swap", "a", "b", "--powder", "20"},
		{"swap", "a", "b", "--powder", "20", "--json"},
		{"batch", "a", "--total", "100"},
		{"batch", "a", "--total", "100", "--json"},
		{"mix", "a=1", "b=1"},
		{"mix", "a=1", "b=1", "--json"},
		{"spoons", "2.28 g", "--of", "a"},
		{"spoons", "2.28 g", "--of", "a", "--json"},
		{"recipe", "list"},
		{"recipe", "list", "--json"},
		{"recipe", "show", "mask"},
		{"recipe", "show", "mask", "--json"},
		{"recipe", "card", "mask"},
		{"recipe", "card", "mask", "--json"},
		{"recipe", "card", "mask", "--to", "html"},
		{"recipe", "scale", "mask", "--total", "50"},
		{"export", "--all", "--to", "csv"},
		{"export", "--all", "--to", "json"},
		{"export", "--all", "--to", "md"},
		{"export", "--all", "--to", "toml"},
		{"export", "a", "--looks", "--to", "csv"},
		{"export", "a", "--looks", "--to", "json"},
		{"picture", "a", "b", "-o", "-", "--to", "svg"},
		{"page", "a", "b", "-o", "-"},
		{"__complete", "show", ""},
		{"__complete", "recipe", "show", ""},
		{"edit", "a", "notes=sifted"},
		{"trial", "a"},
		{"no such \x1b[31mcommand"},
		{"show", "no \u202esuch powder"},
		{"list", "--\x1b[31m"},
	}
}

// TestNothingSteers runs every command on a shelf whose texts and file names hold
// everything that steers a terminal. None of it comes out on either stream.
func TestNothingSteers(t *testing.T) {
	all := strings.Join(steering, "x")
	for _, evil := range append([]string{all}, steering...) {
		if testing.Short() && evil != all {
			break
		}
		allowed := strings.Map(func(r rune) rune { // what a sound profile may hold
			if printable.Steers(r) && r < 0xa0 {
				return -1
			}
			return r
		}, evil) + "<script>[x](http://x.example)"
		h := evilShelf(t, evil, allowed)
		for _, args := range everyCommand(filepath.Join(h.shelf, "powders", "c"+evil+".toml")) {
			h.in = strings.NewReader("quit\n")
			got := daub(h, args...)
			requireHarmless(t, strings.Join(args, " "), got.out, got.err)
			require.NotEmpty(t, got.out+got.err, "%q", args)
		}
	}
}

// evilShelf is a shelf with two powders and a recipe that hold the allowed text
// everywhere. Other files hold the evil text and have it in their names.
func evilShelf(t *testing.T, evil, allowed string) host {
	h := testHost(t)
	h.shelf += "\u202e"
	for slug, name := range map[string]string{"a": "Light white clay", "b": "Light white clay"} {
		text := strings.ReplaceAll(read(t, lightClay), name, slug+escaped(allowed))
		text = strings.ReplaceAll(text, `liquid = "water"`, `liquid = "`+escaped("water"+allowed)+`"`)
		shelve(t, h, slug, "# "+strings.Map(dropControls, allowed)+"\n"+text)
	}
	shelve(t, h, "c"+evil, `evil = "`+escaped(evil)+`"`)
	shelve(t, h, "d", "schema = 1\npowder.name = \""+escaped(evil)+"\"\npowder.lot = 'x\x01'")
	recipes := filepath.Join(h.shelf, "recipes")
	require.NoError(t, os.MkdirAll(recipes, 0o755))
	mask := strings.NewReplacer("NAME", escaped(allowed)).Replace(`schema = 1
[recipe]
name = "NAME"
notes = "NAME"
level = 5.0
total_g = 120.0
liquid = "NAME"
steps = ["NAME"]
warnings = ["NAME"]
[recipe.ratio]
median = 1.93
low = 1.48
high = 2.52
[[powder]]
name = "NAME"
lot = "NAME"
allergens = ["NAME"]
[[extra]]
name = "NAME"
share = 0.03
notes = "NAME"
`)
	for file, text := range map[string]string{"mask": mask, "bad" + evil: "x = " + evil} {
		require.NoError(t, os.WriteFile(filepath.Join(recipes, file+".toml"), []byte(text), 0o644))
	}
	return h
}

// dropControls drops the characters that TOML allows in no comment.
func dropControls(r rune) rune {
	if r < ' ' || r == 0x7f {
		return -1
	}
	return r
}
