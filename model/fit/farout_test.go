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
	assert.Empty(t, FarOut(data(1, x, steady), 5), "a steady row")

	odd := []float64{0, 2, 3, 4, 5, 0}
	assert.Equal(t, []int{5}, FarOut(data(1, x, odd), 5), "the dish turned thin")
	assert.Equal(t, []int{5}, FarOut(data(0.5, x, odd), 5), "to half levels")

	assert.Empty(t, FarOut(data(1, x[:3], []float64{4, 5, 0}), 5), "three looks have two others only")
	kept := data(1, append(x, 0, 0.5), append(odd, 5, 9))
	assert.Equal(t, []int{5}, FarOut(kept, 5), "unusable looks keep their place and do not count")
}

// Leaving out by hand: every look against the fit of all the others, with no
// screening, by the plain computation of the probabilities.
func TestFarOutAgainstRefits(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	found := 0
	for range 60 {
		n := 4 + r.IntN(16)
		step := float64(1+r.IntN(2)) / 2
		d := dish(r, n, step, math.Exp(2*r.Float64()-0.5), 6*math.Exp(0.4*r.NormFloat64()), 0.4, 0.3+r.Float64())
		for range r.IntN(3) {
			d.Looks[r.IntN(n)].Level = float64(r.IntN(8))
		}
		level := float64(2+r.IntN(11)) / 2
		want := []int(nil)
		for i := range d.Looks {
			others := Data{LevelStep: step}
			others.Looks = append(append(others.Looks, d.Looks[:i]...), d.Looks[i+1:]...)
			if surpriseByHand(others, d.Looks[i], level) < farOut {
				want = append(want, i)
			}
		}
		assert.Equal(t, want, FarOut(d, level))
		found += len(want)
	}
	assert.Greater(t, found, 15, "the rows have far-out looks to find")
}

func surpriseByHand(others Data, l Look, level float64) float64 {
	var p posterior
	p.solve(merge(others), quarters(level))
	c := cellOf(l.Level, others.LevelStep)
	a, b := edge(c.low), edge(c.high)
	var atMost, atLeast float64
	for j := range p.spans {
		for i, node := range p.row(j) {
			past := math.Exp(p.slope.at(j)) * (math.Log(l.PowderPerLiquid) - p.place.at(p.spans[j].first+i))
			for k, w := range node {
				s := math.Sqrt2 * math.Hypot(eye[k], 0.2*past)
				atMost += w * math.Erfc((level+past-b)/s) / 2
				atLeast += w * math.Erfc((a-level-past)/s) / 2
			}
		}
	}
	return 2 * min(atMost, atLeast)
}
