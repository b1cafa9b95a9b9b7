package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The reference cases: quadrature with SciPy 1.10.1, 20001 nodes, as the note
// in the file says.
func TestRepeatCases(t *testing.T) {
	var file struct {
		Cases []struct {
			Name                string
			LnRatio             []float64 `json:"ln_ratio"`
			StandardUncertainty []float64 `json:"standard_uncertainty"`
			Low, Median, High   float64
			BetweenTrialsMedian float64 `json:"between_trials_median"`
			NextLow             float64 `json:"next_low"`
			NextHigh            float64 `json:"next_high"`
		}
	}
	load(t, "repeat_cases.json", &file)
	require.Len(t, file.Cases, 4)
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			got, ok := Combine(repeats(c.LnRatio, c.StandardUncertainty), 0)
			require.True(t, ok)
			const within = 5e-6
			assert.InDelta(t, c.Median, got.Powder.Median, within)
			assert.InDelta(t, c.Low, got.Powder.Low, within)
			assert.InDelta(t, c.High, got.Powder.High, within)
			assert.InDelta(t, c.NextLow, got.Next.Low, within)
			assert.InDelta(t, c.NextHigh, got.Next.High, within)
			assert.InDelta(t, c.BetweenTrialsMedian, got.BetweenTrials, within)
		})
	}
}

func repeats(y, s []float64) []Repeat {
	trials := make([]Repeat, len(y))
	for i := range y {
		trials[i] = Repeat{y[i], s[i]}
	}
	return trials
}

// Cadmium heat of vaporisation, Paule & Mandel 1982, J. Res. NBS 87, 377-385
// (data read; the fixed-effect mean and their consensus mean computed). With a
// very wide prior the answer is a posterior and not their estimate, so it is
// held to lie near it only.
func TestCadmium(t *testing.T) {
	y := []float64{27.044, 26.022, 26.340, 26.787, 26.796}
	s := []float64{0.003, 0.076, 0.464, 0.003, 0.014}
	for i := range s {
		s[i] = math.Sqrt(s[i])
	}
	fixed, ok := CombineWithPrior(repeats(y, s), 0, 0)
	require.True(t, ok)
	assert.InDelta(t, 26.886920, fixed.Powder.Median, 1e-6)
	assert.Zero(t, fixed.BetweenTrials)
	assert.InDelta(t, fixed.Powder.High, fixed.Next.High, 1e-12)

	wide, ok := CombineWithPrior(repeats(y, s), 0, 10)
	require.True(t, ok)
	assert.InDelta(t, 26.712, wide.Powder.Median, 0.01)
}

// By hand: one trial, no spread: half-widths 1.959964·0.08 = 0.156797 and with
// a common 0.1 √(0.156797² + 0.1²) = 0.185971.
func TestCommonIsAddedOnce(t *testing.T) {
	got, ok := CombineWithPrior([]Repeat{{0.65, 0.08}}, 0.1, 0)
	require.True(t, ok)
	for _, iv := range []Interval{got.Powder, got.Next} {
		assert.InDelta(t, 0.65-0.185971, iv.Low, 1e-6)
		assert.InDelta(t, 0.65, iv.Median, 1e-9)
		assert.InDelta(t, 0.65+0.185971, iv.High, 1e-6)
	}
}

func TestCombineLeavesOutWhatItCannotUse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := []Repeat{{0.65, 0.08}, {0.63, 0.06}}
	want, _ := Combine(good, 0)
	got, ok := Combine([]Repeat{{nan, 1}, good[1], {1, 0}, {1, -1}, good[0], {inf, 1}, {1, inf}, {1, nan}}, 0)
	assert.True(t, ok)
	assert.Equal(t, want, got)
	for _, c := range []struct {
		trials        []Repeat
		common, scale float64
	}{
		{nil, 0, 0.1},
		{[]Repeat{{1, 0}}, 0, 0.1},
		{good, nan, 0.1},
		{good, -1, 0.1},
		{good, inf, 0.1},
		{good, 0, nan},
		{good, 0, -1},
		{good, 0, inf},
	} {
		_, ok := CombineWithPrior(c.trials, c.common, c.scale)
		assert.False(t, ok)
	}
}

func TestCombineProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trial := rapid.Custom(func(t *rapid.T) Repeat {
			return Repeat{rapid.Float64().Draw(t, "y"), rapid.Float64().Draw(t, "s")}
		})
		sane := rapid.Custom(func(t *rapid.T) Repeat {
			return Repeat{rapid.Float64Range(-4, 4).Draw(t, "y"), rapid.Float64Range(1e-9, 3).Draw(t, "s")}
		})
		trials := rapid.SliceOfN(rapid.OneOf(trial, sane), 0, 9).Draw(t, "trials")
		scale := rapid.SampledFrom([]float64{0, 1e-6, 0.1, 5, 1000}).Draw(t, "scale")
		c, ok := CombineWithPrior(trials, 0.01, scale)
		if !ok {
			return
		}
		for _, iv := range []Interval{c.Powder, c.Next} {
			if !(iv.Low <= iv.Median && iv.Median <= iv.High) {
				t.Fatalf("%v", c)
			}
		}
		if !(c.BetweenTrials >= 0) {
			t.Fatalf("%v", c)
		}
	})
}
