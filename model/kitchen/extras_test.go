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

// 120 g at R 1.6 with 25 % glycerine: all of it is powder and liquid, so 120/2.6
// = 46.1538 g powder, which takes 73.8462 g of liquid; 30 g of that are the
// glycerine, 43.8462 g of water are added. Not (120 - 30)/2.6 = 34.6 g with 55.4
// g of water and the glycerine on top, which would be 85.4/34.6 = 2.47.
func TestLiquidExtrasArePartOfTheLiquid(t *testing.T) {
	b, err := pasteOf(t, side("A", model.Flour, 1.6, 1.1)).Batch(model.Order{
		TotalG: 120, Extras: []model.Extra{{Name: "Glycerine", Share: 0.25}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 46.1538, b.Powder.Median, 1e-4)
	assert.InDelta(t, 43.8462, b.Liquid.Median, 1e-4)
	assert.InDelta(t, 30, b.CountedG, 1e-9)
	assert.Equal(t, model.CountsLiquid, b.Order.Extras[0].Counts, "written down")
	assert.InDelta(t, 5, b.Paste.LevelAt((b.Liquid.Median+b.CountedG)/b.Powder.Median), 1e-9)
	require.Len(t, b.Warnings, 1) // 30 of 73.8 g
	assert.Equal(t, "Try a small batch first: the ratio was found with water alone, and 30.00 g of the liquid here is "+
		"Glycerine.", b.Warnings[0])
}

// 100 g at R 1.5: 4 % honey is liquid, 3 % oat oil and 2 % salt ride along, so
// 95 g are powder and liquid: 38 g powder, 57 g liquid, 4 g of it honey.
// The next dish takes 1.2 to 1.8: start with 38·1.2 - 4 = 41.6 g of water, hold
// 53 - 41.6 = 11.4 back, 38·0.3 = 11.4 more at hand.
func TestThreeKindsOfExtras(t *testing.T) {
	s := side("A", model.Flour, 1.5, 1)
	s.Ratio.Next.Low, s.Ratio.Next.High = 1.2, 1.8
	b, err := pasteOf(t, s).Batch(model.Order{TotalG: 100, Extras: []model.Extra{
		{Name: "honey", Share: 0.04}, {Name: "oat oil", Share: 0.03}, {Name: "sea salt", Share: 0.02},
	}})
	require.NoError(t, err)
	assert.InDelta(t, 38, b.Powder.Median, 1e-9)
	assert.InDelta(t, 53, b.Liquid.Median, 1e-9)
	assert.InDelta(t, 41.6, b.StartG, 1e-9)
	assert.InDelta(t, 11.4, b.HoldBackG, 1e-9)
	assert.InDelta(t, 11.4, b.SpareG, 1e-9)
	assert.Equal(t, []string{"A", "sea salt", "water", "honey", "oat oil"},
		kitchen.AdditionOrder(kitchen.RecipeOf("x", b, nil, saved)))

	// The maker's word wins: as oil the honey rides along, 91/2.5 = 36.4 g powder.
	b, err = pasteOf(t, s).Batch(model.Order{TotalG: 100, Extras: []model.Extra{
		{Name: "honey", Share: 0.04, Counts: model.CountsOil}, {Name: "oat oil", Share: 0.03}, {
			Name:  "sea salt",
			Share: 0.02,
		},
	}})
	require.NoError(t, err)
	assert.InDelta(t, 36.4, b.Powder.Median, 1e-9)
}

// 100 g at R 0.5 are 66.7 g of powder, which takes up 33.3 g: 40 g of juice are
// too much.
func TestMoreLiquidExtrasThanThePowderTakesUp(t *testing.T) {
	_, err := pasteOf(t, side("A", model.Flour, 0.5, 1.1)).Batch(model.Order{
		TotalG: 100,
		Extras: []model.Extra{{Name: "apple juice", Share: 0.4}},
	})
	require.Error(t, err)
	assert.True(t, kitchen.IsCannot(err))
	assert.Contains(t, err.Error(), "40.00 g of liquid, but 66.67 g of powder take up only 33.33 g")
	assert.Contains(t, err.Error(), "take less of it, or a powder that takes up more")
}

// Volumes add up. Flour (1.5 g/mL) at R 1 in water of 1 with 20 % honey (1.42)
// and 20 % oil (0.92): of 1 g 0.8 are powder and liquid, 0.4 powder, 0.4 liquid,
// 0.2 of that honey, so 0.4/1.5 + 0.2/1 + 0.2/1.42 + 0.2/0.92 = 0.82490 mL. A
// jar of 60 mL, filled to 57, holds 57/0.82490 = 69.099 g.
func TestExtrasFillTheJarToo(t *testing.T) {
	o := model.Order{JarML: 60, Extras: []model.Extra{{Name: "honey", Share: 0.2}, {Name: "oil", Share: 0.2}}}
	p := pasteOf(t, side("A", model.Flour, 1, 1.2))
	b, err := p.Batch(o)
	require.NoError(t, err)
	assert.InDelta(t, 69.099, b.JarG, 1e-3)
	assert.InDelta(t, 69.099, b.TotalG, 1e-3)
	assert.True(t, b.Fits())

	o.TotalG = 70
	b, err = p.Batch(o)
	require.NoError(t, err)
	assert.False(t, b.Fits())
	assert.Contains(t, strings.Join(b.Warnings, " "),
		"70.00 g is too much for the jar: filled to 95 %, its 60 mL hold 69.10 g.")

	// Each of twenty portions has a jar of its own.
	o.TotalG, o.Portions = 0, 20
	b, err = p.Batch(o)
	require.NoError(t, err)
	assert.InDelta(t, 20*69.099, b.TotalG, 0.02)
	assert.InDelta(t, 69.099, b.PortionG, 1e-3)
	assert.True(t, b.Fits())
}

// 20 portions of 75 g are 1500 g, and 3 % more for the bowl 1545 g: at R 2, 515
// g powder.
func TestPortions(t *testing.T) {
	plain, err := pasteOf(t, side("A", model.Flour, 2, 1.1)).Batch(model.Order{Portions: 20, PortionG: 75})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(plain.Warnings, " "), "the last portion may come out short")

	b, err := pasteOf(t, side("A", model.Flour, 2, 1.1)).Batch(model.Order{
		Portions: 20, PortionG: 75,
		AllowanceShare: 0.03,
	})
	require.NoError(t, err)
	assert.Empty(t, b.Warnings)
	assert.InDelta(t, 1500, b.TotalG, 1e-9)
	assert.InDelta(t, 515, b.Powder.Median, 1e-9)
	r := kitchen.RecipeOf("class", b, nil, saved)
	assert.Equal(t, 20, r.Portions)
	assert.Empty(t, r.Validate())
	more, err := kitchen.InPortions(r, 24, 0)
	require.NoError(t, err)
	assert.InDelta(t, 1800, more.TotalG, 1e-9)
	double, err := kitchen.Scale(r, 3000)
	require.NoError(t, err)
	assert.InDelta(t, 150, double.PortionG, 1e-9, "as many, each larger")
}

// A jar is never filled beyond 95 %.
func TestAJarIsNeverFilledBeyond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := pasteOf(t, side("A", model.PlainClay, rapid.Float64Range(0.2, 10).Draw(t, "ratio"), 1.2))
		o := order(t)
		o.TotalG, o.JarML = 0, rapid.Float64Range(5, 2000).Draw(t, "jar")
		b, err := p.Batch(o)
		if kitchen.IsCannot(err) {
			return
		}
		require.NoError(t, err)
		part := b.TotalG / b.MadeG
		volume := part * (b.Powder.Median/2.6 + b.Liquid.Median/1)
		for i, e := range b.Order.Extras {
			volume += part * b.ExtrasG[i] / e.Density()
		}
		assert.LessOrEqual(t, volume, 0.95*o.JarML*(1+1e-9))
		assert.True(t, b.Fits())
	})
}

