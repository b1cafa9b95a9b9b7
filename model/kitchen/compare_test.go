package kitchen_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// entries puts profiles on a shelf, without slugs.
func entries(profiles ...model.Profile) []model.Entry {
	out := make([]model.Entry, len(profiles))
	for i, p := range profiles {
		out[i].Profile = p
	}
	return out
}

// compared compares the second profile with the first at level 5.
func compared(t *testing.T, a, b model.Profile) kitchen.Pair {
	t.Helper()
	c, err := kitchen.Compare(entries(a, b), 5, model.Choice{}, nil)
	require.NoError(t, err)
	return c.Against(0)[0]
}

// The two clays: 4.76/0.626 = 7.6 by weight; 4.76·4.78/(0.626·1.42) = 25.6 by
// the spoon.
func TestTwoClays(t *testing.T) {
	p := compared(t, lightClay(specimen.Ptr(120)), heavyClay(specimen.Ptr(120)))
	require.NotNil(t, p.ByWeight)
	assert.InEpsilon(t, 7.6, p.ByWeight.Median, 0.03)
	assert.InEpsilon(t, 25.6, p.BySpoon.Median, 0.03)
	assert.Equal(t, kitchen.NotStandIn, p.Verdict)
	assert.Empty(t, p.NextTrial, "the interval is wholly beyond two levels")
	assert.False(t, p.RestsApart)
	said := p.Sentence()
	assert.Contains(t, said, "Heavy clay takes 7.6 times")
	assert.Contains(t, said, "26 times")
	assert.Contains(t, said,
		"gram for gram it comes out at 7 crumbly or beyond instead of 5 spread: far too thick")
	assert.Contains(t, p.Differences, "Family: Light clay is plain clay, Heavy clay is swelling clay.")
	assert.Contains(t, p.Differences, "Seen with Heavy clay only: gels.")
	assert.True(t, strings.Contains(strings.Join(p.Differences, "\n"), "alkaline"))

	s, err := p.Swap(20, 0, kitchen.KeepLiquid)
	require.NoError(t, err)
	assert.InEpsilon(t, 2.6, s.NewPowder.Median, 0.03, "20 g · 0.626 / 4.76")
}

// With the families' own rests, 30 s and 5 min, the factor never comes without
// its warning.
func TestRestsApart(t *testing.T) {
	p := compared(t, lightClay(nil), heavyClay(nil))
	require.NotNil(t, p.ByWeight)
	assert.True(t, p.RestsApart)
	require.NotEmpty(t, p.Warnings)
	assert.True(t, strings.HasPrefix(p.Sentence(),
		"Not like for like: Light clay was read after 30 s, Heavy clay after 5 min."), p.Sentence())
	assert.Contains(t, p.Warnings[0], "make a trial of Light clay with a rest of 5 min")
}

func TestOtherLiquid(t *testing.T) {
	p := compared(t, lightClay(nil), inOil(lightClay(nil)))
	assert.Equal(t, kitchen.OtherLiquid, p.Refused)
	assert.Nil(t, p.ByWeight)
	assert.Nil(t, p.BySpoon)
	assert.Nil(t, p.Bound)
	assert.Empty(t, p.Verdict)
	assert.True(t, strings.HasPrefix(p.Sentence(), "Not compared: "), p.Sentence())
	_, err := p.Swap(20, 0, kitchen.KeepLiquid)
	assert.ErrorContains(t, err, "no swap: Light clay was tried in water")
}

// Two profiles may share a basis that is not the main one of either.
func TestSharedBasis(t *testing.T) {
	a := lightClay(nil)
	oil := inOil(a).Trials[0]
	oil.Started = specimen.Day(9) // the newest trial is in oil
	a.Trials = append(a.Trials, oil)
	require.Equal(t, "vegetable oil", a.Bases()[0].Liquid)
	p := compared(t, a, heavyClay(specimen.Ptr(30)))
	assert.Empty(t, p.Refused)
	assert.Equal(t, "water", p.A.Ratio.Basis.Liquid)

	// The same liquid at two rests: the one that the other has too.
	b := lightClay(specimen.Ptr(30))
	b.Trials = append(b.Trials, lightClay(specimen.Ptr(300)).Trials[0])
	b.Trials[1].Started = specimen.Day(0)
	p = compared(t, b, heavyClay(nil))
	assert.False(t, p.RestsApart)
	assert.Equal(t, 300, p.A.Ratio.Basis.RestS)
}

