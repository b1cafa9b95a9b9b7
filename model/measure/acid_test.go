package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

func ph(pairs ...float64) []measure.PH {
	var r []measure.PH
	for i := 0; i+1 < len(pairs); i += 2 {
		r = append(r, measure.PH{Grams: pairs[i], PH: pairs[i+1]})
	}
	return r
}

// By hand: 30 g of paste, read to halves; 7 lies midway between 8 at 0.5 g and 6
// at 1.0 g, 7.25 and 6.75 a sixteenth of a gram to either side.
func TestAcidForATarget(t *testing.T) {
	a := measure.AcidFor(ph(0, 9.5, 0.5, 8, 1.0, 6), 7, 0.5, 30)
	assert.Equal(t, measure.Crossed, a.Reach)
	assert.InDelta(t, 0.75, a.Grams.Median, 1e-12)
	assert.InDelta(t, 0.6875, a.Grams.Low, 1e-12)
	assert.InDelta(t, 0.8125, a.Grams.High, 1e-12)
	assert.InDelta(t, 2.5, a.Per100G.Median, 1e-12)
	assert.InDelta(t, 0.6875/0.3, a.Per100G.Low, 1e-12)
	assert.InDelta(t, 0.8125/0.3, a.Per100G.High, 1e-12)
	assert.False(t, a.OutOfOrder)
	assert.Equal(t, ph(0, 9.5, 0.5, 8, 1.0, 6), a.Pooled)
}

func TestAcidReadingsOutOfOrder(t *testing.T) {
	a := measure.AcidFor(ph(0, 9, 1, 7, 2, 8, 3, 6), 7, 0.1, 100)
	assert.True(t, a.OutOfOrder)
	assert.Equal(t, ph(0, 9, 1, 7.5, 2, 7.5, 3, 6), a.Pooled)
	assert.InDelta(t, 2+1.0/3, a.Grams.Median, 1e-12)
	// Two readings at one amount count double: (7 + 7 + 8)/3.
	a = measure.AcidFor(ph(2, 8, 0, 9, 1, 7, 1, 7, 3, 6), 7, 0.1, 100)
	assert.InDelta(t, 22.0/3, a.Pooled[1].PH, 1e-12)
	assert.InDelta(t, 22.0/3, a.Pooled[2].PH, 1e-12)
	assert.Len(t, a.Pooled, 4)
}

// With a strip of one unit the interval spans one unit of pH on the line. It is open where
// the readings stop within half a unit.
func TestStripOfOneUnit(t *testing.T) {
	a := measure.AcidFor(ph(0, 9, 1, 8, 2, 7, 3, 6, 4, 5), 6.5, 1, 100)
	assert.Equal(t, fit.Interval{Median: 2.5, Low: 2, High: 3}, a.Grams)

	open := measure.AcidFor(ph(0, 9, 1, 8, 2, 7, 3, 6), 6.2, 1, 100)
	assert.Equal(t, measure.Crossed, open.Reach)
	assert.InDelta(t, 2.8, open.Grams.Median, 1e-12)
	assert.InDelta(t, 2.3, open.Grams.Low, 1e-12)
	assert.True(t, math.IsInf(open.Grams.High, 1), "5.7 is never reached: no upper limit")

	start := measure.AcidFor(ph(0, 7, 1, 6, 2, 5), 6.8, 1, 100)
	assert.Equal(t, 0.0, start.Grams.Low, "7.3 is never read: no lower limit")
	assert.InDelta(t, 0.2, start.Grams.Median, 1e-12)
	assert.InDelta(t, 0.7, start.Grams.High, 1e-12)
}

func TestTargetNeverCrossed(t *testing.T) {
	far := measure.AcidFor(ph(0, 9, 1, 8.5, 2, 8), 6, 0.5, 50)
	assert.Equal(t, measure.NotYet, far.Reach)
	assert.Zero(t, far.Grams.Median)
	assert.Equal(t, 2.0, far.Grams.Low, "more than was tried")
	assert.Equal(t, 4.0, far.Per100G.Low)
	assert.True(t, math.IsInf(far.Grams.High, 1))

	near := measure.AcidFor(ph(0, 9, 1, 8, 2, 7), 6.8, 1, 100)
	assert.Equal(t, measure.NotYet, near.Reach)
	assert.InDelta(t, 1.7, near.Grams.Low, 1e-12, "where the line crosses 7.3")

	at := measure.AcidFor(ph(0, 6, 1, 5.5), 6, 0.5, 100)
	assert.Equal(t, measure.Already, at.Reach)
	assert.Equal(t, fit.Interval{Low: 0, High: 0.5}, at.Grams)

	below := measure.AcidFor(ph(0.2, 5, 1, 4.5), 6, 0.5, 100)
	assert.Equal(t, measure.Already, below.Reach)
	assert.Equal(t, fit.Interval{Low: 0, High: 0.2}, below.Grams)
}

