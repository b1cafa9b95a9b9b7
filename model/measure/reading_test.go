package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

// soil is a published liquid limit: water content w, %, is 100·R.
type soil struct {
	kind     measure.Kind
	readings []float64
	w        []float64
}

var (
	// smith is from Smith's Elements of Soil Mechanics, Example 1.3 (read).
	smith = soil{measure.Cone, []float64{16.1, 17.6, 19.3, 21.3, 22.6}, []float64{50.0, 52.1, 54.1, 57.0, 58.2}}
	// budhu is from Budhu, Soil Mechanics and Foundations, Example 4.11 (read).
	budhu = soil{measure.Cone, []float64{5.5, 7.8, 14.8, 22, 32}, []float64{39, 44.8, 52.5, 60.3, 67}}
	// das is from Das, Principles of Geotechnical Engineering, an older Problem 4.3 (read).
	das = soil{measure.Blows, []float64{15, 20, 28}, []float64{42, 40.8, 39.1}}
	// twoPoints is a standard exercise with two points (read).
	twoPoints = soil{measure.Blows, []float64{10, 100}, []float64{70, 20}}
)

func (s soil) curve() measure.Curve {
	var points []measure.Point
	for i, r := range s.readings {
		points = append(points, measure.Point{PowderPerLiquid: 100 / s.w[i], Reading: r})
	}
	return measure.FitCurve(s.kind, points)
}

func logs(v []float64) []float64 {
	l := make([]float64, len(v))
	for i := range v {
		l[i] = math.Log(v[i])
	}
	return l
}

// The textbooks' direction: water content on reading, log-log unless said.
func TestLiquidLimitsAsPrinted(t *testing.T) {
	at := func(s soil, reading float64) float64 {
		z, _ := line(t, logs(s.readings), logs(s.w)).At(math.Log(reading))
		return math.Exp(z)
	}
	assert.InEpsilon(t, 55, at(smith, 20), 0.01, "printed, off a hand-drawn graph")
	assert.InDelta(t, 55.164, at(smith, 20), 0.0005, "computed")

	l := line(t, logs(budhu.readings), logs(budhu.w))
	assert.InDelta(t, 23.6, math.Exp(l.Intercept), 0.05, "printed")
	assert.InDelta(t, 23.633, math.Exp(l.Intercept), 0.0005, "computed")
	assert.InDelta(t, 0.3011, l.Slope, 0.00005, "computed; printed 0.3")
	assert.InEpsilon(t, 29, at(budhu, 2), 0.01, "printed")
	assert.InDelta(t, 29.118, at(budhu, 2), 0.0005, "computed")
	assert.InDelta(t, 58.245, at(budhu, 20), 0.0005, "computed")

	assert.InEpsilon(t, 39.7, at(das, 25), 0.01, "solution site")
	assert.InDelta(t, 39.661, at(das, 25), 0.0005, "computed")

	semi := line(t, logs(twoPoints.readings), twoPoints.w)
	w, _ := semi.At(math.Log(25))
	assert.InDelta(t, 50.103, w, 0.0005, "w straight in log N (computed)")
	assert.InDelta(t, 42.520, at(twoPoints, 25), 0.0005, "power law (computed): the model is the answer")
}

