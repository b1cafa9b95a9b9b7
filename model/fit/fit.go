// Package fit turns looks at a paste into ratios with honest intervals.
//
// It knows numbers only: compositions, levels, logarithms; no powder, no spoon, no file. It
// imports nothing of ours.
//
// One thickening curve serves all levels. With x in grams of powder per gram of liquid, u =
// ln x and R = 1/x, the consistency of a paste is
//
//	z(u) = 5 + β·(e^(γ·v) - 1)/γ,   v = u - c
//
// where c is ln x at level 5, β the slope there in levels per e-fold, and γ the bend of the
// curve. γ = 0 is the power law of flow lines, log strength straight in log water content
// (Feng 2000, Géotechnique 50(2) 181-187; Vardanega & Haigh 2014, Can. Geotech. J.; the
// one-point method of ASTM D4318). -1 is straight in water content (the flow line that ASTM
// D4318 draws), +1 in powder per liquid.
//
// A look only puts z into an interval, read with an eye of SD σ levels. The posterior over
// (c, ln β, γ, ln σ) is found by quadrature. Its nodes depend on the looks alone and are
// summed in a fixed order, so the same looks give the same bits, whatever their order.
// Every level is read off the same nodes, so that a stiffer paste is never given more
// liquid.
//
// Data never make the package panic. A look that cannot be used is left out.
package fit

import "math"

// Range of R at level 5, g liquid per g powder: c is uniform between
// -ln HighestRatio and -ln LowestRatio (chosen: wider than any paste, gums
// included).
const (
	LowestRatio  = 0.02
	HighestRatio = 300
)

// Normal95 is the half-width of a normal's 95 % interval in standard deviations.
const Normal95 = 1.96

// Look is one reading of the consistency.
type Look struct {
	PowderPerLiquid float64 // x, g powder per g liquid; finite and above 0
	Level           float64 // 0 (watery) to 7 (crumbly), in halves
}

// Data holds the looks of one trial. A look is left out everywhere where its composition is
// not finite and above 0, or its level outside 0 to 7 or between the halves. It keeps its
// place: indices in results count it.
type Data struct {
	Looks     []Look
	LevelStep float64 // looks are to the nearest 0.5 or 1; any other value means 1
	// ReferenceLevel is the level, 0 to 7, of a reference dish that the paste is compared with; nil
	// where levels are named. Beside a reference a look's level is a Compared, and the only
	// level that can be asked for is 0: as thick.
	ReferenceLevel *float64
}

// Interval is a median with the equal-tailed 95 % credible interval. It is in R, g liquid
// per g powder, unless the function that returns it says otherwise. The high limit is +Inf
// where more than 2.5 % of the curves never fall to the level, however wet the paste; the
// low limit is 0 where as many never reach it, however dry.
type Interval struct {
	Median, Low, High float64
}

// HalfWidth gives half the interval's width in ln R, +Inf where a limit is open: 0.12 is
// about 12 %.
func (iv Interval) HalfWidth() float64 { return (math.Log(iv.High) - math.Log(iv.Low)) / 2 }

// Times multiplies the interval by c, above 0.
func (iv Interval) Times(c float64) Interval {
	return Interval{Median: iv.Median * c, Low: iv.Low * c, High: iv.High * c}
}

// Over divides iv by another independent amount above 0 and joins the halves in ln. The low
// half comes from iv's low and the other's high one, the high half the other way round.
func (iv Interval) Over(other Interval) Interval {
	half := func(a, b float64) float64 { return math.Hypot(math.Log(a), math.Log(b)) }
	m := iv.Median / other.Median
	return Interval{
		Median: m,
		Low:    m * math.Exp(-half(iv.Median/iv.Low, other.High/other.Median)),
		High:   m * math.Exp(half(iv.High/iv.Median, other.Median/other.Low)),
	}
}

// Bound holds the known limits of R, g liquid per g powder, when a level is not
// reached. Low 0 means no lower bound, High +Inf no upper one.
type Bound struct {
	Low, High float64
}

// Result holds the answer of a trial at one level.
type Result struct {
	Level   float64
	Looks   int // looks used
	Reach   Reach
	Missing Missing   // what would make the reach better
	Ratio   *Interval // nil when not reached
	Bound   *Bound    // nil unless not reached; nil also without a usable look
	Slope   float64   // posterior median of the slope at the level, levels per e-fold of x; 0 when not reached
	Nearest int       // index in Data.Looks of the look nearest in level, the later of equals; -1 without any
}

// Levels fits the looks once and reads off each level, 1 to 6 in halves, in the order
// given. At any other level the result is not reached, with neither a ratio nor a bound.
func Levels(d Data, levels []float64) []Result {
	return Solve(d).Results(levels)
}

// Results reads off each level as Levels does.
func (p *Posterior) Results(levels []float64) []Result {
	results := make([]Result, len(levels))
	for i, level := range levels {
		results[i] = p.At(level)
	}
	return results
}

// At gives the answer of the looks at one level: 1 to 6 in halves; 0 beside a reference
// dish. At any other level the result is not reached, with neither a ratio nor a bound.
func (p *Posterior) At(level float64) Result {
	r := p.data.Judge(level)
	if r.Reach != NotReached {
		ratio := p.Ratio(level)
		r.Ratio = &ratio
		r.Slope = p.Slope(level)
	}
	return r
}

// fittable reports whether a level can be asked for. 0 and 7 are open ends and have no
// ratio.
func (d Data) fittable(level float64) bool {
	if d.ReferenceLevel != nil {
		return level == 0
	}
	return level >= 1 && level <= 6 && halves(level)
}

// halves reports whether a level is a whole or half one.
func halves(level float64) bool {
	return 2*level == math.Trunc(2*level)
}
