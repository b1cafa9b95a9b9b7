package fit

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// bruteNode is one c, β, γ and σ with its probability.
type bruteNode struct{ c, beta, gamma, sigma, weight float64 }

// brute computes the posterior of METHOD's thickening curve as it is defined there: every
// look, every node, plain erfc, no tables, no merging. Only the range of c is narrowed, to
// cells that hold something. It shares no code with the package.
type brute struct {
	nodes []bruteNode
	step  float64 // of c
}

func newBrute(d Data, slopes, bends, eyes int) brute {
	low, high := -math.Log(300), -math.Log(0.02)
	coarse := bruteGrid(d, low, high, 160, 13, 9, 5)
	top := make([]float64, 160)
	most := 0.0
	for _, n := range coarse {
		i := int((n.c - low) / (high - low) * 160)
		top[i] += n.weight
		most = math.Max(most, top[i])
	}
	first, last := 159, 0
	for i, w := range top {
		if w > 1e-7*most {
			first, last = min(first, i), max(last, i)
		}
	}
	first, last = max(first-2, 0), min(last+3, 160)
	width := (high - low) / 160
	low, high = low+float64(first)*width, low+float64(last)*width
	cells := min(max(int((high-low)/0.012), 150), 400)
	return brute{bruteGrid(d, low, high, cells, slopes, bends, eyes), (high - low) / float64(cells)}
}

func bruteGrid(d Data, low, high float64, cells, slopes, bends, eyes int) []bruteNode {
	var nodes []bruteNode
	heaviest := 0.0
	for j := range slopes {
		tb := 4.5 * (2*float64(j)/float64(slopes-1) - 1)
		for k := range bends {
			tg := 3.5 * (2*float64(k)/float64(bends-1) - 1)
			for l := range eyes {
				ts := 4 * (2*float64(l)/float64(eyes-1) - 1)
				n := bruteNode{0, 6 * math.Exp(0.5*tb), 0.5 * tg, 0.4 * math.Exp(0.35*ts), 0}
				prior := math.Exp(-(tb*tb + tg*tg + ts*ts) / 2)
				if n.gamma > 0 {
					prior *= math.Erfc(-(0.5-5+n.beta/n.gamma)/n.sigma/math.Sqrt2) / 2
				}
				if prior < 1e-9 {
					continue
				}
				for i := range cells {
					n.c = low + (float64(i)+0.5)*(high-low)/float64(cells)
					n.weight = prior
					for _, look := range d.Looks {
						n.weight *= n.look(look.Level, d.LevelStep, math.Log(look.PowderPerLiquid))
						if n.weight < 1e-40*heaviest {
							break
						}
					}
					if n.weight > 1e-12*heaviest {
						nodes = append(nodes, n)
						heaviest = math.Max(heaviest, n.weight)
					}
				}
			}
		}
	}
	return nodes
}

func (n bruteNode) z(u float64) float64 {
	if n.gamma == 0 {
		return 5 + n.beta*(u-n.c)
	}
	return 5 + n.beta*(math.Exp(n.gamma*(u-n.c))-1)/n.gamma
}

// look is the probability of a look at u.
func (n bruteNode) look(y, step, u float64) float64 {
	z := n.z(u)
	above := func(edge float64) float64 { return math.Erfc((edge-z)/(n.sigma*math.Sqrt2)) / 2 }
	below := func(edge float64) float64 { return math.Erfc((z-edge)/(n.sigma*math.Sqrt2)) / 2 }
	switch {
	case y == 0:
		return below(step / 2)
	case y == 7:
		return above(7 - step/2)
	case z > y:
		return below(y+step/2) - below(y-step/2)
	default:
		return above(y-step/2) - above(y+step/2)
	}
}

// at is the u where a curve reaches a level.
func (n bruteNode) at(level float64) float64 {
	if n.gamma == 0 {
		return n.c + (level-5)/n.beta
	}
	if t := 1 + n.gamma*(level-5)/n.beta; t > 0 {
		return n.c + math.Log(t)/n.gamma
	}
	return math.Copysign(math.Inf(1), -n.gamma)
}

