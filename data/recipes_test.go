package data

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

const recipeFiles = "../testdata/recipes"

// Every broken recipe is refused with the complaints that stand beside it, by
// the shelf and by Check alike.
func TestBrokenRecipesAreRefused(t *testing.T) {
	for _, file := range glob(t, recipeFiles+"/bad/*.toml") {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".toml"), func(t *testing.T) {
			src, err := os.ReadFile(file)
			require.NoError(t, err)
			_, err = decodeRecipe(filepath.Base(file), src)
			var refused *tomlfile.Error
			require.ErrorAs(t, err, &refused)
			wanted := strings.TrimSuffix(file, ".toml") + ".want"
			if *update {
				require.NoError(t, os.WriteFile(wanted, []byte(err.Error()+"\n"), 0o644))
			}
			want, readErr := os.ReadFile(wanted)
			require.NoError(t, readErr)
			assert.Equal(t, strings.ReplaceAll(string(want), "\r\n", "\n"), err.Error()+"\n")
			lying := filepath.Join(t.TempDir(), recipesFolder, filepath.Base(file))
			require.NoError(t, os.Mkdir(filepath.Dir(lying), 0o755))
			require.NoError(t, os.WriteFile(lying, src, 0o644))
			problems, warnings := Check(lying, nil)
			assert.Equal(t, refused.Problems, problems)
			assert.Empty(t, warnings)
		})
	}
}

func TestRecipeComplaintsStandAtTheirLine(t *testing.T) {
	for name, want := range map[string]struct {
		line int
		what string
	}{
		"level-6.5": {6, "level 6.5 has no ratio"}, "ratio-order": {18, "the ratio 2.93"},
		"ratio-text": {18, "high is missing"}, "step-number": {13, "the whole number 3"},
		"extras-whole": {35, "make up 1 of the total"}, "mix-share": {23, "no share"},
		"total-zero": {7, "the recipe has no total"}, "powder-missing": {1, "powder is missing"},
	} {
		_, err := decodeRecipe(name, read(t, recipeFiles+"/bad/"+name+".toml"))
		var refused *tomlfile.Error
		require.ErrorAs(t, err, &refused, name)
		assert.Equal(t, want.line, refused.Problems[0].Line, name)
		assert.Contains(t, refused.Problems[0].What, want.what, name)
	}
}

// decodeRecipe reads a recipe as the shelf does.
func decodeRecipe(file string, src []byte) (model.Recipe, error) {
	r, _, problems := record.ReadRecipe(src)
	return r, tomlfile.Refuse(file, problems)
}

// encodeRecipe writes one over an old text.
func encodeRecipe(r model.Recipe, old []byte) ([]byte, error) {
	if old == nil {
		return record.WriteRecipe(r, nil)
	}
	_, doc, _ := record.ReadRecipe(old)
	return record.WriteRecipe(r, doc)
}

func read(t testing.TB, file string) []byte {
	t.Helper()
	src, err := os.ReadFile(file)
	require.NoError(t, err)
	return src
}

func TestGoodRecipesSurviveRewriting(t *testing.T) {
	for _, file := range glob(t, recipeFiles+"/good/*.toml") {
		src := read(t, file)
		r, err := decodeRecipe(file, src)
		require.NoError(t, err)
		once, err := encodeRecipe(r, src)
		require.NoError(t, err)
		again, err := decodeRecipe(file, once)
		require.NoError(t, err, "%s", once)
		assert.Equal(t, canonRecipe(r), canonRecipe(again))
		twice, err := encodeRecipe(again, once)
		require.NoError(t, err)
		assert.Equal(t, string(once), string(twice))
		assertComments(t, src, once)
		problems, warnings := Check(file, nil)
		assert.Empty(t, problems, "known for a recipe by its [recipe]")
		assert.Empty(t, warnings)
	}
}

// canonRecipe writes a recipe so that two can be compared: times by moment and
// offset.
func canonRecipe(r model.Recipe) string {
	saved, trial := r.Saved.Format(time.RFC3339Nano), r.Trial.Format(time.RFC3339Nano)
	r.Saved, r.Trial = time.Time{}, time.Time{}
	return fmt.Sprintf("%s %s %#v", saved, trial, r)
}

