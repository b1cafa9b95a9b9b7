package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

// USP <1174>, Table 2 (read): excellent to 1.11, good to 1.18, fair to 1.25,
// passable to 1.34, poor to 1.45, very poor to 1.59, beyond: very, very poor.
func TestFlowAtItsBorders(t *testing.T) {
	for _, c := range []struct {
		hausner float64
		flow    measure.Flow
	}{
		{1.00, measure.Excellent},
		{1.11, measure.Excellent},
		{1.114, measure.Excellent},
		{1.12, measure.Good},
		{1.18, measure.Good},
		{1.19, measure.Fair},
		{1.25, measure.Fair},
		{1.254, measure.Fair},
		{1.26, measure.Passable},
		{1.34, measure.Passable},
		{1.35, measure.Poor},
		{1.45, measure.Poor},
		{1.46, measure.VeryPoor},
		{1.59, measure.VeryPoor},
		{1.60, measure.VeryVeryPoor},
		{3, measure.VeryVeryPoor},
	} {
		assert.Equal(t, c.flow, measure.FlowOf(c.hausner), c.hausner)
	}
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		assert.Empty(t, measure.FlowOf(bad))
	}
}

func TestPack(t *testing.T) {
	p, ok := measure.Pack(fit.Interval{Median: 1.25, Low: 1.15, High: 1.36})
	require.True(t, ok)
	// 100·(1.25 - 1)/1.25 = 20 %.
	assert.InDelta(t, 20, p.Compressibility.Median, 1e-12)
	assert.InDelta(t, 100*0.15/1.15, p.Compressibility.Low, 1e-12)
	assert.InDelta(t, 100*0.36/1.36, p.Compressibility.High, 1e-12)
	assert.Equal(t, measure.Fair, p.Flow)
	assert.Equal(t, measure.Good, p.From)
	assert.Equal(t, measure.Poor, p.To)
	assert.False(t, p.InGrams)
	p, ok = measure.Pack(fit.Interval{Median: 1.26, Low: 1.26, High: 1.26})
	require.True(t, ok)
	assert.True(t, p.InGrams)
}

func TestPackThatCannotBe(t *testing.T) {
	for _, h := range []fit.Interval{
		{},
		{Median: 0.9, Low: 0.8, High: 0.99},
		{Median: 1.2, Low: 1.3, High: 1.4},
		{Median: 1.2, Low: 1.1, High: 1.15},
		{Median: 1.2, Low: 0, High: 1.5},
		{Median: math.NaN(), Low: 1, High: 2},
		{Median: 1.2, Low: 1.1, High: math.Inf(1)},
	} {
		_, ok := measure.Pack(h)
		assert.False(t, ok, h)
	}
	p, ok := measure.Pack(fit.Interval{Median: 0.99, Low: 0.95, High: 1.03})
	assert.True(t, ok, "no different from 1")
	assert.Equal(t, measure.Excellent, p.Flow)
}
