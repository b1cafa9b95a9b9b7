package model_test

import (
	"math"
	"testing"
	"time"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
)

// Numbers beyond any bench are refused at both ends: divided by the smallest
// float there is, a weight would come out as infinite.
func TestEndsOfNumbers(t *testing.T) {
	for _, v := range []float64{5e-324, 1e-300, -5e-324, math.MaxFloat64, math.Inf(1), math.NaN()} {
		p := model.Profile{
			Powder:      model.Powder{Name: "Rye flour", SolidDensity: v},
			LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{v}, ResolutionG: v, VolumeML: v}},
			Trials: []model.Trial{{
				Started: time.Date(2026, 5, 3, 10, 0, 0, 0, time.UTC), LiquidG: v, LiquidDensity: v, Tolerance: v,
				Steps: []model.Step{{Add: model.AddPowder, Grams: v}},
			}},
		}
		var paths []string
		for _, problem := range p.Validate(nil) {
			paths = append(paths, problem.Path)
		}
		for _, path := range []string{
			"powder.solid_density", "level_spoon[0].grams", "level_spoon[0].resolution_g", "level_spoon[0].volume_ml",
			"trial[0].liquid_g", "trial[0].liquid_density", "trial[0].tolerance", "trial[0].step[0].grams",
		} {
			assert.Contains(t, paths, path, "%v", v)
		}
		assert.NotEmpty(t, model.OwnSpoons{{Name: "cap", VolumeML: v}}.Validate(), "%v", v)
	}
}
