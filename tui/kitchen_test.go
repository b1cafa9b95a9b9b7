package tui

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"daub.example/daub/model"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// write types a text with its spaces.
func (d *driver) write(text string) *driver {
	for _, r := range text {
		d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}})
	}
	return d
}

// TestFromMarksToARecipe goes the whole way: mark, compare, swap, batch, save,
// open, scale, write the card, and back to the shelf with the marks kept.
func TestFromMarksToARecipe(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 80, 24).press("down space down space down space c right tab s")
	assert.Contains(t, d.frame(), "Kitchen › swap")
	assert.Contains(t, d.frame(), "instead of     Rye")
	assert.Contains(t, d.frame(), "5.5 spread/stiff")
	d.press("esc")
	assert.Contains(t, d.frame(), "▸ B Rye", "back where the comparison was")
	d.press("esc k enter down down 120 down 60")
	assert.Contains(t, d.frame(), "! 120.0 g is too much for the jar: filled to 95 % its 60 mL hold ")
	assert.Contains(t, d.frame(), "Not saved as a recipe so far")

	d.press("ctrl+s")
	assert.Contains(t, d.frame(), "Save as a recipe, its name")
	assert.Contains(t, d.frame(), "Oat, 120 g")
	d.press("enter")
	assert.Contains(t, d.frame(), "saved as recipes/r1.toml")
	assert.NotContains(t, d.frame(), "Not saved as a recipe")
	require.Len(t, f.recipes, 2)
	saved := f.recipes[1].Recipe
	assert.Equal(t, "Oat, 120 g", saved.Name)
	assert.Equal(t, f.items[1].Slug, saved.Powders[0].Slug)
	assert.Equal(t, f.now, saved.Saved)

	d.press("esc up enter down enter")
	assert.Contains(t, d.frame(), "Kitchen › recipe  Oat, 120 g")
	assert.Contains(t, d.frame(), "Saved as recipes/r1.toml")
	d.press("t 40 enter")
	assert.Contains(t, d.frame(), "! Not saved: total now 40.00 g.")
	assert.Contains(t, d.frame(), "40.00 g at 5 spread")
	assert.Equal(t, 120.0, f.recipes[1].Recipe.TotalG)
	d.press("e enter")
	assert.Contains(t, d.frame(), "written to /written/oat-120-g.md")
	assert.Contains(t, f.files["oat-120-g.md"], "40.00 g at 5 spread")
	d.press("ctrl+s")
	assert.NotContains(t, d.frame(), "Not saved")
	assert.Equal(t, 40.0, f.recipes[1].Recipe.TotalG)
	d.press("esc esc esc")
	assert.Contains(t, d.frame(), "* 3 marked: Oat, Rye, Quick")
}

func TestBatchAnswers(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 120, 40).press("down k enter")
	assert.Contains(t, d.frame(), "give a total in grams, or a jar in millilitres")
	d.press("down down 100 down down").write("oil 3 %, honey 0,02").press("down").write("5 %")
	frame := d.frame()
	for _, fact := range []string{
		"100.0 g at 5 spread (105.0 g made, 5.00 g of it for the bowl)", "Start with ", " and hold back ", "By the spoon: ",
		"That rounding ", "Fine dust", model.Deferral[:40],
	} {
		assert.Contains(t, frame, fact)
	}
	assert.Regexp(t, `oil +3\.15`, frame)
	assert.Regexp(t, `honey +2\.10`, frame, "a comma between digits is a point")
	assert.Regexp(t, `powder +Oat +100\.0 g`, frame, "the answer stands beside the fields")

	for range 3 {
		d.press("bksp")
	}
	d.write("5")
	assert.Contains(t, d.frame(), "! for the bowl: say what 5 is: 5 % of the total, or 5 g")
	d.press("up bksp bksp bksp bksp bksp").write(" 3")
	assert.Contains(t, d.frame(), "! extras, honey: 3 of the total is more than there is")
	d.press("ctrl+s")
	assert.Contains(t, d.frame(), "! extras", "nothing is saved of what is wrong")
	assert.Len(t, f.recipes, 1)
}

func TestJarAloneIsFilled(t *testing.T) {
	d := drive(t, pantry().deps(), 80, 24).press("down k enter down down down 60")
	assert.Contains(t, d.frame(), "g at 5 spread")
	d.press("pgdown")
	assert.Contains(t, d.frame(), "The jar of 60 mL, filled to 95 %, holds ")
}

