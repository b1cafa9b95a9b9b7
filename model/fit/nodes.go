package fit

import "math"

// node is one c of one pair, with the weights of its nodes of σ. Its consistency is floor +
// rise·growth; growth depends on u and the pair only.
type node struct {
	pair        int // in the grid
	c           float64
	floor, rise float64
	weight      []float64
}

// lightest is the weight, relative to the heaviest, below which a node is left out. It
// applies to questions about looks not made yet, or left out: it changes no answer and
// saves most of the work.
const lightest = 2e-5

// nodes lists the nodes that carry weight; they may be changed.
func (g *grid) nodes() []node {
	heaviest := 0.0
	g.each(func(_ *pair, _ int, eyes []float64) { heaviest = max(heaviest, total(eyes)) })
	nodes := make([]node, 0, len(g.weight)/g.columns())
	weights := make([]float64, len(g.weight))
	n := g.columns()
	for i := range g.pairs {
		p := &g.pairs[i]
		of := g.of(p)
		for centre := p.span.first; centre < p.span.end; centre++ {
			eyes := of[:n]
			of = of[n:]
			if total(eyes) <= lightest*heaviest {
				continue
			}
			own := weights[:n:n]
			weights = weights[n:]
			copy(own, eyes)
			c := g.centre.at(centre)
			floor, rise := g.curve(p, c)
			nodes = append(nodes, node{i, c, floor, rise, own})
		}
	}
	return nodes
}

// curve gives the curve of a pair at c as floor + rise·growth.
func (g *grid) curve(p *pair, c float64) (floor, rise float64) {
	if math.Abs(p.gamma) < straight {
		return g.scale.anchor - p.beta*c, p.beta
	}
	ratio := p.beta / p.gamma
	return g.scale.anchor - ratio, ratio * math.Exp(-p.gamma*c)
}

// growth gives the part of each pair's curve that depends on u: e^(γ·u), or u itself where
// the curve is straight.
func (g *grid) growth(u float64) []float64 {
	grown := make([]float64, len(g.pairs))
	for i, p := range g.pairs {
		grown[i] = u
		if math.Abs(p.gamma) >= straight {
			grown[i] = math.Exp(p.gamma * u)
		}
	}
	return grown
}

// z gives the consistency at the u of a growth.
func (n *node) z(growth []float64) float64 { return n.floor + n.rise*growth[n.pair] }

// jitter gives a fraction of a cell, -0.5 to 0.5, that differs from pair to pair. Quantiles
// over many nodes then see them spread over their cells and not all on the same few c.
func (p *pair) jitter() float64 {
	_, part := math.Modf(0.6180339887*float64(p.slope) + 0.4142135624*float64(p.bend))
	return part - 0.5
}
