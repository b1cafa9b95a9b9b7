package kitchen

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
)

// Refusal says why two powders are not compared; "" where they are.
type Refusal string

// The refusals.
const (
	OtherLiquid  Refusal = "other liquid"  // ratios in different liquids are different things
	LevelMissing Refusal = "level missing" // no ratio at this level for one of the two
)

// Pair compares powder B with powder A at one level. Warnings belong beside any number of
// the pair; Sentence includes the gravest, Finding does not.
type Pair struct {
	A, B Side
	// SideBySide holds dishes side by side, from which the factor then comes; nil where it
	// comes from two separate profiles.
	SideBySide *SideBySide
	// Refused says why there is no liquid factor; "" where there is one.
	Refused Refusal
	// RestsApart is true where the waits before the looks are more than
	// threefold apart: the factor then is not like for like.
	RestsApart bool
	// ByWeight is the liquid factor by weight: a gram of B takes so many times the liquid
	// of a gram of A; nil when refused.
	ByWeight *fit.Interval
	// BySpoon is the same for level teaspoons; nil when refused or where
	// either has no weighed spoon.
	BySpoon *fit.Interval
	// StandsAt is the level at which B stands in A's place gram for gram, with its
	// interval. It goes a level beyond the ends of the scale; nil when refused.
	StandsAt *fit.Interval
	// Bound holds the known limits of ByWeight where a level is not reached; nil otherwise,
	// and where there are none.
	Bound       *fit.Bound
	Verdict     Verdict
	Reasons     []string // of the verdict
	NextTrial   string   // the trial that would tell where the interval leaves the verdict open, or ""
	Warnings    []string
	Differences []string // in behaviour, family and cautions, whatever the number says
}

// PairOf compares powder B with powder A. Both sides are of one level.
func PairOf(a, b Side) Pair {
	p := Pair{A: a, B: b}
	p.Differences = p.differences()
	switch {
	case p.tellSideBySide():
	case !model.SameLiquid(a.Ratio.Basis.Liquid, b.Ratio.Basis.Liquid):
		p.Refused = OtherLiquid
		return p
	case a.Ratio.Powder == nil || b.Ratio.Powder == nil:
		p.Refused = LevelMissing
		p.Bound = p.bound()
	}
	p.RestsApart = p.SideBySide == nil && !model.ComparableRests(a.Ratio.Basis.RestS, b.Ratio.Basis.RestS)
	p.Warnings = p.warnings(forComparison)
	if p.Refused == "" {
		if p.SideBySide == nil {
			p.separately()
		}
		p.judge()
	}
	return p
}

// separately fills in the liquid factors from two separate profiles.
func (p *Pair) separately() {
	factor := p.B.Ratio.Powder.Over(*p.A.Ratio.Powder)
	p.ByWeight = &factor
	if a, b := p.A.Ratio.PerTsp, p.B.Ratio.PerTsp; a != nil && b != nil {
		spoon := b.Over(*a)
		p.BySpoon = &spoon
	}
}

// judge fills in the level at which B stands, and the verdict.
func (p *Pair) judge() {
	factor := *p.ByWeight
	stands := fit.Interval{
		Median: p.standsAt(factor.Median), Low: p.standsAt(factor.Low),
		High: p.standsAt(factor.High),
	}
	p.StandsAt = &stands
	level := p.A.Ratio.Level
	off := math.Abs(stands.Median - level)
	width := math.Max(stands.High-level, level-stands.Low)
	reachesClose := stands.Low <= level+closeLevels && stands.High >= level-closeLevels
	switch {
	case off <= closeLevels && width <= closeWidth:
		p.Verdict = Close
	case off >= notStandInLevel:
		p.Verdict = NotStandIn
	case reachesClose && width >= notStandInLevel:
		p.Verdict = Unsettled
	default:
		p.Verdict = Adjust
	}
	p.Reasons = p.reasons()
	if p.Verdict == Unsettled || p.Verdict == NotStandIn && reachesClose {
		p.NextTrial = p.nextTrial()
	}
}

// standsAt gives the level at which B stands in A's place, where it takes factor times as
// much liquid. The factor by the spoon gives the level spoon for spoon.
func (p Pair) standsAt(factor float64) float64 {
	if p.SideBySide != nil {
		return p.SideBySide.newest.stands(factor)
	}
	return p.B.Ratio.Curve.Level(factor / p.B.Ratio.Powder.Median).Median
}

