package bench_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// METHOD 5, each term worked by hand for the teaspoon of oats: 2.31 g,
// s_rel 0.0374155, k·u_mean 2.776445·0.0216380 = 0.0600767 (see
// TestWeightByHand), scale 0.01 g: 0.01/√12 = 0.00288675 g.
func TestMassesByHand(t *testing.T) {
	water := 1.96 * 0.00288675 / 20 // 20 g, weighed once: 0.000282902
	tests := map[string]struct {
		trial model.Trial
		want  fit.Masses
		// perTsp is the spoon weight's term for the ratio per teaspoon.
		perTsp float64
	}{
		// f = 1, N = 2: scoops 1.96·0.0374155/√2. Per teaspoon (1 - f) = 0.
		"all by the weighed spoon": {
			model.Trial{LiquidG: 20, Steps: []model.Step{specimen.Spoons("1 tsp", 2, 5)}},
			fit.Masses{SpoonWeight: 0.0600767, Scoops: 0.0518553, Liquid: water},
			0,
		},
		// 2.31 g by spoon, 2.31 g weighed: f = 0.5, N = 1: scoops
		// 1.96·0.5·0.0374155; scale 1.96·0.00288675/4.62; (1 - f) = 0.5.
		"half by weight": {
			model.Trial{LiquidG: 20, Steps: []model.Step{specimen.Spoons("1 tsp", 1, 3), specimen.Weighed(2.31, 5)}},
			fit.Masses{SpoonWeight: 0.0300384, Scoops: 0.0366672, PowderScale: 0.00122468, Liquid: water},
			0.0300384,
		},
		// No powder by spoon: f = 0. Two readings of the scale in 4 g:
		// 1.96·0.00288675·√2/4. Per teaspoon the spoon weight counts whole.
		"all by weight": {
			model.Trial{LiquidG: 20, Steps: []model.Step{specimen.Weighed(3, 3), specimen.Weighed(1, 5)}},
			fit.Masses{PowderScale: 0.00200042, Liquid: water},
			0.0600767,
		},
		// 1 tsp and two of 1/4 tsp: N = (1 + 0.5)²/(1 + 2/16) = 2, so scoops
		// 1.96·0.0374155/√2; 1/4 tsp, never weighed, holds a third:
		// 1.96·0.05/3.
		"with a small spoon never weighed": {
			model.Trial{LiquidG: 20, Steps: []model.Step{
				specimen.Spoons("1 tsp", 1, 3),
				specimen.Spoons("1/4 tsp", 1, 4), specimen.Spoons("1/4 tsp", 1, 5),
			}},
			fit.Masses{SpoonWeight: 0.0600767, Scoops: 0.0518553, SpoonSize: 0.0326667, Liquid: water},
			0,
		},
		// 1/4 and 1/8 tsp, two thirds and one third, are unsure apart:
		// 1.96·0.05·√(4/9 + 1/9); N = (2 + 1)²/(4 + 1) = 9/5.
		"with two spoons never weighed": {
			model.Trial{LiquidG: 20, Steps: []model.Step{
				specimen.Spoons("1/4 tsp", 1, 3),
				specimen.Spoons("1/8 tsp", 1, 5),
			}},
			fit.Masses{SpoonWeight: 0.0600767, Scoops: 0.0546603, SpoonSize: 0.0730448, Liquid: water},
			0,
		},
		// All liquid by spoon: 1.96·0.03.
		"liquid by spoon": {
			model.Trial{LiquidG: 20, LiquidBy: model.BySpoon, Steps: []model.Step{specimen.Weighed(4, 5)}},
			fit.Masses{PowderScale: 0.00141451, Liquid: 0.0588},
			0.0600767,
		},
		// 20 g by spoon (u 0.6 g) and 10 g weighed (u 0.00288675 g):
		// 1.96·√(0.36 + 0.0000083333)/30.
		"liquid by spoon, more by weight": {
			model.Trial{LiquidG: 20, LiquidBy: model.BySpoon, Steps: []model.Step{
				specimen.Weighed(4, 6),
				{Add: model.AddLiquid, Grams: 10, Looked: true, Level: 5},
			}},
			fit.Masses{PowderScale: 0.00141451, Liquid: 0.0392005},
			0.0600767,
		},
		// 10 g weighed and then two teaspoons, 9.840165 g: u 0.2952050 g;
		// 1.96·√(0.2952050² + 0.00288675²)/19.840165 = 0.0291646.
		"more liquid by spoon": {
			model.Trial{LiquidG: 10, Steps: []model.Step{
				specimen.Weighed(4, 6),
				{Add: model.AddLiquid, Spoon: "1 tsp", Count: 2, Looked: true, Level: 5},
			}},
			fit.Masses{PowderScale: 0.00141451, Liquid: 0.0291646},
			0.0600767,
		},
		// As "half by weight", then some of the paste taken out: every share
		// stays as it was.
		"paste taken out": {
			model.Trial{LiquidG: 20, Steps: []model.Step{
				specimen.Spoons("1 tsp", 1, 3), specimen.Weighed(2.31, 4),
				{Add: model.Removed, Grams: 7, Looked: true, Level: 5},
			}},
			fit.Masses{SpoonWeight: 0.0300384, Scoops: 0.0366672, PowderScale: 0.00122468, Liquid: water},
			0.0300384,
		},
		// Half of that paste (12.31 of 24.62 g) out and 2.31 g weighed in: by
		// spoon 1.155 of 4.62 g, f = 0.25, N = 1; scale
		// 1.96·0.00288675·√(0.5² + 1)/4.62; per teaspoon (1 - f) = 0.75.
		"paste taken out, powder after it": {
			model.Trial{LiquidG: 20, Steps: []model.Step{
				specimen.Spoons("1 tsp", 1, 3), specimen.Weighed(2.31, 4),
				{Add: model.Removed, Grams: 12.31},
				specimen.Weighed(2.31, 5),
			}},
			fit.Masses{SpoonWeight: 0.0150192, Scoops: 0.0183336, PowderScale: 0.00136924, Liquid: water},
			0.0450575,
		},
		// A scale of whole grams: 1.96·(1/√12)/8 and /20.
		"a coarse scale": {
			model.Trial{LiquidG: 20, ResolutionG: 1, Steps: []model.Step{specimen.Weighed(8, 5)}},
			fit.Masses{PowderScale: 0.0707254, Liquid: 0.0282902},
			0.0600767,
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			r := specimen.Read(t, specimen.Oats(), tt.trial)
			assertMasses(t, tt.want, r.Dish().Masses(r.SpoonWeights))
			per := tt.want
			per.SpoonWeight = tt.perTsp
			assertMasses(t, per, r.Dish().MassesPerSpoon(r.SpoonWeights))

			// And so they stand in the answer, which adds them up in squares.
			a := r.At(5)
			require.NotNil(t, a.Dish)
			assert.Equal(t, r.Dish().Masses(r.SpoonWeights), a.Masses)
			wide, budget := tt.want.Widen(*a.Ratio)
			assert.InEpsilon(t, wide.Low, a.Dish.Low, 1e-6)
			assert.InEpsilon(t, wide.High, a.Dish.High, 1e-6)
			assert.InDelta(t, budget.Looks, a.Budget.Looks, 1e-5)
			wide, _ = per.Widen(*a.Ratio)
			assert.InEpsilon(t, 2.31*wide.High, a.PerTsp.High, 1e-6)
		})
	}
}

