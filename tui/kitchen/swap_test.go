package kitchen_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Possible stand-ins are listed before one is chosen, the nearest first, and → goes
// through them in that order. Rye differs from Oat in one look; Quick thickens
// twice as fast.
func TestWhatCouldStandInIsRanked(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 100, 40).Press("down space k down enter")
	assert.Contains(t, d.Flat(), "What could take its place, and where the same")
	frame := d.Frame()
	rye, quick := strings.Index(frame, "Rye  "), strings.Index(frame, "Quick  ")
	require.True(t, rye >= 0 && quick > rye, frame)
	assert.NotContains(t, frame[rye:], "Oily  ", "another liquid")
	d.Press("right")
	assert.Contains(t, d.Frame(), "▸ new powder     Rye")
	assert.Contains(t, d.Flat(), "How the two compare")
	d.Press("right")
	assert.Contains(t, d.Frame(), "▸ new powder     Quick")
	for range 5 { // the others on the shelf, and round
		d.Press("right")
		assert.NotContains(t, d.Frame(), "▸ new powder     Oat\n", "what is to be replaced is not offered")
	}
}

// A swap can go into a saved recipe, and keeps the powders chosen so far.
func TestSwapGoesIntoASavedRecipe(t *testing.T) {
	f := drive.Pantry()
	f.Recipes = append(f.Recipes, model.RecipeEntry{Slug: "r9", Path: "recipes/r9.toml", Recipe: f.Recipe("Rye mask",
		2, 60)})
	d := drive.Start(t, f.Deps(), 100, 40).Press("down space k down enter")
	assert.Contains(t, d.Flat(), "Ctrl+R swaps it in a saved recipe.")
	d.Press("right ctrl+r")
	assert.Contains(t, d.Frame(), "Kitchen › swap  in which recipe?")
	assert.Contains(t, d.Flat(), "Enter take this one")
	assert.Contains(t, d.Flat(), "Esc back")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "▸ new powder     Rye", "back where the swap was")
	d.Press("ctrl+r").PressUntil("down", "▸ Oat mask").Press("enter")
	assert.Contains(t, d.Frame(), "Kitchen › recipe › swap  Oat mask")
	assert.Contains(t, d.Flat(), "▸ new powder Rye")
	d.Press("ctrl+g")
	assert.Contains(t, d.Flat(), "Not saved: Rye in the place of Oat")
	d.Press("ctrl+s enter")
	assert.Equal(t, "Rye", f.Recipes[0].Recipe.Powders[0].Name)
	d.Press("esc")
	assert.Contains(t, d.Frame(), "Kitchen › recipes")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "▸ Swap")
}

// A swap taken into a recipe that is made with the new powder asks for another: no powder
// stands in for itself, and what could is listed.
func TestSwapInARecipeOfTheNewPowderAsksForAnother(t *testing.T) {
	f := drive.Pantry()
	rye := model.RecipeEntry{Slug: "r9", Path: "recipes/r9.toml", Recipe: f.Recipe("Rye mask", 2, 60)}
	require.Equal(t, "Rye", rye.Recipe.Powders[0].Name)
	f.Recipes = append(f.Recipes, rye)
	d := drive.Start(t, f.Deps(), 100, 40).Press("down space k down enter right")
	require.Contains(t, d.Frame(), "▸ new powder     Rye")
	d.Press("ctrl+r").PressUntil("down", "▸ Rye mask").Press("enter")
	assert.Contains(t, d.Frame(), "Kitchen › recipe › swap  Rye mask")
	assert.Contains(t, d.Flat(), "New powder: choose a powder.")
	assert.Contains(t, d.Flat(), "What could take its place")
	d.Press("right")
	assert.Contains(t, d.Frame(), "▸ new powder     Oat")
}

// A powder that is chosen in its own place is told so, with what could take it, and → goes
// on to the first of them.
func TestASwapOfAPowderForItselfShowsTheOthers(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 100, 40).Press("down space k down enter").Write("oat")
	assert.Contains(t, d.Flat(), "Choose two different powders.")
	assert.Contains(t, d.Flat(), "What could take its place")
	d.Press("right")
	assert.Contains(t, d.Frame(), "▸ new powder     Rye")
}

// Typing replaces the text that a line offers; after an arrow key it edits it. A
// file ending alone is added to the name offered.
func TestTypingReplacesWhatALineOffers(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 100, 40).Press(drive.ToRecipe + " w")
	assert.Contains(t, d.Frame(), "oat-mask.html")
	d.Write("class.html").Press("enter")
	assert.Contains(t, d.Frame(), "written to /written/class.html")
	d.Press("w home").Write("my-").Press("enter")
	assert.Contains(t, d.Frame(), "written to /written/my-oat-mask.html")
	d.Press("w md enter")
	assert.Contains(t, d.Frame(), "written to /written/oat-mask.md")
	f.Files["oat-mask.md"] = "mine"
	d.Press("w md enter")
	assert.Contains(t, d.Flat(), "oat-mask.md is there already")
	d.Write("other.md").Press("enter")
	assert.Contains(t, d.Frame(), "written to /written/other.md")
	assert.Equal(t, "mine", f.Files["oat-mask.md"])
}