// The project's own direction: reading on ln(powder per liquid), solved back
// (computed with SciPy 1.10 on the textbooks' data).
func TestRatioAtReading(t *testing.T) {
	for name, c := range map[string]struct {
		soil                     soil
		reading, w, low, high, g float64
		inside                   bool
	}{
		"Smith at 20 mm":     {smith, 20, 55.1660, 54.9007, 55.4465, 0.00704, true},
		"Budhu at 20 mm":     {budhu, 20, 58.2742, 56.7820, 60.0132, 0.01435, true},
		"Budhu at 2 mm":      {budhu, 2, 29.0471, 26.7492, 31.0167, 0.01435, false},
		"Das, cup, 25 blows": {das, 25, 39.6574, 35.2507, 40.6175, 0.663, true},
	} {
		t.Run(name, func(t *testing.T) {
			a := c.soil.curve().RatioAt(c.reading, 0.95)
			require.Equal(t, measure.Solved, a.Status)
			assert.InDelta(t, c.w, 100*a.Ratio.Median, 5e-5)
			assert.InDelta(t, c.low, 100*a.Ratio.Low, 5e-5)
			assert.InDelta(t, c.high, 100*a.Ratio.High, 5e-5)
			assert.InEpsilon(t, c.g, a.G, 1e-3)
			assert.Equal(t, c.inside, a.Inside)
		})
	}
	// With w straight in log N the same three points have g = 0.474 (computed);
	// g does not depend on the logarithm's base.
	semi := line(t, logs(das.readings), das.w).Solve(39.66, 0.95)
	assert.InDelta(t, 0.474, semi.G, 0.0005)
	lopsided := das.curve().RatioAt(25, 0.95).Ratio
	assert.Greater(t, lopsided.Median-lopsided.Low, 4*(lopsided.High-lopsided.Median))
}

func TestTwoReadingsHaveNoInterval(t *testing.T) {
	a := twoPoints.curve().RatioAt(25, 0.95)
	assert.Equal(t, measure.NoInterval, a.Status)
	assert.InDelta(t, 42.520, 100*a.Ratio.Median, 0.0005, "computed, power law")
	assert.Equal(t, fit.Interval{Median: a.Ratio.Median}, a.Ratio)
}

// ASTM D4318, Method B: one-point factors for 20 to 30 blows (read from a
// listing of the table). Dishes that hold to them follow w·(N/25)^0.121, and so
// does the curve.
func TestOnePointFactors(t *testing.T) {
	factors := []float64{0.973, 0.979, 0.985, 0.990, 0.995, 1.000, 1.005, 1.009, 1.014, 1.018, 1.022}
	s := soil{kind: measure.Blows}
	for i, f := range factors {
		s.readings, s.w = append(s.readings, float64(20+i)), append(s.w, 40/f)
	}
	curve := s.curve()
	e, ok := curve.Exponent()
	require.True(t, ok)
	assert.InDelta(t, 0.121, 1/e, 0.001)
	a := curve.RatioAt(25, 0.95)
	assert.InDelta(t, 40, 100*a.Ratio.Median, 0.02)
	assert.Less(t, 100*a.Ratio.Low, 40.0)
	assert.Greater(t, 100*a.Ratio.High, 40.0)
	// N = 21, w = 30.4: 29.77 (computed).
	at21 := curve.RatioAt(21, 0.95)
	assert.InDelta(t, 29.77, 30.4*a.Ratio.Median/at21.Ratio.Median, 0.01)
}

func TestReadingsThatGiveNoRatio(t *testing.T) {
	p := func(x, r float64) measure.Point { return measure.Point{PowderPerLiquid: x, Reading: r} }
	status := func(k measure.Kind, wanted float64, points ...measure.Point) measure.Status {
		a := measure.FitCurve(k, points).RatioAt(wanted, 0.95)
		assert.Zero(t, a.Ratio)
		return a.Status
	}
	assert.Equal(t, measure.Unusable, status(measure.Spread, 60))
	assert.Equal(t, measure.Unusable, status(measure.Spread, 60, p(0.5, 60)))
	assert.Equal(t, measure.Unusable, status(measure.Spread, 60, p(0.5, 60), p(0, 80), p(0.6, math.NaN()), p(0.5, 62)))
	assert.Equal(t, measure.Unusable, status("colour", 60, p(0.5, 60), p(0.6, 50)))
	assert.Equal(t, measure.Unusable, status(measure.Spread, -1, p(0.5, 60), p(0.6, 50)))
	assert.Equal(t, measure.Unusable, status(measure.Spread, 1e300, p(0.5, 60), p(0.6, 59.999)))
	assert.Equal(t, measure.SlopeUnclear, status(measure.Spread, 60, p(0.5, 60), p(0.55, 80), p(0.6, 60), p(0.7, 80)))
	assert.Equal(t, measure.Backwards, status(measure.Spread, 60, p(0.5, 50), p(0.6, 60), p(0.7, 70)))
	assert.Equal(t, measure.Backwards, status(measure.Drain, 60, p(0.5, 70), p(0.6, 60)))
	assert.Equal(t, measure.SlopeUnclear,
		status(measure.Spread, 1e300, p(0.50, 60), p(0.55, 54.1), p(0.6, 50)), "limits beyond what a number holds")
	assert.Equal(t, measure.SlopeUnclear,
		status(measure.Spread, 60, p(0.5, 60), p(0.6, 60)), "two equal readings")
}