// genRecipe draws a recipe that Validate has nothing against.
func genRecipe(t *rapid.T) model.Recipe {
	r := model.Recipe{
		Schema: model.RecipeSchema, Name: "x" + words.Draw(t, "name"), Notes: words.Draw(t, "notes"),
		Level: float64(rapid.IntRange(2, 12).Draw(t, "level")) / 2, TotalG: typed(1000, 1).Draw(t, "total"),
		Liquid: "y" + words.Draw(t, "liquid"), RestS: rapid.IntRange(0, 600).Draw(t, "rest"),
		Spoons: rapid.SampledFrom([][]string{nil, model.DefaultSpoons()}).Draw(t, "spoons"),
		Steps:  rapid.SliceOfN(words, 0, 4).Draw(t, "steps"),
	}
	if len(r.Steps) == 0 {
		r.Steps = nil
	}
	if maybe(t, "more") {
		r.Saved, r.Trial = genTime(t), genTime(t)
		r.JarML, r.AllowanceShare, r.AllowanceG = typed(500, 1).Draw(t, "jar"), typed(1, 2).Draw(t, "share"), typed(9,
			1).Draw(t, "grams")
	}
	low := typed(10, 3).Draw(t, "low")
	r.Ratio = fit.Interval{Median: low + 0.5, Low: low, High: low + 1}
	r.Ratio.Median, r.Ratio.High = math.Round(r.Ratio.Median*1e3)/1e3, math.Round(r.Ratio.High*1e3)/1e3
	for range rapid.IntRange(1, model.MaxMixed).Draw(t, "powders") {
		r.Powders = append(r.Powders, model.RecipePowder{
			Name: "z" + words.Draw(t, "powder"), Lot: words.Draw(t, "lot"), Slug: words.Draw(t,
				"slug"), Share: typed(100, 2).Draw(t, "part"),
			Family: rapid.SampledFrom(append(model.Families(), "")).Draw(t, "family"), KeepFromMetal: maybe(t,
				"metal"), Ratio: typed(9, 3).Draw(t, "ratio"),
		})
	}
	for range rapid.IntRange(0, 3).Draw(t, "extras") {
		r.Extras = append(r.Extras, model.Extra{
			Name:  "e" + words.Draw(t, "extra"),
			Share: float64(rapid.IntRange(1, 30).Draw(t, "percent")) / 100, Notes: words.Draw(t, "extra notes"),
		})
	}
	return r
}

// A recipe reads back the same, and comments strewn over its file are all
// there after any change; rewriting a rewritten file changes nothing.
func TestRecipesReadBackWithTheirComments(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := genRecipe(t)
		require.Empty(t, r.Validate())
		text, err := encodeRecipe(r, nil)
		require.NoError(t, err)
		back, err := decodeRecipe("x.toml", text)
		require.NoError(t, err, "%s", text)
		require.Equal(t, canonRecipe(r), canonRecipe(back))

		var strewn strings.Builder
		for i, line := range strings.SplitAfter(string(text), "\n") {
			switch rapid.IntRange(0, 9).Draw(t, "where") {
			case 0:
				fmt.Fprintf(&strewn, "# above %d\n", i)
			case 1:
				if strings.TrimSpace(line) != "" {
					line = strings.TrimSuffix(line, "\n") + fmt.Sprintf(" # behind %d\n", i)
				}
			}
			strewn.WriteString(line)
		}
		old := []byte(strewn.String())
		if maybe(t, "other recipe") {
			r = genRecipe(t)
		}
		once, err := encodeRecipe(r, old)
		require.NoError(t, err)
		assertComments(t, old, once)
		back, err = decodeRecipe("x.toml", once)
		require.NoError(t, err, "%s", once)
		require.Equal(t, canonRecipe(r), canonRecipe(back))
		twice, err := encodeRecipe(r, once)
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice))
	})
}

func someRecipe(name string) model.Recipe {
	return model.Recipe{
		Name: name, Level: 5, TotalG: 100, Liquid: "water", Ratio: fit.Interval{Median: 2, Low: 1.5, High: 2.5},
		Powders: []model.RecipePowder{{Name: "Tuber starch", Family: model.Starch}}, Steps: []string{"Stir."},
	}
}

