package setup_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Nothing once recorded may be lost; much of this broke once.

func TestEnterAloneReachesTheBench(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n")
	d.PressUntil("enter", "Trial › bench")
	assert.Contains(t, d.Frame(), "Trial › bench  Powder of 2026-06-01")
	assert.Equal(t, 20.0, f.Profile("Powder of 2026-06-01").Trials[0].LiquidG)
}

func TestSetupTakesLiquidBySpoonAndRefusesSlips(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n Clay")
	d.PressUntil("enter", "▸ in the dish")
	d.Erase(4).Press("lots enter")
	assert.Contains(t, d.Frame(), `"lots" is neither a number of grams nor level`)
	d.Press("bksp bksp bksp bksp 4")
	d.Send(drive.Key("space"))
	d.Press("x1")
	d.Send(drive.Key("space"))
	d.Press("tsp ctrl+g")
	got := f.Profile("Clay").Trials[0]
	assert.Equal(t, model.BySpoon, got.LiquidBy)
	assert.Equal(t, "1 tsp", got.LiquidSpoon)
	assert.Equal(t, 4, got.LiquidCount)
	assert.InDelta(t, 4*4.92892*0.99821, got.LiquidG, 0.01)
}

func TestTabNeverPutsAnotherPowderIntoAFile(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3))
	d := drive.Start(t, f.Deps(), 80, 24).Press("n Zinc enter enter enter 2")
	d.PressUntil("enter", "▸ weighing")
	d.Press("3.1 enter 3.2 enter")
	d.PressUntil("up", "▸ name")
	d.Erase(4).Press("Bar tab")
	assert.NotContains(t, d.Frame(), "Tab takes it")
	assert.Equal(t, []float64{3.1, 3.2}, f.Entries[1].Profile.LevelSpoons[0].Grams)
	assert.Equal(t, drive.Barley(0, 1, 3), f.Entries[0].Profile)
}

func TestAnotherLotIsAnotherProfile(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	f.Entries[0].Profile.Trials[0].State = model.Done
	before := f.Entries[0].Profile.Clone()
	d := drive.Start(t, f.Deps(), 80, 24).Press("t")
	d.PressUntil("up", "▸ lot")
	d.Erase(2).Press("B9 enter ctrl+g g 2 enter 3")
	require.Len(t, f.Entries, 2)
	assert.Equal(t, before, f.Entries[0].Profile, "the old lot stays what it was")
	assert.Equal(t, "B9", f.Entries[1].Profile.Powder.Lot)
	assert.Equal(t, model.Flour, f.Entries[1].Profile.Powder.Family)
	assert.Empty(t, f.Entries[1].Profile.LevelSpoons, "another lot is weighed anew")
	assert.Len(t, f.Entries[1].Profile.Trials, 1)
}

func TestOnlyThisVisitsWeighingsAreTakenBack(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	d := drive.Start(t, f.Deps(), 80, 24).Press("t enter enter 2.60").Erase(9)
	assert.Len(t, f.Entries[0].Profile.LevelSpoons[0].Grams, 3, "key repeat takes text only")
	d.Press("2.60 enter")
	assert.Len(t, f.Entries[0].Profile.LevelSpoons[0].Grams, 4)
	d.Press("del")
	assert.Contains(t, d.Frame(), "2.6 g deleted")
	d.Press("del del del")
	assert.Contains(t, d.Frame(), "no weighing of this visit")
	assert.Equal(t, drive.Barley().LevelSpoons[0].Grams, f.Entries[0].Profile.LevelSpoons[0].Grams)
}

func TestSetupRefusesWhatTheShelfWould(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n X enter enter enter tab")
	d.PressUntil("enter", "▸ liquid")
	d.Erase(5).Press("200 enter")
	assert.Contains(t, d.Flat(), `"200" is an amount, not the name of a liquid`)
	d.Erase(3).Press("rose enter 126 ctrl+g")
	assert.Contains(t, d.Flat(), `"126" is not a density above 0 and up to 25 g/mL`)
	assert.Contains(t, d.Frame(), "▸ its density")
	assert.Empty(t, f.Entries)
	d.Erase(3).Press("1.01 ctrl+g")
	assert.Contains(t, d.Frame(), "Trial › bench")
	assert.Equal(t, 1.01, f.Profile("X").Trials[0].LiquidDensity)
}

