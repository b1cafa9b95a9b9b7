package fit

import "math"

// joint is the quadrature over (c, ln β, γ, ln σ, τ) of several trials.
type joint struct {
	trials []Trial
	grid   *grid
	nodes  []tauNode

	// The result of the last pass: the probability of each τ, not normalised, and the
	// greatest of any node. The next pass leaves out what is negligible beside them.
	tauWeights []float64
	best       float64

	scratch []float64 // for one trial at a time

	room    []int         // cells of each trial's axis before the grid's first
	axes    []axis        // each trial's c_j, on the grid's cells and beyond
	kernels [][][]float64 // by trial, then τ: both sides of a kernel, 0 in the middle
}

// The sizes of the passes over several trials: one finds the window, one gives the answer.
// Centres are those along a pair of middling width.
var (
	roughJoint = size{33, 8, 6, roughEyes}
	fineJoint  = size{16, 11, 9, wideEyes}
	oddJoint   = size{16, 17, 25, wideEyes} // where trials are at odds
)

// atOdds is the likelihood of all trials together, relative to each at its best, below
// which the answer hangs on the few curves that still join them. Chosen: the reference
// cases come to 4e-4 and more, three trials up to twentyfold apart to 1e-12.
const atOdds = 1e-7

// together pools two trials or more; it is nil where no curve joins them.
func together(trials []Trial) *Powder {
	j := &joint{trials: trials, nodes: tauNodes()}
	j.begin()
	j.fill(nil)
	if j.best == 0 {
		return nil
	}
	last := fineJoint
	if total(j.tauWeights) < atOdds {
		last = oddJoint
	}
	j.grid = j.grid.closer(last)
	var p pooled
	j.fill(&p)
	return p.answer(j)
}

// spare is the distance, in ln R, by which the powder's c may lie outside its trials'.
const spare = 0.5

// begin sets the first grid, wide enough for every trial by itself.
func (j *joint) begin() {
	first := j.trials[0].Looks.grid
	low, high, finest := math.Inf(1), math.Inf(-1), math.Inf(1)
	slope := axis{math.Inf(-1), math.Inf(1), roughJoint.slopes}
	for _, t := range j.trials {
		g := t.Looks.grid
		low, high = min(low, g.centre.low), max(high, g.centre.high)
		finest = min(finest, g.centre.step())
		slope.low, slope.high = max(slope.low, g.slope.low), min(slope.high, g.slope.high)
	}
	g := whole(first.scale, roughJoint)
	low, high = max(low-spare, g.centre.low), min(high+spare, g.centre.high)
	// Three steps of a trial's own are about an SD of its ridge.
	g.centre = axis{low, high, min(max(int((high-low)/(3*finest)), roughJoint.centres), 400)}
	if slope.high-slope.low > sdSlope {
		g.slope = slope
	}
	g.pairs = g.pairs[:0]
	g.lay(func(_, _ float64) span { return span{0, g.centre.cells} })
	j.grid = g
}

// fill computes the probabilities of the grid's nodes, and adds every part of them to a
// pooled, if there is one.
func (j *joint) fill(into *pooled) {
	j.align()
	g := j.grid
	n := g.columns()
	rows := make([][]row, len(j.trials))
	for t := range j.trials {
		rows[t] = j.rowsOf(t)
	}
	possible := j.possible()
	best, found := 0.0, make([]float64, len(j.nodes))
	prior := make([]float64, n)
	product, along := make([]float64, g.centre.cells), make([]float64, g.centre.cells)
	clear(g.weight)
	for i := range g.pairs {
		p := &g.pairs[i]
		weight := g.of(p)
		g.prior(p, prior)
		for k, node := range j.nodes {
			if !possible[k] {
				continue
			}
			clear(along)
			for e := range n {
				s, most := p.span, math.Exp(prior[e])
				for t := range j.trials {
					s = j.meet(s, &rows[t][i*n+e], t, k)
					most *= rows[t][i*n+e].most
				}
				if s.first >= s.end || most < j.best*lightestNode {
					continue
				}
				each := node.prior * math.Exp(prior[e])
				for c := s.first; c < s.end; c++ {
					product[c] = each
				}
				for t := range j.trials {
					j.times(product, s, &rows[t][i*n+e], t, k)
				}
				for c := s.first; c < s.end; c++ {
					weight[(c-p.span.first)*n+e] += product[c]
					along[c] += product[c]
				}
			}
			found[k] += total(along)
			if into != nil {
				into.add(j, p, k, along[p.span.first:p.span.end])
			}
		}
		for _, w := range weight {
			best = max(best, w)
		}
	}
	j.best, j.tauWeights = best, found
	if sum := total(found); sum > 0 {
		for i := range g.weight {
			g.weight[i] /= sum
		}
	}
}

