package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

func around(r float64) fit.Interval { return fit.Interval{Median: r, Low: r / 1.1, High: r * 1.1} }

func kinds(limits []measure.Limit) []string {
	var names []string
	for _, l := range limits {
		names = append(names, l.Kind)
	}
	return names
}

// Karakan 2022 (read): sodium montmorillonite 309 %, calcium 219 %; one bentonite
// 150 % (read, PMC9754960 Table 1); kaolinite 30 to 110 % and the others by
// Mitchell & Soga (memory). A paste for spreading takes 1 to 2.5 times that.
func TestLimits(t *testing.T) {
	low, high := measure.SwellingClays()[0].Possible()
	assert.InDelta(t, 3.09, low, 1e-12)
	assert.InDelta(t, 7.725, high, 1e-12)
	low, high = measure.PlainClays()[0].Possible()
	assert.InDelta(t, 0.30, low, 1e-12)
	assert.InDelta(t, 2.75, high, 1e-12)
	for _, l := range append(measure.PlainClays(), measure.SwellingClays()...) {
		assert.NotEmpty(t, l.Source, l.Kind)
		assert.True(t, 0 < l.Low && l.Low <= l.High, l.Kind)
		low, high := l.Possible()
		from, to := l.Usual()
		assert.True(t, low < from && from < to && to < high, l.Kind)
		assert.InDelta(t, from/low, high/to, 1e-9, "as much cut off at either end")
	}
}

// The usual range holds nine tenths of what even spreads in ln give, counted on
// a grid of 300 by 300.
func TestUsualHoldsNineTenths(t *testing.T) {
	const n = 300
	narrow := measure.Limit{Kind: "hardly a range", Low: 1, High: 1.05}
	for _, l := range append(append(measure.PlainClays(), measure.SwellingClays()...), narrow) {
		low, high := l.Usual()
		inside := 0
		for i := range n {
			limit := l.Low * math.Pow(l.High/l.Low, (float64(i)+0.5)/n)
			for j := range n {
				r := limit * math.Pow(2.5, (float64(j)+0.5)/n)
				if low <= r && r <= high {
					inside++
				}
			}
		}
		assert.InDelta(t, 0.9, float64(inside)/(n*n), 0.005, l.Kind)
	}
}

// A teaspoon taken for a tablespoon, or the other way round, is a factor of 3; a
// slipped decimal point one of 10. From the middle of what is usual both are
// seen, for a family and the more for a kind.
func TestASlipIsCaught(t *testing.T) {
	for _, limits := range [][]measure.Limit{
		measure.PlainClays(), measure.SwellingClays(), measure.SwellingClays()[:1], measure.PlainClays()[:1],
	} {
		middle := measure.PlausibleRatio(around(1), limits)
		centre := math.Sqrt(middle.Low * middle.High)
		assert.Equal(t, measure.Usual, measure.PlausibleRatio(around(centre), limits).Plausible)
		for _, slip := range []float64{3, 1.0 / 3, 10, 0.1} {
			c := measure.PlausibleRatio(around(centre*slip), limits)
			assert.Contains(t, []measure.Plausible{measure.Unusual, measure.Outside}, c.Plausible)
			assert.True(t, c.Certain)
			assert.Equal(t, slip > 1, c.Times > 1)
		}
		for _, slip := range []float64{30, 0.03} {
			assert.Equal(t, measure.Outside, measure.PlausibleRatio(around(centre*slip), limits).Plausible)
		}
	}
}

func TestPlausibleRatio(t *testing.T) {
	c := measure.PlausibleRatio(around(1.0), measure.PlainClays())
	assert.Equal(t, measure.Usual, c.Plausible)
	assert.Equal(t, []string{"kaolinite", "illite", "halloysite"}, kinds(c.Kinds))
	assert.Equal(t, 1.0, c.Times)
	assert.True(t, c.Certain)

	c = measure.PlausibleRatio(around(4.0), measure.PlainClays())
	assert.Equal(t, measure.Unusual, c.Plausible)
	assert.Equal(t, []string{"attapulgite"}, kinds(c.Kinds), "a rare kind: is it one?")
	assert.InDelta(t, 4.0/c.High, c.Times, 1e-12)

	c = measure.PlausibleRatio(around(6.5), measure.SwellingClays())
	assert.Equal(t, []string{"sodium montmorillonite"}, kinds(c.Kinds))
	c = measure.PlausibleRatio(around(20), measure.SwellingClays())
	assert.Equal(t, measure.Unusual, c.Plausible)
	assert.Equal(t, []string{"montmorillonite of any kind"}, kinds(c.Kinds))
	c = measure.PlausibleRatio(around(30), measure.SwellingClays())
	assert.Equal(t, measure.Outside, c.Plausible)
	assert.Empty(t, c.Kinds)

	wide := measure.PlausibleRatio(fit.Interval{Median: 8, Low: 5, High: 13}, measure.SwellingClays())
	assert.False(t, wide.Certain, "its interval reaches in")
	thin := measure.PlausibleRatio(around(0.1), measure.SwellingClays())
	assert.Equal(t, measure.Outside, thin.Plausible)
	assert.Less(t, thin.Times, 0.1)
}

