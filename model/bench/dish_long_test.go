package bench_test

import (
	"runtime"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// longTrial has n powder steps by three sizes of spoon, on the scale and out
// of the dish again.
func longTrial(n int) model.Trial {
	t := model.Trial{LiquidG: 20}
	for i := range n {
		t.Steps = append(t.Steps,
			[]model.Step{
				specimen.Spoons("1 tsp", 1, 1), specimen.Spoons("1/2 tsp", 2, 1),
				specimen.Spoons("1/4 tsp", 1, 1), specimen.Weighed(0.5, 1),
				{Add: model.AddLiquid, Grams: 1},
			}[i%5])
	}
	return t
}

// A dish costs the same after the first step and after the thousandth.
func TestDishesTakeMemoryByTheStep(t *testing.T) {
	cost := func(n int) uint64 {
		trial, weights := longTrial(n), specimen.Oats().SpoonWeights("", nil)
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		dishes, err := bench.Dishes(trial, weights)
		runtime.ReadMemStats(&after)
		require.NoError(t, err)
		require.Len(t, dishes, n)
		return after.TotalAlloc - before.TotalAlloc
	}
	short, long := cost(500), cost(5000)
	assert.Less(t, long, 15*short, "ten times the steps, about ten times the memory")
	assert.Less(t, long, uint64(16<<20))
}