func TestNamesThatAreAskedAbout(t *testing.T) {
	p := pasteOf(t, side("A", model.Flour, 1.5, 1.1))
	b, err := p.Batch(model.Order{TotalG: 100, Extras: []model.Extra{{Name: "moonwort", Share: 0.02}}})
	require.NoError(t, err)
	assert.Equal(t, []string{"moonwort"}, b.Unsorted)
	assert.Contains(t, b.Warnings[0], "moonwort is not a name that daub knows, so it counts as liquid. If it is oil "+
		"or dry, write :oil or :dry after its share; :liquid if it is one.")
	b, err = p.Batch(model.Order{TotalG: 100, Extras: []model.Extra{{Name: "wild honny", Share: 0.02}}})
	require.NoError(t, err)
	assert.Contains(t, b.Warnings[0], "wild honny is not a name that daub knows, so it counts as liquid. Did you mean "+
		"honey? ")
	b, err = p.Batch(model.Order{
		TotalG: 100,
		Extras: []model.Extra{{Name: "moonwort", Share: 0.02, Counts: model.CountsDry}},
	})
	require.NoError(t, err)
	assert.Empty(t, b.Warnings)
	b, err = p.Batch(model.Order{TotalG: 100, Extras: []model.Extra{{Name: "lavender essential oil", Share: 0.012}}})
	require.NoError(t, err)
	assert.Contains(t, b.Warnings[0], "1.2 % essential oil or fragrance: is that meant?")
}

