package kitchen

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
)

// Verdict says whether one powder can stand in for another.
type Verdict string

// The verdicts (METHOD, using a ratio; limits chosen). A pair that is not
// compared has none.
const (
	Close      Verdict = "close"          // drink factor 0.8 to 1.25, its interval inside 0.5 to 2
	Adjust     Verdict = "adjust"         // neither of the others
	NotStandIn Verdict = "not a stand-in" // drink factor outside 0.5 to 2
)

const (
	closeLow, closeHigh     = 0.8, 1.25
	standInLow, standInHigh = 0.5, 2.0
)

// Refusal says why two powders are not compared; "" where they are.
type Refusal string

// The refusals.
const (
	OtherLiquid  Refusal = "other liquid"  // ratios in different liquids are different things
	LevelMissing Refusal = "level missing" // no ratio at this level for one of the two
)

// Pair is powder B against powder A at one level. Warnings belong beside any
// number of the pair; Sentence carries the weightiest itself.
type Pair struct {
	A, B Side
	// Refused says why there is no drink factor; "" where there is one.
	Refused Refusal
	// RestsApart is true where the waits before the looks are more than
	// threefold apart: the factor then is not like for like.
	RestsApart bool
	// ByWeight is how many times as much liquid a gram of B takes as a gram
	// of A; nil when refused.
	ByWeight *fit.Interval
	// BySpoon is the same for level teaspoons; nil when refused or where
	// either has no weighed spoon.
	BySpoon *fit.Interval
	// Bound is what can be said of ByWeight where a level is not reached;
	// nil otherwise, and where nothing can be said.
	Bound       *fit.Bound
	Verdict     Verdict
	Reasons     []string // of the verdict
	Settle      string   // what would settle a verdict that the interval leaves open, or ""
	Warnings    []string
	Differences []string // in behaviour, family and cautions, whatever the number says
}

// PairOf sets powder B against powder A. Both sides are of one level.
func PairOf(a, b Side) Pair {
	p := Pair{A: a, B: b}
	p.Differences = p.differences()
	switch {
	case !model.SameLiquid(a.Ratio.Basis.Liquid, b.Ratio.Basis.Liquid):
		p.Refused = OtherLiquid
		return p
	case a.Ratio.Powder == nil || b.Ratio.Powder == nil:
		p.Refused = LevelMissing
		p.Bound = p.bound()
	}
	p.RestsApart = !model.ComparableRests(a.Ratio.Basis.RestS, b.Ratio.Basis.RestS)
	p.Warnings = p.warnings()
	if p.Refused == "" {
		p.judge()
	}
	return p
}

// judge fills in the drink factors and the verdict.
func (p *Pair) judge() {
	factor := quotient(*p.B.Ratio.Powder, *p.A.Ratio.Powder)
	p.ByWeight = &factor
	if a, b := p.A.Ratio.PerTsp, p.B.Ratio.PerTsp; a != nil && b != nil {
		spoon := quotient(*b, *a)
		p.BySpoon = &spoon
	}
	size, span := verdictText(factor.Median), fmt.Sprintf("%s to %s", model.Significant(factor.Low, 2), model.Significant(factor.High, 2))
	var limits []float64
	switch m := factor.Median; {
	case m < standInLow || m > standInHigh:
		p.Verdict, limits = NotStandIn, []float64{standInLow, standInHigh}
		p.Reasons = append(p.Reasons, size+" the liquid lies outside 0.5 to 2")
	case m < closeLow || m > closeHigh:
		p.Verdict, limits = Adjust, []float64{standInLow, closeLow, closeHigh, standInHigh}
		p.Reasons = append(p.Reasons, size+" the liquid lies outside 0.8 to 1.25, but within 0.5 to 2")
	case factor.Low < standInLow || factor.High > standInHigh:
		p.Verdict, limits = Adjust, []float64{standInLow, standInHigh}
		p.Reasons = append(p.Reasons, fmt.Sprintf("%s the liquid, but the interval, %s, reaches beyond 0.5 to 2", size, span))
	default:
		p.Verdict, limits = Close, []float64{closeLow, closeHigh}
		p.Reasons = append(p.Reasons, fmt.Sprintf("%s the liquid lies within 0.8 to 1.25, and the interval, %s, inside 0.5 to 2", size, span))
	}
	if s := p.BySpoon; s != nil && p.Verdict != NotStandIn && (s.Median < closeLow || s.Median > closeHigh) {
		p.Reasons = append(p.Reasons, fmt.Sprintf("by the spoon it is %s: weigh it", verdictText(s.Median)))
	}
	if slices.ContainsFunc(limits, func(l float64) bool { return factor.Low < l && l < factor.High }) {
		p.Settle = p.settle()
	}
}

