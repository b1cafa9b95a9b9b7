package model_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
)

// The fourteen of Regulation (EU) No 1169/2011, Annex II, by the names that a maker
// writes; what only sounds like one of them is none.
func TestAllergensByName(t *testing.T) {
	for name, want := range map[string]string{
		"almond oil":            "nuts",
		"Sweet almond oil":      "nuts",
		"walnut shells, ground": "nuts",
		"almond milk":           "nuts",
		"sesame oil":            "sesame",
		"soy milk":              "soya",
		"soya lecithin":         "soya",
		"wheat germ oil":        "cereals with gluten",
		"wheatgerm oil":         "cereals with gluten",
		"oat milk":              "cereals with gluten",
		"Barley flour":          "cereals with gluten",
		"Rye":                   "cereals with gluten",
		"Spelt, fine":           "cereals with gluten",
		"beer":                  "cereals with gluten",
		"milk":                  "milk",
		"goat's milk":           "milk",
		"Greek yoghurt":         "milk",
		"cream":                 "milk",
		"whey powder":           "milk",
		"peanut oil":            "peanuts",
		"peanut butter":         "peanuts",
		"Lupin flour":           "lupin",
		"egg yolk":              "egg",
		"mustard powder":        "mustard",
		"celery juice":          "celery",
		"red wine":              "sulphites",
		"krill oil":             "crustaceans",
		"fish collagen":         "fish",
		"oyster shell":          "molluscs",
		"honey":                 "bee products (pollen)",
		"milk and honey":        "milk, bee products (pollen)",

		// A plant beside milk takes none of the milk away.
		"goat's milk and oat flakes": "cereals with gluten, milk",
		"cream with coconut":         "milk",
		"whole milk with almond":     "milk, nuts",
		"oat, milk":                  "cereals with gluten, milk",
		"oat/milk":                   "cereals with gluten, milk",
		"honey - oat - milk":         "cereals with gluten, milk, bee products (pollen)",
		"oat milk and cow's milk":    "cereals with gluten, milk",
		"pea starch and milk":        "milk",
		"shea butter and butter":     "milk",
		"cream of tartar, cream":     "milk",
		"butter":                     "milk",
		"cheese":                     "milk",
		"egg plant and egg":          "egg",
		"crab apple, crab":           "crustaceans",
		"rice semolina, semolina":    "cereals with gluten",
		"sulphite in vinegar":        "sulphites",
		"Oat-milk powder":            "cereals with gluten",

		"egg plant": "", "eggplant": "", "crab apple": "", "crab apples": "", "rice semolina": "",
		"coconut yoghurt": "", "oyster mushroom": "",

		"water": "", "coconut milk": "", "rice milk": "", "cocoa butter": "", "shea butter": "", "cream of tartar": "",
		"buckwheat": "", "eggshell": "", "witch hazel": "", "glycerine": "", "wine vinegar": "", "olive oil": "",
		"nutmeg": "", "milk thistle oil": "", "coconut cream": "",
	} {
		assert.Equal(t, want, strings.Join(model.AllergensByName(name), ", "), name)
	}
}

// The maker's record comes before the name, and the name before the family; a clay may be
// named after a colour.
func TestAllergensOfAPowder(t *testing.T) {
	of := func(p model.Powder) string {
		list, recorded := p.AllergensKnown()
		assert.Equal(t, p.Allergens != nil, recorded, p.Name)
		return strings.Join(list, ", ")
	}
	barley := model.Powder{Name: "Barley flour", Family: model.Flour}
	assert.Equal(t, "cereals with gluten", of(barley))
	barley.Allergens = []string{"gluten"}
	assert.Equal(t, "gluten", of(barley))
	assert.Equal(t, "cereals with gluten", of(model.Powder{Name: "Wheat starch", Family: model.Starch}))
	assert.Contains(t, of(model.Powder{Name: "Hill flour", Family: model.Flour}), "not recorded")
	assert.Empty(t, of(model.Powder{Name: "Almond clay", Family: model.PlainClay}))
	assert.Equal(t, "molluscs", of(model.Powder{Name: "Oyster shell", Family: model.Mineral}))
}
