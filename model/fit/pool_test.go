package fit

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The reference cases: several trials of one powder by quadrature with SciPy,
// as the note in the file says.
func TestPowderCases(t *testing.T) {
	var file struct {
		Cases []struct {
			Name   string
			Trials []looksAs
			Powder map[string]struct {
				Interval
				NextLow  float64 `json:"next_low"`
				NextHigh float64 `json:"next_high"`
			}
			BetweenTrials float64 `json:"between_trials"`
		}
	}
	load(t, "powder_cases.json", &file)
	require.Len(t, file.Cases, 6)
	for _, c := range file.Cases {
		t.Run(c.Name, func(t *testing.T) {
			var trials []Trial
			for _, l := range c.Trials {
				trials = append(trials, Trial{Solve(l.data()), l.Masses})
			}
			p := Pool(trials)
			assert.InDelta(t, c.BetweenTrials, p.BetweenTrials, 0.01)
			require.Len(t, c.Powder, 5)
			for key, want := range c.Powder {
				level := levelOf(t, key)
				upper := 0.01
				if level <= 2 {
					upper = 0.03
				}
				got, next := p.Ratio(level), p.Next(level)
				assert.InEpsilon(t, want.Median, got.Median, 0.01, "level %s: median", key)
				assert.InEpsilon(t, want.Low, got.Low, 0.01, "level %s: low", key)
				assert.InEpsilon(t, want.High, got.High, upper, "level %s: high", key)
				assert.InEpsilon(t, want.NextLow, next.Low, 0.01, "level %s: next low", key)
				assert.InEpsilon(t, want.NextHigh, next.High, upper, "level %s: next high", key)
			}
		})
	}
}

// A powder of one trial has a shorter way to the same answer.
func TestOneTrialGetsTheSameTreatment(t *testing.T) {
	d := data(1, []float64{0.15, 0.3, 0.45}, []float64{1, 3, 5})
	looks := Solve(d)
	one := Pool([]Trial{{looks, 0.05}})
	same := together([]Trial{{looks, 0.05}})
	for level := 2.0; level <= 6; level++ {
		agree(t, one.Ratio(level), same.Ratio(level), 0.015)
		agree(t, one.Next(level), same.Next(level), 0.015)
	}
	assert.InDelta(t, one.BetweenTrials, same.BetweenTrials, 0.002)
	// Half-normal with scale 0.10: the median is 0.6745 of it.
	assert.InDelta(t, 0.06745, one.BetweenTrials, 0.001)
}

func TestPoolKeepsNoOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 8))
	var trials []Trial
	for i := range 3 {
		trials = append(trials, Trial{Solve(dish(r, 4+i, 1, 2, 6, 0.4, 0.8)), 0.03 + 0.01*float64(i)})
	}
	want := Pool(trials)
	for range 3 {
		r.Shuffle(len(trials), func(i, j int) { trials[i], trials[j] = trials[j], trials[i] })
		got := Pool(slices.Clone(trials))
		assert.Equal(t, want.BetweenTrials, got.BetweenTrials)
		for _, level := range allLevels {
			assert.Equal(t, want.Ratio(level), got.Ratio(level))
			assert.Equal(t, want.Next(level), got.Next(level))
			assert.Equal(t, want.Slope(level), got.Slope(level))
		}
	}
	assert.Equal(t, want.Level(0.5), Pool(trials).Level(0.5))
}

func TestPoolLeavesOutWhatItCannotUse(t *testing.T) {
	good := Trial{Solve(data(1, []float64{0.2, 0.3}, []float64{3, 5})), 0.05}
	none := Trial{Solve(Data{}), 0.05}
	assert.Nil(t, Pool(nil))
	assert.Nil(t, Pool([]Trial{none, {good.Looks, -1}, {good.Looks, math.NaN()}, {good.Looks, math.Inf(1)}}))
	assert.Equal(t, Pool([]Trial{good}).Ratio(5), Pool([]Trial{none, good, {good.Looks, math.NaN()}}).Ratio(5))
}

// Whatever the looks and the repeats, a stiffer paste never takes more liquid,
// and the next dish is never surer than the powder.
func TestNothingOfAPowderRisesWithTheLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var trials []Trial
		for range rapid.IntRange(1, 3).Draw(t, "trials") {
			d := rapid.OneOf(rapid.Custom(plausible), rapid.Custom(anything)).Draw(t, "data")
			trials = append(trials, Trial{Solve(d), rapid.Float64Range(0, 0.3).Draw(t, "masses")})
		}
		p := Pool(trials)
		if p == nil {
			return
		}
		falling(t, "powder", p.Ratio)
		falling(t, "next", p.Next)
		falling(t, "widened", func(level float64) Interval { return p.Ratio(level).Widen(0.1) })
		for level := 1.0; level <= 6; level++ {
			if powder, next := p.Ratio(level), p.Next(level); next.Low > powder.Low || next.High < powder.High {
				t.Fatalf("level %v: the next dish %v is surer than the powder %v", level, next, powder)
			}
		}
		if !(p.BetweenTrials > 0 && p.BetweenTrials < 0.6) {
			t.Fatalf("between trials %v", p.BetweenTrials)
		}
	})
}

// Three trials of which hardly any curve joins even two: a coarse grid steps over
// the bends that still do. No outside
// source: wanted is within a tenth of what this
// quadrature gives on 40 × 31 × 25 nodes, at level 3 too, where the upper limit hangs on those bends.
func TestTrialsAtOddsTakeAFinerGrid(t *testing.T) {
	at := func(ratio, first float64) Data {
		d := Data{LevelStep: 1}
		before, held := 0.0, 0.0
		for i, level := range []float64{3, 4, 5, 6} {
			x := math.Exp((level-5)/6) / ratio
			add := x - before
			if i == 0 && first > 0 {
				add = first
			}
			before, held = x, held+add
			d.Looks = append(d.Looks, Look{held, level})
		}
		return d
	}
	p := Pool([]Trial{
		{Solve(at(0.40625, 0)), 0.015}, {Solve(at(8, 0.17325)), 0.03}, {Solve(at(1.5845, 0.05775)), 0.02},
	})
	within := func(want, got float64) {
		t.Helper()
		assert.InEpsilon(t, want, got, 0.1)
	}
	three, five := p.Ratio(3), p.Ratio(5)
	within(6.723, three.Low)
	within(14.00, three.Median)
	within(60.09, three.High)
	within(61.22, p.Next(3).High)
	within(0.4657, five.Low)
	within(3.311, five.Median)
	within(8.304, five.High)
}

// Two trials far apart still give an answer between them; two that no curve
// joins give none.
func TestTrialsAtOdds(t *testing.T) {
	at := func(x float64) Trial { return Trial{Solve(data(1, []float64{0.9 * x, x}, []float64{4, 5})), 0.01} }
	iv := Pool([]Trial{at(0.2), at(0.6)}).Ratio(5)
	assert.True(t, 1 < iv.Low && iv.Low < 2 && 2 < iv.Median && iv.Median < 4 && 3.5 < iv.High && iv.High < 6, "%v", iv)

	thin := Trial{Solve(data(1, []float64{1e300}, []float64{0})), 0.01}
	thick := Trial{Solve(data(1, []float64{1e-300}, []float64{6})), 0.01}
	assert.Nil(t, Pool([]Trial{thin, thick}))
}
