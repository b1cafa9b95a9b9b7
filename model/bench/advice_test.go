package bench_test

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bruteNode is one node of an even grid over the thickening curve's unknowns;
// reach is the u where it comes to the aim.
type bruteNode struct{ c, beta, gamma, sigma, reach, weight float64 }

func (n bruteNode) z(u float64) float64 {
	if n.gamma == 0 {
		return 5 + n.beta*(u-n.c)
	}
	return 5 + n.beta*(math.Exp(n.gamma*(u-n.c))-1)/n.gamma
}

// at gives the u where the curve reaches a level, the ends of the range of R where it never
// does.
func (n bruteNode) at(level float64) float64 {
	u := n.c + (level-5)/n.beta
	if n.gamma != 0 {
		u = n.c + math.Log(math.Max(1+n.gamma*(level-5)/n.beta, 1e-300))/n.gamma
	}
	return math.Max(-math.Log(300), math.Min(-math.Log(0.02), u))
}

// phi is the standard normal cumulative.
func phi(v float64) float64 { return math.Erfc(-v/math.Sqrt2) / 2 }

// bruteLook gives P(look | node) by erfc, as METHOD defines looks and the thickening curve,
// with no table and no shortcut.
func bruteLook(n bruteNode, u, level, step float64) float64 {
	z := n.z(u)
	low, high := 0.0, 1.0
	if level > 0 {
		low = phi((level - step/2 - z) / n.sigma)
	}
	if level < 7 {
		high = phi((level + step/2 - z) / n.sigma)
	}
	return math.Max(high-low, 0)
}

// bruteNodes is the posterior of the looks, weighted by the family's range of R at the aim
// as for the advice. The weight is 1 within the range and falls outside like a normal of SD
// 0.2 in ln R, down to a tenth. The nodes come in the order of reach.
func bruteNodes(xs, levels []float64, aim, step, low, high float64) []bruteNode {
	data := fit.Data{LevelStep: step}
	for i := range xs {
		data.Looks = append(data.Looks, fit.Look{PowderPerLiquid: xs[i], Level: levels[i]})
	}
	// The package only says where the thickest end of the grid is.
	iv := fit.Solve(data).Ratio(5)
	from, to := -math.Log(300), math.Min(math.Log(iv.High/iv.Low)/2-math.Log(iv.Low), -math.Log(0.02))
	var nodes []bruteNode
	const nc, nb, ng, ns = 301, 17, 11, 7
	heaviest := 0.0
	for i := range nc {
		for j := range nb {
			tb := -4 + 8*float64(j)/(nb-1)
			for m := range ng {
				// Each slope and bend has its own c, so that they fill the gaps
				// between each other's.
				_, shift := math.Modf(0.618*float64(j) + 0.414*float64(m))
				tg := -3.3 + 6.6*float64(m)/(ng-1)
				for k := range ns {
					ts := -3 + 6*float64(k)/(ns-1)
					n := bruteNode{
						c: from + (to-from)*(float64(i)+shift)/nc, beta: 6 * math.Exp(0.5*tb),
						gamma: 0.5 * tg, sigma: 0.4 * math.Exp(0.35*ts),
					}
					if m == ng/2 {
						n.gamma = 0
					}
					n.reach = n.at(aim)
					beyond := math.Max(math.Max(-math.Log(high)-n.reach, n.reach+math.Log(low)), 0) / 0.2
					n.weight = math.Exp(-tb*tb/2-tg*tg/2-ts*ts/2) * (0.1 + 0.9*math.Exp(-beyond*beyond/2))
					if n.gamma > 0 {
						n.weight *= phi((0.5 - 5 + n.beta/n.gamma) / n.sigma)
					}
					for l := range xs {
						n.weight *= bruteLook(n, math.Log(xs[l]), levels[l], step)
					}
					if n.weight > 1e-11*heaviest {
						nodes = append(nodes, n)
						heaviest = math.Max(heaviest, n.weight)
					}
				}
			}
		}
	}
	// Nodes of next to no weight only cost time.
	nodes = slices.DeleteFunc(nodes, func(n bruteNode) bool { return n.weight < 1e-8*heaviest })
	slices.SortFunc(nodes, func(a, b bruteNode) int { return cmp.Compare(a.reach, b.reach) })
	return nodes
}

