package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// besideByHand is R at the thickness of a reference dish by a plain sum over an even grid, sharing no code.
func besideByHand(d Data) Interval {
	const nc, nb, ng, ns = 961, 25, 21, 13
	edges := []float64{math.Inf(-1), -1.5, -0.3, 0.3, 1.5, math.Inf(1)}
	low, high := -math.Log(300), -math.Log(0.02)
	below := func(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
	share := make([]float64, nc)
	for j := range nb {
		tb := 4.5 * (2*float64(j)/(nb-1) - 1)
		beta := 6 * math.Exp(0.5*tb)
		for k := range ng {
			tg := 3.5 * (2*float64(k)/(ng-1) - 1)
			gamma := 0.5 * tg
			for l := range ns {
				ts := 4 * (2*float64(l)/(ns-1) - 1)
				sigma := 0.25 * math.Exp(0.35*ts)
				prior := math.Exp(-(tb*tb + tg*tg + ts*ts) / 2)
				if gamma > 0 {
					prior *= below((0.5 - *d.ReferenceLevel + beta/gamma) / sigma)
				}
				if prior < 1e-9 {
					continue
				}
				for i := range nc {
					w := prior
					for _, look := range d.Looks {
						v := math.Log(look.PowderPerLiquid) - (low + (float64(i)+0.5)*(high-low)/nc)
						z := beta * v
						if gamma != 0 {
							z = beta * (math.Exp(gamma*v) - 1) / gamma
						}
						c := int(look.Level) + 2
						w *= below((edges[c+1]-z)/sigma) - below((edges[c]-z)/sigma)
					}
					share[i] += w
				}
			}
		}
	}
	sum := 0.0
	for _, w := range share {
		sum += w
	}
	at := func(q float64) float64 {
		below := 0.0
		for i, w := range share {
			if below+w >= q*sum {
				return math.Exp(-(low + (float64(i)+(q*sum-below)/w)*(high-low)/nc))
			}
			below += w
		}
		return math.NaN()
	}
	return Interval{at(0.5), at(0.975), at(0.025)}
}

// beside is a paste held against a dish at a level.
func beside(level float64, looks ...Look) Data { return Data{Looks: looks, ReferenceLevel: &level} }

func comparedAt(x float64, c Compared) Look { return Look{x, float64(c)} }

func TestBeside(t *testing.T) {
	if testing.Short() {
		t.Skip("the plain computation takes over a second")
	}
	for _, d := range []Data{
		beside(5, comparedAt(0.3, MuchThinner), comparedAt(0.4, Thinner), comparedAt(0.5, Thicker)),
		beside(4.5, comparedAt(0.3, Thinner), comparedAt(0.35, Same), comparedAt(0.42, MuchThicker)),
		beside(2, comparedAt(0.5, Same)),
	} {
		agree(t, besideByHand(d), Solve(d).Ratio(0), 0.005)
	}
}

func TestBesideReach(t *testing.T) {
	looks := func(compared ...Compared) Data {
		d := beside(5, comparedAt(math.NaN(), Same), comparedAt(0, Same), comparedAt(math.Inf(1), Same), Look{0.5, 0.5})
		for i, c := range compared {
			d.Looks = append(d.Looks, comparedAt(0.3+0.1*float64(i), c))
		}
		return d
	}
	for _, c := range []struct {
		name string
		d    Data
		want Reach
	}{
		{"none", looks(), NotReached},
		{"thinner alone", looks(MuchThinner, Thinner), OneSided},
		{"thicker alone", looks(Thicker, MuchThicker), OneSided},
		{"both sides", looks(Thinner, Thicker), Bracketed},
		{"one of them near", looks(MuchThinner, Thicker), Bracketed},
		{"none of them near", looks(MuchThinner, MuchThicker), NotReached},
		{"the same is both sides", looks(MuchThinner, Same), Bracketed},
		{"one look is not enough", looks(Same), OneSided},
	} {
		r := Solve(c.d).At(0)
		assert.Equal(t, c.want, r.Reach, c.name)
		assert.Equal(t, len(c.d.Looks)-4, r.Looks, c.name)
		assert.Equal(t, NotReached, Solve(c.d).At(5).Reach, "levels are not asked for beside a dish")
	}
}

// The outlook of a look beside a dish is a distribution over the five readings:
// far below the reference it is nearly sure to read much thinner, far above much
// thicker.
func TestBesideOutlook(t *testing.T) {
	p := Solve(beside(5, comparedAt(0.4, Thinner), comparedAt(0.5, Thicker)))
	outlooks := p.Outlooks(0, []float64{0.1, 0.45, 2}, Expected{})
	for i, want := range []Compared{MuchThinner, Same, MuchThicker} {
		sum := 0.0
		for _, c := range outlooks[i].Chance {
			sum += c
		}
		assert.InDelta(t, 1, sum, 1e-9)
		low, high := outlooks[i].Likely()
		assert.LessOrEqual(t, low, float64(want))
		assert.GreaterOrEqual(t, high, float64(want))
	}
	assert.Greater(t, outlooks[2].Above(1), 0.9)
	assert.Less(t, outlooks[0].Above(-2), 0.1)
	assert.Nil(t, p.Outlooks(5, []float64{0.4}, Expected{}))
	at := p.Level(1 / p.Ratio(0).Median)
	assert.InDelta(t, 5, at.Median, 0.1, "where it is as thick it stands at the level of the reference")
	assert.InDelta(t, -1, p.Level(0.01).Median, 1.5, "levels are those of the scale")
}
