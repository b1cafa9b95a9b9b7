package fit

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// aimed is a node with the u where it reaches the level, and its weight by the expected
// range.
type aimed struct {
	bruteNode
	u, share float64
}

// plainOutlook computes an outlook node by node: the expected squared width of the central
// 68 % of u at a level after a look at x, and the chance of each look.
func plainOutlook(b brute, level, x, step float64, e Expected) Outlook {
	nodes := make([]aimed, len(b.nodes))
	for i, n := range b.nodes {
		u := math.Max(-math.Log(300), math.Min(-math.Log(0.02), n.at(level)))
		share := 1.0
		if e.High > 0 {
			beyond := math.Max(math.Max(-math.Log(e.High)-u, u+math.Log(e.Low)), 0) / 0.2
			if e.Normal {
				beyond = (u + math.Log(e.Low*e.High)/2) / (1.3 * math.Log(e.High/e.Low) / 2 / 1.96)
			}
			share = 0.1 + 0.9*math.Exp(-beyond*beyond/2)
		}
		nodes[i] = aimed{n, u, share}
	}
	slices.SortFunc(nodes, func(m, n aimed) int { return cmp.Compare(m.u, n.u) })
	var o Outlook
	all := 0.0
	weights := make([]float64, len(nodes))
	for y := 0.0; y <= 7; y += step {
		sum := 0.0
		for i, n := range nodes {
			weights[i] = n.share * n.weight * n.look(y, step, math.Log(x))
			sum += weights[i]
		}
		at := func(q float64) float64 {
			below := 0.0
			for i, w := range weights {
				if below += w; below >= q*sum {
					return nodes[i].u
				}
			}
			return math.NaN()
		}
		width := at(0.84) - at(0.16)
		o.SquaredWidth += sum * width * width
		o.Chance[int(2*y)] = sum
		all += sum
	}
	o.SquaredWidth /= all
	for i := range o.Chance {
		o.Chance[i] /= all
	}
	return o
}

func TestOutlooksAgainstThePlainComputation(t *testing.T) {
	if testing.Short() {
		t.Skip("the plain computation takes over a second")
	}
	for _, c := range []struct {
		data     Data
		level    float64
		xs       []float64
		expected Expected
	}{
		{data(1, []float64{0.2, 0.3}, []float64{0, 2}), 5, []float64{0.25, 0.4, 0.5, 0.8}, Expected{}},
		{data(1, []float64{0.2, 0.3}, []float64{0, 2}), 5, []float64{0.4, 0.6}, Expected{Low: 1.2, High: 2.2}},
		{
			data(1, []float64{0.2, 0.3}, []float64{0, 2}), 5,
			[]float64{0.4, 0.6},
			Expected{Low: 1.1, High: 2.3, Normal: true},
		},
		{data(0.5, []float64{0.3, 0.4, 0.5}, []float64{2.5, 4, 5.5}), 3, []float64{0.32, 0.45}, Expected{}},
		{data(1, []float64{1, 2}, []float64{1, 3}), 6, []float64{2.5, 4}, Expected{}},
		{climbing(18), 5, []float64{0.42, 0.5, 0.6}, Expected{}},
	} {
		got := Solve(c.data).Outlooks(c.level, c.xs, c.expected)
		require.Len(t, got, len(c.xs))
		b := newBrute(c.data, 27, 19, 9)
		for i, x := range c.xs {
			want := plainOutlook(b, c.level, x, c.data.LevelStep, c.expected)
			// 7 % of the square are 3.5 % of the width, which only ranks additions.
			assert.InEpsilon(t, want.SquaredWidth, got[i].SquaredWidth, 0.07, "level %v, x = %v", c.level, x)
			for j := range want.Chance {
				assert.InDelta(t, want.Chance[j], got[i].Chance[j], 0.004, "level %v, x = %v: look %v", c.level, x,
					float64(j)/2)
			}
		}
	}
}

