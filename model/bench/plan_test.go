package bench_test

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/assert"
)

func TestPlannedLiquid(t *testing.T) {
	p := model.Profile{
		Powder:      model.Powder{Name: "x", Family: model.Botanical},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{4.0}}},
	}
	trial := model.Trial{Spoons: []string{"1 tsp", "1/4 tsp"}}
	// 1/4 tsp is 1 g; the middle of 1.5 to 10 is sqrt(15) = 3.87; six times 3.87
	// times 1 g is 23.2 g, rounded up to 25 g.
	assert.Equal(t, 25.0, bench.PlannedLiquidG(p, trial, nil))
	trial.Spoons = []string{"1/8 tsp"} // half as much would do: the usual 20 g
	assert.Equal(t, 20.0, bench.PlannedLiquidG(p, trial, nil))
	assert.Equal(t, 20.0, bench.PlannedLiquidG(model.Profile{}, trial, nil), "no spoon has a weight yet")
}

func TestAgain(t *testing.T) {
	rest := 90
	done := model.Trial{
		Started: time.Date(2026, 1, 2, 3, 4, 5, 0, time.UTC), State: model.Done, SetAside: "spilt", Liquid: "milk", LiquidG: 15,
		Spoons: []string{"1/2 tsp"}, Aim: 4, RestS: &rest, Steps: []model.Step{{Add: model.AddNone}},
		Reserved: map[string]any{"later": true},
	}
	assert.Equal(t, model.Trial{
		State: model.Open, Liquid: "milk", LiquidG: 15, Spoons: []string{"1/2 tsp"}, Aim: 4, RestS: &rest,
	}, done.Again())
	assert.Len(t, done.Steps, 1, "the trial itself stays")
}
