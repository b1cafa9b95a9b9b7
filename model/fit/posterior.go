package fit

import "math"

// Nodes in u_L and ln beta of the passes that look for the window.
const (
	searchPlaces = 25
	searchSlopes = 11
)

// finalNodes is how many nodes in u_L and ln beta the last pass takes for so
// many different readings. The posterior of a few looks has a narrow core and
// long tails, which takes more nodes, and their fit is quick anyway. With these
// the reference cases hold within 0.05 %.
func finalNodes(readings int) (places, slopes int) {
	switch {
	case readings <= 4:
		return 161, 25
	case readings <= 12:
		return 97, 25
	default:
		return 49, 21
	}
}

// slopeReach is how far the nodes in ln beta may go, in SD of the prior. Looks
// that contradict each other can push the slope far out.
const slopeReach = 5

// faded is the density, as a share of its peak, below which nodes are left out
// of the next pass: about 5 SD of a normal.
const faded = 1e-5

// posterior is the posterior of the thickening line around one level, on a
// grid of nodes over (u_L, ln beta, sigma). Its buffers are used again by every
// solve.
type posterior struct {
	level int // the asked level, in quarters

	place axis // u_L
	slope axis // ln beta

	// weight holds, for each slope and within it each place, the probabilities
	// of the nodes of sigma. They sum to 1. The posterior is a narrow ridge
	// across the places, so each slope has nodes only along its own span of
	// places; outside there is no weight to read.
	weight [][eyes]float64
	spans  []span

	// The marginal densities in u_L and ln beta, not normalised.
	byPlace, bySlope []float64

	cumulative []float64
	ridge      []stretch
}

// span is a run of nodes, first included, end not.
type span struct{ first, end int }

// stretch is a part of an axis. One with low above high is empty.
type stretch struct{ low, high float64 }

// solve finds the posterior at a level, in quarters, given one reading or more.
//
// The window in u_L and ln beta starts as the whole prior and closes in over a
// few passes. Many looks make a posterior that a wide grid would step over, so
// the first pass weakens the likelihood to that of two looks, and each further
// pass to eight times as many, until it stands in full.
func (p *posterior) solve(readings []reading, level int) {
	p.level = level
	p.open()
	places, slopes := finalNodes(len(readings))
	looks := 0.0
	for _, r := range readings {
		looks += r.count
	}
	for carried := 2.0; carried < 8*looks; carried *= 8 {
		p.pass(readings, min(1, carried/looks))
		if carried < looks {
			p.close(searchPlaces, searchSlopes)
		} else {
			p.close(places, slopes)
		}
	}
	p.pass(readings, 1)
}

// open sets the window to the whole prior.
func (p *posterior) open() {
	p.place = axis{-math.Log(HighestRatio), -math.Log(LowestRatio), searchPlaces}
	reach := slopeReach * spreadSlope
	p.slope = axis{math.Log(medianSlope) - reach, math.Log(medianSlope) + reach, searchSlopes}
	p.spans = sized(p.spans, searchSlopes)
	for j := range p.spans {
		p.spans[j] = span{0, searchPlaces}
	}
}

// close narrows the window to what has not faded, with so many nodes. A slope
// between two of the last pass gets the places of both and those between.
func (p *posterior) close(places, slopes int) {
	was := p.slope
	p.ridge = sized(p.ridge, was.nodes)
	p.findRidge()
	p.place = p.place.within(p.byPlace, faded)
	p.slope = p.slope.within(p.bySlope, faded)
	p.place.nodes, p.slope.nodes = places, slopes
	p.spans = sized(p.spans, slopes)
	for j := range p.spans {
		at := (p.slope.at(j) - was.low) / was.step()
		a := p.ridge[max(0, int(math.Floor(at+1e-9)))]
		b := p.ridge[min(was.nodes-1, int(math.Ceil(at-1e-9)))]
		p.spans[j] = p.place.span(stretch{min(a.low, b.low), max(a.high, b.high)})
	}
}

// findRidge finds, for each slope, the places where nodes have not faded, and
// one node more on either side.
func (p *posterior) findRidge() {
	top := 0.0
	for j := range p.spans {
		for i := range p.row(j) {
			top = max(top, total(&p.row(j)[i]))
		}
	}
	for j, s := range p.spans {
		p.ridge[j] = stretch{math.Inf(1), math.Inf(-1)}
		for i := range p.row(j) {
			if total(&p.row(j)[i]) > faded*top {
				p.ridge[j].low = min(p.ridge[j].low, p.place.at(s.first+i-1))
				p.ridge[j].high = p.place.at(s.first + i + 1)
			}
		}
	}
}

