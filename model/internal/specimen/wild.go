package specimen

import (
	"fmt"
	"math"
	"time"

	"daub.example/daub/model"
	"pgregory.net/rapid"
)

// AnyNumber draws a number of any size or sign, NaN and infinities among them. It and the
// generators below draw whatever a file or a slip of the hand could hold.
func AnyNumber(t *rapid.T) float64 {
	return rapid.OneOf(
		rapid.SampledFrom([]float64{0, 0, math.NaN(), math.Inf(1), math.Inf(-1), -1, 1e308, 5e-324, 0.5, 1}),
		rapid.Float64Range(0, 7), rapid.Float64(),
	).Draw(t, "number")
}

// anyGrams draws mostly what a bench holds, sometimes AnyNumber.
func anyGrams(t *rapid.T) float64 {
	if rapid.IntRange(0, 9).Draw(t, "wild") == 0 {
		return AnyNumber(t)
	}
	return rapid.Float64Range(0.01, 20).Draw(t, "grams")
}

// anyLevel draws mostly a whole level, sometimes AnyNumber.
func anyLevel(t *rapid.T) float64 {
	if rapid.IntRange(0, 9).Draw(t, "wild") == 0 {
		return AnyNumber(t)
	}
	return float64(rapid.IntRange(0, 7).Draw(t, "level"))
}

// anyOf draws one of the words, "" or an unknown word.
func anyOf[T ~string](t *rapid.T, words ...T) T {
	return rapid.SampledFrom(append(words, "", "x")).Draw(t, "word")
}

// anySpoon draws a spoon, known or not.
func anySpoon(t *rapid.T) string {
	return anyOf(t, "1 tsp", "1/2 tsp", "1/4 tsp", "1/32 tsp", "own")
}

// maybe gives the value or nil.
func maybe[T any](t *rapid.T, v T) *T {
	if rapid.Bool().Draw(t, "given") {
		return &v
	}
	return nil
}

// some draws up to most of a thing.
func some[T any](t *rapid.T, most int, one func(*rapid.T) T) []T {
	var out []T
	for range rapid.IntRange(0, most).Draw(t, "some") {
		out = append(out, one(t))
	}
	return out
}

// anyStep draws a step, possible or not.
func anyStep(t *rapid.T) model.Step {
	return model.Step{
		Add: anyOf(t, model.AddPowder, model.AddPowder, model.AddPowder, model.AddLiquid, model.Removed,
			model.AddNone),
		Spoon: anySpoon(t), Count: rapid.IntRange(-1, 4).Draw(t, "count"), Grams: anyGrams(t),
		Looked: rapid.Bool().Draw(t, "looked"), Level: anyLevel(t),
		RestedS: maybe(t, rapid.IntRange(-1, 500).Draw(t, "rested")),
		LeftOut: rapid.IntRange(0, 4).Draw(t, "left out") == 0, PotG: anyPot(t),
		Marks:        some(t, 2, func(t *rapid.T) string { return anyOf(t, model.Marks()...) }),
		LevelStirred: maybe(t, anyLevel(t)),
	}
}

// anyTrial draws a trial, possible or not.
func anyTrial(t *rapid.T) model.Trial {
	return model.Trial{
		Started: time.Unix(rapid.Int64Range(0, 1e9).Draw(t, "started"), 0).UTC(),
		State:   anyOf(t, model.Open, model.Done, model.Done), SetAside: anyOf(t, "", "", "spilled"),
		Liquid: anyOf(t, "water", "Water", "honey"), LiquidG: anyGrams(t), LiquidBy: anyOf(t, model.ByWeight,
			model.BySpoon),
		LiquidSpoon: anySpoon(t), LiquidCount: rapid.IntRange(-1, 4).Draw(t, "liquid count"),
		LiquidDensity: rapid.SampledFrom([]float64{0, 1, math.NaN(), -1}).Draw(t, "density"), TemperatureC: maybe(t,
			AnyNumber(t)),
		ResolutionG: rapid.SampledFrom([]float64{0, 0.01, 1, -1, math.NaN()}).Draw(t, "resolution"),
		SpoonSet:    anyOf(t, model.SpoonSets()...), Spoons: some(t, 3, anySpoon), Aim: anyLevel(t),
		LevelStep: rapid.SampledFrom([]float64{0, 1, 0.5, 0.3, math.NaN()}).Draw(t,
			"level step"), Tolerance: AnyNumber(t),
		RestS: maybe(t, rapid.IntRange(-1, 500).Draw(t, "rest")), Steps: some(t, 6, anyStep),
		PotG:    anyPot(t),
		Covered: rapid.Bool().Draw(t, "covered"), Later: some(t, 3, anyLater), Reserved: map[string]any{"later": 1},
	}
}