func TestPowderIsNarrowedByTyping(t *testing.T) {
	d := drive(t, pantry().deps(), 80, 24).press("down k enter down down 50 up up")
	d.press("y")
	assert.Contains(t, d.frame(), `! 3 powders fit "y"`, "what was chosen goes as a whole")
	d.press("right")
	assert.Contains(t, d.frame(), "Barley", "→ takes the first that fits")
	d.write("oil").press("down")
	assert.Contains(t, d.frame(), "powder         Oily", "the only one that fits is written out")
	assert.Contains(t, d.frame(), "vegetable oil")
	d.press("up").write("zzz")
	assert.Contains(t, d.frame(), `! no powder on the shelf is called "zzz"`)
}

func TestSwapSaysWhetherAndHowMuch(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 140, 40).press("down space down down space k down enter")
	assert.Contains(t, d.frame(), "give the grams of powder, of liquid, or of both")
	assert.Contains(t, d.frame(), "Can it stand in?")
	d.press("down down down 10")
	assert.Contains(t, d.frame(), "For 10.00 g of Oat with ")
	assert.Contains(t, d.frame(), "keeping the liquid.")
	d.press("down down right")
	assert.Contains(t, d.frame(), "keeping the powder.")
	d.press("ctrl+y")
	assert.Contains(t, f.clip, "For 10.00 g of Oat with")
	d.press("up up up up").write("oat").press("down")
	assert.Contains(t, d.frame(), "choose two different powders")
}

func TestMixIsAFirstEstimateAndLeadsToItsTrial(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 80, 24).press("down space down space k down down enter")
	assert.Contains(t, d.frame(), "At 5 spread Oat 50 + Rye 50 takes ")
	assert.Contains(t, d.frame(), "! A first estimate: make a trial of the mix.")
	d.press("down bksp 3")
	assert.Contains(t, d.frame(), "Oat 75 + Rye 25")
	d.press("down down down").write("quick")
	assert.Contains(t, d.frame(), "Quick: give its part by mass")
	d.press("down 4 ctrl+t")
	assert.Contains(t, d.frame(), "Trial › set-up  Oat 37.5 + Rye 12.5 + Quick 50")
	d.press("ctrl+g")
	p := f.profile("Oat 37.5 + Rye 12.5 + Quick 50")
	require.Len(t, p.Trials, 1, "the trial begun is the only one")
	assert.Equal(t, 5.0, p.Trials[0].Aim)
	assert.Equal(t, f.now, p.Trials[0].Started)
	assert.Empty(t, p.Trials[0].Steps)
}

func TestMixIsOrderedLikeABatch(t *testing.T) {
	p := pantry()
	d := drive(t, p.deps(), 80, 40).press("down space down space k down down enter")
	for d.app.screen.(*calculator).at < mixOrder {
		d.press("down")
	}
	assert.Contains(t, flat(d.frame()), "A first estimate")
	d.press("120 down 60 down honey-3% enter")
	frame := flat(d.frame())
	assert.Contains(t, frame, "too much for the jar")
	assert.Contains(t, frame, "honey")
}

func TestMixOfOtherLiquidIsRefused(t *testing.T) {
	d := drive(t, pantry().deps(), 80, 24).press("down space down down down space k down down enter")
	assert.Contains(t, d.frame(), "! Not compared: Oat was tried in water, Oily in vegetable oil.")
}

func TestSpoonsAndGrams(t *testing.T) {
	d := drive(t, pantry().deps(), 80, 24).press("down k down down down enter down 12.5")
	assert.Contains(t, d.frame(), "Oat: 12.50 g is ")
	assert.Contains(t, d.frame(), "At 5 spread that rounding ")
	d.press("bksp bksp bksp bksp").write("2 x 1 tsp + 1/4 TSP")
	assert.Contains(t, d.frame(), "2 × 1 tsp + 1/4 tsp of Oat is 5.87 g.")
	d.write(" + shovel")
	assert.Contains(t, d.frame(), `! the spoon "shovel" is not known`)
}

func TestRecipeThatIsStaleSaysSoFirst(t *testing.T) {
	f := pantry()
	f.recipes[0].Recipe.Powders[0].Ratio *= 1.5
	d := drive(t, f.deps(), 80, 24).press("k up enter")
	assert.Contains(t, d.frame(), "! changed")
	d.press("enter")
	assert.Contains(t, strings.Split(d.frame(), "\n")[1], "! The profile of Oat has changed since this recipe was saved")
}

