package tui_test

import (
	"errors"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Nothing once recorded may be lost: what went wrong once, and must not again.

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

func TestALevelMonthsLaterIsTakenWithoutARest(t *testing.T) {
	p := drive.Barley(0, 1, 3)
	last := &p.Trials[0].Steps[2]
	last.Looked, last.Level, last.RestedS = false, 0, nil
	f := drive.NewShelf(p)
	f.Clock = f.Clock.AddDate(0, 6, 0)
	drive.Start(t, f.Deps(), 80, 24).Press("enter 3")
	s := f.Steps(t, "Barley")[2]
	assert.Equal(t, 3.0, s.Level)
	assert.Nil(t, s.RestedS)
}

func TestSetupRefusesWhatTheShelfWould(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n X")
	d.PressUntil("enter", "▸ liquid")
	d.Erase(5).Press("rose enter 126 ctrl+g")
	assert.Contains(t, d.Flat(), "a liquid density of 126 g/mL is not possible")
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

func TestQuitThatFailedDoesNotLeaveLater(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	f.Fail = errors.New("the disk is full")
	d.Press("enter q")
	assert.False(t, d.Quit)
	f.Fail = nil
	d.Press("3")
	assert.False(t, d.Quit, "the maker went on")
	assert.Len(t, f.Steps(t, "Barley"), 3)
	d.Press("q")
	assert.True(t, d.Quit)
}

func TestUndoDoesNotFinishATrial(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	f.Entries[0].Profile.Trials[0].State = model.Done
	drive.Start(t, f.Deps(), 80, 24).Press("enter b u")
	assert.Equal(t, model.Open, f.Profile("Barley").Trials[0].State)
}

func TestAFinishedTrialMayBeLookedAt(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	f.Entries[0].Profile.Trials[0].State = model.Done
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter b esc")
	assert.Equal(t, model.Done, f.Profile("Barley").Trials[0].State)
	assert.NotContains(t, d.Frame(), "unfinished")
}

// TestTheNewestReadOfTheShelfWins ends the reads of the shelf in the wrong
// order.
func TestTheNewestReadOfTheShelfWins(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24)
	older := d.Hold("r")()
	f.Entries[0].Profile.Powder.Name = "Newer"
	newer := d.Hold("r")()
	d.Send(newer)
	d.Send(older)
	assert.Contains(t, d.Frame(), "▸ Newer")
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

func TestATrialWithoutAStepIsDropped(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter f r esc")
	assert.Len(t, f.Profile("Barley").Trials, 1)
	assert.NotContains(t, d.Frame(), "unfinished")
}

func TestThePassedOverAdditionCanBeLookedAtAfterAll(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	drive.Start(t, f.Deps(), 80, 24).Press("enter enter a 3")
	s := f.Steps(t, "Barley")
	require.Len(t, s, 3)
	assert.Equal(t, 3.0, s[2].Level)
}

func TestTheBellRingsWhileMarksAreOpen(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	w := f.Deps()
	var waits int
	w.Wait = func(d time.Duration) { waits++; f.Clock = f.Clock.Add(d) }
	d := drive.Start(t, w, 80, 24).Press("enter")
	cmd := d.Hold("enter") // the rest begins
	d.Press("m")
	d.Run(cmd)
	assert.Equal(t, 1, f.Bells)
	assert.Equal(t, 120, waits, "one clock, and no more")
}

func TestTheWeighedIsNotThrownAwayByAnArrow(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter g 0.87 enter 3 e left")
	assert.Contains(t, d.Frame(), "this addition was weighed")
	assert.Equal(t, 0.87, f.Steps(t, "Barley")[2].Grams)
	d.Press("l")
	assert.Equal(t, model.AddLiquid, f.Steps(t, "Barley")[2].Add)
}

// TestKeysTypedFasterThanRead sends letters as the terminal library does when
// several have come in since it last looked: in one message.
func TestKeysTypedFasterThanRead(t *testing.T) {
	p := drive.Barley(0, 1, 3)
	p.Trials[0].LevelStep = 0.5
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24)
	together := func(keys string) { d.Send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(keys)}) }
	d.Press("enter")
	together("uu")
	assert.Len(t, f.Steps(t, "Barley"), 2, "two undos")
	d.Press("enter")
	together(".4")
	assert.Equal(t, 4.5, f.Steps(t, "Barley")[2].Level)
	d.Press("esc")
	together("nRye")
	d.Press("ctrl+g g 1 enter 3")
	assert.Len(t, f.Profile("Rye").Trials, 1)
}
