package later_test

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A covered dish is looked at again from the result. Each look recorded, mended,
// deleted or undone is on disk, and the trial stays finished.
func TestLaterLooksFromTheResult(t *testing.T) {
	oat := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	f := drive.NewShelf(oat)
	assert.Contains(t, drive.Start(t, f.Deps(), 80, 24).Press("enter l").Frame(), "too old to be kept for later looks")
	added, _ := oat.Trials[0].LastAdded()
	f.Clock = added.Add(10 * time.Minute)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Frame(), "l later looks")
	d.Press("l")
	assert.Contains(t, d.Frame(), "NOT COVERED")
	assert.Contains(t, d.Frame(), "No later look yet")
	trial := func() model.Trial { return f.Profile("Oat").Trials[0] }
	d.Press("6")
	require.Len(t, trial().Later, 1)
	assert.Equal(t, 6.0, *trial().Later[0].Level)
	assert.True(t, trial().Covered)
	assert.Equal(t, model.Done, trial().State)
	d.Press("enter").Write("7, stirred 5, gels, note a skin").Press("enter")
	require.Len(t, trial().Later, 2)
	assert.Equal(t, 5.0, *trial().Later[1].Stirred)
	assert.Contains(t, d.Frame(), "7 crumbly as it stands, 5 spread after ten turns, gels, a")
	assert.Contains(t, d.Frame(), "Stirring takes 2 levels")
	d.Press("up del")
	require.Len(t, trial().Later, 1)
	d.Press("u u")
	require.Len(t, trial().Later, 1, "the second undo takes the look in words back")
	d.Press("U U")
	d.Press("c")
	assert.False(t, trial().Covered)
	d.Press("esc")
	assert.Contains(t, d.Frame(), "Trial › result")
}

// The shelf says what is due, with one quiet bell. Whoever covers no dish sees and
// hears nothing.
func TestDueLooksAreSaidOnTheShelf(t *testing.T) {
	p := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24)
	assert.NotContains(t, d.Frame(), "later look due")
	assert.Zero(t, f.Bells)

	added, ok := p.Trials[0].LastAdded()
	require.True(t, ok)
	p.Trials[0].Covered = true
	f = drive.NewShelf(p)
	f.Clock = added.Add(35 * time.Minute)
	d = drive.Start(t, f.Deps(), 80, 24)
	assert.Contains(t, d.Frame(), "later look due: Oat, 30 min (l)")
	assert.Equal(t, 1, f.Bells)
	d.Press("down up")
	assert.Equal(t, 1, f.Bells, "once")
	d.Press("l 6")
	require.Len(t, f.Profile("Oat").Trials[0].Later, 1)
	d.Press("esc")
	assert.Contains(t, d.Frame(), "Shelf")
	assert.NotContains(t, d.Frame(), "later look due")
}

// The bell also rings on the screen of later looks, which then says what is due.
// The clock is read again and again.
func TestTheBellRingsWhereTheMakerWaits(t *testing.T) {
	p := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	added, ok := p.Trials[0].LastAdded()
	require.True(t, ok)
	f := drive.NewShelf(p)
	f.Clock = added.Add(10 * time.Minute)
	waits := 0
	deps := f.Deps()
	deps.Wait = func(time.Duration) {
		if waits++; waits%3 == 0 {
			f.Clock = f.Clock.Add(6 * time.Hour) // at last the dish is gone: nothing waits
		}
	}
	d := drive.Start(t, deps, 80, 24).Press("enter l")
	assert.Zero(t, waits, "nobody keeps a dish: no clock runs")
	d.Press("c")
	assert.Positive(t, waits)
	assert.Equal(t, 3, f.Bells, "at once, after 6 hours, and on the next day")
}

// A due look is said at the bench of another powder and at the result of the same,
// but not while a dish is being made.
func TestDueLooksAreSaidWhereverTheMakerIs(t *testing.T) {
	oat := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	oat.Trials[0].Covered = true
	added, _ := oat.Trials[0].LastAdded()
	f := drive.NewShelf(drive.Barley(0, 1, 3), oat)
	f.Clock = added.Add(35 * time.Minute)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Frame(), "Trial › bench  Barley")
	assert.Contains(t, d.Frame(), "▸ later look due: Oat, 30 min")
	d.Press("s down enter")
	assert.Contains(t, d.Frame(), "Trial › result  Oat")
	assert.Contains(t, d.Frame(), "▸ later look due: Oat, 30 min")
	d.Press("l")
	assert.NotContains(t, d.Frame(), "later look due")
	assert.Contains(t, d.Frame(), "A look is due now: 30 min after the last addition.")
	hold := d.Hold("6")
	assert.Contains(t, d.Frame(), "saving…", "it is not on disk yet")
	assert.Empty(t, f.Profile("Oat").Trials[0].Later)
	d.Run(hold)
	assert.Contains(t, d.Frame(), "saved ")
	assert.Len(t, f.Profile("Oat").Trials[0].Later, 1)
	assert.Equal(t, 1, f.Bells)
}

// Looks that do not fit come into sight by scrolling, and the screen says so.
func TestLaterLooksScroll(t *testing.T) {
	f := drive.NewShelf(drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 40, 12).Press("enter l 5 6 5 4 3")
	assert.Contains(t, d.Frame(), "▸ ")
	assert.Contains(t, d.Frame(), "more lines (PgDn)")
	before := d.Frame()
	assert.NotEqual(t, before, d.Press("pgdown").Frame())
	assert.Contains(t, d.Press("up").Frame(), "▸ ", "the cursor comes back into sight")
}
