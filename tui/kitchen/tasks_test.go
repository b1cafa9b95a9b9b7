package kitchen_test

import (
	"errors"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFromMarksToARecipe goes the whole way: mark, compare, swap, batch, save,
// open, scale, write the card, and back to the shelf, where the marks are kept.
func TestFromMarksToARecipe(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press("down space down space down space c right tab s")
	assert.Contains(t, d.Frame(), "Kitchen › swap")
	assert.Contains(t, d.Frame(), "old powder     Rye")
	assert.Contains(t, d.Frame(), "5.5 spread/stiff")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "▸ B Rye", "back where the comparison was")
	d.Press("esc k enter down down 120 down 60")
	assert.Contains(t, d.Frame(), "! 120.0 g is too much for the jar: filled to 95 %, its 60 mL hold ")
	assert.Contains(t, d.Frame(), "Not saved as a recipe so far")

	d.Press("ctrl+s")
	assert.Contains(t, d.Frame(), "Save as a recipe, its name")
	assert.Contains(t, d.Frame(), "Oat, 120 g")
	d.Press("enter")
	assert.Contains(t, d.Frame(), "saved as recipes/r1.toml")
	assert.NotContains(t, d.Frame(), "Not saved as a recipe")
	require.Len(t, f.Recipes, 2)
	saved := f.Recipes[1].Recipe
	assert.Equal(t, "Oat, 120 g", saved.Name)
	assert.Equal(t, f.Entries[1].Slug, saved.Powders[0].Slug)
	assert.Equal(t, f.Clock, saved.Saved)

	d.Press("esc up enter down enter")
	assert.Contains(t, d.Frame(), "Kitchen › recipe  Oat, 120 g")
	assert.Contains(t, d.Frame(), "Saved as recipes/r1.toml")
	d.Press("t 40 enter")
	assert.Contains(t, d.Frame(), "! Not saved: total now 40.00 g.")
	assert.Contains(t, d.Frame(), "40.00 g at 5 spread")
	assert.Equal(t, 120.0, f.Recipes[1].Recipe.TotalG)
	d.Press("w enter")
	assert.Contains(t, d.Frame(), "oat-120-g-not-saved-total-now-40-00-g.html")
	assert.Contains(t, f.Files["oat-120-g-not-saved-total-now-40-00-g.html"], "40.00 g at 5 spread")
	d.Press("ctrl+s")
	assert.Contains(t, d.Frame(), `▸ Save over "Oat, 120 g"?`)
	assert.Regexp(t, `total +120\.0 +40\.00 \*`, d.Frame(), "before and after")
	assert.Equal(t, 120.0, f.Recipes[1].Recipe.TotalG, "asked first")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "! Not saved: total now 40.00 g.")
	d.Press("ctrl+s enter")
	assert.NotContains(t, d.Frame(), "Not saved")
	assert.Equal(t, 40.0, f.Recipes[1].Recipe.TotalG)
	d.Press("esc esc esc")
	assert.Contains(t, d.Frame(), "* 3 marked: Oat, Rye, Quick")
}

func TestBatchAnswers(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 120, 40).Press("down k enter")
	assert.Contains(t, d.Frame(), "Give a total in grams, portions, or a jar in millilitres.")
	d.Press("down down 100 down down down").Write("oil 3 %, honey 0,02").Press("down").Write("5 %")
	frame := d.Frame()
	for _, fact := range []string{
		"100.0 g at 5 spread (105.0 g made, 5.00 g of it for the bowl)", "Weigh ", "keep ", "By the spoon: ",
		"That rounding ", "In water, rest 2 min. 5 spread: the target level of its newest", "Counts as liquid: honey",
		"Fine dust", "Local rules",
	} {
		assert.Contains(t, frame, fact)
	}
	assert.Regexp(t, `oil +3\.15`, frame)
	assert.Regexp(t, `honey +2\.10`, frame, "a comma between digits is a point")
	assert.Regexp(t, `powder +Oat +100\.0 g`, frame, "the answer stands beside the fields")

	for range 3 {
		d.Press("bksp")
	}
	d.Write("5")
	assert.Contains(t, d.Frame(), `! lost in bowl: is "5" 5 % of the total, or 5 g?`)
	d.Press("up bksp bksp bksp bksp bksp").Write(" 3")
	assert.Contains(t, d.Frame(), `! extras: is "honey 3" 3 %? then type honey 3 %`)
	d.Press("ctrl+s")
	assert.Contains(t, d.Frame(), "! not yet: extras: is \"honey 3\"", "nothing wrong is saved, and that is said")
	assert.Len(t, f.Recipes, 1)
}

