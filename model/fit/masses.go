package fit

import "math"

// Masses are the terms of a dish's interval that the looks know nothing of, as
// 95 % half-widths in ln R, each 0 or more (METHOD, this dish: law of
// propagation, JCGM 100:2008 clause 5). A term counts by its square, so its sign
// does not matter; a term that is not a number makes the interval so.
type Masses struct {
	SpoonWeight float64 // the mean weight of a level spoon
	Scoops      float64 // single spoons around that mean
	PowderScale float64 // reading of the scale, powder
	Liquid      float64 // scale or spoon, liquid
	SpoonSize   float64 // spoons neither weighed level nor calibrated
}

// Budget is the share of each source in the squared half-width, 0 to 1. The
// shares sum to 1, or are all 0 when nothing is uncertain.
type Budget struct {
	Looks, SpoonWeight, Scoops, PowderScale, Liquid, SpoonSize float64

	// Repeats is the spread between trials. It is 0 for a single dish.
	Repeats float64
}

// Widen adds the masses to a fit's interval in R: in ln R, in quadrature, below
// and above the median separately. In the budget the looks stand with half the
// whole width of the fit in ln R. An interval that is not 0 < low ≤ median ≤
// high < +Inf comes back as it is, with an empty budget.
func (m Masses) Widen(iv Interval) (Interval, Budget) {
	if !(0 < iv.Low && iv.Low <= iv.Median && iv.Median <= iv.High && !math.IsInf(iv.High, 1)) {
		return iv, Budget{}
	}
	masses := m.SpoonWeight*m.SpoonWeight + m.Scoops*m.Scoops + m.PowderScale*m.PowderScale +
		m.Liquid*m.Liquid + m.SpoonSize*m.SpoonSize
	half := math.Sqrt(masses)
	wide := Interval{
		Median: iv.Median,
		Low:    iv.Median * math.Exp(-math.Hypot(math.Log(iv.Median/iv.Low), half)),
		High:   iv.Median * math.Exp(math.Hypot(math.Log(iv.High/iv.Median), half)),
	}
	fit := math.Log(iv.High/iv.Low) / 2
	total := fit*fit + masses
	if total == 0 {
		return wide, Budget{}
	}
	return wide, Budget{
		Looks:       fit * fit / total,
		SpoonWeight: m.SpoonWeight * m.SpoonWeight / total,
		Scoops:      m.Scoops * m.Scoops / total,
		PowderScale: m.PowderScale * m.PowderScale / total,
		Liquid:      m.Liquid * m.Liquid / total,
		SpoonSize:   m.SpoonSize * m.SpoonSize / total,
	}
}
