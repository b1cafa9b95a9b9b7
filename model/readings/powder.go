package readings

import (
	"fmt"
	"math"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

// Powder holds a powder's ratio at one reading, from all its trials read on that scale.
type Powder struct {
	model.Measured
	Basis         model.Basis
	Wanted        float64
	Trials        int
	Ratio, Next   fit.Interval // g/g: this powder, the next dish
	BetweenTrials float64      // between-trial SD, in ln R
}

// Scale names the reading that the answer is for: "at 61 mm, spread of 15 mL".
func (p Powder) Scale() string { return scale(p.Measured, p.Wanted) }

// Brief gives the powder's answer in few words, "1.53 (1.40 to 1.67) at 61 mm", and in
// fewer.
func (p Powder) Brief() [2]string {
	at := " at " + p.Text(p.Wanted)
	return [2]string{bench.IntervalText(p.Ratio) + at, model.RatioText(p.Ratio.Median) + at}
}

// Tip gives the answer for a recipe, for makers with a ruler, a cone or a watch.
func (p Powder) Tip() string {
	return fmt.Sprintf("Measured, %s: %s read %s. Levels are another scale.", p.Words(),
		model.PerPowder(bench.IntervalText(p.Ratio), p.Basis.Liquid), p.Text(p.Wanted))
}

// Sentence gives the powder's answer with its scale.
func (p Powder) Sentence() string {
	trials := "1 trial"
	if p.Trials > 1 {
		trials = fmt.Sprintf("%d trials", p.Trials)
	}
	return fmt.Sprintf("%s %s (%s); the next dish %s.",
		model.PerPowder(bench.IntervalText(p.Ratio), p.Basis.Liquid), p.Scale(), trials,
		bench.RangeText(p.Next))
}

// on reports whether a trial counts for the powder on the scale of m, in the liquid and
// after a comparable rest.
func on(t model.Trial, b model.Basis, m model.Measured) bool {
	return t.Used() && t.Measured != nil && t.Measured.Like(m) && model.SameLiquid(t.Liquid, b.Liquid) &&
		model.ComparableRests(*t.RestS, b.RestS)
}

// Pool joins the used trials of a profile on the scale of m, at the wanted reading. They
// are joined as normal means, with the between-trial SD (METHOD, this powder). ok is false
// where none has an interval there.
func Pool(p model.Profile, b model.Basis, m model.Measured, wanted float64, own model.OwnSpoons) (out Powder, ok bool) {
	m.Wanted = wanted
	out = Powder{Measured: m, Basis: b, Wanted: wanted}
	var all []fit.Repeat
	common := 0.0
	for _, t := range p.Trials {
		if t = t.WithDefaults(p.Powder.Kind()); !on(t, b, m) {
			continue
		}
		r, err := bench.Read(p, t, own)
		if err != nil {
			continue
		}
		one, some := readAs(r, m)
		if !some || one.Status != measure.Solved {
			continue
		}
		common += one.Masses.SpoonWeight // the mean of the spoon is in all trials alike: added once
		one.Masses.SpoonWeight = 0
		own, _ := one.Masses.Widen(one.RatioAtReading.Ratio)
		all = append(all, fit.Repeat{
			LnRatio: math.Log(own.Median), StandardUncertainty: own.HalfWidth() / fit.Normal95,
		})
	}
	joined, ok := fit.Combine(all, common/float64(max(len(all), 1)))
	if !ok {
		return out, false
	}
	out.Trials, out.BetweenTrials = len(all), joined.BetweenTrials
	out.Ratio, out.Next = fromLn(joined.Powder), fromLn(joined.Next)
	return out, true
}

// fromLn turns an interval in ln R into one in R.
func fromLn(iv fit.Interval) fit.Interval {
	return fit.Interval{Median: math.Exp(iv.Median), Low: math.Exp(iv.Low), High: math.Exp(iv.High)}
}

// Pools gives the answers of a powder, one for each scale its trials are read on, the
// newest trial's first. Each is at the reading that the newest trial on its scale wants.
func Pools(p model.Profile, own model.OwnSpoons) (all []Powder) {
	for _, i := range p.NewestFirst() {
		t := p.Trials[i]
		t = t.WithDefaults(p.Powder.Kind())
		said := func(q Powder) bool { return on(t, q.Basis, q.Measured) }
		if !t.Used() || t.Measured == nil || slices.ContainsFunc(all, said) {
			continue
		}
		r, err := bench.Read(p, t, own)
		if err != nil {
			continue
		}
		if m, ok := Of(r); ok {
			if q, ok := Pool(p, m.Basis, m.Measured, m.Wanted, own); ok {
				all = append(all, q)
			}
		}
	}
	return all
}

// Only reports whether the used trials of a powder have readings and no look.
func Only(p model.Profile) bool {
	measured := false
	for _, t := range p.Trials {
		if t.Used() && t.Looks() > 0 {
			return false
		}
		measured = measured || t.Used() && t.HasReading()
	}
	return measured
}

// OfPowder puts the answers of a powder into words, one sentence a scale.
func OfPowder(p model.Profile, own model.OwnSpoons) (texts []string) {
	for _, q := range Pools(p, own) {
		texts = append(texts, "This powder: "+q.Sentence())
	}
	return texts
}

// Pair compares powder B with powder A at equal reading.
type Pair struct {
	A, B   Powder
	Factor fit.Interval // how many times as much liquid a gram of B takes
}

// Against compares profile b with a on every scale that both are read on, at the reading
// that a wants there.
func Against(a, b model.Profile, own model.OwnSpoons) (pairs []Pair) {
	for _, of := range Pools(a, own) {
		if to, ok := Pool(b, of.Basis, of.Measured, of.Wanted, own); ok {
			pairs = append(pairs, Pair{of, to, to.Ratio.Over(of.Ratio)})
		}
	}
	return pairs
}

// Sentence puts the comparison into words, with its scale; a and b name the powders.
func (p Pair) Sentence(a, b string) string {
	return fmt.Sprintf("Measured, %s: a gram of %s takes %s (%s to %s) times the %s of %s. Levels are another scale.",
		p.A.Scale(), b, model.Significant(p.Factor.Median, 2), model.Significant(p.Factor.Low, 2),
		model.Significant(p.Factor.High, 2), p.A.Basis.Liquid, a)
}
