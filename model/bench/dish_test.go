package bench_test

import (
	"errors"
	"math"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// METHOD 2, every way of changing the dish, worked by hand.
func TestDishes(t *testing.T) {
	trial := model.Trial{LiquidG: 20, Steps: []model.Step{
		specimen.Spoons("1 tsp", 2, 1),                      // + 4.62 powder
		{Add: model.AddPowder, Spoon: "1 tsp", Grams: 2.38}, // weighed wins: 7.00
		{Add: model.AddPowder, Spoon: "1/2 tsp"},            // count left out is 1: + 1.155
		{Add: model.AddNone, Looked: true, Level: 2},        // the same dish again
		{Add: model.AddLiquid, Grams: 5},                    // 25 liquid
		{Add: model.AddLiquid, Spoon: "1 tsp", Count: 2},    // + 2·4.92892159375·0.9982067
		{Add: model.Removed, Grams: 4},                      // powder and liquid shrink alike
		{Add: model.AddPowder, Grams: 1, Looked: true, Level: 3},
	}}
	dishes, err := bench.Dishes(trial, specimen.Oats().SpoonWeights("", nil))
	require.NoError(t, err)
	require.Len(t, dishes, 8)
	powder := []float64{4.62, 7, 8.155, 8.155, 8.155, 8.155}
	liquid := []float64{20, 20, 20, 20, 25, 25 + 9.840165}
	for i := range powder {
		assert.InDelta(t, powder[i], dishes[i].PowderG, 1e-9, "step %d", i+1)
		assert.InDelta(t, liquid[i], dishes[i].LiquidG, 2e-6, "step %d", i+1)
	}
	assert.InDelta(t, dishes[5].PowderPerLiquid(), dishes[6].PowderPerLiquid(), 1e-12, "x stays")
	assert.InDelta(t, dishes[5].PasteG()-4, dishes[6].PasteG(), 1e-9)
	assert.InDelta(t, dishes[6].PowderG+1, dishes[7].PowderG, 1e-12)
	assert.InDelta(t, 1, dishes[7].Ratio()*dishes[7].PowderPerLiquid(), 1e-12)
	assert.Equal(t, 3, trial.Looks())
}

// Liquid dripped into powder: a look at powder alone is kept, not fitted.
func TestStartWithoutLiquid(t *testing.T) {
	trial := model.Trial{Steps: []model.Step{
		specimen.Weighed(5, 7),
		{Add: model.AddLiquid, Grams: 5, Looked: true, Level: 6},
		{Add: model.AddLiquid, Grams: 1, Looked: true, Level: 5},
	}}
	assert.False(t, bench.StartDish(trial).Mixed())
	assert.True(t, math.IsNaN(bench.StartDish(trial).Ratio()))
	r := specimen.Read(t, model.Profile{}, trial)
	assert.Equal(t, 3, trial.Looks())
	assert.Equal(t, 2, r.Looks())
	assert.True(t, math.IsInf(r.Dishes[0].PowderPerLiquid(), 1))
	a := r.At(5)
	require.NotNil(t, a.Dish)
	assert.Equal(t, "bracketed", a.Reach.String())
	assert.InDelta(t, 1.2, a.Dish.Median, 0.1)
}

// An overshoot is brought back with liquid and looked at from the other side.
func TestOvershootTakenBack(t *testing.T) {
	over := specimen.Read(t, model.Profile{},
		model.Trial{LiquidG: 10, Steps: []model.Step{specimen.Weighed(5, 3), specimen.Weighed(3, 6)}})
	back := specimen.Read(t, model.Profile{}, model.Trial{LiquidG: 10, Steps: []model.Step{
		specimen.Weighed(5, 3), specimen.Weighed(3, 6), {Add: model.AddLiquid, Grams: 1.5, Looked: true, Level: 5},
	}})
	assert.InDelta(t, 11.5/8, back.Dish().Ratio(), 1e-12)
	a, b := over.At(5), back.At(5)
	assert.Less(t, b.Dish.High/b.Dish.Low, a.Dish.High/a.Dish.Low, "a look at the aim narrows the answer")
}

func TestReadingBeforeTheFirstStep(t *testing.T) {
	r := specimen.Read(t, model.Profile{}, model.Trial{LiquidG: 12})
	assert.Equal(t, 12.0, r.Dish().LiquidG)
	assert.Zero(t, r.Looks())
	assert.Empty(t, r.FarOut())
	assert.Nil(t, r.At(5).Bound)
}

func TestStepErrorsSayWhy(t *testing.T) {
	good := specimen.Weighed(2, 0)
	tests := map[string]struct {
		profile model.Profile
		trial   model.Trial
		why     string
	}{
		"spoon without a weighing": {
			model.Profile{},
			model.Trial{
				LiquidG: 5,
				Steps: []model.Step{
					good,
					specimen.Spoons("1 tsp", 1, 0),
				},
			},
			"no level spoon of this powder has been weighed",
		},
		"unknown spoon": {
			specimen.Oats(),
			model.Trial{LiquidG: 5, Steps: []model.Step{good, specimen.Spoons("ladle", 1, 0)}},
			`"ladle" is not known`,
		},
		"powder of no amount": {
			specimen.Oats(),
			model.Trial{
				LiquidG: 5,
				Steps:   []model.Step{good, {Add: model.AddPowder}},
			},
			"powder was added, but neither",
		},
		"liquid of no amount": {
			specimen.Oats(),
			model.Trial{
				LiquidG: 5,
				Steps:   []model.Step{good, {Add: model.AddLiquid}},
			},
			"liquid was added, but neither",
		},
		"liquid by unknown spoon": {
			specimen.Oats(),
			model.Trial{
				LiquidG: 5,
				Steps:   []model.Step{good, {Add: model.AddLiquid, Spoon: "ladle"}},
			},
			`"ladle" is not known`,
		},
		"liquid of unknown density": {specimen.Oats(), model.Trial{
			Liquid: "rose syrup", LiquidG: 5,
			Steps: []model.Step{good, {Add: model.AddLiquid, Spoon: "1 tsp"}},
		}, `density of "rose syrup" is not known`},
		"more taken out than held": {
			specimen.Oats(),
			model.Trial{
				LiquidG: 5,
				Steps: []model.Step{
					good,
					{Add: model.Removed, Grams: 7.5},
				},
			},
			"7.5 g of paste taken out of a dish that holds 7.00 g",
		},
		"all of it taken out": {
			specimen.Oats(),
			model.Trial{
				LiquidG: 5,
				Steps:   []model.Step{good, {Add: model.Removed, Grams: 7}},
			},
			"give grams above 0 and below that",
		},
		"nothing taken out": {
			specimen.Oats(),
			model.Trial{LiquidG: 5, Steps: []model.Step{good, {Add: model.Removed}}},
			"0 g of paste taken out",
		},
		"an unknown addition": {
			specimen.Oats(),
			model.Trial{LiquidG: 5, Steps: []model.Step{good, {Add: "sand", Grams: 2}}},
			`"sand" is not known`,
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			r, err := bench.Read(tt.profile, tt.trial, nil)
			var at *bench.StepError
			require.ErrorAs(t, err, &at)
			assert.Equal(t, 1, at.Step)
			assert.Contains(t, err.Error(), "step 2: ")
			assert.ErrorContains(t, errors.Unwrap(err), tt.why)
			assert.Len(t, r.Dishes, 1, "what came before stays")
			assert.Equal(t, 1, r.Looks())
		})
	}
}

// The dish holds what was added less what was removed.
func TestMassIsKept(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		trial := model.Trial{LiquidG: rapid.Float64Range(1, 100).Draw(rt, "start")}
		paste := trial.LiquidG
		for range rapid.IntRange(1, 12).Draw(rt, "steps") {
			grams := rapid.Float64Range(0.01, 20).Draw(rt, "grams")
			add := rapid.SampledFrom([]model.Add{
				model.AddPowder, model.AddLiquid, model.Removed,
				model.AddNone,
			}).Draw(rt, "add")
			switch add {
			case model.Removed:
				grams = min(grams, paste/2)
				paste -= grams
			case model.AddPowder, model.AddLiquid:
				paste += grams
			}
			trial.Steps = append(trial.Steps, model.Step{Add: add, Grams: grams})
		}
		dishes, err := bench.Dishes(trial, model.SpoonWeights{})
		require.NoError(rt, err)
		last := dishes[len(dishes)-1]
		assert.InEpsilon(rt, paste, last.PasteG(), 1e-9)
		assert.GreaterOrEqual(rt, last.PowderG, 0.0)
		assert.Positive(rt, last.LiquidG)
	})
}