// lightestNode is the weight, relative to the heaviest, below which a node is left out, and
// a τ relative to the likeliest.
const lightestNode = 1e-6

// possible tells which τ the last pass left any probability.
func (j *joint) possible() []bool {
	possible := make([]bool, len(j.nodes))
	top := 0.0
	for _, w := range j.tauWeights {
		top = max(top, w)
	}
	for k := range possible {
		possible[k] = j.tauWeights == nil || j.tauWeights[k] > lightestNode*top
	}
	return possible
}

// row is the likelihood of one trial along c for one pair and σ. It holds a run of cells of
// the trial's axis, beyond which it is as good as 0.
type row struct {
	first int
	like  []float64
	most  float64
}

// align sets out each trial's axis on the grid's cells, and its kernels.
func (j *joint) align() {
	g := j.grid
	step := g.centre.step()
	j.room, j.axes, j.kernels = nil, nil, nil
	for _, t := range j.trials {
		own := t.Looks.grid.centre
		before := max(int(math.Ceil((g.centre.low-own.low)/step)), 0)
		after := max(int(math.Ceil((own.high-g.centre.high)/step)), 0)
		a := axis{g.centre.low - float64(before)*step, g.centre.high + float64(after)*step, before + g.centre.cells +
			after}
		j.room, j.axes = append(j.room, before), append(j.axes, a)
		var kernels [][]float64
		for k, n := range j.nodes {
			reach := float64(blurReach)
			if k == len(j.nodes)-1 {
				reach = allReach
			}
			kernels = append(kernels, newKernel(math.Hypot(n.tau, t.Masses), step, reach).mirrored())
		}
		j.kernels = append(j.kernels, kernels)
	}
}

// rowsOf gives the likelihoods of a trial, by pair and σ, relative to its greatest.
func (j *joint) rowsOf(t int) []row {
	g := j.grid
	n := g.columns()
	own := &grid{
		scale: g.scale, centre: j.axes[t], slope: g.slope, bend: g.bend, eyes: g.eyes, seen: g.seen,
		tilt: g.tilt, mid: g.mid,
	}
	cells := own.centre.cells
	own.pairs = make([]pair, len(g.pairs))
	for i, p := range g.pairs {
		own.pairs[i] = pair{p.slope, p.bend, p.beta, p.gamma, span{0, cells}, i * cells * n}
	}
	own.weight = sized(j.scratch, len(own.pairs)*cells*n)
	j.scratch = own.weight
	clear(own.weight)
	own.likelihood(j.trials[t].Looks.readings, 1)
	top := math.Inf(-1)
	for _, ln := range own.weight {
		if ln > top { // max would look for NaN
			top = ln
		}
	}
	rows := make([]row, len(own.pairs)*n)
	var buffer []float64
	for i := range own.pairs {
		weight := own.of(&own.pairs[i])
		for e := range n {
			r := &rows[i*n+e]
			if cap(buffer)-len(buffer) < cells {
				buffer = make([]float64, 0, 64*cells)
			}
			begin := len(buffer)
			best := math.Inf(-1)
			for c := range cells {
				best = max(best, weight[c*n+e])
			}
			if best < top+negligible {
				continue
			}
			for c := range cells {
				ln := weight[c*n+e]
				if ln < best-nothing {
					if len(buffer) == begin {
						r.first = c + 1
						continue
					}
				}
				buffer = append(buffer, math.Exp(ln-top))
			}
			end, least := len(buffer), math.Exp(best-top-nothing)
			for end > begin && buffer[end-1] < least {
				end--
			}
			r.like, r.most, buffer = buffer[begin:end:end], math.Exp(best-top), buffer[:end]
		}
	}
	return rows
}