func TestNotReached(t *testing.T) {
	thin := lightClay(specimen.Ptr(300))
	thin.Trials[0].Steps = thin.Trials[0].Steps[:4] // level 0 at 2 tsp: R < 5/2.84 = 1.76
	p := compared(t, thin, heavyClay(specimen.Ptr(300)))
	assert.Equal(t, kitchen.LevelMissing, p.Refused)
	assert.Nil(t, p.ByWeight)
	require.NotNil(t, p.Bound, "it takes at least so many times as much")
	assert.InEpsilon(t, p.B.Ratio.Powder.Low/1.7606, p.Bound.Low, 1e-3)
	assert.Contains(t, p.Sentence(), "more than")
	assert.Contains(t, p.Sentence(), "do not reach 5 spread")

	none := lightClay(nil)
	none.Trials = nil
	p = compared(t, none, heavyClay(nil))
	assert.Equal(t, kitchen.LevelMissing, p.Refused)
	assert.Contains(t, p.Sentence(), "Light clay has no finished trial")
	p = compared(t, none, none)
	assert.Nil(t, p.Bound)
}

func TestOnDifferentScales(t *testing.T) {
	halves := lightClay(specimen.Ptr(120))
	halves.Trials[0].LevelStep = 0.5
	p := compared(t, halves, heavyClay(specimen.Ptr(120)))
	assert.Contains(t, strings.Join(p.Warnings, "\n"),
		"Heavy clay was read in whole levels only, so its level can be half a level off.")
}

func TestCompareRefuses(t *testing.T) {
	one := []model.Profile{lightClay(nil)}
	_, err := kitchen.Compare(entries(one...), 5, model.Choice{}, nil)
	assert.ErrorContains(t, err, "two to six")
	_, err = kitchen.Compare(entries(one[0], one[0], one[0], one[0], one[0], one[0], one[0]), 5,
		model.Choice{}, nil)
	assert.ErrorContains(t, err, "two to six")
	_, err = kitchen.Compare(entries(one[0], one[0]), 7, model.Choice{}, nil)
	assert.ErrorContains(t, err, "level 7 has no ratio")
}

// At six levels an e-fold B stands at 5 + 6·ln(R_B/R_A) in A's place. Spreads of
// 1.05 and 1.06 joined are √(ln²1.05 + ln²1.06) = 0.0760 in ln, 0.46 levels; of
// 1.2 and 1.21 0.264, 1.58 levels; of 1.3 and 1.31 0.377, 2.26 levels; of 2 and
// 2.01 0.984, 5.9 levels.
func TestVerdicts(t *testing.T) {
	for _, c := range []struct {
		a, b, spread float64
		want         kitchen.Verdict
		settle       bool
	}{
		{2, 2, 1.05, kitchen.Close, false},        // 5.0 (4.5 to 5.5)
		{2, 2.16, 1.05, kitchen.Close, false},     // 5.46 (5.0 to 5.9)
		{2, 2.2, 1.05, kitchen.Adjust, false},     // 5.57 (5.1 to 6.0)
		{2, 2.1, 1.2, kitchen.Adjust, false},      // 5.29 (3.7 to 6.9): too wide to be close
		{2, 2, 2, kitchen.Unsettled, true},        // 5.0 (-0.9 to 10.9)
		{2, 2.2, 1.3, kitchen.Unsettled, true},    // 5.57 (3.3 to 7.8)
		{2, 2.6, 1.05, kitchen.Adjust, false},     // 6.57 (6.1 to 7.0)
		{2, 2.9, 1.05, kitchen.NotStandIn, false}, // 7.23 (6.8 to 7.7)
		{2, 2.9, 1.3, kitchen.NotStandIn, true},   // 7.23 (5.0 to 9.5)
		{2, 0.5, 1.05, kitchen.NotStandIn, false}, // -3.3
	} {
		p := kitchen.PairOf(side("A", model.Flour, c.a, c.spread), side("B", model.Flour, c.b, c.spread+0.01))
		assert.Equal(t, c.want, p.Verdict, p.Sentence())
		assert.NotEmpty(t, p.Reasons)
		if c.settle {
			assert.Equal(t, "one more trial of B would tell", p.NextTrial, "B has the wider interval")
		} else {
			assert.Empty(t, p.NextTrial, p.Sentence())
		}
	}
}

