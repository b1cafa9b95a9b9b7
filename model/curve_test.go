package model_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A trial that cannot be calculated gives no look, and is named; one that does
// not count is no part of the curve.
func TestCurveDropsWhatCannotBeCalculated(t *testing.T) {
	p := specimen.Oats()
	sound := model.Trial{State: model.Done, LiquidG: 20, Steps: []model.Step{
		specimen.Spoons("1 tsp", 2, 2), specimen.Spoons("1 tsp", 1, 4), specimen.Spoons("1 tsp", 1, 6),
	}}
	broken := sound.Clone()
	broken.Steps[1].Spoon = "no such spoon"
	aside := sound.Clone()
	aside.SetAside = "spilled"
	p.Trials = []model.Trial{broken, sound, aside, sound}
	c := repeats.CurveOf(p, p.Bases()[0], nil)
	assert.Equal(t, []int{0}, c.Dropped)
	require.Len(t, c.Looks, 6)
	for i, look := range c.Looks {
		assert.Equal(t, []int{1, 1, 1, 3, 3, 3}[i], look.Trial)
		assert.Equal(t, i%3, look.Step)
		assert.InDelta(t, []float64{4.62, 6.93, 9.24}[i%3]/20, look.X, 1e-9) // 2.31 g a spoon into 20 g
	}
	require.Len(t, c.Points, len(model.CurveLevels()))
	assert.Equal(t, "trial 1 cannot be calculated and is left out", repeats.DroppedText(c.Dropped))
	assert.Equal(t, "trials 1, 4 cannot be calculated and are left out", repeats.DroppedText([]int{0, 3}))
}

// A ratio of 2 (1 to 4) g liquid per g powder is 0.5 (0.25 to 1) the other way.
func TestCurvePointOf(t *testing.T) {
	ratio := &fit.Interval{Median: 2, Low: 1, High: 4}
	want := bench.CurvePoint{Level: 5, X: 0.5, Low: 0.25, High: 1}
	assert.Equal(t, want, bench.CurvePointOf(5, ratio, fit.Bracketed))
	want.OneSided = true
	assert.Equal(t, want, bench.CurvePointOf(5, ratio, fit.OneSided))
	assert.True(t, math.IsNaN(bench.CurvePointOf(5, nil, fit.NotReached).X))
}
