package kitchen

import (
	"fmt"
	"math"
	"slices"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// SideBySide holds the liquid factor of a pair from dishes brought to one thickness next to
// each other. It takes precedence over two separate profiles (METHOD, side by side).
type SideBySide struct {
	Level    float64      // that of the reference dish
	ByWeight fit.Interval // the liquid of a gram of B divided by that of a gram of A
	Trials   int
	Newest   time.Time // start of the newest of them
	Text     string    // which dishes, and when: "trial 2 of B beside trial 1 of A, 2026-05-03"
	Lost     bool      // a reference dish has changed in the record: the trial's own note of it is used

	newest matched
	ratioA fit.Interval // of A's dish, or what A took beside B's, g/g
}

// longText writes a time in whole hours, from two days on in days.
func longText(d time.Duration) string {
	if d > 48*time.Hour {
		return fmt.Sprintf("%.0f days", d.Hours()/24)
	}
	return fmt.Sprintf("%.0f h", d.Hours())
}

// matched is a finished trial beside a dish of another powder.
type matched struct {
	match    model.Match
	trial    int // its index in the profile
	started  time.Time
	basis    model.Basis
	factor   fit.Interval // its powder against the reference; zero where it was seen from one side only
	stands   func(factor float64) (level float64)
	oneSided bool
	lost     bool
}

// matchesOf lists the finished trials of a powder beside dishes of others, as far as they
// reached the thickness of their dish.
func matchesOf(p model.Profile, powders []model.Entry, own model.OwnSpoons) (out []matched) {
	for i, t := range p.Trials {
		if t.Match == nil || !t.Finished() {
			continue
		}
		r, err := bench.Read(p, t, own)
		if err != nil {
			continue
		}
		m := *r.Trial.Match
		a := r.At(m.Level)
		if a.Dish == nil {
			continue
		}
		out = append(out, matched{
			match: m, trial: i, started: t.Started, basis: model.Basis{Liquid: r.Trial.Liquid, RestS: *r.Trial.RestS},
			factor: *r.Factor(), oneSided: a.Reach != fit.Bracketed, lost: !inRecord(m, powders, own),
			stands: func(factor float64) float64 { return r.Curve().Level(factor / a.Dish.Median).Median },
		})
	}
	return out
}

// inRecord reports whether the reference dish is in its powder's record as it was. It is
// true as well where that powder is not at hand.
func inRecord(m model.Match, powders []model.Entry, own model.OwnSpoons) bool {
	at := slices.IndexFunc(powders, func(e model.Entry) bool { return e.Slug == m.Powder })
	if at < 0 {
		return true
	}
	p := powders[at].Profile
	if m.Trial < 1 || m.Trial > len(p.Trials) {
		return false
	}
	r, err := bench.Read(p, p.Trials[m.Trial-1], own)
	return err == nil && r.Stands(m)
}

// beside lists the trials of s beside dishes of ref at the level and on the basis that both
// are read at.
func (s Side) beside(ref Side) (out []matched) {
	for _, m := range s.matches {
		if m.match.Level == ref.Ratio.Level && m.of(ref) {
			out = append(out, m)
		}
	}
	return out
}

// of reports whether the trial was beside a dish of ref on ref's basis, at any level.
func (m matched) of(ref Side) bool {
	return ref.Slug != "" && m.match.Powder == ref.Slug &&
		model.SameLiquid(m.basis.Liquid, ref.Ratio.Basis.Liquid) &&
		model.ComparableRests(m.basis.RestS, ref.Ratio.Basis.RestS)
}

// sideBySide joins the trials of either powder beside a dish of the other, at the level of
// the pair. nil where none was tested both thinner and thicker.
func (p Pair) sideBySide() *SideBySide {
	a, b := p.Names()
	out := SideBySide{Level: p.A.Ratio.Level}
	var repeats []fit.Repeat
	take := func(of, ref Side, name, refName string, turned bool) {
		for _, m := range of.beside(ref) {
			if m.oneSided {
				continue
			}
			ratioA := exactly(1 / m.match.PowderPerLiquid).Widen(m.match.MassesHalf())
			if turned { // A beside a dish of B; the curve of one serves for the other
				ratioA, m.factor = product(ratioA, m.factor), inverse(m.factor)
			}
			repeats = append(repeats, fit.Repeat{
				LnRatio: math.Log(m.factor.Median), StandardUncertainty: m.factor.HalfWidth() / fit.Normal95,
			})
			out.Trials++
			out.Lost = out.Lost || m.lost
			if out.Trials == 1 || m.started.After(out.Newest) {
				out.Newest, out.newest, out.ByWeight, out.ratioA = m.started, m, m.factor, ratioA
				out.Text = fmt.Sprintf("trial %d of %s beside %s, %s", m.trial+1, name, m.match.Of(refName),
					m.started.Format(time.DateOnly))
			}
		}
	}
	take(p.B, p.A, b, a, false)
	take(p.A, p.B, a, b, true)
	if out.Trials == 0 {
		return nil
	}
	if all, ok := fit.Combine(repeats, 0); ok && out.Trials > 1 {
		out.ByWeight = fit.Interval{
			Median: math.Exp(all.Powder.Median), Low: math.Exp(all.Powder.Low), High: math.Exp(all.Powder.High),
		}
		out.Text = fmt.Sprintf("%d trials, the newest %s", out.Trials, out.Text)
	}
	return &out
}

// tellSideBySide fills in the factors from dishes side by side, whatever the separate
// profiles say; false without such dishes.
func (p *Pair) tellSideBySide() bool {
	p.SideBySide = p.sideBySide()
	if p.SideBySide == nil {
		return false
	}
	factor := p.SideBySide.ByWeight
	p.ByWeight = &factor
	if a, b := p.A.TspG, p.B.TspG; a > 0 && b > 0 {
		spoon := factor.Times(b / a).Widen(math.Hypot(p.A.spoonHalf(), p.B.spoonHalf()))
		p.BySpoon = &spoon
	}
	return true
}

// spoonHalf gives the 95 % half-width, in ln, of the weight of the side's level teaspoon; 0
// without a weighing.
func (s Side) spoonHalf() float64 {
	w := s.SpoonWeights.Weighed()
	i := slices.IndexFunc(w, func(w model.Weighed) bool { return w.Spoon == model.Teaspoon })
	if i < 0 && len(w) > 0 {
		i = 0
	}
	if i < 0 || !(w[i].Weight.Mean > 0) {
		return 0
	}
	return w[i].Weight.HalfWidth() / w[i].Weight.Mean
}

// ratios returns the ratios of A and B at the level of the pair, g/g. From dishes side by
// side, B's is A's times the factor.
func (p Pair) ratios() (a, b fit.Interval) {
	switch {
	case p.SideBySide == nil:
		return *p.A.Ratio.Powder, *p.B.Ratio.Powder
	case p.A.Ratio.Powder != nil && p.inItsLiquid():
		a = *p.A.Ratio.Powder
	default:
		a = p.SideBySide.ratioA
	}
	return a, product(a, *p.ByWeight)
}

// inPlace gives B as it goes into a recipe in the place of A: by its own levels, or, side
// by side, by A's ratio times the factor.
func (p Pair) inPlace() Side {
	s, a := p.B, p.A.Ratio
	if p.SideBySide == nil || a.Powder == nil || !p.inItsLiquid() {
		return s
	}
	powder, next := product(*a.Powder, *p.ByWeight), product(*a.Next, *p.ByWeight)
	s.matches, s.Ratio = nil, a
	s.Ratio.Powder, s.Ratio.Next, s.Ratio.PerTsp = &powder, &next, nil
	if s.LastTrial = p.A.LastTrial; p.SideBySide.Newest.After(s.LastTrial) {
		s.LastTrial = p.SideBySide.Newest
	}
	return s
}

// inItsLiquid reports whether A's own ratio is in the liquid of the dishes side by side.
func (p Pair) inItsLiquid() bool {
	return model.SameLiquid(p.A.Ratio.Basis.Liquid, p.SideBySide.newest.basis.Liquid)
}

// product multiplies two independent amounts above 0.
func product(a, b fit.Interval) fit.Interval { return a.Over(inverse(b)) }

// longStood is the age of a reference dish above which a note says so (chosen).
const longStood = time.Hour

// notes lists the remarks on a factor from dishes side by side.
func (s SideBySide) notes() []string {
	out := []string{fmt.Sprintf("Side by side at %s: %s. This goes before two separate trials.",
		model.LevelName(s.Level), s.Text)}
	m := s.newest
	if stood := m.started.Sub(m.match.Made); stood > longStood && !m.match.Made.IsZero() {
		out = append(out, fmt.Sprintf("The reference dish had stood %s: a powder that soaks on stands thicker in "+
			"it than in a fresh dish.", longText(stood)))
	}
	if s.Lost {
		out = append(out, "The reference dish is no longer in the record as it was: what the trial noted of it is "+
			"used.")
	}
	return out
}

// besideElsewhere says at which other level the two were compared side by side; "" where
// they were not.
func (p Pair) besideElsewhere() string {
	for _, two := range [][2]Side{{p.B, p.A}, {p.A, p.B}} {
		for _, m := range two[0].matches {
			if m.match.Level != p.A.Ratio.Level && !m.oneSided && m.of(two[1]) {
				return fmt.Sprintf(" Side by side they stood at %s: ask at that level.", model.LevelName(m.match.Level))
			}
		}
	}
	return ""
}

// besideOneSide says that a trial side by side does not settle the factor yet; "" without
// such a trial.
func (p Pair) besideOneSide() string {
	a, b := p.Names()
	for i, ms := range [][]matched{p.B.beside(p.A), p.A.beside(p.B)} {
		if len(ms) > 0 {
			return fmt.Sprintf("%s was seen from one side only beside %s: go on with trial %d of it, or repeat it",
				[]string{b, a}[i], ms[0].match.Of([]string{a, b}[i]), ms[0].trial+1)
		}
	}
	return ""
}
