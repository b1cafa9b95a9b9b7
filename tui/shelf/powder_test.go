package shelf_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// page opens the page of the shelf's only powder.
func page(t *testing.T, f *drive.Shelf) *drive.Driver {
	d := drive.Start(t, f.Deps(), 80, 30).Press("p")
	require.Contains(t, d.Frame(), "Shelf › powder  Barley")
	return d
}

func TestEveryFactOfAPowderCanBeMended(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := page(t, f)
	d.Press("enter").Erase(6).Press("Pot-barley enter")
	d.Press("down enter").Erase(2).Press("B1 enter")
	d.Press("down right")
	d.Press("down enter 1.5 enter")
	d.Press("down right")
	d.Press("down right")
	d.Press("down enter gluten enter")
	d.Press("down enter")
	d.Write("1 tsp: loose 2 2.1, tapped 2.9").Press("enter")
	d.Press("down down enter back-shelf enter")
	yes := true
	want := model.Powder{
		Name: "Pot-barley", Lot: "B1", Family: model.Mineral, SolidDensity: 1.5, KeepFromMetal: true, Fizzes: &yes,
		Allergens: []string{"gluten"}, Notes: "back-shelf",
		Packings: []model.Packing{{Spoon: "1 tsp", LooseG: []float64{2, 2.1}, TappedG: []float64{2.9}}},
	}
	assert.Equal(t, want, f.Entries[0].Profile.Powder, "every change is saved at once")
	assert.Equal(t, "p0", f.Entries[0].Slug, "a new name changes no file")
	d.Press("u")
	assert.Contains(t, d.Frame(), "undone: notes")
	assert.Empty(t, f.Entries[0].Profile.Powder.Notes)
	d.Press("U")
	assert.Equal(t, want, f.Entries[0].Profile.Powder)
}

func TestSlipsOnThePowderPageAreSaid(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	d := page(t, f).Press("enter").Erase(6).Press("enter")
	assert.Contains(t, d.Frame(), "! name: a powder needs one")
	d.Press("esc")
	assert.Equal(t, "Barley", f.Entries[0].Profile.Powder.Name)
}

func TestWeighingsAreMendedOnThePowderPage(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	grams := func() []float64 { return f.Entries[0].Profile.LevelSpoons[0].Grams }
	d := page(t, f).PressUntil("down", "▸ 1 tsp").Press("right")
	assert.Contains(t, d.Frame(), "[2.55]")
	d.Press("enter").Erase(6).Press("2.57 enter")
	assert.Equal(t, []float64{2.61, 2.57, 2.66}, grams())
	d.Press("del")
	assert.Equal(t, []float64{2.61, 2.66}, grams())
	d.Press("u u")
	assert.Equal(t, []float64{2.61, 2.55, 2.66}, grams())
	d.Press("w 26 enter")
	assert.Contains(t, d.Flat(), "The others say 2.61 g. Enter again: yes", "a slip is asked about")
	assert.Len(t, grams(), 3)
	d.Press("bksp bksp 2.6 enter")
	assert.Equal(t, []float64{2.61, 2.55, 2.66, 2.6}, grams())
}

func TestFillingIsChosenOnThePowderPage(t *testing.T) {
	barley := drive.Barley()
	barley.LevelSpoons[0].How = "as it comes"
	f := drive.NewShelf(barley)
	d := page(t, f).PressUntil("down", "▸ 1 tsp")
	assert.Contains(t, d.Frame(), "as it comes")
	assert.Contains(t, d.Frame(), "h how it was filled")
	d.Press("h")
	assert.Contains(t, d.Frame(), "▸ 1 tsp, loose")
	assert.Equal(t, model.Loose, f.Entries[0].Profile.LevelSpoons[0].How)
	d.Press("w").Write("tapped 2.8 2.9").Press("enter")
	assert.Contains(t, d.Flat(), "flow excellent. Spoons will do, filled the same way every time.")
	d.Press("h")
	assert.Contains(t, d.Frame(), "weighed tapped: fill every 1 tsp of this powder like that")
	d.Press("u u u")
	assert.Contains(t, d.Frame(), "as it comes")
	assert.Empty(t, f.Entries[0].Profile.Powder.Packings)
}