func TestJarAloneIsFilled(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down k enter down down down 60")
	assert.Contains(t, d.Frame(), "g at 5 spread")
	d.Press("pgdown")
	assert.Contains(t, d.Frame(), "The jar of 60 mL, filled to 95 %, holds ")
}

func TestPowderIsNarrowedByTyping(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down k enter down down 50 up up")
	d.Press("y")
	assert.Contains(t, d.Frame(), `! 3 powders fit "y"`, "what was chosen goes as a whole")
	d.Press("right")
	assert.Contains(t, d.Frame(), "Barley", "→ takes the first that fits")
	d.Write("oil").Press("down")
	assert.Contains(t, d.Frame(), "powder         Oily", "the only one that fits is written out")
	assert.Contains(t, d.Frame(), "vegetable oil")
	d.Press("up").Write("zzz")
	assert.Contains(t, d.Frame(), `! no powder on the shelf is called "zzz"`)
}

func TestSwapSaysWhetherAndHowMuch(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 140, 40).Press("down space down down space k down enter")
	assert.Contains(t, d.Frame(), "Give the grams of powder, of liquid, or of both.")
	assert.Contains(t, d.Frame(), "How the two compare")
	d.Press("down down down 10")
	assert.Contains(t, d.Frame(), "3.76 g of Quick (2.54 to ")
	assert.Contains(t, d.Frame(), "takes the place of 10.00 g of Oat")
	d.Press("down down right")
	assert.Contains(t, d.Frame(), "10.00 g of Quick takes ")
	d.Press("ctrl+y")
	assert.Contains(t, f.Clip, "place of\n10.00 g of Oat")
	d.Press("up up up up").Write("oat").Press("down")
	assert.Contains(t, d.Frame(), "Choose two different powders.")
}

func TestMixIsAFirstEstimateAndLeadsToItsTrial(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press("down space down space k down down enter")
	assert.Contains(t, d.Frame(), "At 5 spread Oat 50 + Rye 50 takes ")
	assert.Contains(t, d.Frame(), "! A first estimate: make a trial of the mix.")
	d.Press("down 3")
	assert.Contains(t, d.Frame(), "Oat 75 + Rye 25", "typing replaces what was put in")
	d.Press("down down down").Write("quick")
	assert.Contains(t, d.Frame(), "Quick: give its part by mass")
	d.Press("down 4 ctrl+t")
	assert.Contains(t, d.Frame(), "Trial › set-up  Oat 37.5 + Rye 12.5 + Quick 50")
	d.Press("ctrl+g")
	p := f.Profile("Oat 37.5 + Rye 12.5 + Quick 50")
	require.Len(t, p.Trials, 1, "the trial begun is the only one")
	assert.Equal(t, 5.0, p.Trials[0].Aim)
	assert.Equal(t, f.Clock, p.Trials[0].Started)
	assert.Empty(t, p.Trials[0].Steps)
}

func TestMixIsOrderedLikeABatch(t *testing.T) {
	p := drive.Pantry()
	d := drive.Start(t, p.Deps(), 80, 40).Press("down space down space k down down enter")
	d.PressUntil("down", "▸ total, g")
	assert.Contains(t, d.Flat(), "A first estimate")
	d.Press("120 down 60 down down honey=3% enter")
	frame := d.Flat()
	assert.Contains(t, frame, "too much for the jar")
	assert.Contains(t, frame, "honey")
}

func TestMixOfOtherLiquidIsRefused(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down space down down down space k down down enter")
	assert.NotContains(t, d.Frame(), "Oily", "what is put in shares a liquid")
	d.Write("oat").Press("down 1 down").Write("oily").Press("down 1")
	assert.Contains(t, d.Flat(), "Oat was tried in water, Oily in vegetable oil.")
}

