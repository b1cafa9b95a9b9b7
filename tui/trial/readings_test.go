package trial_test

import (
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/measure"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A ruler beside the eye: once the trial measures, its key is shown, a reading can
// replace a look, and the result names both scales.
func TestReadingsAtTheBench(t *testing.T) {
	p := drive.Barley(0)
	p.Trials[0].Steps = nil
	p.Trials[0].Measured = &model.Measured{Kind: "spread", VolumeML: 15, PasteDensity: 1.4, Wanted: 60}
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	for i, read := range []string{"92", "80", "71", "64"} {
		d.Press("enter")
		if i == 0 {
			assert.Contains(t, d.Frame(), "r type a measurement")
			d.Press("r").Write(read).Press("enter")
			assert.Contains(t, d.Frame(), "keep 92 mm? Enter: yes, Esc: wait")
			d.Press("esc")
			assert.Zero(t, f.Steps(t, "Barley")[0].Reading)
		}
		f.Clock = f.Clock.Add(2 * time.Minute)
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
	assert.Contains(t, d.Flat(), "measured 1.97 (1.83 to 2.13) at 60 mm, spread of 15 mL", "the ratio in its own scale")
	assert.Contains(t, d.Flat(), "▸ 5 spread ? 2.05", "and the other in its own")
}

// The first r asks once for the kind, its geometry and the wanted reading. Esc on
// the way leaves the trial as it was. A level may stand beside the reading of the
// same dish.
func TestWhatIsMeasuredIsAskedOnce(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter r").Write("spread").Press("enter").Write("15 mL")
	d.Press("enter esc")
	assert.Nil(t, f.Profile("Barley").Trials[0].Measured, "Esc keeps nothing")
	d.Press("r").Write("width").Press("enter")
	assert.Contains(t, d.Flat(), "is no way of measuring")
	d.Press("esc r").Write("spread").Press("enter").Write("15 mL").Press("enter enter").Write("60").Press("enter")
	assert.Contains(t, d.Flat(), "reading, mm (spread of 15 mL)")
	d.Write("90").Press("enter")
	got := f.Profile("Barley").Trials[0]
	assert.Equal(t, &model.Measured{Kind: measure.Spread, VolumeML: 15, Wanted: 60}, got.Measured)
	assert.Equal(t, 90.0, got.Steps[1].Reading)

	d.Press("enter")
	f.Clock = f.Clock.Add(2 * time.Minute)
	d.Press("r")
	assert.Contains(t, d.Flat(), "reading, mm", "the second time only the reading")
	d.Write("80").Press("enter 2 enter")
	last := f.Steps(t, "Barley")[2]
	assert.Equal(t, 80.0, last.Reading)
	assert.Equal(t, 2.0, last.Level, "a level beside the reading of the same dish")
}

// Readings are mended, deleted, left out and brought back as looks are.
func TestReadingsAreMended(t *testing.T) {
	p := soil(measure.Cone, 50, 20)
	f := drive.NewShelf(p)
	d := weigh(drive.Start(t, f.Deps(), 80, 24).Press("enter"), "g", 100).Press("r").Write("16").Press("enter e r")
	d.Write("17").Press("enter")
	assert.Equal(t, 17.0, f.Steps(t, "Soil")[0].Reading, "typing replaces what it was")
	assert.Contains(t, d.Flat(), "measured 17 mm")
	d.Press("x")
	assert.True(t, f.Steps(t, "Soil")[0].LeftOut)
	d.Press("u")
	assert.Contains(t, d.Flat(), "undone: leaving out of look 1")
	d.Press("d")
	assert.Zero(t, f.Steps(t, "Soil")[0].Reading)
	d.Press("u")
	assert.Contains(t, d.Flat(), "undone: mending of step 1: reading of 17 mm deleted")
	assert.Equal(t, 17.0, f.Steps(t, "Soil")[0].Reading)
	d.Press("u")
	assert.Equal(t, 16.0, f.Steps(t, "Soil")[0].Reading)
	d.Press("U enter u u")
	assert.Zero(t, f.Steps(t, "Soil")[0].Reading, "at the bench undo goes on")
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

// soil is an open trial of 100 g to be weighed, read on a scale.
func soil(kind measure.Kind, waterG, wanted float64) model.Profile {
	unrested := 0
	return model.Profile{
		Powder: model.Powder{Name: "Soil", Family: model.PlainClay},
		Trials: []model.Trial{{
			Started: drive.Barley(0).Trials[0].Started, State: model.Open, Liquid: "water", LiquidG: waterG,
			ResolutionG: 0.001, RestS: &unrested, Measured: &model.Measured{Kind: kind, Wanted: wanted},
		}},
	}
}

// weigh adds grams by the keys, and confirms if asked.
func weigh(d *drive.Driver, keys string, grams float64) *drive.Driver {
	d.Press(keys).Write(model.Number(model.RoundSignificant(grams, 5))).Press("enter")
	if strings.Contains(d.Frame(), "SURE?") {
		d.Press("enter")
	}
	return d
}

// The published liquid limits by the keys of the bench, as the screen shows them, g
// water per g: Smith's Elements of Soil Mechanics, Example 1.3 (0.552, printed 55
// %). Budhu, Soil Mechanics and Foundations, Example 4.11 (0.583 at 20 mm). Das,
// Principles of Geotechnical Engineering, an older Problem 4.3 (0.397, the interval
// far from symmetric). Intervals computed in R. Two points have a ratio and no
// interval; readings that do not follow the powder have neither.
func TestLiquidLimitsByKeys(t *testing.T) {
	for _, c := range []struct {
		name        string
		kind        measure.Kind
		wanted      float64
		water, read []float64 // % and mm or blows
		shows       string
	}{
		{
			"Smith", measure.Cone, 20,
			[]float64{50.0, 52.1, 54.1, 57.0, 58.2},
			[]float64{16.1, 17.6, 19.3, 21.3, 22.6},
			"0.552 (0.549 to 0.554) g water per g powder at 20 mm, cone",
		},
		{
			"Budhu", measure.Cone, 20,
			[]float64{39, 44.8, 52.5, 60.3, 67},
			[]float64{5.5, 7.8, 14.8, 22, 32},
			"0.583 (0.568 to 0.600) g water per g powder at 20 mm, cone",
		},
		{
			"Das", measure.Blows, 25,
			[]float64{39.1, 40.8, 42},
			[]float64{28, 20, 15},
			"0.397 (0.353 to 0.406) g water per g powder at 25 blows",
		},
		{
			"two points", measure.Cone, 20,
			[]float64{50, 57},
			[]float64{16, 21.3},
			"no interval before a third g water",
		},
		{
			"none", measure.Cone, 20,
			[]float64{50, 52, 54, 56},
			[]float64{20, 18, 21, 19.5},
			"the readings do not clearly change with the powder",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := drive.NewShelf(soil(c.kind, c.water[0], c.wanted))
			d := weigh(drive.Start(t, f.Deps(), 80, 24).Press("enter"), "g", 100)
			for i, read := range c.read {
				if i > 0 {
					weigh(d, "l g", c.water[i]-c.water[i-1])
				}
				d.Press("r").Write(model.Number(read)).Press("enter")
			}
			assert.Contains(t, d.Flat(), strings.Split(c.shows, " g water")[0], "at the bench")
			d.Press("f enter")
			assert.Contains(t, d.Flat(), strings.TrimSuffix(c.shows, " g water"))
		})
	}
}