func TestRecipesOnTheShelf(t *testing.T) {
	s := newShelf(t)
	entries, errs := s.Recipes()
	assert.Empty(t, entries)
	assert.Empty(t, errs)
	b, err := s.SaveRecipe(RecipeEntry{Recipe: someRecipe("Beta")})
	require.NoError(t, err)
	a, err := s.SaveRecipe(RecipeEntry{Recipe: someRecipe("alpha")})
	require.NoError(t, err)
	again, err := s.SaveRecipe(RecipeEntry{Recipe: someRecipe("Beta")})
	require.NoError(t, err)
	assert.Equal(t, []string{"beta", "alpha", "beta-2"}, []string{b.Slug, a.Slug, again.Slug})
	require.NoError(t, os.WriteFile(recipes.path(s, "broken"), []byte("schema = 1\n"), 0o644))

	entries, errs = s.Recipes()
	require.Len(t, entries, 3)
	assert.Equal(t, []string{"alpha", "beta", "beta-2"}, []string{entries[0].Slug, entries[1].Slug, entries[2].Slug})
	require.Len(t, errs, 1)
	assert.ErrorContains(t, errs[0], "recipe is missing")
	profiles, errs := s.List()
	assert.Empty(t, profiles, "a recipe is no powder")
	assert.Empty(t, errs)

	for name, slug := range map[string]string{
		"ALPHA": "alpha", "beta-2": "beta-2", " alpha ": "alpha",
		"BETA-2": "beta-2", "al": "alpha",
	} {
		e, err := s.FindRecipe(name)
		require.NoError(t, err, name)
		assert.Equal(t, slug, e.Slug)
		assert.Equal(t, "Tuber starch", e.Recipe.Powders[0].Name)
	}
	_, err = s.FindRecipe("Beta")
	require.EqualError(t, err, `"Beta" fits 2 recipes; use one of: beta, beta-2`)
	_, err = s.FindRecipe("alpa")
	require.EqualError(t, err, `there is no recipe "alpa" on the shelf; did you mean alpha? `+
		"(1 unreadable on the shelf: daub check says why)")
	_, err = s.LoadRecipe("../powders/x")
	require.ErrorContains(t, err, `there is no recipe "../powders/x" on the shelf; `+
		"daub recipe list shows what is there")
	_, err = s.LoadRecipe("gamma")
	require.ErrorContains(t, err, "there is no recipe")
}

func TestRecipeIsSavedOnlyOverWhatWasRead(t *testing.T) {
	s := newShelf(t)
	e, err := s.SaveRecipe(RecipeEntry{Recipe: someRecipe("Beta")})
	require.NoError(t, err)
	mine := append([]byte("# mine\n"), read(t, e.Path)...)
	require.NoError(t, os.WriteFile(e.Path, mine, 0o644))
	e.Recipe.TotalG = 200
	_, err = s.SaveRecipe(e)
	require.ErrorIs(t, err, ErrChanged)
	assert.Equal(t, mine, read(t, e.Path))

	e, err = s.LoadRecipe("beta")
	require.NoError(t, err)
	e.Recipe.TotalG = 200
	e, err = s.SaveRecipe(e)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(read(t, e.Path)), "# mine\n"))

	require.NoError(t, os.Remove(e.Path))
	_, err = s.SaveRecipe(e)
	require.ErrorIs(t, err, ErrChanged)
	require.ErrorContains(t, err, "the file is no longer there")
	assert.NoFileExists(t, e.Path, "a recipe that was moved away is not silently made again")
	e, err = s.SaveRecipe(RecipeEntry{Recipe: e.Recipe})
	require.NoError(t, err)

	e.Recipe.Level = 9
	_, err = s.SaveRecipe(e)
	var refused *tomlfile.Error
	require.ErrorAs(t, err, &refused)
	require.ErrorContains(t, err, "recipe, level: level 9 has no ratio")
	e.Recipe.Level, e.Recipe.TotalG = 5, math.NaN()
	_, err = s.SaveRecipe(e)
	require.Error(t, err)
	assert.Contains(t, string(read(t, e.Path)), "total_g = 200.0")
}

func TestRecipeSlug(t *testing.T) {
	assert.Equal(t, "weiche-maske-2", RecipeSlug("Weiche Maske 2"))
	assert.Equal(t, "recipe", RecipeSlug("泥"))
	assert.Equal(t, "con-recipe", RecipeSlug("con"))
}
