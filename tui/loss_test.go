package tui

import (
	"errors"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Nothing once recorded may be lost: what went wrong once, and must not again.

// erase presses Backspace n times.
func (d *driver) erase(n int) *driver { return d.press(strings.Repeat("bksp ", n)) }

func TestTabNeverPutsAnotherPowderIntoAFile(t *testing.T) {
	f := newFake(barley(0, 1, 3))
	d := drive(t, f.deps(), 80, 24).press("n Zinc")
	for range fieldWeighing {
		d.press("enter")
	}
	d.press("3.1 enter 3.2 enter")
	for range fieldWeighing {
		d.press("up")
	}
	d.erase(4).press("Bar tab")
	assert.NotContains(t, d.frame(), "Tab takes it")
	assert.Equal(t, []float64{3.1, 3.2}, f.items[1].Profile.LevelSpoons[0].Grams)
	assert.Equal(t, barley(0, 1, 3), f.items[0].Profile)
}

func TestAnotherLotIsAnotherProfile(t *testing.T) {
	f := newFake(barley(0, 1, 3, 4, 5, 6))
	f.items[0].Profile.Trials[0].State = model.Done
	before := f.items[0].Profile.Clone()
	d := drive(t, f.deps(), 80, 24).press("t")
	for range fieldWeighing - fieldLot {
		d.press("up")
	}
	d.erase(2).press("B9 enter ctrl+g g 2 enter 3")
	require.Len(t, f.items, 2)
	assert.Equal(t, before, f.items[0].Profile, "the old lot stays what it was")
	assert.Equal(t, "B9", f.items[1].Profile.Powder.Lot)
	assert.Equal(t, model.Flour, f.items[1].Profile.Powder.Family)
	assert.Empty(t, f.items[1].Profile.LevelSpoons, "another lot is weighed anew")
	assert.Len(t, f.items[1].Profile.Trials, 1)
}

func TestOnlyThisVisitsWeighingsAreTakenBack(t *testing.T) {
	f := newFake(barley())
	d := drive(t, f.deps(), 80, 24).press("t 2.60").erase(9)
	assert.Len(t, f.items[0].Profile.LevelSpoons[0].Grams, 3, "key repeat takes text only")
	d.press("2.60 enter")
	assert.Len(t, f.items[0].Profile.LevelSpoons[0].Grams, 4)
	d.press("del")
	assert.Contains(t, d.frame(), "2.6 g taken back")
	d.press("del del del")
	assert.Contains(t, d.frame(), "no weighing of this visit")
	assert.Equal(t, barley().LevelSpoons[0].Grams, f.items[0].Profile.LevelSpoons[0].Grams)
}

func TestALevelMonthsLaterIsTakenWithoutARest(t *testing.T) {
	p := barley(0, 1, 3)
	last := &p.Trials[0].Steps[2]
	last.Looked, last.Level, last.RestedS = false, 0, nil
	f := newFake(p)
	f.now = f.now.AddDate(0, 6, 0)
	drive(t, f.deps(), 80, 24).press("enter 3")
	s := f.steps(t, "Barley")[2]
	assert.Equal(t, 3.0, s.Level)
	assert.Nil(t, s.RestedS)
}

func TestSetupRefusesWhatTheShelfWould(t *testing.T) {
	f := newFake()
	d := drive(t, f.deps(), 80, 24).press("n X")
	for range fieldLiquid {
		d.press("enter")
	}
	d.erase(5).press("rose enter 126 ctrl+g")
	assert.Contains(t, flat(d.frame()), "a liquid density of 126 g/mL is not possible")
	assert.Contains(t, d.frame(), "▸ its density")
	assert.Empty(t, f.items)
	d.erase(3).press("1.01 ctrl+g")
	assert.Contains(t, d.frame(), "Trial › bench")
	assert.Equal(t, 1.01, f.profile("X").Trials[0].LiquidDensity)
}

func TestTheDensityGoesWithItsLiquid(t *testing.T) {
	f := newFake()
	d := drive(t, f.deps(), 80, 24).press("n X")
	for range fieldLiquid {
		d.press("enter")
	}
	d.erase(5).press("syrup enter 1.3 up").erase(5).press("water enter ctrl+g")
	got := f.profile("X").Trials[0]
	assert.Equal(t, "water", got.Liquid)
	assert.Zero(t, got.LiquidDensity)
}

func TestQuitThatFailedDoesNotLeaveLater(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.deps(), 80, 24).press("enter")
	f.fail = errors.New("the disk is full")
	d.press("enter q")
	assert.False(t, d.quit)
	f.fail = nil
	d.press("3")
	assert.False(t, d.quit, "the maker went on")
	assert.Len(t, f.steps(t, "Barley"), 3)
	d.press("q")
	assert.True(t, d.quit)
}

