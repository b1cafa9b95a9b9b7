package repeats

import (
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Method is the version of the arithmetic behind ratios. Raise it whenever the same records
// give other numbers: tables of earlier versions are then worked out anew.
const Method = 3

// RatioDigits is the precision of numbers in files and for other programs, in
// significant digits.
const RatioDigits = 4

// Row is a Ratio for files and other programs: numbers in g/g, rounded to RatioDigits, 0
// where the trials do not say.
type Row struct {
	Liquid string
	RestS  int
	Level  float64
	Reach  string
	Trials int

	Median, Low, High             float64 // of this powder
	NextLow, NextHigh             float64 // of the next dish
	BoundLow, BoundHigh           float64 // when not reached; 0 for an open end
	PerTsp, PerTspLow, PerTspHigh float64 // g liquid per level teaspoon
}

// Row gives the ratio for files and other programs.
func (r Ratio) Row() Row {
	row := Row{Liquid: r.Basis.Liquid, RestS: r.Basis.RestS, Level: r.Level, Reach: r.Reach.String(), Trials: r.Trials}
	switch {
	case r.Powder != nil:
		row.Median, row.Low, row.High = rounded(*r.Powder)
		if r.Next != nil {
			_, row.NextLow, row.NextHigh = rounded(*r.Next)
		}
	case r.Bound != nil:
		row.BoundLow, row.BoundHigh = roundRatio(r.Bound.Low), roundRatio(r.Bound.High)
	}
	if r.PerTsp != nil {
		row.PerTsp, row.PerTspLow, row.PerTspHigh = rounded(*r.PerTsp)
	}
	return row
}

// Rounded gives the ratio with the rounded numbers of its row, to be shown. A table's number
// rounded once more may differ in the last digit from one that was never rounded.
func (r Ratio) Rounded() Ratio {
	row := r.Row().Ratio()
	if r.Next == nil {
		row.Next = nil
	}
	r.Powder, r.Next, r.PerTsp, r.Bound = row.Powder, row.Next, row.PerTsp, row.Bound
	return r
}

// RoundedInterval rounds an interval to the digits of a row, as Rounded does a ratio.
func RoundedInterval(iv fit.Interval) fit.Interval { return *interval(rounded(iv)) }

// Ratio returns a row's ratio, its numbers rounded, without explanation.
func (r Row) Ratio() Ratio {
	out := Ratio{Basis: model.Basis{Liquid: r.Liquid, RestS: r.RestS}, Level: r.Level, Trials: r.Trials}
	for _, reach := range []fit.Reach{fit.Bracketed, fit.OneSided} {
		if r.Reach == reach.String() {
			out.Reach = reach
		}
	}
	switch {
	case out.Reach != fit.NotReached:
		out.Powder = interval(r.Median, r.Low, r.High)
		out.Next = interval(r.Median, r.NextLow, r.NextHigh)
	case r.Says():
		out.Bound = &fit.Bound{Low: r.BoundLow, High: openEnd(r.BoundHigh)}
	}
	if r.PerTsp > 0 {
		out.PerTsp = interval(r.PerTsp, r.PerTspLow, r.PerTspHigh)
	}
	return out
}

// interval turns the numbers of a row into an interval.
func interval(median, low, high float64) *fit.Interval {
	iv := &fit.Interval{Median: median, Low: low, High: openEnd(high)}
	if math.IsInf(iv.High, 1) { // else nothing is told because it is 0
		iv.Median = openEnd(median)
	}
	return iv
}

// openEnd gives an upper limit, +Inf for 0.
func openEnd(v float64) float64 {
	if v == 0 {
		return math.Inf(1)
	}
	return v
}

// Says reports whether the trials say anything: a ratio or a bound.
func (r Row) Says() bool { return r.Median > 0 || r.BoundLow > 0 || r.BoundHigh > 0 }

// rounded gives an interval's numbers as a row holds them.
func rounded(iv fit.Interval) (median, low, high float64) {
	return roundRatio(iv.Median), roundRatio(iv.Low), roundRatio(iv.High)
}

// roundRatio rounds a number above 0 to RatioDigits; others become 0.
func roundRatio(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 0) {
		return 0
	}
	return model.RoundSignificant(v, RatioDigits)
}

// Table lists every ratio that the profile's trials give, at level 1 to 6 and the aim. It
// does so on each basis, the one of the newest trial first. Levels of which the trials say
// nothing are left out.
func Table(p model.Profile, own model.OwnSpoons) []Ratio {
	var out []Ratio
	for _, b := range p.Bases() {
		for _, r := range Ratios(p, b, model.TableLevels(p.Aim()), own) {
			if r.Row().Says() {
				out = append(out, r)
			}
		}
	}
	return out
}
