package main

import (
	"encoding/base64"
	"html"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daub.example/daub/data/export"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
)

// From a batch to a card: save, list, show, scale, swap, print.
func TestRecipe(t *testing.T) {
	h := kitchenShelf(t)
	saved := decode[pasteJSON](t, daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "honey=0.03",
		"--allowance", "5g", "--save", "Face mask", "--json"))
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
	for _, want := range []string{"# Face mask\n", "| honey | 3.15 |", "## Steps", "g back"} {
		require.Contains(t, card.out, want)
	}
	require.Equal(t, card.out, decode[cardJSON](t, daub(h, "recipe", "card", "face-mask", "--json")).Markdown)

	twice := decode[recipeJSON](t, daub(h, "recipe", "scale", "face-mask", "--total", "205", "--save", "Big mask",
		"--json"))
	about(t, 2**r.PowderG.Median, twice.PowderG.Median) // 205 + 5 is twice 100 + 5
	require.Equal(t, "big-mask", twice.SavedAs.Slug)
	require.Len(t, decode[[]recipeJSON](t, daub(h, "recipe", "list", "--json")), 2)
	require.Equal(t, r, decode[recipeJSON](t, daub(h, "recipe", "show", "face-mask", "--json")),
		"the first stays as it is")

	s := decode[recipeSwapJSON](t, daub(h, "recipe", "swap", "face-mask", "light-white-clay", "heavy-swelling-clay",
		"--json"))
	require.Contains(t, daub(h, "recipe", "swap", "face-mask", "light-white-clay", "heavy-swelling-clay").out, unsaved)
	require.Contains(t, daub(h, "recipe", "scale", "face-mask", "--total", "205").out, unsaved)
	require.NotContains(t, daub(h, "recipe", "show", "face-mask").out, unsaved)
	require.Equal(t, "not-a-stand-in", *s.Pair.Verdict)
	require.Equal(t, "Heavy swelling clay", s.Recipe.Powders[0].Powder)
	about(t, *r.LiquidG.Median+*r.CountedG, export.Number(*s.Recipe.LiquidG.Median+*s.Recipe.CountedG))
	milk := decode[recipeSwapJSON](t, daub(h, "recipe", "swap", "face-mask", "light-white-clay", "clay-in-milk",
		"--json"))
	require.Nil(t, milk.Recipe)
	require.Contains(t, daub(h, "recipe", "swap", "face-mask", "light-white-clay", "clay-in-milk").out,
		"No swap: Light white clay was tried in water")
	require.Equal(t, "other-liquid", *milk.Pair.Refused)
}

func TestRecipeOfAMix(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "mix", "light-white-clay=60", "chalk=40", "--total", "100", "--save", "Two").code)
	r := decode[recipeJSON](t, daub(h, "recipe", "show", "two", "--json"))
	require.Len(t, r.Powders, 2)
	about(t, 0.4, r.Powders[1].Fraction)
	require.Contains(t, daub(h, "recipe", "card", "two").out, "first estimate")
	// 60 parts of the other clay, 40 of the chalk as before; the water stays.
	s := decode[recipeSwapJSON](t, daub(h, "recipe", "swap", "two", "light-white-clay", "heavy-swelling-clay",
		"--json"))
	require.Len(t, s.Recipe.Powders, 2)
	about(t, 0.6, s.Recipe.Powders[0].Fraction)
	require.Equal(t, "Heavy swelling clay", s.Recipe.Powders[0].Powder)
	about(t, *r.LiquidG.Median, s.Recipe.LiquidG.Median)
	require.Equal(t, "Light white clay", s.Recipe.Was[0].What)
	require.Zero(t, *s.Recipe.Was[0].After)
	require.Contains(t, daub(h, "recipe", "swap", "two", "light-white-clay", "heavy-swelling-clay").out,
		"; keep the total to make as much as before")
}

