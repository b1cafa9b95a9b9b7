package kitchen_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// spoonWeightsOf gives a powder of which one size of spoon was weighed level.
func spoonWeightsOf(spoon string, volumeML, grams float64) model.SpoonWeights {
	p := model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: spoon, VolumeML: volumeML, Grams: []float64{grams}}}}
	return p.SpoonWeights(model.US, nil)
}

// A level teaspoon of 2.4 g; spoons of 1, 1/2, 1/4 and 1/8 tsp, the smallest
// 0.3 g, so sums within 0.15 g count as equally near.
//
//	2.4 g = 1 tsp
//	3.1 g = 1.292 tsp: 1 1/4 tsp hold 3.0
//	0.7 g = 0.292 tsp: 1/4 tsp holds 0.6
//	8.5 g = 3.542 tsp: 3 1/2 tsp hold 8.4
//	0.1 g is less than half of the smallest: 1/8 tsp, 0.3: weigh it
//	20.4 g = 8 1/2 tsp are nine scoops: weigh it; 19.2 g are eight
//	0.05 g in 1/8 tsp would be 0.3/0.05 = six times as much, +500 %: weigh it
//	1.5 kg are 1500/2.4 = 625 tsp: weigh it
func TestSpoonSums(t *testing.T) {
	s := spoonWeightsOf("1 tsp", 0, 2.4)
	for _, c := range []struct {
		grams float64
		want  string
		held  float64
		weigh string
	}{
		{2.4, "1 tsp", 2.4, ""},
		{3.1, "1 tsp + 1/4 tsp", 3.0, ""},
		{0.7, "1/4 tsp", 0.6, ""},
		{8.5, "3 × 1 tsp + 1/2 tsp", 8.4, ""},
		{0.1, "1/8 tsp", 0.3, "is less than the smallest spoon at hand"},
		{0.3, "1/8 tsp", 0.3, ""},
		{19.2, "8 × 1 tsp", 19.2, ""},
		{0.05, "1/8 tsp", 0.3, "is less than the smallest spoon at hand"},
		{1500, "625 × 1 tsp", 1500, "takes more than eight spoonfuls"},
		{20.4, "8 × 1 tsp + 1/2 tsp", 20.4, "takes more than eight spoonfuls"},
	} {
		sum, err := kitchen.SpoonsFor(s, c.grams, nil)
		require.NoError(t, err)
		assert.Equal(t, c.want, sum.String())
		assert.Equal(t, c.weigh, sum.Weigh, c.grams)
		assert.InDelta(t, c.held, sum.Grams, 1e-9)
		assert.InDelta(t, c.held-c.grams, sum.ErrorG(), 1e-9)
		assert.InDelta(t, 100*(c.held/c.grams-1), sum.ErrorPercent(), 1e-9)
	}
	sum, err := kitchen.SpoonsFor(s, 3.1, nil)
	require.NoError(t, err)
	assert.Equal(t, "3.10 g is 1 tsp + 1/4 tsp, together 3.00 g (-3.2 %).", sum.Sentence())
	sum, err = kitchen.SpoonsFor(s, sum.Spoons[0].EachG, nil)
	require.NoError(t, err)
	assert.Contains(t, sum.Sentence(), " g is 1 tsp, which holds ")
}

