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
	all := holders(liquid, extras, powders)
	for _, h := range all {
		then := "; ask the supplier."
		if h.recorded {
			then = "."
		}
		texts = append(texts, fmt.Sprintf("Allergens, %s: %s%s", h.name, strings.Join(h.list, ", "), then))
	}
	if honey(liquid, extras, powders) {
		texts = append(texts, "Honey may hold spores that harm infants: nothing for a child under one year.")
	}
	return texts
}

// AskFirst is Allergens as it is said before anyone touches the paste: what is to be asked
// and who must not have it; none without any.
func AskFirst(liquid string, extras []model.Extra, powders ...model.Powder) []string {
	all := holders(liquid, extras, powders)
	var texts []string
	if len(all) > 0 {
		texts = append(texts, askOf(all))
	}
	if honey(liquid, extras, powders) {
		texts = append(texts, "Nothing for a child under one year: honey may hold spores that harm infants.")
	}
	return texts
}

// askOf is what to ask of those who will touch what holds allergens.
func askOf(all []holder) string {
	text, byName := "Ask who is allergic before anyone touches it.", false
	for _, h := range all {
		text += fmt.Sprintf(" %s: %s.", model.Capital(h.name), strings.Join(h.list, ", "))
		byName = byName || !h.recorded
	}
	if byName {
		text += " By name or kind alone: ask the supplier what else is in them."
	}
	return text
}

// holder is what holds allergens.
type holder struct {
	name     string
	list     []string
	recorded bool // by the maker; else told by its name or family
}

// holders are the powders, liquid and extras with allergens, each once.
func holders(liquid string, extras []model.Extra, powders []model.Powder) (all []holder) {
	add := func(name string, list []string, recorded bool) {
		same := func(h holder) bool {
			return h.name == name && h.recorded == recorded && slices.Equal(h.list, list)
		}
		if len(list) > 0 && !slices.ContainsFunc(all, same) {
			all = append(all, holder{name, list, recorded})
		}
	}
	for _, p := range powders {
		list, recorded := p.AllergensKnown()
		add(p.Name, list, recorded)
	}
	add(liquid, model.AllergensByName(liquid), false)
	for _, e := range extras {
		add(e.Name, model.AllergensByName(e.Name), false)
	}
	return all
}

// honey reports whether honey, or something else from bees, is in it. What is recorded of
// a powder may leave it out, for it is no allergen to every maker.
func honey(liquid string, extras []model.Extra, powders []model.Powder) bool {
	return model.HoneyByName(liquid) || slices.ContainsFunc(powders, model.Powder.HasHoney) ||
		slices.ContainsFunc(extras, func(e model.Extra) bool { return model.HoneyByName(e.Name) })
}
