// Package ticks chooses round values for the axes of charts and pictures, and
// writes them. It knows no powder and draws nothing; it imports nothing of ours.
package ticks

import (
	"math"
	"strconv"
)

// Tick is a value on an axis with its label.
type Tick struct {
	At   float64
	Text string
}

// Linear gives values from lo to hi, 1, 2 or 5 times a power of ten apart: the closest that
// fit, given their step and the widest label.
func Linear(lo, hi float64, fits func(step float64, widest string) bool) []Tick {
	for e := math.Floor(math.Log10((hi-lo)/1000)) + 1; ; e++ {
		decimals := int(max(-e, 0))
		for _, m := range []float64{1, 2, 5} {
			step := m * math.Pow(10, e)
			first, last := math.Ceil(lo/step), math.Floor(hi/step)
			if last > first+1 && !fits(step, number(hi, decimals)) {
				continue
			}
			all := make([]Tick, 0, int(last-first)+1)
			for i := first; i <= last; i++ {
				all = append(all, Tick{i * step, number(i*step, decimals)})
			}
			return all
		}
	}
}

// Log gives 1, 2 and 5 times each power of ten from lo to hi; the powers come first, as the
// most important.
func Log(lo, hi float64) (all []Tick) {
	for _, m := range []float64{1, 5, 2} {
		for e := math.Floor(math.Log10(lo)); e <= math.Log10(hi); e++ {
			if v := m * math.Pow(10, e); v >= lo && v <= hi {
				all = append(all, Tick{v, number(v, int(max(-e, 0)))})
			}
		}
	}
	return all
}

// Inverse gives values from lo to hi whose inverse is round, labelled with the inverse. An
// axis that counts powder per liquid is so labelled in liquid per powder. lo is above 0.
// Rounder values come first; room says whether one still fits beside those it accepted
// before.
func Inverse(lo, hi float64, room func(Tick) bool) []Tick {
	least, most := 1/hi, 1/lo
	finest := math.Floor(math.Log10(min(most-least, least))) - 1
	var all []Tick
	multiples := func(upTo func(first float64) float64) {
		for e := math.Floor(math.Log10(most)); e >= finest; e-- {
			for _, m := range []float64{5, 2, 1} {
				step := m * math.Pow(10, e)
				first := max(math.Ceil(least/step), 1)
				for k := first; k <= upTo(first) && k*step <= most; k++ {
					if t := (Tick{1 / (k * step), number(k*step, int(max(-e, 0)))}); room(t) {
						all = append(all, t)
					}
				}
			}
		}
	}
	multiples(func(float64) float64 { return 10 }) // 1.5 and 0.9, but not 1.7 and 0.95
	if len(all) < 4 {
		multiples(func(first float64) float64 { return first + 20 })
	}
	return all
}

// number writes v to so many decimals; 0 is 0.
func number(v float64, decimals int) string {
	if v == 0 {
		return "0"
	}
	return strconv.FormatFloat(v, 'f', decimals, 64)
}