// bruteOutlook gives the outlook of a look at x. squared is the expected squared width of
// the central 68 % of u at the aim; above the chance of a look above aim + 1, or of a 7
// where the scale ends there; near the chance of one above aim - 1.5. guess is 1 where four
// looks in five spread over more than three levels, -1 where they do not, and 0 on the
// edge.
func bruteOutlook(nodes []bruteNode, aim, x, step float64) (squared, above, near float64, guess int) {
	var chances []float64
	all, u := 0.0, math.Log(x)
	weights, below := make([]float64, len(nodes)), make([]float64, len(nodes))
	for level := 0.0; level <= 7; level += step {
		sum := 0.0
		for i, n := range nodes { // bruteLook, each edge between two looks worked out once
			edge := n.weight
			if level < 7 {
				edge *= phi((level + step/2 - n.z(u)) / n.sigma)
			}
			weights[i], below[i] = max(edge-below[i], 0), edge
			sum += weights[i]
		}
		at := func(q float64) float64 {
			below := 0.0
			for i, w := range weights {
				if below += w; below >= q*sum {
					return nodes[i].reach
				}
			}
			return nodes[len(nodes)-1].reach
		}
		width := at(0.84) - at(0.16)
		squared += sum * width * width
		all += sum
		chances = append(chances, sum)
		if level > aim+1 || level == 7 {
			above += sum
		}
		if level > aim-1.5 {
			near += sum
		}
	}
	spread := func(beyond float64) float64 {
		low, high, sum := -1, -1, 0.0
		for i, c := range chances {
			sum += c / all
			if low < 0 && sum > beyond {
				low = i
			}
			if high < 0 && sum >= 1-beyond {
				high = i
			}
		}
		return float64(high-low) * step
	}
	switch {
	case spread(0.105) > 3:
		guess = 1
	case spread(0.095) <= 3:
		guess = -1
	}
	return squared / all, above / all, near / all, guess
}

// addition is one candidate, worked out anew from spoons and densities.
type addition struct {
	liquid       bool
	spoon        string
	count        int
	x            float64
	grams        float64
	squared, top float64
	near         float64
	guess        int
}

func (a addition) plainer(b addition) int {
	switch {
	case a.liquid != b.liquid && !a.liquid, a.liquid == b.liquid && a.count < b.count:
		return 1
	case a.liquid != b.liquid && a.liquid, a.liquid == b.liquid && a.count > b.count:
		return -1
	}
	return 0
}

// bruteAdvice walks the same rule over the brute-force outlooks. close lists
// every addition that the rule could as well have taken: within 5 % in
// squared width of the best, or on the edge of the risk.
func bruteAdvice(all []addition, latest, aim float64) (close []addition) {
	var allowed []addition
	least := math.Inf(1)
	for _, a := range all {
		if a.top > 0.25+0.005 || !a.liquid && latest > aim+1 {
			continue
		}
		allowed = append(allowed, a)
		if a.top < 0.25-0.005 {
			least = math.Min(least, a.squared)
		}
	}
	for _, a := range allowed {
		dominated := false
		for _, b := range allowed {
			// b is clearly better than a, whichever way plainness counts.
			margin := 1 + 0.05*float64(max(b.plainer(a), -b.plainer(a))) + 0.05
			far := !a.liquid && !b.liquid && a.near < 0.1 && b.near < 0.1
			edge := max(a.near, b.near) > 0.09 && max(a.near, b.near) < 0.11
			switch {
			case b.top > 0.25-0.005 || edge:
			case far:
				dominated = dominated || b.grams > a.grams
			default:
				dominated = dominated || b.squared*margin < a.squared
			}
		}
		if !dominated {
			close = append(close, a)
		}
	}
	return close
}

// bruteSurer gives the addition, or, where it is a guess that may overshoot, the largest
// smaller one of powder that is no guess. It gives both on the edge between the two.
func bruteSurer(all []addition, a addition) (taken []addition) {
	if a.liquid || a.guess < 0 || a.top < 0.045 {
		return []addition{a}
	}
	smaller := slices.DeleteFunc(slices.Clone(all), func(b addition) bool {
		return b.liquid || b.grams >= a.grams || b.guess > 0
	})
	slices.SortFunc(smaller, func(b, c addition) int { return cmp.Compare(c.grams, b.grams) })
	stays := a.guess == 0 || a.top < 0.055
	for _, b := range smaller {
		stays = stays || b.near < 0.11
		if b.near > 0.09 {
			taken = append(taken, b)
		}
		if b.guess < 0 {
			if stays {
				taken = append(taken, a)
			}
			return taken
		}
	}
	return append(taken, a)
}

