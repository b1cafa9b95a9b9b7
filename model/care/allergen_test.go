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

// Essential oils are cautioned against wherever the extras are told, on a card before
// anything is weighed. What is guessed is said to be.
func TestEssentialOilsAreToldOf(t *testing.T) {
	const text = "Essential oil or fragrance (lavender oil, lemon oil): it can irritate skin and set off allergies. " +
		"Look up the highest share for skin, and its allergens."
	clay := model.Powder{Name: "Hill clay", Family: model.PlainClay}
	extras := []model.Extra{{Name: "lavender oil"}, {Name: "oat oil"}, {Name: "lemon oil"}}
	assert.Contains(t, care.OfPaste("water", extras, clay), text)
	assert.Equal(t, []string{
		"Ask who is allergic before anyone touches it. Oat oil: cereals with gluten. This is guessed from names and " +
			"kinds: ask the supplier.", text,
	}, care.AskFirst("water", extras, clay))
	known := model.Powder{Name: "Field flour", Family: model.Flour, Allergens: []string{"gluten"}}
	assert.Equal(t, []string{"Ask who is allergic before anyone touches it. Field flour: gluten."},
		care.AskFirst("water", nil, known))
	assert.Contains(t, care.AskFirst("water", extras, known)[0], "Part of this is guessed")
}

// Infants are kept from honey wherever it is named, whatever was recorded as an allergen.
func TestHoneyIsToldForInfants(t *testing.T) {
	const label = "Honey may hold spores that harm infants: nothing for a child under one year."
	const first = "Nothing for a child under one year: honey may hold spores that harm infants."
	powder := func(name string, allergens ...string) model.Powder {
		return model.Powder{Name: name, Family: model.Other, Allergens: allergens}
	}
	for name, p := range map[string]model.Powder{
		"recorded honey":  powder("Honey powder", "honey"),
		"recorded none":   {Name: "Honey powder", Family: model.Other, Allergens: []string{}},
		"not recorded":    powder("Honey powder"),
		"another name":    powder("Golden powder", "Honey"),
		"the usual words": powder("Golden powder", model.BeeProducts),
		"a clay with it":  {Name: "Hill clay", Family: model.PlainClay, Allergens: []string{"honey"}},
	} {
		assert.Contains(t, care.Allergens("water", nil, p), label, name)
		assert.Contains(t, care.AskFirst("water", nil, p), first, name)
	}
	plain := powder("Hill powder", "soya")
	assert.Contains(t, care.Allergens("honey", nil, plain), label)
	assert.Contains(t, care.AskFirst("water", []model.Extra{{Name: "clear honey"}}, plain), first)
	clay := model.Powder{Name: "Honey clay", Family: model.PlainClay}
	assert.NotContains(t, care.Allergens("water", nil, plain, clay), label)
	assert.NotContains(t, care.AskFirst("water", nil, plain, clay), first)
}