func assertMasses(t *testing.T, want, got fit.Masses) {
	t.Helper()
	const tolerance = 1e-7
	assert.InDelta(t, want.SpoonWeight, got.SpoonWeight, tolerance, "spoon weight")
	assert.InDelta(t, want.Scoops, got.Scoops, tolerance, "scoops")
	assert.InDelta(t, want.PowderScale, got.PowderScale, tolerance, "powder scale")
	assert.InDelta(t, want.Liquid, got.Liquid, tolerance, "liquid")
	assert.InDelta(t, want.SpoonSize, got.SpoonSize, tolerance, "spoon size")
}

// Two sizes weighed are unsure apart: half the powder by each, one weighing
// each, k·u_mean = 4.302653·√(0.0025 + (0.00288675/g)²): 0.2152221 at 2 g,
// 0.2165621 at 0.5 g. SpoonWeight 0.5·√(0.2152221² + 0.2165621²). Scoops:
// 1.96·0.05·√(2² + 4·0.5²)/4.
func TestMassesOfTwoWeighedSpoons(t *testing.T) {
	p := model.Profile{LevelSpoons: []model.LevelSpoon{
		{Spoon: "1 tsp", Grams: []float64{2}}, {Spoon: "1/4 tsp", Grams: []float64{0.5}},
	}}
	r := specimen.Read(t, p, model.Trial{LiquidG: 20, Steps: []model.Step{
		specimen.Spoons("1 tsp", 1, 3),
		specimen.Spoons("1/4 tsp", 4, 5),
	}})
	water := 1.96 * 0.00288675 / 20
	want := fit.Masses{SpoonWeight: 0.1526596, Scoops: 0.0547837, Liquid: water}
	assertMasses(t, want, r.Dish().Masses(r.SpoonWeights))
	// Per teaspoon: (1 - 0.5) of the one, 0.5 of the other.
	assertMasses(t, want, r.Dish().MassesPerSpoon(r.SpoonWeights))
}

