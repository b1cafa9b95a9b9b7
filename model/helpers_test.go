package model_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"daub.example/daub/model"
)

// day is a moment n days into the tests' year.
func day(n int) time.Time { return time.Date(2026, 5, n, 10, 0, 0, 0, time.UTC) }

func ptr[T any](v T) *T { return &v }

// spoons adds n level spoons of powder and looks.
func spoons(spoon string, n int, level float64) model.Step {
	return model.Step{Add: model.AddPowder, Spoon: spoon, Count: n, Looked: true, Level: level}
}

// weighed adds grams of powder and looks.
func weighed(grams, level float64) model.Step {
	return model.Step{Add: model.AddPowder, Grams: grams, Looked: true, Level: level}
}

// oats is a flour whose level teaspoon was weighed three times: 2.31 g.
func oats() model.Profile {
	return model.Profile{
		Powder:      model.Powder{Name: "Fine oat flour", Lot: "2026-04", Family: model.Flour},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.31, 2.27, 2.35}, ResolutionG: 0.01}},
	}
}

// line is a done trial in 20 g of water, all of it weighed, whose looks are
// those of a paste that reaches level 5 at the given ratio and gains six levels
// with each e-fold of powder.
func line(start time.Time, ratio float64, levels ...float64) model.Trial {
	t := model.Trial{Started: start, State: model.Done, LiquidG: 20}
	held := 0.0
	for _, level := range levels {
		powder := 20 / ratio * math.Exp((level-5)/6)
		t.Steps = append(t.Steps, weighed(powder-held, level))
		held = powder
	}
	return t
}

// read reckons a trial that has to be sound.
func read(t *testing.T, p model.Profile, trial model.Trial) model.Reading {
	t.Helper()
	r, err := model.Read(p, trial, nil)
	require.NoError(t, err)
	return r
}
