package kitchen_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
)

// The card of an unsaved change says so in its title, in its file's name and at the
// date.
func TestACardOfWhatIsNotSavedSaysSo(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press(drive.ToRecipe + " s").Write("rye").Press("ctrl+g w enter")
	const file = "oat-mask-not-saved-rye-in-the-place-of-oat.html"
	assert.Contains(t, d.Flat(), file)
	assert.Contains(t, f.Files[file], "# Oat mask, not saved: Rye in the place of Oat\n")
	assert.NotContains(t, f.Files[file], "recipe saved")
	d.Press("y")
	assert.Contains(t, f.Clip, "# Oat mask, not saved: Rye in the place of Oat\n")
	d.Press("ctrl+s enter w enter")
	assert.Contains(t, f.Files["oat-mask.html"], "# Oat mask\n")
	assert.Contains(t, f.Files["oat-mask.html"], "recipe saved")
}

// The water of a batch has one range, in the sentence about keeping back; the table
// says what to weigh and what to have ready.
func TestABatchHasOneRange(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down down k enter down down 120")
	assert.NotContains(t, d.Frame(), "likely range")
	assert.Regexp(t, `what +grams +have ready`, d.Frame())
	assert.Regexp(t, `(?m)^ *Rye +[0-9.]+ +[0-9.]+ *$`, d.Frame())
}

// The list of stand-ins shows what decides the choice: the kind of powder and its
// behaviour.
func TestTheListOfStandInsSaysHowTheyBehave(t *testing.T) {
	f := drive.Pantry()
	for i := range f.Entries {
		if f.Entries[i].Profile.Powder.Name == "Rye" {
			steps := f.Entries[i].Profile.Trials[0].Steps
			steps[len(steps)-1].Marks = []string{"hardens when stirred"}
		}
	}
	d := drive.Start(t, f.Deps(), 100, 40).Press("down space k down enter")
	frame := d.Frame()
	assert.Less(t, strings.Index(frame, "Rye  "), strings.Index(frame, "flour; hardens when stirred"), frame)
	assert.Contains(t, d.Flat(), "then the swap says how much of it")
}

// The cautions below a swap in a recipe cover everything in the recipe.
func TestASwapMindsWhatElseIsInTheRecipe(t *testing.T) {
	f := drive.Pantry()
	f.Recipes[0].Recipe.Extras = []model.Extra{{Name: "honey", Share: 0.05, Counts: model.CountsLiquid}}
	d := drive.Start(t, f.Deps(), 100, 120).Press(drive.ToRecipe + " s").Write("rye")
	assert.Contains(t, d.Flat(), "nothing for a child under one year")
}
