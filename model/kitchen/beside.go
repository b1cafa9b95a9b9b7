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

// SideBySide is what dishes of two powders, brought to one thickness next to each
// other, say of a pair. It wins over two separate profiles (METHOD, side by side).
type SideBySide struct {
	Level    float64      // at which the reference dish stood
	ByWeight fit.Interval // times as much liquid to a gram of B as to a gram of A
	StandsAt fit.Interval // the level at which B stands in A's place gram for gram
	Trials   int
	Newest   time.Time    // start of the newest of them
	Text     string       // which dishes, and when: "trial 2 of B beside trial 1 of A, 2026-05-03"
	ratioA   fit.Interval // of A's dish, or what A took beside B's, g/g
	Lost     bool         // a reference dish is no longer in the record as it was: its own figures are used
}

// matched is a match trial as a side holds it.
type matched struct {
	match    model.Match
	trial    int // its place in the profile
	started  time.Time
	liquid   string
	factor   fit.Interval
	standsAt fit.Interval
}

// matchesOf are the finished match trials of a profile that reach their dish.
func matchesOf(p model.Profile, d model.OwnSpoons) (out []matched) {
	for i, t := range p.Trials {
		if t.Match == nil || !t.Finished() {
			continue
		}
		r, err := bench.Read(p, t, d)
		if err != nil {
			continue
		}
		if a := r.At(r.Trial.Match.Level); a.Reach == fit.Bracketed {
			out = append(out, matched{*r.Trial.Match, i, t.Started, r.Trial.Liquid, *r.Factor(), *r.StandsBeside()})
		}
	}
	return out
}

// dishStands reports whether the reference dish is in the side's record as it was.
func (s Side) dishStands(m model.Match) bool {
	if m.Trial < 1 || m.Trial > len(s.profile.Trials) {
		return false
	}
	r, err := bench.Read(s.profile, s.profile.Trials[m.Trial-1], s.ownSpoons)
	return err == nil && r.Stands(m)
}

// sideBySide is what match trials of either powder beside a dish of the other say
// at the level of the pair; nil where there is none.
func (p Pair) sideBySide() *SideBySide {
	a, b := p.Names()
	var out SideBySide
	var repeats []fit.Repeat
	take := func(of, ref Side, name, refName string, inverted bool) {
		for _, m := range of.matches {
			fits := m.match.Powder == ref.Slug && m.match.Level == p.A.Ratio.Level &&
				model.SameLiquid(m.liquid, p.A.Ratio.Basis.Liquid)
			if !fits || ref.Slug == "" {
				continue
			}
			factor, stands, level := m.factor, m.standsAt, m.match.Level
			ratioA := exactly(1 / m.match.PowderPerLiquid).Widen(m.match.MassesHalf())
			if inverted { // the curve of one serves for the other
				ratioA = product(ratioA, factor)
				factor = inverse(factor)
				stands = fit.Interval{
					Median: 2*level - stands.Median, Low: 2*level - stands.High, High: 2*level - stands.Low,
				}
			}
			repeats = append(repeats, fit.Repeat{
				LnRatio: math.Log(factor.Median), StandardUncertainty: factor.HalfWidth() / fit.Normal95,
			})
			out.Trials++
			if out.Trials == 1 || m.started.After(out.Newest) {
				out.Newest, out.StandsAt, out.ByWeight, out.Level, out.ratioA = m.started, stands, factor, level, ratioA
				out.Text = fmt.Sprintf("trial %d of %s beside trial %d of %s, %s", m.trial+1, name, m.match.Trial, refName,
					m.started.Format(time.DateOnly))
			}
			out.Lost = out.Lost || !ref.dishStands(m.match)
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
		out.Text = fmt.Sprintf("%d trials side by side, the newest %s", out.Trials, out.Text)
	}
	return &out
}

// tellSideBySide fills a pair in from dishes side by side, whatever the separate
// profiles say.
func (p *Pair) tellSideBySide() bool {
	p.Beside = p.sideBySide()
	if p.Beside == nil {
		return false
	}
	p.Refused, p.Bound = "", nil
	factor, stands := p.Beside.ByWeight, p.Beside.StandsAt
	p.ByWeight, p.StandsAt = &factor, &stands
	if a, b := p.A.TspG, p.B.TspG; a > 0 && b > 0 {
		spoon := factor.Times(b / a).Widen(math.Hypot(p.A.spoonHalf(), p.B.spoonHalf()))
		p.BySpoon = &spoon
	}
	return true
}

// spoonHalf is how unsure the weight of the side's level teaspoon is, 95 %
// half-width in ln; 0 without a weighing.
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

// ratios are what A and B take at the level of the pair, g/g: of dishes side by
// side B takes the factor times what A does.
func (p Pair) ratios() (a, b fit.Interval) {
	if p.Beside == nil {
		return *p.A.Ratio.Powder, *p.B.Ratio.Powder
	}
	if p.A.Ratio.Powder != nil {
		a = *p.A.Ratio.Powder
		return a, product(a, *p.ByWeight)
	}
	if p.B.Ratio.Powder != nil {
		b = *p.B.Ratio.Powder
		return b.Over(*p.ByWeight), b
	}
	return p.Beside.ratioA, product(p.Beside.ratioA, *p.ByWeight)
}

// product is a·b of two independent amounts above 0.
func product(a, b fit.Interval) fit.Interval { return a.Over(inverse(b)) }

// besideNotes are what belongs beside a factor from dishes side by side.
func (p Pair) besideNotes() []string {
	if p.Beside == nil {
		return nil
	}
	out := []string{fmt.Sprintf("Side by side at %s: %s; this goes before the two separate profiles.",
		model.LevelName(p.Beside.Level), p.Beside.Text)}
	if p.Beside.Lost {
		out = append(out, "The reference dish is no longer in the record as it was: what the trial noted of it is used.")
	}
	return out
}
