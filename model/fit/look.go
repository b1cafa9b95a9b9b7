package fit

import (
	"cmp"
	"math"
	"slices"
)

// usable reports whether a look can enter the fit.
func (d Data) usable(l Look) bool {
	low, high := d.ends()
	return l.PowderPerLiquid > 0 && !math.IsInf(l.PowderPerLiquid, 1) &&
		l.Level >= low && l.Level <= high &&
		(halves(l.Level) && d.ReferenceLevel == nil || l.Level == math.Trunc(l.Level))
}

// ends gives the looks that are open to one side, the thinnest and the thickest.
func (d Data) ends() (low, high float64) {
	if d.ReferenceLevel != nil {
		return float64(MuchThinner), float64(MuchThicker)
	}
	return 0, 7
}

// closed reports whether a look has two ends; open looks never count as near.
func (d Data) closed(l Look) bool {
	low, high := d.ends()
	return l.Level > low && l.Level < high
}

// edges lists the levels between neighbouring looks, ascending; step is from one look to
// the next.
func (d Data) edges() (step float64, edges []float64) {
	if d.ReferenceLevel != nil {
		for c := MuchThinner; c < MuchThicker; c++ {
			edges = append(edges, c.cell().high)
		}
		return 1, edges
	}
	step = 1
	if d.LevelStep == 0.5 {
		step = 0.5
	}
	for edge := step / 2; edge < 7; edge += step {
		edges = append(edges, edge)
	}
	return step, edges
}

// cell is the interval of levels that a look gives for the true consistency. An open end is
// infinite.
type cell struct{ low, high float64 }

// cellOf gives the interval of a look y to the nearest step: y ± step/2, open below level 0
// and above level 7 (METHOD, what a look says).
func cellOf(level, step float64) cell {
	half := 0.5
	if step == 0.5 {
		half = 0.25
	}
	c := cell{level - half, level + half}
	if level == 0 {
		c.low = math.Inf(-1)
	}
	if level == 7 {
		c.high = math.Inf(1)
	}
	return c
}

// reading is a look for the quadrature: u = ln x, its cell, and the number of looks that
// say exactly this.
type reading struct {
	u     float64
	cell  cell
	count float64
}

// reading gives one look as a reading.
func (d Data) reading(l Look) reading {
	c := cellOf(l.Level, d.LevelStep)
	if d.ReferenceLevel != nil {
		c = Compared(l.Level).cell()
	}
	return reading{math.Log(l.PowderPerLiquid), c, 1}
}

// readings lists the usable looks as readings.
func (d Data) readings() []reading {
	readings := make([]reading, 0, len(d.Looks))
	for _, l := range d.Looks {
		if d.usable(l) {
			readings = append(readings, d.reading(l))
		}
	}
	return readings
}

// says reports whether two readings say the same.
func (r reading) says(other reading) bool { return r.u == other.u && r.cell == other.cell }

// merge sorts readings and makes one of identical ones. The order is by content alone, so
// the order of the looks never changes a sum.
func merge(readings []reading) []reading {
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

// looksIn counts the looks behind readings.
func looksIn(readings []reading) float64 {
	looks := 0.0
	for _, r := range readings {
		looks += r.count
	}
	return looks
}
