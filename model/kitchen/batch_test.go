package kitchen_test

import (
	"math"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// pasteOf makes the paste of one side.
func pasteOf(t require.TestingT, s kitchen.Side) kitchen.Paste {
	p, err := kitchen.PasteOfSides([]kitchen.PastePowder{single(s)})
	require.NoError(t, err)
	return p
}

// 200 g at R 1.5 with 3 % sea salt and 2 % oil, which ride along, and 10 g for
// the bowl: 210 g are made, of them 6.3 g salt and 4.2 g oil; the other 199.5 g
// are 79.8 g powder and 119.7 g water. The next dish takes 1.2 to 1.8: start with
// 79.8·1.2 = 95.76 g, hold back 23.94, have 23.94 more at hand. Powder alone
// 199.5/2.8 = 71.25 to 199.5/2.2 = 90.68. At 10 g the teaspoon 7.98 tsp: 8 hold
// 80 g, 0.25 % too much, or 6·ln 1.0025 = 0.015 levels.
func TestBatchByTotal(t *testing.T) {
	s := withSpoon(side("A", model.Flour, 1.5, 1), 10)
	*s.Ratio.Next = fit.Interval{Median: 1.5, Low: 1.2, High: 1.8}
	b, err := pasteOf(t, s).Batch(model.Order{
		TotalG: 200, AllowanceG: 10, Spoons: []string{"1 tsp"},
		Extras: []model.Extra{{Name: "sea salt", Share: 0.03}, {Name: "oil", Share: 0.02}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 210, b.MadeG, 1e-9)
	assert.InDeltaSlice(t, []float64{6.3, 4.2}, b.ExtrasG, 1e-9)
	assert.InDelta(t, 79.8, b.Powder.Median, 1e-9)
	assert.InDelta(t, 71.25, b.Powder.Low, 1e-9)
	assert.InDelta(t, 90.6818, b.Powder.High, 1e-4)
	assert.InDelta(t, 119.7, b.Liquid.Median, 1e-9)
	assert.InDelta(t, 108.8182, b.Liquid.Low, 1e-4)
	assert.InDelta(t, 128.25, b.Liquid.High, 1e-9)
	assert.InDelta(t, 95.76, b.StartG, 1e-9)
	assert.InDelta(t, 23.94, b.HoldBackG, 1e-9)
	assert.InDelta(t, 23.94, b.SpareG, 1e-9)
	require.NotNil(t, b.Powders[0].Spoons)
	assert.Equal(t, "8 × 1 tsp", b.Powders[0].Spoons.String())
	assert.InDelta(t, 0.015, b.SpoonShift, 1e-4)
	assert.Empty(t, b.Warnings)
	assert.Contains(t, b.Sentence(), "keep 23.94 g back")

	b, err = pasteOf(t, s).Batch(model.Order{TotalG: 300, Spoons: []string{"1 tsp"}}) // 120 g: 12 tsp
	require.NoError(t, err)
	assert.Nil(t, b.Powders[0].Spoons)
	assert.Equal(t, "takes more than eight spoonfuls", b.Powders[0].Weigh)
	b, err = pasteOf(t, side("A", model.Flour, 1.5, 1)).Batch(model.Order{TotalG: 3, Spoons: []string{"1 tsp"}})
	require.NoError(t, err)
	assert.Equal(t, "is not weighed by these spoons yet", b.Powders[0].Weigh)
}

// A jar of 100 mL, plain clay (2.6 g/mL) at R 1 in water of 1.00: the paste
// weighs 2/(1/2.6 + 1) = 1.4444 g/mL, the jar holds 0.95·100·1.4444 =
// 137.222 g, half of it clay.
func TestBatchByJar(t *testing.T) {
	p := pasteOf(t, side("A", model.PlainClay, 1, 1.2))
	b, err := p.Batch(model.Order{JarML: 100})
	require.NoError(t, err)
	assert.InDelta(t, 137.2222, b.TotalG, 1e-4)
	assert.InDelta(t, 68.6111, b.Powder.Median, 1e-4)
	assert.InDelta(t, 68.6111, b.Liquid.Median, 1e-4)
	assert.Nil(t, b.Powders[0].Spoons, "no spoon was weighed")
	assert.Empty(t, b.Warnings)

	b, err = p.Batch(model.Order{JarML: 100, TotalG: 150})
	require.NoError(t, err)
	assert.InDelta(t, 150, b.TotalG, 0)
	require.Len(t, b.Warnings, 1)
	assert.Contains(t, b.Warnings[0], "too much for the jar")
	b, err = p.Batch(model.Order{JarML: 100, TotalG: 137, AllowanceShare: 0.1})
	require.NoError(t, err)
	assert.Empty(t, b.Warnings, "what sticks to the bowl never sees the jar")
	assert.InDelta(t, 150.7, b.MadeG, 1e-9)
}

func TestJarNeedsDensities(t *testing.T) {
	for _, f := range []model.Family{model.Mineral, model.Other, ""} {
		s := side("Chalk", f, 1, 1.2)
		_, err := pasteOf(t, s).Batch(model.Order{JarML: 100})
		assert.ErrorContains(t, err, "give its solid density in g/mL")
		s.Powder.SolidDensity = 2.7
		_, err = pasteOf(t, s).Batch(model.Order{JarML: 100})
		assert.NoError(t, err)
	}
	s := side("A", model.Flour, 1, 1.2)
	s.LiquidGML = 0
	_, err := pasteOf(t, s).Batch(model.Order{JarML: 100})
	assert.ErrorContains(t, err, `the density of "water" is not known`)
	_, err = pasteOf(t, s).Batch(model.Order{TotalG: 100})
	assert.NoError(t, err, "a total needs none")
}

// 3.4 g of powder from teaspoons of 2.5 g are one: 6·ln(2.5/3.4) = 1.8 levels too
// thin. 2 g are less than the spoon, 22.5 g nine scoops: both are to be weighed.
func TestSpoonsTooCoarse(t *testing.T) {
	b, err := pasteOf(t, withSpoon(side("A", model.Flour, 1, 1.2), 2.5)).Batch(model.Order{
		TotalG: 6.8,
		Spoons: []string{"1 tsp"},
	})
	require.NoError(t, err)
	assert.InDelta(t, 6*math.Log(2.5/3.4), b.SpoonShift, 1e-9)
	require.Len(t, b.Warnings, 1)
	assert.Contains(t, b.Warnings[0], "1.8 levels thinner")
	for _, total := range []float64{4, 45} {
		b, err = pasteOf(t, withSpoon(side("A", model.Flour, 1, 1.2), 2.5)).Batch(model.Order{
			TotalG: total,
			Spoons: []string{"1 tsp"},
		})
		require.NoError(t, err)
		assert.Nil(t, b.Powders[0].Spoons)
		assert.Empty(t, b.Warnings)
	}
}

func TestBatchRefuses(t *testing.T) {
	p := pasteOf(t, side("A", model.Flour, 1, 1.2))
	for _, c := range []struct {
		order model.Order
		want  string
	}{
		{model.Order{}, "needs a size"},
		{model.Order{TotalG: -5}, "not possible"},
		{model.Order{TotalG: math.NaN()}, "not possible"},
		{model.Order{JarML: math.Inf(1)}, "not possible"},
		{model.Order{TotalG: 5, AllowanceG: -1}, "not possible"},
		{model.Order{TotalG: 5, Extras: []model.Extra{{Name: "oil", Share: 3}}}, "above 0 and below 1"},
		{
			model.Order{TotalG: 5, Extras: []model.Extra{{Name: "oil", Share: 0.6}, {Name: "honey", Share: 0.4}}},
			"leaves no room",
		},
		{model.Order{TotalG: 5, Extras: []model.Extra{{Share: 0.1}}}, "no name"},
	} {
		_, err := p.Batch(c.order)
		assert.ErrorContains(t, err, c.want)
	}
}

// A level spoon and a slope of a real trial come through.
func TestBatchOfProfile(t *testing.T) {
	p, err := kitchen.PasteOf(lightClay(nil), 5, model.Choice{}, nil)
	require.NoError(t, err)
	assert.Greater(t, p.Slope, 2.0)
	assert.Less(t, p.Slope, 15.0)
	b, err := p.Batch(model.Order{TotalG: 15})
	require.NoError(t, err)
	assert.InEpsilon(t, 15/(1+p.Next.Median), b.Powder.Median, 1e-9)
	require.NotNil(t, b.Powders[0].Spoons)
	assert.InDelta(t, b.Powder.Median, b.Powders[0].Spoons.Grams, 1.42/16*1.001)
	assert.False(t, strings.Contains(b.Sentence(), "for the bowl"))
}

// order draws an order that can be made.
func order(t *rapid.T) model.Order {
	o := model.Order{TotalG: rapid.Float64Range(0.1, 5000).Draw(t, "total")}
	if rapid.Bool().Draw(t, "allow") {
		o.AllowanceG = rapid.Float64Range(0.001, 50).Draw(t, "allowance")
		o.AllowanceShare = rapid.Float64Range(0.001, 1).Draw(t, "allowance share")
	}
	for range rapid.IntRange(0, 3).Draw(t, "extras") {
		o.Extras = append(o.Extras, model.Extra{
			Name: rapid.SampledFrom([]string{"hydrosol", "oat oil", "sea salt", "x"}).Draw(t,
				"name"), Share: rapid.Float64Range(1e-6, 0.33).Draw(t, "share"),
		})
	}
	return o
}

// The parts of a batch are its total.
func TestBatchPartsAreTheTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var powders []kitchen.PastePowder
		for range rapid.IntRange(1, 5).Draw(t, "powders") {
			s := side("A", model.Flour, rapid.Float64Range(0.05, 30).Draw(t, "ratio"),
				rapid.Float64Range(1, 3).Draw(t, "spread"))
			powders = append(powders, kitchen.PastePowder{Side: s, Fraction: rapid.Float64Range(0.1, 100).Draw(t,
				"part")})
		}
		p, err := kitchen.PasteOfSides(powders)
		require.NoError(t, err)
		b, err := p.Batch(order(t))
		if kitchen.IsCannot(err) {
			assert.ErrorContains(t, err, "take up only")
			return
		}
		require.NoError(t, err)
		assert.InEpsilon(t, p.Next.Median, (b.Liquid.Median+b.CountedG)/b.Powder.Median, 1e-9,
			"all that is liquid over the powder")
		sum := b.Liquid.Median
		for _, part := range b.Powders {
			sum += part.Grams
		}
		for _, g := range b.ExtrasG {
			sum += g
		}
		assert.InEpsilon(t, b.MadeG, sum, 1e-9)
		assert.InDelta(t, b.Liquid.Median, b.StartG+b.HoldBackG, 1e-9*b.MadeG)
		assert.True(t, finite(b.Powder) && finite(b.Liquid))
		assert.True(t, b.HoldBackG >= 0 && b.SpareG >= 0 && b.StartG >= 0)
	})
}

// A batch is made with the ratio that shelf and page show, not with a middle of its own.
func TestABatchHasTheRatioThatIsShown(t *testing.T) {
	s := side("A", model.Flour, 1.5, 1.1)
	s.Ratio.Next.Median = 1.4991
	b, err := pasteOf(t, s).Batch(model.Order{TotalG: 100})
	require.NoError(t, err)
	assert.InDelta(t, 1.5, b.Liquid.Median/b.Powder.Median, 1e-9)
	assert.InDelta(t, 1.5, kitchen.RecipeOf("x", b, nil, saved).Ratio.Median, 1e-12)
}