// Acid with what fizzes: by powder, extra, liquid or mix.
func TestAcidWithCarbonates(t *testing.T) {
	chalk := model.Powder{Name: "Cliff powder", Family: model.Mineral, Fizzes: ptr(true)}
	untested := model.Powder{Name: "Grey clay", Family: model.PlainClay}
	tested := model.Powder{Name: "Grey clay", Family: model.PlainClay, Fizzes: ptr(false)}
	flour := model.Powder{Name: "Barley flour", Family: model.Flour}
	citric := model.Powder{Name: "Citric acid", Family: model.Other}
	extra := func(name string) []model.Extra { return []model.Extra{{Name: name, Share: 0.02}} }
	for _, c := range []struct {
		powders  []model.Powder
		liquid   string
		extras   []model.Extra
		with     string
		untested bool
	}{
		{[]model.Powder{chalk}, "vinegar", nil, "Cliff powder", false},
		{[]model.Powder{chalk}, "water", extra("lemon juice"), "Cliff powder", false},
		{[]model.Powder{untested}, "water", extra("citric acid"), "Grey clay", true},
		{[]model.Powder{untested, chalk}, "vinegar", nil, "Cliff powder", false},
		{[]model.Powder{flour}, "vinegar", extra("baking soda"), "baking soda", false},
		{[]model.Powder{flour, citric}, "water", extra("bicarbonate of soda"), "bicarbonate of soda", false},
		{[]model.Powder{tested}, "vinegar", nil, "", false},
		{[]model.Powder{flour}, "vinegar", nil, "", false},
		{[]model.Powder{chalk}, "water", extra("lemon essential oil"), "", false},
		{[]model.Powder{chalk}, "water", extra("hyaluronic acid"), "", false},
	} {
		f := kitchen.FizzOf(c.powders, c.liquid, c.extras)
		if c.with == "" {
			assert.Nil(t, f, c)
			continue
		}
		require.NotNil(t, f, c)
		assert.Equal(t, c.with, f.With)
		assert.Equal(t, c.untested, f.Untested)
	}
	s := side("Chalk", model.Mineral, 1, 1.2)
	s.Powder.SolidDensity = 2.7
	_, err := pasteOf(t, s).Batch(model.Order{JarML: 60, Extras: extra("vinegar")})
	assert.True(t, kitchen.IsCannot(err))
	assert.ErrorContains(t, err, "a closed jar can burst")
	b, err := pasteOf(t, s).Batch(model.Order{TotalG: 60, Extras: extra("vinegar")})
	require.NoError(t, err)
	assert.Contains(t, b.Warnings[0], "never close it in a jar")

	// A recipe in a jar, swapped to a powder that fizzes.
	a := side("Barley", model.Flour, 1, 1.1)
	b, err = pasteOf(t, a).Batch(model.Order{JarML: 60, Extras: extra("vinegar")})
	require.NoError(t, err)
	_, err = kitchen.SwapPowder(kitchen.RecipeOf("x", b, nil, saved), kitchen.PairOf(a, s), "", kitchen.KeepTotal, nil)
	assert.True(t, kitchen.IsCannot(err))
}

func ptr[T any](v T) *T { return &v }

// A recipe of before extras counted: 100 g with 20 % glycerine beside 80 g of
// powder and water at R 1, so 40 g each. All that is liquid is 60 g to 40 g of
// powder, 1.5: at six levels an e-fold 5 - 6·ln 1.5 = 2.57. Counted it is 50 g of
// powder, 30 g of water and the 20 g.
func TestRecipeBeforeExtrasCounted(t *testing.T) {
	b, err := pasteOf(t, side("A", model.Flour, 1, 1.1)).Batch(model.Order{
		TotalG: 100,
		Extras: []model.Extra{{Name: "glycerine", Share: 0.2}},
	})
	require.NoError(t, err)
	r := kitchen.RecipeOf("old", b, nil, saved)
	assert.Nil(t, kitchen.RecountOf(r, nil, nil), "it has its kinds")
	r.Extras[0].Counts = ""
	old := kitchen.RecipeAmounts(r)
	assert.InDelta(t, 40, old.Powder.Median, 1e-9)
	assert.InDelta(t, 40, old.Liquid.Median, 1e-9)
	assert.InDelta(t, 5-6*math.Log(1.5), b.Paste.LevelAt(60.0/40), 1e-9)
	c := kitchen.RecountOf(r, nil, nil)
	require.NotNil(t, c)
	assert.False(t, c.Known, "without the profile")
	now := kitchen.RecipeAmounts(c.Recipe)
	assert.InDelta(t, 50, now.Powder.Median, 1e-9)
	assert.InDelta(t, 30, now.Liquid.Median, 1e-9)
	assert.Contains(t, c.Sentence(), "glycerine as liquid")
	assert.Contains(t, c.Sentence(), "Counted, it takes 50.00 g of powder and 30.00 g of water.")
}