// reasons lists the reasons of the verdict, and the amounts that would do.
func (p Pair) reasons() []string {
	a, b := p.Names()
	level, factor := p.A.Ratio.Level, p.ByWeight.Median
	out := []string{fmt.Sprintf("in the place of %s gram for gram, %s comes out at %s instead of %s",
		a, b, StandingText(*p.StandsAt), model.LevelName(level))}
	if p.Verdict != Close {
		liquid := p.A.Ratio.Basis.Liquid
		out = append(out, fmt.Sprintf("for each 10 g of %s use %s g of %s with the same %s, or 10 g with %s", a,
			model.Significant(10/factor, 3), b, liquid, moreText(factor, liquid)))
	}
	off := max(closeLevels, math.Abs(p.StandsAt.Median-level))
	if s := p.BySpoon; s != nil && p.Verdict != NotStandIn && math.Abs(p.standsAt(s.Median)-level) > off {
		out = append(out, fmt.Sprintf("spoon for spoon it comes out at %s: weigh it", StandsAt(p.standsAt(s.Median))))
	}
	return out
}

// nextTrial names the trial that would narrow the liquid factor most.
func (p Pair) nextTrial() string {
	a, b := p.Names()
	if p.SideBySide != nil {
		return fmt.Sprintf("one more trial of %s beside a dish of %s would tell", b, a)
	}
	wider, name := p.A, a
	if p.B.Ratio.Powder.HalfWidth() > p.A.Ratio.Powder.HalfWidth() {
		wider, name = p.B, b
	}
	text := fmt.Sprintf("one more trial of %s would tell", name)
	if b := wider.Ratio.Budget; b != nil && bench.BudgetTerms(*b)[0].Key == "spoon_weight" {
		text += ", with two more level spoons of it weighed first"
	}
	return text
}

// bound returns the limits that the two sides set to the liquid factor, nil where any
// factor is possible.
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

// purpose holds the words in which warnings speak of what the powders are read for.
type purpose struct {
	better string // what a trial with the longest rest is for
	rough  string // what whole levels make rough
}

var (
	forComparison = purpose{better: "a fair comparison", rough: "its level"}
	forMix        = purpose{better: "a better estimate", rough: "this estimate"}
)

// warnings lists what a maker has to know with the number.
func (p Pair) warnings(to purpose) []string {
	a, b := p.Names()
	if p.SideBySide != nil {
		return p.SideBySide.notes()
	}
	var out []string
	if p.RestsApart {
		out = append(out, restsText([]Side{p.A, p.B}, []string{a, b}, to))
	}
	for i, s := range []Side{p.A, p.B} {
		if s.Ratio.Powder != nil && s.Ratio.Reach == fit.OneSided {
			out = append(out, oneSided([]string{a, b}[i]))
		}
	}
	if x, y := p.A.LevelStep, p.B.LevelStep; x != y && x != 0 && y != 0 {
		rough := map[bool]string{true: a, false: b}[x > y]
		out = append(out, fmt.Sprintf("%s was read in whole levels only, so %s can be half a level off.", rough,
			to.rough))
	}
	return out
}

// oneSided says that a powder's ratio is rough.
func oneSided(name string) string {
	return name + " was tested from one side of this level only: its ratio is rough."
}

// restsText names the groups of powders that were read after comparable rests,
// the shortest rest first, and the trials that would bring them together.
func restsText(sides []Side, names []string, to purpose) string {
	type group struct {
		rest  int
		names []string
	}
	order := make([]int, len(sides))
	for i := range order {
		order[i] = i
	}
	rest := func(i int) int { return sides[i].Ratio.Basis.RestS }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rest(a), rest(b)) })
	var groups []group
	for _, i := range order {
		if n := len(groups); n == 0 || groups[n-1].rest != rest(i) {
			groups = append(groups, group{rest: rest(i)})
		}
		last := &groups[len(groups)-1]
		last.names = append(last.names, names[i])
	}
	var said []string
	for i, g := range groups {
		read := ""
		if i == 0 {
			read = map[bool]string{true: " was read", false: " were read"}[len(g.names) == 1]
		}
		said = append(said, fmt.Sprintf("%s%s after %s", listed(g.names), read, model.Seconds(g.rest)))
	}
	longest := groups[len(groups)-1].rest
	var again []string
	for _, g := range groups {
		if !model.ComparableRests(g.rest, longest) {
			again = append(again, g.names...)
		}
	}
	return fmt.Sprintf("Not like for like: %s. A powder takes up more with time; for %s make a trial of %s with a "+
		"rest of %s.", strings.Join(said, ", "), to.better, listed(again), model.Seconds(longest))
}

