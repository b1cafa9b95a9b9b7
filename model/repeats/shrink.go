package repeats

import (
	"math"
	"slices"

	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// Terms lists what the powder's interval is made of, the largest share first. "repeats"
// carries the half-width that one more trial like the others would leave. The other terms
// belong to single dishes and have no After.
func (r Ratio) Terms() []bench.Term {
	if r.Budget == nil {
		return nil
	}
	terms := bench.BudgetTerms(*r.Budget)
	for i := range terms {
		if terms[i].Key == "repeats" {
			terms[i].Now = r.Powder.HalfWidth()
			terms[i].After = terms[i].Now * oneMore(r.repeats, r.common)
		}
	}
	return terms
}

// oneMore gives the factor by which one more trial that agrees with the others would shrink
// the powder's interval, by the normal means of the trials.
func oneMore(repeats []fit.Repeat, common float64) float64 {
	u := 0.0
	for _, r := range repeats {
		u += r.StandardUncertainty / float64(len(repeats))
	}
	now, ok := fit.Combine(repeats, common)
	if !ok {
		return 0
	}
	more := append(slices.Clone(repeats), fit.Repeat{LnRatio: now.Powder.Median, StandardUncertainty: u})
	then, _ := fit.Combine(more, common)
	return (then.Powder.High - then.Powder.Low) / (now.Powder.High - now.Powder.Low)
}

// farTrial is the standardised distance from the other trials at which a trial is pointed
// out: two-sided 2 %, as for a look (chosen).
const farTrial = 2.33

// farFrom lists the trials far from where the others put the next dish; it takes two others
// at least. Such a trial is pointed out, never left out by itself.
func farFrom(repeats []fit.Repeat) []int {
	if len(repeats) < 3 {
		return nil
	}
	var far []int
	for i, r := range repeats {
		others := append(append([]fit.Repeat(nil), repeats[:i]...), repeats[i+1:]...)
		c, ok := fit.Combine(others, 0)
		if !ok {
			continue
		}
		spread := (c.Next.High - c.Next.Low) / (2 * fit.Normal95)
		if math.Abs(r.LnRatio-c.Next.Median) > farTrial*math.Hypot(spread, r.StandardUncertainty) {
			far = append(far, i)
		}
	}
	return far
}