// Oil rides along, as extras did before they counted: (100 - 20)/(1 + 1) = 40 g of
// powder either way, so nothing stands at another level.
func TestAnOldRecipeThatComesOutTheSame(t *testing.T) {
	b, err := pasteOf(t, side("A", model.Flour, 1, 1.1)).Batch(model.Order{
		TotalG: 100,
		Extras: []model.Extra{{Name: "walnut oil", Share: 0.2}},
	})
	require.NoError(t, err)
	r := kitchen.RecipeOf("old", b, nil, saved)
	r.Extras[0].Counts = ""
	c := kitchen.RecountOf(r, nil, nil)
	require.NotNil(t, c)
	assert.Equal(t, "This recipe was saved before extras counted (walnut oil as oil): its grams stay as they are; "+
		"counted, they come out the same.", c.Sentence())
}

// At six levels an e-fold, R 2 for A and 1.6 for B: gram for gram B stands at 5 +
// 6·ln 0.8 = 3.66. Instead of 10 g A 12.5 g B with the same water.
func TestGramForGram(t *testing.T) {
	p := kitchen.PairOf(side("A", model.Flour, 2, 1.05), side("B", model.Flour, 1.6, 1.05))
	assert.InDelta(t, 5+6*math.Log(0.8), p.StandsAt.Median, 1e-9)
	assert.Equal(t, kitchen.Adjust, p.Verdict)
	assert.Contains(t, p.Reasons[0], "B comes out at 3.7 (3.2 to 4.1) instead of 5 spread") // ± 6·√2·ln 1.05
	assert.Contains(t, p.Reasons[1], "for each 10 g of A use 12.5 g of B with the same water, "+
		"or 10 g with 20 % less water")
}

func TestWhereAPowderStands(t *testing.T) {
	assert.Equal(t, "3.7", kitchen.StandsAt(3.66))
	assert.Equal(t, "0 watery or beyond", kitchen.StandsAt(-0.4))
	assert.Equal(t, "7 crumbly or beyond", kitchen.StandsAt(7.8))
	for _, c := range []struct {
		at, low, high     float64
		text, cell, short string
	}{
		{3.66, 2.02, 5.3, "3.7 (2.0 to 5.3)", "3.7 (2.0 to 5.3)", "3.7"},
		{5.4, 3.6, 7.2, "5.4 (3.6 to 7 or above)", "5.4 (3.6 to 7)", "5.4"},
		{7.3, 3.6, 8, "7 crumbly or beyond (3.6 to 7 or above)", "7 crumbly (3.6 to 7)", "7 crumbly"},
		{-0.5, -1, 1.2, "0 watery or beyond (0 or below to 1.2)", "0 watery (0 to 1.2)", "0 watery"},
		{7.6, 7.1, 8, "7 crumbly or beyond", "7 crumbly", "7 crumbly"},
	} {
		levels := fit.Interval{Median: c.at, Low: c.low, High: c.high}
		assert.Equal(t, c.text, kitchen.StandingText(levels))
		assert.Equal(t, c.cell, kitchen.StandingCell(levels))
		assert.Equal(t, c.short, kitchen.StandingShort(levels))
	}
}

// Three powders read after 30 s and one after 5 min are named group by group.
func TestRestsAreNamedByGroups(t *testing.T) {
	profiles := []model.Profile{lightClay(nil), heavyClay(nil), lightClay(nil), lightClay(nil)}
	for i, name := range []string{"A", "B", "C", "D"} {
		profiles[i].Powder.Name = name
	}
	c, err := kitchen.Compare(entries(profiles...), 5, model.Choice{}, nil)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(c.Rests(), "Not like for like: A, C and D were read after 30 s, B after 5 min."),
		c.Rests())
	assert.Contains(t, c.Rests(), "make a trial of A, C and D with a rest of 5 min")
}

