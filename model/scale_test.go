package model_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
)

// The consistency scale, word for word.
func TestScale(t *testing.T) {
	words := []string{"watery", "slick", "pouring", "ribbon", "dollop", "spread", "stiff", "crumbly"}
	assert.Len(t, model.Scale(), len(words))
	for i, c := range model.Scale() {
		assert.Equal(t, float64(i), c.Level)
		assert.Equal(t, words[i], c.Word)
		assert.NotEmpty(t, c.Test)
	}
}

func TestLevelName(t *testing.T) {
	assert.Equal(t, "5 spread", model.LevelName(5))
	assert.Equal(t, "4.5 dollop/spread", model.LevelName(4.5))
	assert.Equal(t, "0 watery", model.LevelName(0))
	assert.Equal(t, "7 crumbly", model.LevelName(7))
	for _, v := range []float64{-1, 7.5, math.NaN(), math.Inf(1)} {
		assert.Equal(t, "?", model.LevelWord(v))
	}
}

func TestLevelsAskedFor(t *testing.T) {
	assert.Equal(t, []float64{1, 2, 3, 4, 5, 6}, model.TableLevels(5))
	assert.Equal(t, []float64{1, 2, 3, 4, 4.5, 5, 6}, model.TableLevels(4.5))
	assert.Equal(t, []float64{1, 2, 3, 4, 5, 6}, model.TableLevels(math.NaN()))
	assert.Equal(t, []float64{1, 1.5, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6}, model.CurveLevels())
}

func TestMarks(t *testing.T) {
	assert.Len(t, model.Marks(), 12)
	assert.Equal(t, "sinks", model.Marks()[0])
}