func TestSpoonsAndGrams(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down k down down down enter down 12.5")
	assert.Contains(t, d.Frame(), "Oat: 12.50 g is ")
	assert.Contains(t, d.Frame(), "At 5 spread that rounding ")
	d.Press("bksp bksp bksp bksp").Write("2 x 1 tsp + 1/4 TSP")
	assert.Contains(t, d.Frame(), "2 × 1 tsp + 1/4 tsp of Oat is 5.87 g.")
	d.Write(" + shovel")
	assert.Contains(t, d.Frame(), `! "shovel" is neither a number of grams nor level`)
}

func TestRecipeThatIsStaleSaysSoFirst(t *testing.T) {
	f := drive.Pantry()
	f.Recipes[0].Recipe.Powders[0].Ratio *= 1.5
	d := drive.Start(t, f.Deps(), 80, 24).Press("k up enter")
	assert.Contains(t, d.Frame(), "! changed")
	d.Press("enter")
	said := strings.Index(d.Frame(), "! Oat has changed since this recipe was saved")
	assert.True(t, said > 0 && said < strings.Index(d.Frame(), "grams"), "before any amount: %s", d.Frame())
}

func TestRecipeSwapAndNewName(t *testing.T) {
	f := drive.Pantry()
	before := f.Recipes[0].Recipe
	d := drive.Start(t, f.Deps(), 80, 24).Press(drive.ToRecipe + " s")
	assert.Contains(t, d.Frame(), "Kitchen › recipe › swap  Oat mask")
	d.Write("rye")
	assert.Regexp(t, `Oat +[0-9.]+ +- \*`, d.Frame(), "before and after")
	assert.Regexp(t, `Rye +- +[0-9.]+ \*`, d.Frame())
	assert.Contains(t, d.Flat(), "; keep the total to make as much as before")
	d.Press("ctrl+g")
	assert.Contains(t, d.Frame(), "! Not saved: Rye in the place of Oat.")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "! not saved: Rye in the place of Oat.", "leaving asks first")
	d.Press("c right").Write(", rye").Press("enter")
	assert.Contains(t, d.Frame(), "saved as recipes/r1.toml")
	require.Len(t, f.Recipes, 2)
	assert.Equal(t, before, f.Recipes[0].Recipe, "the old one stays")
	assert.Equal(t, "Rye", f.Recipes[1].Recipe.Powders[0].Name)
	assert.Equal(t, f.Entries[2].Slug, f.Recipes[1].Recipe.Powders[0].Slug)
	assert.Equal(t, "Oat mask 2, rye", f.Recipes[1].Recipe.Name)
	d.Press("y")
	assert.Contains(t, f.Clip, "# Oat mask 2, rye")
}

// TestExtrasCountAndTakeDigits types an extra with a digit in its name, and changes
// what it counts as by the key.
func TestExtrasCountAndTakeDigits(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 120, 40).Press(drive.ToBatch + " down down 100 down down down")
	d.Write("polysorbate 20 1 %, seaweed goo 2 %")
	assert.Regexp(t, `polysorbate 20 +1.00 +1.00`, d.Frame())
	assert.Contains(t, d.Flat(), "Counts as liquid: polysorbate 20, seaweed goo.")
	assert.Contains(t, d.Flat(), "seaweed goo is not a name that daub knows")
	d.Press("ctrl+o")
	assert.Contains(t, d.Flat(), "Counts as liquid: polysorbate 20. Counts as oil: seaweed goo.")
	assert.NotContains(t, d.Flat(), "is not a name that daub knows")
	d.Press("home ctrl+o")
	assert.Contains(t, d.Frame(), "polysorbate 20 1 %:oil")
	d.Press("ctrl+s enter")
	saved := f.Recipes[1].Recipe
	assert.Equal(t, model.CountsOil, saved.Extras[0].Counts)
	assert.Equal(t, "polysorbate 20", saved.Extras[0].Name)
}