// The help of the forms explains extras, jar, order and portions. The key for an
// extra's kind says what it does, before and after.
func TestHelpAndKindOfExtras(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 100, 60).Press(drive.ToBatch + " f1")
	for _, says := range []string{
		"20 x 75 g", "filled to 95 %", "Extras are shares of the total", "so less of the other liquid",
		"rose gel 1 %:oil", "What goes in after what",
	} {
		assert.Contains(t, d.Flat(), says)
	}
	d = drive.Start(t, drive.Pantry().Deps(), 100, 60).Press("down space down space k down down enter f1")
	assert.Contains(t, d.Flat(), "two to five powders stirred together dry")
	assert.Contains(t, d.Flat(), "Extras are shares of the total")
	d = drive.Start(t, drive.Pantry().Deps(), 100, 60).Press(drive.ToRecipe + " e f1")
	assert.Contains(t, d.Flat(), "in the order of weighing")
	d = drive.Start(t, drive.Pantry().Deps(), 100, 60).Press("down k down enter f1")
	assert.Contains(t, d.Flat(), "goes on in a saved recipe")

	d = drive.Start(t, drive.Pantry().Deps(), 120, 40).Press(drive.ToBatch+" down down 100").
		PressUntil("down", "▸ extras").Write("honey 4 %").Press("up ctrl+o")
	assert.Contains(t, d.Frame(), "▸ extras")
	assert.Contains(t, d.Flat(), "gives the one at the cursor its next kind")
	assert.NotContains(t, d.Frame(), "honey 4 %:", "nothing is changed from afar")
	d.Press("ctrl+o")
	assert.Contains(t, d.Flat(), "honey counts as oil now: no part of what the powder takes up, so powder and "+
		"liquid keep their ratio. Ctrl+O again: dry.")
}

// A save question shows what changed, and leaves out columns that are equal. The
// name offered for a copy is free.
func TestSaveQuestionShowsTheNote(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 100, 40).Press(drive.ToRecipe+" e").PressUntil("down", "▸ notes")
	assert.NotContains(t, d.Frame(), "before", "nothing has changed: the amounts stand once")
	assert.Regexp(t, `total +100\.0`, d.Frame())
	d.Write("for dry skin").Press("ctrl+g ctrl+s")
	assert.Contains(t, d.Flat(), `The amounts stay as they are. · notes: "for dry skin" (before: none)`)
	assert.NotContains(t, d.Frame(), "grams of")
	d.Press("enter c")
	assert.Contains(t, d.Frame(), "Oat mask 2")
	d.Press("enter")
	require.Len(t, f.Recipes, 2)
	assert.Equal(t, "Oat mask 2", f.Recipes[1].Recipe.Name)
	d.Press("c")
	assert.Contains(t, d.Frame(), "Oat mask 3")
}

// The yes key names what it does: "Delete?" is not answered with "keep".
func TestAQuestionNamesWhatEnterDoes(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 100, 40).Press("p D")
	assert.Contains(t, d.Flat(), "Enter delete it · Esc leave it")
	assert.NotContains(t, d.Flat(), "Enter keep")
	d = drive.Start(t, drive.Pantry().Deps(), 100, 40).Press(drive.ToRecipe + " w")
	assert.Contains(t, d.Flat(), "Enter write it · Esc back")
}

// If a name is taken, the line stays open for another.
func TestANameThatIsTakenIsAskedAgain(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 100, 40).Press(drive.ToBatch + " down down 100 ctrl+s")
	d.Write("oat mask").Press("enter")
	assert.Contains(t, d.Flat(), `not saved: there is a recipe called "Oat mask" already; type another name`)
	require.Len(t, f.Recipes, 1)
	d.Write("Spring mask").Press("enter")
	require.Len(t, f.Recipes, 2)
	assert.Equal(t, "Spring mask", f.Recipes[1].Recipe.Name)
	assert.Contains(t, d.Flat(), "saved as")
}

// A recipe is not made again if its powders say the same.
func TestNothingIsMadeAnewWhereNothingChanged(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 100, 40).Press(drive.ToRecipe + " r")
	assert.Contains(t, d.Flat(), "Its powders say the same as when it was saved: nothing changes.")
	assert.NotContains(t, d.Flat(), "Not saved")
}