func TestRecipeSwapAndNewName(t *testing.T) {
	f := pantry()
	before := f.recipes[0].Recipe
	d := drive(t, f.deps(), 80, 24).press(toRecipe + " s")
	assert.Contains(t, d.frame(), "Kitchen › recipe › swap  Oat mask")
	d.write("rye")
	assert.Contains(t, d.frame(), "of Rye with ")
	d.press("ctrl+g")
	assert.Contains(t, d.frame(), "! Not saved: powder swapped.")
	d.press("esc")
	assert.Contains(t, d.frame(), "! not saved: powder swapped.", "leaving asks first")
	d.press("n").write(", rye").press("enter")
	assert.Contains(t, d.frame(), "saved as recipes/r1.toml")
	require.Len(t, f.recipes, 2)
	assert.Equal(t, before, f.recipes[0].Recipe, "the old one stays")
	assert.Equal(t, "Rye", f.recipes[1].Recipe.Powders[0].Name)
	assert.Equal(t, f.items[2].Slug, f.recipes[1].Recipe.Powders[0].Slug)
	assert.Equal(t, "Oat mask, rye", f.recipes[1].Recipe.Name)
	d.press("y")
	assert.Contains(t, f.clip, "# Oat mask, rye")
}

func TestRecipeNotSavedStays(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 80, 24).press(toRecipe + " t 40 enter")
	f.fail = errors.New("the disk is full")
	d.press("ctrl+s down up")
	assert.Contains(t, d.frame(), "! NOT SAVED: the disk is full")
	assert.Contains(t, d.frame(), "! Not saved: total now 40.00 g.")
	d.press("q")
	assert.False(t, d.quit, "leaving asks first")
	f.fail = nil
	d.press("ctrl+s")
	assert.NotContains(t, d.frame(), "NOT SAVED")
	assert.Equal(t, 40.0, f.recipes[0].Recipe.TotalG)
	d.press("q")
	assert.True(t, d.quit)
}

// TestQuitWaitsForTheRecipe quits while a recipe is being written, and sees
// that keys wait for it too.
func TestQuitWaitsForTheRecipe(t *testing.T) {
	f := pantry()
	d := drive(t, f.deps(), 80, 24).press(toRecipe + " t 40 enter")
	_, write := d.app.Update(namedKeys["ctrl+s"])
	require.NotNil(t, write)
	_, cmd := d.app.Update(namedKeys["esc"])
	assert.Nil(t, cmd)
	assert.Contains(t, d.frame(), "Kitchen › recipe")
	_, cmd = d.app.Update(namedKeys["ctrl+c"])
	assert.Nil(t, cmd)
	d.run(write)
	assert.True(t, d.quit)
	assert.Equal(t, 40.0, f.recipes[0].Recipe.TotalG)

	d = drive(t, f.deps(), 80, 24).press(toRecipe + " t 50 enter")
	f.fail = errors.New("the disk is full")
	_, write = d.app.Update(namedKeys["ctrl+s"])
	d.app.Update(namedKeys["ctrl+c"])
	d.run(write)
	assert.False(t, d.quit, "what could not be saved is said first")
	assert.Contains(t, d.frame(), "! NOT SAVED: the disk is full")
}

func TestSwapNeedsItsPowderOnTheShelf(t *testing.T) {
	f := pantry()
	f.recipes[0].Recipe.Powders[0].Name = "Gone"
	d := drive(t, f.deps(), 80, 24).press(toRecipe + " s")
	assert.Contains(t, d.frame(), "! Gone is not on the shelf: a swap needs its profile")
}

func TestKitchenKeepsWhatWasTyped(t *testing.T) {
	d := drive(t, pantry().deps(), 80, 24).press("down k enter down down 120 esc")
	assert.Contains(t, d.frame(), "Nothing here changes a profile")
	d.press("enter")
	assert.Contains(t, d.frame(), "total, g       120")
}

func TestKitchenWithoutAnyRatio(t *testing.T) {
	d := drive(t, newFake(barley()).deps(), 80, 24).press("k")
	assert.Contains(t, d.frame(), "! No powder on the shelf has a ratio yet")
	d.press("enter down down 100")
	assert.Contains(t, d.frame(), "! Barley · lot A7 has no ratio at 5 spread: finish a trial of it")
}

