package bench_test

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A dish serves as a reference as it was at its last look that counts, and the trial beside
// it keeps those facts.
func TestBesideKeepsItsDish(t *testing.T) {
	p := model.Profile{Powder: model.Powder{Name: "A"}, Trials: []model.Trial{{
		Started: time.Date(2026, 5, 3, 10, 0, 0, 0, time.UTC), State: model.Done, LiquidG: 20, Steps: []model.Step{
			{Add: model.AddPowder, Grams: 4, Looked: true, Level: 3},
			{Add: model.AddPowder, Grams: 1, Looked: true, Level: 5},
		},
	}}}
	r, err := bench.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	like, err := r.MatchTrial("a", 0)
	require.NoError(t, err)
	assert.Equal(t, 0.25, like.Match.PowderPerLiquid)
	assert.Equal(t, 5.0, like.Match.Level)
	assert.Equal(t, 2, like.Match.Step)
	assert.True(t, r.Stands(*like.Match))
	p.Trials[0].Steps[1].Grams = 2
	changed, err := bench.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	assert.False(t, changed.Stands(*like.Match), "the record was changed since")
}

// Beside a dish a stop gives the factor, and does not mention a level not seen yet.
func TestBesideStopsWithTheFactorAlone(t *testing.T) {
	p := model.Profile{Powder: model.Powder{Name: "A"}, Trials: []model.Trial{{
		Started: time.Date(2026, 5, 3, 10, 0, 0, 0, time.UTC), State: model.Done, LiquidG: 20, Steps: []model.Step{
			{Add: model.AddPowder, Grams: 4, Looked: true, Level: 3},
			{Add: model.AddPowder, Grams: 1, Looked: true, Level: 5},
		},
	}}}
	r, err := bench.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	trial, err := r.MatchTrial("a", 0)
	require.NoError(t, err)
	trial.Started, trial.LiquidG, trial.Tolerance = p.Trials[0].Started.Add(time.Hour), 20, 0.3
	trial.Steps = []model.Step{
		{Add: model.AddPowder, Grams: 4, Looked: true, Beside: model.Thinner},
		{Add: model.AddPowder, Grams: 1.5, Looked: true, Beside: model.Thicker},
		{Add: model.AddNone, Looked: true, Beside: model.Thicker},
	}
	r, err = bench.Read(model.Profile{Powder: model.Powder{Name: "B"}, Trials: []model.Trial{trial}}, trial, nil)
	require.NoError(t, err)
	a, ok := r.Advice()
	require.True(t, ok)
	require.Equal(t, bench.ActStop, a.Action, a.Text())
	assert.Regexp(t, `wanted\)$`, a.Text())
}