// climbing is so many looks from watery to level 4, close to a slope of 6.
func climbing(looks int) Data {
	xs, levels := make([]float64, looks), make([]float64, looks)
	for i := range looks {
		xs[i] = 0.2 * math.Exp(0.7*float64(i)/float64(looks-1))
		levels[i] = math.Round(4.2 * float64(i) / float64(looks-1))
	}
	return data(1, xs, levels)
}

// A normal of SD 0.1: the central 68 % are 0.1989 wide, 95 % are ±0.1960.
func TestOutlookAsAHalfWidth(t *testing.T) {
	width := 2 * 0.994458 * 0.1
	assert.InDelta(t, 0.19600, Outlook{SquaredWidth: width * width}.HalfWidth(), 1e-5)
}

func TestOutlookWords(t *testing.T) {
	var o Outlook
	o.Chance[6], o.Chance[8], o.Chance[10], o.Chance[12] = 0.05, 0.5, 0.4, 0.05
	low, high := o.Likely()
	assert.Equal(t, []float64{4, 5}, []float64{low, high})
	assert.InDelta(t, 0.45, o.Above(4), 1e-12)
	assert.InDelta(t, 0.05, o.Above(5), 1e-12)
}

// Beyond the likely levels lies a tenth of the probability on either side, and no
// more: 8 % are beyond, 12 % are not.
func TestLikelyLeavesATenthOnEitherSide(t *testing.T) {
	for _, c := range []struct {
		below, above, low, high float64
	}{
		{0.08, 0.08, 4, 5},
		{0.12, 0.08, 3, 5},
		{0.08, 0.12, 4, 6},
		{0.12, 0.12, 3, 6},
	} {
		var o Outlook
		o.Chance[6], o.Chance[8], o.Chance[10], o.Chance[12] = c.below, 0.4, 0.6-c.below-c.above, c.above
		low, high := o.Likely()
		assert.Equal(t, []float64{c.low, c.high}, []float64{low, high}, "%v below, %v above", c.below, c.above)
	}
}

// Of a uniform distribution the central 68 % are 68 % of its width.
func TestCentralOfAUniformDistribution(t *testing.T) {
	var values []weighted
	for i := range 100 {
		values = append(values, weighted{float64(i), 0.5})
	}
	assert.InDelta(t, 68, central(values, 50), 1e-9)
}

// Beyond the expected range the weight falls like a normal of SD 0.2 in ln R, down to a
// tenth; a 95 % interval weighs like a normal 1.3 times as wide.
func TestWeightOfWhatIsExpected(t *testing.T) {
	e := Expected{Low: 2, High: 4}
	for ratio, want := range map[float64]float64{
		2: 1, 3: 1, 4: 1,
		4 * math.Exp(0.2): 0.1 + 0.9*0.60653, 4 * math.Exp(0.4): 0.1 + 0.9*0.13534,
		2 * math.Exp(-0.2): 0.1 + 0.9*0.60653, 50: 0.1, 0.1: 0.1,
	} {
		assert.InDelta(t, want, e.weight(-math.Log(ratio)), 1e-5, "%v g/g", ratio)
	}
	e.Normal = true // middle √8, SD 1.3·ln 2/3.92
	for ratio, want := range map[float64]float64{
		math.Sqrt(8): 1, 2: 0.1 + 0.9*math.Exp(-1.96*1.96/1.69/2), 4: 0.1 + 0.9*math.Exp(-1.96*1.96/1.69/2),
		math.Sqrt(8) * math.Exp(1.3*math.Ln2/3.92): 0.1 + 0.9*0.60653, 50: 0.1, 0.1: 0.1,
	} {
		assert.InDelta(t, want, e.weight(-math.Log(ratio)), 1e-5, "%v g/g", ratio)
	}
	assert.Equal(t, 1.0, Expected{}.weight(0))
}

func TestOutlookOfNoComposition(t *testing.T) {
	p := Solve(data(1, []float64{0.3, 0.4}, []float64{4, 5}))
	for _, o := range p.Outlooks(5, []float64{0, -1, math.NaN(), math.Inf(1)}, Expected{}) {
		assert.True(t, math.IsInf(o.SquaredWidth, 1))
	}
}