func TestPowdersOfOneNameAreToldApart(t *testing.T) {
	f := newFake(finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6), finished("Oat", model.Flour, "water", 0, 1, 2, 4, 5, 6))
	d := drive(t, f.deps(), 80, 24).press("k enter")
	assert.Contains(t, d.frame(), "Oat (p0)")
	d.press("right")
	assert.Contains(t, d.frame(), "Oat (p1)")
}

// TestFormsAndCtrl presses every key with Ctrl in every form: one that is not
// listed leaves the frame as it was.
func TestFormsAndCtrl(t *testing.T) {
	for name, keys := range situations {
		d := drive(t, pantry().deps(), 80, 24).press(keys)
		if _, ok := d.app.screen.(*calculator); !ok {
			continue
		}
		for k, msg := range namedKeys {
			listed := false
			for _, b := range d.app.screen.Keys() {
				listed = listed || strings.Contains(strings.Join(b.Keys(), " "), k)
			}
			edits := k == "ctrl+b" || k == "ctrl+e" // move within the text
			if listed || edits || !strings.HasPrefix(k, "ctrl+") || k == "ctrl+c" {
				continue
			}
			before := d.frame()
			d.send(msg)
			assert.Equal(t, before, d.frame(), "%s: %s acts without being listed", name, k)
		}
	}
}

func TestHostileNamesInTheKitchen(t *testing.T) {
	f := pantry()
	f.items[1].Profile.Powder.Name = "Oat\x1b[31m \x07red\nzwei"
	f.recipes = []model.RecipeEntry{{Slug: "r0", Recipe: f.recipe("Mask\x07\nzwei", 1, 50)}}
	for name, keys := range situations {
		d := drive(t, f.deps(), 100, 30).press(keys)
		d.frame()
		assert.NotContains(t, d.app.View(), "\x07", name)
		assert.NotContains(t, d.app.View(), "\x1b[31m \x07", name)
	}
}

func TestPlacesInFrames(t *testing.T) {
	frames := []struct {
		name, keys string
		facts      []string
	}{
		{"shelf-marked", "down space down space", []string{"▸*Rye", "* 2 marked: Oat, Rye", "c compare", "k kitchen"}},
		{"compare", toCompare, []string{"against A Oat", "×A per g", "B: Rye drinks", "Esc shelf"}},
		{"compare-refused", "down space down down down space c", []string{"! NOT COMPARED with A: B.", "not drawn"}},
		{"kitchen", "k", []string{"▸ Batch", "Nothing here changes a profile"}},
		{"batch", toBatch + " down down 120 down 60", []string{"! 120.0 g is too much for the jar", "Start with", "Ctrl+S save as a recipe", "Not saved"}},
		{"swap", "down space down space k down enter down down down 10", []string{"For 10.00 g of Oat", "Can it stand in?"}},
		{"mix", "down space down space k down down enter", []string{"! A first estimate", "Ctrl+T make a trial of the mix"}},
		{"spoons", "down k down down down enter down 12.5", []string{"12.50 g is", "that rounding"}},
		{"recipes", "k up enter", []string{"▸ Oat mask", "Enter open"}},
		{"recipe", toRecipe + " t 40 enter", []string{"! Not saved: total now 40.00 g.", "Amounts", "Ctrl+S save"}},
		{"recipe-name", toRecipe + " n", []string{"▸ Save under a new name", "Esc never mind"}},
	}
	for _, f := range frames {
		for _, size := range [][2]int{{80, 24}, {120, 40}, {50, 20}} {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				got := drive(t, pantry().deps(), size[0], size[1]).press(f.keys).frame()
				for _, fact := range f.facts {
					if size[0] >= 80 {
						assert.Contains(t, flat(got), fact)
					}
				}
				golden(t, name, got)
			})
		}
	}
}

func BenchmarkCompareAgain(b *testing.B) {
	f := pantry()
	d := drive(b, f.deps(), 120, 40).press(toCompare)
	c := d.app.screen.(*comparison)
	for b.Loop() {
		c.compare()
	}
}

func BenchmarkBatchKey(b *testing.B) {
	d := drive(b, pantry().deps(), 120, 40).press(toBatch + " down down 120")
	t := d.app.screen.(*calculator)
	for b.Loop() {
		t.task.update(t)
		_ = d.app.View()
	}
}
