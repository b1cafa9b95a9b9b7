package typed

import (
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFactsOfAPowder(t *testing.T) {
	var p model.Powder
	for _, a := range []string{
		"name=Moor mud", "lot = 7 ", "family=swelling clay", "solid density=2,4 g/mL", "keep_from_metal=yes",
		"fizzes=no", "allergens=nuts, gluten,nuts", "archived=true", "notes=from the cellar",
	} {
		require.NoError(t, Assignment(&p, a), a)
	}
	fizzes := false
	assert.Equal(t, model.Powder{
		Name: "Moor mud", Lot: "7", Family: model.SwellingClay, SolidDensity: 2.4, KeepFromMetal: true, Fizzes: &fizzes,
		Allergens: []string{"nuts", "gluten"}, Archived: true, Notes: "from the cellar",
	}, p)
	for _, a := range []string{
		"family=I don't know", "solid_density=unknown", "fizzes=not tested", "allergens=",
		"archived=no",
	} {
		require.NoError(t, Assignment(&p, a), a)
	}
	assert.Equal(t, model.Powder{Name: "Moor mud", Lot: "7", KeepFromMetal: true, Notes: "from the cellar"}, p)
}

// What is shown can be typed again.
func TestFactsAreReadAsTheyAreShown(t *testing.T) {
	yes := true
	for _, p := range []model.Powder{
		{Name: "A"},
		{
			Name: "B", Lot: "1", Family: model.Flour, SolidDensity: 1.5, KeepFromMetal: true, Fizzes: &yes,
			Allergens: []string{"a", "b"}, Archived: true, Notes: "n",
		},
	} {
		var back model.Powder
		for _, f := range Facts() {
			require.NoError(t, f.Set(&back, f.Show(p)), f.Key)
		}
		assert.Equal(t, p, back)
	}
}

func TestSlipsInFactsChangeNothing(t *testing.T) {
	for text, said := range map[string]string{
		"name= ":           "name: a powder needs one",
		"family=sand":      `family: there is no family "sand": use one of plain-clay`,
		"fizzes=maybe":     `fizzes: "maybe" is neither yes nor no: type it like yes or no`,
		"solid_density=99": "is not a density above 0 and up to 25 g/mL",
		"colour=red":       `a powder has no "colour": use one of name, lot, family`,
		"lot":              `"lot" says no value: type it like lot=2026-04`,
	} {
		p := model.Powder{Name: "A", Family: model.Flour, SolidDensity: 1}
		assert.ErrorContains(t, Assignment(&p, text), said)
		assert.Equal(t, model.Powder{Name: "A", Family: model.Flour, SolidDensity: 1}, p)
	}
}