// listed joins names: "A, B and C".
func listed(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// seen lists the behaviour of one side, marked "at first" where it was.
func seen(s Side) []string {
	var texts []string
	for _, one := range s.Seen {
		texts = append(texts, one.Text())
	}
	return texts
}

// differences lists what differs between the two apart from the ratio.
func (p Pair) differences() []string {
	a, b := p.Names()
	var out []string
	if x, y := p.A.Powder.Kind(), p.B.Powder.Kind(); x != y {
		out = append(out, fmt.Sprintf("Family: %s is %s, %s is %s.", a, x.Words(), b, y.Words()))
	}
	for i, marks := range [][]string{only(seen(p.A), seen(p.B)), only(seen(p.B), seen(p.A))} {
		if len(marks) > 0 {
			out = append(out, fmt.Sprintf("Seen with %s only: %s.", []string{a, b}[i], strings.Join(marks, ", ")))
		}
	}
	for i, allergens := range [][]string{
		only(allergensOf(p.A), allergensOf(p.B)),
		only(allergensOf(p.B), allergensOf(p.A)),
	} {
		if len(allergens) > 0 {
			out = append(out, fmt.Sprintf("Allergens with %s only: %s.", []string{a, b}[i],
				strings.Join(allergens, ", ")))
		}
	}
	if x, y := p.A.Powder.Fizzing(), p.B.Powder.Fizzing(); x != y && max(x, y) == model.Fizzes {
		out = append(out, fmt.Sprintf("Gives off gas with acid: %s only.", map[bool]string{true: a, false: b}[x > y]))
	}
	if text := phText(p.A.PH, p.B.PH, a, b); text != "" {
		out = append(out, text)
	}
	for i, cautions := range [][]string{
		only(care.Of(p.A.Powder), care.Of(p.B.Powder)),
		only(care.Of(p.B.Powder), care.Of(p.A.Powder)),
	} {
		for _, c := range cautions {
			out = append(out, fmt.Sprintf("Caution with %s only: %s", []string{a, b}[i], c))
		}
	}
	return out
}

// phText compares the pH of two pastes; "" where neither was read, or both read alike.
func phText(a, b *float64, nameA, nameB string) string {
	const known = "pH of the paste before any acid: %s %s, "
	switch {
	case a == nil && b == nil || a != nil && b != nil && *a == *b:
		return ""
	case b == nil:
		return fmt.Sprintf(known+"%s not read yet.", nameA, model.Number(*a), nameB)
	case a == nil:
		return phText(b, nil, nameB, nameA)
	default:
		return fmt.Sprintf(known+"%s %s.", nameA, model.Number(*a), nameB, model.Number(*b))
	}
}

// allergensOf lists the allergens of the side's powder, recorded or by its family.
func allergensOf(s Side) []string {
	list, _ := s.Powder.AllergensKnown()
	return list
}

// only lists what is in xs and not in ys.
func only(xs, ys []string) []string {
	return slices.DeleteFunc(slices.Clone(xs), func(x string) bool { return slices.Contains(ys, x) })
}

// Names gives the names of A and B, with their lots where the names are alike.
func (p Pair) Names() (a, b string) {
	if p.A.Powder.Name == p.B.Powder.Name {
		return p.A.Powder.Title(), p.B.Powder.Title()
	}
	return p.A.Powder.Name, p.B.Powder.Name
}

// Sentence says how the two compare, and whether B can stand in for A.
func (p Pair) Sentence() string {
	switch {
	case !p.RestsApart:
		return p.Finding()
	case p.Refused != "":
		return "Not compared: " + p.WhyNot()
	default:
		return p.Warnings[0] + " Even so: " + p.Finding()
	}
}

// WhyNot says why the two are not compared, and what would tell; "" where they are.
func (p Pair) WhyNot() string {
	text := p.refusal()
	if text != "" && p.RestsApart {
		text += " " + p.Warnings[0]
	}
	return text
}

// refusal is WhyNot without the warnings.
func (p Pair) refusal() string {
	a, b := p.Names()
	liquid := p.A.Ratio.Basis.Liquid
	switch p.Refused {
	case OtherLiquid:
		return fmt.Sprintf("%s was tried in %s, %s in %s. Make a trial of both in the same liquid.", a, liquid, b,
			p.B.Ratio.Basis.Liquid)
	case LevelMissing:
		text := cmp.Or(p.besideOneSide(), p.missing()) + "." + p.besideElsewhere()
		if p.Bound != nil {
			text += fmt.Sprintf(" By what was seen, %s takes %s times as much %s as %s by weight.", b,
				bench.BoundText(*p.Bound), liquid, a)
		}
		return text
	default:
		return ""
	}
}

// Finding is Sentence without the warnings.
func (p Pair) Finding() string {
	a, b := p.Names()
	liquid := p.A.Ratio.Basis.Liquid
	if p.Refused != "" {
		return "Not compared: " + p.refusal()
	}
	if p.SideBySide != nil {
		liquid = p.SideBySide.newest.basis.Liquid
	}
	text := fmt.Sprintf("%s takes %s as much %s as %s by weight", b, factorText(*p.ByWeight), liquid, a)
	if p.BySpoon != nil {
		text += fmt.Sprintf(", %s by the spoon", factorText(*p.BySpoon))
	}
	if p.SideBySide != nil {
		text += ", side by side (" + p.SideBySide.Text + ")"
	}
	text += fmt.Sprintf("; gram for gram it comes out at %s instead of %s: %s", StandingText(*p.StandsAt),
		model.LevelName(p.A.Ratio.Level), p.verdictText())
	if p.NextTrial != "" {
		text += "; " + p.NextTrial
	}
	return text + "."
}

// missing says which side has no ratio at the level.
func (p Pair) missing() string {
	a, b := p.Names()
	var said []string
	for i, s := range []Side{p.A, p.B} {
		name := []string{a, b}[i]
		switch {
		case s.Ratio.Powder != nil:
		case s.Ratio.OnlySideBySide:
			said = append(said, name+" was tried "+model.BesideOnly)
		case s.LevelStep == 0:
			said = append(said, fmt.Sprintf("%s has no finished trial in %s with a rest near %s", name,
				s.Ratio.Basis.Liquid, model.Seconds(s.Ratio.Basis.RestS)))
		default:
			said = append(said, fmt.Sprintf("the trials of %s do not reach %s", name, model.LevelName(s.Ratio.Level)))
		}
	}
	return strings.Join(said, ", ")
}

// factorText writes a factor with its interval: "7.6 times (5.1 to 11)".
func factorText(f fit.Interval) string {
	return fmt.Sprintf("%s (%s to %s)", timesText(f.Median), model.Significant(f.Low, 2), model.Significant(f.High, 2))
}

// timesText writes a factor: "7.6 times".
func timesText(v float64) string { return model.Significant(v, 2) + " times" }

// moreText says how much liquid comes to a factor: "8 % more water", "3.4 times the water".
func moreText(factor float64, liquid string) string {
	switch percent := math.Round(100 * (factor - 1)); {
	case factor >= 2:
		return timesText(factor) + " the " + liquid
	case percent > 0:
		return fmt.Sprintf("%.0f %% more %s", percent, liquid)
	case percent < 0:
		return fmt.Sprintf("%.0f %% less %s", -percent, liquid)
	default:
		return "as much " + liquid
	}
}

// inverse gives 1/iv.
func inverse(iv fit.Interval) fit.Interval {
	return fit.Interval{Median: 1 / iv.Median, Low: 1 / iv.High, High: 1 / iv.Low}
}

// onePlus gives 1 + iv.
func onePlus(iv fit.Interval) fit.Interval {
	return fit.Interval{Median: 1 + iv.Median, Low: 1 + iv.Low, High: 1 + iv.High}
}

// exactly makes an interval without width.
func exactly(v float64) fit.Interval { return fit.Interval{Median: v, Low: v, High: v} }
