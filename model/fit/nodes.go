package fit

import "math"

// node is one c of one pair, with the weights of its nodes of σ.
type node struct {
	pair   *pair
	c      float64
	weight []float64
}

// lightest is the weight over the heaviest below which a node is left out of
// questions about looks that have yet to be made, or might not have been: it
// changes no answer and saves most of the work.
const lightest = 2e-5

// nodes are those that carry weight, free to be changed.
func (g *grid) nodes() []node {
	heaviest := 0.0
	g.each(func(_ *pair, _ int, eyes []float64) { heaviest = max(heaviest, total(eyes)) })
	nodes := make([]node, 0, len(g.weight)/g.columns())
	weights := make([]float64, len(g.weight))
	g.each(func(p *pair, place int, eyes []float64) {
		if total(eyes) > lightest*heaviest {
			own := weights[:len(eyes):len(eyes)]
			weights = weights[len(eyes):]
			copy(own, eyes)
			nodes = append(nodes, node{p, g.place.at(place), own})
		}
	})
	return nodes
}

// z is the consistency at u.
func (n *node) z(s scale, u float64) float64 {
	return s.anchor + height(u-n.c, n.pair.beta, n.pair.gamma)
}

// spread is a part of a cell, -0.5 to 0.5, another for each pair: quantiles over
// many nodes then see them spread over their cells and not all on the same few
// c.
func (p *pair) spread() float64 {
	_, part := math.Modf(0.6180339887*float64(p.slope) + 0.4142135624*float64(p.bend))
	return part - 0.5
}
