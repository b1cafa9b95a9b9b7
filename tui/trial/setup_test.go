package trial_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Nothing once recorded may be lost: much of this went wrong once, and must not
// again.

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
	d.PressUntil("enter", "▸ how much")
	for range "20 g" {
		d.Press("bksp")
	}
	d.Press("lots enter")
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
	d := drive.Start(t, f.Deps(), 80, 24).Press("n Zinc")
	d.PressUntil("enter", "▸ weighing")
	d.Press("3.1 enter 3.2 enter")
	d.PressUntil("up", "▸ powder")
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
	d := drive.Start(t, f.Deps(), 80, 24).Press("t 2.60").Erase(9)
	assert.Len(t, f.Entries[0].Profile.LevelSpoons[0].Grams, 3, "key repeat takes text only")
	d.Press("2.60 enter")
	assert.Len(t, f.Entries[0].Profile.LevelSpoons[0].Grams, 4)
	d.Press("del")
	assert.Contains(t, d.Frame(), "2.6 g taken back")
	d.Press("del del del")
	assert.Contains(t, d.Frame(), "no weighing of this visit")
	assert.Equal(t, drive.Barley().LevelSpoons[0].Grams, f.Entries[0].Profile.LevelSpoons[0].Grams)
}

func TestSetupRefusesWhatTheShelfWould(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n X")
	d.PressUntil("enter", "▸ liquid")
	d.Erase(5).Press("rose enter 126 ctrl+g")
	assert.Contains(t, d.Flat(), `"126" is not a density above 0 and up to 25 g/mL`)
	assert.Contains(t, d.Frame(), "▸ its density")
	assert.Empty(t, f.Entries)
	d.Erase(3).Press("1.01 ctrl+g")
	assert.Contains(t, d.Frame(), "Trial › bench")
	assert.Equal(t, 1.01, f.Profile("X").Trials[0].LiquidDensity)
}

func TestTheDensityGoesWithItsLiquid(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n X")
	d.PressUntil("enter", "▸ liquid")
	d.Erase(5).Press("syrup enter 1.3 up").Erase(5).Press("water enter ctrl+g")
	got := f.Profile("X").Trials[0]
	assert.Equal(t, "water", got.Liquid)
	assert.Zero(t, got.LiquidDensity)
}

func TestARenamedPowderIsSaved(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n Zinc")
	d.PressUntil("enter", "▸ weighing")
	d.Press("3.1 enter")
	d.PressUntil("up", "▸ powder")
	d.Press("-oxide enter enter left enter esc")
	require.Len(t, f.Entries, 1)
	assert.Equal(t, "Zinc-oxide", f.Entries[0].Profile.Powder.Name)
	assert.Equal(t, model.Botanical, f.Entries[0].Profile.Powder.Family)
}
