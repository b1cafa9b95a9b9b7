package model_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// NIST Handbook 44, Appendix C: 231 in³ to the gallon, 768 teaspoons to the
// gallon, 2.54 cm to the inch; printed 4.9289 mL.
func TestTeaspoonOfTheUS(t *testing.T) {
	assert.InEpsilon(t, 231*2.54*2.54*2.54/768, model.USTeaspoonML, 1e-15)
	assert.InDelta(t, 4.9289, model.USTeaspoonML, 5e-5)
}

// 21 CFR 101.9(b)(5)(viii): teaspoon 5 mL, tablespoon 15 mL; 1.4 % above the
// measuring spoon.
func TestLabellingSpoons(t *testing.T) {
	var own model.OwnSpoons
	tsp, ok := own.Spoon(model.Metric, "1 tsp")
	require.True(t, ok)
	assert.Equal(t, 5.0, tsp.VolumeML)
	tbsp, ok := own.Spoon(model.Metric, "1 tbsp")
	require.True(t, ok)
	assert.Equal(t, 15.0, tbsp.VolumeML)
	assert.InDelta(t, 1.4, 100*(model.Metric.TeaspoonML()/model.US.TeaspoonML()-1), 0.05)
}

// Dash, pinch and smidgen as 1/8, 1/16 and 1/32 tsp: common practice, no
// standard.
func TestStandardSpoons(t *testing.T) {
	teaspoons := []float64{3, 1.5, 1, 0.75, 0.5, 0.25, 0.125, 0.0625, 0.03125}
	names := model.StandardSpoonNames()
	require.Len(t, names, len(teaspoons))
	for i, name := range names {
		s, ok := model.OwnSpoons{}.Spoon("", name)
		require.True(t, ok, name)
		assert.Equal(t, teaspoons[i]*model.USTeaspoonML, s.VolumeML, name)
		assert.False(t, s.Own)
		assert.True(t, model.IsStandardSpoon(name))
	}
	for _, name := range model.DefaultSpoons() {
		assert.True(t, model.IsStandardSpoon(name))
	}
	_, ok := model.OwnSpoons{}.Spoon(model.US, "1 cup")
	assert.False(t, ok)
}

// A list of one's own never redefines a standard name silently: it counts only
// where the trial says that its spoons are the maker's own.
func TestOwnSpoons(t *testing.T) {
	own := model.OwnSpoons{{Name: "blue scoop", VolumeML: 2.5}, {Name: "1 tsp", VolumeML: 4.6}}
	for _, set := range model.SpoonSets() {
		blue, ok := own.Spoon(set, "blue scoop")
		assert.True(t, ok)
		assert.True(t, blue.Own)
		assert.Equal(t, 2.5, blue.VolumeML)
	}
	for set, ml := range map[model.SpoonSet]float64{model.US: model.USTeaspoonML, model.Metric: 5, model.Own: 4.6} {
		tsp, ok := own.Spoon(set, "1 tsp")
		assert.True(t, ok)
		assert.Equal(t, ml, tsp.VolumeML, set)
		assert.Equal(t, set == model.Own, tsp.Own)
	}
	half, _ := own.Spoon(model.Own, "1/2 tsp")
	assert.Equal(t, model.USTeaspoonML/2, half.VolumeML, "what the list does not have is US customary")
	assert.Equal(t, []string{"1 tsp"}, own.Redefines())
	checked := slices.Clone(own)
	checked[1].Measured = time.Date(2026, 5, 3, 10, 0, 0, 0, time.UTC)
	assert.Empty(t, checked.Redefines(), "who checked a spoon with water knows, and new trials begin with the set own")
	names := model.StandardSpoonNames()
	assert.Equal(t, slices.Insert(names, slices.Index(names, "1/2 tsp"), "blue scoop"), own.Names(),
		"by size: 1/2 tsp is 2.46 mL")
	assert.Empty(t, own.Validate())
}

