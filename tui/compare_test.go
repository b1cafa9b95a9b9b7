package tui

import (
	"errors"
	"strings"
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// finished is an invented powder with one trial that counts.
func finished(name string, f model.Family, liquid string, levels ...float64) model.Profile {
	p := barley(levels...)
	p.Powder = model.Powder{Name: name, Family: f}
	p.Trials[0].State, p.Trials[0].Liquid = model.Done, liquid
	return p
}

// pantry is a shelf for comparing and for the kitchen: an unfinished trial,
// three powders in water, one in oil, one never tried, and a recipe.
func pantry() *fakeShelf {
	never := barley()
	never.Powder = model.Powder{Name: "Never tried"}
	f := newFake(
		barley(0, 1, 3),
		finished("Oat", model.Flour, "water", 0, 1, 2, 3, 4, 5, 5, 6, 7),
		finished("Rye", model.Flour, "water", 0, 1, 2, 3, 4, 5, 6, 7),
		finished("Quick", model.Flour, "water", 2, 4, 6, 7),
		finished("Oily", model.Flour, "vegetable oil", 0, 1, 2, 3, 4, 5, 6, 7),
		never,
	)
	r := f.recipe("Oat mask", 1, 100)
	f.recipes = []model.RecipeEntry{{Slug: "r0", Path: "recipes/r0.toml", Recipe: r}}
	return f
}

// recipe is a batch of one of the shelf's powders at level 5.
func (f *fakeShelf) recipe(name string, item int, totalG float64) model.Recipe {
	paste, err := model.PasteOf(f.items[item].Profile, 5, nil)
	if err != nil {
		panic(err)
	}
	b, err := paste.Batch(model.Order{TotalG: totalG})
	if err != nil {
		panic(err)
	}
	return model.RecipeOf(name, b, []string{f.items[item].Slug}, f.now)
}

func TestMarksSurvive(t *testing.T) {
	d := drive(t, pantry().deps(), 80, 24).press("down space down space down space")
	assert.Contains(t, d.frame(), "* 3 marked: Oat, Rye, Quick")
	assert.Contains(t, d.frame(), "▸*Quick")
	d.press("/ oat enter")
	assert.Contains(t, d.frame(), "* 3 marked", "also where the filter hides them")
	d.press("esc r c")
	assert.Contains(t, d.frame(), "Compare  3 powders at 5 spread")
	d.press("esc")
	assert.Contains(t, d.frame(), "* 3 marked: Oat, Rye, Quick", "back from comparing")
	assert.Contains(t, d.frame(), "▸*Oat", "the cursor stays on the powder")
	d.press("enter esc")
	assert.Contains(t, d.frame(), "* 3 marked", "back from a result")
	d.press("space")
	assert.Contains(t, d.frame(), "* 2 marked: Rye, Quick")
	d.press("u")
	assert.NotContains(t, d.frame(), "marked:")
}

func TestCompareSaysHowManyToMark(t *testing.T) {
	f := pantry()
	for _, n := range []string{"U", "V", "W"} {
		f.items = append(f.items, model.Entry{Slug: n, Profile: finished(n, model.Flour, "water", 0, 2, 4, 5, 6)})
	}
	d := drive(t, f.deps(), 80, 24).press("c")
	assert.Contains(t, d.frame(), "! 0 marked: mark two to six powders with Space")
	d.press("space c")
	assert.Contains(t, d.frame(), "! 1 marked")
	d.press("down space down space down space down space down space down space c")
	assert.Contains(t, d.frame(), "! 7 marked: six at most")
}

func TestCompareLevelsAndReference(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 80, 24).press("down space down space down space c")
	frame := d.frame()
	assert.Contains(t, frame, "At 5 spread, against A Oat: g water per g powder, rest 2 min.")
	for _, fact := range []string{"▸ A Oat", "  B Rye", "  C Quick", "(A) Oat", "(B) Rye", "×A per g", "×A per tsp", "B: Rye drinks "} {
		assert.Contains(t, frame, fact)
	}
	d.press("right")
	assert.Contains(t, d.frame(), "Compare  3 powders at 5.5 spread/stiff")
	d.press("left left")
	assert.Contains(t, d.frame(), "at 4.5 dollop/spread")
	d.press("tab tab")
	assert.Contains(t, d.frame(), "▸ C Quick")
	assert.Contains(t, d.frame(), "×C per g")
	assert.Contains(t, d.frame(), "A: Oat drinks ")
	d.press("up up")
	assert.Contains(t, d.frame(), "▸ A Oat")
	for range 20 {
		d.press("right")
	}
	assert.Contains(t, d.frame(), "at 6 stiff", "no further than there are ratios")
	for range 20 {
		d.press("pgdown")
	}
	assert.Contains(t, d.frame(), "C Quick: ratio ", "the end of the text")
}

