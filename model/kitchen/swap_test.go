package kitchen_test

import (
	"math"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// 30 g of A (R 2) with 60 g of water, for B (R 0.5, 0.4 to 0.625).
// Liquid kept: 60/0.5 = 120 g, 60/0.625 = 96 to 60/0.4 = 150.
// Powder kept: 30·0.5 = 15 g of water.
// Total kept: 90/1.5 = 60 g and 30 g of water.
func TestSwapOfBothAmounts(t *testing.T) {
	p := kitchen.PairOf(side("A", model.Flour, 2, 1.1), side("B", model.Flour, 0.5, 1.25))
	for _, c := range []struct {
		keep           kitchen.Keep
		powder, liquid float64
	}{{kitchen.KeepLiquid, 120, 60}, {kitchen.KeepPowder, 30, 15}, {kitchen.KeepTotal, 60, 30}} {
		s, err := p.Swap(30, 60, c.keep)
		require.NoError(t, err)
		assert.InDelta(t, c.powder, s.NewPowder.Median, 1e-9, c.keep)
		assert.InDelta(t, c.liquid, s.NewLiquid.Median, 1e-9, c.keep)
		assert.Empty(t, s.Notes)
		assert.Equal(t, kitchen.NotStandIn, s.Pair.Verdict)
	}
	s, err := p.Swap(30, 60, "")
	require.NoError(t, err)
	assert.Equal(t, kitchen.KeepLiquid, s.Keep)
	assert.InDelta(t, 96, s.NewPowder.Low, 1e-9)
	assert.InDelta(t, 150, s.NewPowder.High, 1e-9)
	assert.Equal(t, s.NewLiquid.Low, s.NewLiquid.High, "what is given has no width")
}

// 20 g of A (R 0.625), so 12.5 g of water, for B (R 5).
// Liquid kept: 12.5/5 = 2.5 g; both ratios are unsure by a factor 1.25, joined
// exp(√2·ln 1.25) = 1.3711: 1.8234 to 3.4277.
// Powder kept: 20·5 = 100 g of water.
// Total kept: 32.5/6 = 5.4167 g and 27.0833 g of water.
func TestSwapOfPowderAlone(t *testing.T) {
	p := kitchen.PairOf(side("A", model.PlainClay, 0.625, 1.25), side("B", model.SwellingClay, 5, 1.25))
	for _, c := range []struct {
		keep           kitchen.Keep
		powder, liquid float64
	}{{kitchen.KeepLiquid, 2.5, 12.5}, {kitchen.KeepPowder, 20, 100}, {kitchen.KeepTotal, 5.416667, 27.083333}} {
		s, err := p.Swap(20, 0, c.keep)
		require.NoError(t, err)
		assert.InDelta(t, 12.5, s.OldLiquid.Median, 1e-9)
		assert.InDelta(t, c.powder, s.NewPowder.Median, 1e-6, c.keep)
		assert.InDelta(t, c.liquid, s.NewLiquid.Median, 1e-6, c.keep)
	}
	s, err := p.Swap(20, 0, kitchen.KeepLiquid)
	require.NoError(t, err)
	assert.InDelta(t, 1.8234, s.NewPowder.Low, 1e-3)
	assert.InDelta(t, 3.4277, s.NewPowder.High, 1e-3)
}

// A swap repeats the warnings of its pair.
func TestSwapSays(t *testing.T) {
	a, b := side("A", model.Flour, 2, 1.1), withSpoon(side("B", model.Flour, 0.5, 1.1), 2.5)
	s, err := kitchen.PairOf(a, b).Swap(30, 60, kitchen.KeepTotal)
	require.NoError(t, err)
	said := s.Sentence()
	assert.Contains(t, said, "At 5 spread, 60.00 g of B (")
	assert.Contains(t, said, "takes the place of 30.00 g of A with 60.00 g of water: as much in all.")
	assert.Contains(t, said,
		"Gram for gram it would come out at 0 watery or beyond instead of 5 spread: far too thin.")
	sum, err := s.Spoons([]string{"1 tsp"})
	require.NoError(t, err)
	assert.Equal(t, "24 × 1 tsp", sum.String(), "60 g at 2.5 g")

	s, err = kitchen.PairOf(a, b).Swap(30, 0, kitchen.KeepLiquid)
	require.NoError(t, err)
	assert.Regexp(t, `^At 5 spread, .* g of B \(.*\) takes the place of 30\.00 g of A in 60\.00 g of water \(.*\), `+
		`the water that the A takes\. `, s.Sentence())

	b.Ratio.Basis.RestS = 600
	s, err = kitchen.PairOf(a, b).Swap(30, 60, kitchen.KeepTotal)
	require.NoError(t, err)
	assert.Regexp(t, "^Not like for like: A was read after 2 min, B after 10 min", s.Sentence())
	s, err = kitchen.PairOf(b, a).Swap(30, 60, kitchen.KeepTotal)
	require.NoError(t, err)
	assert.Regexp(t, "^Not like for like: A was read after 2 min, B after 10 min", s.Sentence())
}

// A recipe of ratio 1 where level 5 takes 2: six levels an e-fold make it
// 6·ln 2 = 4.2 levels thicker. 1.8 instead: 6·ln(2/1.8) = 0.63 levels.
func TestSwapOffLevel(t *testing.T) {
	p := kitchen.PairOf(side("A", model.Flour, 2, 1.1), side("B", model.Flour, 2, 1.1))
	s, err := p.Swap(10, 10, kitchen.KeepLiquid)
	require.NoError(t, err)
	require.Len(t, s.Notes, 1)
	assert.Contains(t, s.Notes[0], "more than two levels thicker than 5 spread")
	s, err = p.Swap(10, 18, kitchen.KeepLiquid)
	require.NoError(t, err)
	require.Len(t, s.Notes, 1)
	assert.Contains(t, s.Notes[0], "0.63 levels thicker")
}

func TestSwapRefuses(t *testing.T) {
	p := kitchen.PairOf(side("A", model.Flour, 2, 1.1), side("B", model.Flour, 2, 1.1))
	for _, c := range []struct {
		powder, liquid float64
		keep           kitchen.Keep
		want           string
	}{
		{0, 0, "", "needs an amount"},
		{-1, 0, "", "not possible"},
		{math.NaN(), 1, "", "not possible"},
		{math.Inf(1), 1, "", "not possible"},
		{1, 1, "spoon", "keep liquid, powder or total"},
	} {
		_, err := p.Swap(c.powder, c.liquid, c.keep)
		assert.ErrorContains(t, err, c.want)
	}
}

// A for B and B for A again is the start, whatever is kept.
func TestSwapThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := rapid.Float64Range(0.1, 20)
		a := side("A", model.Flour, draw.Draw(t, "a"), rapid.Float64Range(1, 2).Draw(t, "sa"))
		b := side("B", model.Flour, draw.Draw(t, "b"), rapid.Float64Range(1, 2).Draw(t, "sb"))
		keep := rapid.SampledFrom(kitchen.Keeps()).Draw(t, "keep")
		grams := rapid.Float64Range(0.5, 400).Draw(t, "grams")
		powder, liquid := grams, 0.0
		if rapid.Bool().Draw(t, "liquid") {
			powder, liquid = 0, grams
		}
		there, err := kitchen.PairOf(a, b).Swap(powder, liquid, keep)
		require.NoError(t, err)
		back, err := kitchen.PairOf(b, a).Swap(there.NewPowder.Median, there.NewLiquid.Median, keep)
		require.NoError(t, err)
		assert.InEpsilon(t, there.OldPowder.Median, back.NewPowder.Median, 1e-9)
		assert.InEpsilon(t, there.OldLiquid.Median, back.NewLiquid.Median, 1e-9)
		for _, iv := range []struct{ low, median, high float64 }{
			{there.NewPowder.Low, there.NewPowder.Median, there.NewPowder.High},
			{there.NewLiquid.Low, there.NewLiquid.Median, there.NewLiquid.High},
		} {
			assert.True(t, 0 < iv.low && iv.low <= iv.median && iv.median <= iv.high)
		}
	})
}

