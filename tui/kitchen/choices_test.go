package kitchen_test

import (
	"regexp"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
)

var shift = regexp.MustCompile(`that rounding [^.]*\.[^ ]*`)

// A powder tried in two liquids has two ratios. The level shift of rounded spoons
// is that of the chosen liquid.
func TestSpoonsAreOfTheLiquidChosen(t *testing.T) {
	both := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	oily := drive.Finished("Oat", model.Flour, "vegetable oil", 0, 1, 1, 2, 2, 3, 3, 4, 5, 6)
	both.Trials = append(both.Trials, oily.Trials...)
	d := drive.Start(t, drive.NewShelf(both).Deps(), 100, 40).Press("k down down down enter")
	assert.Contains(t, d.Frame(), "in             as most trials are")
	d.PressUntil("down", "▸ amount").Write("0.95") // the half teaspoon is more, the quarter less
	d.PressUntil("up", "▸ in ").PressUntil("right", "← water, rest 2 min →")
	water := shift.FindString(d.Flat())
	assert.NotEmpty(t, water)
	d.PressUntil("right", "← vegetable oil, rest 2 min →")
	assert.NotEmpty(t, shift.FindString(d.Flat()))
	assert.NotEqual(t, water, shift.FindString(d.Flat()), "in oil it thickens more slowly")
}

// Total and portions go together: the one that is not typed follows the other.
func TestTotalAndPortionsFollowEachOther(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 100, 40).Press(drive.ToRecipe + " e")
	d.PressUntil("down", "▸ portions").Write("20 x 75 g")
	assert.Contains(t, d.Frame(), "total, g       1500")

	f := drive.Pantry()
	f.Recipes[0].Recipe.Portions, f.Recipes[0].Recipe.PortionG = 4, 25
	d = drive.Start(t, f.Deps(), 100, 40).Press(drive.ToRecipe + " e")
	assert.Contains(t, d.Frame(), "portions       4 x 25 g")
	d.Write("300")
	assert.Contains(t, d.Frame(), "portions       4 x 75 g", "four as before, each larger")
}

// r makes a recipe again from today's profiles; it is saved only when asked.
func TestRecipeIsMadeByTodaysProfiles(t *testing.T) {
	f := drive.Pantry()
	was := f.Recipes[0].Recipe.Ratio.Median
	more := drive.Finished("Oat", model.Flour, "water", 0, 1, 1, 2, 2, 3, 3, 4, 5)
	f.Entries[1].Profile.Trials = more.Trials
	d := drive.Start(t, f.Deps(), 100, 40).Press(drive.ToRecipe + " r")
	assert.Contains(t, d.Flat(), "Not saved")
	assert.Equal(t, was, f.Recipes[0].Recipe.Ratio.Median)
	d.Press("ctrl+s enter")
	assert.Less(t, f.Recipes[0].Recipe.Ratio.Median, was, "what thickens later takes less liquid per gram")
}