func TestCompareBesideAt120(t *testing.T) {
	d := drive(t, pantry().deps(), 120, 40).press("down space down space c")
	assert.Contains(t, d.frame(), "reach")
	assert.Contains(t, d.frame(), "dust, allergy")
	assert.Regexp(t, `▸ A Oat .* 1 +1 `, d.frame())
	assert.Regexp(t, `  B Rye .*\d \([0-9.]+ to [0-9.]+\)`, d.frame(), "there is room for the intervals of the factors")
	assert.Regexp(t, `level +\(A\) Oat .*B: Rye drinks`, d.frame(), "the text stands beside the chart")
}

func TestOtherLiquidIsRefusedLoudly(t *testing.T) {
	d := drive(t, pantry().deps(), 80, 24).press("down space down down down space c")
	frame := d.frame()
	assert.Contains(t, frame, "! NOT COMPARED with A: B.")
	assert.Contains(t, frame, "! none")
	assert.Contains(t, frame, "(B) in vegetable oil, not drawn")
	assert.Contains(t, frame, "! B: Not compared: Oat was tried in water, Oily in vegetable oil.")
	d.press("s")
	assert.Contains(t, d.frame(), "Kitchen › swap")
	assert.Contains(t, d.frame(), "! Not compared: Oat was tried in water")
	d.press("down down down 50")
	assert.NotContains(t, d.frame(), "For 50", "no amounts for what is not compared")
}

func TestPowderWithoutATrialIsRefused(t *testing.T) {
	d := drive(t, pantry().deps(), 80, 24).press("down space down down down down space c")
	assert.Contains(t, d.frame(), "no trial")
	assert.Contains(t, d.frame(), "! B: Not compared: Never tried has no finished trial.")
}

func TestComparisonGetsOut(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 80, 24).press("down space down space c y")
	assert.Contains(t, f.clip, "At 5 spread, against A Oat")
	assert.Contains(t, f.clip, "B: Rye drinks ")
	assert.NotContains(t, f.clip, "\x1b")
	assert.Contains(t, d.frame(), "the comparison copied to the clipboard")

	d.press("e")
	assert.Contains(t, d.frame(), ".csv .toml .json .md .svg .png .pdf")
	d.press("bmp enter")
	assert.Contains(t, d.frame(), `! "powders.bmp" does not say what to write`)
	d.press("bksp bksp bksp svg enter")
	assert.Contains(t, d.frame(), "written to /written/powders.svg")
	assert.Equal(t, "2 at 5", f.files["powders.svg"])
	require.Len(t, f.exported, 1)
	assert.Equal(t, "Oat", f.exported[0][0].Profile.Powder.Name)

	f.files["powders.svg"] = "mine"
	d.press("e svg enter")
	assert.Contains(t, d.frame(), "! powders.svg is there already and was left as it is")
	assert.Equal(t, "mine", f.files["powders.svg"])
	d.press("esc")
	assert.Equal(t, "mine", f.files["powders.svg"])
	d.press("e svg enter bksp bksp bksp pdf enter")
	assert.Contains(t, d.frame(), "written to /written/powders.pdf")
	assert.Equal(t, "mine", f.files["powders.svg"], "another name leaves it alone too")
	d.press("e svg enter enter")
	assert.Equal(t, "2 at 5", f.files["powders.svg"], "asked again, and meant")
}

func TestNotWrittenStays(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 80, 24).press("down e")
	f.fail = errors.New("the disk is full")
	d.press("csv enter down up")
	assert.Contains(t, d.frame(), "! NOT WRITTEN: the disk is full")
	f.fail = nil
	d.press("e csv enter")
	assert.NotContains(t, d.frame(), "NOT WRITTEN")
	assert.Equal(t, "1 at 0", f.files["oat.csv"], "the powder under the cursor, all levels")
}

func TestResultGetsOut(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 80, 24).press("down enter y")
	assert.True(t, strings.HasPrefix(f.clip, "Oat: At 5 spread this powder takes "), f.clip)
	d.press("e json enter")
	assert.Contains(t, d.frame(), "written to /written/oat.json")
	assert.Equal(t, "1 at 0", f.files["oat.json"])
}