// Where more than eight spoonfuls would be nearest, eight or fewer do that come within 5 %.
// A level teaspoon of 3.2 g:
//
//	24.88 g = 7.775 tsp: 8 tsp hold 25.6, +2.9 % (7 1/2 tsp 24.0, -3.5 %)
//	23.64 g = 7.388 tsp: 7 1/2 tsp hold 24.0, +1.5 %
//	22.00 g = 6.875 tsp: 7 tsp hold 22.4, +1.8 %
//	26.88 g = 8.4 tsp: 8 tsp hold 25.6, -4.8 %
//	27.20 g = 8.5 tsp: 8 tsp hold 25.6, -5.9 %: weigh it
//	4 2/3 tbsp of 9.6 g = 44.8 g from 1 tbsp and 1/8 tsp: 5 tbsp hold 48.0, +7.1 %: weigh it
func TestEightSpoonfulsDoWhereTheyComeNear(t *testing.T) {
	s := spoonWeightsOf("1 tsp", 0, 3.2)
	for _, c := range []struct {
		grams  float64
		hand   []string
		want   string
		weighs bool
	}{
		{24.88, nil, "8 × 1 tsp", false},
		{23.64, nil, "7 × 1 tsp + 1/2 tsp", false},
		{22, nil, "7 × 1 tsp", false},
		{26.88, nil, "8 × 1 tsp", false},
		{27.2, nil, "8 × 1 tsp + 1/2 tsp", true},
		{44.8, []string{"1 tbsp", "1/8 tsp"}, "4 × 1 tbsp + 16 × 1/8 tsp", true},
	} {
		sum, err := kitchen.SpoonsFor(s, c.grams, c.hand)
		require.NoError(t, err)
		assert.Equal(t, c.want, sum.String())
		assert.Equal(t, c.weighs, sum.Weigh != "", c.grams)
	}
	sum, err := kitchen.SpoonsFor(s, 24.88, nil)
	require.NoError(t, err)
	assert.Equal(t, "24.88 g is 8 × 1 tsp, together 25.60 g (+2.9 %).", sum.Sentence())
	sum, err = kitchen.SpoonsFor(s, 44.8, []string{"1 tbsp", "1/8 tsp"})
	require.NoError(t, err)
	assert.Equal(t, "44.80 g takes more than eight spoonfuls: weigh it.", sum.Sentence())
}

// 1 1/2 tsp from spoons of 1 and 3/4 tsp: the largest first would end at 1 or
// 1 3/4; two of 3/4 are exact. The same with a tablespoon in the way.
func TestTheLargestFirstIsNotAlwaysNearest(t *testing.T) {
	s := spoonWeightsOf("1 tsp", 0, 2.4)
	sum, err := kitchen.SpoonsFor(s, 4.2, []string{"1 tsp", "3/4 tsp"})
	require.NoError(t, err)
	assert.Equal(t, "1 tsp + 3/4 tsp", sum.String())
	sum, err = kitchen.SpoonsFor(s, 7.2, []string{"1 tbsp", "3/4 tsp"})
	require.NoError(t, err)
	assert.Equal(t, "1 tbsp", sum.String())
	sum, err = kitchen.SpoonsFor(s, 10.8, []string{"1 tbsp", "1 tsp", "3/4 tsp"}) // 4 1/2 tsp
	require.NoError(t, err)
	assert.Equal(t, "1 tbsp + 2 × 3/4 tsp", sum.String())
	sum, err = kitchen.SpoonsFor(s, 1200, []string{"1 tsp", "1/8 tsp"})
	require.NoError(t, err)
	assert.Equal(t, "500 × 1 tsp", sum.String())
}

func TestSpoonsRefuse(t *testing.T) {
	s := spoonWeightsOf("1 tsp", 0, 2.4)
	for _, g := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := kitchen.SpoonsFor(s, g, nil)
		assert.ErrorContains(t, err, "cannot be spooned")
	}
	sum, err := kitchen.SpoonsFor(s, 5000, []string{"1/8 tsp"})
	require.NoError(t, err)
	assert.Equal(t, "5000.0 g takes more than eight spoonfuls: weigh it.", sum.Sentence())
	_, err = kitchen.SpoonsFor(s, 5, []string{"ladle"})
	assert.ErrorContains(t, err, "ladle")
	_, err = kitchen.SpoonsFor(s, 5, []string{})
	assert.ErrorContains(t, err, "no spoon")
	_, err = kitchen.SpoonsFor(model.SpoonWeights{}, 5, nil)
	assert.ErrorContains(t, err, "weighed")
	_, err = kitchen.SpoonsToGrams(s, []model.SpoonCount{{Spoon: "1 tsp", Count: 0}})
	assert.ErrorContains(t, err, "whole number")
}