// Where the teaspoon itself was never weighed, its size relative to the weighed spoon is
// unsure: that cancels only for powder that came by the teaspoon.
func TestMassesPerTeaspoonNeverWeighed(t *testing.T) {
	p := model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: "1/4 tsp", Grams: []float64{0.5}}}}
	by := func(spoon string) (perGram, perTsp fit.Masses) {
		r := specimen.Read(t, p, model.Trial{LiquidG: 20, Steps: []model.Step{specimen.Spoons(spoon, 2, 5)}})
		return r.Dish().Masses(r.SpoonWeights), r.Dish().MassesPerSpoon(r.SpoonWeights)
	}
	perGram, perTsp := by("1/4 tsp")
	assert.InDelta(t, 0.2165621, perGram.SpoonWeight, 1e-7)
	assert.Zero(t, perGram.SpoonSize)
	assert.Zero(t, perTsp.SpoonWeight)
	assert.InDelta(t, 1.96*0.05, perTsp.SpoonSize, 1e-12)

	perGram, perTsp = by("1 tsp")
	assert.InDelta(t, 1.96*0.05, perGram.SpoonSize, 1e-12)
	assert.Zero(t, perTsp.SpoonWeight)
	assert.Zero(t, perTsp.SpoonSize)
}

// A spoon that was calibrated has its own uncertainty instead of the usual 5 %.
func TestMassesOfACalibratedSpoon(t *testing.T) {
	own := model.OwnSpoons{{Name: "blue scoop", VolumeML: 2.5, UncertaintyML: 0.025}}
	r, err := bench.Read(specimen.Oats(),
		model.Trial{LiquidG: 20, Steps: []model.Step{specimen.Spoons("blue scoop", 3, 5)}}, own)
	require.NoError(t, err)
	assert.InDelta(t, 1.96*0.01, r.Dish().Masses(r.SpoonWeights).SpoonSize, 1e-12)
}

func TestMassesOfADishThatHoldsNothing(t *testing.T) {
	assert.Equal(t, fit.Masses{}, bench.Dish{}.Masses(model.SpoonWeights{}))
	assert.Equal(t, fit.Masses{}, bench.Dish{}.MassesPerSpoon(model.SpoonWeights{}))
}
