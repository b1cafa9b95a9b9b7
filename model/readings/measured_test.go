package readings_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/measure"
	"daub.example/daub/model/readings"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dish is 100 g of powder to which liquid is added, read at each water content, %.
func dish(t *testing.T, m model.Measured, water, read []float64) bench.Reading {
	t.Helper()
	trial := model.Trial{
		LiquidG: water[0], Measured: &m, State: model.Done, ResolutionG: 0.001,
		Steps: []model.Step{{Add: model.AddPowder, Grams: 100, Reading: read[0]}},
	}
	for i := 1; i < len(water); i++ {
		step := model.Step{Add: model.AddLiquid, Grams: water[i] - water[i-1], Reading: read[i]}
		if step.Grams < 0 {
			step = model.Step{Add: model.AddPowder, Reading: read[i]}
			step.Grams = 100*water[0]/water[i] - 100*water[0]/water[i-1]
		}
		trial.Steps = append(trial.Steps, step)
	}
	r, err := bench.Read(model.Profile{Powder: model.Powder{Name: "soil"}, Trials: []model.Trial{trial}}, trial, nil)
	require.NoError(t, err)
	return r
}

// Liquid limits, w % = 100·R. Cone: Smith's Elements of Soil Mechanics, Example 1.3
// (printed 55); Budhu, Soil Mechanics and Foundations, Example 4.11. Cup: Das,
// Principles of Geotechnical Engineering, an older Problem 4.3, the interval far
// from symmetric. Ratios and limits computed in R.
func TestLiquidLimits(t *testing.T) {
	smith := []float64{16.1, 17.6, 19.3, 21.3, 22.6}
	budhu := []float64{5.5, 7.8, 14.8, 22, 32}
	budhuW := []float64{39, 44.8, 52.5, 60.3, 67}
	for _, c := range []struct {
		kind           measure.Kind
		water, read    []float64
		wanted         float64
		median, lo, hi float64
		g              float64 // Fieller's
	}{
		{measure.Cone, []float64{50.0, 52.1, 54.1, 57.0, 58.2}, smith, 20, 55.1660, 54.9007, 55.4465, 0.00704},
		{measure.Cone, budhuW, budhu, 20, 58.2742, 56.7820, 60.0132, 0.01435},
		{measure.Cone, budhuW, budhu, 2, 29.0471, 26.7492, 31.0167, 0.01435},
		{measure.Blows, []float64{42, 40.8, 39.1}, []float64{15, 20, 28}, 25, 39.6574, 35.2507, 40.6175, 0.663},
	} {
		m, ok := readings.Of(dish(t, model.Measured{Kind: c.kind, Wanted: c.wanted}, c.water, c.read))
		require.True(t, ok)
		assert.Equal(t, measure.Solved, m.Status)
		assert.InDelta(t, c.median, 100*m.Ratio.Median, 2e-4)
		assert.InDelta(t, c.lo, 100*m.Ratio.Low, 2e-4)
		assert.InDelta(t, c.hi, 100*m.Ratio.High, 2e-4)
		assert.InDelta(t, c.g, m.G, 5e-4)
		assert.InDelta(t, c.lo, 100*m.Dish.Low, 2e-3, "all weighed to the milligram: the masses add next to nothing")
		assert.InDelta(t, c.hi, 100*m.Dish.High, 2e-3)
	}
	two, _ := readings.Of(
		dish(t, model.Measured{Kind: measure.Cone, Wanted: 20}, []float64{50, 57}, []float64{16, 21.3}),
	)
	assert.Equal(t, measure.NoInterval, two.Status)
	assert.Contains(t, two.Sentence(), "no interval before a third")
	assert.Contains(t, two.Sentence(), "at 20 mm, cone")

	// Two points, exact: 70 % at 10 blows, 20 % at 100; by the power law 42.520 % at 25
	// (a standard exercise; the model is the answer).
	blows, _ := readings.Of(
		dish(t, model.Measured{Kind: measure.Blows, Wanted: 25}, []float64{70, 20}, []float64{10, 100}),
	)
	assert.Equal(t, measure.NoInterval, blows.Status)
	assert.InDelta(t, 42.520, 100*blows.Ratio.Median, 1e-2)

	flat := dish(t, model.Measured{Kind: measure.Cone}, []float64{50, 52, 54, 56}, []float64{20, 18, 21, 19.5})
	none, _ := readings.Of(flat)
	assert.Equal(t, measure.SlopeUnclear, none.Status)
	assert.Contains(t, none.Sentence(), "No ratio")
}