// anyLater draws a later look, possible or not.
func anyLater(t *rapid.T) model.LaterLook {
	return model.LaterLook{
		At:    time.Unix(rapid.Int64Range(0, 1e9).Draw(t, "later"), 0).UTC(),
		Level: maybe(t, anyLevel(t)), Stirred: maybe(t, anyLevel(t)),
		Marks: some(t, 2, func(t *rapid.T) string { return anyOf(t, model.Marks()...) }),
	}
}

// anyPacking draws a packing, possible or not.
func anyPacking(t *rapid.T) model.Packing {
	return model.Packing{Spoon: anySpoon(t), LooseG: some(t, 3, anyGrams), TappedG: some(t, 3, anyGrams)}
}

// anyPot draws a reading of the pot, often none.
func anyPot(t *rapid.T) float64 {
	if rapid.Bool().Draw(t, "no pot") {
		return 0
	}
	return anyGrams(t)
}

// anyLevelSpoon draws level-spoon weighings, possible or not.
func anyLevelSpoon(t *rapid.T) model.LevelSpoon {
	return model.LevelSpoon{
		Spoon: anySpoon(t), Grams: some(t, 4, anyGrams), SpoonsEach: rapid.IntRange(-1, 10).Draw(t, "each"),
		ResolutionG: AnyNumber(t), VolumeML: rapid.SampledFrom([]float64{0, 5, math.NaN(), -1, math.Inf(1)}).Draw(t,
			"volume"),
	}
}

// AnyProfile draws a profile, possible or not.
func AnyProfile(t *rapid.T) model.Profile {
	return model.Profile{
		Powder: model.Powder{
			Name: anyOf(t, "Chalk"), Lot: anyOf(t, "7"), Family: anyOf(t,
				model.Families()...), SolidDensity: AnyNumber(t),
			KeepFromMetal: rapid.Bool().Draw(t, "metal"), Archived: rapid.Bool().Draw(t, "archived"),
			Allergens: some(t, 2, func(t *rapid.T) string { return anyOf(t, "gluten") }),
			Packings:  some(t, 2, anyPacking),
		},
		LevelSpoons: some(t, 3, anyLevelSpoon), Trials: some(t, 3, anyTrial), Reserved: map[string]any{"packing": 1},
	}
}

func AnyOwnSpoons(t *rapid.T) model.OwnSpoons {
	return some(t, 3, func(t *rapid.T) model.Spoon {
		return model.Spoon{Name: anySpoon(t), VolumeML: AnyNumber(t), UncertaintyML: AnyNumber(t)}
	})
}

// Printed writes everything in a profile, with pointers followed, to compare it.
func Printed(p model.Profile) string {
	text := fmt.Sprintf("%+v", p)
	for _, trial := range p.Trials {
		text += fmt.Sprint(deref(trial.TemperatureC), deref(trial.RestS))
		for _, s := range trial.Steps {
			text += fmt.Sprint(deref(s.RestedS), deref(s.LevelStirred))
		}
		for _, l := range trial.Later {
			text += fmt.Sprint(deref(l.Level), deref(l.Stirred))
		}
	}
	return text
}

// deref gives what a pointer holds, nil for nil.
func deref[T any](p *T) any {
	if p == nil {
		return nil
	}
	return *p
}
