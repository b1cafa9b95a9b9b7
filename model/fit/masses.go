package fit

import "math"

// Masses are the terms of a dish's interval that come from its masses, as 95 % half-widths
// in ln R, each 0 or more. They follow METHOD, this dish (law of propagation, JCGM 100:2008
// clause 5). A term counts by its square, so its sign does not matter; a term that is not a
// number makes the interval so.
type Masses struct {
	SpoonWeight float64 // the mean weight of a level spoon
	Scoops      float64 // single spoons around that mean
	PowderScale float64 // reading of the scale, powder
	Liquid      float64 // scale or spoon, liquid
	SpoonSize   float64 // spoons neither weighed level nor calibrated
}

// Budget gives the share of each source in the squared half-width, 0 to 1. The shares sum
// to 1, or are all 0 when nothing is uncertain.
type Budget struct {
	Looks, SpoonWeight, Scoops, PowderScale, Liquid, SpoonSize float64

	// Repeats is the share of the between-trial SD. It is 0 for a single dish.
	Repeats float64
}

// Half gives the 95 % half-width in ln R of all the masses together.
func (m Masses) Half() float64 {
	return math.Sqrt(m.SpoonWeight*m.SpoonWeight + m.Scoops*m.Scoops + m.PowderScale*m.PowderScale +
		m.Liquid*m.Liquid + m.SpoonSize*m.SpoonSize)
}

// Widen adds a half-width in ln R, in quadrature, below and above the median separately.
// Limits that fall as levels rise still do. A limit of 0 or +Inf stays. An interval that is
// otherwise not 0 < low ≤ median ≤ high < +Inf stays as it is.
func (iv Interval) Widen(half float64) Interval {
	if !(0 <= iv.Low && iv.Low <= iv.Median && iv.Median <= iv.High && iv.Median > 0) || math.IsInf(iv.Median, 1) {
		return iv
	}
	return Interval{
		Median: iv.Median,
		Low:    iv.Median * math.Exp(-math.Hypot(math.Log(iv.Median/iv.Low), half)),
		High:   iv.Median * math.Exp(math.Hypot(math.Log(iv.High/iv.Median), half)),
	}
}

// Widen adds the masses to a fit's interval in R, as Interval.Widen does. In the budget the
// looks count with half the whole width of the fit in ln R, and alone where that is
// infinite. An interval that cannot be widened has an empty budget.
func (m Masses) Widen(iv Interval) (Interval, Budget) {
	half := m.Half()
	wide := iv.Widen(half)
	fit := math.Log(iv.High/iv.Low) / 2
	switch total := fit*fit + half*half; {
	case !(0 <= iv.Low && iv.Low <= iv.Median && iv.Median <= iv.High && iv.High > 0), total == 0:
		return wide, Budget{}
	case math.IsInf(fit, 1) || math.IsNaN(fit):
		return wide, Budget{Looks: 1}
	default:
		return wide, Budget{
			Looks:       fit * fit / total,
			SpoonWeight: m.SpoonWeight * m.SpoonWeight / total,
			Scoops:      m.Scoops * m.Scoops / total,
			PowderScale: m.PowderScale * m.PowderScale / total,
			Liquid:      m.Liquid * m.Liquid / total,
			SpoonSize:   m.SpoonSize * m.SpoonSize / total,
		}
	}
}