func total(node *[eyes]float64) float64 {
	sum := 0.0
	for _, w := range node {
		sum += w
	}
	return sum
}

// pass computes weights and marginals over the present window, with the
// likelihood raised to a power, 0 to 1.
func (p *posterior) pass(readings []reading, power float64) {
	p.start()
	for _, r := range readings {
		p.add(r, power*r.count)
	}
	p.normalise()
}

// start sizes the buffers and sets the weights to the logarithm of the prior.
func (p *posterior) start() {
	p.weight = sized(p.weight, p.place.nodes*p.slope.nodes)
	p.byPlace = sized(p.byPlace, p.place.nodes)
	p.bySlope = sized(p.bySlope, p.slope.nodes)
	p.cumulative = sized(p.cumulative, max(p.place.nodes, p.slope.nodes))
	for j := range p.spans {
		t := (p.slope.at(j) - math.Log(medianSlope)) / spreadSlope
		ln := lnEye
		for k := range ln {
			ln[k] -= t * t / 2
		}
		row := p.row(j)
		for i := range row {
			row[i] = ln
		}
	}
}

func sized[T any](buffer []T, n int) []T {
	if cap(buffer) < n {
		return make([]T, n)
	}
	return buffer[:n]
}

// row is the nodes of one slope along its span of places.
func (p *posterior) row(j int) [][eyes]float64 {
	at := j * p.place.nodes
	return p.weight[at+p.spans[j].first : at+p.spans[j].end]
}

// distances walks the places of one slope: d = beta·(u - u_L), in levels past
// the asked one, is first - i·step at the node i of its row.
func (p *posterior) distances(j int, u, side float64) (first, step float64) {
	beta := side * math.Exp(p.slope.at(j))
	return beta * (u - p.place.at(p.spans[j].first)), beta * p.place.step()
}

// add adds the log likelihood of a reading, times a power, to every node.
func (p *posterior) add(r reading, power float64) {
	t, side := tableFor(r.cell.from(p.level))
	for j := range p.spans {
		d, step := p.distances(j, r.u, side)
		row := p.row(j)
		for i := range row {
			at, part := place(d - float64(i)*step)
			below, above, to := &t[at], &t[at+1], &row[i]
			f, g := power*(1-part), power*part
			for k := range to {
				to[k] += f*below[k] + g*above[k]
			}
		}
	}
}

// normalise turns logarithms into probabilities and fills in the marginals. The
// ends in u_L count half: the posterior may be cut off there.
func (p *posterior) normalise() {
	top := math.Inf(-1)
	for j := range p.spans {
		for _, node := range p.row(j) {
			for _, ln := range node {
				top = max(top, ln)
			}
		}
	}
	clear(p.byPlace)
	clear(p.bySlope)
	sum := 0.0
	for j, s := range p.spans {
		row := p.row(j)
		for i := range row {
			node := &row[i]
			for k, ln := range node {
				node[k] = math.Exp(ln - top)
			}
			w := total(node)
			p.byPlace[s.first+i] += w
			if s.first+i == 0 || s.first+i == p.place.nodes-1 {
				w /= 2
				for k := range node {
					node[k] /= 2
				}
			}
			p.bySlope[j] += w
		}
		sum += p.bySlope[j]
	}
	scale := 1 / sum
	for j := range p.spans {
		for i := range p.row(j) {
			node := &p.row(j)[i]
			for k := range node {
				node[k] *= scale
			}
		}
	}
}

// ratio is the median and the equal-tailed 95 % interval of R = exp(-u_L).
func (p *posterior) ratio() Interval {
	c := p.cumulative[:p.place.nodes]
	cumulate(c, p.byPlace)
	r := func(q float64) float64 { return math.Exp(-quantile(p.place, p.byPlace, c, q)) }
	return Interval{Median: r(0.5), Low: r(0.975), High: r(0.025)}
}

// beta is the median slope, levels per e-fold.
func (p *posterior) beta() float64 {
	c := p.cumulative[:p.slope.nodes]
	cumulate(c, p.bySlope)
	return math.Exp(quantile(p.slope, p.bySlope, c, 0.5))
}
