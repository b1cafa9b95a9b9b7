package fit

import "math"

// sheaf is a weighted bundle of curves: the probability along c for each pair of β and γ.
// The mass of each cell is spread evenly over it.
type sheaf struct {
	anchor float64
	offset float64 // scale.offset
	step   float64 // width of a cell of c
	curves []curves
	blur   kernel // of c, in half cells; none without a blur
}

// curves are those of a sheaf with one slope and bend.
type curves struct {
	beta, gamma float64
	low         float64   // c at the lower edge of the first cell
	mass        []float64 // by cell; those of a whole sheaf sum to 1
}

// sheaf sums the weights of the grid over σ.
func (g *grid) sheaf() sheaf {
	s := sheaf{anchor: g.scale.anchor, offset: g.scale.offset, step: g.centre.step()}
	s.curves = make([]curves, 0, len(g.pairs))
	n := g.columns()
	masses := make([]float64, len(g.weight)/n)
	for i := range g.pairs {
		p := &g.pairs[i]
		c := curves{p.beta, p.gamma, g.centre.low + float64(p.span.first)*s.step, nil}
		c.mass, masses = masses[:p.span.end-p.span.first], masses[p.span.end-p.span.first:]
		weight := g.of(p)
		for j := range c.mass {
			c.mass[j] = total(weight[j*n : j*n+n])
		}
		s.curves = append(s.curves, c)
	}
	return s.refined(g)
}

// Curves that come close to their floor run away from each other towards the thin levels,
// and single bends would leave gaps between them. So they are split.
const (
	splitFrom = 0.1 // γ/β above which curves are split: level 1 is two fifths of the way to the floor
	parts     = 5   // the number of parts of a cell of γ
)

// refined splits the curves near their floor. Between neighbours in γ the logarithm of the
// mass and the mean of c are taken as straight. Half of the lean keeps the sum over γ right
// to the next order: the width of a cell alone would widen it, and the whole lean narrow it
// by as much.
func (s *sheaf) refined(g *grid) sheaf {
	out := sheaf{anchor: s.anchor, offset: s.offset, step: s.step, curves: make([]curves, 0, 2*len(s.curves))}
	for i, c := range s.curves {
		if c.gamma <= splitFrom*c.beta {
			out.curves = append(out.curves, c)
			continue
		}
		before, after := i, i
		if i > 0 && g.adjoin(i-1) {
			before--
		}
		if i+1 < len(s.curves) && g.adjoin(i) {
			after++
		}
		fromMass, from := s.middle(&s.curves[before])
		toMass, to := s.middle(&s.curves[after])
		apart := float64(max(after-before, 1))
		lean := 0.0
		if fromMass > 0 && toMass > 0 {
			lean = math.Log(toMass/fromMass) / apart / 2
		} else {
			from, to = 0, 0
		}
		out.split(c, g.bend.step(), lean, (to-from)/apart)
	}
	return out
}

// adjoin reports whether a pair and the next have neighbouring bends of the same slope.
func (g *grid) adjoin(i int) bool {
	a, b := &g.pairs[i], &g.pairs[i+1]
	return a.slope == b.slope && a.bend+1 == b.bend
}

// middle gives the mass of curves and their mean c.
func (s *sheaf) middle(c *curves) (mass, mean float64) {
	for i, m := range c.mass {
		mass += m
		mean += m * (c.low + (float64(i)+0.5)*s.step)
	}
	return mass, mean / mass
}

// split adds the parts of curves over the width of their cell of γ. Across the cell the
// logarithm of the density changes by lean and c by drift.
func (s *sheaf) split(c curves, width, lean, drift float64) {
	var shares [parts]float64
	for k := range shares {
		shares[k] = math.Exp(lean * middleOf(k))
	}
	sum := total(shares[:])
	for k := range shares {
		share := shares[k] / sum
		middle := middleOf(k)
		part := curves{c.beta, c.gamma + width*middle, c.low + drift*middle, make([]float64, len(c.mass))}
		for j, m := range c.mass {
			part.mass[j] = m * share
		}
		s.curves = append(s.curves, part)
	}
}

