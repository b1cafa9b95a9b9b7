package measure

import (
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Line is the straight line y = intercept + slope·x by least squares. With two
// points it is exact and every standard deviation is 0, which then says
// nothing.
type Line struct {
	N                       int
	Intercept, Slope        float64
	InterceptSD, SlopeSD    float64
	S                       float64 // residual standard deviation of y, on N - 2 degrees of freedom
	InterceptSlopeR         float64 // correlation of the estimates of intercept and slope
	meanX, meanY, sumSquare float64 // sumSquare: Σ(x - x̄)²
}

// FitLine fits a line through points (x, y). ok is false for fewer than two points, for x
// that are all the same, and where anything is not finite.
func FitLine(x, y []float64) (l Line, ok bool) {
	n := len(x)
	if n < 2 || n != len(y) || !finite(x...) || !finite(y...) || floats.Min(x) == floats.Max(x) {
		return Line{}, false
	}
	l.N = n
	meanX, varX := stat.MeanVariance(x, nil)
	l.meanX, l.meanY = meanX, stat.Mean(y, nil)
	l.sumSquare = varX * float64(n-1)
	l.Intercept, l.Slope = stat.LinearRegression(x, y, nil, false)
	if n > 2 {
		residuals := 0.0
		for i := range x {
			d := y[i] - l.meanY - l.Slope*(x[i]-meanX)
			residuals += d * d
		}
		l.S = math.Sqrt(residuals / float64(n-2))
	}
	fromOrigin := l.sumSquare/float64(n) + meanX*meanX // Σx²/n
	l.SlopeSD = l.S / math.Sqrt(l.sumSquare)
	l.InterceptSD = l.SlopeSD * math.Sqrt(fromOrigin)
	l.InterceptSlopeR = -meanX / math.Sqrt(fromOrigin)
	if !finite(l.Intercept, l.Slope, l.InterceptSD, l.SlopeSD, l.InterceptSlopeR) {
		return Line{}, false
	}
	return l, true
}

// At gives the line's y at x with its standard uncertainty, that of the mean response and
// not of a single further reading (JCGM 100:2008, H.3).
func (l Line) At(x float64) (y, uncertainty float64) {
	d := x - l.meanX
	return l.meanY + l.Slope*d, l.S * math.Sqrt(1/float64(l.N)+d*d/l.sumSquare)
}

// Status says what came of solving a line back for x.
type Status string

// The statuses. Only Solved has an interval; Solved and NoInterval have a value.
const (
	Solved       Status = "solved"
	NoInterval   Status = "no interval"   // two points only: a value that nothing vouches for
	SlopeUnclear Status = "slope unclear" // g ≥ 1: the slope is not clearly different from zero
	Backwards    Status = "backwards"     // more powder reads thinner
	Unusable     Status = "unusable"      // no line through these data, or an impossible wanted value
)

// Inverse is the x at which a line takes a wanted y. X is 0 unless Status is Solved or
// NoInterval; Low and High are 0 unless it is Solved.
type Inverse struct {
	Status       Status
	X, Low, High float64
	// G is Fieller's g = (t·SlopeSD/Slope)²: near 0 the interval is nearly
	// symmetric, towards 1 it grows lopsided and without end. 0 for two
	// points, +Inf for a slope of 0.
	G float64
}

// Solve finds the x at which the mean response is y, with Fieller's interval (Graybill &
// Iyer 1994, Regression Analysis, 427-434). confidence lies above 0 and below 1; Student's
// t has N - 2 degrees of freedom.
func (l Line) Solve(y, confidence float64) Inverse {
	if l.N < 2 || !finite(y) || !(confidence > 0 && confidence < 1) {
		return Inverse{Status: Unusable}
	}
	if l.Slope == 0 {
		return Inverse{Status: SlopeUnclear, G: math.Inf(1)}
	}
	offset := (y - l.meanY) / l.Slope // x̂ - x̄
	x := l.meanX + offset
	if !finite(x) {
		return Inverse{Status: Unusable}
	}
	if l.N == 2 {
		return Inverse{Status: NoInterval, X: x}
	}
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(l.N - 2)}.Quantile((1 + confidence) / 2)
	rel := t * l.SlopeSD / l.Slope
	g := rel * rel
	if !(g < 1) {
		return Inverse{Status: SlopeUnclear, G: g}
	}
	middle := offset * g / (1 - g)
	half := t * l.S / math.Abs(l.Slope) *
		math.Sqrt(offset*offset/l.sumSquare+(1-g)/float64(l.N)) / (1 - g)
	low, high := x+middle-half, x+middle+half
	if !finite(low, high) {
		return Inverse{Status: SlopeUnclear, G: g}
	}
	return Inverse{Status: Solved, X: x, Low: low, High: high, G: g}
}
