// Package specimen makes powders and trials for the tests of model and its packages. Only
// tests import it.
package specimen

import (
	"math"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/require"
)

// Day gives a moment n days into the tests' month.
func Day(n int) time.Time { return time.Date(2026, 5, n, 10, 0, 0, 0, time.UTC) }

// Ptr makes a pointer to a value.
func Ptr[T any](v T) *T { return &v }

// Spoons adds n level spoons of powder and looks.
func Spoons(spoon string, n int, level float64) model.Step {
	return model.Step{Add: model.AddPowder, Spoon: spoon, Count: n, Looked: true, Level: level}
}

// Weighed adds grams of powder and looks.
func Weighed(grams, level float64) model.Step {
	return model.Step{Add: model.AddPowder, Grams: grams, Looked: true, Level: level}
}

// Oats is a flour whose level teaspoon was weighed three times: 2.31 g.
func Oats() model.Profile {
	return model.Profile{
		Powder:      model.Powder{Name: "Fine oat flour", Lot: "2026-04", Family: model.Flour},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.31, 2.27, 2.35}, ResolutionG: 0.01}},
	}
}

// Line makes a finished trial in 20 g of water, every addition weighed. Its looks are those
// of a paste that reaches level 5 at the given ratio and gains six levels with each e-fold
// of powder.
func Line(start time.Time, ratio float64, levels ...float64) model.Trial {
	t := model.Trial{Started: start, State: model.Done, LiquidG: 20}
	held := 0.0
	for _, level := range levels {
		powder := 20 / ratio * math.Exp((level-5)/6)
		t.Steps = append(t.Steps, Weighed(powder-held, level))
		held = powder
	}
	return t
}

// Read calculates a trial that has to be sound.
func Read(t *testing.T, p model.Profile, trial model.Trial) bench.Reading {
	t.Helper()
	r, err := bench.Read(p, trial, nil)
	require.NoError(t, err)
	return r
}

// Full makes a trial that tests level 5 from both sides.
func Full(n int, ratio float64) model.Trial { return Line(Day(n), ratio, 3, 4, 5, 6) }

// WithTrials gives Oats these trials.
func WithTrials(ts ...model.Trial) model.Profile {
	p := Oats()
	p.Trials = ts
	return p
}

// Sound makes a profile with one of everything in it, and nothing wrong.
func Sound() model.Profile {
	return model.Profile{
		Powder: model.Powder{Name: "Fine oat flour", Lot: "2026-04", Family: model.Flour, SolidDensity: 1.5},
		LevelSpoons: []model.LevelSpoon{
			{Spoon: "1 tsp", Grams: []float64{2.31, 2.27, 2.35}, SpoonsEach: 1, ResolutionG: 0.01, VolumeML: 4.92892},
			{Spoon: "cone", Grams: []float64{1.2}},
		},
		Trials: []model.Trial{
			{
				Started: Day(3), State: model.Done, Liquid: "water", LiquidG: 20, LiquidBy: model.ByWeight,
				LiquidDensity: 0.998, TemperatureC: Ptr(21.0), ResolutionG: 0.01, SpoonSet: model.US,
				Spoons: []string{
					"1 tsp", "1/2 tsp",
					"blue scoop",
				}, Aim: 4.5, LevelStep: 0.5, Tolerance: 0.12, RestS: Ptr(120),
				Steps: []model.Step{
					{
						At: Day(3), Add: model.AddPowder, Spoon: "1/2 tsp", Count: 3, Looked: true, Level: 0.5,
						RestedS: Ptr(121), Marks: []string{"sinks"},
					},
					{Add: model.AddPowder, Spoon: "blue scoop"},
					{Add: model.AddPowder, Spoon: "cone", Looked: true, Level: 3},
					{Add: model.AddLiquid, Spoon: "1 tsp"},
					{Add: model.AddLiquid, Grams: 1.5},
					{Add: model.Removed, Grams: 3},
					{Add: model.AddNone, Looked: true, Level: 7},
				},
			},
			{Started: Day(4), LiquidG: 0, LiquidBy: model.BySpoon},
		},
	}
}

// Repeated makes a powder with trials at the given ratios, each bracketed.
func Repeated(ratios ...float64) model.Profile {
	p := Scooped(5, model.ByWeight)
	p.Trials = nil
	for i, ratio := range ratios {
		t := model.Trial{Started: time.Date(2026, 3, 1+i, 9, 0, 0, 0, time.UTC), State: model.Done, LiquidG: 10}
		for _, off := range []float64{-2, -1, 0, 1} {
			x := math.Exp(off/6) / ratio
			grams := x*10 - sumOf(t.Steps)
			t.Steps = append(t.Steps, model.Step{Add: model.AddPowder, Grams: grams, Looked: true, Level: 5 + off})
		}
		p.Trials = append(p.Trials, t)
	}
	return p
}

// Scooped makes a finished trial of 1/2 tsp at a time into 10 g of water, with a look at
// every step. The level teaspoon was weighed so many times.
func Scooped(weighings int, liquidBy model.By, levels ...float64) model.Profile {
	t := model.Trial{
		Started: time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC), State: model.Done, LiquidG: 10, LiquidBy: liquidBy,
		Spoons: []string{"1/2 tsp", "1/4 tsp"},
	}
	for _, l := range levels {
		t.Steps = append(t.Steps, model.Step{Add: model.AddPowder, Spoon: "1/2 tsp", Count: 1, Looked: true, Level: l})
	}
	l := model.LevelSpoon{Spoon: "1 tsp", ResolutionG: 0.01}
	for i := range weighings {
		l.Grams = append(l.Grams, 2.4+0.1*float64(i%3))
	}
	return model.Profile{
		Powder: model.Powder{Name: "x", Family: model.Flour}, LevelSpoons: []model.LevelSpoon{l},
		Trials: []model.Trial{t},
	}
}

// sumOf adds up the grams of steps.
func sumOf(steps []model.Step) (grams float64) {
	for _, s := range steps {
		grams += s.Grams
	}
	return grams
}