// A recipe is edited, renamed, copied, deleted and brought back; nothing is lost.
func TestRecipesLive(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "glycerine=4%", "--save",
		"Mask").code)
	show := func(name string) recipeJSON { return decode[recipeJSON](t, daub(h, "recipe", "show", name, "--json")) }
	was := show("mask")

	got := daub(h, "recipe", "edit", "mask", "--extra", "oat oil=2%", "--without", "glycerine", "--portions", "4",
		"--each", "30g",
		"--order", "water,light", "--notes", "for the open day", "--made", "2026-05-04")
	require.Zero(t, got.code, got.err)
	require.Regexp(t, `glycerine +4\.00 +0\.00 +-4\.00`, got.out)
	require.Regexp(t, `oat oil +0\.00 +2\.40 +\+2\.40`, got.out)
	now := show("mask")
	about(t, 120, now.TotalG)
	require.Equal(t, 4, *now.Portions)
	require.Equal(t, []string{"water", "Light white clay", "oat oil"}, now.Order)
	require.Equal(t, "2026-05-04", *now.Made)
	require.Equal(t, "for the open day", now.Notes)
	about(t, 5, now.StandsAt)

	// 5 % of 120 g for the bowl: 126 g are weighed out.
	got = daub(h, "recipe", "edit", "mask", "--allowance", "5%")
	require.Contains(t, got.out, "for the bowl: 5 % (before: none)")
	require.Regexp(t, `total, with what stays in the bowl +120.0 +126.0 +\+6.0`, got.out)
	now = show("mask")
	require.Zero(t, daub(h, "recipe", "copy", "mask", "Winter mask").code)
	require.Zero(t, daub(h, "recipe", "rename", "winter", "Spring mask").code)
	require.Equal(t, "winter-mask", show("spring").Slug, "the file keeps its name")
	require.Equal(t, now.Order, show("spring").Order)

	require.Zero(t, daub(h, "recipe", "delete", "mask").code)
	require.Equal(t, exitMisused, daub(h, "recipe", "show", "mask").code)
	require.FileExists(t, filepath.Join(h.shelf, "deleted", "mask.toml"))
	require.Zero(t, daub(h, "recipe", "delete", "mask", "--undo").code)
	require.Equal(t, now, show("mask"))
	require.NotEqual(t, was.Extras, now.Extras)
}

// A recipe saved before extras had kinds keeps its grams and says what they give; a
// kind gives new grams.
func TestRecipeOfBeforeExtrasCounted(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--extra", "glycerine=20%", "--save",
		"Mask").code)
	file := filepath.Join(h.shelf, "recipes", "mask.toml")
	require.NoError(t, os.WriteFile(file, []byte(strings.Replace(read(t, file), "counts = \"liquid\"\n", "", 1)),
		0o644))
	r := decode[recipeJSON](t, daub(h, "recipe", "show", "mask", "--json"))
	require.Nil(t, r.Extras[0].Counts)
	// 80 g of powder and water at R as before, 20 g of glycerine beside it.
	about(t, 80, export.Number(*r.PowderG.Median+*r.LiquidG.Median))
	require.Less(t, *r.StandsAt, 4.0, "the glycerine thins it")
	require.Contains(t, daub(h, "recipe", "show", "mask").out, "glycerine as liquid")

	require.Zero(t, daub(h, "recipe", "edit", "mask", "--renew").code)
	r = decode[recipeJSON](t, daub(h, "recipe", "show", "mask", "--json"))
	require.Equal(t, "liquid", *r.Extras[0].Counts)
	about(t, 5, r.StandsAt)
	about(t, 100, export.Number(*r.PowderG.Median+*r.LiquidG.Median+*r.CountedG))
}

// A powder that was found to react with metal after the recipe was saved: what
// the card warns of, show and its JSON warn of too.
func TestRecipeHasTheCautionsOfItsCard(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--save", "Mask").code)
	shelve(t, h, "light-white-clay", strings.Replace(read(t, lightClay), "[powder]",
		"[powder]\nkeep_from_metal = true", 1))
	const metal = "Keep from metal"
	require.Contains(t, daub(h, "recipe", "card", "mask").out, metal)
	require.Contains(t, daub(h, "recipe", "show", "mask").out, metal)
	require.Contains(t, strings.Join(decode[recipeJSON](t, daub(h, "recipe", "show", "mask", "--json")).Cautions,
		" "), metal)
}

// The list keeps within 80 cells, with short names as a table and with long ones in lines.
func TestRecipeListFitsThePage(t *testing.T) {
	h := kitchenShelf(t)
	short := "Mask"
	long := strings.TrimSpace(strings.Repeat("a mask for the open day ", 3))
	for _, name := range []string{short, long} {
		require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--save", name).code)
		out := daub(h, "recipe", "list").out
		require.Contains(t, out, "Light white clay")
		require.NotContains(t, out, "changed")
		require.Equal(t, name == short, strings.HasPrefix(out, "recipe "), "a table")
		for _, line := range strings.Split(out, "\n") {
			require.LessOrEqual(t, ansi.StringWidth(line), 80, line)
		}
	}
	require.Contains(t, daub(h, "recipe", "list").out, "Mask\n  100.0 g at 5 spread, saved 2026-05-03, of Light white "+
		"clay\n")
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
	require.Contains(t, gone.out, "Weigh 61.59 g Light white clay")
	require.Contains(t, daub(h, "recipe", "show", "mask").out, "not on the shelf")
}

