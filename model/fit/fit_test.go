package fit

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// allLevels are the levels of the ratio table and the halves between.
var allLevels = []float64{1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6}

func load(t *testing.T, name string, into any) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/" + name)
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, into))
}

func data(step float64, x, levels []float64) Data {
	d := Data{LevelStep: step}
	for i := range x {
		d.Looks = append(d.Looks, Look{x[i], levels[i]})
	}
	return d
}

// The reference cases: posterior by fine-grid quadrature with SciPy 1.10.1, as
// the note in the file says. Their reach follows from the table of the method.
func TestReferenceCases(t *testing.T) {
	var file struct {
		Cases []struct {
			Name              string
			PowderPerLiquid   []float64 `json:"powder_per_liquid"`
			Levels            []float64
			LevelStep         float64 `json:"level_step"`
			Level             float64
			Median, Low, High float64
		}
	}
	load(t, "fit_cases.json", &file)
	require.Len(t, file.Cases, 12)
	reach := map[string]Reach{
		"a single look, on the aim": OneSided,
		"a single look, far below":  NotReached,
		"all at the top":            NotReached,
	}
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			d := data(c.LevelStep, c.PowderPerLiquid, c.Levels)
			iv, ok := Posterior(d, c.Level)
			require.True(t, ok)
			assert.InEpsilon(t, c.Median, iv.Median, 0.001)
			assert.InEpsilon(t, c.Low, iv.Low, 0.001)
			assert.InEpsilon(t, c.High, iv.High, 0.001)

			want, special := reach[c.Name]
			if !special {
				want = Bracketed
			}
			r := At(d, c.Level)
			assert.Equal(t, want, r.Reach)
			assert.Equal(t, len(c.Levels), r.Looks)
			if want == NotReached {
				assert.Nil(t, r.Ratio)
				assert.NotNil(t, r.Bound)
				assert.Zero(t, r.Slope)
			} else {
				assert.Equal(t, &iv, r.Ratio)
				assert.Nil(t, r.Bound)
				assert.Positive(t, r.Slope)
			}
		})
	}
}

// Two trials as they happen at a bench: common practice, no published source.
// The wanted numbers are those of a prototype of the method.
func TestTradePractice(t *testing.T) {
	var x []float64
	for _, tsp := range []float64{0.5, 1, 1.5, 2, 3, 3.5, 4, 4.5, 5, 5.5} {
		x = append(x, tsp*1.42/5)
	}
	white := At(data(1, x, []float64{0, 0, 0, 0, 1, 2, 3, 4, 4, 5}), 5)
	assert.Equal(t, Bracketed, white.Reach)
	agree(t, Interval{0.626, 0.532, 0.688}, *white.Ratio, 0.003)

	swelling := At(data(1, []float64{4.78 / 8 / 5, 4.78 / 4 / 5}, []float64{1, 6}), 5)
	assert.Equal(t, Bracketed, swelling.Reach)
	agree(t, Interval{4.76, 3.99, 5.52}, *swelling.Ratio, 0.003)
}

func agree(t *testing.T, want, got Interval, epsilon float64) {
	t.Helper()
	assert.InEpsilon(t, want.Median, got.Median, epsilon, "median")
	assert.InEpsilon(t, want.Low, got.Low, epsilon, "low")
	assert.InEpsilon(t, want.High, got.High, epsilon, "high")
}

func TestSameLooksSameBits(t *testing.T) {
	d := dish(rand.New(rand.NewPCG(3, 4)), 30, 1, 2, 6, 0.4, 1)
	want := Levels(d, allLevels)
	for i, level := range allLevels {
		assert.Equal(t, want[i], At(d, level), "a level on its own")
	}
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() { assert.Equal(t, want, Levels(d, allLevels)) })
	}
	group.Wait()

	mixed := Data{slices.Clone(d.Looks), d.LevelStep}
	slices.Reverse(mixed.Looks)
	for i, r := range Levels(mixed, allLevels) {
		assert.Equal(t, want[i].Ratio, r.Ratio, "the order of looks")
		assert.Equal(t, want[i].Slope, r.Slope)
		assert.Equal(t, want[i].Reach, r.Reach)
	}
}

func TestSlope(t *testing.T) {
	flat := At(dish(rand.New(rand.NewPCG(1, 1)), 60, 0.5, 2, 3, 0.2, 1.5), 4)
	steep := At(dish(rand.New(rand.NewPCG(1, 1)), 60, 0.5, 2, 9, 0.2, 0.6), 4)
	assert.InDelta(t, 3, flat.Slope, 0.6)
	assert.InDelta(t, 9, steep.Slope, 1.5)
}

