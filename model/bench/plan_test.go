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
	// 1/4 tsp is 1 g; the middle of 1.5 to 60 is sqrt(90) = 9.49; six times 9.49
	// times 1 g is 56.9 g, rounded up to 60 g.
	assert.Equal(t, 60.0, bench.PlannedLiquidG(p, trial, nil))
	trial.Spoons = []string{"1/32 tsp"} // an eighth would do: the usual 20 g
	assert.Equal(t, 20.0, bench.PlannedLiquidG(p, trial, nil))
	// Nothing weighed: 0.5 g/mL times 1.23 mL is 0.616 g; six times sqrt(60) =
	// 7.75 times that is 28.6 g, rounded up to 30 g.
	trial.Spoons = []string{"1/4 tsp"}
	assert.Equal(t, 30.0, bench.PlannedLiquidG(model.Profile{}, trial, nil))
}

func TestAgain(t *testing.T) {
	rest := 90
	done := model.Trial{
		Started: time.Date(2026, 1, 2, 3, 4, 5, 0,
			time.UTC), State: model.Done, SetAside: "spilt", Liquid: "milk", LiquidG: 15,
		Spoons: []string{"1/2 tsp"}, Aim: 4, RestS: &rest, Steps: []model.Step{{Add: model.AddNone}},
		Reserved: map[string]any{"later": true},
	}
	assert.Equal(t, model.Trial{
		State: model.Open, Liquid: "milk", LiquidG: 15, Spoons: []string{"1/2 tsp"}, Aim: 4, RestS: &rest,
	}, done.Again())
	assert.Len(t, done.Steps, 1, "the trial itself stays")
}
