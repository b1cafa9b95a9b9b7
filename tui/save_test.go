package tui_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model/bench"
	"daub.example/daub/tui"
	"daub.example/daub/tui/internal/drive"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNotSavedStaysUntilItIsSaved(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	f.Fail = errors.New("the disk is full")
	d.Press("enter")
	assert.Contains(t, d.Frame(), "NOT SAVED. Ctrl+S save again")
	assert.Contains(t, d.Frame(), "the disk is full")
	d.Press("3 enter s")
	assert.Contains(t, d.Frame(), "NOT SAVED", "also on the shelf")
	d.Press("n")
	assert.Contains(t, d.Frame(), "Shelf", "nothing else takes its place while it is not saved")
	d.Press("ctrl+c")
	assert.False(t, d.Quit, "the first quit tries to save")
	_, unsaved := d.App.Unsaved()
	assert.True(t, unsaved)

	f.Fail = nil
	d.Press("ctrl+s")
	assert.NotContains(t, d.Frame(), "NOT SAVED")
	assert.Len(t, f.Steps(t, "Barley"), 3)
	_, unsaved = d.App.Unsaved()
	assert.False(t, unsaved)
}

// The banner of a failed save names the keys, the file and the cause.
func TestBannerHoldsFileAndCause(t *testing.T) {
	const file = "/home/someone/.local/share/daub/powders/dark-rye-flour-harvest-2025.toml"
	for _, size := range [][2]int{{80, 24}, {60, 20}} {
		f := drive.NewShelf(drive.Barley(0, 1))
		d := drive.Start(t, f.Deps(), size[0], size[1]).Press("enter")
		f.Fail = fmt.Errorf("save %s: write beside it: no space left on device; nothing was changed: "+
			"check that the folder may be written and the disk has room", file)
		told := d.Press("enter").Flat()
		for _, part := range []string{"Ctrl+S save again", "twice to leave", "no space left on device"} {
			assert.Contains(t, told, part, size)
		}
		assert.Contains(t, strings.ReplaceAll(told, " ", ""), file, size)
	}
}

func TestSaveAsNewKeepsBoth(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	f.Fail = errors.New("changed elsewhere")
	d.Press("enter")
	f.Fail = nil
	d.Press("ctrl+b")
	require.Len(t, f.Entries, 2)
	assert.Len(t, f.Entries[0].Profile.Trials[0].Steps, 2)
	assert.Len(t, f.Entries[1].Profile.Trials[0].Steps, 3)
}

// TestOneWriteInFlight delays a write while keys go on; once it ends, the newest
// state is written.
func TestOneWriteInFlight(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	first := d.Hold("enter")
	require.NotNil(t, first, "the addition is being written")
	assert.Nil(t, d.Hold("3"), "no second write while one is in flight")
	assert.Nil(t, d.Hold("enter"), "early as it is")
	assert.Nil(t, d.Hold("enter"))
	assert.Contains(t, d.Frame(), "saving…")
	d.Run(first)
	assert.Contains(t, d.Frame(), "saved")
	assert.Equal(t, 2, f.Saves)
	assert.Len(t, f.Steps(t, "Barley"), 4)
}

func TestQuitWaitsForTheSave(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	write := d.Hold("enter")
	cmd := d.Hold("ctrl+c")
	assert.Nil(t, cmd, "not before the write has ended")
	d.Run(write)
	assert.True(t, d.Quit)
}

func TestQuitThatFailedDoesNotLeaveLater(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	f.Fail = errors.New("the disk is full")
	d.Press("enter q")
	assert.False(t, d.Quit)
	f.Fail = nil
	d.Press("3 enter")
	assert.False(t, d.Quit, "the maker went on")
	assert.Len(t, f.Steps(t, "Barley"), 3)
	d.Press("q")
	assert.True(t, d.Quit)
}

// TestKeysTypedFasterThanRead sends several letters in one message, as the terminal
// library does if they came in together.
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
	d.Press("enter")
	assert.Equal(t, 4.5, f.Steps(t, "Barley")[2].Level)
	d.Press("s")
	together("nRye")
	d.Press("ctrl+g g 1 enter 3 enter")
	assert.Len(t, f.Profile("Rye").Trials, 1)
}

// If a disk neither fails nor answers, the screen says so after a while. The trial
// goes on, and the program can be left.
func TestHungDiskIsToldAndCanBeLeft(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {60, 20}, {40, 12}} {
		f := drive.NewShelf(drive.Barley(0, 1))
		d := drive.Start(t, f.Deps(), size[0], size[1]).Press("enter")
		write := d.Hold("enter")
		require.NotNil(t, write)
		assert.NotContains(t, d.Frame(), "NOT SAVED")
		d.Send(tui.PatienceIsOver(d.App))
		told := strings.Join(strings.Fields(d.Frame()), " ")
		assert.Contains(t, told, "NOT SAVED YET: the disk does not answer.", size)
		assert.Contains(t, told, "Ctrl+C twice leaves: what is not saved then goes into a temporary file", size)

		assert.Nil(t, d.Hold("ctrl+c"), "the first waits once more")
		leave := d.Hold("ctrl+c")
		require.NotNil(t, leave)
		assert.Equal(t, tea.Quit(), leave())
		_, unsaved := d.App.Unsaved()
		assert.True(t, unsaved, "left to the last save")

		d.Run(write)
		assert.NotContains(t, d.Frame(), "NOT SAVED")
	}
}

// A slow disk is not a hung one: a write that ended in time is not reported.
func TestSlowDiskThatAnswersIsNotTold(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	write := d.Hold("enter")
	over := tui.PatienceIsOver(d.App) // the clock of this write
	d.Run(write)
	d.Hold("u") // the next one is in flight
	d.Send(over)
	assert.NotContains(t, d.Frame(), "NOT SAVED")
	d.Send(tui.PatienceIsOver(d.App))
	assert.Contains(t, d.Frame(), "NOT SAVED YET")
}

// A clock set back during a trial does not tell how long the dish has rested. The
// look is recorded without its wait, and everything is saved and sound.
func TestClockSetBack(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	before := len(f.Steps(t, "Barley"))
	d.Press("enter")
	f.Clock = f.Clock.Add(-26 * time.Hour)
	d.Press("3")
	if strings.Contains(d.Frame(), "SURE?") {
		d.Press("enter")
	}
	steps := f.Steps(t, "Barley")
	require.Len(t, steps, before+1)
	assert.True(t, steps[before].Looked)
	assert.EqualValues(t, 3, steps[before].Level)
	if rested := steps[before].RestedS; rested != nil {
		assert.GreaterOrEqual(t, *rested, 0)
	}
	d.Press("enter 4")
	f.Clock = f.Clock.Add(50 * 365 * 24 * time.Hour)
	d.Press("enter 5 enter s")
	p := f.Profile("Barley")
	require.Greater(t, len(p.Trials[0].Steps), before+1)
	require.Empty(t, bench.Check(p, nil))
	assert.NotContains(t, d.Frame(), "NOT SAVED")
	require.NoError(t, d.App.Fault())
}
