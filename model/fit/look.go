package fit

import (
	"cmp"
	"math"
	"slices"
)

// usable reports whether a look can enter the fit.
func (l Look) usable() bool {
	return l.PowderPerLiquid > 0 && !math.IsInf(l.PowderPerLiquid, 1) &&
		l.Level >= 0 && l.Level <= 7 && halves(l.Level)
}

// closed reports whether a look has two ends: 0 and 7 are open and never count
// as near.
func (l Look) closed() bool { return l.Level > 0 && l.Level < 7 }

// cell is the interval a look puts the true consistency in. The ends are whole
// quarters of a level, which holds the edges of half-level looks exactly, so
// cells can be compared and serve as keys.
type cell struct{ low, high int }

// open marks an end at infinity. It is far outside the scale and stays so
// under any shift by a level.
const open = 1 << 20

func quarters(level float64) int { return int(math.Round(4 * level)) }

// cellOf is the interval of a look y to the nearest step: y ± step/2, open
// below level 0 and above level 7 (METHOD, what a look says).
func cellOf(level, step float64) cell {
	half := 2
	if step == 0.5 {
		half = 1
	}
	c := cell{quarters(level) - half, quarters(level) + half}
	if level == 0 {
		c.low = -open
	}
	if level == 7 {
		c.high = open
	}
	return c
}

// from measures the cell from a level, in quarters, instead of from level 0.
func (c cell) from(level int) cell {
	if c.low != -open {
		c.low -= level
	}
	if c.high != open {
		c.high -= level
	}
	return c
}

// reading is a look as the quadrature needs it: u = ln x, its cell, and how
// many looks said exactly this.
type reading struct {
	u     float64
	cell  cell
	count float64
}

func (d Data) reading(l Look) reading {
	return reading{math.Log(l.PowderPerLiquid), cellOf(l.Level, d.LevelStep), 1}
}

// says reports whether two readings say the same.
func (r reading) says(other reading) bool { return r.u == other.u && r.cell == other.cell }

// merge sorts the usable looks and makes one reading of identical ones. The
// order is by content alone, so the order of the looks never reaches a sum.
func merge(d Data) []reading {
	readings := make([]reading, 0, len(d.Looks))
	for _, l := range d.Looks {
		if l.usable() {
			readings = append(readings, d.reading(l))
		}
	}
	slices.SortFunc(readings, func(a, b reading) int {
		return cmp.Or(cmp.Compare(a.u, b.u), cmp.Compare(a.cell.low, b.cell.low), cmp.Compare(a.cell.high, b.cell.high))
	})
	merged := readings[:0]
	for _, r := range readings {
		if n := len(merged); n > 0 && merged[n-1].says(r) {
			merged[n-1].count++
			continue
		}
		merged = append(merged, r)
	}
	return merged
}
