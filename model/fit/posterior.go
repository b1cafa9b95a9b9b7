package fit

import "math"

// Nodes of the quadrature in u_L and ln beta: of the passes that look for the
// window, and of the last one. The posterior of a few looks has a narrow core
// and long tails, which takes more places, and their fit is quick anyway.
const (
	searchPlaces = 25
	searchSlopes = 11
	finalPlaces  = 45
	finalSlopes  = 21
	few          = 8
	fewPlaces    = 81
)

// faded is the marginal density, as a share of its peak, below which a node is
// left out of the next window: about 5 SD of a normal.
const faded = 3e-5

// posterior is the posterior of the thickening line around one level, on a
// grid of nodes over (u_L, ln beta, sigma). Its buffers are used again by every
// solve.
type posterior struct {
	level int // the asked level, in quarters

	place axis // u_L
	slope axis // ln beta

	// weight holds, for each place and within it each slope, the probabilities
	// of the nodes of sigma. They sum to 1.
	weight [][eyes]float64

	// The marginal densities in u_L and ln beta, not normalised.
	byPlace, bySlope []float64

	cumulative []float64
}

// solve finds the posterior at a level, in quarters, given one reading or more.
//
// The window in u_L and ln beta starts as the whole prior and closes in over a
// few passes. Many looks make a posterior that a wide grid would step over, so
// the first pass weakens the likelihood to that of eight looks, and each
// further pass to five times as many, until it stands in full.
func (p *posterior) solve(readings []reading, level int) {
	p.level = level
	p.place = axis{-math.Log(HighestRatio), -math.Log(LowestRatio), searchPlaces}
	p.slope = axis{
		math.Log(medianSlope) - 5*spreadSlope,
		math.Log(medianSlope) + 5*spreadSlope,
		searchSlopes,
	}
	looks := 0.0
	for _, r := range readings {
		looks += r.count
	}
	for carried := 8.0; ; carried *= 5 {
		p.pass(readings, min(1, carried/looks))
		p.place = p.place.within(p.byPlace, faded)
		p.slope = p.slope.within(p.bySlope, faded)
		if carried >= looks && carried > 8 {
			break
		}
	}
	p.place.nodes, p.slope.nodes = finalPlaces, finalSlopes
	if len(readings) <= few {
		p.place.nodes = fewPlaces
	}
	p.pass(readings, 1)
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
	for j := range p.slope.nodes {
		t := (p.slope.at(j) - math.Log(medianSlope)) / spreadSlope
		ln := lnEye
		for k := range ln {
			ln[k] -= t * t / 2
		}
		for i := range p.row(j) {
			p.row(j)[i] = ln
		}
	}
}

// row is the nodes of one slope, a column for each place.
func (p *posterior) row(j int) [][eyes]float64 {
	return p.weight[j*p.place.nodes : (j+1)*p.place.nodes]
}

func sized[T any](buffer []T, n int) []T {
	if cap(buffer) < n {
		return make([]T, n)
	}
	return buffer[:n]
}

// add adds the log likelihood of a reading, times a power, to every node.
func (p *posterior) add(r reading, power float64) {
	t, side := tableFor(r.cell.from(p.level))
	for j := range p.slope.nodes {
		beta := side * math.Exp(p.slope.at(j))
		d, step := beta*(r.u-p.place.low), beta*p.place.step()
		for i, row := 0, p.row(j); i < len(row); i++ {
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
	for i := range p.weight {
		for _, l := range p.weight[i] {
			top = max(top, l)
		}
	}
	clear(p.byPlace)
	clear(p.bySlope)
	total := 0.0
	for j := range p.slope.nodes {
		row := p.row(j)
		for i := range row {
			share := 1.0
			if i == 0 || i == len(row)-1 {
				share = 0.5
			}
			sum := 0.0
			for k, ln := range row[i] {
				w := math.Exp(ln - top)
				row[i][k] = share * w
				sum += w
			}
			p.byPlace[i] += sum
			p.bySlope[j] += share * sum
			total += share * sum
		}
	}
	for i := range p.weight {
		for k := range p.weight[i] {
			p.weight[i][k] /= total
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
