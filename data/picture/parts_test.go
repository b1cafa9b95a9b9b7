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
				at := length * a.fraction(tick.value)
				ends = append(ends, [2]float64{at - half, at + half})
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

// A letter stays over its own curve unless something else stands there, and in the
// frame.
func TestLettersStandAtTheirCurves(t *testing.T) {
	frame := drawing.Area{Max: drawing.Point{X: 300, Y: 100}}
	end := drawing.Point{X: 100, Y: 50}
	assert.Equal(t, drawing.Point{X: 100, Y: 59}, letterSpot(end, nil, frame, nil))
	over := around(drawing.Point{X: 100, Y: 59}, letterRoom)
	assert.Equal(t, drawing.Point{X: 100, Y: 50}, letterSpot(end, nil, frame, []drawing.Area{over}))

	// Its own marks in the way, and to the right another curve's end.
	marks := []drawing.Area{around(end, 2*pointRadius), around(drawing.Point{X: 104, Y: 59}, 14)}
	for _, others := range [][]drawing.Point{nil, {{X: 114, Y: 50}}} {
		spot := letterSpot(end, others, frame, marks)
		assert.False(t, touches(around(spot, letterRoom), marks))
		assert.Less(t, distance(spot, end), 2*letterSize)
		for _, other := range others {
			assert.Less(t, distance(spot, end), distance(spot, other))
		}
	}

	for _, at := range []drawing.Point{{X: 100, Y: 97}, {X: 400, Y: 50}, {X: -3, Y: 100}} {
		spot := letterSpot(at, nil, frame, []drawing.Area{around(at, 2*pointRadius)})
		for _, room := range []float64{spot.X, 300 - spot.X, spot.Y, 100 - spot.Y} {
			assert.GreaterOrEqual(t, room, letterRoom/2+1, "off the frame's line")
		}
	}
}

// Looks at one place stand side by side, each as far from it as the others; the numbers
// of trials that would touch are written as one.
func TestLooksAtOnePlaceAreAllSeen(t *testing.T) {
	looks := func(trial int, xs ...float64) (all []bench.LookPoint) {
		for _, x := range xs {
			all = append(all, bench.LookPoint{X: x, Level: 5, Trial: trial})
		}
		return all
	}
	s := scene{axis: axis{0, 1, false}, series: []series{
		{letter: "A", looks: slices.Concat(looks(0, 0.2, 0.5), looks(1, 0.2, 0.51), looks(2, 0.201))},
		{letter: "B", looks: slices.Concat(looks(0, 0.5), looks(1, 0.8))},
	}}
	assert.Equal(t, [][]float64{{-5, -2.5, 0, 0, 5}, {2.5, 0}}, s.beside())
	assert.Contains(t, scene{axis: s.axis, series: s.series[:1]}.explained(), "side by side: looks at one place")

	onPage := func(ratio, level float64) drawing.Point { return drawing.Point{X: 400 * ratio, Y: 20 * level} }
	var numbers []string
	figures := s.figures(onPage)
	for i, f := range figures {
		numbers = append(numbers, f.numbers)
		assert.False(t, touches(f.area(), areasOf(slices.Delete(slices.Clone(figures), i, i+1))), f.numbers)
	}
	assert.Equal(t, []string{"1,2,3", "1,2", "1", "2"}, numbers)

	s.series[1].looks = append(s.series[1].looks, bench.LookPoint{X: 0.8, Level: 5.4}) // where 2 stood
	for _, f := range s.figures(onPage) {
		assert.False(t, touches(f.area(), s.marks(onPage)), f.numbers)
	}
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
		require.Equal(t, bench.IntervalText(repeats.RoundedInterval(powder)), one.says())
	}
}
