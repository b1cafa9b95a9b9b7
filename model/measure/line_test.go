package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"daub.example/daub/model/measure"
)

func line(t require.TestingT, x, y []float64) measure.Line {
	l, ok := measure.FitLine(x, y)
	require.True(t, ok)
	return l
}

// JCGM 100:2008, H.3, calibration of a thermometer (read): the numbers printed.
func TestThermometer(t *testing.T) {
	x := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	b := []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
	for i := range x {
		x[i] -= 20
	}
	l := line(t, x, b)
	assert.InDelta(t, -0.1712, l.Intercept, 0.00005)
	assert.InDelta(t, 0.0029, l.InterceptSD, 0.00005)
	assert.InDelta(t, 0.00218, l.Slope, 0.000005)
	assert.InDelta(t, 0.00067, l.SlopeSD, 0.000005)
	assert.InDelta(t, -0.930, l.InterceptSlopeR, 0.0005)
	at30, u := l.At(30 - 20)
	assert.InDelta(t, -0.1494, at30, 0.00005)
	assert.InDelta(t, 0.0041, u, 0.00005)
}

// NIST StRD, Norris (read): certified values, eight digits and more.
func TestNorris(t *testing.T) {
	y := []float64{
		0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3, 448.9,
		10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6, 228.9,
		668.4, 449.2, 0.2,
	}
	x := []float64{
		0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0, 447.5,
		11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3, 229.2,
		669.1, 448.9, 0.5,
	}
	l := line(t, x, y)
	assert.Equal(t, 36, l.N)
	assert.InEpsilon(t, -0.262323073774029, l.Intercept, 1e-11)
	assert.InEpsilon(t, 1.00211681802045, l.Slope, 1e-13)
	assert.InEpsilon(t, 0.232818234301152, l.InterceptSD, 1e-11)
	assert.InEpsilon(t, 0.429796848199937e-03, l.SlopeSD, 1e-11)
}

// Graybill & Iyer 1994, p. 119 and 434, as in Greenwell & Schubert Kabban 2014,
// R Journal (read): time for a mean weight.
func TestCrystalGrowth(t *testing.T) {
	weight := []float64{0.08, 1.12, 4.43, 4.98, 4.92, 7.18, 5.57, 8.40, 8.81, 10.81, 11.16, 10.12, 13.12, 15.04}
	hours := make([]float64, len(weight))
	for i := range hours {
		hours[i] = float64(2 * (i + 1))
	}
	l := line(t, hours, weight)
	at8 := l.Solve(8, 0.95)
	assert.Equal(t, measure.Solved, at8.Status)
	assert.InDelta(t, 15.8882, at8.X, 0.00005)
	assert.InDelta(t, 14.6590, at8.Low, 0.00005)
	assert.InDelta(t, 17.1596, at8.High, 0.00005)
	at5 := l.Solve(5, 0.90)
	assert.InDelta(t, 9.93, at5.X, 0.005)
	assert.InDelta(t, 8.65, at5.Low, 0.005)
	assert.InDelta(t, 11.05, at5.High, 0.005)
}

// The same, p. 433 (read): dial setting for a mean temperature.
func TestReactionChamber(t *testing.T) {
	dial := []float64{0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 100}
	degrees := []float64{206.36, 225.52, 252.18, 289.33, 318.11, 349.49, 383.03, 410.70, 444.40, 469.14, 501.16}
	at400 := line(t, dial, degrees).Solve(400, 0.99)
	assert.Equal(t, measure.Solved, at400.Status)
	assert.InDelta(t, 66.5, at400.X, 0.05)
	assert.InDelta(t, 65.07, at400.Low, 0.005)
	assert.InDelta(t, 68.03, at400.High, 0.005)
}

