package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// matchByHand is a match by a plain sum over an even grid, sharing no code.
func matchByHand(m Match) Interval {
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
					prior *= below((0.5 - m.Reference + beta/gamma) / sigma)
				}
				if prior < 1e-9 {
					continue
				}
				for i := range nc {
					w := prior
					for _, look := range m.Looks {
						v := math.Log(look.PowderPerLiquid) - (low + (float64(i)+0.5)*(high-low)/nc)
						z := beta * v
						if gamma != 0 {
							z = beta * (math.Exp(gamma*v) - 1) / gamma
						}
						c := int(look.Compared) + 2
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

func TestMatch(t *testing.T) {
	for _, m := range []Match{
		{[]MatchLook{{0.3, MuchThinner}, {0.4, Thinner}, {0.5, Thicker}}, 5},
		{[]MatchLook{{0.3, Thinner}, {0.35, Same}, {0.42, MuchThicker}}, 4.5},
		{[]MatchLook{{0.5, Same}}, 2},
	} {
		if testing.Short() && len(m.Looks) > 1 {
			continue
		}
		agree(t, matchByHand(m), m.Solve().Ratio, 0.005)
	}
}

func TestMatchIsBracketed(t *testing.T) {
	looks := func(compared ...Compared) Match {
		m := Match{Reference: 5, Looks: []MatchLook{{math.NaN(), Same}, {0, Same}, {math.Inf(1), Same}}}
		for i, c := range compared {
			m.Looks = append(m.Looks, MatchLook{0.3 + 0.1*float64(i), c})
		}
		return m
	}
	for _, c := range []struct {
		name string
		m    Match
		want bool
	}{
		{"none", looks(), false},
		{"thinner alone", looks(MuchThinner, Thinner), false},
		{"thicker alone", looks(Thicker, MuchThicker), false},
		{"both sides", looks(Thinner, Thicker), true},
		{"one of them near", looks(MuchThinner, Thicker), true},
		{"none of them near", looks(MuchThinner, MuchThicker), false},
		{"the same is both sides", looks(MuchThinner, Same), true},
		{"one look is not enough", looks(Same), false},
	} {
		r := c.m.Solve()
		assert.Equal(t, c.want, r.Bracketed, c.name)
		assert.Equal(t, len(c.m.Looks)-3, r.Looks, c.name)
	}
}
