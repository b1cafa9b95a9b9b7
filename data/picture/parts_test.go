package picture

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestWestern(t *testing.T) {
	assert.Equal(t, "B\xe4r \x80 \x85 \x97 \xb7 \x8aS\x9c", western("Bär € … — · ŠSœ"))
	assert.Equal(t, "Cernozem l? ", western("Černozem ł泥 "))
	assert.Len(t, []rune(beyondLatin1), 32)
}

func TestTicksAreRound(t *testing.T) {
	one, two := scene{series: make([]series, 1)}, scene{series: make([]series, 2)}
	for _, high := range []float64{1e-4, 0.037, 0.9, 1, 1.29, 7, 50, 1e4} {
		n := 0
		for _, tick := range one.ratioTicks(0, high) {
			assert.NotEmpty(t, tick.Label)
			n++
		}
		assert.True(t, n >= 4 && n <= 12, "%d up to %v", n, high)
		labels := 0
		for _, tick := range two.ratioTicks(high/1.4, high) {
			assert.True(t, tick.Value >= high/1.4*(1-1e-9) && tick.Value <= high*(1+1e-9))
			if tick.Label != "" {
				labels++
			}
		}
		assert.GreaterOrEqual(t, labels, 3, "%v", high)
	}
	assert.False(t, math.IsNaN(one.ratioTicks(0, 1)[0].Value))
}
