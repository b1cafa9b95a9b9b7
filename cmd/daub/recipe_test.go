package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// From a batch to a card: save, list, show, scale, swap, print.
func TestRecipe(t *testing.T) {
	h := kitchenShelf(t)
	saved := decode[pasteJSON](t, daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "honey=0.03", "--allowance", "5g", "--save", "Face mask", "--json"))
	require.Equal(t, "face-mask", saved.Batch.Saved.Slug)
	require.FileExists(t, saved.Batch.Saved.File)
	require.Equal(t, filepath.Join(h.shelf, "recipes", "face-mask.toml"), saved.Batch.Saved.File)

	r := decode[recipeJSON](t, daub(h, "recipe", "show", "FACE mask", "--json"))
	require.Equal(t, saved.Batch.PowderG, r.PowderG)
	require.Equal(t, saved.Batch.LiquidG, r.LiquidG)
	require.Equal(t, "Light white clay", r.Powders[0].Powder)
	require.Equal(t, "honey", r.Extras[0].Name)
	require.Empty(t, r.Changes)
	require.Equal(t, h.now(), *r.Saved)
	require.Equal(t, []recipeJSON{r}, decode[[]recipeJSON](t, daub(h, "recipe", "list", "--json")))

	card := daub(h, "recipe", "card", "face-mask")
	require.Zero(t, card.code, card.err)
	for _, want := range []string{"# Face mask\n", "## Amounts", "| honey |", "## Hold back", "## Cautions"} {
		require.Contains(t, card.out, want)
	}
	require.Equal(t, card.out, decode[cardJSON](t, daub(h, "recipe", "card", "face-mask", "--json")).Markdown)

	twice := decode[recipeJSON](t, daub(h, "recipe", "scale", "face-mask", "--total", "205", "--save", "Big mask", "--json"))
	about(t, 2**r.PowderG.Median, twice.PowderG.Median) // 205 + 5 is twice 100 + 5
	require.Equal(t, "big-mask", twice.SavedAs.Slug)
	require.Len(t, decode[[]recipeJSON](t, daub(h, "recipe", "list", "--json")), 2)
	require.Equal(t, r, decode[recipeJSON](t, daub(h, "recipe", "show", "face-mask", "--json")), "the first stays as it is")

	s := decode[recipeSwapJSON](t, daub(h, "recipe", "swap", "face-mask", "light-white-clay", "heavy-swelling-clay", "--json"))
	require.Equal(t, "not-a-stand-in", *s.Pair.Verdict)
	require.Equal(t, "Heavy swelling clay", s.Recipe.Powders[0].Powder)
	about(t, *r.LiquidG.Median, s.Recipe.LiquidG.Median)
	milk := decode[recipeSwapJSON](t, daub(h, "recipe", "swap", "face-mask", "light-white-clay", "clay-in-milk", "--json"))
	require.Nil(t, milk.Recipe)
	require.Contains(t, daub(h, "recipe", "swap", "face-mask", "light-white-clay", "clay-in-milk").out, "No swap. Not compared")
	require.Equal(t, "other-liquid", *milk.Pair.Refused)
}

func TestRecipeOfAMix(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "mix", "light-white-clay=60", "chalk=40", "--total", "100", "--save", "Two").code)
	r := decode[recipeJSON](t, daub(h, "recipe", "show", "two", "--json"))
	require.Len(t, r.Powders, 2)
	about(t, 0.4, r.Powders[1].Fraction)
	require.Contains(t, daub(h, "recipe", "card", "two").out, "first estimate")
	got := daub(h, "recipe", "swap", "two", "light-white-clay", "heavy-swelling-clay")
	require.Equal(t, exitMisused, got.code)
	require.Contains(t, got.err, "a recipe of one powder can be swapped")
}

