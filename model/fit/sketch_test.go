package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Within the limit, a sketch gives a powder's levels in reach as the full fit does, to a
// small part of the interval's half-width.
func TestSketchAgreesWithTheFullFit(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	situations := 40
	if long {
		situations = 1000
	}
	worst, sum, n := 0.0, 0.0, 0.0
	for range situations {
		step := []float64{0.5, 1}[r.IntN(2)]
		ratio, slope := math.Exp(3*r.Float64()-1), 6*math.Exp(r.NormFloat64()/3)
		d := dish(r, 1+r.IntN(16), step, ratio, slope, 0.4, 1.2)
		masses := 0.02 + 0.05*r.Float64()
		sketch, full := Pool([]Trial{{Sketch(d), masses}}), Pool([]Trial{{Solve(d), masses}})
		for _, level := range allLevels {
			if d.Judge(level).Reach == NotReached {
				continue
			}
			for _, at := range []func(*Powder) Interval{
				func(p *Powder) Interval { return p.Ratio(level) },
				func(p *Powder) Interval { return p.Next(level) },
			} {
				got, want := at(sketch), at(full)
				if got.HalfWidth() > SketchLimit {
					continue
				}
				for _, pair := range [][2]float64{
					{got.Median, want.Median}, {got.Low, want.Low}, {got.High, want.High},
				} {
					off := math.Abs(math.Log(pair[0]/pair[1])) / want.HalfWidth()
					worst, sum, n = max(worst, off), sum+off, n+1
				}
			}
		}
	}
	assert.Less(t, worst, 1.0/15, "of a half-width")
	assert.Less(t, sum/n, 0.005, "on the average")
}
