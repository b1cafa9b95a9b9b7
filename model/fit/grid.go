package fit

import "math"

// grid holds the nodes of a quadrature over (c, ln β, γ, ln σ). Each pair of β and γ has
// nodes only along its own span of c, for the posterior is a narrow ridge across the pairs.
// Pairs without any are left out.
type grid struct {
	scale  scale
	centre axis // c
	slope  axis // ln β
	bend   axis // δ = γ - tilt·(ln β - mid), so that β and δ hardly depend on each other
	eyes   eyes
	seen   span // the nodes of σ in use

	tilt, mid float64

	pairs []pair

	// weight holds an entry for each pair, within it each c and within it each node of σ in
	// use. At first these are the logarithms of the likelihood times the prior, then the
	// probabilities of the nodes, which sum to 1.
	weight []float64

	z []float64 // along the span of a pair
}

// pair is one β and γ with its span of c.
type pair struct {
	slope, bend int // nodes
	beta, gamma float64
	span        span
	at          int // index of its first entry in grid.weight
}

// whole makes the grid over the whole prior.
func whole(s scale, n size) *grid {
	const reach = slopeReach * sdSlope
	g := &grid{
		scale:  s,
		centre: axis{-math.Log(HighestRatio), -math.Log(LowestRatio), n.centres},
		slope:  axis{math.Log(medianSlope) - reach, math.Log(medianSlope) + reach, n.slopes},
		bend:   axis{-bendReach * sdBend, bendReach * sdBend, n.bends},
		eyes:   n.eyes,
		seen:   span{0, n.eyes.nodes},
	}
	g.lay(func(_, _ float64) span { return span{0, n.centres} })
	return g
}

// lay sets out the pairs with the span of each.
func (g *grid) lay(spanOf func(lnBeta, gamma float64) span) {
	at := 0
	for j := range g.slope.cells {
		for m := range g.bend.cells {
			gamma := g.gamma(j, m)
			s := spanOf(g.slope.at(j), gamma)
			if s.first >= s.end || math.Abs(gamma) > bendReach*sdBend {
				continue
			}
			g.pairs = append(g.pairs, pair{j, m, math.Exp(g.slope.at(j)), gamma, s, at})
			at += (s.end - s.first) * g.columns()
		}
	}
	g.weight = make([]float64, at)
}

// gamma gives the γ of a pair.
func (g *grid) gamma(slope, bend int) float64 {
	return g.bend.at(bend) + g.tilt*(g.slope.at(slope)-g.mid)
}

// sized gives a buffer of n entries, the old one where it is large enough.
func sized[T any](buffer []T, n int) []T {
	if cap(buffer) < n {
		return make([]T, n)
	}
	return buffer[:n]
}

// columns counts the nodes of σ in use.
func (g *grid) columns() int { return g.seen.end - g.seen.first }

// of gives the weights of a pair.
func (g *grid) of(p *pair) []float64 {
	return g.weight[p.at : p.at+(p.span.end-p.span.first)*g.columns()]
}

// fill computes the probabilities of the nodes, with the likelihood raised to a power, 0 to
// 1.
func (g *grid) fill(readings []reading, power float64) {
	for i := range g.pairs {
		p := &g.pairs[i]
		n := g.columns()
		weight := g.of(p)
		g.prior(p, weight[:n])
		for at := n; at < len(weight); at += n {
			copy(weight[at:at+n], weight[:n])
		}
	}
	g.likelihood(readings, power)
	g.normalise()
}

// likelihood adds the logarithm of the likelihood, times a power, to every node.
func (g *grid) likelihood(readings []reading, power float64) {
	lookups := make([]lookup, len(readings))
	for i, r := range readings {
		lookups[i] = lookupFor(r.cell, g.scale.eye, g.eyes)
	}
	for i := range g.pairs {
		p := &g.pairs[i]
		for j, r := range readings {
			g.stride(p, r.u)
			g.add(p, &lookups[j], power*r.count)
		}
	}
}

// stride calculates z along a pair's span of c. Each node follows from the one before by a
// factor.
func (g *grid) stride(p *pair, u float64) {
	g.z = sized(g.z, p.span.end-p.span.first)
	v, step := u-g.centre.at(p.span.first), g.centre.step()
	if math.Abs(p.gamma) < straight {
		for i := range g.z {
			g.z[i] = g.scale.anchor + p.beta*(v-float64(i)*step)
		}
		return
	}
	factor, ratio := math.Exp(-p.gamma*step), p.beta/p.gamma
	grown, floor := ratio*math.Exp(p.gamma*v), g.scale.anchor-ratio
	for i := range g.z {
		g.z[i] = floor + grown
		grown *= factor
	}
}

// prior writes the logarithm of a pair's prior for each node of σ.
func (g *grid) prior(p *pair, into []float64) {
	b := (g.slope.at(p.slope) - math.Log(medianSlope)) / sdSlope
	c := p.gamma / sdBend
	for k := range into {
		t := g.eyes.at(g.seen.first + k)
		sigma := g.eyes.sigma(g.scale.eye, g.seen.first+k)
		into[k] = -(b*b+c*c+t*t)/2 + g.scale.lnFloor(p.beta, p.gamma, sigma)
	}
}

// add adds a reading's log likelihood, times a power, to every node of a pair.
func (g *grid) add(p *pair, l *lookup, power float64) {
	n, first := g.columns(), g.seen.first
	weight := g.of(p)
	for _, z := range g.z {
		row, part := l.row(z)
		at := row*l.columns + first
		to := weight[:n]
		below, above := l.ln[at:][:len(to)], l.ln[at+l.columns:][:len(to)]
		f, h := power*(1-part), power*part
		k := 0
		for ; k+3 < len(to); k += 4 { // four at a time: the loop itself costs as much as the sums
			a, b, c := to[k:k+4:k+4], below[k:k+4:k+4], above[k:k+4:k+4]
			a[0] += f*b[0] + h*c[0]
			a[1] += f*b[1] + h*c[1]
			a[2] += f*b[2] + h*c[2]
			a[3] += f*b[3] + h*c[3]
		}
		for ; k < len(to); k++ {
			to[k] += f*below[k] + h*above[k]
		}
		weight = weight[n:]
	}
}

// negligible is the logarithm of the weight, relative to the heaviest, below which a node
// counts as 0.
const negligible = -36

// normalise turns logarithms into probabilities that sum to 1.
func (g *grid) normalise() {
	top := math.Inf(-1)
	for _, ln := range g.weight {
		if ln > top { // max would look for NaN, which takes longer than the rest
			top = ln
		}
	}
	sum := 0.0
	for i, ln := range g.weight {
		w := 0.0
		if ln -= top; ln > negligible {
			w = math.Exp(ln)
		}
		g.weight[i] = w
		sum += w
	}
	factor := 1 / sum
	for i := range g.weight {
		g.weight[i] *= factor
	}
}

// each calls f with every cell of every pair and its weights along σ, in order.
func (g *grid) each(f func(p *pair, centre int, eyes []float64)) {
	n := g.columns()
	for i := range g.pairs {
		p := &g.pairs[i]
		weight := g.of(p)
		for at := 0; at < len(weight); at += n {
			f(p, p.span.first+at/n, weight[at:at+n])
		}
	}
}

// total adds up weights.
func total(weights []float64) float64 {
	sum := 0.0
	for _, w := range weights {
		sum += w
	}
	return sum
}