// A recipe of the same name is saved over only when that is meant.
func TestSaveOverIsAskedFor(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--save", "Mask").code)
	grams := func() float64 { return *decode[recipeJSON](t, daub(h, "recipe", "show", "mask", "--json")).TotalG }
	for _, args := range [][]string{
		{"batch", "light-white-clay", "--total", "50", "--save", "mask"},
		{"mix", "light-white-clay=60", "chalk=40", "--total", "60", "--save", "mask"},
		{"recipe", "scale", "mask", "--total", "70", "--save", "mask"},
	} {
		refused := daub(h, args...)
		require.Equal(t, exitMisused, refused.code, "%v", args)
		require.Contains(t, refused.err, "--force")
		before := grams()
		got := daub(h, append(args, "--force")...)
		require.Zero(t, got.code, got.err)
		require.NotEqual(t, before, grams())
	}
	files, err := filepath.Glob(filepath.Join(h.shelf, "recipes", "*.toml"))
	require.NoError(t, err)
	require.Len(t, files, 1, "one recipe, one file")
	require.Equal(t, "Mask", decode[recipeJSON](t, daub(h, "recipe", "show", "mask", "--json")).Recipe)

	alone := daub(h, "batch", "light-white-clay", "--total", "50", "--force")
	require.Equal(t, exitMisused, alone.code)
	require.Contains(t, alone.err, "give its name with --save")
}

func TestRecipeMisuse(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "batch", "light-white-clay", "--total", "100", "--save", "Mask").code)
	tests := []struct {
		args string
		code int
		err  string
	}{
		{"recipe", 2, "list, show, card, scale, swap, edit, rename, copy or delete"},
		{"recipe|shw", 2, `no command "daub recipe shw"`},
		{"recipe|show", 2, "takes one recipe"},
		{"recipe|show|Mosk", 2, "did you mean"},
		{"recipe|scale|mask", 2, "give --total G"},
		{"recipe|scale|mask|--total|1e9", 2, "100000"},
		{"recipe|scale|mask|--total|10|--save|mask", 2, "there is a recipe of that name"},
		{"recipe|scale|mask|--total|10|--save| ", 2, "no name"},
		{"recipe|swap|mask|light-white-clay", 2, "the one that takes its place"},
		{"recipe|swap|mask|chalk|heavy-swelling-clay", 2, `no Chalk in "Mask"; it is made of Light white clay`},
		{"recipe|swap|mask|light-white-clay|chalk|--keep|x", 2, "liquid, powder or total"},
		{"recipe|swap|mask|light-white-clay|clay-in-milk|--save|x", 3, "nothing to save"},
		{"recipe|edit|mask", 2, "what can be changed"},
		{"recipe|edit|mask|--without|honey", 2, "it has none"},
		{"recipe|edit|mask|--order|milk", 2, "is not one of its parts"},
		{"recipe|edit|mask|--extra|glycerine=50%", 3, "take up only"},
		{"recipe|edit|mask|--extra|honey=5%|--extra|honey=3%", 2, "honey is named twice"},
		{"recipe|edit|mask|--extra|honey=5%, honey=3%", 2, "honey is named twice"},
		{"recipe|edit|mask|--extra|water=5%", 2, "water is the liquid of this paste already"},
		{"recipe|scale|mask|--portions|2,5", 2, `"2,5" is not a whole number`},
		{"recipe|scale|mask|--portions|0", 2, "--portions 0: give a number from 1"},
		{"recipe|edit|mask|--order|water, milk", 2, `: "milk" is not one of its parts`},
		{"recipe|edit|mask|--made|soon", 2, "is no day"},
		{"recipe|edit|mask|--jar|60|--extra|vinegar=3%", 3, "no jar for vinegar with Light white clay"},
		{"recipe|copy|mask|mask", 2, "there is a recipe of that name"},
		{"recipe|delete|zzzz", 2, `there is no recipe "zzzz"`},
		{"recipe|delete|zzzz|--undo", 2, `there is no recipe "zzzz"`},
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

// The picture on the card of a mix shows each of its powders, also those that were read
// after another rest than the longest, which is the mix's own.
func TestCardOfAMixShowsAllItsPowders(t *testing.T) {
	h := kitchenShelf(t)
	require.Zero(t, daub(h, "mix", "light-white-clay=60", "heavy-swelling-clay=40", "--portions", "20", "--each", "75g",
		"--extra", "honey=4%", "--save", "Class").code)
	card := daub(h, "recipe", "card", "class", "--to", "html")
	require.Zero(t, card.code)
	_, picture, _ := strings.Cut(html.UnescapeString(card.out), "data:image/svg+xml;base64,")
	picture, _, _ = strings.Cut(picture, `"`)
	svg, err := base64.StdEncoding.DecodeString(picture)
	require.NoError(t, err)
	require.Contains(t, string(svg), "Light white clay")
	require.NotContains(t, string(svg), "no finished trial")
}
