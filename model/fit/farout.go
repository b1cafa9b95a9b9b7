package fit

import (
	"math"
	"slices"
)

// farOut is the probability below which a look is pointed at, and fewest how
// many other looks it takes (METHOD, far-out look; chosen).
const (
	farOut = 0.02
	fewest = 3
)

// FarOut are the looks that the others would hardly have led to expect at this
// level, as indices in Data.Looks, ascending. Each look y is held against the
// posterior of the others: p = 2·min(P(Y ≤ y), P(Y ≥ y)) below 0.02, with three
// usable others or more. Such a look is pointed at, never left out of a fit.
// The level is 1 to 6 in halves; at any other there are none.
func FarOut(d Data, level float64) []int {
	merged := merge(d)
	looks := 0.0
	for _, r := range merged {
		looks += r.count
	}
	if looks <= fewest || !fittable(level) {
		return nil
	}
	var all, others posterior
	all.solve(merged, quarters(level))
	var far []reading
	for i, r := range merged {
		if all.suspects(r) && others.surprise(merged, i, quarters(level)) < farOut {
			far = append(far, r)
		}
	}
	var indices []int
	for i, l := range d.Looks {
		if l.usable() && slices.ContainsFunc(far, d.reading(l).says) {
			indices = append(indices, i)
		}
	}
	return indices
}

// suspects reports whether a reading that is part of the posterior may be far
// out, so that the fit without it is worth its time. The probability of its own
// cell given the others is the inverse of the mean of 1/P over the posterior
// with it, and never more than p/2. The margin is for what that mean misses
// outside the window.
func (p *posterior) suspects(r reading) bool {
	const margin = 5
	return p.mean(r, func(lnP float64) float64 { return math.Exp(-lnP) }) > 2/farOut/margin
}

// surprise is p of one look of reading i, given all the others.
func (p *posterior) surprise(readings []reading, i, level int) float64 {
	r := readings[i]
	others := slices.Clone(readings)
	others[i].count--
	if others[i].count == 0 {
		others = slices.Delete(others, i, i+1)
	}
	p.solve(others, level)
	atMost := p.mean(reading{u: r.u, cell: cell{-open, r.cell.high}}, math.Exp)
	atLeast := p.mean(reading{u: r.u, cell: cell{r.cell.low, open}}, math.Exp)
	return 2 * min(atMost, atLeast)
}

// mean is the posterior mean of a function of ln P(reading). With math.Exp it is
// the predictive probability of a look that has yet to be made.
func (p *posterior) mean(r reading, of func(lnP float64) float64) float64 {
	t, side := tableFor(r.cell.from(p.level))
	sum := 0.0
	for j := range p.spans {
		d, step := p.distances(j, r.u, side)
		for i, node := range p.row(j) {
			at, part := place(d - float64(i)*step)
			below, above := &t[at], &t[at+1]
			for k, w := range node {
				if w > 0 {
					sum += w * of(below[k]+part*(above[k]-below[k]))
				}
			}
		}
	}
	return sum
}
