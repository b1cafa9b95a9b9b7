package data

import (
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// What JSON answers are made of, the commands' and the exports' alike: a number
// has four significant digits; one that the data cannot give is null.

// Number is v rounded; null when it is not finite.
func Number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	r := model.RoundSignificant(v, model.RatioDigits)
	return &r
}

// Positive is Number for a value whose 0 means "unknown".
func Positive(v float64) *float64 {
	if !(v > 0) {
		return nil
	}
	return Number(v)
}

// IntervalJSON is a ratio with its 95 % interval.
type IntervalJSON struct {
	Median *float64 `json:"median"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
}

// ToInterval is an interval as JSON has it; null for none.
func ToInterval(iv *fit.Interval) *IntervalJSON {
	if iv == nil {
		return nil
	}
	return &IntervalJSON{Number(iv.Median), Number(iv.Low), Number(iv.High)}
}

// RangeJSON is an interval without a best value; an open end is null.
type RangeJSON struct {
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
}

// ToRange is the ends of an interval; null for none.
func ToRange(iv *fit.Interval) *RangeJSON {
	if iv == nil {
		return nil
	}
	return &RangeJSON{Number(iv.Low), Number(iv.High)}
}

// ToBound is what is known of a ratio that was not reached; null for nothing.
func ToBound(b *fit.Bound) *RangeJSON {
	if b == nil {
		return nil
	}
	return &RangeJSON{Positive(b.Low), Number(b.High)}
}
