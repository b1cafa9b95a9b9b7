package kitchen_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
)

func TestRewordedSaysWhatElseChanged(t *testing.T) {
	before := model.Recipe{
		Level: 5, TotalG: 100, Liquid: "water", Powders: []model.RecipePowder{{Name: "Oat"}},
		Extras: []model.Extra{{Name: "honey", Share: 0.04, Counts: model.CountsLiquid}},
	}
	assert.Empty(t, kitchen.Reworded(before, before))
	after := before
	after.Level, after.TotalG, after.Portions, after.PortionG, after.JarML = 4, 150, 2, 75, 60
	after.AllowanceShare, after.Notes, after.Made, after.UseBy = 0.05, "for dry\nskin", "2026-05-04", "2026-05-05"
	after.Order = []string{"water"}
	after.Extras = []model.Extra{{Name: "honey", Share: 0.04, Counts: model.CountsOil, Notes: "warmed"}}
	assert.Equal(t, []string{
		"level: 4 dollop (before: 5 spread)", "portions: 2 of 75 g (before: none)", "jar: 60 mL (before: none)",
		"for the bowl: 5 % (before: none)", "honey counts as: oil (before: liquid)",
		`note to honey: "warmed" (before: none)`, "weighed in turn: water, Oat, honey (before: Oat, water, honey)",
		"made: 2026-05-04 (before: none)", "use by: 2026-05-05 (before: none)",
		`notes: "for dry skin" (before: none)`,
	}, kitchen.Reworded(before, after))
}

func TestFreeName(t *testing.T) {
	taken := []string{"Face mask", "face  mask 2", "Mask 20", "5"}
	for name, want := range map[string]string{
		"Face mask": "Face mask 3", "Mask 20": "Mask 21", "Hair mask": "Hair mask", "FACE MASK": "FACE MASK 3",
		"5": "5 2",
	} {
		assert.Equal(t, want, kitchen.FreeName(name, taken))
	}
}

// The powder that comes in stands under the one it replaces, above the liquid.
func TestWhatComesInStandsByWhatItReplaces(t *testing.T) {
	before := model.Recipe{
		TotalG: 100, Liquid: "water", Powders: []model.RecipePowder{{Name: "Oat"}},
		Ratio:  fit.Interval{Median: 1.5, Low: 1.4, High: 1.6},
		Extras: []model.Extra{{Name: "honey", Share: 0.04, Counts: model.CountsLiquid}},
	}
	after := before
	after.Powders = []model.RecipePowder{{Name: "Rye"}}
	after.Extras = append([]model.Extra{{Name: "walnut oil", Share: 0.02, Counts: model.CountsOil}}, before.Extras...)
	var names []string
	for _, d := range kitchen.Differences(before, after) {
		names = append(names, d.What)
	}
	assert.Equal(t, []string{"Oat", "Rye", "water", "honey", "walnut oil", "total"}, names)
}