func TestTheDensityGoesWithItsLiquid(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n X enter enter enter tab")
	d.PressUntil("enter", "▸ liquid")
	d.Erase(5).Press("syrup enter 1.3 up").Erase(5).Press("water enter ctrl+g")
	got := f.Profile("X").Trials[0]
	assert.Equal(t, "water", got.Liquid)
	assert.Zero(t, got.LiquidDensity)
}

func TestARenamedPowderIsSaved(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n Zinc enter enter enter 2")
	d.PressUntil("enter", "▸ weighing")
	d.Press("3.1 enter")
	d.PressUntil("up", "▸ name")
	d.Press("-oxide enter enter m enter esc esc")
	require.Len(t, f.Entries, 1)
	assert.Equal(t, "Zinc-oxide", f.Entries[0].Profile.Powder.Name)
	assert.Equal(t, model.Mineral, f.Entries[0].Profile.Powder.Family)
}

// pressed counts the keys of a way, without names and numbers.
func pressed(keys string) int {
	n := 0
	for _, k := range strings.Fields(keys) {
		if _, named := drive.NamedKeys[k]; named || len(k) == 1 {
			n++
		}
	}
	return n
}

// From an empty shelf to the bench in at most twelve keys, not counting the
// powder's name and the digits of masses, by every method.
func TestFewKeysToTheBench(t *testing.T) {
	for way, keys := range map[string]string{
		"pot":    "n Chestnut enter enter f enter enter 152.4 enter enter",
		"spoons": "n Chestnut enter enter f enter 2 enter 2.31 enter 2.27 enter 2.35 enter enter enter",
		"each":   "n Chestnut enter enter enter 3 enter",
	} {
		t.Run(way, func(t *testing.T) {
			f := drive.NewShelf()
			d := drive.Start(t, f.Deps(), 80, 24).Press(keys)
			assert.Contains(t, d.Frame(), "Trial › bench  Chestnut")
			assert.LessOrEqual(t, pressed(keys), 12)
			trial := f.Profile("Chestnut").Trials[0]
			assert.Equal(t, map[string]float64{"pot": 152.4}[way], trial.PotG)
			assert.Equal(t, way == "each", len(trial.Spoons) == 0)
			assert.Equal(t, 20.0, trial.LiquidG)
		})
	}
}

// Leaving and coming back keeps everything typed, for a new powder and for one of
// the shelf.
func TestSetupSurvivesLeaving(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	d := drive.Start(t, f.Deps(), 80,
		24).Press("n Chestnut enter L2 enter f enter enter 152.4 enter").Erase(4).Press("35 esc esc")
	assert.Contains(t, d.Frame(), "▸ Barley")
	d.Press("n")
	assert.Contains(t, d.Frame(), "Chestnut")
	assert.Contains(t, d.Frame(), "L2")
	d.Press("ctrl+g")
	got := f.Profile("Chestnut")
	require.Len(t, got.Trials, 1)
	assert.Equal(t, model.Flour, got.Powder.Family)
	assert.Equal(t, 152.4, got.Trials[0].PotG)
	assert.Equal(t, 35.0, got.Trials[0].LiquidG)

	d = drive.Start(t, f.Deps(), 80, 24).PressUntil("down", "▸ Barley").Press("t tab").PressUntil("down", "▸ rest")
	d.Erase(5).Press("90 up")
	d.Press("esc esc").PressUntil("down", "▸ Barley").Press("t ctrl+g")
	require.Len(t, f.Profile("Barley").Trials, 1)
	assert.Equal(t, 90, *f.Profile("Barley").Trials[0].RestS)
	d.Press("s").PressUntil("down", "▸ Barley").Press("n")
	assert.NotContains(t, d.Frame(), "L2", "a set-up whose trial was begun is done with")
}