// Strips often read the same twice: the whole level piece is the answer.
func TestLevelPieceAtTheTarget(t *testing.T) {
	a := measure.AcidFor(ph(0, 8, 1, 7, 2, 7, 3, 6), 7, 2, 100)
	assert.Equal(t, fit.Interval{Median: 1.5, Low: 0, High: 3}, a.Grams)
	end := measure.AcidFor(ph(0, 8, 1, 7, 2, 7), 7, 0.5, 100)
	assert.Equal(t, measure.Crossed, end.Reach)
	assert.InDelta(t, 1.5, end.Grams.Median, 1e-12)
	assert.True(t, math.IsInf(end.Grams.High, 1))
}

func TestNoAcidAnswer(t *testing.T) {
	good := ph(0, 9, 1, 6)
	nan, inf := math.NaN(), math.Inf(1)
	for _, a := range []measure.AcidAmount{
		measure.AcidFor(nil, 7, 0.5, 30),
		measure.AcidFor(ph(1, 9, 1, 6), 7, 0.5, 30),
		measure.AcidFor(ph(0, 9, -1, 6, nan, 6, inf, 6, 1, nan, 1, 14.1, 1, -0.1), 7, 0.5, 30),
		measure.AcidFor(good, nan, 0.5, 30),
		measure.AcidFor(good, 15, 0.5, 30),
		measure.AcidFor(good, 7, 0, 30),
		measure.AcidFor(good, 7, inf, 30),
		measure.AcidFor(good, 7, 0.5, 0),
		measure.AcidFor(good, 7, 0.5, nan),
		measure.AcidFor(good, 7, 0.5, 1e-320),
	} {
		assert.Equal(t, measure.NoReadings, a.Reach)
		assert.Zero(t, a.Grams)
		assert.Zero(t, a.Per100G)
	}
}

// Isotonic regression: never rising, the mean kept, nothing changed that was in
// order, and no other falling line through block means nearer to the readings
// than the readings pooled (checked against every way of cutting them into
// blocks).
func TestPooling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 7).Draw(t, "n")
		var readings []measure.PH
		sum, falls := 0.0, true
		for i := range n {
			v := float64(rapid.IntRange(6, 20).Draw(t, "half units")) / 2
			falls = falls && (i == 0 || v <= readings[i-1].PH)
			readings = append(readings, measure.PH{Grams: float64(i), PH: v})
			sum += v
		}
		a := measure.AcidFor(readings, 7, 0.5, 100)
		require.Len(t, a.Pooled, n)
		pooledSum, misfit := 0.0, 0.0
		for i, p := range a.Pooled {
			assert.Equal(t, float64(i), p.Grams)
			if i > 0 {
				assert.LessOrEqual(t, p.PH, a.Pooled[i-1].PH+1e-12)
			}
			pooledSum += p.PH
			misfit += (p.PH - readings[i].PH) * (p.PH - readings[i].PH)
		}
		assert.InDelta(t, sum, pooledSum, 1e-9)
		assert.Equal(t, falls, !a.OutOfOrder)
		assert.InDelta(t, leastMisfit(readings), misfit, 1e-9)
	})
}

// leastMisfit is the smallest sum of squares over all cuts into blocks whose
// means fall.
func leastMisfit(readings []measure.PH) float64 {
	best := math.Inf(1)
	for cuts := range 1 << (len(readings) - 1) {
		misfit, before, ok := 0.0, math.Inf(1), true
		for from := 0; from < len(readings); {
			to, sum := from, 0.0
			for ; to < len(readings) && (to == from || cuts&(1<<(to-1)) == 0); to++ {
				sum += readings[to].PH
			}
			mean := sum / float64(to-from)
			for _, r := range readings[from:to] {
				misfit += (r.PH - mean) * (r.PH - mean)
			}
			ok = ok && mean <= before
			before, from = mean, to
		}
		if ok {
			best = min(best, misfit)
		}
	}
	return best
}

// Whatever is read, the interval holds the amount and lies within what was
// tried, and a coarser strip never narrows it.
func TestAcidInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var readings []measure.PH
		for i := range rapid.IntRange(2, 8).Draw(t, "n") {
			v := rapid.Float64Range(3, 11).Draw(t, "pH")
			readings = append(readings, measure.PH{Grams: float64(i) / 2, PH: v})
		}
		target := rapid.Float64Range(4, 9).Draw(t, "target")
		fine, coarse := measure.AcidFor(readings, target, 0.1, 100), measure.AcidFor(readings, target, 1, 100)
		assert.LessOrEqual(t, coarse.Grams.Low, fine.Grams.Low+1e-9)
		assert.GreaterOrEqual(t, coarse.Grams.High, fine.Grams.High-1e-9)
		last := readings[len(readings)-1].Grams
		if fine.Reach == measure.Crossed {
			assert.LessOrEqual(t, fine.Grams.Low, fine.Grams.Median+1e-9)
			assert.GreaterOrEqual(t, fine.Grams.High, fine.Grams.Median-1e-9)
			assert.LessOrEqual(t, fine.Grams.Median, last, "never extrapolated")
		}
		assert.True(t, fine.Grams.High <= last || math.IsInf(fine.Grams.High, 1))
	})
}