// TestAdviceAgreesWithBruteForce compares the advice with a plain evaluation on a finer
// grid, with nothing tabulated and nothing left out.
func TestAdviceAgreesWithBruteForce(t *testing.T) {
	if testing.Short() {
		t.Skip("the plain evaluation takes about a second")
	}
	rng := rand.New(rand.NewPCG(7, 7))
	spoons := []string{"1 tsp", "1/2 tsp", "1/4 tsp", "1/8 tsp"}
	const situations = 12
	compared := 0
	for n := 0; compared < situations; n++ {
		ratio, tsp := 0.5*math.Exp(2.3*rng.Float64()), 1.3+3*rng.Float64()
		aim := []float64{5, 5, 4, 3.5, 6}[n%5]
		step := []float64{1, 1, 0.5}[n%3]
		family := []model.Family{model.PlainClay, model.Botanical, model.Flour, model.Other}[n%4]
		p := model.Profile{
			Powder:      model.Powder{Name: "x", Family: family},
			LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{tsp, tsp * 1.02, tsp * 0.98}}},
		}
		trial := model.Trial{LiquidG: 10, Spoons: spoons, Aim: aim, LevelStep: step, Tolerance: 1e-6}
		powder, liquid := 0.0, 10.0
		var xs, levels []float64
		for range 1 + n%4 {
			want := 10 / ratio * (0.5 + 0.8*rng.Float64())
			grams := math.Max(want-powder, 0.1)
			powder += grams
			z := 5 + 6*math.Log(powder/liquid*ratio) + 0.4*rng.NormFloat64()
			y := math.Min(math.Max(math.Round(z/step)*step, 0), 7)
			trial.Steps = append(trial.Steps, model.Step{Add: model.AddPowder, Grams: grams, Looked: true, Level: y})
			xs, levels = append(xs, powder/liquid), append(levels, y)
		}
		r, err := bench.Read(p, trial, nil)
		require.NoError(t, err)
		got, ok := r.Advice()
		require.True(t, ok)
		if got.Action == bench.ActWeigh || got.Action == bench.ActStop {
			continue
		}
		compared++

		low, high := family.FirstRange()
		low, high = low*math.Exp((5-aim)/6), high*math.Exp((5-aim)/6)
		nodes := bruteNodes(xs, levels, aim, step, low, high)
		var all []addition
		for i, s := range spoons {
			scoop, err := r.SpoonWeights.Scoop(s) // the weights of spoons are checked elsewhere
			require.NoError(t, err)
			many := func(gramsEach float64, wants ...float64) []int {
				counts := []int{1, 2, 3}
				for _, want := range wants {
					if n := min(int(want/gramsEach), 20); i == 0 && n > 3 && !slices.Contains(counts, n) {
						counts = append(counts, n)
					}
				}
				return counts
			}
			for _, count := range many(scoop.Grams, 0.1*powder, 0.2*powder, 0.4*powder, liquid/high-powder) {
				g := scoop.Grams * float64(count)
				all = append(all, addition{spoon: s, count: count, x: (powder + g) / liquid, grams: g})
			}
			for _, count := range many(teaspoons(s)*4.92892159375*model.WaterDensity(20), 0.1*liquid, 0.2*liquid) {
				w := teaspoons(s) * 4.92892159375 * model.WaterDensity(20) * float64(count)
				all = append(all, addition{liquid: true, spoon: s, count: count, x: powder / (liquid + w), grams: w})
			}
		}
		for i := range all {
			all[i].squared, all[i].top, all[i].near, all[i].guess = bruteOutlook(nodes, aim, all[i].x, step)
		}
		latest := levels[len(levels)-1]
		var close []addition
		for _, a := range bruteAdvice(all, latest, aim) {
			close = append(close, bruteSurer(all, a)...)
		}
		name := fmt.Sprintf("situation %d: looks %v at %.3v, aim %v; advised %s %d × %s", n, levels, xs, aim,
			got.Action, got.Count, got.Spoon)
		if len(close) == 0 { // nothing is safe enough: the gentlest way back, or the smallest spoon
			want := bench.ActPowder
			if latest > aim {
				want = bench.ActLiquid
			}
			assert.Equal(t, want, got.Action, name)
			continue
		}
		found := false
		for _, a := range close {
			found = found || a.spoon == got.Spoon && a.count == got.Count && a.liquid == (got.Action == bench.ActLiquid)
		}
		assert.True(t, found, "%s; brute force would take one of %+v", name, close)
		assert.LessOrEqual(t, len(close), 8, "%s: the tie is so wide that nothing is tested", name)
	}
}
