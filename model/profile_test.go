package model_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// Whatever is changed in a profile, its clone stays as it was.
func TestCloneSharesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := specimen.AnyProfile(rt)
		clone := p.Clone()
		before := specimen.Printed(clone) // printed, because NaN is not equal to itself
		for i := range p.LevelSpoons {
			for j := range p.LevelSpoons[i].Grams {
				p.LevelSpoons[i].Grams[j] = -7
			}
			p.LevelSpoons[i].Spoon = "changed"
		}
		for i := range p.Trials {
			trial := &p.Trials[i]
			for j := range trial.Spoons {
				trial.Spoons[j] = "changed"
			}
			change(trial.TemperatureC)
			change(trial.RestS)
			for j := range trial.Steps {
				for k := range trial.Steps[j].Marks {
					trial.Steps[j].Marks[k] = "changed"
				}
				change(trial.Steps[j].RestedS)
				change(trial.Steps[j].LevelStirred)
				trial.Steps[j].Note = "changed"
			}
			for j := range trial.Later {
				change(trial.Later[j].Level)
				change(trial.Later[j].Stirred)
				for k := range trial.Later[j].Marks {
					trial.Later[j].Marks[k] = "changed"
				}
			}
			trial.Steps = append(trial.Steps, model.Step{})
			if trial.Reserved != nil {
				trial.Reserved["later"] = "changed"
			}
			trial.Liquid = "changed"
		}
		for _, one := range p.Powder.Packings {
			for j := range one.LooseG {
				one.LooseG[j] = -7
			}
			for j := range one.TappedG {
				one.TappedG[j] = -7
			}
		}
		p.Reserved["packing"] = "changed"
		p.Powder.Name = "changed"
		assert.Equal(rt, before, specimen.Printed(clone))
	})
	assert.Equal(t, specimen.Sound(), specimen.Sound().Clone())
	assert.Equal(t, model.Profile{}, model.Profile{}.Clone())
}

func change[T int | float64](p *T) {
	if p != nil {
		*p = -7
	}
}

// No data can make the model panic, and every sound trial can be calculated.
func TestNothingPanics(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p, own := specimen.AnyProfile(rt), specimen.AnyOwnSpoons(rt)
		problems := bench.Check(p, own)
		for _, problem := range append(problems, own.Validate()...) {
			assert.NotEmpty(rt, problem.PathWords())
			assert.NotEmpty(rt, problem.What)
			assert.NotEmpty(rt, problem.Fix)
			assert.NotEmpty(rt, problem.Error())
		}
		for _, trial := range p.Trials {
			r, err := bench.Read(p, trial, own)
			if len(problems) == 0 && trial.SetAside == "" {
				assert.NoError(rt, err)
			}
			for _, a := range r.Answers([]float64{trial.Aim, 4}) {
				assert.NotEmpty(rt, a.Sentence(trial.Liquid))
			}
			_ = r.FarOut()
			_ = r.Dish().MassesPerSpoon(r.SpoonWeights)
			_ = r.Dish().Masses(model.SpoonWeights{})
		}
		for _, b := range p.Bases() {
			for _, r := range repeats.Ratios(p, b, []float64{p.Aim(), 3}, own) {
				assert.NotEmpty(rt, r.Sentence())
			}
		}
		_ = p.LastTrial()
		_ = own.Redefines()
		_ = p.Powder.Title()
		_ = care.Words(p.Powder)
		assert.NotEmpty(rt, care.Of(p.Powder))
	})
}