// Twice the powder for each look is half the ratio at each level.
func TestScalingProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		seed := rapid.Uint64().Draw(t, "seed")
		c := rapid.Float64Range(0.5, 2).Draw(t, "factor")
		n := rapid.IntRange(2, 15).Draw(t, "looks")
		d := dish(rand.New(rand.NewPCG(seed, 0)), n, 1, 1, 6, 0.4, 0.8)
		scaled := Data{LevelStep: 1}
		for _, l := range d.Looks {
			scaled.Looks = append(scaled.Looks, Look{c * l.PowderPerLiquid, l.Level})
		}
		a, b := At(d, 5), At(scaled, 5)
		if a.Reach != b.Reach {
			t.Fatalf("reach %v and %v", a.Reach, b.Reach)
		}
		if a.Reach != Bracketed || math.Log(a.Ratio.High/a.Ratio.Low) > 1 {
			return // a wide posterior feels the ends of the prior
		}
		for _, r := range []float64{
			c * b.Ratio.Median / a.Ratio.Median, c * b.Ratio.Low / a.Ratio.Low, c * b.Ratio.High / a.Ratio.High,
		} {
			if math.Abs(math.Log(r)) > 0.005 {
				t.Fatalf("%v and %v, factor %v", *a.Ratio, *b.Ratio, c)
			}
		}
	})
}

// anything draws looks as no bench would make them.
func anything(t *rapid.T) Data {
	wild := []float64{
		math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e-300, 5e-324, 1e300, math.MaxFloat64, 7, 7.5, 3.3, 0.5, 5,
	}
	number := rapid.OneOf(rapid.SampledFrom(wild), rapid.Float64Range(0, 7), rapid.Map(rapid.IntRange(0, 14), func(i int) float64 { return float64(i) / 2 }))
	look := rapid.Custom(func(t *rapid.T) Look {
		return Look{number.Draw(t, "x"), number.Draw(t, "level")}
	})
	return Data{rapid.SliceOfN(look, 0, 40).Draw(t, "looks"), number.Draw(t, "step")}
}

func TestNothingPanicsAndNothingIsMadeUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anything(t)
		level := rapid.SampledFrom([]float64{1, 3.5, 5, 6, 0, 7, 5.3, math.NaN(), math.Inf(1)}).Draw(t, "level")
		r := At(d, level)
		if (r.Ratio == nil) != (r.Reach == NotReached) {
			t.Fatalf("ratio %v with reach %v", r.Ratio, r.Reach)
		}
		if r.Ratio != nil && !sound(*r.Ratio) {
			t.Fatalf("ratio %v", *r.Ratio)
		}
		if r.Bound != nil && !(0 <= r.Bound.Low && r.Bound.Low <= r.Bound.High) {
			t.Fatalf("bound %v", *r.Bound)
		}
		if r.Bound != nil && r.Ratio != nil {
			t.Fatal("both a ratio and a bound")
		}
		if iv, ok := Posterior(d, level); ok && !sound(iv) {
			t.Fatalf("posterior %v", iv)
		}
		for _, i := range FarOut(d, level) {
			if !d.Looks[i].usable() {
				t.Fatalf("far out: %v", d.Looks[i])
			}
		}
	})
}

func sound(iv Interval) bool {
	return LowestRatio*0.999 <= iv.Low && iv.Low <= iv.Median && iv.Median <= iv.High && iv.High <= HighestRatio*1.001
}

func TestNoUsableLook(t *testing.T) {
	d := data(1, []float64{0, -1, math.NaN(), math.Inf(1), 0.3, 0.3, 0.3}, []float64{5, 5, 5, 5, 8, -1, 4.25})
	want := Result{Level: 5, Missing: MissingSecond, Nearest: -1}
	assert.Equal(t, want, At(d, 5))
	assert.Equal(t, want, At(Data{}, 5))
	_, ok := Posterior(d, 5)
	assert.False(t, ok)
	assert.Nil(t, FarOut(d, 5))
}

func TestALevelThatIsNone(t *testing.T) {
	d := data(1, []float64{0.3, 0.4}, []float64{4, 5})
	for _, level := range []float64{0, 0.5, 6.5, 7, 5.2, -3, math.NaN(), math.Inf(1)} {
		r := At(d, level)
		assert.Equal(t, NotReached, r.Reach)
		assert.Nil(t, r.Ratio)
		assert.Nil(t, r.Bound)
		_, ok := Posterior(d, level)
		assert.False(t, ok)
	}
}

// A hundred looks that say the same weigh as a hundred, and take no more time
// than one.
func TestIdenticalLooks(t *testing.T) {
	d := Data{LevelStep: 1}
	for range 200 {
		d.Looks = append(d.Looks, Look{0.5, 5})
	}
	require.Len(t, merge(d), 1)
	many, one := At(d, 5), At(Data{d.Looks[:1], 1}, 5)
	assert.Equal(t, Bracketed, many.Reach)
	assert.InDelta(t, 2, many.Ratio.Median, 0.01)
	assert.Less(t, many.Ratio.High/many.Ratio.Low, one.Ratio.High/one.Ratio.Low)
}