func TestNothingToSetItAgainst(t *testing.T) {
	rare := []measure.Limit{{Kind: "x", Low: 1, High: 9, Rare: true}}
	odd := []measure.Limit{{}, {Low: math.NaN(), High: 1}, {Low: 1, High: math.Inf(1)}}
	for _, limits := range [][]measure.Limit{nil, rare, odd} {
		assert.Equal(t, measure.Unknown, measure.PlausibleRatio(around(1), limits).Plausible)
	}
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		c := measure.PlausibleRatio(fit.Interval{Median: bad}, measure.PlainClays())
		assert.Equal(t, measure.Unknown, c.Plausible)
		assert.Equal(t, 1.0, c.Times)
	}
}

func TestStrayLot(t *testing.T) {
	for _, c := range []struct {
		factor fit.Interval
		stray  bool
	}{
		{fit.Interval{Median: 3, Low: 2.2, High: 4}, true},
		{fit.Interval{Median: 1 / 3.0, Low: 0.25, High: 0.45}, true},
		{fit.Interval{Median: 2, Low: 1.9, High: 2.1}, false},
		{fit.Interval{Median: 1.5, Low: 1.4, High: 1.6}, false},
		{fit.Interval{Median: 3, Low: 0.8, High: 11}, false},
		{fit.Interval{Median: 0.3, Low: 0.08, High: 1.2}, false},
		{fit.Interval{}, false},
		{fit.Interval{Median: 3, Low: 2, High: math.Inf(1)}, false},
		{fit.Interval{Median: math.NaN(), Low: 2, High: 4}, false},
	} {
		assert.Equal(t, c.stray, measure.StrayLot(c.factor), c.factor)
	}
}

// The numbers as their sources print them: bentonite 4.0 g in 200 mL (USP-NF,
// read), skin (Lambers et al. 2006, read), vinegar (FDA CPG 525.825, read),
// silica (29 CFR 1910.1053, secondary source), lead (FDA draft guidance 2016,
// read), chalk (memory). A vinegar of 4 g/100 mL, 60.05 g/mol and pKa 4.756, is
// sourer than 0.1 M acetic acid, whose pH is 2.88 (read), and so far below skin.
func TestFigures(t *testing.T) {
	for _, c := range []struct {
		figure    measure.Figure
		low, high float64
		memory    bool
	}{
		{measure.SwellingClayPH, 9.5, 10.5, false},
		{measure.ChalkPH, 8, 10, true},
		{measure.SkinPH, 4.7, 4.7, false},
		{measure.VinegarAcid, 4, 4, false},
		{measure.SilicaDust, 50, 50, false},
		{measure.SkinLead, 10, 10, false},
	} {
		assert.Equal(t, c.low, c.figure.Low)
		assert.Equal(t, c.high, c.figure.High)
		assert.Equal(t, c.memory, c.figure.FromMemory)
		require.NotEmpty(t, c.figure.Source)
	}
	acetic := func(molar float64) float64 { // h² + K·h - K·c = 0
		k := math.Pow(10, -4.756)
		return -math.Log10((math.Sqrt(k*k+4*k*molar) - k) / 2)
	}
	assert.InDelta(t, 2.88, acetic(0.1), 0.005)
	vinegar := acetic(measure.VinegarAcid.Low * 10 / 60.05)
	assert.Less(t, vinegar, acetic(0.1))
	assert.Less(t, vinegar, measure.SkinPH.Low)
	assert.Greater(t, measure.SwellingClayPH.Low, measure.SkinPH.High+4, "why acid is asked for at all")
}