func TestPortionsAndLiquidAreChosen(t *testing.T) {
	both := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	oily := drive.Finished("Oat", model.Flour, "vegetable oil", 0, 1, 3, 5, 6)
	both.Trials = append(both.Trials, oily.Trials...)
	f := drive.NewShelf(both)
	d := drive.Start(t, f.Deps(), 100, 40).Press("k enter")
	assert.Contains(t, d.Frame(), "in             as most trials are")
	d.PressUntil("down", "▸ portions").Write("20 x 75 g")
	assert.Contains(t, d.Flat(), "1500.0 g at 5 spread, 20 portions of 75 g")
	d.PressUntil("up", "▸ in ")
	d.PressUntil("right", "← water, rest 2 min →")
	assert.Contains(t, d.Flat(), "In water, rest 2 min.")
	assert.Contains(t, d.Flat(), "Microbes")
	d.PressUntil("right", "← vegetable oil, rest 2 min →")
	assert.Contains(t, d.Flat(), "In vegetable oil, rest 2 min.")
	assert.NotContains(t, d.Flat(), "Microbes", "oil alone")
}

// TestRecipeIsEdited changes a recipe, sees before and after, saves it over and
// loses nothing without a word.
func TestRecipeIsEdited(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 100, 40).Press(drive.ToRecipe + " e")
	assert.Contains(t, d.Frame(), "Kitchen › recipe › edit  Oat mask")
	d.Press("ctrl+g")
	assert.Contains(t, d.Frame(), "! nothing has been changed yet")
	d.Write("300").PressUntil("down", "▸ extras").Press("end").Write(", walnut oil 5 %").PressUntil("down",
		"▸ notes").Write("for the class")
	assert.Regexp(t, `walnut oil +- +15.00 \*`, d.Frame())
	d.Press("ctrl+g")
	assert.Contains(t, d.Frame(), "! Not saved: total, g, extras, notes.")
	assert.Contains(t, d.Frame(), "for the class")
	assert.Contains(t, d.Flat(), "g walnut oil")
	d.Press("ctrl+s")
	assert.Contains(t, d.Frame(), `▸ Save over "Oat mask"?`)
	d.Press("enter")
	assert.Contains(t, d.Frame(), "saved as ")
	assert.Equal(t, 300.0, f.Recipes[0].Recipe.TotalG)
	assert.Equal(t, "for the class", f.Recipes[0].Recipe.Notes)
	d.Press("ctrl+s")
	assert.Contains(t, d.Frame(), "Nothing has changed since it was saved.")
	d.Press("t").Write("4 x 50 g").Press("enter")
	assert.Contains(t, d.Flat(), "Makes 200.0 g at 5 spread: 4 portions of about 50 g")
}

func TestRecipeIsRenamedAndDeletedWithAWayBack(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press(drive.ToRecipe + " n").Write("Porridge").Press("enter")
	assert.Contains(t, d.Frame(), "Kitchen › recipe  Porridge")
	require.Len(t, f.Recipes, 1)
	assert.Equal(t, "Porridge", f.Recipes[0].Recipe.Name)
	d.Press("D")
	assert.Contains(t, d.Frame(), `▸ Delete "Porridge"? It moves to the folder "deleted".`)
	d.Press("esc")
	require.Len(t, f.Recipes, 1)
	d.Press("D enter")
	assert.Contains(t, d.Frame(), "Kitchen › recipes")
	assert.Contains(t, d.Flat(), "u brings it back")
	require.Empty(t, f.Recipes)
	d.Press("u")
	assert.Contains(t, d.Frame(), "The recipe is back.")
	assert.Contains(t, d.Frame(), "▸ Porridge")
	require.Len(t, f.Recipes, 1)
}

func TestSwapInsideAMix(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 100, 40).Press("down space down space k down down enter")
	d.PressUntil("down", "▸ total, g").Write("120").Press("ctrl+s").Write("Two").Press("enter esc")
	d.PressUntil("down", "▸ Recipes").Press("enter").PressUntil("down", "▸ Two").Press("enter s")
	assert.Contains(t, d.Frame(), "old powder     Oat")
	d.Write("quick")
	assert.Regexp(t, `Quick +- +[0-9.]+ \*`, d.Frame())
	d.PressUntil("down", "▸ keep").Press("right right").Press("ctrl+g")
	assert.Contains(t, d.Frame(), "! Not saved: Quick in the place of Oat.")
	assert.Regexp(t, `Rye +[0-9.]+`, d.Frame(), "the other stays")
	assert.Contains(t, d.Flat(), "Makes 120.0 g")
}

