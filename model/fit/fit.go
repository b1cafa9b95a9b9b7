// Package fit turns looks at a paste into a ratio with an honest interval.
//
// It knows numbers only: compositions, levels, logarithms. The thickening
// line says that the consistency z of a paste is straight in u = ln x, where x
// is grams of powder per gram of liquid, and that a look tells no more than an
// interval in which z lies. The posterior of the composition that reaches a
// level is found by quadrature on fixed nodes in a fixed order, so the same
// looks give the same bits, whatever their order.
//
// Data never make the package panic. A look that cannot be used is left out,
// and where the looks do not carry a ratio none is given.
package fit

import "math"

// Range of R, g liquid per g powder, over which the thickening line looks for
// an answer: u_L is uniform between -ln HighestRatio and -ln LowestRatio
// (chosen: wider than any paste).
const (
	LowestRatio  = 0.02
	HighestRatio = 50
)

// Look is one reading of the consistency.
type Look struct {
	PowderPerLiquid float64 // x, g powder per g liquid; finite and above 0
	Level           float64 // 0 (thin) to 7 (crumbly), in halves
}

// Data is a trial as the fit sees it. A look with a composition that is not
// finite and positive, or with a level outside 0 to 7 or between the halves, is
// left out everywhere, but keeps its place: indices in results count it.
type Data struct {
	Looks     []Look
	LevelStep float64 // looks are to the nearest 0.5 or 1; any other value means 1
}

// Interval is a median with the equal-tailed 95 % interval. It is in R, g
// liquid per g powder, unless the function that returns it says otherwise.
type Interval struct {
	Median, Low, High float64
}

// Bound is what can be said of R, g liquid per g powder, when a level is not
// reached. Low 0 means no lower bound, High +Inf no upper one.
type Bound struct {
	Low, High float64
}

// Result is what a trial says about one level.
type Result struct {
	Level   float64
	Looks   int // looks used
	Reach   Reach
	Missing Missing   // what would make the reach better
	Ratio   *Interval // nil when not reached
	Bound   *Bound    // nil unless not reached; nil also without a usable look
	Slope   float64   // posterior median of beta, levels per e-fold of x; 0 when not reached
	Nearest int       // index in Data.Looks of the look nearest in level, the later of equals; -1 without any
}

// At fits one level: 1 to 6, in halves. At any other level the result is not
// reached, with neither a ratio nor a bound.
func At(d Data, level float64) Result {
	return Levels(d, []float64{level})[0]
}

// Levels fits each level on its own, as At does, in the order given.
func Levels(d Data, levels []float64) []Result {
	merged := merge(d)
	var p posterior
	results := make([]Result, len(levels))
	for i, level := range levels {
		results[i] = judge(d, level)
		if results[i].Reach == NotReached {
			continue
		}
		p.solve(merged, quarters(level))
		ratio := p.ratio()
		results[i].Ratio = &ratio
		results[i].Slope = p.beta()
	}
	return results
}

// Posterior is the bare posterior of R at a level, 1 to 6 in halves, whatever
// the reach; without near looks it is mostly the prior and no ratio to show.
// It is false when no look is usable or the level is none.
func Posterior(d Data, level float64) (Interval, bool) {
	merged := merge(d)
	if len(merged) == 0 || !fittable(level) {
		return Interval{}, false
	}
	var p posterior
	p.solve(merged, quarters(level))
	return p.ratio(), true
}

// fittable reports whether a level can be asked for. 0 and 7 are open ends, no
// places on the scale.
func fittable(level float64) bool {
	return level >= 1 && level <= 6 && halves(level)
}

func halves(level float64) bool {
	return 2*level == math.Trunc(2*level)
}