// Roussel & Coussot 2005: density 1500 kg/m³, 15 mL, radius 25 mm: 60.383 Pa
// (computed, g = 9.81).
func TestYieldStress(t *testing.T) {
	m := model.Measured{Kind: measure.Spread, VolumeML: 15, PasteDensity: 1.5, Wanted: 50}
	of, ok := readings.Of(dish(t, m, []float64{90, 100, 110}, []float64{45, 51, 58}))
	require.True(t, ok)
	assert.InDelta(t, 60.383, of.StressPa, 1e-3)
	assert.Contains(t, of.Sentence(), "yield stress there about 60 Pa")
}

// A trial with looks and readings gives two ratios, and neither changes for the
// other.
func TestTwoScales(t *testing.T) {
	r := dish(
		t,
		model.Measured{Kind: measure.Cone, Wanted: 20},
		[]float64{50, 52, 54, 57},
		[]float64{16, 17.6, 19.3, 21},
	)
	alone, _ := readings.Of(r)
	both := r.Trial.Clone()
	for i, level := range []float64{6, 5, 5, 4} {
		both.Steps[i].Looked, both.Steps[i].Level = true, level
	}
	looked, err := bench.Read(r.Profile, both, nil)
	require.NoError(t, err)
	again, _ := readings.Of(looked)
	assert.Equal(t, alone.Ratio, again.Ratio)
	for i := range both.Steps {
		both.Steps[i].Reading = 0
	}
	bare, err := bench.Read(r.Profile, both, nil)
	require.NoError(t, err)
	assert.Equal(t, bare.At(5).Dish, looked.At(5).Dish)
	assert.NotNil(t, looked.At(5).Dish)
}

// Repeats are pooled as normal means: two alike trials lie at the same place.
func TestPool(t *testing.T) {
	m := model.Measured{Kind: measure.Cone, Wanted: 20}
	r := dish(t, m, []float64{50.0, 52.1, 54.1, 57.0, 58.2}, []float64{16.1, 17.6, 19.3, 21.3, 22.6})
	p, water := r.Profile, model.Basis{Liquid: "water", RestS: *r.Trial.RestS}
	one, ok := readings.Pool(p, water, m, 20, nil)
	require.True(t, ok)
	p.Trials = append(p.Trials, p.Trials[0])
	two, ok := readings.Pool(p, water, m, 20, nil)
	require.True(t, ok)
	assert.Equal(t, 2, two.Trials)
	assert.InDelta(t, 0.55166, two.Ratio.Median, 1e-3)
	assert.Less(t, two.Ratio.HalfWidth(), one.Ratio.HalfWidth())
	require.Len(t, readings.Pools(p, nil), 1)
	assert.Equal(t, two, readings.Pools(p, nil)[0])
	pairs := readings.Against(r.Profile, p, nil)
	require.Len(t, pairs, 1)
	assert.InDelta(t, 1, pairs[0].Factor.Median, 1e-3, "the same powder takes as much")
	assert.Contains(t, pairs[0].Sentence("soil", "loam"), "at 20 mm, cone: a gram of loam takes 1.0")
	_, ok = readings.Pool(p, model.Basis{Liquid: "honey"}, m, 20, nil)
	assert.False(t, ok)
}

