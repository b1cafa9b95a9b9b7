package care

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// Allergens lists what to name on the label of a paste, one sentence each. Powders count
// with what is recorded or told by name and family, the liquid and the extras by their
// names; essential oils and fragrances have a caution of their own. No sentence does not
// mean no allergen.
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
	return append(texts, scented(extras)...)
}

// AskFirst gives Allergens as questions before anyone touches the paste: what to ask, and
// who must not have it; none without any.
func AskFirst(liquid string, extras []model.Extra, powders ...model.Powder) []string {
	all := holders(liquid, extras, powders)
	var texts []string
	if len(all) > 0 {
		texts = append(texts, askOf(all))
	}
	if honey(liquid, extras, powders) {
		texts = append(texts, "Nothing for a child under one year: honey may hold spores that harm infants.")
	}
	return append(texts, scented(extras)...)
}

// askOf names the allergens to ask about before anyone touches the paste.
func askOf(all []holder) string {
	text, guessed := "Ask who is allergic before anyone touches it.", 0
	for _, h := range all {
		text += fmt.Sprintf(" %s: %s.", model.Capital(h.name), strings.Join(h.list, ", "))
		if !h.recorded {
			guessed++
		}
	}
	switch guessed {
	case 0:
		return text
	case len(all):
		return text + " This is guessed from names and kinds: ask the supplier."
	default:
		return text + " Part of this is guessed from names and kinds: ask the supplier."
	}
}

// scented cautions against essential oils and fragrances among the extras; none without
// any.
func scented(extras []model.Extra) []string {
	var names []string
	for _, e := range extras {
		if e.IsEssentialOil() && !slices.Contains(names, e.Name) {
			names = append(names, e.Name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []string{fmt.Sprintf("Essential oil or fragrance (%s): it can irritate skin and set off allergies. Look up "+
		"the highest share for skin, and its allergens.", strings.Join(names, ", "))}
}

// holder is an ingredient with its allergens.
type holder struct {
	name     string
	list     []string
	recorded bool // by the maker; else told by its name or family
}

// holders lists the powders, liquid and extras with allergens, each once.
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

// honey reports whether honey, or something else from bees, is in the paste. It looks at
// names too, for a maker may have recorded no allergen for it.
func honey(liquid string, extras []model.Extra, powders []model.Powder) bool {
	return model.HoneyByName(liquid) || slices.ContainsFunc(powders, model.Powder.HasHoney) ||
		slices.ContainsFunc(extras, func(e model.Extra) bool { return model.HoneyByName(e.Name) })
}
