package ticks_test

import (
	"math"
	"strconv"
	"testing"

	"daub.example/daub/model/ticks"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func texts(all []ticks.Tick) (out []string) {
	for _, t := range all {
		out = append(out, t.Text)
	}
	return out
}

func TestLinear(t *testing.T) {
	atMostTen := func(hi float64) func(float64, string) bool {
		return func(step float64, _ string) bool { return hi/step <= 10 }
	}
	for hi, want := range map[float64][]string{
		1.29:   {"0", "0.2", "0.4", "0.6", "0.8", "1.0", "1.2"},
		7:      {"0", "1", "2", "3", "4", "5", "6", "7"},
		50:     {"0", "5", "10", "15", "20", "25", "30", "35", "40", "45", "50"},
		0.0037: {"0", "0.0005", "0.0010", "0.0015", "0.0020", "0.0025", "0.0030", "0.0035"},
	} {
		assert.Equal(t, want, texts(ticks.Linear(0, hi, atMostTen(hi))))
	}
	assert.Equal(t, []string{"0.30", "0.35", "0.40"},
		texts(ticks.Linear(0.28, 0.43, func(step float64, widest string) bool {
			assert.Contains(t, widest, "0.4")
			return step >= 0.05-1e-12
		})))
}

func TestLog(t *testing.T) {
	assert.Equal(t, []string{"0.1", "1", "0.05", "0.5", "0.2", "2"}, texts(ticks.Log(0.04, 3)))
	assert.Empty(t, ticks.Log(0.21, 0.4))
}

// Every label says one over its value, and none is nearer to another than
// there is room.
func TestInverse(t *testing.T) {
	for _, ends := range [][2]float64{{0.01, 1.3}, {0.3, 0.5}, {1e-4, 1e4}, {2, 3}, {0.018, 0.02}} {
		var taken []float64
		apart := math.Log(ends[1]/ends[0]) / 12
		all := ticks.Inverse(ends[0], ends[1], func(at ticks.Tick) bool {
			for _, other := range taken {
				if math.Abs(math.Log(at.At/other)) < apart {
					return false
				}
			}
			taken = append(taken, at.At)
			return true
		})
		assert.Len(t, all, len(taken))
		assert.GreaterOrEqual(t, len(all), 4, "%v", ends)
		for _, tick := range all {
			v, err := strconv.ParseFloat(tick.Text, 64)
			require.NoError(t, err)
			assert.InEpsilon(t, 1/tick.At, v, 1e-9)
			assert.True(t, tick.At >= ends[0]*(1-1e-9) && tick.At <= ends[1]*(1+1e-9))
		}
	}
}
