package typed_test

import (
	"testing"

	"daub.example/daub/model/typed"
	"github.com/stretchr/testify/assert"
)

func TestSize(t *testing.T) {
	for text, want := range map[string][2]float64{
		"160x100mm": {160, 100}, "160x100": {160, 100}, "16 x 10 cm": {160, 100}, "12.5cm x 80mm": {125, 80},
		"16,5×10CM": {165, 100}, "6x4in": {152.4, 101.6},
	} {
		w, h, err := typed.Size(text, "120x80mm")
		assert.NoError(t, err, text)
		assert.InDelta(t, want[0], w, 1e-9, text)
		assert.InDelta(t, want[1], h, 1e-9, text)
	}
	for _, text := range []string{"", "160", "160mm", "axb", "160x100pt", "x100", "-1x5"} {
		_, _, err := typed.Size(text, "120x80mm")
		assert.ErrorContains(t, err, "like 120x80mm", text)
	}
}
