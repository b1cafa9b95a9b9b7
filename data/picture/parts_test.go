package picture

import (
	"cmp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWestern(t *testing.T) {
	assert.Equal(t, "B\xe4r \x80 \x85 \x97 \xb7 \x8aS\x9c", western("Bär € … — · ŠSœ"))
	assert.Equal(t, "Cernozem l? ", western("Černozem ł泥 "))
	assert.Len(t, []rune(beyondLatin1), 32)
}

// Ticks are enough to read by and leave each other room.
func TestTicksHaveRoom(t *testing.T) {
	const length = 380
	for _, high := range []float64{1e-4, 0.037, 0.9, 1, 1.29, 7, 50, 1e4} {
		for _, a := range []axis{{0, high, false}, {high / 1.4, high, true}, {high / 60, high, true}, {high / 1e6, high, true}} {
			var ends [][2]float64
			for _, tick := range a.ticks(length) {
				assert.True(t, tick.Value >= a.low*(1-1e-9) && tick.Value <= a.high*(1+1e-9))
				if tick.Label == "" {
					continue
				}
				v, err := strconv.ParseFloat(tick.Label, 64)
				require.NoError(t, err)
				assert.InDelta(t, tick.Value, v, 1e-9*high, "the label says the value")
				half := lettering(textSize, false).Width(tick.Label).Points() / 2
				ends = append(ends, [2]float64{length*a.place(tick.Value) - half, length*a.place(tick.Value) + half})
			}
			assert.True(t, len(ends) >= 3 && len(ends) <= 16, "%d on %v", len(ends), a)
			slices.SortFunc(ends, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
			for i := 1; i < len(ends); i++ {
				assert.Greater(t, ends[i][0], ends[i-1][1]+2, "%v", a)
			}
		}
	}
}