// A powder that was found to react with metal after the recipe was saved: what
// the card warns of, show and its JSON warn of too.
func TestRecipeHasTheCautionsOfItsCard(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--save", "Mask").code)
	shelve(t, h, "light-white-clay", strings.Replace(read(t, lightClay), "[powder]", "[powder]\nkeep_from_metal = true", 1))
	const metal = "Keep from metal"
	require.Contains(t, daub(h, "recipe", "card", "mask").out, metal)
	require.Contains(t, daub(h, "recipe", "show", "mask").out, metal)
	require.Contains(t, strings.Join(decode[recipeJSON](t, daub(h, "recipe", "show", "mask", "--json")).Cautions, " "), metal)
}

func TestRecipeSaysThatItsPowderHasChanged(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--save", "Mask").code)
	shelve(t, h, "light-white-clay", strings.Replace(read(t, lightClay), "liquid_g = 5.0", "liquid_g = 6.0", 1))
	r := decode[recipeJSON](t, daub(h, "recipe", "show", "mask", "--json"))
	require.Len(t, r.Changes, 1)
	require.Contains(t, r.Changes[0], "has changed since")
	require.Contains(t, daub(h, "recipe", "show", "mask").out, "has changed since")
	require.Contains(t, daub(h, "recipe", "card", "mask").out, "has changed since")
	require.Contains(t, daub(h, "recipe", "list").out, "changed")

	require.NoError(t, os.Remove(filepath.Join(h.shelf, "powders", "light-white-clay.toml")))
	gone := daub(h, "recipe", "card", "mask")
	require.Zero(t, gone.code, gone.err)
	require.Contains(t, gone.out, "weigh it")
	require.Contains(t, daub(h, "recipe", "show", "mask").out, "not on the shelf")
}

func TestRecipeMisuse(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--save", "Mask").code)
	tests := []struct {
		args string
		code int
		err  string
	}{
		{"recipe", 2, "list, show, scale, swap or card"},
		{"recipe|shw", 2, `no command "daub recipe shw"`},
		{"recipe|show", 2, "takes one recipe"},
		{"recipe|show|Mosk", 2, "did you mean"},
		{"recipe|scale|mask", 2, "give --total G"},
		{"recipe|scale|mask|--total|1e9", 2, "100000"},
		{"recipe|scale|mask|--total|10|--save|mask", 2, "there is a recipe of that name"},
		{"recipe|scale|mask|--total|10|--save| ", 2, "no name"},
		{"recipe|swap|mask|light-white-clay", 2, "the one that takes its place"},
		{"recipe|swap|mask|chalk|heavy-swelling-clay", 2, "is to be replaced"},
		{"recipe|swap|mask|light-white-clay|chalk|--keep|x", 2, "liquid, powder or total"},
		{"recipe|swap|mask|light-white-clay|clay-in-milk|--save|x", 1, "nothing to save"},
		{"batch|light-white-clay|--total|10|--save|MASK ", 2, "there is a recipe of that name"},
	}
	for _, tt := range tests {
		got := daub(h, spaced(tt.args)...)
		require.Equal(t, tt.code, got.code, "%s: %s", tt.args, got.err)
		require.Contains(t, got.err, tt.err, tt.args)
		require.Empty(t, got.out, tt.args)
	}
	require.Len(t, decode[[]recipeJSON](t, daub(h, "recipe", "list", "--json")), 1)

	require.NoError(t, os.WriteFile(filepath.Join(h.shelf, "recipes", "bad.toml"), []byte("schema = 1\n"), 0o644))
	got := daub(h, "recipe", "list")
	require.Equal(t, exitBadData, got.code)
	require.Contains(t, got.out, "Mask")
	require.Contains(t, got.err, "bad.toml")
	require.Equal(t, exitBadData, daub(h, "recipe", "show", "bad").code)

	empty := daub(testHost(t), "recipe", "list")
	require.Zero(t, empty.code)
	require.Contains(t, empty.err, "no recipe yet")
	require.Equal(t, "[]\n", daub(testHost(t), "recipe", "list", "--json").out)
}