func TestRecipeNotSavedStays(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press(drive.ToRecipe + " t 40 enter")
	f.Fail = errors.New("the disk is full")
	d.Press("ctrl+s enter down up")
	assert.Contains(t, d.Frame(), "! NOT SAVED: the disk is full")
	assert.Contains(t, d.Frame(), "! Not saved: total now 40.00 g.")
	d.Press("q")
	assert.False(t, d.Quit, "leaving asks first")
	f.Fail = nil
	d.Press("ctrl+s enter")
	assert.NotContains(t, d.Frame(), "NOT SAVED")
	assert.Equal(t, 40.0, f.Recipes[0].Recipe.TotalG)
	d.Press("q")
	assert.True(t, d.Quit)
}

// TestQuitWaitsForTheRecipe quits while a recipe is being written; other keys wait
// too.
func TestQuitWaitsForTheRecipe(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press(drive.ToRecipe + " t 40 enter")
	d.Press("ctrl+s")
	write := d.Hold("enter")
	require.NotNil(t, write)
	cmd := d.Hold("esc")
	assert.Nil(t, cmd)
	assert.Contains(t, d.Frame(), "Kitchen › recipe")
	cmd = d.Hold("ctrl+c")
	assert.Nil(t, cmd)
	d.Run(write)
	assert.True(t, d.Quit)
	assert.Equal(t, 40.0, f.Recipes[0].Recipe.TotalG)

	d = drive.Start(t, f.Deps(), 80, 24).Press(drive.ToRecipe + " t 50 enter")
	f.Fail = errors.New("the disk is full")
	d.Press("ctrl+s")
	write = d.Hold("enter")
	d.Hold("ctrl+c")
	d.Run(write)
	assert.False(t, d.Quit, "what could not be saved is said first")
	assert.Contains(t, d.Frame(), "! NOT SAVED: the disk is full")
}

func TestSwapNeedsItsPowderOnTheShelf(t *testing.T) {
	f := drive.Pantry()
	f.Recipes[0].Recipe.Powders[0].Name = "Gone"
	d := drive.Start(t, f.Deps(), 80, 24).Press(drive.ToRecipe + " s")
	assert.Contains(t, d.Frame(), "! Gone is not on the shelf: a swap needs its trials")
}

func TestKitchenKeepsWhatWasTyped(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down k enter down down 120 esc")
	assert.Contains(t, d.Frame(), "Nothing here changes a powder")
	d.Press("enter")
	assert.Contains(t, d.Frame(), "total, g       120")
}

func TestKitchenWithoutAnyRatio(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley()).Deps(), 80, 24).Press("k")
	assert.Contains(t, d.Frame(), "! No powder on the shelf has a ratio yet")
	d.Press("enter down down 100")
	assert.Contains(t, d.Frame(), "! Barley · lot A7 has no ratio at 5 spread in water: finish a trial of it")
}

func TestPowdersOfOneNameAreToldApart(t *testing.T) {
	f := drive.NewShelf(drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6),
		drive.Finished("Oat", model.Flour, "water", 0, 1, 2, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 80, 24).Press("k enter")
	assert.Contains(t, d.Frame(), "Oat (p0)")
	d.Press("right")
	assert.Contains(t, d.Frame(), "Oat (p1)")
}

func BenchmarkCompareAgain(b *testing.B) {
	f := drive.Pantry()
	d := drive.Start(b, f.Deps(), 120, 40).Press(drive.ToCompare)
	for b.Loop() {
		d.App.Update(drive.Key("right"))
		d.App.Update(drive.Key("left"))
	}
}

func BenchmarkBatchKey(b *testing.B) {
	d := drive.Start(b, drive.Pantry().Deps(), 120, 40).Press(drive.ToBatch + " down down 120")
	for b.Loop() {
		d.App.Update(drive.Key("0"))
		_ = d.App.View()
		d.App.Update(drive.Key("bksp"))
	}
}