func acid(t *testing.T, p model.Powder, test model.AcidTest, target float64) readings.Acid {
	t.Helper()
	test.TargetPH = target
	trial := model.Trial{LiquidG: 20, Acid: &test, Steps: []model.Step{
		{Add: model.AddPowder, Grams: 10, Looked: true, Level: 5},
	}}
	r, err := bench.Read(model.Profile{Powder: p, Trials: []model.Trial{trial}}, trial, nil)
	require.NoError(t, err)
	a, ok := readings.AcidOf(r, nil)
	require.True(t, ok)
	return a
}

// The straight line between readings, by hand: from pH 9 to 7 over 0.5 g, 8 at
// 0.25 g of 30 g, 0.833 g per 100 g; ± 0.25 at 0.1875 and 0.3125 g.
func TestAcid(t *testing.T) {
	level := 4.0
	test := model.AcidTest{Acid: "citric acid 10 %", PasteG: 30, DropG: 0.05, Steps: []model.AcidStep{
		{PH: 9}, {Drops: 10, PH: 7}, {Grams: 0.5, PH: 6, Level: &level},
	}}
	a := acid(t, model.Powder{Name: "clay"}, test, 8)
	assert.Equal(t, measure.Crossed, a.Reach)
	assert.InDelta(t, 0.25/0.3, a.Per100G.Median, 1e-9)
	assert.InDelta(t, 0.1875/0.3, a.Per100G.Low, 1e-9)
	assert.InDelta(t, 0.3125/0.3, a.Per100G.High, 1e-9)
	assert.InDelta(t, 2.025, a.ThinnedTo, 1e-9, "20 g and the acid in 10 g: it counts as liquid")
	assert.Contains(t, a.Notes(model.Powder{})[1], "thinned it, from level 5 spread to 4 dollop")

	never := acid(t, model.Powder{Name: "clay"}, test, 4)
	assert.Equal(t, measure.NotYet, never.Reach)
	assert.Contains(t, never.Sentence(), "more than was tried", "never extrapolated")
	assert.Equal(t, measure.Already, acid(t, model.Powder{Name: "clay"}, test, 9.5).Reach)

	test.Steps[1].PH, test.Steps[2].PH = 6, 7
	pooled := acid(t, model.Powder{Name: "clay"}, test, 8)
	assert.True(t, pooled.OutOfOrder)
	assert.Contains(t, pooled.Notes(model.Powder{})[0], "averaged")

	test.PHStep = 1
	whole := acid(t, model.Powder{Name: "clay"}, test, 8)
	assert.Greater(t, whole.Per100G.High-whole.Per100G.Low, pooled.Per100G.High-pooled.Per100G.Low)
}

// A carbonate's pH climbs back: the reading after the wait counts, not the mean.
func TestAcidOfAFizzingPowder(t *testing.T) {
	chalk := model.Powder{Name: "chalk", Family: model.Mineral}
	test := model.AcidTest{Acid: "vinegar", PasteG: 30, Steps: []model.AcidStep{
		{PH: 9}, {Grams: 1, PH: 6}, {PH: 8},
	}}
	a := acid(t, chalk, test, 8.5)
	assert.Equal(t, []measure.PH{{Grams: 0, PH: 9}, {Grams: 1, PH: 8}}, a.Readings)
	notes := a.Notes(chalk)
	assert.Contains(t, notes[len(notes)-1], "Never a closed jar")
	drops := model.AcidTest{Acid: "vinegar", PasteG: 30, Steps: []model.AcidStep{{PH: 9}, {Drops: 3, PH: 6}}}
	unweighed := acid(t, model.Powder{Name: "clay"}, drops, 8)
	assert.Len(t, unweighed.Amounts, 1)
	assert.Contains(t, unweighed.Notes(model.Powder{})[0], "reading 2 has no weight")
	assert.Contains(t, unweighed.Sentence(), "No amount yet")
}
