package care

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// Allergens names what is to be named on the label of a paste: of its powders what is
// recorded, of the liquid and the extras what their names tell. That nothing is named
// says nothing of what is in it.
func Allergens(liquid string, extras []model.Extra, powders ...model.Powder) []string {
	var texts []string
	bees := false
	add := func(name string, list []string, then string) {
		text := fmt.Sprintf("Allergens, %s: %s%s", name, strings.Join(list, ", "), then)
		if len(list) > 0 && !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
		bees = bees || slices.Contains(list, model.BeeProducts)
	}
	const ask = "; ask the supplier."
	for _, p := range powders {
		if list, recorded := p.AllergensKnown(); recorded {
			add(p.Name, list, ".")
		} else {
			add(p.Name, list, ask)
		}
	}
	add(liquid, model.AllergensByName(liquid), ask)
	for _, e := range extras {
		add(e.Name, model.AllergensByName(e.Name), ask)
	}
	if bees {
		texts = append(texts, "Honey may hold spores that harm infants: nothing for a child under one year.")
	}
	return texts
}
