package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestFarOut(t *testing.T) {
	x := []float64{0.2, 0.25, 0.3, 0.35, 0.4, 0.45}
	steady := []float64{0, 2, 3, 4, 5, 5}
	assert.Empty(t, Solve(data(1, x, steady)).FarOut(), "a steady row")

	odd := []float64{0, 2, 3, 4, 5, 0}
	assert.Equal(t, []int{5}, Solve(data(1, x, odd)).FarOut(), "the dish turned thin")
	assert.Equal(t, []int{5}, Solve(data(0.5, x, odd)).FarOut(), "to half levels")

	assert.Empty(t, Solve(data(1, x[:3], []float64{4, 5, 0})).FarOut(), "three looks have two others only")
	kept := data(1, append(x, 0, 0.5), append(odd, 5, 9))
	assert.Equal(t, []int{5}, Solve(kept).FarOut(), "unusable looks keep their place and do not count")
}

// Leaving out by hand: every look against the plain posterior of all the
// others, with no screening. Looks within a tenth of the limit may go either
// way.
func TestFarOutAgainstThePlainComputation(t *testing.T) {
	if testing.Short() {
		t.Skip("the plain computation takes over a second")
	}
	rounds := 3
	if long {
		rounds = 10
	}
	r := rand.New(rand.NewPCG(5, 5))
	found := 0
	for range rounds {
		n := 4 + r.IntN(6)
		step := float64(1+r.IntN(2)) / 2
		d := dish(r, n, step, math.Exp(2*r.Float64()-0.5), 6*math.Exp(0.4*r.NormFloat64()), 0.4, 0.3+r.Float64())
		d.Looks[r.IntN(n)].Level = float64(r.IntN(8))
		far := map[int]bool{}
		for _, i := range Solve(d).FarOut() {
			far[i] = true
		}
		for i, l := range d.Looks {
			others := Data{LevelStep: step}
			others.Looks = append(append(others.Looks, d.Looks[:i]...), d.Looks[i+1:]...)
			p := plainSurprise(newBrute(others, 21, 13, 9), l, step)
			if math.Abs(p/farOut-1) > 0.1 {
				assert.Equal(t, p < farOut, far[i], "look %d of %v to %v: p = %.4f", i, d.Looks, step, p)
			}
			if far[i] {
				found++
			}
		}
	}
	assert.Positive(t, found, "the rows have far-out looks to find")
}

func plainSurprise(b brute, l Look, step float64) float64 {
	var atMost, atLeast, all float64
	for _, n := range b.nodes {
		all += n.weight
		for y := 0.0; y <= 7; y += step {
			p := n.weight * n.look(y, step, math.Log(l.PowderPerLiquid))
			if y <= l.Level {
				atMost += p
			}
			if y >= l.Level {
				atLeast += p
			}
		}
	}
	return math.Min(1, 2*math.Min(atMost, atLeast)/all)
}
