package fit

import (
	"math"
	"sync"
)

// Outlook is what one more look, at a given composition, is expected to bring.
type Outlook struct {
	// Variance is the expected posterior variance of ln R after the look.
	Variance float64
	// Chance is the probability of each level, at index 2·level; looks to
	// whole levels leave the halves at 0.
	Chance [15]float64
}

// Above is the probability of a look above a level.
func (o Outlook) Above(level float64) float64 {
	sum := 0.0
	for i, c := range o.Chance {
		if float64(i)/2 > level {
			sum += c
		}
	}
	return sum
}

// Likely are the levels between which the look falls in about four cases of
// five: a tenth of the probability lies beyond either.
func (o Outlook) Likely() (low, high float64) {
	const beyond = 0.1
	low, high = math.NaN(), 7
	sum := 0.0
	for i, c := range o.Chance {
		if c == 0 {
			continue
		}
		sum += c
		if math.IsNaN(low) && sum > beyond {
			low = float64(i) / 2
		}
		if sum >= 1-beyond {
			return low, float64(i) / 2
		}
	}
	return low, high
}

// Expected is a range of R in which the answer is thought to lie before any
// look, g/g. It steers what to look at next and never reaches an answer. The
// zero value expects nothing.
type Expected struct{ Low, High float64 }

// Beyond its ends a range loses weight like a normal with this SD in ln R, down
// to a share that a wrong expectation can be overcome from (both chosen; tried
// on simulated benches).
const (
	fadesBy = 0.2
	floor   = 0.1
)

// weigh multiplies the nodes' weights by how well they fit what is expected.
func (e Expected) weigh(nodes []node) {
	if !(e.Low > 0 && e.High > e.Low) {
		return
	}
	low, high := -math.Log(e.High), -math.Log(e.Low)
	for i := range nodes {
		n := &nodes[i]
		beyond := max(low-n.u, n.u-high, 0) / fadesBy
		share := floor + (1-floor)*math.Exp(-beyond*beyond/2)
		for k := range n.weight {
			n.weight[k] *= share
		}
	}
}

// Outlooks says for each composition, in g powder per g liquid, what a look at
// it would bring for the asked level. It is nil when there is no usable look or
// the level is none of 1 to 6 in halves; a composition that is not finite and
// positive has an outlook of infinite variance.
func Outlooks(d Data, level float64, powderPerLiquid []float64, e Expected) []Outlook {
	merged := merge(d)
	if len(merged) == 0 || !fittable(level) {
		return nil
	}
	var p posterior
	p.solve(merged, quarters(level))
	nodes := p.nodes()
	e.weigh(nodes)
	cells, index := possible(d.LevelStep)
	out := make([]Outlook, len(powderPerLiquid))
	for i, x := range powderPerLiquid {
		if !(x > 0) || math.IsInf(x, 1) {
			out[i].Variance = math.Inf(1)
			continue
		}
		out[i] = outlook(nodes, math.Log(x), cells, index, p.level)
	}
	return out
}

// possible are the cells of every look that can be made, and their index in
// Outlook.Chance.
func possible(step float64) (cells []cell, index []int) {
	by := 2
	if step == 0.5 {
		by = 1
	}
	for i := 0; i < 15; i += by {
		cells = append(cells, cellOf(float64(i)/2, step))
		index = append(index, i)
	}
	return cells, index
}

// node is one place and slope of a posterior with the weights of its eyes.
type node struct {
	u, beta float64
	weight  [eyes]float64
}

// nodes are the nodes that carry weight. Leaving out those below a hundred
// thousandth of the heaviest changes no advice and saves most of the work.
func (p *posterior) nodes() []node {
	const light = 1e-5
	heaviest := 0.0
	for j := range p.spans {
		row := p.row(j)
		for i := range row {
			heaviest = max(heaviest, heft(&row[i]))
		}
	}
	nodes := make([]node, 0, len(p.weight))
	for j, s := range p.spans {
		beta := math.Exp(p.slope.at(j))
		row := p.row(j)
		for i := range row {
			if heft(&row[i]) > light*heaviest {
				nodes = append(nodes, node{p.place.at(s.first + i), beta, row[i]})
			}
		}
	}
	return nodes
}

// outlook sums over every look that can be made at u: its probability, and the
// variance of u_L that it would leave.
func outlook(nodes []node, u float64, cells []cell, index []int, level int) (o Outlook) {
	centre := nodes[len(nodes)/2].u // keeps the squares small
	all := 0.0
	for c, cl := range cells {
		t, side := chancesFor(cl.from(level))
		var sum, first, second float64
		for n := range nodes {
			nd := &nodes[n]
			at, part := place(side * nd.beta * (u - nd.u))
			below, above := &t[at], &t[at+1]
			s := 0.0
			for k, w := range nd.weight {
				s += w * (below[k] + part*(above[k]-below[k]))
			}
			v := nd.u - centre
			sum += s
			first += s * v
			second += s * v * v
		}
		if sum > 0 {
			o.Chance[index[c]] = sum
			o.Variance += second - first*first/sum
		}
		all += sum
	}
	if all > 0 {
		o.Variance /= all
		for i := range o.Chance {
			o.Chance[i] /= all
		}
	}
	return o
}

// chances are the tables of P(look | d, sigma) itself: sums over looks that
// have not been made yet want probabilities, not their logarithms.
var chances = struct {
	sync.Mutex
	of map[*table]*table
}{of: map[*table]*table{}}

func chancesFor(c cell) (t *table, side float64) {
	ln, side := tableFor(c)
	chances.Lock()
	defer chances.Unlock()
	t = chances.of[ln]
	if t == nil {
		t = new(table)
		for row := range ln {
			for k, v := range ln[row] {
				t[row][k] = math.Exp(v)
			}
		}
		chances.of[ln] = t
	}
	return t, side
}

// heft is the weight of all eyes of a node.
func heft(w *[eyes]float64) float64 {
	sum := 0.0
	for _, v := range w {
		sum += v
	}
	return sum
}
