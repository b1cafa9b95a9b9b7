package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// placesOff is how far a table may be off in ln P: straight lines between rows
// cut the corner of the sharpest eye, whose weight in the prior is 1 in 3000.
func placesOff(k int) float64 {
	if k < 2 {
		return 0.06
	}
	return 0.01
}

// Every cell of both steps at every level, between the rows of its table,
// against plain erfc, down to odds that no longer matter.
func TestTables(t *testing.T) {
	for _, step := range []float64{0.5, 1} {
		for y := 0.0; y <= 7; y += step {
			for _, level := range []float64{1, 3.5, 5, 6} {
				c := cellOf(y, step).from(quarters(level))
				for d := -9.97; d < 10; d += 0.37 {
					for k, sigma := range eye {
						p := bruteLook(y, step, level+d, math.Hypot(sigma, 0.2*d))
						if p > 1e-12 {
							assert.InDelta(t, math.Log(p), lookUp(c, d, k), placesOff(k), "y %v step %v level %v d %v sigma %v", y, step, level, d, sigma)
						}
					}
				}
			}
		}
	}
}

func lookUp(c cell, d float64, k int) float64 {
	t, side := tableFor(c)
	row, part := place(side * d)
	return t[row][k] + part*(t[row+1][k]-t[row][k])
}

func TestPlaces(t *testing.T) {
	for row := range rows {
		d := placed(row)
		at, part := place(d)
		if math.Abs(d) <= 500 {
			assert.InDelta(t, row, float64(at)+part, 1e-9)
		}
	}
	for _, d := range []float64{0, fine, -fine, 499, -499, 1e6, -1e6, math.MaxFloat64, -math.MaxFloat64} {
		row, part := place(d)
		assert.True(t, row >= 0 && row+1 < rows && part >= 0 && part < 1, "%v", d)
	}
}

// Normal probabilities, Abramowitz & Stegun table 26.1 and 26.2: Φ(1.96) =
// 0.975002, Φ(-5) = 2.866516e-7, -log10 Φ(-50) = 545.39657 (computed again
// with 60 digits: ln Φ(-40) = -804.608442, ln Φ(-50) = -1254.831360).
func TestLnBetween(t *testing.T) {
	inf := math.Inf(1)
	assert.InDelta(t, math.Log(0.975002), lnBetween(-inf, 1.96), 1e-6)
	assert.InDelta(t, math.Log(2.866516e-7), lnBetween(5, inf), 1e-6)
	assert.InDelta(t, -804.608442, lnBetween(-inf, -40), 1e-5)
	assert.InDelta(t, -1254.831360, lnBetween(50, inf), 1e-5)
	assert.InDelta(t, math.Log(0.6826895), lnBetween(-1, 1), 1e-6)
	assert.Zero(t, lnBetween(-inf, inf))
	assert.InDelta(t, lnBetween(-20.001, -19), lnBetween(-19.999, -19), 1e-6)
}