func TestOwnSpoonsValidate(t *testing.T) {
	tests := map[string]struct {
		ownSpoons  model.OwnSpoons
		path, what string
	}{
		"no name": {model.OwnSpoons{{Name: " ", VolumeML: 1}}, "spoon[0].name", "no name"},
		"twice": {
			model.OwnSpoons{{Name: "a", VolumeML: 1}, {Name: "a", VolumeML: 2}},
			"spoon[1].name",
			"listed twice",
		},
		"no volume":    {model.OwnSpoons{{Name: "a"}}, "spoon[0].volume_ml", "0 mL is not possible"},
		"a bucket":     {model.OwnSpoons{{Name: "a", VolumeML: 1001}}, "spoon[0].volume_ml", "1001 mL"},
		"below zero":   {model.OwnSpoons{{Name: "a", VolumeML: -1}}, "spoon[0].volume_ml", "-1 mL"},
		"not a number": {model.OwnSpoons{{Name: "a", VolumeML: math.NaN()}}, "spoon[0].volume_ml", "NaN mL"},
		"wild uncertainty": {
			model.OwnSpoons{{Name: "a", VolumeML: 1, UncertaintyML: 2}},
			"spoon[0].standard_uncertainty_ml", "2 mL",
		},
		"no uncertainty": {
			model.OwnSpoons{{Name: "a", VolumeML: 1, UncertaintyML: math.NaN()}},
			"spoon[0].standard_uncertainty_ml", "NaN",
		},
		"uncertainty below 0": {
			model.OwnSpoons{{Name: "a", VolumeML: 1, UncertaintyML: -0.1}},
			"spoon[0].standard_uncertainty_ml", "-0.1",
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			ps := tt.ownSpoons.Validate()
			require.NotEmpty(t, ps)
			assert.Equal(t, tt.path, ps[0].Path)
			assert.Contains(t, ps[0].What, tt.what)
			assert.NotEmpty(t, ps[0].Fix)
		})
	}
}

// A larger spoon worked out from a weighed smaller one, against weighings of
// both. USDA Standard Reference, NDB numbers 02047, 02010, 02043, 11667, 19165.
func TestSpoonsAgainstPublishedWeights(t *testing.T) {
	cup := model.OwnSpoons{{Name: "1 cup", VolumeML: 236.588}} // 48 teaspoons
	tests := []struct {
		powder, weighed string
		grams           float64
		other           string
		published       float64
		tolerance       float64 // relative
	}{
		{"salt", "1 tsp", 6.0, "1 tbsp", 18, 1e-9},
		{"cinnamon", "1 tsp", 2.6, "1 tbsp", 7.8, 1e-9},
		{"turmeric", "1 tsp", 3.0, "1 tbsp", 9.4, 0.05}, // heaped a little more, or packed
		{"spirulina", "1 tbsp", 7.0, "1 cup", 112, 1e-5},
		{"cocoa", "1 tbsp", 5.4, "1 cup", 86, 0.006}, // printed to the gram
	}
	for _, tt := range tests {
		t.Run(tt.powder, func(t *testing.T) {
			p := model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: tt.weighed, Grams: []float64{tt.grams}}}}
			got, err := p.SpoonWeights(model.US, cup).Scoop(tt.other)
			require.NoError(t, err)
			assert.InEpsilon(t, tt.published, got.Grams, tt.tolerance)
		})
	}
}

