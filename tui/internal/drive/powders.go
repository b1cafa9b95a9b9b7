package drive

import (
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/measure"
)

// Barley is an invented powder with a weighed level spoon. Its looks were made
// after spoons of 1/4 tsp each into 20 g of water.
func Barley(levels ...float64) model.Profile {
	rest := 120
	t := model.Trial{
		Started: time.Date(2026, 5, 30, 8, 0, 0, 0, time.UTC), State: model.Open, Liquid: "water", LiquidG: 20,
		Spoons: []string{"1 tsp", "1/2 tsp", "1/4 tsp"}, Aim: 5, LevelStep: 1, RestS: &rest,
	}
	for i, l := range levels {
		rested := 120
		t.Steps = append(t.Steps, model.Step{
			At: t.Started.Add(time.Duration(i+1) * 3 * time.Minute), Add: model.AddPowder, Spoon: "1/4 tsp", Count: 1,
			Looked: true, Level: l, RestedS: &rested,
		})
	}
	p := model.Profile{
		Powder:      model.Powder{Name: "Barley", Lot: "A7", Family: model.Flour},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.61, 2.55, 2.66}}},
	}
	if len(levels) > 0 {
		p.Trials = []model.Trial{t}
	}
	return p
}

// Finished is an invented powder with one trial that counts.
func Finished(name string, f model.Family, liquid string, levels ...float64) model.Profile {
	p := Barley(levels...)
	p.Powder = model.Powder{Name: name, Family: f}
	p.Trials[0].State, p.Trials[0].Liquid = model.Done, liquid
	return p
}

// SideBySide is a powder with one finished trial beside another's dish, which is named
// by file and name and stood at 5 spread. Each look follows 4 g into 20 g of water.
func SideBySide(name, reference string, looks ...model.Beside) model.Profile {
	p := Finished(name, model.Mineral, "water", make([]float64, len(looks))...)
	t := &p.Trials[0]
	t.Match = &model.Match{
		Powder: reference, Name: strings.ToUpper(reference[:1]) + reference[1:], Trial: 1, Step: 4,
		PowderPerLiquid: 0.3, Level: 5, Half: 0.02,
	}
	for i, look := range looks {
		t.Steps[i].Spoon, t.Steps[i].Count, t.Steps[i].Grams = "", 0, 4
		t.Steps[i].Beside, t.Steps[i].Level = look, 0
	}
	return p
}

// Pantry is a shelf for comparing and for the kitchen: an unfinished trial, three
// powders in water, one in oil, one never tried, and a recipe.
func Pantry() *Shelf {
	never := Barley()
	never.Powder = model.Powder{Name: "Never tried"}
	f := NewShelf(
		Barley(0, 1, 3),
		Finished("Oat", model.Flour, "water", 0, 1, 2, 3, 4, 5, 5, 6, 7),
		Finished("Rye", model.Flour, "water", 0, 1, 2, 3, 4, 5, 6, 7),
		Finished("Quick", model.Flour, "water", 2, 4, 6, 7),
		Finished("Oily", model.Flour, "vegetable oil", 0, 1, 2, 3, 4, 5, 6, 7),
		never,
	)
	r := f.Recipe("Oat mask", 1, 100)
	f.Recipes = []model.RecipeEntry{{Slug: "r0", Path: "recipes/r0.toml", Recipe: r}}
	return f
}

// Recipe makes a batch of one of the shelf's powders at level 5.
func (f *Shelf) Recipe(name string, item int, totalG float64) model.Recipe {
	paste, err := kitchen.PasteOf(f.Entries[item].Profile, 5, model.Choice{}, nil)
	if err != nil {
		panic(err)
	}
	b, err := paste.Batch(model.Order{TotalG: totalG})
	if err != nil {
		panic(err)
	}
	return kitchen.RecipeOf(name, b, []string{f.Entries[item].Slug}, f.Clock)
}

// Ochre is an invented clay with a trial measured by the spread of 15 mL. The
// levels stand beside the readings; 0 is none.
func Ochre(state model.State, levels ...float64) model.Profile {
	rest := 30
	t := model.Trial{
		Started: time.Date(2026, 5, 30, 8, 0, 0, 0, time.UTC), State: state, Liquid: "water", LiquidG: 20,
		Aim: 5, LevelStep: 1, RestS: &rest,
		Measured: &model.Measured{Kind: measure.Spread, VolumeML: 15, PasteDensity: 1.4, Wanted: 62},
	}
	for i, reading := range []float64{93, 80, 69, 58} {
		rested := 30
		s := model.Step{
			At: t.Started.Add(time.Duration(i+1) * 3 * time.Minute), Add: model.AddPowder, Grams: 2, Reading: reading,
			RestedS: &rested,
		}
		if i == 0 {
			s.Grams = 12.5
		}
		if i < len(levels) && levels[i] > 0 {
			s.Looked, s.Level = true, levels[i]
		}
		t.Steps = append(t.Steps, s)
	}
	return model.Profile{
		Powder: model.Powder{Name: "River ochre", Lot: "spring", Family: model.PlainClay},
		Trials: []model.Trial{t},
	}
}

// Soured is Ochre, finished, with an acid test.
func Soured(levels ...float64) model.Profile {
	p := Ochre(model.Done, levels...)
	level := 4.0
	p.Trials[0].Acid = &model.AcidTest{
		Acid: "citric acid 10 %", DropG: 0.05, By: model.ByStrip, PHStep: 0.5, PasteG: 30,
		Steps: []model.AcidStep{
			{PH: 8.5}, {Drops: 5, PH: 7}, {Drops: 5, PH: 5, Level: &level, Marks: []string{"lumps"}},
		},
	}
	return p
}
