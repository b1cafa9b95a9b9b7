// Package measure turns readings by ruler, cone, watch, balance and pH strip
// into numbers with honest intervals: numbers in, numbers out. It knows no
// powder, no screen, no file and no word of advice. It imports model/fit for
// its Interval and nothing else of ours. Whatever the data hold, nothing here
// panics: a status or an ok says what could not be worked out.
package measure

import "math"

// finite reports whether every value is a number and not infinite.
func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// positive reports whether every value is a finite number above 0.
func positive(values ...float64) bool {
	for _, v := range values {
		if !(v > 0) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