// settle names the trial that would narrow the drink factor most.
func (p Pair) settle() string {
	a, b := p.Names()
	wider, name := p.A, a
	if p.B.Ratio.Powder.HalfWidth() > p.A.Ratio.Powder.HalfWidth() {
		wider, name = p.B, b
	}
	text := fmt.Sprintf("one more trial of %s would settle it", name)
	if b := wider.Ratio.Budget; b != nil && bench.Terms(*b)[0].Key == "spoon_weight" {
		text += ", with two more level spoons of it weighed first"
	}
	return text
}

// bound is what the two sides allow of the drink factor, nil where that is
// anything at all.
func (p Pair) bound() *fit.Bound {
	ends := func(r repeats.Ratio) fit.Bound {
		switch {
		case r.Powder != nil:
			return fit.Bound{Low: r.Powder.Low, High: r.Powder.High}
		case r.Bound != nil:
			return *r.Bound
		default:
			return fit.Bound{Low: 0, High: math.Inf(1)}
		}
	}
	a, b := ends(p.A.Ratio), ends(p.B.Ratio)
	out := fit.Bound{Low: b.Low / a.High, High: b.High / a.Low}
	if !(out.Low > 0) && !(out.High < math.Inf(1)) {
		return nil
	}
	return &out
}

// warnings are what a maker has to know beside the number.
func (p Pair) warnings() []string {
	a, b := p.Names()
	var out []string
	if p.RestsApart {
		short, shortName, long := p.A, a, p.B
		if p.A.Ratio.Basis.RestS > p.B.Ratio.Basis.RestS {
			short, shortName, long = p.B, b, p.A
		}
		out = append(out, fmt.Sprintf("Not like for like: the looks at %s waited %s, the others %s. A powder takes up more with time; make a trial of %s with a rest of %s.",
			shortName, model.Seconds(short.Ratio.Basis.RestS), model.Seconds(long.Ratio.Basis.RestS), shortName, model.Seconds(long.Ratio.Basis.RestS)))
	}
	for i, s := range []Side{p.A, p.B} {
		if s.Ratio.Powder != nil && s.Ratio.Reach == fit.OneSided {
			out = append(out, fmt.Sprintf("%s was seen from one side of this level only: its ratio is rough.", []string{a, b}[i]))
		}
	}
	if x, y := p.A.LevelStep, p.B.LevelStep; x != y && x != 0 && y != 0 {
		out = append(out, fmt.Sprintf("Looked at on different scales: %s to the nearest %s of a level, %s to the nearest %s.", a, model.Number(x), b, model.Number(y)))
	}
	return out
}

// differences lists what sets the two apart beside the ratio.
func (p Pair) differences() []string {
	a, b := p.Names()
	var out []string
	if x, y := p.A.Powder.Kind(), p.B.Powder.Kind(); x != y {
		out = append(out, fmt.Sprintf("Family: %s is %s, %s is %s.", a, x.Words(), b, y.Words()))
	}
	for i, marks := range [][]string{only(p.A.Marks, p.B.Marks), only(p.B.Marks, p.A.Marks)} {
		if len(marks) > 0 {
			out = append(out, fmt.Sprintf("Seen with %s only: %s.", []string{a, b}[i], strings.Join(marks, ", ")))
		}
	}
	for i, cautions := range [][]string{only(p.A.Powder.Cautions(), p.B.Powder.Cautions()), only(p.B.Powder.Cautions(), p.A.Powder.Cautions())} {
		for _, c := range cautions {
			out = append(out, fmt.Sprintf("Caution with %s only: %s", []string{a, b}[i], c))
		}
	}
	return out
}

// only lists what is in xs and not in ys.
func only(xs, ys []string) []string {
	return slices.DeleteFunc(slices.Clone(xs), func(x string) bool { return slices.Contains(ys, x) })
}

