package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// By hand. Fit: median 2, low 2/e^0.3, high 2·e^0.4. Masses 0.05, 0.04, 0.02,
// 0.01, 0.03: squares 0.0025 0.0016 0.0004 0.0001 0.0009, sum 0.0055.
//
//	below  √(0.09 + 0.0055) = √0.0955 = 0.309031
//	above  √(0.16 + 0.0055) = √0.1655 = 0.406817
//	fit half (0.3 + 0.4)/2 = 0.35, square 0.1225; total 0.1225 + 0.0055 = 0.128
//	shares 0.957031 0.019531 0.0125 0.003125 0.000781 0.007031
func TestWiden(t *testing.T) {
	m := Masses{SpoonWeight: 0.05, Scoops: 0.04, PowderScale: 0.02, Liquid: 0.01, SpoonSize: 0.03}
	iv, b := m.Widen(Interval{Median: 2, Low: 2 / math.Exp(0.3), High: 2 * math.Exp(0.4)})
	assert.Equal(t, 2.0, iv.Median)
	assert.InDelta(t, -0.309031, math.Log(iv.Low/2), 1e-6)
	assert.InDelta(t, 0.406817, math.Log(iv.High/2), 1e-6)
	assert.InDelta(t, 0.957031, b.Looks, 1e-6)
	assert.InDelta(t, 0.019531, b.SpoonWeight, 1e-6)
	assert.InDelta(t, 0.0125, b.Scoops, 1e-6)
	assert.InDelta(t, 0.003125, b.PowderScale, 1e-6)
	assert.InDelta(t, 0.000781, b.Liquid, 1e-6)
	assert.InDelta(t, 0.007031, b.SpoonSize, 1e-6)
	assert.Zero(t, b.Repeats)
	assert.InDelta(t, 1, b.Looks+b.SpoonWeight+b.Scoops+b.PowderScale+b.Liquid+b.SpoonSize, 1e-12)
}

func TestWidenAtItsLimits(t *testing.T) {
	iv := Interval{Median: 2, Low: 1, High: 4}
	same, b := Masses{}.Widen(iv)
	agree(t, iv, same, 1e-12)
	assert.Equal(t, Budget{Looks: 1}, b)

	point := Interval{3, 3, 3}
	same, b = Masses{}.Widen(point)
	assert.Equal(t, point, same)
	assert.Equal(t, Budget{}, b)

	for _, bad := range []Interval{{}, {1, 2, 3}, {math.NaN(), 1, 2}, {math.Inf(1), 1, math.Inf(1)}, {-1, -2, -0.5}} {
		same, _ = Masses{Scoops: 0.1}.Widen(bad)
		if !math.IsNaN(bad.Median) {
			assert.Equal(t, bad, same)
		}
	}
}

// A limit that is not finite stays, the other is widened, and the looks are all
// of the budget. By hand: √(ln²2 + 0.1²) = 0.700324 below the median.
func TestWidenAnOpenLimit(t *testing.T) {
	iv, b := Masses{Scoops: 0.1}.Widen(Interval{2, 1, math.Inf(1)})
	assert.InDelta(t, 2*math.Exp(-0.700324), iv.Low, 1e-5)
	assert.True(t, math.IsInf(iv.High, 1))
	assert.Equal(t, Budget{Looks: 1}, b)

	iv, b = Masses{Scoops: 0.1}.Widen(Interval{2, 0, 4})
	assert.Zero(t, iv.Low)
	assert.InDelta(t, 2*math.Exp(0.700324), iv.High, 1e-5)
	assert.Equal(t, Budget{Looks: 1}, b)
}
