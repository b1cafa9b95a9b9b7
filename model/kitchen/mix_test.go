package kitchen_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// 50, 30 and 20 parts of ratios 1, 2 and 4: 0.5 + 0.6 + 0.8 = 1.9. Low halves
// 0.1, 0.2, 0.4 by their fractions are 0.05, 0.06, 0.08, in quadrature
// √0.0125 = 0.1118; high halves twice that.
func TestMixOfThree(t *testing.T) {
	var powders []kitchen.PastePowder
	for i, r := range []float64{1, 2, 4} {
		s := side([]string{"A", "B", "C"}[i], model.Flour, r, 1)
		*s.Ratio.Powder = fit.Interval{Median: r, Low: 0.9 * r, High: 1.2 * r}
		*s.Ratio.Next = fit.Interval{Median: r, Low: 0.8 * r, High: 1.4 * r}
		powders = append(powders, kitchen.PastePowder{Side: s, Fraction: []float64{50, 30, 20}[i]})
	}
	p, err := kitchen.PasteOfSides(powders)
	require.NoError(t, err)
	assert.InDelta(t, 1.9, p.Powder.Median, 1e-12)
	assert.InDelta(t, 1.9-0.1118, p.Powder.Low, 1e-4)
	assert.InDelta(t, 1.9+2*0.1118, p.Powder.High, 1e-4)
	assert.InDelta(t, 1.9-2*0.1118, p.Next.Low, 1e-4)
	assert.InDelta(t, 6, p.Slope, 1e-12)
	assert.Equal(t, "A 50 + B 30 + C 20", p.Name())
	assert.Contains(t, p.Warnings[0], "first estimate: make a trial of the mix")
	assert.Contains(t, p.Sentence(), "first estimate")
	assert.InDelta(t, 0.3, p.Powders[1].Fraction, 1e-12)
	assert.InDelta(t, 50, powders[0].Fraction, 0, "the caller's parts stay")
}

// A mix says every rest that its powders were read after, and which is its own.
func TestAMixSaysItsRests(t *testing.T) {
	a, b, c := side("A", model.Flour, 1, 1.1), side("B", model.Flour, 2, 1.1), side("C", model.Flour, 2, 1.1)
	b.Ratio.Basis.RestS = 300
	tried := func(sides ...kitchen.Side) string {
		var powders []kitchen.PastePowder
		for _, s := range sides {
			powders = append(powders, kitchen.PastePowder{Side: s, Fraction: 1})
		}
		p, err := kitchen.PasteOfSides(powders)
		require.NoError(t, err)
		return p.Tried()
	}
	assert.Equal(t, "by trials in water with a rest of 2 min", tried(a, c))
	assert.Equal(t, "by trials in water with rests of 2 min and 5 min; let this one rest 5 min", tried(b, a, c))
}

// Liquid limits by cup of sodium with calcium montmorillonite by the fraction
// of the first (Karakan 2022, Appl. Sci. 12(17) 8616): the straight line errs
// by at most 6 % on each.
func TestPublishedMixture(t *testing.T) {
	limits := []float64{309.41, 295.55, 289.06, 287.38, 282.28, 279.57, 265.44, 243.70, 237.33, 226.51, 219.49}
	na, ca := side("Na", model.SwellingClay, limits[0]/100, 1), side("Ca", model.SwellingClay, limits[10]/100, 1)
	worst := 0.0
	for i, w := range limits[1:10] {
		parts := float64(9 - i)
		p, err := kitchen.PasteOfSides([]kitchen.PastePowder{
			{Side: na, Fraction: parts},
			{Side: ca, Fraction: 10 - parts},
		})
		require.NoError(t, err)
		assert.InEpsilon(t, w/100, p.Powder.Median, 0.06)
		worst = max(worst, abs(w/100/p.Powder.Median-1))
	}
	assert.InDelta(t, 0.057, worst, 0.001, "the table against its straight line")
}

func TestMixOfProfiles(t *testing.T) {
	light, heavy := lightClay(specimen.Ptr(120)), heavyClay(specimen.Ptr(300))
	heavy.Powder.KeepFromMetal = true
	p, err := kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 3}, {Profile: heavy, Parts: 1}}, 5,
		model.Choice{}, nil)
	require.NoError(t, err)
	a, err := kitchen.PasteOf(light, 5, model.Choice{}, nil)
	require.NoError(t, err)
	b, err := kitchen.PasteOf(heavy, 5, model.Choice{}, nil)
	require.NoError(t, err)
	assert.InEpsilon(t, 0.75*a.Powder.Median+0.25*b.Powder.Median, p.Powder.Median, 1e-12)
	assert.Empty(t, a.Warnings)

	next := p.Profile()
	assert.Empty(t, bench.Check(withStart(next), nil))
	assert.Equal(t, "Light clay 75 + Heavy clay 25", next.Powder.Name)
	assert.Equal(t, model.PlainClay, next.Powder.Family, "of the largest part")
	assert.True(t, next.Powder.KeepFromMetal)
	require.Len(t, next.Trials, 1)
	trial := next.Trials[0]
	assert.Equal(t, "water", trial.Liquid)
	assert.Equal(t, 300, *trial.RestS, "the longer of the two")
	assert.Equal(t, 5.0, trial.Aim)
	assert.Equal(t, model.Open, trial.State)
	assert.Empty(t, trial.Steps)
	assert.True(t, trial.Started.IsZero())
}

// withStart dates the first trial.
func withStart(p model.Profile) model.Profile {
	p = p.Clone()
	p.Trials[0].Started = specimen.Day(1)
	return p
}

func TestMixRefuses(t *testing.T) {
	light, heavy := lightClay(nil), heavyClay(nil)
	_, err := kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 1}}, 5, model.Choice{}, nil)
	assert.ErrorContains(t, err, "two to five")
	_, err = kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 1}, {Profile: heavy, Parts: 0}}, 5, model.Choice{},
		nil)
	assert.ErrorContains(t, err, "Heavy clay")
	_, err = kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 1}, {Profile: inOil(heavy), Parts: 1}}, 5,
		model.Choice{}, nil)
	assert.ErrorContains(t, err, "was tried in ")
	_, err = kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 1}, {Profile: heavy, Parts: 1}}, 5.2,
		model.Choice{}, nil)
	assert.ErrorContains(t, err, "level 5.2")
	none := heavy
	none.Trials = nil
	_, err = kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 1}, {Profile: none, Parts: 1}}, 5, model.Choice{},
		nil)
	assert.ErrorContains(t, err, "Heavy clay has no ratio at 5 spread")
	p, err := kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 1}, {Profile: heavy, Parts: 1}}, 5,
		model.Choice{}, nil)
	require.NoError(t, err)
	assert.Contains(t, strings.Join(p.Warnings, "\n"), "Not like for like")
	assert.Contains(t, strings.Join(p.Warnings, "\n"), "for a better estimate make a trial of Light clay with a rest")

	light.Trials[0].LevelStep = 0.5
	p, err = kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 1}, {Profile: heavy, Parts: 1}}, 5,
		model.Choice{}, nil)
	require.NoError(t, err)
	warned := strings.Join(p.Warnings, "\n")
	assert.Contains(t, warned, "Heavy clay was read in whole levels only, so this estimate can be half a level off.")
	assert.NotContains(t, warned, "compar", "nothing is compared in a mix")
}

func abs(v float64) float64 { return max(v, -v) }
