package fit

import (
	"math"
	"slices"
)

// Trial is one trial of a powder for pooling.
type Trial struct {
	Looks *Posterior
	// Masses is the standard uncertainty, in ln R, from the dish's masses, without the
	// looks and without what all trials share; 0 to 1000.
	Masses float64
}

// Powder holds the curve of a powder, pooled from its trials.
type Powder struct {
	powder, next sheaf
	// BetweenTrials is the posterior median of τ, the between-trial SD in ln R.
	BetweenTrials float64

	// Earlier answers, by the bits of the level.
	ratios, nexts memo[uint64, Interval]
	slopes        memo[uint64, float64]
}

// newPowder makes a powder that remembers its latest answers.
func newPowder(powder, next sheaf, betweenTrials float64) *Powder {
	p := &Powder{powder: powder, next: next, BetweenTrials: betweenTrials}
	p.ratios.most, p.nexts.most, p.slopes.most = 32, 32, 32
	return p
}

// Ratio gives the powder's R at a level, any number. Median and limits never rise with the
// level.
func (p *Powder) Ratio(level float64) Interval {
	return p.ratios.of(math.Float64bits(level), func() Interval { return p.powder.ratio(level) })
}

// Next gives R of the next dish at a level: the powder's, blurred once more by the
// between-trial SD. It is never narrower than the powder's, even where a limit lies in a
// long tail that τ hardly moves. Median and limits never rise with the level.
func (p *Powder) Next(level float64) Interval {
	return p.nexts.of(math.Float64bits(level), func() Interval {
		next, powder := p.next.ratio(level), p.Ratio(level)
		next.Low, next.High = min(next.Low, powder.Low), max(next.High, powder.High)
		return next
	})
}

// Level gives the powder's consistency at x g per g liquid, in levels from -1 to 8; beyond,
// it stays at the end.
func (p *Powder) Level(powderPerLiquid float64) Interval { return p.powder.levels(powderPerLiquid) }

// Slope gives the median slope at a level, levels per e-fold of x.
func (p *Powder) Slope(level float64) float64 {
	return p.slopes.of(math.Float64bits(level), func() float64 { return p.powder.slope(level) })
}

// Pool joins the trials of one powder (METHOD, this powder). Trial j has its own c_j = c +
// δ_j with δ_j normal(0, τ² + s_j²), s_j its masses. Slope, bend and eye are the powder's;
// τ is half-normal with scale BetweenTrials. Trials without a usable look or with masses
// out of range are left out. It is nil when none is left, or when no curve at all could
// join them. The order of the trials does not matter.
func Pool(trials []Trial) *Powder {
	used := make([]Trial, 0, len(trials))
	for _, t := range trials {
		if len(t.Looks.readings) > 0 && t.Masses >= 0 && t.Masses <= 1e3 {
			used = append(used, t)
		}
	}
	slices.SortStableFunc(used, Trial.compare)
	if len(used) == 0 {
		return nil
	}
	var numbers []float64
	for _, t := range used {
		size := t.Looks.size
		numbers = append(numbers, t.Masses, float64(size.centres), float64(size.slopes), float64(size.bends),
			float64(len(t.Looks.readings)))
		for _, r := range t.Looks.readings {
			numbers = append(numbers, r.u, r.cell.low, r.cell.high, r.count)
		}
	}
	return pools.of(key(numbers...), func() *Powder {
		if len(used) == 1 {
			return alone(used[0])
		}
		return together(used)
	})
}

// pools remembers the powders pooled last. Their key is the readings of the trials, and how
// finely these were solved.
var pools = memo[string, *Powder]{most: 16}

// compare orders trials by their content alone.
func (t Trial) compare(other Trial) int {
	by := func(a, b float64) int {
		switch {
		case a < b:
			return -1
		case a > b:
			return 1
		}
		return 0
	}
	a, b := t.Looks.readings, other.Looks.readings
	if c := by(float64(len(a)), float64(len(b))); c != 0 {
		return c
	}
	for i := range a {
		for _, c := range []int{
			by(a[i].u, b[i].u), by(a[i].cell.low, b[i].cell.low), by(a[i].cell.high, b[i].cell.high), by(a[i].count,
				b[i].count),
		} {
			if c != 0 {
				return c
			}
		}
	}
	return by(t.Masses, other.Masses)
}

// tauNode is a value of τ with its prior probability.
type tauNode struct{ tau, prior float64 }

// The nodes of τ lie in the middle of even cells of v, τ = tauUnit·sinh(v), up to six
// scales of the prior. They are close together where τ is small against the uncertainty
// of single trials, and wide apart beyond.
const (
	tauUnit  = 0.05
	tauCells = 10
)

