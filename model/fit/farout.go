package fit

import (
	"math"
	"slices"
)

// Limits of a far-out look (METHOD, far-out look; chosen).
const (
	farOut = 0.02 // the probability below which a look is pointed out
	fewest = 3    // the number of other looks it takes
)

// FarOut lists the looks that the others make unlikely, as indices in Data.Looks,
// ascending. A look y is far out where p = min(1, 2·min(P(Y ≤ y), P(Y ≥ y))) under the
// posterior of the others lies below 0.02, with three usable others or more. Such a look is
// pointed out, never left out of a fit.
func (p *Posterior) FarOut() []int { return slices.Clone(p.farOut()) }

// findFarOut works out FarOut.
func (p *Posterior) findFarOut() []int {
	if p.Looks() <= fewest {
		return nil
	}
	nodes := p.grid.nodes()
	var far []reading
	for i, r := range p.readings {
		if p.suspects(nodes, r) && surprise(p.grid.scale, p.readings, i) < farOut {
			far = append(far, r)
		}
	}
	var indices []int
	for i, l := range p.data.Looks {
		if p.data.usable(l) && slices.ContainsFunc(far, p.data.reading(l).says) {
			indices = append(indices, i)
		}
	}
	return indices
}

// suspects reports whether a reading that is part of the posterior may be far out, so that
// the fit without it is worth its time. The probability of its own cell given the others is
// the inverse of the mean of 1/P over the posterior with it, and never more than p/2. The
// margin allows for what that mean misses outside the window.
func (p *Posterior) suspects(nodes []node, r reading) bool {
	const margin = 5
	g := p.grid
	l := lookupFor(r.cell, g.scale.eye, g.eyes)
	growth := g.growth(r.u)
	sum, all := 0.0, 0.0
	for i := range nodes {
		row, part := l.row(nodes[i].z(growth))
		all += total(nodes[i].weight)
		at := row*l.columns + g.seen.first
		for k, w := range nodes[i].weight {
			sum += w / max(l.chance[at+k]+part*(l.chance[at+l.columns+k]-l.chance[at+k]), 1e-300)
		}
	}
	return sum > 2/farOut/margin*all
}

// without is the size of the fit that leaves one reading out.
var without = size{20, 13, 9, wideEyes}

// surprise gives p of one look of reading i, given all the others.
func surprise(s scale, readings []reading, i int) float64 {
	r := readings[i]
	others := slices.Clone(readings)
	others[i].count--
	if others[i].count == 0 {
		others = slices.Delete(others, i, i+1)
	}
	g := solve(s, others, ending(without))
	atMost := g.chance(r.u, cell{math.Inf(-1), r.cell.high})
	atLeast := g.chance(r.u, cell{r.cell.low, math.Inf(1)})
	return min(1, 2*min(atMost, atLeast))
}

// chance gives the probability that a look at u would fall in a cell with an open end.
func (g *grid) chance(u float64, c cell) float64 {
	if math.IsInf(c.low, -1) && math.IsInf(c.high, 1) {
		return 1
	}
	l := lookupFor(c, g.scale.eye, g.eyes)
	sum := 0.0
	g.each(func(p *pair, centre int, eyes []float64) {
		row, part := l.row(g.scale.anchor + height(u-g.centre.at(centre), p.beta, p.gamma))
		at := row*l.columns + g.seen.first
		for k, w := range eyes {
			sum += w * (l.chance[at+k] + part*(l.chance[at+l.columns+k]-l.chance[at+k]))
		}
	})
	return sum
}
