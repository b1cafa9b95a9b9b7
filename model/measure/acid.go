package measure

import (
	"cmp"
	"math"
	"slices"

	"daub.example/daub/model/fit"
)

// PH is one pH reading: the acid solution added by then, g, and the pH, 0 to 14.
type PH struct {
	Grams, PH float64
}

// PHReach says how a target pH lies to the readings.
type PHReach string

// The reaches.
const (
	Crossed    PHReach = "crossed"     // the readings fall past the target
	NotYet     PHReach = "not yet"     // all read above it: it takes more than was tried
	Already    PHReach = "already"     // the first reading is at it or below: no acid wanted
	NoReadings PHReach = "no readings" // fewer than two amounts, or an impossible target
)

// AcidAmount is the amount of acid solution that brings a paste to a target pH.
type AcidAmount struct {
	Reach PHReach
	// Grams is for the paste that was tested, Per100G for 100 g of paste. The median is 0
	// unless Reach is Crossed. Low 0 means no lower limit, High +Inf no upper one; for
	// NoReadings High is 0 as well.
	Grams, Per100G fit.Interval
	// Pooled are the readings that the line runs through, one for each amount, their pH
	// never rising. OutOfOrder is true where pooling had to change one.
	Pooled     []PH
	OutOfOrder bool
}

// AcidFor finds the acid solution that brings pasteG grams of paste to a target pH.
// Readings are to the nearest step: 0.5 or 1 for a strip, 0.1 for a meter.
//
// Readings that rise where they should fall are pooled (isotonic regression, pool adjacent
// violators); the line between them is straight. The interval ends where it crosses target
// ± step/2, and nothing is ever extrapolated (METHOD, acid step). Readings at one amount
// are averaged: where a powder's pH climbs back while it waits, give the waited one alone.
// Impossible readings are left out.
func AcidFor(readings []PH, target, step, pasteG float64) AcidAmount {
	raw := byAmount(readings)
	pooled, changed := falling(raw)
	a := AcidAmount{Reach: NoReadings, Pooled: pooled, OutOfOrder: changed}
	if len(pooled) < 2 || !(target >= 0 && target <= 14) || !positive(step, 100/pasteG) {
		return a
	}
	first, last := pooled[0], pooled[len(pooled)-1]
	switch {
	case first.PH <= target:
		a.Reach = Already
	case last.PH > target:
		a.Reach = NotYet
	default:
		a.Reach = Crossed
		from, to := crossing(pooled, target)
		a.Grams.Median = (from + to) / 2
	}
	a.Grams.Low, a.Grams.High = acidLimits(pooled, target, step/2)
	per := 100 / pasteG
	a.Per100G = fit.Interval{Median: a.Grams.Median * per, Low: a.Grams.Low * per, High: a.Grams.High * per}
	return a
}

// acidLimits gives the amounts at which the line crosses target + half and target - half.
// Where it stays above one of them, the last amount is too little; where it stays below,
// the first is enough.
func acidLimits(pooled []PH, target, half float64) (low, high float64) {
	first, last := pooled[0], pooled[len(pooled)-1]
	switch above := target + half; {
	case first.PH < above:
		low = 0
	case last.PH > above:
		low = last.Grams
	default:
		low, _ = crossing(pooled, above)
	}
	switch below := target - half; {
	case last.PH > below:
		high = math.Inf(1)
	case first.PH < below:
		high = first.Grams
	default:
		_, high = crossing(pooled, below)
	}
	return low, high
}

// crossing gives the amounts at which a line that never rises has a pH between its ends: a
// single amount, or both ends of a level piece.
func crossing(line []PH, ph float64) (from, to float64) {
	at := func(a, b PH) float64 { return a.Grams + (a.PH-ph)/(a.PH-b.PH)*(b.Grams-a.Grams) }
	i := slices.IndexFunc(line, func(p PH) bool { return p.PH <= ph })
	from = line[i].Grams
	if i > 0 {
		from = at(line[i-1], line[i])
	}
	for i < len(line) && line[i].PH == ph {
		i++
	}
	if i == 0 || line[i-1].PH != ph {
		return from, from
	}
	return from, line[i-1].Grams
}

// weighted is a pH that stands for several readings.
type weighted struct {
	PH
	readings float64
}

// byAmount sorts readings by amount and averages those at the same one.
func byAmount(readings []PH) []weighted {
	var sorted []PH
	for _, r := range readings {
		if finite(r.Grams) && r.Grams >= 0 && r.PH >= 0 && r.PH <= 14 {
			sorted = append(sorted, r)
		}
	}
	slices.SortFunc(sorted, func(a, b PH) int { return cmp.Compare(a.Grams, b.Grams) })
	var merged []weighted
	for _, r := range sorted {
		if n := len(merged); n > 0 && merged[n-1].Grams == r.Grams {
			m := &merged[n-1]
			m.PH.PH = (m.PH.PH*m.readings + r.PH) / (m.readings + 1)
			m.readings++
			continue
		}
		merged = append(merged, weighted{r, 1})
	}
	return merged
}

// falling fits pH values that never rise, by least squares: neighbours that rise are pooled
// into their mean until none does (pool adjacent violators).
func falling(raw []weighted) (pooled []PH, changed bool) {
	type block struct {
		ph, readings float64
		points       int
	}
	var blocks []block
	for _, r := range raw {
		blocks = append(blocks, block{r.PH.PH, r.readings, 1})
		for n := len(blocks); n > 1 && blocks[n-2].ph < blocks[n-1].ph; n = len(blocks) {
			a, b := blocks[n-2], blocks[n-1]
			readings := a.readings + b.readings
			mean := (a.ph*a.readings + b.ph*b.readings) / readings
			blocks = append(blocks[:n-2], block{mean, readings, a.points + b.points})
			changed = true
		}
	}
	for _, b := range blocks {
		for range b.points {
			pooled = append(pooled, PH{raw[len(pooled)].Grams, b.ph})
		}
	}
	return pooled, changed
}
