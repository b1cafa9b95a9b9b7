package tui

import (
	"daub.example/daub/model"
	"testing"
	"time"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFaultInUpdateLeavesWithWhatWasRecorded breaks the program at the bench,
// with a look on its way to the disk.
func TestFaultInUpdateLeavesWithWhatWasRecorded(t *testing.T) {
	f := newFake(barley(0, 1))
	w := f.deps()
	broken := false
	w.Now = func() time.Time {
		if broken {
			panic("the clock is gone")
		}
		return f.now
	}
	d := drive(t, w, 80, 24).press("enter enter")
	_, write := d.app.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'3'}})
	require.NotNil(t, write, "the look is being written")
	broken = true
	d.press("u")
	assert.True(t, d.quit)
	require.ErrorContains(t, d.app.Fault(), "daub itself has a mistake at fault_test.go:")
	assert.ErrorContains(t, d.app.Fault(), "the clock is gone")
	assert.Contains(t, flat(d.frame()), "start it again, the trial goes on where it stopped")
	owed, dirty := d.app.Unsaved()
	require.True(t, dirty, "the look is left to the program to write")
	assert.Equal(t, 3.0, owed.Profile.Trials[0].Steps[2].Level)
}

func TestFaultInAFrameLeavesAtTheNextKey(t *testing.T) {
	f := newFake(barley(0, 1))
	w := f.deps()
	w.Now = func() time.Time { panic("the clock is gone") }
	d := drive(t, w, 80, 24)
	assert.Contains(t, flat(d.frame()), "Any key leaves.")
	assert.False(t, d.quit)
	d.press("x")
	assert.True(t, d.quit)
	assert.Error(t, d.app.Fault())
}

func TestFaultInACommandLeaves(t *testing.T) {
	f := newFake(barley(0, 1))
	w := f.deps()
	w.Save = func(model.Entry) (model.Entry, error) { panic("the disk is gone") }
	d := drive(t, w, 80, 24).press("enter enter")
	assert.True(t, d.quit)
	require.ErrorContains(t, d.app.Fault(), "the disk is gone")
	owed, dirty := d.app.Unsaved()
	require.True(t, dirty)
	assert.Len(t, owed.Profile.Trials[0].Steps, 3)

	w = f.deps()
	w.List = func() (Listing, error) { panic("the shelf is gone") }
	d = drive(t, w, 80, 24)
	assert.True(t, d.quit, "at the start as well")
}

func TestNoFaultIsNoError(t *testing.T) {
	assert.NoError(t, drive(t, newFake().deps(), 80, 24).app.Fault())
}
