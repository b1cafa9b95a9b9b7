package measure

import (
	"math"

	"daub.example/daub/model/fit"
)

// Flow is a flow class of USP <1174>, by how much a powder gives way to tapping.
type Flow string

// The classes, the freest first.
const (
	Excellent    Flow = "excellent"
	Good         Flow = "good"
	Fair         Flow = "fair"
	Passable     Flow = "passable"
	Poor         Flow = "poor"
	VeryPoor     Flow = "very poor"
	VeryVeryPoor Flow = "very, very poor"
)

// flows are the upper ends of the classes in Hausner ratio (USP <1174>, read).
var flows = []struct {
	to   float64
	flow Flow
}{
	{1.11, Excellent},
	{1.18, Good},
	{1.25, Fair},
	{1.34, Passable},
	{1.45, Poor},
	{1.59, VeryPoor},
}

// FlowOf gives the class of a Hausner ratio, rounded to two decimals as the table prints
// them; "" for an impossible ratio.
func FlowOf(hausner float64) Flow {
	if !positive(hausner) {
		return ""
	}
	rounded := math.Round(hausner*100) / 100
	for _, f := range flows {
		if rounded <= f.to {
			return f.flow
		}
	}
	return VeryVeryPoor
}

// sureByTheSpoon is the largest Hausner ratio, the end of fair, up to which a powder is
// given by the spoon. Beyond it a tapped spoon holds over a quarter more (chosen).
const sureByTheSpoon = 1.25

// Packing tells how much tapping changes what a level spoon holds.
type Packing struct {
	// Hausner is tapped over loose density, with its 95 % interval.
	Hausner fit.Interval
	// Compressibility is 100·(tapped - loose)/tapped, %.
	Compressibility fit.Interval
	Flow            Flow
	// From and To are the classes at the ends of the interval: the same as
	// Flow where the weighings settle it.
	From, To Flow
	// InGrams is true where recipes should give this powder in grams.
	InGrams bool
}

// Pack judges how a powder packs. hausner is the mean weight of one level spoon tapped over
// that of the same spoon filled loose, with its 95 % interval. Volumes are the same, so
// weights stand for densities. ok is false where a limit is not finite and above 0, or the
// limits are out of order. It is false as well where the whole interval lies below 1: the
// two sets were swapped.
func Pack(hausner fit.Interval) (p Packing, ok bool) {
	h := hausner
	if !positive(h.Low, h.Median, h.High) || h.Low > h.Median || h.Median > h.High || h.High < 1 {
		return Packing{}, false
	}
	compressed := func(h float64) float64 { return 100 * (1 - 1/h) }
	return Packing{
		Hausner:         h,
		Compressibility: fit.Interval{Median: compressed(h.Median), Low: compressed(h.Low), High: compressed(h.High)},
		Flow:            FlowOf(h.Median),
		From:            FlowOf(h.Low),
		To:              FlowOf(h.High),
		InGrams:         math.Round(h.Median*100)/100 > sureByTheSpoon,
	}, true
}
