package repeats

import (
	"math"
	"testing"

	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// trialAnswer is an answer at ln R with the standard uncertainty s of the looks.
func trialAnswer(lnRatio, s float64, m fit.Masses) bench.Answer {
	iv := fit.Interval{
		Median: math.Exp(lnRatio), Low: math.Exp(lnRatio - fit.Normal95*s),
		High: math.Exp(lnRatio + fit.Normal95*s),
	}
	_, budget := m.Widen(iv)
	return bench.Answer{
		Result: fit.Result{Reach: fit.Bracketed, Ratio: &iv}, Masses: m, MassesPerTsp: m, TspG: 2,
		Budget: &budget,
	}
}

// poolOf is a pool of trials that looked at the same pastes, with these masses.
func poolOf(masses ...fit.Masses) *trialPool {
	p := &trialPool{tspG: 2}
	looks := fit.Solve(fit.Data{LevelStep: 1, Looks: []fit.Look{
		{PowderPerLiquid: 0.3, Level: 3}, {PowderPerLiquid: 0.4, Level: 4}, {PowderPerLiquid: 0.5, Level: 6},
	}})
	for _, m := range masses {
		p.spoon += m.SpoonWeight
		m.SpoonWeight = 0
		p.trials = append(p.trials, fit.Trial{Looks: looks, Masses: m.Half() / fit.Normal95})
	}
	p.powder = fit.Pool(p.trials)
	return p
}

// What a level spoon weighs is common to all trials: it is added once, at the
// end, averaged, however many trials there are.
func TestSpoonWeightIsAddedOnce(t *testing.T) {
	with := func(spoon ...float64) Ratio {
		var masses []fit.Masses
		var answers []bench.Answer
		for i, y := range []float64{0.62, 0.70, 0.66} {
			masses = append(masses, fit.Masses{SpoonWeight: spoon[i]})
			answers = append(answers, trialAnswer(y, 0.06, masses[i]))
		}
		return poolOf(masses...).at(5, answers)
	}
	none, spoon := with(0, 0, 0), with(0.06, 0.12, 0.12)
	below := math.Log(none.Powder.Median / none.Powder.Low)
	assert.InDelta(t, math.Hypot(below, 0.10), math.Log(spoon.Powder.Median/spoon.Powder.Low), 1e-9)
	next := math.Log(none.Next.High / none.Next.Median)
	assert.InDelta(t, math.Hypot(next, 0.10), math.Log(spoon.Next.High/spoon.Next.Median), 1e-9)
	assert.InDelta(t, none.Powder.Median, spoon.Powder.Median, 1e-9)
}

// A trial's own terms stand in the budget in the proportions of their squares:
// looks 0.06² to liquid 0.04², 0.0784/1.96 = 0.04.
func TestBudgetOfAPowder(t *testing.T) {
	m := fit.Masses{Liquid: 0.0784}
	own := poolOf(m, m, m).at(5, []bench.Answer{
		trialAnswer(0.62, 0.06, m), trialAnswer(0.70, 0.06, m),
		trialAnswer(0.66, 0.06, m),
	})
	assert.InDelta(t, 36.0/16, own.Budget.Looks/own.Budget.Liquid, 1e-6)
}

// A poor trial hardly counts in the mean, so its terms hardly count in the
// budget.
func TestBudgetWeighsTrialsAsTheMeanDoes(t *testing.T) {
	m := fit.Masses{Liquid: 1.96 * 0.4}
	good, poor := trialAnswer(0.65, 0.02, fit.Masses{}), trialAnswer(0.65, 0.01, m)
	b := poolOf(fit.Masses{}, m).at(5, []bench.Answer{good, poor}).Budget
	assert.Greater(t, b.Looks, 50*b.Liquid)
}

// A limit that no curve sets leaves the budget to the looks.
func TestBudgetWithoutAnUpperLimit(t *testing.T) {
	a := trialAnswer(0.65, 0.1, fit.Masses{Liquid: 0.1})
	a.Ratio.High = math.Inf(1)
	iv, budget := a.Masses.Widen(*a.Ratio)
	assert.True(t, math.IsInf(iv.High, 1))
	assert.Less(t, iv.Low, a.Ratio.Low)
	assert.Equal(t, fit.Budget{Looks: 1}, budget)
	assert.Equal(t, &fit.Budget{Looks: 1}, powderBudget(nil, nil, 0.1, math.Inf(1)))
}

func TestTightestBound(t *testing.T) {
	inf := math.Inf(1)
	bounds := func(bs ...fit.Bound) []bench.Answer {
		var answers []bench.Answer
		for _, b := range bs {
			answers = append(answers, bench.Answer{Result: fit.Result{Bound: &b}})
		}
		return answers
	}
	tests := map[string]struct {
		answers []bench.Answer
		want    fit.Bound
	}{
		"two from above": {
			bounds(fit.Bound{High: 5}, fit.Bound{High: 3}, fit.Bound{High: 4}),
			fit.Bound{High: 3},
		},
		"above and below": {
			bounds(fit.Bound{High: 5}, fit.Bound{Low: 1, High: inf}),
			fit.Bound{Low: 1, High: 5},
		},
		"at odds: the later one": {
			bounds(fit.Bound{High: 2}, fit.Bound{Low: 3, High: inf}),
			fit.Bound{Low: 3, High: inf},
		},
	}
	for name, tt := range tests {
		r := (&trialPool{}).at(5, tt.answers)
		assert.Equal(t, fit.NotReached, r.Reach, name)
		assert.Nil(t, r.Powder, name)
		require.NotNil(t, r.Bound, name)
		assert.Equal(t, tt.want, *r.Bound, name)
		assert.Equal(t, len(tt.answers), r.Trials, name)
	}
	r := (&trialPool{}).at(5, []bench.Answer{{}})
	assert.Nil(t, r.Bound)
	assert.Zero(t, r.Trials)
}
