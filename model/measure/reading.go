package measure

import (
	"math"

	"daub.example/daub/model/fit"
)

// Kind says what was read. The values are the keys in files and JSON.
type Kind string

// The kinds of readings.
const (
	Spread Kind = "spread" // diameter of what a measured volume spreads to, mm
	Slump  Kind = "slump"  // how far a lifted cylinder's filling sinks, mm
	Cone   Kind = "cone"   // how deep a cone sinks in, mm
	Drain  Kind = "drain"  // how long a funnel takes to run empty, s
	Blows  Kind = "blows"  // blows that close the groove in the cup
)

// sorts holds what differs between kinds. The ranges only say when to ask
// whether a reading was a slip (chosen).
var sorts = map[Kind]struct {
	unit        string
	thickerMore bool
	low, high   float64
}{
	Spread: {"mm", false, 10, 300},
	Slump:  {"mm", false, 1, 300},
	Cone:   {"mm", false, 1, 50},
	Drain:  {"s", true, 1, 600},
	Blows:  {"blows", true, 3, 200},
}

// Kinds lists the kinds in the order a maker picks from.
func Kinds() []Kind { return []Kind{Spread, Slump, Cone, Drain, Blows} }

// Known reports whether k is one of Kinds.
func (k Kind) Known() bool { _, ok := sorts[k]; return ok }

// Unit is "mm", "s" or "blows".
func (k Kind) Unit() string { return sorts[k].unit }

// ThickerReadsMore reports whether a thicker paste gives a larger reading: so
// for drain time and blows, the other way round for the rest.
func (k Kind) ThickerReadsMore() bool { return sorts[k].thickerMore }

// Sensible is the range of readings, in Unit, outside which a slip is likely.
func (k Kind) Sensible() (low, high float64) { return sorts[k].low, sorts[k].high }

// Point is one reading of a dish.
type Point struct {
	PowderPerLiquid float64 // g/g
	Reading         float64 // in the kind's unit
}

// Curve relates a reading to the powder: ln reading is straight in ln(powder per liquid)
// (METHOD, measured readings).
type Curve struct {
	Kind      Kind
	Used      int     // points that counted: both numbers finite and above 0
	Low, High float64 // smallest and largest reading among them; 0 without any
	line      Line
	usable    bool
}

// FitCurve fits the curve of one dish's readings.
func FitCurve(kind Kind, points []Point) Curve {
	c := Curve{Kind: kind}
	var u, z []float64
	for _, p := range points {
		if !positive(p.PowderPerLiquid, p.Reading) {
			continue
		}
		if len(u) == 0 {
			c.Low, c.High = p.Reading, p.Reading
		}
		u, z = append(u, math.Log(p.PowderPerLiquid)), append(z, math.Log(p.Reading))
		c.Low, c.High = min(c.Low, p.Reading), max(c.High, p.Reading)
	}
	c.Used = len(u)
	c.line, c.usable = FitLine(u, z)
	return c
}

// Exponent is the slope of ln reading in ln(powder per liquid); ok is false
// where there is no curve.
func (c Curve) Exponent() (e float64, ok bool) { return c.line.Slope, c.usable }

// ReadingAt gives the curve's reading at a ratio, g liquid per g powder. lnUncertainty is
// the standard uncertainty of its logarithm, for the chart; ok is false without a curve and
// for an impossible ratio.
func (c Curve) ReadingAt(ratio float64) (reading, lnUncertainty float64, ok bool) {
	if !c.usable || !positive(ratio) {
		return 0, 0, false
	}
	z, u := c.line.At(-math.Log(ratio))
	reading = math.Exp(z)
	return reading, u, positive(reading)
}

// RatioAtReading is the ratio at a wanted reading.
type RatioAtReading struct {
	Status Status
	// Ratio is g liquid per g powder with Fieller's interval; all 0 unless
	// Status is Solved; only the median where it is NoInterval.
	Ratio fit.Interval
	G     float64 // Fieller's g
	// Inside is true where the wanted reading lies among the readings; an answer outside
	// them assumes that the line goes on straight.
	Inside bool
}

// RatioAt finds the ratio at a wanted reading, with its interval at a confidence above 0
// and below 1. Two powders are compared at equal reading by the quotient of two of these.
func (c Curve) RatioAt(wanted, confidence float64) RatioAtReading {
	if !c.usable || !c.Kind.Known() || !positive(wanted) {
		return RatioAtReading{Status: Unusable}
	}
	inverse := c.line.Solve(math.Log(wanted), confidence)
	a := RatioAtReading{Status: inverse.Status, G: inverse.G, Inside: c.Low <= wanted && wanted <= c.High}
	if inverse.Status != Solved && inverse.Status != NoInterval {
		return a
	}
	if (c.line.Slope > 0) != c.Kind.ThickerReadsMore() {
		a.Status = Backwards
		return a
	}
	median := math.Exp(-inverse.X)
	if inverse.Status == NoInterval {
		if !positive(median) {
			return RatioAtReading{Status: Unusable}
		}
		a.Ratio.Median = median
		return a
	}
	low, high := math.Exp(-inverse.High), math.Exp(-inverse.Low)
	if !positive(median, low, high) {
		a.Status = SlopeUnclear // limits beyond what a number holds: no finite interval
		return a
	}
	a.Ratio = fit.Interval{Median: median, Low: low, High: high}
	return a
}