// nothing is the drop in a trial's log likelihood along c, from its greatest, beyond which
// it counts as 0: 5 SD of a normal.
const nothing = 13

// meet cuts a span down to the cells that a trial's blurred likelihood reaches.
func (j *joint) meet(s span, r *row, t, k int) span {
	room := len(j.kernels[t][k]) / 2
	if len(r.like) == 0 {
		return span{}
	}
	first := r.first - j.room[t]
	return span{max(s.first, first-room), min(s.end, first+len(r.like)+room)}
}

// times multiplies a trial's blurred likelihood into a product along a span.
func (j *joint) times(product []float64, s span, r *row, t, k int) {
	blur := j.kernels[t][k]
	middle := len(blur) / 2
	first := r.first - j.room[t]
	for c := s.first; c < s.end; c++ {
		from, to := max(0, c-first-middle), min(len(r.like), c-first+middle+1)
		product[c] *= dot(r.like[from:to], blur[from-(c-first)+middle:])
	}
}

// dot sums the products of a's numbers with the first of b. It takes four at a time, so
// that no sum waits for the one before it.
func dot(a, b []float64) float64 {
	b = b[:len(a)]
	var s0, s1, s2, s3 float64
	k := 0
	for ; k+3 < len(a); k += 4 {
		x, y := a[k:k+4:k+4], b[k:k+4:k+4]
		s0 += x[0] * y[0]
		s1 += x[1] * y[1]
		s2 += x[2] * y[2]
		s3 += x[3] * y[3]
	}
	for ; k < len(a); k++ {
		s0 += a[k] * b[k]
	}
	return s0 + s1 + (s2 + s3)
}

// pooled gathers the last pass: the powder's curves and those of the next dish.
type pooled struct {
	powder, next sheaf
	blurs        []kernel
	last         *pair
}

// add adds the mass of one pair along c at one τ.
func (o *pooled) add(j *joint, p *pair, k int, mass []float64) {
	g := j.grid
	step := g.centre.step()
	if o.blurs == nil {
		for _, n := range j.nodes {
			o.blurs = append(o.blurs, newKernel(n.tau, step, blurReach))
		}
		o.powder = sheaf{anchor: g.scale.anchor, step: step}
		o.next = o.powder
	}
	room := len(o.blurs[len(o.blurs)-1]) - 1
	if o.last != p {
		o.last = p
		low := g.centre.low + float64(p.span.first)*step
		o.powder.curves = append(o.powder.curves, curves{p.beta, p.gamma, low, make([]float64, len(mass))})
		o.next.curves = append(o.next.curves, curves{
			p.beta, p.gamma, low - float64(room)*step,
			make([]float64, len(mass)+2*room),
		})
	}
	powder := o.powder.curves[len(o.powder.curves)-1].mass
	next := o.next.curves[len(o.next.curves)-1].mass
	for i, m := range mass {
		powder[i] += m
	}
	from := room - (len(o.blurs[k]) - 1)
	for i, m := range o.blurs[k].convolve(mass) {
		next[from+i] += m
	}
}

// answer normalises what was gathered and makes the powder.
func (o *pooled) answer(j *joint) *Powder {
	sum := total(j.tauWeights)
	for _, s := range []*sheaf{&o.powder, &o.next} {
		for _, c := range s.curves {
			for i := range c.mass {
				c.mass[i] /= sum
			}
		}
	}
	return newPowder(o.powder.refined(j.grid), o.next.refined(j.grid), tauMedian(j.tauWeights))
}