// Z factor at 21 °C: 1.0031 mL per g (as used with ISO 8655-6).
func TestASpoonIsChecked(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press("k down down down down enter")
	assert.Contains(t, d.Frame(), "Kitchen › spoon check")
	d.Write("blue scoop").Press("enter").Write("9.21 9.24 18.4").Press("ctrl+s")
	assert.Contains(t, d.Flat(), "18.4 g of water? The others say 9.23 g.")
	assert.Contains(t, d.Flat(), "Keep it all the same?")
	d.Press("esc")
	assert.Empty(t, f.OwnSpoons, "a fill far from the others is not kept unasked")
	d.Press("bksp bksp bksp bksp").Write("9.22").Press("enter").Write("21").Press("enter")
	assert.Contains(t, d.Frame(), "blue scoop holds 9.252 mL")
	d.Press("ctrl+s")
	require.Len(t, f.OwnSpoons, 1)
	assert.Equal(t, []float64{9.21, 9.24, 9.22}, f.OwnSpoons[0].WaterG)
	assert.Contains(t, d.Frame(), "kept in spoons.toml")
	assert.NotContains(t, d.Frame(), "older", "no trial is older than a spoon nobody knew")
}

// Older trials change only when asked to, after every powder was shown before and
// after. A spoon that cannot be kept is refused with the reason.
func TestOlderTrialsGoByACheckedSpoonWhenAsked(t *testing.T) {
	old := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	for i := range old.Trials[0].Steps {
		old.Trials[0].Steps[i].Grams, old.Trials[0].Steps[i].Spoon = 0, "blue scoop"
	}
	f := drive.NewShelf(old)
	f.OwnSpoons = model.OwnSpoons{{Name: "blue scoop", VolumeML: 5, UncertaintyML: 0.1}}
	d := drive.Start(t, f.Deps(), 80, 24).Press("k down down down down enter")
	d.Write("blue scoop").Press("enter").Write("6.02 6.05 6.03").Press("enter")
	assert.Contains(t, d.Flat(), "21 % more than the 5 mL it was taken for: go by what it holds")
	d.Press("ctrl+s")
	require.Equal(t, 5.0, f.OwnSpoons[0].BeforeML)
	assert.Contains(t, d.Flat(), "older ones stay with 5 mL until you ask")
	assert.Contains(t, d.Frame(), "Ctrl+O older trials too")
	before := f.Entries[0]
	d.Press("ctrl+o")
	assert.Regexp(t, `Oat at 5 spread: \S+ \(\S+ to \S+\) before, \S+ \(\S+ to \S+\) now\.`, d.Flat())
	d.Press("esc")
	assert.Equal(t, 5.0, f.OwnSpoons[0].BeforeML, "not without a yes")
	d.Press("ctrl+o enter")
	assert.Zero(t, f.OwnSpoons[0].BeforeML)
	assert.Contains(t, d.Frame(), "older trials go by it now")
	assert.Equal(t, before.Profile.Trials, f.Entries[0].Profile.Trials, "the steps stay as they were made")
	assert.NotContains(t, d.Frame(), "Ctrl+O")
}

// In a low window a hint that is cut says so.
func TestAMenuHintThatIsCutSaysSo(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 40, 12).Press("down k")
	assert.Contains(t, d.Frame(), "some grams of paste, portions or jars…")
	d = drive.Start(t, drive.Pantry().Deps(), 40, 20).Press("down k")
	assert.Contains(t, d.Flat(), "some grams of paste, portions or jars full: what to weigh")
}

// A new name is saved at once. Other changes still have to be saved, and are not
// lost.
func TestRenamingKeepsWhatIsNotSaved(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press(drive.ToRecipe + " t 40 enter n")
	d.Press("Night enter")
	assert.Contains(t, d.Frame(), "Kitchen › recipe  Night")
	assert.Contains(t, d.Frame(), "Not saved: total now 40.00 g")
	assert.Contains(t, d.Frame(), "Makes 40.00 g")
	require.Equal(t, "Night", f.Recipes[0].Recipe.Name)
	require.Equal(t, 100.0, f.Recipes[0].Recipe.TotalG, "only the name is saved")
	d.Press("ctrl+s enter")
	require.Equal(t, 40.0, f.Recipes[0].Recipe.TotalG)
	require.Equal(t, "Night", f.Recipes[0].Recipe.Name)
}