// 100 g at R 1.5 are 40 g of A and 60 g of water. B takes 60/52 = 1.154: with the liquid
// kept 52 g of B, so 112 g, +12 %; with the powder kept 40·60/52 = 46.15 g of water, so
// 86.15 g, -14 %; with the total kept nothing is to be said.
func TestASwapThatChangesTheTotalSaysSo(t *testing.T) {
	a, b := side("A", model.Flour, 1.5, 1.05), side("B", model.Flour, 60.0/52, 1.05)
	made, err := pasteOf(t, a).Batch(model.Order{TotalG: 100})
	require.NoError(t, err)
	r := kitchen.RecipeOf("x", made, nil, saved)
	for keep, says := range map[kitchen.Keep]string{
		kitchen.KeepLiquid: "It makes 112.0 g now, not 100.0 g (+12 %), because all the liquid together stays 60.00 g",
		kitchen.KeepPowder: "It makes 86.15 g now, not 100.0 g (-14 %), because the powder stays 40.00 g",
		kitchen.KeepTotal:  "",
	} {
		after, err := kitchen.SwapPowder(r, kitchen.PairOf(a, b), "", keep, nil)
		require.NoError(t, err)
		said, _, _ := strings.Cut(kitchen.TotalChange(r, after, keep), ";")
		assert.Equal(t, says, said)
	}
}

// 20 portions of 75 g stay 20 portions of 75 g when the powder is swapped, unless the
// maker says otherwise: 1500 g at R 2 are 500 g of A; at R 4 they are 300 g of B with
// 1200 g of water. What the swap warns of is not put into the recipe, which has no A.
func TestPortionsStayInASwap(t *testing.T) {
	a, b := side("A", model.Flour, 2, 1.1), side("B", model.Flour, 4, 1.1)
	b.Ratio.Basis.RestS, b.LevelStep = 600, 0.5
	order := model.Order{Portions: 20, PortionG: 75}
	made, err := pasteOf(t, a).Batch(order)
	require.NoError(t, err)
	r := kitchen.RecipeOf("class", made, nil, saved)
	pair := kitchen.PairOf(a, b)
	require.NotEmpty(t, pair.Warnings)
	swapped, err := kitchen.SwapPowder(r, pair, "b", "", nil)
	require.NoError(t, err)
	assert.InDelta(t, 75, swapped.PortionG, 1e-9)
	assert.InDelta(t, 300, kitchen.RecipeAmounts(swapped).Powder.Median, 1e-9)
	assert.InDelta(t, 1200, kitchen.RecipeAmounts(swapped).Liquid.Median, 1e-9)
	assert.Empty(t, swapped.Warnings)

	r.Portions, r.PortionG = 0, 0 // one bowl: the liquid stays, 1000 g, and takes 250 g of B
	swapped, err = kitchen.SwapPowder(r, pair, "b", "", nil)
	require.NoError(t, err)
	assert.InDelta(t, 1250, swapped.TotalG, 1e-9)
}
