package data

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// refreshSamples rewrites the samples' [[ratio]] after a change to the method:
// go test ./data -run TestSamples -update
func refreshSamples(t *testing.T) {
	own, err := Open("samples", nil).Spoons()
	require.NoError(t, err)
	for _, file := range glob(t, "samples/powders/*.toml") {
		old, err := os.ReadFile(file)
		require.NoError(t, err)
		p, err := record.Decode(file, old, own)
		require.NoError(t, err)
		text, err := record.Encode(p, own, old)
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(file, text, 0o644))
	}
}

func TestSamplesAreSoundAndCurrent(t *testing.T) {
	if *update {
		refreshSamples(t)
	}
	s := Open("samples", nil)
	own, err := s.Spoons()
	require.NoError(t, err)
	all := slices.Concat(glob(t, "samples/powders/*.toml"), glob(t, "samples/recipes/*.toml"), []string{s.SpoonsPath()})
	for _, file := range all {
		problems, warnings := Check(file, own)
		assert.Empty(t, problems, file)
		assert.Empty(t, warnings, "%s: refresh with go test ./data -run TestSamples -update", file)
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		assert.True(t, strings.HasPrefix(string(text), "# Part of the sample shelf: an invented scenario."), file)
	}
}

// The sample shelf shows what the tool can do.
func TestSamplesShowWhatTheToolDoes(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "samples")
	require.NoError(t, WriteSample(dir))
	s := Open(dir, nil)
	entries, errs := s.List()
	require.Empty(t, errs)
	require.GreaterOrEqual(t, len(entries), 5)
	own, err := s.Spoons()
	require.NoError(t, err)

	families := map[model.Family]bool{}
	shows := map[string]bool{}
	trials := 0
	for _, e := range entries {
		p := e.Profile
		families[p.Powder.Family] = true
		assert.Equal(t, Slug(p.Powder.Name, p.Powder.Lot), e.Slug)
		used := 0
		for _, trial := range p.Trials {
			trials++
			assert.Equal(t, 2026, trial.Started.Year())
			if trial.Used() {
				used++
			}
			weighed := len(trial.Steps) > 0
			for i, step := range trial.Steps {
				weighed = weighed && step.Grams > 0
				shows["half-level looks"] = shows["half-level looks"] || step.Looked &&
					step.Level != float64(int(step.Level))
				shows["marks"] = shows["marks"] || len(step.Marks) > 0
				shows["notes"] = shows["notes"] || step.Note != ""
				shows["paste taken out"] = shows["paste taken out"] || step.Add == model.Removed
				if i > 0 && step.Add == model.AddLiquid && trial.Steps[i-1].Level > trial.Aim {
					shows["an overshoot taken back"] = true
				}
			}
			if weighed && len(p.LevelSpoons) == 0 {
				shows["weighed throughout"] = true
			}
			shows["a trial set aside"] = shows["a trial set aside"] || trial.SetAside != ""
		}
		if len(e.Profile.Unfinished()) > 0 {
			shows["an unfinished trial"] = true
		}
		if used >= 3 {
			shows["three repeats"] = true
		}
		for _, b := range p.Bases() {
			for _, r := range repeats.Ratios(p, b, []float64{5}, own) {
				assert.NotNil(t, r.Powder, "%s has an answer", e.Slug)
			}
		}
	}
	assert.GreaterOrEqual(t, len(families), 4)
	assert.GreaterOrEqual(t, trials, 7)
	for _, feature := range []string{
		"half-level looks", "marks", "notes", "paste taken out", "an overshoot taken back",
		"weighed throughout", "a trial set aside", "an unfinished trial", "three repeats",
	} {
		assert.True(t, shows[feature], feature)
	}
	// What is read from it can be saved to it.
	open := slices.IndexFunc(entries, func(e Entry) bool { return len(e.Profile.Unfinished()) > 0 })
	e := entries[open]
	e.Profile.Trials[e.Profile.Unfinished()[0]].State = model.Done
	_, err = s.Save(e)
	require.NoError(t, err)

	recipes, errs := s.Recipes()
	require.Empty(t, errs)
	require.NotEmpty(t, recipes)
	for _, r := range recipes {
		assert.Equal(t, RecipeSlug(r.Recipe.Name), r.Slug)
		for _, powder := range r.Recipe.Powders {
			e, err := s.Load(powder.Slug)
			require.NoError(t, err, "its powder is on the shelf")
			assert.Equal(t, powder.Powder().Title(), e.Profile.Powder.Title())
			assert.Empty(t, kitchen.Stale(r.Recipe, e.Profile, own), "the recipe goes by the profile as it is")
			assert.True(t, r.Recipe.Trial.Equal(e.Profile.LastTrial()))
			paste, ok := kitchen.RecipePaste(r.Recipe, []model.Profile{e.Profile}, own)
			require.True(t, ok)
			assert.InEpsilon(t, paste.Next.Median, r.Recipe.Ratio.Median, 5e-4, "to four figures")
			assert.InEpsilon(t, paste.Next.Low, r.Recipe.Ratio.Low, 5e-4)
			assert.InEpsilon(t, paste.Next.High, r.Recipe.Ratio.High, 5e-4)
		}
	}

	require.ErrorContains(t, WriteSample(dir), "powders, recipes or spoons on this shelf already")
}

