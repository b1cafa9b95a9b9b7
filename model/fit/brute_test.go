package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// brute is the posterior of METHOD section 4 written down as it stands: every
// look, every node, plain erfc, no tables, no merging. The window closes in over
// a few grids in all three directions. It shares no code with the package.
func brute(d Data, level float64) Interval {
	g := bruteGrid{
		low:  [3]float64{-math.Log(50), math.Log(6) - 5*0.5, math.Log(0.4) - 5*0.35},
		high: [3]float64{-math.Log(0.02), math.Log(6) + 5*0.5, math.Log(0.4) + 5*0.35},
	}
	for _, nodes := range [][3]int{{121, 21, 7}, {41, 21, 9}, {41, 21, 9}} {
		g.nodes = nodes
		g.fill(d, level)
		g.close()
	}
	g.nodes = [3]int{221, 27, 13}
	if len(d.Looks) <= 4 {
		g.nodes[0] = 601 // a few looks have a narrow core and long tails
	}
	g.fill(d, level)
	p := g.marginal[0]
	cdf := make([]float64, len(p))
	for i := 1; i < len(p); i++ {
		cdf[i] = cdf[i-1] + (p[i-1]+p[i])/2
	}
	at := func(q float64) float64 {
		want, i := q*cdf[len(p)-1], 1
		for cdf[i] < want {
			i++
		}
		return math.Exp(-g.at(0, float64(i-1)+(want-cdf[i-1])/(cdf[i]-cdf[i-1])))
	}
	return Interval{Median: at(0.5), Low: at(0.975), High: at(0.025)}
}

// bruteGrid is an even grid over u_L, ln beta and ln sigma, in this order.
type bruteGrid struct {
	low, high [3]float64
	nodes     [3]int
	marginal  [3][]float64
}

func (g *bruteGrid) at(axis int, i float64) float64 {
	return g.low[axis] + (g.high[axis]-g.low[axis])*i/float64(g.nodes[axis]-1)
}

func (g *bruteGrid) fill(d Data, level float64) {
	ln := make([]float64, 0, g.nodes[0]*g.nodes[1]*g.nodes[2])
	top := math.Inf(-1)
	for i := range g.nodes[0] {
		for j := range g.nodes[1] {
			for k := range g.nodes[2] {
				l := bruteDensity(d, level, g.at(0, float64(i)), g.at(1, float64(j)), g.at(2, float64(k)))
				ln = append(ln, l)
				top = math.Max(top, l)
			}
		}
	}
	for axis := range g.marginal {
		g.marginal[axis] = make([]float64, g.nodes[axis])
	}
	for n, l := range ln {
		p := math.Exp(l - top)
		g.marginal[0][n/(g.nodes[1]*g.nodes[2])] += p
		g.marginal[1][n/g.nodes[2]%g.nodes[1]] += p
		g.marginal[2][n%g.nodes[2]] += p
	}
}

// close narrows the grid to the nodes that matter and two more on either side.
func (g *bruteGrid) close() {
	for axis, p := range g.marginal {
		top, first, last := 0.0, len(p), 0
		for _, v := range p {
			top = math.Max(top, v)
		}
		for i, v := range p {
			if v > 1e-7*top {
				first, last = min(first, i), i
			}
		}
		low, high := g.at(axis, math.Max(0, float64(first-2))), g.at(axis, math.Min(float64(len(p)-1), float64(last+2)))
		g.low[axis], g.high[axis] = low, high
	}
}

func bruteDensity(d Data, level, u, lnBeta, lnSigma float64) float64 {
	tb, ts := (lnBeta-math.Log(6))/0.5, (lnSigma-math.Log(0.4))/0.35
	sum := -tb*tb/2 - ts*ts/2
	for _, l := range d.Looks {
		past := math.Exp(lnBeta) * (math.Log(l.PowderPerLiquid) - u)
		sum += math.Log(bruteLook(l.Level, d.LevelStep, level+past, math.Hypot(math.Exp(lnSigma), 0.2*past)))
	}
	return sum
}

// bruteLook is the probability of a look at consistency z and noise s.
func bruteLook(y, step, z, s float64) float64 {
	above := func(edge float64) float64 { return math.Erfc((edge-z)/(s*math.Sqrt2)) / 2 }
	below := func(edge float64) float64 { return math.Erfc((z-edge)/(s*math.Sqrt2)) / 2 }
	var p float64
	switch {
	case y == 0:
		p = below(step / 2)
	case y == 7:
		p = above(7 - step/2)
	case z > y:
		p = below(y+step/2) - below(y-step/2)
	default:
		p = above(y-step/2) - above(y+step/2)
	}
	return math.Max(p, 1e-300)
}

