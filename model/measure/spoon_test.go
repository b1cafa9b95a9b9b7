package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"daub.example/daub/model/measure"
)

// Z factors as used with ISO 8655-6 at 101.3 kPa (read); densities of water by
// Tanaka et al. 2001, Metrologia 38, 301-309 (computed: 0.9982067 at 20 °C,
// 0.9970470 at 25, 0.9991026 at 15).
func TestZFactor(t *testing.T) {
	for _, c := range []struct{ density, z float64 }{
		{water(20), 1.0029}, {water(21), 1.0031}, {water(22), 1.0033},
	} {
		z, ok := measure.ZFactor(c.density)
		require.True(t, ok)
		assert.InDelta(t, c.z, z, 0.00005+1e-9)
	}
	z, _ := measure.ZFactor(water(23))
	assert.True(t, z >= 1.00345 && z < 1.00365, "1.0035 or 1.0036: sources differ, %v", z)
	for _, bad := range []float64{0, 0.0012, -1, math.NaN(), math.Inf(1)} {
		_, ok := measure.ZFactor(bad)
		assert.False(t, ok)
	}
}

// water is the density of water at t °C, g/mL, by Tanaka et al. 2001, written
// out here since this package is told it.
func water(t float64) float64 {
	return 0.99997495 * (1 - (t-3.983035)*(t-3.983035)*(t+301.797)/(522528.9*(t+69.34881)))
}

func TestWater(t *testing.T) {
	for at, density := range map[float64]float64{
		10: 0.9997027, 15: 0.9991026, 20: 0.9982067, 25: 0.9970470, 30: 0.9956488,
	} {
		assert.InDelta(t, density, water(at), 5e-8, "computed")
	}
}

// JCGM 100:2008, 4.4.3: twenty repeat readings (the readings from memory; they
// reproduce the three printed results).
func TestTwentyReadings(t *testing.T) {
	r, ok := measure.Repeat([]float64{
		96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
		100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
	})
	require.True(t, ok)
	assert.Equal(t, 20, r.N)
	assert.InDelta(t, 100.14, r.Mean, 0.005+1e-9)
	assert.InDelta(t, 1.49, r.SD, 0.005)
	assert.InDelta(t, 0.33, r.OfTheMean, 0.005)
}

// NIST StRD NumAcc1 (read): mean 10000002, standard deviation 1, both exact.
func TestRepeatKeepsItsDigits(t *testing.T) {
	r, ok := measure.Repeat([]float64{10000001, 10000003, 10000002})
	require.True(t, ok)
	assert.Equal(t, 10000002.0, r.Mean)
	assert.Equal(t, 1.0, r.SD)
}

func TestRepeatOfLittle(t *testing.T) {
	r, ok := measure.Repeat([]float64{3})
	assert.True(t, ok)
	assert.Equal(t, measure.Repeats{N: 1, Mean: 3}, r)
	for _, bad := range [][]float64{nil, {1, math.NaN()}, {math.Inf(1)}, {1e308, -1e308, 1e308}} {
		_, ok = measure.Repeat(bad)
		assert.False(t, ok, bad)
	}
}

// By hand: 4.90, 4.92, 4.94 g at 21 °C: mean 4.92, SD 0.02, of the mean
// 0.011547; resolution 0.01/√12 = 0.0028868, together 0.0119024 g; Z 1.0031;
// degrees of freedom (0.0119024/0.011547)⁴·2 = 2.2578, between t(2) = 4.3027 and
// t(3) = 3.1824 of any table.
func TestSpoonVolume(t *testing.T) {
	v, ok := measure.SpoonVolume([]float64{4.90, 4.92, 4.94}, 0.01, water(21))
	require.True(t, ok)
	assert.InDelta(t, 4.92*1.0031, v.ML, 0.0005)
	assert.InDelta(t, 0.0119024*1.0031, v.UncertaintyML, 1e-6)
	assert.InDelta(t, 2.2578, v.DegreesOfFreedom, 0.0005)
	k := (v.Interval.High - v.ML) / v.UncertaintyML
	assert.True(t, k > 3.1824 && k < 4.3027, k)
	assert.InDelta(t, v.ML-v.Interval.Low, v.Interval.High-v.ML, 1e-12)
	assert.Equal(t, v.ML, v.Interval.Median)
	assert.InDelta(t, 0.02, v.Weighings.SD, 1e-12)
}

// Three equal weighings are not exact: the balance's resolution stays, and it
// has no degrees of freedom to pay for.
func TestSpoonVolumeOfEqualWeighings(t *testing.T) {
	v, ok := measure.SpoonVolume([]float64{5, 5, 5}, 0.1, water(20))
	require.True(t, ok)
	z, _ := measure.ZFactor(water(20))
	assert.InDelta(t, z*0.1/math.Sqrt(12), v.UncertaintyML, 1e-12)
	assert.True(t, math.IsInf(v.DegreesOfFreedom, 1))
	assert.InDelta(t, 1.959964, (v.Interval.High-v.ML)/v.UncertaintyML, 1e-6)
}

func TestSpoonFarFromItsName(t *testing.T) {
	v, ok := measure.SpoonVolume([]float64{5.30, 5.31, 5.32}, 0.01, water(20))
	require.True(t, ok)
	share, far, ok := v.Deviation(4.92892159375) // US teaspoon, NIST Handbook 44 App. C
	require.True(t, ok)
	assert.InDelta(t, 0.0804, share, 0.0005)
	assert.True(t, far)

	// The US and the labelling teaspoon, 21 CFR 101.9(b)(5)(viii), differ by
	// 1.4 %: not far.
	us, _ := measure.SpoonVolume([]float64{4.914, 4.915, 4.916}, 0.001, water(20))
	share, far, _ = us.Deviation(5)
	assert.InDelta(t, -0.014, share, 0.0005)
	assert.False(t, far)

	// Two weighings that differ: 12 % off, and the interval cannot tell.
	unsure, _ := measure.SpoonVolume([]float64{5.2, 5.8}, 0.1, water(20))
	share, far, _ = unsure.Deviation(4.92892159375)
	assert.Greater(t, share, 0.05)
	assert.False(t, far)

	for _, bad := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, _, ok = v.Deviation(bad)
		assert.False(t, ok)
	}
}

func TestNoSpoonVolume(t *testing.T) {
	good := []float64{4.9, 4.92}
	for _, c := range []struct {
		grams             []float64
		resolution, water float64
	}{
		{nil, 0.01, 1},
		{[]float64{4.9}, 0.01, 1},
		{[]float64{4.9, 0}, 0.01, 1},
		{[]float64{4.9, math.NaN()}, 0.01, 1},
		{good, 0, 1},
		{good, math.Inf(1), 1},
		{good, 0.01, 0},
		{good, 0.01, math.NaN()},
	} {
		_, ok := measure.SpoonVolume(c.grams, c.resolution, c.water)
		assert.False(t, ok, c)
	}
}