// ratio is R at a level, by a fine histogram of u with each node spread over its
// cell of c.
func (b brute) ratio(level float64) Interval {
	const bins, low, high = 40000, -8.0, 6.0
	width := (high - low) / bins
	share := make([]float64, bins+2)
	sum := 0.0
	for _, n := range b.nodes {
		sum += n.weight
		first := (n.at(level) - b.step/2 - low) / width
		switch {
		case first < 0:
			share[0] += n.weight
		case first < bins:
			across := max(int(b.step/width), 1)
			for i := range across {
				share[min(int(first)+1+i, bins+1)] += n.weight / float64(across)
			}
		}
	}
	r := func(q float64) float64 {
		below := 0.0
		for i, w := range share {
			if below += w; below >= q*sum {
				if i == 0 {
					return math.Inf(1)
				}
				return math.Exp(-low - float64(i)*width)
			}
		}
		return 0
	}
	return Interval{r(0.5), r(0.975), r(0.025)}
}

// situation is a trial to compare with the plain computation.
type situation struct {
	name string
	data Data
}

func situations(made int) []situation {
	row := func(step float64, pairs ...float64) Data {
		d := Data{LevelStep: step}
		for i := 0; i < len(pairs); i += 2 {
			d.Looks = append(d.Looks, Look{pairs[i], pairs[i+1]})
		}
		return d
	}
	many := Data{LevelStep: 1}
	for range 8 {
		many.Looks = append(many.Looks, Look{0.5, 5}, Look{0.45, 4}, Look{0.3, 2})
	}
	list := []situation{
		{"one look, half step", row(0.5, 0.4, 4.5)},
		{"one thin look", row(0.5, 0.115, 1.5)},
		{"against the lower end of the prior", row(1, 20, 3, 25, 4)},
		{"two far apart in level", row(1, 0.3, 0, 0.5, 7)},
		{"three times the same", row(1, 0.4, 5, 0.4, 5, 0.4, 5)},
		{"three at one composition that differ", row(1, 0.4, 3, 0.4, 5, 0.4, 6)},
		{"twenty-four looks at three compositions", many},
	}
	r := rand.New(rand.NewPCG(20, 26))
	for n := range made {
		step := 1 - 0.5*float64(n%2)
		looks := []int{2, 3, 4, 5, 7, 9, 12, 15}[n%8]
		d := dish(r, looks, step, math.Exp(2*r.Float64()-0.5), 6*math.Exp(0.4*r.NormFloat64()),
			0.4*math.Exp(0.3*r.NormFloat64()), 0.4+0.8*r.Float64())
		list = append(list, situation{fmt.Sprintf("made up %d, %d looks to %v", n, looks, step), d})
	}
	return list
}

// The fit, with its tables, merging, window and coarse nodes, agrees with the plain
// computation at every level with a closed look near. They may differ by 0.5 % of R or,
// where the interval is wide, by two per cent of its width in ln R; by 4 % of both at the
// upper limits at levels 1 and 2, which depend on the tail of γ.
func TestAgainstThePlainComputation(t *testing.T) {
	if testing.Short() {
		t.Skip("the plain computation takes about a second")
	}
	all := situations(16)
	if !long {
		all = []situation{all[0], all[1], all[2], all[5], all[10]}
	}
	for _, s := range all {
		t.Run(s.name, func(t *testing.T) {
			p, b := Solve(s.data), newBrute(s.data, 37, 25, 9)
			for level := 1.0; level <= 6; level++ {
				if !survey(s.data, level).close {
					continue
				}
				got, want := p.Ratio(level), b.ratio(level)
				within := math.Max(0.005, 0.02*math.Log(want.High/want.Low))
				if math.IsInf(want.High, 1) {
					within = 0.03
					assert.Greater(t, got.High, 20*got.Median, "level %v: high", level)
				} else {
					upper := within
					if level <= 2 {
						upper = math.Max(2*within, 0.04)
					}
					assert.InDelta(t, math.Log(want.High), math.Log(got.High), upper, "level %v: high", level)
				}
				assert.InDelta(t, math.Log(want.Median), math.Log(got.Median), within, "level %v: median", level)
				assert.InDelta(t, math.Log(want.Low), math.Log(got.Low), within, "level %v: low", level)
			}
		})
	}
}
