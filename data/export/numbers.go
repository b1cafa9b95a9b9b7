package export

import (
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
)

// These numbers stand in JSON answers, of commands and exports alike. A number has
// four significant digits; one that the data cannot give is null.

// Number is v rounded; null when it is not finite.
func Number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	r := model.RoundSignificant(v, repeats.RatioDigits)
	return &r
}

// Positive is Number for a value whose 0 means "unknown".
func Positive(v float64) *float64 {
	if !(v > 0) {
		return nil
	}
	return Number(v)
}

// Interval is a ratio with its 95 % interval.
type Interval struct {
	Median *float64 `json:"median"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
}

// IntervalOf gives an interval for JSON; null for none.
func IntervalOf(iv *fit.Interval) *Interval {
	if iv == nil {
		return nil
	}
	return &Interval{Number(iv.Median), Number(iv.Low), Number(iv.High)}
}

// Range is an interval without a best value; an open end is null.
type Range struct {
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
}

// RangeOf gives the ends of an interval; null for none.
func RangeOf(iv *fit.Interval) *Range {
	if iv == nil {
		return nil
	}
	return &Range{Number(iv.Low), Number(iv.High)}
}

// BoundOf gives the known limits of a ratio that was not reached; null if there are
// none.
func BoundOf(b *fit.Bound) *Range {
	if b == nil {
		return nil
	}
	return &Range{Positive(b.Low), Number(b.High)}
}
