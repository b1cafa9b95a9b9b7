package measure

import (
	"math"

	"daub.example/daub/model/fit"
)

// softest is the most liquid a paste for spreading takes, in liquid limits; the least is
// one (from memory).
const softest = 2.5

// Limit is the liquid limit of one kind of clay, g water per g clay.
type Limit struct {
	Kind      string
	Low, High float64 // the same where a single clay was measured
	Source    string
	// Rare marks a kind that a maker hardly has, or a span too wide to catch a slip: a
	// ratio that only this one explains is asked about.
	Rare bool
}

const (
	mitchellSoga = "Mitchell & Soga, Fundamentals of Soil Behavior; not checked against the book"
	karakan      = "Karakan 2022, Appl. Sci. 12(17) 8616"
)

// PlainClays are the liquid limits of clays that do not swell.
func PlainClays() []Limit {
	return []Limit{
		{Kind: "kaolinite", Low: 0.30, High: 1.10, Source: mitchellSoga},
		{Kind: "illite", Low: 0.60, High: 1.20, Source: mitchellSoga},
		{Kind: "halloysite", Low: 0.35, High: 0.70, Source: mitchellSoga},
		{Kind: "attapulgite", Low: 1.60, High: 2.30, Source: mitchellSoga, Rare: true},
	}
}

// SwellingClays are the liquid limits of clays that swell.
func SwellingClays() []Limit {
	return []Limit{
		{Kind: "sodium montmorillonite", Low: 3.09, High: 3.09, Source: karakan},
		{Kind: "calcium montmorillonite", Low: 2.19, High: 2.19, Source: karakan},
		{Kind: "bentonite", Low: 1.50, High: 1.50, Source: "one bentonite, PMC9754960 Table 1"},
		{Kind: "montmorillonite of any kind", Low: 1.00, High: 9.00, Source: mitchellSoga, Rare: true},
	}
}

// Possible is the range of ratios, g/g, of pastes for spreading of this kind:
// its liquid limit once to two and a half times.
func (l Limit) Possible() (low, high float64) { return l.Low, l.High * softest }

// Usual gives the middle nine tenths of Possible, with limit and softness each taken as
// evenly spread in ln over their range (chosen). All possible ratios of one kind span a
// factor of 9, too wide to catch a spoon taken for another.
func (l Limit) Usual() (low, high float64) {
	const tail = 0.05
	wide, narrow := math.Log(l.High/l.Low), math.Log(softest)
	wide, narrow = max(wide, narrow), min(wide, narrow)
	// The share below x of a sum of two even spreads is x²/(2·wide·narrow) up
	// to the narrow one's width, and straight after it.
	cut := tail*wide + narrow/2
	if cut < narrow {
		cut = math.Sqrt(2 * tail * wide * narrow)
	}
	return l.Low * math.Exp(cut), l.High * softest * math.Exp(-cut)
}

// Plausible says how a ratio sits among liquid limits.
type Plausible string

// The answers.
const (
	Usual   Plausible = "usual"   // as pastes of at least one kind usually take
	Unusual Plausible = "unusual" // possible, or only of a rare kind: worth a second look
	Outside Plausible = "outside" // no kind explains it
	Unknown Plausible = "unknown" // nothing to compare it with
)

// Check is the answer with what it is based on.
type Check struct {
	Plausible Plausible
	// Kinds are those that explain the ratio: usually, where it is usual, else possibly.
	Kinds     []Limit
	Low, High float64 // as UsualRange
	// Times is the ratio divided by High where it lies above, by Low where it lies below; 1
	// between.
	Times float64
	// Certain is false where the ratio's interval reaches into Low to High
	// though the ratio itself does not lie in it: more looks first.
	Certain bool
}

// UsualRange gives the outer ends of what is usual over all kinds that are not rare, g/g; 0
// without any.
func UsualRange(limits []Limit) (low, high float64) {
	for _, l := range limits {
		least, most := l.Usual()
		if l.Rare || !positive(least, most) {
			continue
		}
		if low == 0 {
			low, high = least, most
		}
		low, high = min(low, least), max(high, most)
	}
	return low, high
}

// PlausibleRatio compares a ratio in water at about level 5, g/g, with liquid limits: those
// of the powder's own kind where it is known, else of its family.
func PlausibleRatio(ratio fit.Interval, limits []Limit) Check {
	c := Check{Plausible: Unknown, Times: 1}
	c.Low, c.High = UsualRange(limits)
	if c.Low == 0 || !positive(ratio.Median) {
		return c
	}
	r := ratio.Median
	explains := func(low, high float64) bool { return low <= r && r <= high }
	var usually, possibly []Limit
	for _, l := range limits {
		if !l.Rare && explains(l.Usual()) {
			usually = append(usually, l)
		}
		if explains(l.Possible()) {
			possibly = append(possibly, l)
		}
	}
	c.Times = r / min(max(r, c.Low), c.High)
	c.Certain = c.Times == 1 || ratio.High < c.Low || ratio.Low > c.High
	switch {
	case len(usually) > 0:
		c.Plausible, c.Kinds = Usual, usually
	case len(possibly) > 0:
		c.Plausible, c.Kinds = Unusual, possibly
	default:
		c.Plausible = Outside
	}
	return c
}

// otherLot is the factor between two lots of one powder beyond which another
// powder or another spoon is likelier (chosen).
const otherLot = 2.0

// StrayLot reports whether a lot takes more than twice, or less than half, what
// an earlier lot took, and by more than their intervals allow. factor is the
// quotient of the two ratios with its 95 % interval.
func StrayLot(factor fit.Interval) bool {
	if !positive(factor.Low, factor.Median, factor.High) {
		return false
	}
	return (factor.Median > otherLot && factor.Low > 1) || (factor.Median < 1/otherLot && factor.High < 1)
}
