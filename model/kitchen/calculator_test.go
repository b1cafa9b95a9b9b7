package kitchen_test

import (
	"math"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/repeats"
)

// side makes a powder with a ratio at level 5 in water, read after 2 min. spread is the
// factor from the ratio to either end of its 95 % interval.
func side(name string, family model.Family, ratio, spread float64) kitchen.Side {
	iv := fit.Interval{Median: ratio, Low: ratio / spread, High: ratio * spread}
	next := iv
	powder := &iv
	return kitchen.Side{
		Powder: model.Powder{Name: name, Family: family},
		Ratio: repeats.Ratio{
			Basis: model.Basis{Liquid: "water", RestS: 120}, Level: 5, Reach: fit.Bracketed, Trials: 1,
			Powder: powder, Next: &next, Slope: 6, Curve: line{powder, 5, 6},
		},
		LiquidGML: 1, LevelStep: 1, LastTrial: specimen.Day(3),
	}
}

// line is a curve straight in ln R: so many levels an e-fold, with R at one level.
type line struct {
	at           *fit.Interval
	level, slope float64
}

func (l line) Level(powderPerLiquid float64) fit.Interval {
	return exactly(l.level + l.slope*math.Log(powderPerLiquid*l.at.Median))
}

func (l line) Ratio(level float64) fit.Interval {
	return exactly(l.at.Median * math.Exp((l.level-level)/l.slope))
}

func exactly(v float64) fit.Interval { return fit.Interval{Median: v, Low: v, High: v} }

// withSpoon gives the side a level teaspoon of so many grams, weighed once.
func withSpoon(s kitchen.Side, grams float64) kitchen.Side {
	p := model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{grams}}}}
	s.SpoonWeights, s.TspG = p.SpoonWeights(model.US, nil), grams
	per := fit.Interval{
		Median: s.Ratio.Powder.Median * grams, Low: s.Ratio.Powder.Low * grams,
		High: s.Ratio.Powder.High * grams,
	}
	s.Ratio.PerTsp = &per
	return s
}

// single makes the paste of one powder.
func single(s kitchen.Side) kitchen.PastePowder { return kitchen.PastePowder{Side: s, Fraction: 1} }

// lightClay and heavyClay are the two clays of the bench, in 5 g of water each; common
// practice, no published source. A level teaspoon weighs 1.42 and 4.78 g. rest nil leaves
// the family's own.
func lightClay(rest *int) model.Profile {
	half := func(n int, level float64) model.Step { return specimen.Spoons("1/2 tsp", n, level) }
	return model.Profile{
		Powder:      model.Powder{Name: "Light clay", Family: model.PlainClay},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{1.42}}},
		Trials: []model.Trial{{
			Started: specimen.Day(1), State: model.Done, LiquidG: 5, RestS: rest,
			Steps: []model.Step{
				half(1, 0), half(1, 0), half(1, 0), half(1, 0), // 2 tsp
				half(2, 1), half(1, 2), half(1, 3), half(1, 4), half(1, 4), half(1, 5), // 5.5 tsp
			},
		}},
	}
}

func heavyClay(rest *int) model.Profile {
	return model.Profile{
		Powder:      model.Powder{Name: "Heavy clay", Family: model.SwellingClay},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{4.78}}},
		Trials: []model.Trial{{
			Started: specimen.Day(2), State: model.Done, LiquidG: 5, RestS: rest,
			Steps: []model.Step{specimen.Spoons("1/8 tsp", 1, 1), {
				Add: model.AddPowder, Spoon: "1/8 tsp",
				Looked: true, Level: 6, Marks: []string{"gels"},
			}},
		}},
	}
}

// inOil gives the profile with all its trials made in oil.
func inOil(p model.Profile) model.Profile {
	p = p.Clone()
	for i := range p.Trials {
		p.Trials[i].Liquid = "vegetable oil"
	}
	return p
}

// saved is the time at which the tests' recipes were saved.
var saved = time.Date(2026, 5, 4, 9, 0, 0, 0, time.UTC)

// finite reports whether no number of the interval is infinite or NaN.
func finite(iv fit.Interval) bool {
	sum := iv.Median + iv.Low + iv.High
	return !math.IsNaN(sum) && !math.IsInf(sum, 0)
}
