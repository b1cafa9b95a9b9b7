package kitchen_test

import (
	"testing"

	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A save over has no typed line. If another recipe has the name too, that is said,
// and no line opens, neither a new one nor an older one.
func TestASaveOverUnderATakenNameOpensNoLine(t *testing.T) {
	for _, key := range []string{"e", "t"} { // a change without a line, and one with it
		f := drive.Pantry()
		d := drive.Start(t, f.Deps(), 100, 40).Press(drive.ToRecipe + " " + key)
		if key == "t" {
			d.Press("150 enter")
		} else {
			d.PressUntil("down", "▸ notes").Write("for dry skin").Press("ctrl+g")
		}
		twin := f.Recipes[0]
		twin.Slug = "twin"
		f.Recipes = append(f.Recipes, twin)
		d.Press("ctrl+s enter")
		assert.Contains(t, d.Flat(), `NOT SAVED: there is a recipe called "Oat mask" already`)
		assert.NotContains(t, d.Flat(), "Another total")
		assert.Contains(t, d.Flat(), "Not saved: ")
		d.Press("n").Write("Spring mask").Press("enter")
		require.Equal(t, "Spring mask", f.Recipes[0].Recipe.Name, "under another name it can be saved")
	}
}

// The question whether to save over lists its keys. One of them asks for the name
// of a copy, which takes the changes along.
func TestTheSaveQuestionOffersACopy(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 100, 40).Press(drive.ToRecipe + " t 40 enter ctrl+s")
	assert.Contains(t, d.Frame(), "Enter save over it · c keep a copy · Esc not yet")
	d.Press("c")
	assert.Contains(t, d.Frame(), "A copy under the name")
	d.Press("enter")
	require.Len(t, f.Recipes, 2)
	assert.Equal(t, 40.0, f.Recipes[1].Recipe.TotalG)
	assert.Equal(t, 100.0, f.Recipes[0].Recipe.TotalG, "left as it was")

	f.Recipes = f.Recipes[:1]
	d = drive.Start(t, f.Deps(), 100, 40).Press(drive.ToRecipe + " D")
	assert.Contains(t, d.Frame(), "Enter delete it · Esc keep it")
	d.Press("c")
	assert.NotContains(t, d.Frame(), "A copy under the name", "a no to what was asked, and nothing else")
	require.Len(t, f.Recipes, 1)
}