// The starch of the samples takes 0.758 g of water per g where the clay takes
// 0.943. Gram for gram it stands more than a level below 5 (at 3.7, by six levels
// an e-fold 5 + 6·ln 0.80 = 3.7), and is not called similar. It is still the first
// stand-in: the others are further off.
func TestSampleStarchIsNotCalledSimilar(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "samples")
	require.NoError(t, WriteSample(dir))
	s := Open(dir, nil)
	clay, err := s.Load("pale-valley-clay-b-17")
	require.NoError(t, err)
	all, _ := s.List()
	found, err := kitchen.StandIns(clay, kitchen.Candidates(clay, all, model.Choice{}, 0), 5, model.Choice{}, nil)
	require.NoError(t, err)
	require.NotEmpty(t, found)
	starch := found[0]
	assert.Equal(t, "tuber-starch", starch.Entry.Slug)
	assert.InDelta(t, 3.7, starch.Pair.StandsAt.Median, 0.1)
	assert.NotEqual(t, kitchen.Close, starch.Pair.Verdict)
}

// A shelf with nothing but a recipe is the maker's too.
func TestSamplesAreNotWrittenOverARecipe(t *testing.T) {
	s := newShelf(t)
	_, err := s.SaveRecipe(RecipeEntry{Recipe: someRecipe("Mine")})
	require.NoError(t, err)
	require.ErrorContains(t, WriteSample(s.Dir()), "recipes")
}

// The embedded samples are the files of the folder, none left out.
func TestSamplesAreEmbeddedWhole(t *testing.T) {
	err := filepath.WalkDir("samples", func(path string, f fs.DirEntry, err error) error {
		if err != nil || f.IsDir() {
			return err
		}
		want, err := os.ReadFile(path)
		require.NoError(t, err)
		have, err := samples.ReadFile(filepath.ToSlash(path))
		require.NoError(t, err)
		assert.True(t, bytes.Equal(want, have), path)
		return nil
	})
	require.NoError(t, err)
}

func TestCheckSeesStaleRatios(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, WriteSample(dir))
	file := filepath.Join(dir, powdersFolder, "pale-valley-clay-b-17.toml")
	src, err := os.ReadFile(file)
	require.NoError(t, err)
	text := string(src)
	check := func(changed string) []tomlfile.Problem {
		require.NotEqual(t, text, changed)
		require.NoError(t, os.WriteFile(file, []byte(changed), 0o644))
		problems, warnings := Check(file, nil)
		require.Empty(t, problems)
		return warnings
	}
	at := strings.Index(text, "liquid_per_powder")
	line := 1 + strings.Count(text[:at], "\n")
	warnings := check(text[:at] + "liquid_per_powder = 9.9\n" + text[at+strings.Index(text[at:], "\n")+1:])
	require.Len(t, warnings, 1)
	assert.Equal(t, line, warnings[0].Line)
	assert.Contains(t, warnings[0].What, "liquid_per_powder")

	warnings = check(text[:strings.LastIndex(text, "[[ratio]]")])
	require.Len(t, warnings, 1)
	assert.Contains(t, warnings[0].What, "1 of 6 are missing")

	warnings = check(text[:strings.Index(text, "[[ratio]]")])
	require.Len(t, warnings, 1)
	assert.Equal(t, 1, warnings[0].Line)

	warnings = check(text + "\n[[ratio]]\nliquid = \"honey\"\n")
	require.Len(t, warnings, 1)
	assert.Contains(t, warnings[0].What, "nothing in the trials")

	// A look that was mended by hand changes every ratio.
	assert.NotEmpty(t, check(regexp.MustCompile(`level = 4\.0\n  rested`).ReplaceAllString(text,
		"level = 5.0\n  rested")))
}

func TestCheckNamesWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	problems, _ := Check(filepath.Join(dir, "none.toml"), nil)
	require.Len(t, problems, 1)
	problems, _ = Check(dir, nil)
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].What, "folder")
	problems, _ = Check(filesFolder+"/bad/many.toml", nil)
	assert.GreaterOrEqual(t, len(problems), 6)
	spoons := filepath.Join(dir, spoonsFile)
	require.NoError(t, os.WriteFile(spoons, []byte("[[spoon]]\nname = \"1 tsp\"\nvolume_ml = 6\n"), 0o644))
	problems, warnings := Check(spoons, nil)
	assert.Empty(t, problems)
	require.Len(t, warnings, 1)
	assert.Equal(t, 2, warnings[0].Line)
	huge := filepath.Join(dir, "huge.toml")
	f, err := os.Create(huge)
	require.NoError(t, err)
	require.NoError(t, f.Truncate(tomlfile.MaxFileSize+1))
	require.NoError(t, f.Close())
	problems, _ = Check(huge, nil)
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].What, "larger than")
}