// Two lots of one name are told apart, a spoon that weighs otherwise and a
// side seen from one side only are pointed at.
func TestWhatAPairPointsAt(t *testing.T) {
	a, b := withSpoon(side("Oats", model.Flour, 2, 1.05), 2), withSpoon(side("Oats", model.Flour, 2.1, 1.05), 3)
	a.Powder.Lot, b.Powder.Lot = "1", "2"
	b.Ratio.Reach = fit.OneSided
	p := kitchen.PairOf(a, b)
	assert.Equal(t, kitchen.Close, p.Verdict)
	assert.Contains(t, p.Sentence(),
		"Oats · lot 2 takes 1.1 times (0.98 to 1.1) as much water as Oats · lot 1 by weight, 1.6 times")
	assert.Contains(t, p.Sentence(), "similar thickness weight for weight") // 5 + 6·ln 1.05 = 5.29
	// 5 + 6·ln(2.1·3/(2·2)) = 7.7
	assert.Contains(t, p.Reasons[1], "spoon for spoon it comes out at 7 crumbly or beyond: weigh it")
	assert.Equal(t, []string{"Oats · lot 2 was tested from one side of this level only: its ratio is rough."},
		p.Warnings)

	b.Ratio.Budget = &fit.Budget{SpoonWeight: 0.7, Looks: 0.3}
	*b.Ratio.Powder = fit.Interval{Median: 2.3, Low: 1.5, High: 6}
	p = kitchen.PairOf(a, b)
	assert.Equal(t, "one more trial of Oats · lot 2 would tell, with two more level spoons of it weighed first",
		p.NextTrial)
	assert.Contains(t, p.Sentence(), "it may or may not do; ")
}

// Halves of 10 % and 20 % to the one side, 5 % and 15 % to the other:
// low = 2·exp(-√(ln²1.1 + ln²1.15)), high = 2·exp(√(ln²1.2 + ln²1.05)).
// ln 1.1 = 0.09531, ln 1.15 = 0.13976, joined 0.16917, so 1.6887;
// ln 1.2 = 0.18232, ln 1.05 = 0.04879, joined 0.18874, so 2.4154.
func TestDrinkInterval(t *testing.T) {
	a, b := side("A", model.Flour, 1, 1), side("B", model.Flour, 2, 1)
	*a.Ratio.Powder = fit.Interval{Median: 1, Low: 1 / 1.05, High: 1.15}
	*b.Ratio.Powder = fit.Interval{Median: 2, Low: 2 / 1.1, High: 2 * 1.2}
	f := kitchen.PairOf(a, b).ByWeight
	assert.InDelta(t, 2, f.Median, 1e-12)
	assert.InDelta(t, 1.6887, f.Low, 2e-4)
	assert.InDelta(t, 2.4154, f.High, 2e-4)
}

// A against B is one over B against A.
func TestThereAndBackFactor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := side("A", model.Flour, rapid.Float64Range(0.1, 20).Draw(t, "a"), rapid.Float64Range(1, 3).Draw(t, "sa"))
		b := side("B", model.Flour, rapid.Float64Range(0.1, 20).Draw(t, "b"), rapid.Float64Range(1, 3).Draw(t, "sb"))
		x, y := kitchen.PairOf(a, b).ByWeight, kitchen.PairOf(b, a).ByWeight
		assert.InEpsilon(t, 1, x.Median*y.Median, 1e-12)
		assert.InEpsilon(t, 1, x.Low*y.High, 1e-12)
		assert.InEpsilon(t, 1, x.High*y.Low, 1e-12)
	})
}

// The pH of the paste before any acid, the last reading where it was read again, is told
// beside the verdict.
func TestPHStandsBesideTheVerdict(t *testing.T) {
	light, heavy := lightClay(nil), heavyClay(nil)
	light.Trials[0].Acid = &model.AcidTest{
		Acid: "citric acid 10 %", PasteG: 30,
		Steps: []model.AcidStep{{PH: 7}, {PH: 7.5}, {Grams: 0.2, PH: 5.5}},
	}
	told := strings.Join(compared(t, light, heavy).Differences, "\n")
	assert.Contains(t, told, "pH of the paste before any acid: Light clay 7.5, Heavy clay not read yet.")
	told = strings.Join(compared(t, heavy, light).Differences, "\n")
	assert.Contains(t, told, "pH of the paste before any acid: Light clay 7.5, Heavy clay not read yet.")
	heavy.Trials[0].Acid = &model.AcidTest{Acid: "vinegar", PasteG: 30, Steps: []model.AcidStep{{PH: 9.5}}}
	told = strings.Join(compared(t, light, heavy).Differences, "\n")
	assert.Contains(t, told, "pH of the paste before any acid: Light clay 7.5, Heavy clay 9.5.")
	heavy.Trials[0].Acid.Steps[0].PH = 7.5
	assert.NotContains(t, strings.Join(compared(t, light, heavy).Differences, "\n"), "pH of the paste")
	heavy.Trials[0].Acid.Steps[0].Grams = 0.1 // never read without acid
	assert.Contains(t, strings.Join(compared(t, light, heavy).Differences, "\n"), "Heavy clay not read yet")
}