// The suggested amount of liquid is not taken for a weighing without a word.
func TestSetupCallsAnAmountThatNobodyTypedASuggestion(t *testing.T) {
	d := drive.Start(t, drive.NewShelf().Deps(), 80, 24).Press("n X enter enter")
	d.PressUntil("enter", "▸ in the dish")
	assert.Contains(t, d.Flat(), "20 g is a suggestion: put in about that much water and type what the scale says")
	assert.Contains(t, d.Flat(), "Enter alone takes 20 g.")
	d.Press("tab").PressUntil("down", "▸ [ Begin the trial ]")
	assert.Contains(t, d.Flat(), "Enter takes it that just 20 g of water is in the dish.")
	d.PressUntil("up", "▸ in the dish").Erase(4).Press("21.3")
	assert.NotContains(t, d.Flat(), "suggestion")
	d.PressUntil("down", "▸ [ Begin the trial ]")
	assert.Contains(t, d.Flat(), "Enter goes to the bench")
}

func TestSetupSaysWhatTheFamilyChanges(t *testing.T) {
	d := drive.Start(t, drive.NewShelf().Deps(), 80, 24).Press("n X enter enter")
	assert.Contains(t, d.Frame(), "I don't know")
	assert.Contains(t, d.Flat(), "Not sure is fine")
	d.Press("p")
	assert.Contains(t, d.Flat(), "You look after 30 s. It usually takes 0.42 to 2.3 g of water per g",
		"the range that its result is held against")
}

// Any weighing can be picked and mended; an unlikely one is asked about once. A
// spoon weighed loose and then tapped tells at once how the powder packs: USP
// <1174>, Hausner ratio 1.30 passable.
func TestPackingIsWeighedInTheSetup(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n Fluff enter enter enter 2 enter")
	d.Press("2.0 enter 2.02 enter 1.98 enter")
	d.Write("tapped 2.6 2.62 2.58").Press("enter")
	assert.Contains(t, d.Flat(), "Hausner ratio")
	assert.Contains(t, d.Flat(), "flow passable. Give this one in grams")
	p := f.Profile("Fluff")
	assert.Equal(t, []float64{2, 2.02, 1.98}, p.LevelSpoons[0].Grams)
	assert.Equal(t, []float64{2.6, 2.62, 2.58}, p.Powder.Packings[0].TappedG)
	d.Press("tab").PressUntil("down", "▸ spoon filled").Press("right right")
	assert.Contains(t, d.Frame(), "← packed →")
	d.PressUntil("up", "▸ weighing").Press("3 enter")
	assert.Contains(t, d.Flat(), "were filled loose, and what is packed weighs another amount")
}

func TestAnyWeighingCanBeMended(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	grams := func() []float64 { return f.Profile("Barley").LevelSpoons[0].Grams }
	d := drive.Start(t, f.Deps(), 80, 24).Press("t enter enter right right")
	assert.Contains(t, d.Frame(), "[2.55]")
	d.Erase(4).Press("2.58 enter")
	assert.Equal(t, []float64{2.61, 2.58, 2.66}, grams())
	d.Press("26 enter")
	assert.Contains(t, d.Flat(), "The others say 2.61 g. Enter again: yes")
	assert.Len(t, grams(), 3)
	d.Press("enter")
	assert.Equal(t, []float64{2.61, 2.58, 2.66, 26}, grams())
	d.Press("left del")
	assert.Equal(t, []float64{2.61, 2.58, 2.66}, grams())
}

// A scale that reads to unusual grams is asked about once, and taken when given again.
func TestAnUnusualScaleIsAskedAbout(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n Fluff enter enter enter tab")
	d.PressUntil("down", "▸ scale reads to").Erase(7).Press("2.6 enter")
	assert.Contains(t, d.Flat(), "A scale that reads to 2.6 g? Most read to 0.01 g, 0.1 g or 1 g. Enter again")
	d.Press("enter ctrl+g")
	assert.Equal(t, 2.6, f.Profile("Fluff").Trials[0].ResolutionG)
}