// A dish at the plain liquid, or a reading of 0, is kept by the trial and not
// fitted.
func TestOnlyPossibleReadingsCount(t *testing.T) {
	c := measure.FitCurve(measure.Slump, []measure.Point{
		{PowderPerLiquid: 0, Reading: 50},
		{PowderPerLiquid: 0.4, Reading: 44},
		{PowderPerLiquid: 0.5, Reading: 31},
		{PowderPerLiquid: 0.6, Reading: 21},
		{PowderPerLiquid: 0.9, Reading: 0},
		{PowderPerLiquid: math.Inf(1), Reading: 1},
	})
	assert.Equal(t, 3, c.Used)
	assert.Equal(t, 21.0, c.Low)
	assert.Equal(t, 44.0, c.High)
	for _, wanted := range []struct {
		reading float64
		inside  bool
	}{{21, true}, {30, true}, {44, true}, {20.9, false}, {45, false}} {
		assert.Equal(t, wanted.inside, c.RatioAt(wanted.reading, 0.95).Inside, wanted.reading)
	}
}

func TestCurveForTheChart(t *testing.T) {
	c := smith.curve()
	ratio := c.RatioAt(20, 0.95).Ratio.Median
	reading, u, ok := c.ReadingAt(ratio)
	require.True(t, ok)
	assert.InEpsilon(t, 20, reading, 1e-12)
	assert.Positive(t, u)
	_, further, _ := c.ReadingAt(2 * ratio)
	assert.Greater(t, further, u, "the band widens away from the readings")
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, _, ok = c.ReadingAt(bad)
		assert.False(t, ok)
	}
	_, _, ok = measure.Curve{}.ReadingAt(1)
	assert.False(t, ok)
	_, ok = measure.Curve{}.Exponent()
	assert.False(t, ok)
}

// Exact data of a known law come back, whichever way the kind reads.
func TestKnownLawComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(measure.Kinds()).Draw(t, "kind")
		e := rapid.Float64Range(0.5, 6).Draw(t, "exponent")
		if !kind.ThickerReadsMore() {
			e = -e
		}
		at1 := rapid.Float64Range(1, 100).Draw(t, "reading at 1")
		law := func(x float64) float64 { return at1 * math.Pow(x, e) }
		var points []measure.Point
		for _, x := range []float64{0.4, 0.5, 0.7, 0.8} {
			points = append(points, measure.Point{PowderPerLiquid: x, Reading: law(x)})
		}
		ratio := rapid.Float64Range(0.5, 5).Draw(t, "ratio")
		a := measure.FitCurve(kind, points).RatioAt(law(1/ratio), 0.95)
		require.Equal(t, measure.Solved, a.Status)
		assert.InEpsilon(t, ratio, a.Ratio.Median, 1e-6)
		assert.InEpsilon(t, ratio, a.Ratio.Low, 1e-6)
		assert.InEpsilon(t, ratio, a.Ratio.High, 1e-6)
	})
}

func TestKinds(t *testing.T) {
	for _, k := range measure.Kinds() {
		assert.True(t, k.Known())
		assert.Contains(t, []string{"mm", "s", "blows"}, k.Unit())
		low, high := k.Sensible()
		assert.True(t, 0 < low && low < high, k)
	}
	assert.False(t, measure.Kind("Spread").Known(), "keys are lower case")
}