func TestTrialsAreSetAsideAndDeletedOnThePowderPage(t *testing.T) {
	f := drive.NewShelf(drive.Finished("Barley", model.Flour, "water", 0, 2, 4, 5, 6))
	trials := func() []model.Trial { return f.Entries[0].Profile.Trials }
	d := page(t, f).PressUntil("down", "▸ 1  2026").Press("x spilled enter")
	assert.Equal(t, "spilled", trials()[0].SetAside)
	assert.Equal(t, model.Done, trials()[0].State, "a finished trial stays finished")
	d.Press("x")
	assert.Empty(t, trials()[0].SetAside)
	d.Press("del")
	assert.Contains(t, d.Frame(), "Delete trial 1 of 2026-05-30 (5 looks)?")
	d.Press("esc")
	assert.Len(t, trials(), 1)
	d.Press("del enter")
	assert.Empty(t, trials())
	assert.Len(t, f.Kept, 1, "a copy is kept among the deleted")
	assert.Contains(t, d.Flat(), "u brings it back")
	d.Press("u")
	require.Len(t, trials(), 1)
	assert.Len(t, trials()[0].Steps, 5)
	d.PressUntil("down", "▸ 1  2026").Press("enter")
	assert.Contains(t, d.Frame(), "Trial › result")
}

func TestAPowderIsArchivedAndDeletedWithAWayBack(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := page(t, f).Press("a")
	assert.True(t, f.Entries[0].Profile.Powder.Archived)
	d.Press("a D")
	assert.Contains(t, d.Frame(), "Delete Barley · lot A7 with its trial?")
	d.Press("esc")
	assert.Len(t, f.Entries, 1)
	d.Press("D enter")
	assert.Empty(t, f.Entries)
	assert.Contains(t, d.Flat(), "u brings it back")
	d.Press("u")
	require.Len(t, f.Entries, 1)
	assert.Len(t, f.Entries[0].Profile.Trials, 1)
	assert.Contains(t, d.Frame(), "The powder is back.")
	d.Press("D enter esc")
	assert.Contains(t, d.Frame(), "This shelf is empty")
	assert.Empty(t, f.Entries)
}

// The page lists level spoons whose weight only the pot gave, and then does not say
// that none was weighed. A trial's answer is shown whole in any window.
func TestThePageListsThePotsSpoonsAndWholeAnswers(t *testing.T) {
	p := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	p.LevelSpoons = nil
	steps := p.Trials[0].Steps
	for i := range steps {
		steps[i].Spoon, steps[i].Count = "1/8 tsp", 2
	}
	p.Trials[0].PotG, steps[len(steps)-1].PotG = 100, 96.7
	for _, size := range [][2]int{{80, 24}, {60, 20}, {40, 24}} {
		d := drive.Start(t, drive.NewShelf(p).Deps(), size[0], size[1]).Press("p" + strings.Repeat(" down", 12))
		assert.Contains(t, d.Flat(), "a level 1 tsp weighs 2.64 g (going by the 1/8 tsp)")
		assert.Contains(t, d.Flat(), "a level 1/8 tsp weighs 0.330 ±")
		assert.NotContains(t, d.Frame(), "none weighed yet")
		assert.Regexp(t, `1  2026-05-30 .*7\.72 \(6\.65 to 8\.\d\d\)`, d.Frame(), "%v", size)
		assert.Less(t, strings.Index(d.Frame(), "level spoons"), strings.Index(d.Frame(), "── trials"))
	}
}

// Typing goes on at the end of a lot and of notes; it replaces a name.
func TestTypingGoesOnInALotAndReplacesAName(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := page(t, f).Press("enter").Write("Rye").Press("enter down enter").Write("-b").Press("enter")
	assert.Equal(t, "Rye", f.Profile("Rye").Powder.Name, d.Frame())
	assert.Equal(t, "A7-b", f.Profile("Rye").Powder.Lot)
}
