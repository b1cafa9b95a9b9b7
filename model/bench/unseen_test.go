package bench_test

import (
	"math"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A stop says whether the aim itself was seen, and how to bring back a dish that is too
// thick. The looks are those of a powder of 2 g water per g at level 5 and
// 6 levels per e-fold, read exactly.
func TestStopSaysWhatWasNotSeen(t *testing.T) {
	for _, c := range []struct {
		levels  []float64
		misread float64 // what step 2 was read as; 0 as it is
		says    string
	}{
		{[]float64{1, 2, 3, 4, 6, 4}, 0, "\\. 5 spread itself was not seen yet, one more look there would show it"},
		{[]float64{1, 2, 3, 4, 5, 4}, 0, `wanted\)`},
		// 20 g of water at level 7 hold 10·e^(2/6) = 13.96 g of powder, which takes
		// 27.9 g at level 5.
		{[]float64{1, 2, 3, 4, 5, 6, 7}, 0, "g water brings it back to 5 spread"},
		{[]float64{1, 2, 3, 4, 5, 6, 5, 4}, 6, "\\. Step 2 does not fit the others, was it misread\\?"},
	} {
		trial := model.Trial{
			Started: time.Date(2026, 6, 1, 9, 0, 0, 0, time.UTC), State: model.Open,
			LiquidG: 20, Aim: 5, Tolerance: 0.3,
		}
		in := 0.0
		for _, level := range c.levels {
			powder := 10 * math.Exp((level-5)/6)
			step := model.Step{Add: model.AddPowder, Grams: powder - in, Looked: true, Level: level}
			if powder < in { // the last look, thinned again
				step.Add, step.Grams = model.AddLiquid, 20*in/powder-20
			}
			in = powder
			if len(trial.Steps) == 1 && c.misread > 0 {
				step.Level = c.misread
			}
			trial.Steps = append(trial.Steps, step)
		}
		p := model.Profile{Powder: model.Powder{Name: "x"}, Trials: []model.Trial{trial}}
		r, err := bench.Read(p, trial, nil)
		require.NoError(t, err)
		a, ok := r.Advice()
		require.True(t, ok)
		require.Equal(t, bench.ActStop, a.Action, "%v: %s", c.levels, a.Text())
		assert.Regexp(t, c.says+"$", a.Text(), c.levels)
		r.Trial.State = model.Done
		a, _ = r.Advice()
		assert.NotContains(t, a.Text(), "brings it back", "a finished dish is gone")
	}
}

// A stop gives the half-width by the looks and with the masses, and a further addition at
// the target is given a reason.
func TestAdviceTellsLooksFromWeighing(t *testing.T) {
	trial := model.Trial{
		Started: time.Date(2026, 6, 1, 9, 0, 0, 0, time.UTC), State: model.Open,
		LiquidG: 20, Aim: 5, Tolerance: 0.3,
	}
	for i := range 6 {
		level := []float64{1, 3, 4, 4, 5, 5}[i]
		step := model.Step{Add: model.AddPowder, Spoon: "1 tsp", Count: 1, Looked: true, Level: level}
		trial.Steps = append(trial.Steps, step)
	}
	p := model.Profile{
		Powder:      model.Powder{Name: "x"},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{1.8, 2.2}}},
	}
	why := func(tolerance float64) string {
		trial.Tolerance = tolerance
		p.Trials = []model.Trial{trial}
		r, err := bench.Read(p, trial, nil)
		require.NoError(t, err)
		a, ok := r.Advice()
		require.True(t, ok)
		return a.Text()
	}
	assert.Regexp(t, `^the looks alone give ±\d+ % \(±50 % wanted\); with spoons and scale ±\d+ %`,
		why(0.5))
	assert.Contains(t, why(0.01), ". You are at the target: one more look makes the answer surer, or finish")
}
