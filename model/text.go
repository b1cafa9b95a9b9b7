package model

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Capital makes the first letter a capital; "" stays.
func Capital(text string) string {
	_, size := utf8.DecodeRuneInString(text)
	return strings.ToUpper(text[:size]) + text[size:]
}

// Ended ends a sentence with a full stop unless it has its end.
func Ended(text string) string {
	if strings.HasSuffix(text, "?") || strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

// Number writes v in as few digits as it needs, without an exponent in the
// range of bench values.
func Number(v float64) string { return strconv.FormatFloat(v, notation(v), -1, 64) }

// Grams writes a mass, g, to the hundredth of a gram, or to the tenth from 100
// on.
func Grams(g float64) string {
	places := 2
	if math.Abs(g) >= 99.995 { // would round to 100.00
		places = 1
	}
	text := strconv.FormatFloat(g, 'f', places, 64)
	if text == "-0.00" {
		return "0.00"
	}
	return text
}

// Significant writes v to n significant digits, n of 1 or more, without an
// exponent in the range of bench values.
func Significant(v float64, n int) string {
	v = RoundSignificant(v, n)
	if notation(v) == 'g' {
		return strconv.FormatFloat(v, 'g', n, 64)
	}
	if v == 0 {
		return "0"
	}
	places := n - 1 - int(math.Floor(math.Log10(math.Abs(v))))
	return strconv.FormatFloat(v, 'f', max(places, 0), 64)
}

// notation picks strconv's format for v: plain in the range of bench values.
func notation(v float64) byte {
	if size := math.Abs(v); v == 0 || size >= 1e-6 && size < 1e12 {
		return 'f'
	}
	return 'g'
}

// RoundSignificant rounds v to n significant digits, n of 1 or more.
func RoundSignificant(v float64, n int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64)
	if err != nil {
		return v
	}
	return r
}

// RatioText writes a ratio to three significant digits.
func RatioText(r float64) string { return Significant(r, 3) }

// PerPowder says what an amount of liquid, written out in g, is for: "5.12 g water per
// g powder".
func PerPowder(amount, liquid string) string { return amount + " g " + liquid + " per g powder" }

// Seconds writes a wait the way a maker says it: "30 s", "2 min", "2 min 30 s",
// "90 min", "8 h".
func Seconds(s int) string {
	if s == 0 {
		return "0 s"
	}
	h, m, s := 0, s/60, s%60
	if m >= 120 {
		h, m = m/60, m%60
	}
	var parts []string
	for _, part := range []struct {
		n    int
		unit string
	}{{h, " h"}, {m, " min"}, {s, " s"}} {
		if part.n != 0 {
			parts = append(parts, strconv.Itoa(part.n)+part.unit)
		}
	}
	return strings.Join(parts, " ")
}

// Plural writes a number of things: "1 look", "2 looks".
func Plural(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