// middleOf gives the middle of part k in its cell, -0.5 to 0.5.
func middleOf(k int) float64 { return (float64(k)+0.5)/parts - 0.5 }

// furthest bounds u: more than a million times the powder in liquid, or less than a
// millionth, counts as never.
var furthest = math.Log(1e6)

// cdf is the cumulative distribution of u at a level: edge i, at (first + i)·step, holds
// the share of curves that reach the level there or thinner. Between edges it is straight.
// The edges are the same for all levels of a sheaf and the numbers at them exact, and a
// curve reaches a thicker level later. So a thicker level's cdf is nowhere the greater, and
// no quantile of its u the smaller.
type cdf struct {
	first int
	step  float64
	below []float64
}

// at gives the distribution of u where the curves reach a level.
func (s *sheaf) at(level float64) cdf {
	step := s.step / 2
	bound := math.Ceil(furthest / step)
	low, high := bound, -bound
	begins := make([]float64, len(s.curves))
	for i := range s.curves {
		c := &s.curves[i]
		begins[i] = (c.low + vAt(level-s.anchor, c.beta, c.gamma)) / step
		low = min(low, max(math.Floor(begins[i]), -bound))
		high = max(high, min(math.Ceil(begins[i])+float64(2*len(c.mass)), bound))
	}
	out := cdf{int(low), step, make([]float64, max(int(high-low), 0)+2)}
	never := 0.0 // above the level from the start
	for i := range s.curves {
		never += out.add(&s.curves[i], begins[i])
	}
	if len(s.blur) > 0 {
		out.first -= len(s.blur) - 1
		out.below = s.blur.convolve(out.below)
	}
	for i, w := range out.below {
		never += w
		out.below[i] = never
	}
	return out
}

// add adds to each edge the mass between it and the edge before, of curves that begin so
// many steps from u = 0. It returns the mass before all edges.
func (d *cdf) add(c *curves, begin float64) (before float64) {
	start := begin - float64(d.first)
	switch {
	case start+float64(2*len(c.mass)) <= 0:
		return total(c.mass)
	case start >= float64(len(d.below)-1): // never, or beyond
		return 0
	}
	// A cell covers two steps: half of its mass in the whole one, and the rest
	// in those that it shares with its neighbours.
	edge := int(math.Floor(start))
	part := start - float64(edge) // of the first step, what lies before the cell
	for _, m := range c.mass {
		before += d.put(edge+1, m*(1-part)/2) + d.put(edge+2, m/2) + d.put(edge+3, m*part/2)
		edge += 2
	}
	return before
}

// put adds mass to an edge, or returns it where it lies before all edges.
func (d *cdf) put(edge int, mass float64) float64 {
	switch {
	case edge < 0:
		return mass
	case edge < len(d.below):
		d.below[edge] += mass
	}
	return 0
}

// quantile gives the quantile q of u. It is -Inf where so many curves are above the level
// from the start, +Inf where so many never reach it.
func (d *cdf) quantile(q float64) float64 {
	if q <= d.below[0] {
		return math.Inf(-1)
	}
	low, high := 0, len(d.below)-1
	if q > d.below[high] {
		return math.Inf(1)
	}
	for high-low > 1 {
		if mid := (low + high) / 2; d.below[mid] >= q {
			high = mid
		} else {
			low = mid
		}
	}
	part := (q - d.below[low]) / (d.below[high] - d.below[low])
	return (float64(d.first+low) + part) * d.step
}

// ratio gives the median and the equal-tailed 95 % interval of R = e^(-u).
func (d *cdf) ratio() Interval {
	r := func(q float64) float64 { return math.Exp(-d.quantile(q)) }
	return Interval{Median: r(0.5), Low: r(0.975), High: r(0.025)}
}

// ratio gives R where the curves reach a level, any level.
func (s *sheaf) ratio(level float64) Interval {
	at := s.at(level)
	return at.ratio()
}