func TestUndoDoesNotFinishATrial(t *testing.T) {
	f := newFake(barley(0, 1, 3, 4, 5, 6))
	f.items[0].Profile.Trials[0].State = model.Done
	drive(t, f.deps(), 80, 24).press("enter b u")
	assert.Equal(t, model.Open, f.profile("Barley").Trials[0].State)
}

func TestAFinishedTrialMayBeLookedAt(t *testing.T) {
	f := newFake(barley(0, 1, 3, 4, 5, 6))
	f.items[0].Profile.Trials[0].State = model.Done
	d := drive(t, f.deps(), 80, 24).press("enter b esc")
	assert.Equal(t, model.Done, f.profile("Barley").Trials[0].State)
	assert.NotContains(t, d.frame(), "unfinished")
}

// TestTheNewestReadOfTheShelfWins ends the reads of the shelf in the wrong
// order.
func TestTheNewestReadOfTheShelfWins(t *testing.T) {
	f := newFake(barley(0, 1))
	app := New(f.deps())
	older := app.Init()()
	f.items[0].Profile.Powder.Name = "Newer"
	s := app.screen.(*list)
	newer := s.read()()
	for _, m := range []tea.Msg{newer, older} {
		app.Update(m)
	}
	assert.Equal(t, "Newer", s.rows[0].entry.Profile.Powder.Name)
}

func TestARenamedPowderIsSaved(t *testing.T) {
	f := newFake()
	d := drive(t, f.deps(), 80, 24).press("n Zinc")
	for range fieldWeighing {
		d.press("enter")
	}
	d.press("3.1 enter")
	for range fieldWeighing {
		d.press("up")
	}
	d.press("-oxide enter enter left enter esc")
	require.Len(t, f.items, 1)
	assert.Equal(t, "Zinc-oxide", f.items[0].Profile.Powder.Name)
	assert.Equal(t, model.Botanical, f.items[0].Profile.Powder.Family)
}

func TestATrialWithoutAStepIsDropped(t *testing.T) {
	f := newFake(barley(0, 1, 3, 4, 5, 6))
	d := drive(t, f.deps(), 80, 24).press("enter f r esc")
	assert.Len(t, f.profile("Barley").Trials, 1)
	assert.NotContains(t, d.frame(), "unfinished")
}

func TestThePassedOverAdditionCanBeLookedAtAfterAll(t *testing.T) {
	f := newFake(barley(0, 1))
	drive(t, f.deps(), 80, 24).press("enter enter a 3")
	s := f.steps(t, "Barley")
	require.Len(t, s, 3)
	assert.Equal(t, 3.0, s[2].Level)
}

func TestTheBellRingsWhileMarksAreOpen(t *testing.T) {
	f := newFake(barley(0, 1))
	w := f.deps()
	var waits int
	w.Wait = func(d time.Duration) { waits++; f.now = f.now.Add(d) }
	app := New(w)
	d := &driver{t: t, app: app}
	d.run(app.Init())
	d.press("enter")
	_, cmd := app.Update(namedKeys["enter"]) // the rest begins
	d.press("m")
	d.run(cmd)
	assert.Equal(t, 1, f.bells)
	assert.Equal(t, 120, waits, "one clock, and no more")
}

func TestTheWeighedIsNotThrownAwayByAnArrow(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.deps(), 80, 24).press("enter g 0.87 enter 3 e left")
	assert.Contains(t, d.frame(), "this addition was weighed")
	assert.Equal(t, 0.87, f.steps(t, "Barley")[2].Grams)
	d.press("l")
	assert.Equal(t, model.AddLiquid, f.steps(t, "Barley")[2].Add)
}

// TestKeysTypedFasterThanRead sends letters as the terminal library does when
// several have come in since it last looked: in one message.
func TestKeysTypedFasterThanRead(t *testing.T) {
	p := barley(0, 1, 3)
	p.Trials[0].LevelStep = 0.5
	f := newFake(p)
	d := drive(t, f.deps(), 80, 24)
	together := func(keys string) { d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(keys)}) }
	d.press("enter")
	together("uu")
	assert.Len(t, f.steps(t, "Barley"), 2, "two undos")
	d.press("enter")
	together(".4")
	assert.Equal(t, 4.5, f.steps(t, "Barley")[2].Level)
	d.press("esc")
	together("nRye")
	d.press("ctrl+g g 1 enter 3")
	assert.Len(t, f.profile("Rye").Trials, 1)
}