func TestNoLine(t *testing.T) {
	inf := math.Inf(1)
	for name, xy := range map[string][2][]float64{
		"nothing":        {nil, nil},
		"one point":      {{1}, {2}},
		"uneven":         {{1, 2}, {3}},
		"one x":          {{0.1, 0.1, 0.1}, {1, 2, 3}},
		"not a number":   {{1, math.NaN()}, {1, 2}},
		"infinite":       {{1, 2}, {1, inf}},
		"beyond numbers": {{-1e308, 1e308, 0}, {1e308, -1e308, 1}},
	} {
		_, ok := measure.FitLine(xy[0], xy[1])
		assert.False(t, ok, name)
	}
}

func TestSolveWithoutAnAnswer(t *testing.T) {
	assert.Equal(t, measure.Inverse{Status: measure.Unusable}, measure.Line{}.Solve(1, 0.95))
	l := line(t, []float64{1, 2, 3}, []float64{1, 2, 3.5})
	for _, confidence := range []float64{0, 1, -1, math.NaN()} {
		assert.Equal(t, measure.Unusable, l.Solve(2, confidence).Status)
	}
	assert.Equal(t, measure.Unusable, l.Solve(math.NaN(), 0.95).Status)

	flat := line(t, []float64{1, 2, 3}, []float64{2, 2, 2}).Solve(2, 0.95)
	assert.Equal(t, measure.SlopeUnclear, flat.Status)
	assert.True(t, math.IsInf(flat.G, 1))
	scattered := line(t, []float64{1, 2, 3, 4}, []float64{1, 3, 1, 3}).Solve(2, 0.95)
	assert.Equal(t, measure.SlopeUnclear, scattered.Status)
	assert.GreaterOrEqual(t, scattered.G, 1.0)
	assert.Zero(t, scattered.High-scattered.Low, "no finite interval")
	assert.Zero(t, scattered.X, "and no value")

	two := line(t, []float64{1, 2}, []float64{1, 3}).Solve(2, 0.95)
	assert.Equal(t, measure.Inverse{Status: measure.NoInterval, X: 1.5}, two)

	tiny := line(t, []float64{0, 1, 2}, []float64{0, 1e-300, 2e-300})
	assert.Equal(t, measure.Unusable, tiny.Solve(1e20, 0.95).Status, "beyond what a number holds")
}

// anyLine draws a line through noisy points, for property tests.
func anyLine(t *rapid.T) measure.Line {
	n := rapid.IntRange(3, 12).Draw(t, "n")
	slope := rapid.SampledFrom([]float64{-8, -1, -0.2, 0.2, 1, 8}).Draw(t, "slope")
	x, y := make([]float64, n), make([]float64, n)
	for i := range x {
		x[i] = float64(i) + rapid.Float64Range(-0.4, 0.4).Draw(t, "x")
		y[i] = slope*x[i] + rapid.Float64Range(-0.5, 0.5).Draw(t, "noise")
	}
	return line(t, x, y)
}

// Fieller's interval holds the value and widens with confidence. At each limit the wanted y
// lies t standard uncertainties off the line.
func TestFiellerProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := anyLine(t)
		y := rapid.Float64Range(-100, 100).Draw(t, "y")
		narrow, wide := l.Solve(y, 0.5), l.Solve(y, 0.95)
		if wide.Status != measure.Solved {
			assert.Equal(t, measure.SlopeUnclear, wide.Status)
			return
		}
		require.Equal(t, measure.Solved, narrow.Status)
		assert.Less(t, narrow.G, 1.0)
		slack := 1e-9 * (1 + math.Abs(wide.Low) + math.Abs(wide.High))
		assert.LessOrEqual(t, narrow.Low, narrow.X+slack)
		assert.GreaterOrEqual(t, narrow.High, narrow.X-slack)
		assert.LessOrEqual(t, wide.Low, narrow.Low+slack)
		assert.GreaterOrEqual(t, wide.High, narrow.High-slack)
		pivot := func(x float64) float64 {
			at, u := l.At(x)
			return math.Abs(y-at) / u
		}
		if l.S > 1e-6 { // no noise, no width
			assert.InEpsilon(t, pivot(wide.Low), pivot(wide.High), 1e-5)
		}
	})
}