// After three trials in water and a newer one in oil, the answer is for water.
func TestTheMainLiquidUnlessAnotherIsWanted(t *testing.T) {
	p := lightClay(nil)
	for n := 2; n < 4; n++ {
		p.Trials = append(p.Trials, lightClay(nil).Trials[0])
	}
	oil := inOil(lightClay(nil)).Trials[0]
	oil.Started = saved
	p.Trials = append(p.Trials, oil)
	paste, err := kitchen.PasteOf(p, 5, model.Choice{}, nil)
	require.NoError(t, err)
	assert.Equal(t, "water", paste.Basis.Liquid)
	paste, err = kitchen.PasteOf(p, 5, model.Choice{In: "Vegetable oil"}, nil)
	require.NoError(t, err)
	assert.Equal(t, "vegetable oil", paste.Basis.Liquid)
	_, err = kitchen.PasteOf(p, 5, model.Choice{In: "milk"}, nil)
	assert.True(t, kitchen.IsCannot(err))
	assert.ErrorContains(t, err, "in milk")
	_, err = kitchen.PasteOf(p, 5, model.Choice{Rest: ptr(600)}, nil)
	assert.True(t, kitchen.IsCannot(err))
}

// 100 g at R 1.5 with one extra of 10 %, and the level by the curve at what is really
// liquid over the powder, six levels an e-fold:
//
//	liquid: 100/2.5 = 40 g powder, 60 g liquid, 10 of it the extra: 1.5, level 5
//	oil:    90/2.5 = 36 g powder, 54 g water, the oil beside them: 1.5, level 5
//	dry:    the same 36 and 54 g
//
// Were the oil of the second counted as liquid it would read 64/36, 5 - 6·ln(64/54) =
// 3.98; were the glycerine of the first not, 50/40, 5 + 6·ln(60/50) = 6.09.
func TestTheLevelIsThatOfAllThatIsLiquid(t *testing.T) {
	p := pasteOf(t, side("A", model.Flour, 1.5, 1.1))
	for _, c := range []struct {
		name                   string
		powder, water, counted float64
	}{{"glycerine", 40, 50, 10}, {"walnut oil", 36, 54, 0}, {"sea salt", 36, 54, 0}} {
		b, err := p.Batch(model.Order{TotalG: 100, Extras: []model.Extra{{Name: c.name, Share: 0.1}}})
		require.NoError(t, err)
		assert.InDelta(t, c.powder, b.Powder.Median, 1e-9, c.name)
		assert.InDelta(t, c.water, b.Liquid.Median, 1e-9, c.name)
		assert.InDelta(t, c.counted, b.CountedG, 1e-9, c.name)
		assert.InDelta(t, 5, p.LevelAt((b.Liquid.Median+b.CountedG)/b.Powder.Median), 1e-9, c.name)
	}
	assert.InDelta(t, 5-6*math.Log(64.0/54), p.LevelAt(64.0/36), 1e-9)
	assert.InDelta(t, 5+6*math.Log(60.0/50), p.LevelAt(50.0/40), 1e-9)
}

// Each way of keeping ends at the wanted level. From 30 g of A and 60 g of water, at R 2
// of A and 1.6 of B: gram for gram B would stand at 5 + 6·ln(1.6/2) = 3.66; the liquid
// kept 60/1.6 = 37.5 g of B; the powder kept 30·1.6 = 48 g of water; the total kept
// 90/2.6 = 34.615 g with 55.385 g.
func TestSwapInThreeWaysAndItsLevel(t *testing.T) {
	a, b := side("A", model.Flour, 2, 1.05), side("B", model.Flour, 1.6, 1.05)
	p, ofB := kitchen.PairOf(a, b), pasteOf(t, b)
	assert.InDelta(t, 5+6*math.Log(0.8), p.StandsAt.Median, 1e-9)
	assert.InDelta(t, p.StandsAt.Median, ofB.LevelAt(60.0/30), 1e-9)
	for _, c := range []struct {
		keep           kitchen.Keep
		powder, liquid float64
	}{{kitchen.KeepLiquid, 37.5, 60}, {kitchen.KeepPowder, 30, 48}, {kitchen.KeepTotal, 34.6154, 55.3846}} {
		s, err := p.Swap(30, 60, c.keep)
		require.NoError(t, err)
		assert.InDelta(t, c.powder, s.NewPowder.Median, 1e-4, c.keep)
		assert.InDelta(t, c.liquid, s.NewLiquid.Median, 1e-4, c.keep)
		assert.InDelta(t, 5, ofB.LevelAt(s.NewLiquid.Median/s.NewPowder.Median), 1e-9, c.keep)
	}
}
