package picture

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"testing"

	"daub.example/daub/data/drawing"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Ticks are enough to read by and leave each other room.
func TestTicksHaveRoom(t *testing.T) {
	const length = 380
	for _, high := range []float64{1e-4, 0.037, 0.9, 1, 1.29, 7, 50, 1e4} {
		for _, a := range []axis{
			{0, high, false},
			{high / 1.4, high, true},
			{high / 60, high, true},
			{high / 1e6, high, true},
		} {
			var ends [][2]float64
			for _, tick := range a.ticks(length) {
				assert.True(t, tick.value >= a.low*(1-1e-9) && tick.value <= a.high*(1+1e-9))
				if tick.label == "" {
					continue
				}
				v, err := strconv.ParseFloat(tick.label, 64)
				require.NoError(t, err)
				assert.InDelta(t, tick.value, v, 1e-9*high, "the label says the value")
				half := lettering(textSize, false).Width(tick.label) / 2
				ends = append(ends, [2]float64{length*a.place(tick.value) - half, length*a.place(tick.value) + half})
			}
			assert.True(t, len(ends) >= 3 && len(ends) <= 16, "%d on %v", len(ends), a)
			slices.SortFunc(ends, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
			for i := 1; i < len(ends); i++ {
				assert.Greater(t, ends[i][0], ends[i-1][1]+2, "%v", a)
			}
		}
	}
}

// The interval at the target is on the axis, and an axis that would be squeezed
// by it is logarithmic.
func TestAxisHoldsTheInterval(t *testing.T) {
	for high, log := range map[float64]bool{1.1: false, 3: false, 5: true, 900: true} {
		a := scene{series: []series{{
			looks:  []bench.LookPoint{{X: 0.5, Level: 2}, {X: 1, Level: 5}},
			answer: repeats.Ratio{Powder: &fit.Interval{}},
			target: bench.CurvePoint{Level: 5, X: 0.9, Low: 0.3, High: high},
		}}}.ratioAxis()
		assert.Equal(t, log, a.log, "%v", high)
		for _, x := range []float64{0.3, high, 0.5, 1} {
			assert.Less(t, a.low, x)
			assert.Greater(t, a.high, x)
		}
	}
}

// Between its points a curve bends without corners, and never turns back.
func TestSmoothCurves(t *testing.T) {
	var run []bench.CurvePoint
	for i, x := range []float64{0.1, 0.11, 0.3, 0.31, 0.9} {
		run = append(run, bench.CurvePoint{Level: float64(i), X: x, Low: 0, High: math.Inf(1), OneSided: i > 2})
	}
	out := smooth(run)
	assert.Len(t, out, 4*between+1)
	for i := range out {
		if i%between == 0 {
			assert.Equal(t, run[i/between], out[i], "the points stay")
		} else {
			assert.Equal(t, i > 2*between, out[i].OneSided)
			assert.Equal(t, [2]float64{leastRatio, mostRatio}, [2]float64{
				model.RoundSignificant(out[i].Low, 6),
				model.RoundSignificant(out[i].High, 6),
			})
		}
		if i > 0 {
			assert.Greater(t, out[i].X, out[i-1].X)
		}
	}
}

// A letter stays over its own curve unless another stands there.
func TestLettersStandOverTheirCurves(t *testing.T) {
	at := func(x, y float64) letter { return letter{at: drawing.Point{X: x, Y: y}} }
	far := []letter{at(100, 54.5), at(190, 50), at(150, 50)}
	assert.Equal(t, []letter{at(100, 54.5), at(150, 50), at(190, 50)}, apart(far))
	assert.Equal(
		t,
		[]letter{at(100, 50), at(109, 50), at(118, 50)},
		apart([]letter{at(103, 50), at(100, 50), at(106, 50)}),
	)
	assert.Equal(
		t,
		[]letter{at(100, 50), at(101, 60)},
		apart([]letter{at(100, 50), at(101, 60)}),
		"one above the other",
	)
}

// The legend has the digits of the ratio's table: 0.96649 is 0.9665 there, and 0.967 of
// that in every place.
func TestTheLegendHasTheDigitsOfTheTable(t *testing.T) {
	for ln := -1.0; ln < 2; ln += 0.0037 {
		powder := fit.Interval{Median: math.Exp(ln), Low: math.Exp(ln - 0.1), High: math.Exp(ln + 0.1)}
		one := series{
			looks:  []bench.LookPoint{{X: 1}},
			answer: repeats.Ratio{Level: 5, Reach: fit.Bracketed, Powder: &powder, Next: &powder},
		}
		require.Equal(t, bench.IntervalText(repeats.ToldInterval(powder)), one.says())
	}
}
