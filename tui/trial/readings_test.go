package trial_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A ruler beside the eye: its key is shown once the trial measures, a reading
// stands in the place of a look, and the result names both scales.
func TestReadingsAtTheBench(t *testing.T) {
	p := drive.Barley(0)
	p.Trials[0].Steps = nil
	p.Trials[0].Measured = &model.Measured{Kind: "spread", VolumeML: 15, PasteDensity: 1.4, Wanted: 60}
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	for i, read := range []string{"92", "80", "71", "64"} {
		d.Press("enter")
		if i == 0 {
			assert.Contains(t, d.Frame(), "r reading by ruler")
		}
		d.Press("r").Write(read).Press("enter")
		assert.Contains(t, d.Flat(), "reading "+read+" mm recorded")
	}
	steps := f.Steps(t, "Barley")
	require.Len(t, steps, 4)
	assert.Equal(t, 64.0, steps[3].Reading)
	assert.False(t, steps[3].Looked)
	d.Press("u")
	assert.Zero(t, f.Steps(t, "Barley")[3].Reading, "undo takes the reading back first")
	d.Press("U k 5 enter f enter")
	assert.Contains(t, d.Flat(), "at 60 mm, spread of 15 mL", "the ratio in its own scale")
	assert.Contains(t, d.Flat(), "this dish")
}

func TestAReadingWithoutAScaleIsRefused(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter r")
	assert.Contains(t, d.Flat(), "nothing is measured in this trial")
}

// pH and acid from the result: begun, read, undone, and the amount for a target.
func TestAcidFromTheResult(t *testing.T) {
	p := drive.Finished("Ochre", model.PlainClay, "water", 1, 3, 4, 5, 6)
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	if at := d.Frame(); !assert.Contains(t, at, "Trial › result") {
		return
	}
	assert.Contains(t, d.Flat(), "p pH and acid")
	d.Press("p")
	assert.Contains(t, d.Flat(), "Not tested for fizzing", "said before the first drop")
	d.Write("citric acid 10 %, 30 g, strip 0.5, drop 0.05 g").Press("enter").Write("8.5").Press("enter p")
	d.Write("7 after 5 drops").Press("enter p").Write("5 after 5 drops level 4").Press("enter")
	assert.Contains(t, d.Flat(), "For pH 5.5:")
	got := f.Profile("Ochre").Trials[0]
	require.Len(t, got.Acid.Steps, 3)
	assert.Equal(t, model.Done, got.State, "the looks are what they were")
	d.Press("p").Write("undo").Press("enter")
	assert.Len(t, f.Profile("Ochre").Trials[0].Acid.Steps, 2)
	d.Press("p").Write("target 8").Press("enter")
	d.PressUntil("pgdown", "For pH 8:")
}

func TestDustIsSaidBeforeTheFirstSpoon(t *testing.T) {
	p := drive.Barley(0)
	p.Trials[0].Steps = nil
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Flat(), "Fine dust")
	d.Press("enter")
	assert.NotContains(t, d.Flat(), "Fine dust", "once")
}