// dish makes up a trial: a paste that reaches level 5 at R, of a slope, read by
// an eye of noise sigma at n compositions spread evenly over width in u.
func dish(r *rand.Rand, n int, step, ratio, slope, sigma, width float64) Data {
	d := Data{LevelStep: step}
	for range n {
		u := -math.Log(ratio) + width*(r.Float64()-0.7)
		z := 5 + slope*(u+math.Log(ratio)) + sigma*r.NormFloat64()
		y := math.Max(0, math.Min(7, math.Round(z/step)*step))
		d.Looks = append(d.Looks, Look{math.Exp(u), y})
	}
	return d
}

// situation is a trial to hold against the plain computation.
type situation struct {
	name  string
	data  Data
	level float64
}

func situations() []situation {
	row := func(step float64, pairs ...float64) Data {
		d := Data{LevelStep: step}
		for i := 0; i < len(pairs); i += 2 {
			d.Looks = append(d.Looks, Look{pairs[i], pairs[i+1]})
		}
		return d
	}
	many := Data{LevelStep: 1}
	for range 15 {
		many.Looks = append(many.Looks, Look{0.5, 5}, Look{0.45, 4}, Look{0.3, 2})
	}
	list := []situation{
		{"one look, half step", row(0.5, 0.4, 4.5), 5},
		{"one look, open", row(1, 0.4, 7), 5},
		{"against the lower end of the prior", row(1, 20, 3, 25, 4), 5},
		{"against the upper end of the prior", row(1, 0.02, 5, 0.025, 6), 3},
		{"two that bracket", row(1, 0.4, 4, 0.5, 6), 5},
		{"two far apart in level", row(1, 0.3, 0, 0.5, 7), 4},
		{"level 1 from looks at the top", row(1, 0.5, 5, 0.55, 6, 0.6, 6), 1},
		{"level 6 from looks at the bottom", row(1, 0.1, 0, 0.15, 1, 0.2, 2), 6},
		{"half level asked of whole looks", row(1, 0.2, 1, 0.3, 3, 0.4, 4, 0.5, 6), 4.5},
		{"whole level asked of half looks", row(0.5, 0.2, 1.5, 0.3, 3.5, 0.4, 4.5, 0.5, 6.5), 2},
		{"out of order", row(1, 0.2, 3, 0.3, 2, 0.4, 5, 0.5, 4), 4},
		{"three times the same", row(1, 0.4, 5, 0.4, 5, 0.4, 5), 5},
		{"three at one composition that differ", row(1, 0.4, 3, 0.4, 5, 0.4, 6), 5},
		{"narrow: forty-five looks at three compositions", many, 5},
		{"the same, two levels off", many, 3},
	}
	r := rand.New(rand.NewPCG(20, 26))
	for i, n := range []int{1, 2, 2, 3, 3, 4, 5, 6, 7, 8, 9, 10, 12, 15, 25} {
		step := 1.0
		if i%2 == 1 {
			step = 0.5
		}
		d := dish(r, n, step, math.Exp(2*r.Float64()-0.5), 6*math.Exp(0.4*r.NormFloat64()), 0.4*math.Exp(0.3*r.NormFloat64()), 0.3+0.7*r.Float64())
		level := float64(4+r.IntN(8)) / 2
		list = append(list, situation{fmt.Sprintf("made up, %d looks to %v, level %v", n, step, level), d, level})
	}
	return list
}

// The tables, the merging and the coarse nodes against the plain computation.
// Wanted is 0.2 % of R or, where the interval is wide, half a per cent of its
// width in ln R.
func TestAgainstThePlainComputation(t *testing.T) {
	for _, s := range situations() {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			got, ok := Posterior(s.data, s.level)
			require.True(t, ok)
			want := brute(s.data, s.level)
			within := 0.005 * math.Max(0.4, math.Log(want.High/want.Low))
			assert.InDelta(t, math.Log(want.Median), math.Log(got.Median), within)
			assert.InDelta(t, math.Log(want.Low), math.Log(got.Low), within)
			assert.InDelta(t, math.Log(want.High), math.Log(got.High), within)
			t.Logf("%.4f %.4f %.4f of ln R, width %.3f", math.Log(got.Median/want.Median),
				math.Log(got.Low/want.Low), math.Log(got.High/want.High), math.Log(want.High/want.Low))
		})
	}
}
