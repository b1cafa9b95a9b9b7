package tui_test

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"daub.example/daub/tui/ui"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFaultInUpdateLeavesWithWhatWasRecorded makes the program panic at the bench
// while a look is being written.
func TestFaultInUpdateLeavesWithWhatWasRecorded(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	w := f.Deps()
	broken := false
	w.Now = func() time.Time {
		if broken {
			panic("the clock is gone")
		}
		return f.Clock
	}
	d := drive.Start(t, w, 80, 24).Press("enter enter 3")
	write := d.Hold("enter") // early
	require.NotNil(t, write, "the look is being written")
	broken = true
	d.Press("u")
	assert.True(t, d.Quit)
	require.ErrorContains(t, d.App.Fault(), "daub itself has a mistake at fault_test.go:")
	assert.ErrorContains(t, d.App.Fault(), "the clock is gone")
	assert.Contains(t, d.Flat(), "start it again, the trial goes on where it stopped")
	unsaved, dirty := d.App.Unsaved()
	require.True(t, dirty, "the look is left to the program to write")
	assert.Equal(t, 3.0, unsaved.Profile.Trials[0].Steps[2].Level)
}

func TestFaultInAFrameLeavesAtTheNextKey(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	w := f.Deps()
	w.Now = func() time.Time { panic("the clock is gone") }
	d := drive.Start(t, w, 80, 24)
	assert.Contains(t, d.Flat(), "Any key leaves.")
	assert.False(t, d.Quit)
	d.Press("x")
	assert.True(t, d.Quit)
	assert.Error(t, d.App.Fault())
}

func TestFaultInACommandLeaves(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	w := f.Deps()
	w.Save = func(model.Entry) (model.Entry, error) { panic("the disk is gone") }
	d := drive.Start(t, w, 80, 24).Press("enter enter")
	assert.True(t, d.Quit)
	require.ErrorContains(t, d.App.Fault(), "the disk is gone")
	unsaved, dirty := d.App.Unsaved()
	require.True(t, dirty)
	assert.Len(t, unsaved.Profile.Trials[0].Steps, 3)

	w = f.Deps()
	w.List = func() (ui.Listing, error) { panic("the shelf is gone") }
	d = drive.Start(t, w, 80, 24)
	assert.True(t, d.Quit, "at the start as well")
}

func TestNoFaultIsNoError(t *testing.T) {
	assert.NoError(t, drive.Start(t, drive.NewShelf().Deps(), 80, 24).App.Fault())
}
