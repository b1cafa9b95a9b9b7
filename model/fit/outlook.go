package fit

import (
	"cmp"
	"math"
	"slices"
	"sync"
)

// Outlook tells what to expect of one more look at a given composition.
type Outlook struct {
	// SquaredWidth is the expected square of the width in ln R of the central 68 % of u at
	// the asked level after the look. Curves that never reach the level count at the end of
	// the range of R.
	SquaredWidth float64
	// Chance is the probability of each level, at index 2·(level - lowest); looks
	// to whole levels leave the halves at 0.
	Chance [15]float64
	lowest float64 // the thinnest look
}

// HalfWidth gives the half-width of a 95 % interval in ln R, for a normal whose central 68
// % have the expected width.
func (o Outlook) HalfWidth() float64 {
	const central, in95 = 0.994458, 1.959964 // SD on either side of the central 68 % and 95 %
	return math.Sqrt(o.SquaredWidth) / 2 / central * in95
}

// Above gives the probability of a look above a level.
func (o Outlook) Above(level float64) float64 {
	sum := 0.0
	for i, c := range o.Chance {
		if o.lowest+float64(i)/2 > level {
			sum += c
		}
	}
	return sum
}

// Likely gives the levels between which the look falls in about four cases of five: a tenth
// of the probability lies beyond either.
func (o Outlook) Likely() (low, high float64) {
	const beyond = 0.1
	low, high = math.NaN(), o.lowest
	sum := 0.0
	for i, c := range o.Chance {
		if c == 0 {
			continue
		}
		sum += c
		high = o.lowest + float64(i)/2
		if math.IsNaN(low) && sum > beyond {
			low = high
		}
		if sum >= 1-beyond {
			return low, high
		}
	}
	return low, high
}

// Expected is a range of R, g/g, expected before any look. It steers the next look and
// never reaches an answer. The zero value expects nothing.
type Expected struct {
	Low, High float64
	// Normal says that Low to High is the 95 % interval of a normal in ln R; else every
	// part of the range is as likely.
	Normal bool
}

// The weight away from an expected range (both chosen; tried on simulated benches).
const (
	fadesBy = 0.2 // SD in ln R of the normal by which it falls beyond either end of an even range
	fadesTo = 0.1 // its least, so that looks can overcome a wrong expectation
	widened = 1.3 // SD of a normal expectation over that of its interval; as exact, with fewer additions
)

// weight gives u, which is -ln R, a weight from fadesTo to 1 by the expected range.
func (e Expected) weight(u float64) float64 {
	if !(e.Low > 0 && e.High > e.Low) {
		return 1
	}
	low, high := -math.Log(e.High), -math.Log(e.Low)
	beyond := max(low-u, u-high, 0) / fadesBy
	if e.Normal {
		beyond = (u - (low+high)/2) / (widened * (high - low) / 2 / Normal95)
	}
	return fadesTo + (1-fadesTo)*math.Exp(-beyond*beyond/2)
}

// ahead is the size of the posterior for outlooks after a few looks: each outlook sums over
// all of its nodes for every possible look. After many looks fewer nodes than these carry
// weight in the posterior itself.
var ahead = size{24, 19, 15, roughEyes}

// Outlooks gives the outlook of a look at each composition, g powder per g liquid, for the
// asked level. It is nil when there is no usable look or the level cannot be asked for. A
// composition that is not finite and above 0 has an outlook of infinite width.
func (p *Posterior) Outlooks(level float64, powderPerLiquid []float64, e Expected) []Outlook {
	if len(p.readings) == 0 || !p.data.fittable(level) {
		return nil
	}
	view := sync.OnceValue(func() *view {
		g := p.grid
		if p.size.eyes != fineEyes {
			g = g.closer(ahead)
			g.fill(p.readings, 1)
		}
		return newView(g, level, p.data, e)
	})
	out := make([]Outlook, len(powderPerLiquid))
	for i, x := range powderPerLiquid {
		if !(x > 0) || math.IsInf(x, 1) {
			out[i].SquaredWidth = math.Inf(1)
			continue
		}
		out[i] = p.outlooks.of(question{level, x, e}, func() Outlook { return view().outlook(math.Log(x)) })
	}
	return out
}

// question is the key of an outlook: a look at x g powder per g liquid, for a level, given
// an expected range.
type question struct {
	level, x float64
	expected Expected
}

