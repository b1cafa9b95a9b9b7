package model_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func weight(t *testing.T, l model.LevelSpoon) model.SpoonWeight {
	t.Helper()
	w, ok := l.Weight()
	require.True(t, ok)
	return w
}

// JCGM 100:2008, 4.4.3: twenty repeat readings (the readings from memory; they
// reproduce the three printed results).
func TestWeightOfTwentyReadings(t *testing.T) {
	w := weight(t, model.LevelSpoon{Spoon: "1 tsp", Grams: []float64{
		96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
		100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
	}})
	assert.Equal(t, 20, w.N)
	assert.InDelta(t, 100.14, w.Mean, 0.005+1e-9)
	assert.InDelta(t, 1.49, w.SD, 0.005)
	assert.InDelta(t, 0.33, w.SD/math.Sqrt(20), 0.005)
	// METHOD 1: ν = 2 + 20 - 1; t(0.975, 21) = 2.0796 in any table of Student's t.
	assert.InDelta(t, 2.0796, w.K, 5e-5)
}

// NIST StRD NumAcc1: mean 10000002, standard deviation 1, both exact.
func TestWeightKeepsItsDigits(t *testing.T) {
	w := weight(t, model.LevelSpoon{Grams: []float64{10000001, 10000003, 10000002}})
	assert.Equal(t, 10000002.0, w.Mean)
	assert.Equal(t, 1.0, w.SD)
}

// METHOD 1, worked by hand.
func TestWeightByHand(t *testing.T) {
	tests := map[string]struct {
		spoon                   model.LevelSpoon
		mean, sd, rel, uMean, k float64
	}{
		// Σ((g-2.31)/2.31)² = 2·0.0173160² = 5.99689e-4; ν = 2 + 3 - 1 = 4
		// s_rel² = (2·0.0025 + 5.99689e-4)/4 = 1.399922e-3
		// scale 0.01/(√12·2.31) = 1.249676e-3
		// u² = 1.399922e-3/3 + 1.56169e-6 = 4.682024e-4; t(0.975, 4) = 2.776445
		"three weighings": {
			model.LevelSpoon{Grams: []float64{2.31, 2.27, 2.35}},
			2.31, 0.04, 0.0374155, 0.0216380, 2.776445,
		},
		// One weighing has no spread of its own: ν = 2, s_rel² = 2·0.0025/2;
		// scale 0.01/(√12·2) = 1.44338e-3; u² = 2.5e-3 + 2.0833e-6;
		// t(0.975, 2) = 4.302653.
		"one weighing": {
			model.LevelSpoon{Grams: []float64{2}},
			2, 0, 0.05, 0.0500208, 4.302653,
		},
		// Ten spoons at once on a scale that reads whole grams: 1.4 and 1.5 g a
		// spoon; each averages ten scoops: Σ = 2·10·(0.05/1.45)² = 0.02378121; ν = 3;
		// s_rel² = (0.005 + 0.02378121)/3 = 9.593737e-3; scale 1/(√12·1.45·10) =
		// 0.0199086; u² = 9.593737e-3/20 + 3.96354e-4 = 8.760404e-4;
		// t(0.975, 3) = 3.182446.
		"ten spoons on a coarse scale": {
			model.LevelSpoon{Grams: []float64{14, 15}, SpoonsEach: 10, ResolutionG: 1},
			1.45, 0.0707107, 0.0979476, 0.0295980, 3.182446,
		},
	}
	for name, tt := range tests {
		t.Run(name, func(t *testing.T) {
			w := weight(t, tt.spoon)
			assert.InDelta(t, tt.mean, w.Mean, 1e-12)
			assert.InDelta(t, tt.sd, w.SD, 5e-8)
			assert.InDelta(t, tt.rel, w.RelSD, 5e-8)
			assert.InDelta(t, tt.uMean, w.UMean, 5e-8)
			assert.InDelta(t, tt.k, w.K, 5e-7)
			assert.InDelta(t, tt.k*tt.uMean*tt.mean, w.HalfWidth(), 5e-7)
		})
	}
}

func TestNoWeight(t *testing.T) {
	for name, grams := range map[string][]float64{
		"no weighing": nil, "nothing on the scale": {0, 0}, "below zero": {-2.3},
		"not a number": {2.3, math.NaN()}, "beyond all bounds": {math.Inf(1)},
	} {
		_, ok := model.LevelSpoon{Grams: grams}.Weight()
		assert.False(t, ok, name)
	}
}

// The relative spread to which a few weighings are shrunk lies where repeat
// weighings of level spoons lie: USDA Standard Reference, cinnamon (NDB 02010)
// by the teaspoon SD 0.13 of 2.6 g, by the tablespoon 0.288 of 7.8 g, turmeric
// (02043) 0.06 of 3.0 g; mustard 5.8 % and sorghum flour 4.0 % as METHOD 1 has
// them.
func TestUsualSpreadAgainstPublishedOnes(t *testing.T) {
	published := []float64{0.13 / 2.6, 0.288 / 7.8, 0.06 / 3.0, 0.058, 0.040}
	assert.InDelta(t, 0.050, published[0], 1e-12)
	squares := 0.0
	for _, p := range published {
		squares += p * p
	}
	usual := weight(t, model.LevelSpoon{Grams: []float64{2.6}}).RelSD
	assert.InDelta(t, 0.05, usual, 1e-12)
	rms := math.Sqrt(squares / float64(len(published)))
	assert.InDelta(t, 0.043, rms, 0.0005)
	assert.Greater(t, usual, rms, "on the careful side of the root mean square")
	assert.Less(t, usual, 0.058, "within what was seen")
}

func TestWeightProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		l := model.LevelSpoon{
			Grams:       rapid.SliceOfN(rapid.Float64Range(0.1, 50), 1, 30).Draw(rt, "grams"),
			SpoonsEach:  rapid.IntRange(0, 20).Draw(rt, "each"),
			ResolutionG: rapid.SampledFrom([]float64{0, 0.001, 0.01, 0.1, 1}).Draw(rt, "resolution"),
		}
		w, ok := l.Weight()
		require.True(rt, ok)
		// Units cancel: ten times the weight on a scale ten times as coarse.
		big := l
		big.ResolutionG = 10 * l.Resolution()
		big.Grams = nil
		for _, g := range l.Grams {
			big.Grams = append(big.Grams, 10*g)
		}
		v, _ := big.Weight()
		assert.InEpsilon(rt, 10*w.Mean, v.Mean, 1e-9)
		assert.InEpsilon(rt, w.RelSD, v.RelSD, 1e-6)
		assert.InEpsilon(rt, w.UMean, v.UMean, 1e-6)
		// The scale does not average away, and a spread is never said to be nil.
		assert.GreaterOrEqual(rt, w.UMean, l.Resolution()/math.Sqrt(12)/(w.Mean*float64(l.Each())))
		assert.Positive(rt, w.RelSD)
		assert.Greater(rt, w.K, 1.96)
	})
}
