package model

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"daub.example/daub/model/fit"
)

// trialAnswer is an answer at ln R with the standard uncertainty s of the looks.
func trialAnswer(lnRatio, s float64, m fit.Masses) Answer {
	iv := fit.Interval{Median: math.Exp(lnRatio), Low: math.Exp(lnRatio - normal95*s), High: math.Exp(lnRatio + normal95*s)}
	_, budget := m.Widen(iv)
	return Answer{Result: fit.Result{Reach: fit.Bracketed, Ratio: &iv}, Masses: m, massesPerTsp: m, tspG: 2, Budget: &budget}
}

// METHOD 6 against its reference cases (SciPy), 0.0005 in ln R.
func TestCombineAgainstReference(t *testing.T) {
	text, err := os.ReadFile("../testdata/repeat_cases.json")
	require.NoError(t, err)
	var reference struct {
		Cases []struct {
			Name     string
			LnRatio  []float64 `json:"ln_ratio"`
			S        []float64 `json:"standard_uncertainty"`
			Low      float64
			Median   float64
			High     float64
			Between  float64 `json:"between_trials_median"`
			NextLow  float64 `json:"next_low"`
			NextHigh float64 `json:"next_high"`
		}
	}
	require.NoError(t, json.Unmarshal(text, &reference))
	require.NotEmpty(t, reference.Cases)
	for _, c := range reference.Cases {
		t.Run(c.Name, func(t *testing.T) {
			var answers []Answer
			for i, y := range c.LnRatio {
				answers = append(answers, trialAnswer(y, c.S[i], fit.Masses{}))
			}
			r := combine(Basis{}, 5, answers)
			const tolerance = 0.0005
			assert.Equal(t, len(answers), r.Trials)
			assert.InDelta(t, c.Median, math.Log(r.Powder.Median), tolerance)
			assert.InDelta(t, c.Low, math.Log(r.Powder.Low), tolerance)
			assert.InDelta(t, c.High, math.Log(r.Powder.High), tolerance)
			assert.InDelta(t, c.NextLow, math.Log(r.Next.Low), tolerance)
			assert.InDelta(t, c.NextHigh, math.Log(r.Next.High), tolerance)
			assert.InDelta(t, c.Between, r.BetweenTrials, tolerance)
			assert.InEpsilon(t, 2*r.Powder.High, r.PerTsp.High, 1e-9)
		})
	}
}

// What a level spoon weighs is common to all trials: it is added once, at the
// end, averaged, however many trials there are. A trial's own terms are not.
func TestSpoonWeightIsAddedOnce(t *testing.T) {
	y := []float64{0.62, 0.70, 0.66}
	with := func(m ...fit.Masses) PowderRatio {
		var answers []Answer
		for i := range y {
			answers = append(answers, trialAnswer(y[i], 0.06, m[i]))
		}
		return combine(Basis{}, 5, answers)
	}
	none := with(fit.Masses{}, fit.Masses{}, fit.Masses{})
	spoon := with(fit.Masses{SpoonWeight: 0.06}, fit.Masses{SpoonWeight: 0.12}, fit.Masses{SpoonWeight: 0.12})
	below := math.Log(none.Powder.Median / none.Powder.Low)
	assert.InDelta(t, math.Hypot(below, 0.10), math.Log(spoon.Powder.Median/spoon.Powder.Low), 1e-9)
	next := math.Log(none.Next.High / none.Next.Median)
	assert.InDelta(t, math.Hypot(next, 0.10), math.Log(spoon.Next.High/spoon.Next.Median), 1e-9)
	assert.InDelta(t, none.Powder.Median, spoon.Powder.Median, 1e-9)

	half := math.Log(spoon.Powder.High/spoon.Powder.Low) / 2
	assert.InDelta(t, 0.10*0.10/(half*half), spoon.Budget.SpoonWeight, 1e-6)

	// 1.96·√(0.06² + (0.0784/1.96)²) = 1.96·√(0.06² + 0.04²): as looks of
	// 0.0721110 each.
	own := with(fit.Masses{Liquid: 0.0784}, fit.Masses{Liquid: 0.0784}, fit.Masses{Liquid: 0.0784})
	same := combine(Basis{}, 5, []Answer{
		trialAnswer(y[0], 0.0721110255, fit.Masses{}), trialAnswer(y[1], 0.0721110255, fit.Masses{}), trialAnswer(y[2], 0.0721110255, fit.Masses{}),
	})
	assert.InDelta(t, same.Powder.High, own.Powder.High, 1e-8)
	// Σ: looks 0.06² to liquid 0.04².
	assert.InDelta(t, 36.0/16, own.Budget.Looks/own.Budget.Liquid, 1e-6)
}

// A poor trial hardly counts in the mean, so its terms hardly count in the
// budget.
func TestBudgetWeighsTrialsAsTheMeanDoes(t *testing.T) {
	good := trialAnswer(0.65, 0.02, fit.Masses{})
	poor := trialAnswer(0.65, 0.01, fit.Masses{Liquid: 1.96 * 0.4})
	b := combine(Basis{}, 5, []Answer{good, poor}).Budget
	assert.Greater(t, b.Looks, 50*b.Liquid)
}

func TestTightestBound(t *testing.T) {
	inf := math.Inf(1)
	bounds := func(bs ...fit.Bound) []Answer {
		var answers []Answer
		for _, b := range bs {
			answers = append(answers, Answer{Result: fit.Result{Bound: &b}})
		}
		return answers
	}
	tests := map[string]struct {
		answers []Answer
		want    fit.Bound
	}{
		"two from above":         {bounds(fit.Bound{High: 5}, fit.Bound{High: 3}, fit.Bound{High: 4}), fit.Bound{High: 3}},
		"above and below":        {bounds(fit.Bound{High: 5}, fit.Bound{Low: 1, High: inf}), fit.Bound{Low: 1, High: 5}},
		"at odds: the later one": {bounds(fit.Bound{High: 2}, fit.Bound{Low: 3, High: inf}), fit.Bound{Low: 3, High: inf}},
	}
	for name, tt := range tests {
		r := combine(Basis{}, 5, tt.answers)
		assert.Equal(t, fit.NotReached, r.Reach, name)
		assert.Nil(t, r.Powder, name)
		require.NotNil(t, r.Bound, name)
		assert.Equal(t, tt.want, *r.Bound, name)
		assert.Equal(t, len(tt.answers), r.Trials, name)
	}
	r := combine(Basis{}, 5, []Answer{{}})
	assert.Nil(t, r.Bound)
	assert.Zero(t, r.Trials)
}
