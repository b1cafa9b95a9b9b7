package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"daub.example/daub/model/measure"
)

// Roussel & Coussot 2005; values computed with g = 9.81.
func TestSpreadStress(t *testing.T) {
	pa, ok := measure.SpreadStress(1.5, 15, 50)
	require.True(t, ok)
	assert.InDelta(t, 60.383, pa, 0.0005)
	other, ok := measure.SpreadStress(2.0, 38.8, 120)
	require.True(t, ok)
	assert.InDelta(t, 6.7652, other, 0.00005)
	wide, _ := measure.SpreadStress(1.5, 15, 100)
	assert.InEpsilon(t, pa/32, wide, 1e-12, "twice the radius, 1/32 of the stress")
}

// Pashias et al. 1996, exact form; values computed.
func TestSlumpStress(t *testing.T) {
	for stress, slump := range map[float64]float64{0.05: 0.669741, 0.1: 0.478112, 0.2: 0.233484} {
		assert.InDelta(t, slump, measure.SlumpOfStress(stress), 5e-7)
	}
	stress, ok := measure.StressOfSlump(0.5)
	require.True(t, ok)
	assert.InDelta(t, 0.0933412, stress, 5e-8)
	pa, ok := measure.SlumpStress(1.5, 60, 30)
	require.True(t, ok)
	assert.InDelta(t, 0.0933412*1500*9.81*0.060, pa, 1e-4)
}

func TestSlumpThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stress := math.Exp(rapid.Float64Range(math.Log(1e-9), math.Log(0.49)).Draw(t, "ln stress"))
		back, ok := measure.StressOfSlump(measure.SlumpOfStress(stress))
		require.True(t, ok)
		assert.InEpsilon(t, stress, back, 1e-6)
	})
}

func TestStressThatCannotBe(t *testing.T) {
	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, ok := measure.SpreadStress(bad, 15, 50)
		assert.False(t, ok)
		_, ok = measure.SpreadStress(1.5, bad, 50)
		assert.False(t, ok)
		_, ok = measure.SpreadStress(1.5, 15, bad)
		assert.False(t, ok)
		_, ok = measure.SlumpStress(bad, 60, 30)
		assert.False(t, ok)
		_, ok = measure.SlumpStress(1.5, bad, 30)
		assert.False(t, ok)
		_, ok = measure.SlumpStress(1.5, 60, bad)
		assert.False(t, ok)
	}
	_, ok := measure.SpreadStress(1.5, 15, 1e-70)
	assert.False(t, ok, "beyond what a number holds")
	for _, slump := range []float64{60, 61} {
		_, ok = measure.SlumpStress(1.5, 60, slump)
		assert.False(t, ok, "a cylinder does not sink by its height or more")
	}
	assert.Equal(t, 1.0, measure.SlumpOfStress(0))
	assert.Equal(t, 0.0, measure.SlumpOfStress(0.5))
	assert.Equal(t, 0.0, measure.SlumpOfStress(3))
}