// Weights of cups and spoons that belong together (USDA Standard Reference,
// with NDB numbers): a cup is 16 tablespoons, a tablespoon 3 teaspoons. The
// tables round, and turmeric was weighed anew by the tablespoon.
func TestPublishedSpoonWeights(t *testing.T) {
	const cup = 48 * model.USTeaspoonML
	for _, c := range []struct {
		name    string
		weights model.SpoonWeights
		spoon   string
		want    float64
		allowed float64 // relative
	}{
		{"cocoa 19165, tbsp from cup", spoonWeightsOf("1 cup", cup, 86), "1 tbsp", 5.4, 0.01},
		{"spirulina 11667, tbsp from cup", spoonWeightsOf("1 cup", cup, 112), "1 tbsp", 7.0, 0.001},
		{"salt 02047, tbsp from tsp", spoonWeightsOf("1 tsp", 0, 6.0), "1 tbsp", 18, 0.001},
		{"cinnamon 02010, tbsp from tsp", spoonWeightsOf("1 tsp", 0, 2.6), "1 tbsp", 7.8, 0.001},
		{"turmeric 02043, tbsp from tsp", spoonWeightsOf("1 tsp", 0, 3.0), "1 tbsp", 9.4, 0.05},
	} {
		sum, err := kitchen.SpoonsToGrams(c.weights, []model.SpoonCount{{Spoon: c.spoon, Count: 1}})
		require.NoError(t, err)
		assert.InEpsilon(t, c.want, sum.Grams, c.allowed, c.name)
	}
	// Half a cup of corn starch (20027, 128 g a cup) is eight tablespoons.
	sum, err := kitchen.SpoonsFor(spoonWeightsOf("1 cup", cup, 128), 64, []string{"1 tbsp", "1 tsp"})
	require.NoError(t, err)
	assert.Equal(t, "8 × 1 tbsp", sum.String())
}

// Grams of a sum of spoons, and spoons for those grams: within half the smallest spoon, or
// 5 % where more than eight are spared, and never more spoons than before.
func TestSpoonsToGramsToSpoons(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		weights := rapid.SliceOfN(rapid.Float64Range(0.05, 12), 1, 5).Draw(t, "weights")
		names := model.StandardSpoonNames()[:len(weights)]
		var p model.Profile
		var spoons []model.SpoonCount
		smallest, count := math.Inf(1), 0
		for i, w := range weights {
			p.LevelSpoons = append(p.LevelSpoons, model.LevelSpoon{Spoon: names[i], Grams: []float64{w}})
			smallest = math.Min(smallest, w)
			if n := rapid.IntRange(0, 3).Draw(t, "count"); n > 0 {
				spoons = append(spoons, model.SpoonCount{Spoon: names[i], Count: n})
				count += n
			}
		}
		if count == 0 {
			return
		}
		s := p.SpoonWeights(model.US, nil)
		held, err := kitchen.SpoonsToGrams(s, spoons)
		require.NoError(t, err)
		assert.Equal(t, count, held.Count())
		back, err := kitchen.SpoonsFor(s, held.Grams, names)
		require.NoError(t, err)
		allowed := smallest / 2
		if count > kitchen.MostScoops && back.Weigh == "" {
			allowed = max(allowed, 0.05*held.Grams)
		}
		assert.LessOrEqual(t, math.Abs(back.ErrorG()), allowed*1.000001)
		assert.LessOrEqual(t, back.Count(), count)
		again, err := kitchen.SpoonsFor(s, held.Grams, names)
		require.NoError(t, err)
		assert.Equal(t, back, again)
	})
}

// Whatever is asked for, the sum is within half the smallest spoon, or within 5 % by eight
// spoons at most, or it is the smallest spoon alone.
func TestSpoonsForAnything(t *testing.T) {
	s := spoonWeightsOf("1 tsp", 0, 2.31)
	all := model.StandardSpoonNames()
	rapid.Check(t, func(t *rapid.T) {
		grams := rapid.Float64Range(1e-6, 5000).Draw(t, "grams")
		sum, err := kitchen.SpoonsFor(s, grams, all)
		require.NoError(t, err)
		smallest := 2.31 / 32
		if sum.Count() > 1 || grams > smallest/2 {
			allowed := smallest / 2
			if sum.Weigh == "" {
				allowed = max(allowed, 0.05*grams)
			}
			assert.LessOrEqual(t, math.Abs(sum.ErrorG()), allowed*1.000001)
		}
	})
}