func TestWithDefaults(t *testing.T) {
	got := model.Trial{}.WithDefaults(model.Starch)
	assert.Equal(t, model.Trial{
		State: model.Open, Liquid: "water", LiquidBy: model.ByWeight, ResolutionG: 0.01, SpoonSet: model.US,
		Aim: 5, LevelStep: 1, Tolerance: 0.12, RestS: specimen.Ptr(30),
	}, got)
	assert.Equal(t, got, got.WithDefaults(model.Botanical), "what is given stays")

	given := model.Trial{
		State: model.Done, Liquid: "milk", LiquidBy: model.BySpoon, ResolutionG: 0.1, SpoonSet: model.Own,
		Aim: 3.5, LevelStep: 0.5, Tolerance: 0.2, RestS: specimen.Ptr(0),
	}
	assert.Equal(t, given, given.WithDefaults(model.Flour), "a rest of 0 s was given")
	assert.Equal(t, 0, given.Rest(model.Flour))
}

// The default rests: mineral, plain clay, starch 30 s; flour, other 2 min;
// botanical, swelling clay 5 min; gum 30 min.
func TestRestByFamily(t *testing.T) {
	for family, rest := range map[model.Family]int{
		model.Mineral: 30, model.PlainClay: 30, model.Starch: 30, model.Flour: 120, model.Other: 120, "": 120,
		model.Botanical: 300, model.SwellingClay: 300, model.Gum: 1800,
	} {
		assert.Equal(t, rest, model.Trial{}.Rest(family), family)
	}
}

// METHOD 7 and 9: ranges for planning, and solid densities.
func TestFamilies(t *testing.T) {
	type facts struct{ low, high, density float64 }
	want := map[model.Family]facts{
		model.PlainClay: {0.4, 1.6, 2.6}, model.SwellingClay: {1, 10, 2.6}, model.Starch: {0.6, 1.2, 1.5},
		model.Flour: {1, 2.5, 1.5}, model.Mineral: {0.3, 3, 0}, model.Botanical: {1.5, 60, 1.4}, model.Gum: {
			15, 200,
			1.5,
		}, model.Other: {0.3, 200, 0},
	}
	assert.Len(t, model.Families(), len(want))
	for _, f := range model.Families() {
		low, high := f.FirstRange()
		density, ok := f.TypicalSolidDensity()
		assert.Equal(t, want[f], facts{low, high, density}, f)
		assert.Equal(t, density > 0, ok)
		assert.True(t, f.Known())
		assert.NotEmpty(t, f.Describe())
		assert.Contains(t, []float64{0.35, 0.5, 0.6, 0.8, 0.9}, f.SpoonDensity(), f)
	}
	assert.False(t, model.Family("sand").Known())
	assert.Equal(t, model.Other, model.Powder{}.Kind())
}

func TestStep(t *testing.T) {
	assert.Equal(t, 1, model.Step{}.Spoons())
	assert.Equal(t, 1, model.Step{Count: -3}.Spoons())
	assert.Equal(t, 4, model.Step{Count: 4}.Spoons())
	assert.False(t, model.Step{Spoon: "1 tsp"}.Weighed())
	assert.True(t, model.Step{Spoon: "1 tsp", Grams: 1}.Weighed())
}

func TestSeenNames(t *testing.T) {
	trial := model.Trial{Steps: []model.Step{
		{Marks: []string{"gels", "sinks"}},
		{},
		{Marks: []string{"sinks", "unheard of"}},
	}}
	seen := model.Profile{Trials: []model.Trial{trial}}.Seen()
	assert.Equal(t, []string{"sinks", "gels"}, model.SeenNames(seen))
	assert.Equal(t, "sinks, gels at first", model.SeenText(seen))
	assert.Equal(t, []string{}, model.SeenNames(nil))
}

func TestTitle(t *testing.T) {
	assert.Equal(t, "Chalk", model.Powder{Name: "Chalk"}.Title())
	assert.Equal(t, "Chalk · lot 7", model.Powder{Name: "Chalk", Lot: "7"}.Title())
}

func TestUsed(t *testing.T) {
	assert.True(t, model.Trial{State: model.Done}.Used())
	assert.False(t, model.Trial{State: model.Done, SetAside: "spilled"}.Used())
	assert.False(t, model.Trial{State: model.Open}.Used())
	assert.False(t, model.Trial{}.Used())
}