// tauAt gives τ at a place in the cells, from 0 to tauCells.
func tauAt(cell float64) float64 {
	return tauUnit * math.Sinh(cell/tauCells*math.Asinh(6*BetweenTrials/tauUnit))
}

// tauNodes lists the nodes of τ with the prior probability of their cells.
func tauNodes() []tauNode {
	nodes := make([]tauNode, tauCells)
	for k := range nodes {
		low, high := tauAt(float64(k))/BetweenTrials, tauAt(float64(k+1))/BetweenTrials
		nodes[k] = tauNode{tauAt(float64(k) + 0.5), math.Erf(high/math.Sqrt2) - math.Erf(low/math.Sqrt2)}
	}
	return nodes
}

// tauMedian gives the median of τ from the probability of each cell.
func tauMedian(weights []float64) float64 {
	want, below := total(weights)/2, 0.0
	for k, w := range weights {
		if below+w >= want {
			return tauAt(float64(k) + (want-below)/w)
		}
		below += w
	}
	return tauAt(tauCells)
}

// kernel is a normal blur along cells: entry i moves that many cells to either side. The
// entries of both sides sum to 1.
type kernel []float64

// The reach of a kernel, in SD.
const (
	blurReach = 5
	allReach  = 20 // for the largest τ, so that trials far apart still meet
)

// newKernel makes the blur of an SD, cut off at reach SD; sd and step are in the same unit.
func newKernel(sd, step, reach float64) kernel {
	if sd < 1e-6*step {
		return kernel{1}
	}
	k := make(kernel, int(math.Ceil(reach*sd/step))+1)
	edge := normal(0.5 * step / sd)
	for i := range k {
		next := normal((-0.5 - float64(i)) * step / sd)
		k[i], edge = edge-next, next
	}
	return k
}

// mirrored gives the whole kernel, one side before the other.
func (k kernel) mirrored() []float64 {
	m := len(k) - 1
	whole := make([]float64, 2*m+1)
	for i, w := range k {
		whole[m-i], whole[m+i] = w, w
	}
	return whole
}

// mix adds a share of another kernel.
func (k kernel) mix(share float64, other kernel) kernel {
	for len(k) < len(other) {
		k = append(k, 0)
	}
	for i, w := range other {
		k[i] += share * w
	}
	return k
}

// trimmed drops the far ends that hold next to nothing.
func (k kernel) trimmed() kernel {
	n := len(k)
	for n > 1 && k[n-1] < 1e-6*k[0] {
		n--
	}
	return k[:n]
}

// convolve blurs the masses, with room for the kernel on either side.
func (k kernel) convolve(mass []float64) []float64 {
	room := len(k) - 1
	out := make([]float64, len(mass)+2*room)
	for i, m := range mass {
		if m == 0 {
			continue
		}
		at := i + room
		out[at] += m * k[0]
		for d := 1; d <= room; d++ {
			out[at+d] += m * k[d]
			out[at-d] += m * k[d]
		}
	}
	return out
}

// coarser joins so many cells of the sheaf into one.
func (s *sheaf) coarser(run int) sheaf {
	if run <= 1 {
		return *s
	}
	out := sheaf{anchor: s.anchor, step: s.step * float64(run), curves: make([]curves, len(s.curves))}
	for i, c := range s.curves {
		mass := make([]float64, (len(c.mass)+run-1)/run)
		for j, m := range c.mass {
			mass[j/run] += m
		}
		out.curves[i] = curves{c.beta, c.gamma, c.low, mass}
	}
	return out
}

// alone makes a powder of one trial: as its looks say nothing of τ, its c is blurred by the
// prior of τ and the masses.
func alone(t Trial) *Powder {
	const finest = 0.02 // width of a cell, against a prior of τ with scale 0.1
	s := t.Looks.sheaf.coarser(int(math.Ceil(finest / t.Looks.sheaf.step)))
	weights := make([]float64, tauCells)
	powder, next := s, s
	for k, n := range tauNodes() {
		weights[k] = n.prior
		powder.blur = powder.blur.mix(n.prior, newKernel(math.Hypot(n.tau, t.Masses), s.step/2, blurReach))
		next.blur = next.blur.mix(n.prior, newKernel(math.Hypot(math.Sqrt2*n.tau, t.Masses), s.step/2, blurReach))
	}
	powder.blur, next.blur = powder.blur.trimmed(), next.blur.trimmed()
	return newPowder(powder, next, tauMedian(weights))
}