// Names are the names of A and B, with their lots where the names are alike.
func (p Pair) Names() (a, b string) {
	if p.A.Powder.Name == p.B.Powder.Name {
		return p.A.Powder.Title(), p.B.Powder.Title()
	}
	return p.A.Powder.Name, p.B.Powder.Name
}

// Sentence says how the two compare, and whether B can stand in for A.
func (p Pair) Sentence() string {
	a, b := p.Names()
	liquid := p.A.Ratio.Basis.Liquid
	switch {
	case p.Refused == OtherLiquid:
		other := p.B.Ratio.Basis.Liquid
		return fmt.Sprintf("Not compared: %s was tried in %s, %s in %s. Make a trial of both in the same liquid.", a, liquid, b, other)
	case p.Refused == LevelMissing:
		text := fmt.Sprintf("Not compared: %s.", p.missing())
		if p.Bound != nil {
			text += fmt.Sprintf(" By what was seen, %s drinks %s times as much %s as %s by weight.", b, bench.BoundText(*p.Bound), liquid, a)
		}
		if p.RestsApart {
			text += " " + p.Warnings[0]
		}
		return text
	}
	text := fmt.Sprintf("%s drinks %s as much %s as %s by weight", b, factorText(*p.ByWeight), liquid, a)
	if p.BySpoon != nil {
		text += fmt.Sprintf(", %s by the spoon", factorText(*p.BySpoon))
	}
	switch p.Verdict {
	case Close:
		text += "; close: weighed, it can stand in"
	case Adjust:
		text += "; it can stand in once the amounts are adjusted"
	default:
		text += "; not a stand-in where the recipe has " + liquid
	}
	if p.Settle != "" {
		text += "; " + p.Settle
	}
	text += "."
	if p.RestsApart {
		text = p.Warnings[0] + " With that said: " + text
	}
	return text
}

// missing says which side has no ratio at the level.
func (p Pair) missing() string {
	a, b := p.Names()
	var said []string
	for i, s := range []Side{p.A, p.B} {
		name := []string{a, b}[i]
		switch {
		case s.Ratio.Powder != nil:
		case s.LevelStep == 0:
			said = append(said, name+" has no finished trial")
		default:
			said = append(said, fmt.Sprintf("the trials of %s do not reach %s", name, model.LevelName(s.Ratio.Level)))
		}
	}
	return strings.Join(said, ", ")
}

// factorText is a factor with its interval: "7.6 times (5.1 to 11)".
func factorText(f fit.Interval) string {
	return fmt.Sprintf("%s (%s to %s)", timesText(f.Median), model.Significant(f.Low, 2), model.Significant(f.High, 2))
}

// verdictText is a factor in as many digits as tell it from a verdict's limits.
func verdictText(v float64) string {
	for digits := 2; digits < 5; digits++ {
		rounded := model.RoundSignificant(v, digits)
		if !slices.Contains([]float64{standInLow, closeLow, closeHigh, standInHigh}, rounded) || rounded == v {
			return model.Significant(v, digits) + " times"
		}
	}
	return timesText(v)
}

func timesText(v float64) string { return model.Significant(v, 2) + " times" }

// quotient is num/den of two independent amounts above 0, their halves joined
// in ln: the low half from num's low and den's high one, the high half the
// other way round.
func quotient(num, den fit.Interval) fit.Interval {
	half := func(a, b float64) float64 { return math.Hypot(math.Log(a), math.Log(b)) }
	m := num.Median / den.Median
	return fit.Interval{
		Median: m,
		Low:    m * math.Exp(-half(num.Median/num.Low, den.High/den.Median)),
		High:   m * math.Exp(half(num.High/num.Median, den.Median/den.Low)),
	}
}

// inverse is 1/iv.
func inverse(iv fit.Interval) fit.Interval {
	return fit.Interval{Median: 1 / iv.Median, Low: 1 / iv.High, High: 1 / iv.Low}
}

// onePlus is 1 + iv.
func onePlus(iv fit.Interval) fit.Interval {
	return fit.Interval{Median: 1 + iv.Median, Low: 1 + iv.Low, High: 1 + iv.High}
}

// exactly is an amount that is known.
func exactly(v float64) fit.Interval { return fit.Interval{Median: v, Low: v, High: v} }