func TestScoop(t *testing.T) {
	own := model.OwnSpoons{{Name: "blue scoop", VolumeML: 2.5}}
	p := model.Profile{LevelSpoons: []model.LevelSpoon{
		{Spoon: "1 tsp", Grams: []float64{4}},
		{Spoon: "1/8 tsp", Grams: []float64{0.6}}, // a spoon of its own: not 4/8
		{Spoon: "1 tbsp"},                         // not weighed after all
		{Spoon: "cone", Grams: []float64{7}},      // no volume known
	}}
	grams := func(spoon string) float64 {
		s, err := p.SpoonWeights("", own).Scoop(spoon)
		require.NoError(t, err)
		return s.Grams
	}
	assert.Equal(t, 4.0, grams("1 tsp"))
	assert.Equal(t, 0.6, grams("1/8 tsp"), "weighed itself")
	assert.Equal(t, 7.0, grams("cone"), "weighed, though of unknown size")
	assert.InDelta(t, 2.0, grams("1/2 tsp"), 1e-12, "nearest weighed size 1 tsp")
	assert.InDelta(t, 0.3, grams("1/16 tsp"), 1e-12, "nearest weighed size 1/8 tsp")
	assert.InDelta(t, 12.0, grams("1 tbsp"), 1e-12, "a table without weighings weighs nothing")
	assert.InDelta(t, 4*2.5/model.USTeaspoonML, grams("blue scoop"), 1e-12)

	tsp, ok := p.SpoonWeights("", own).Teaspoon()
	assert.True(t, ok)
	assert.Equal(t, 4.0, tsp)
}

// The volume written with a weighing wins over the spoon set's.
func TestScoopFromAVolumeOfItsOwn(t *testing.T) {
	p := model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: "cone", Grams: []float64{3}, VolumeML: 7.5}}}
	s, err := p.SpoonWeights(model.Metric, nil).Scoop("1 tsp")
	require.NoError(t, err)
	assert.InDelta(t, 2.0, s.Grams, 1e-12)

	p = model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{3}, VolumeML: 5.2}}}
	s, err = p.SpoonWeights(model.Metric, nil).Scoop("1/2 tsp")
	require.NoError(t, err)
	assert.InDelta(t, 3*2.5/5.2, s.Grams, 1e-12)
}

func TestScoopSaysWhyNot(t *testing.T) {
	_, err := model.Profile{}.SpoonWeights("", nil).Scoop("1/2 tsp")
	assert.ErrorContains(t, err, "no level spoon of this powder has been weighed")
	_, ok := model.Profile{}.SpoonWeights("", nil).Teaspoon()
	assert.False(t, ok)

	_, err = specimen.Oats().SpoonWeights("", nil).Scoop("ladle")
	assert.ErrorContains(t, err, `the spoon "ladle" is not known`)

	p := model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: "cone", Grams: []float64{3}}}}
	_, err = p.SpoonWeights("", nil).Scoop("1 tsp")
	assert.ErrorContains(t, err, `the weighed spoon "cone" has no volume`)
}

// A spoon checked with water serves the trials after it; those before it keep
// the size they were made with until their maker says otherwise.
func TestSpoonsAsATrialKnewThem(t *testing.T) {
	checked := time.Date(2026, 5, 3, 10, 0, 0, 0, time.UTC)
	list := model.OwnSpoons{
		{
			Name: "blue scoop", VolumeML: 8.3, UncertaintyML: 0.02, Measured: checked,
			BeforeML: 8, BeforeUncertaintyML: 0.2,
		},
		{Name: "green scoop", VolumeML: 4, Measured: checked},
	}
	size := func(started time.Time, name string) float64 {
		s, ok := list.At(started).Spoon(model.US, name)
		require.True(t, ok)
		return s.VolumeML
	}
	assert.Equal(t, 8.0, size(checked.Add(-time.Second), "blue scoop"))
	assert.Equal(t, 8.3, size(checked, "blue scoop"))
	assert.Equal(t, 8.3, size(time.Time{}, "blue scoop"))
	assert.Equal(t, 4.0, size(checked.AddDate(-1, 0, 0), "green scoop"))
	assert.Equal(t, 8.3, list[0].VolumeML, "the list itself stays")
	assert.Empty(t, list.Validate())
	assert.Len(t, model.OwnSpoons{{Name: "x", VolumeML: 1, BeforeML: 2}}.Validate(), 1)
	assert.Len(t, model.OwnSpoons{{Name: "x", VolumeML: 1, WaterG: []float64{1, -1}}}.Validate(), 1)
}
