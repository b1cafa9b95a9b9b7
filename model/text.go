package model

import (
	"math"
	"strconv"
	"strings"
)

// Number writes v in as few digits as it needs.
func Number(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// Grams writes a mass to the hundredth of a gram, or to the tenth above 100.
func Grams(g float64) string {
	if math.Abs(g) >= 100 {
		return strconv.FormatFloat(g, 'f', 1, 64)
	}
	return strconv.FormatFloat(g, 'f', 2, 64)
}

// Significant writes v to n significant digits, without an exponent in the
// range of bench values.
func Significant(v float64, n int) string {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return strconv.FormatFloat(v, 'g', -1, 64)
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	if places < 0 {
		scale := math.Pow(10, float64(-places))
		return strconv.FormatFloat(math.Round(v/scale)*scale, 'f', 0, 64)
	}
	return strconv.FormatFloat(v, 'f', places, 64)
}

// RoundSignificant rounds v to n significant digits.
func RoundSignificant(v float64, n int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64)
	if err != nil {
		return v
	}
	return r
}

// RatioText writes a ratio to three significant digits.
func RatioText(r float64) string { return Significant(r, 3) }

// Seconds writes a wait the way a maker says it: "30 s", "2 min", "2 min 30 s".
func Seconds(s int) string {
	m, rest := s/60, s%60
	switch {
	case m == 0:
		return strconv.Itoa(rest) + " s"
	case rest == 0:
		return strconv.Itoa(m) + " min"
	default:
		return strconv.Itoa(m) + " min " + strconv.Itoa(rest) + " s"
	}
}

// joinWords joins words as a sentence does: "a, b and c".
func joinWords(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
