package fit

import "math"

// lump is a run of neighbouring nodes along c taken as one, with the weights of
// its nodes of σ. Questions about looks that have yet to be made, or might not
// have been, hardly depend on single nodes.
type lump struct {
	curve  *pair
	c      float64
	weight []float64
}

// Lumps of a pair of middling width, and the weight over the heaviest below
// which one is left out: it changes no answer and saves most of the work.
const (
	lumpsAcross = 40
	lightest    = 3e-4
)

// condense makes lumps of the nodes of a grid. Of the pairs it takes every other
// like the white fields of a chessboard, which sum to half of the whole all the
// same. Weights need not sum to 1.
func (g *grid) condense() []lump {
	cells := len(g.weight) / g.columns()
	run := max(cells/len(g.pairs)/lumpsAcross, 1)
	n := g.columns()
	all := make([]lump, 0, cells/run+len(g.pairs))
	heaviest := 0.0
	weights := make([]float64, cap(all)*n)
	for i := range g.pairs {
		p := &g.pairs[i]
		if (p.slope+p.bend)%2 != 0 {
			continue
		}
		weight := g.of(p)
		for first := p.span.first; first < p.span.end; first += run {
			end := min(first+run, p.span.end)
			l := lump{p, 0, weights[:n:n]}
			weights = weights[n:]
			for j := first; j < end; j++ {
				nodes := weight[(j-p.span.first)*n : (j-p.span.first+1)*n]
				for k, w := range nodes {
					l.weight[k] += w
				}
				l.c += total(nodes) * g.place.at(j)
			}
			l.c /= max(total(l.weight), math.SmallestNonzeroFloat64)
			heaviest = max(heaviest, total(l.weight))
			all = append(all, l)
		}
	}
	kept := all[:0]
	for _, l := range all {
		if total(l.weight) > lightest*heaviest {
			kept = append(kept, l)
		}
	}
	return kept
}

// z is the consistency at u.
func (l *lump) z(s scale, u float64) float64 {
	return s.anchor + height(u-l.c, l.curve.beta, l.curve.gamma)
}