// view is a posterior made ready for outlooks at one level.
type view struct {
	grid  *grid
	nodes []node    // in the order in which they reach the level
	reach []float64 // the u where each node reaches it
	edges []float64 // levels between neighbouring looks, ascending
	step  float64   // from one look to the next, levels
	low   float64   // the thinnest look

	below lookup     // the chance that z and the eye's error come below an edge at 0
	sure  float64    // the distance from an edge, levels, beyond which that is 0 or 1
	given []weighted // reach with the weight of each node given one look
	looks []float64  // the chance of each look with each node, one look after the other
}

// newView sorts the nodes of a posterior by the u at which they reach the level.
func newView(g *grid, level float64, d Data, e Expected) *view {
	v := &view{grid: g, below: lookupFor(cell{math.Inf(-1), 0}, g.scale.eye, g.eyes)}
	v.step, v.edges = d.edges()
	v.low, _ = d.ends()
	type reached struct {
		u float64
		node
	}
	low, high := -math.Log(HighestRatio), -math.Log(LowestRatio)
	var order []reached
	for _, n := range g.nodes() {
		p := &g.pairs[n.pair]
		u := n.c + p.jitter()*g.centre.step() + vAt(level-g.scale.anchor, p.beta, p.gamma)
		order = append(order, reached{min(max(u, low), high), n})
	}
	slices.SortStableFunc(order, func(a, b reached) int { return cmp.Compare(a.u, b.u) })
	for _, o := range order {
		v.nodes, v.reach = append(v.nodes, o.node), append(v.reach, o.u)
		fits := e.weight(o.u)
		for k := range o.weight {
			o.weight[k] *= fits
		}
	}
	const sd = 4.5
	v.sure = sd * g.eyes.sigma(g.scale.eye, g.seen.end-1)
	v.given = make([]weighted, len(order))
	v.looks = make([]float64, len(order)*(len(v.edges)+1))
	return v
}

// outlook sums over every look possible at u: its probability, and the width of the central
// 68 % that it would leave.
func (v *view) outlook(u float64) (o Outlook) {
	o.lowest = v.low
	n := len(v.nodes)
	growth := v.grid.growth(u)
	for i := range v.nodes {
		nd := &v.nodes[i]
		z, all := nd.z(growth), total(nd.weight)
		before := 0.0
		for j, edge := range v.edges {
			at := 0.0
			switch d := z - edge; {
			case d < -v.sure:
				at = all
			case d <= v.sure:
				at = v.chance(nd, d)
			}
			v.looks[j*n+i] = at - before
			before = at
		}
		v.looks[len(v.edges)*n+i] = all - before
	}
	all := 0.0
	for j := 0; j <= len(v.edges); j++ {
		sum := 0.0
		for i, w := range v.looks[j*n : (j+1)*n] {
			w = max(w, 0)
			v.given[i] = weighted{v.reach[i], w}
			sum += w
		}
		if sum <= 0 {
			continue
		}
		width := central(v.given, sum)
		o.SquaredWidth += sum * width * width
		o.Chance[int(2*v.step*float64(j)+0.5)] = sum
		all += sum
	}
	o.SquaredWidth /= all
	for i := range o.Chance {
		o.Chance[i] /= all
	}
	return o
}

// central gives the width of the central 68 % of sorted values, given the sum of their
// weights.
func central(values []weighted, sum float64) float64 {
	const outside = 0.16
	end := [2]float64{outside * sum, (1 - outside) * sum}
	at := [2]float64{values[0].at, values[len(values)-1].at}
	below, last, k := 0.0, weighted{at: values[0].at}, 0
	middle := 0.0
	for _, v := range values {
		before := middle
		middle = below + v.weight/2
		for k < 2 && middle >= end[k] {
			at[k] = v.at
			if middle > before {
				at[k] = last.at + (end[k]-before)/(middle-before)*(v.at-last.at)
			}
			k++
		}
		if k == 2 {
			break
		}
		below += v.weight
		last = v
	}
	return at[1] - at[0]
}

// chance gives the weight of a node times the probability that the eye's error takes d
// levels above an edge to below it.
func (v *view) chance(n *node, d float64) float64 {
	row, part := v.below.row(d)
	at := row*v.below.columns + v.grid.seen.first
	low, high := v.below.chance[at:][:len(n.weight)], v.below.chance[at+v.below.columns:][:len(n.weight)]
	sum := 0.0
	for k, w := range n.weight {
		sum += w * (low[k] + part*(high[k]-low[k]))
	}
	return sum
}
