package care_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"github.com/stretchr/testify/assert"
)

// Powders, liquid and extras are each named with what they hold, the recorded without a
// question. Honey and infants: common advice of health offices.
func TestAllergensOfAPaste(t *testing.T) {
	powders := []model.Powder{
		{Name: "Hill clay", Family: model.PlainClay},
		{Name: "Barley flour", Family: model.Flour},
		{Name: "Field flour", Family: model.Flour, Allergens: []string{"gluten"}},
	}
	extras := []model.Extra{{Name: "almond oil"}, {Name: "honey"}, {Name: "glycerine"}}
	want := []string{
		"Allergens, Barley flour: cereals with gluten; ask the supplier.",
		"Allergens, Field flour: gluten.",
		"Allergens, oat milk: cereals with gluten; ask the supplier.",
		"Allergens, almond oil: nuts; ask the supplier.",
		"Allergens, honey: bee products (pollen); ask the supplier.",
		"Honey may hold spores that harm infants: nothing for a child under one year.",
	}
	assert.Equal(t, want, care.Allergens("oat milk", extras, powders...))
	assert.Subset(t, care.OfPaste("oat milk", extras, powders...), want)
	assert.Empty(t, care.Allergens("water", nil, powders[0]))
}
