package model

import (
	"slices"
	"strings"
	"unicode"
)

// BeeProducts is not on the Regulation's list, but people react to it.
const BeeProducts = "bee products (pollen)"

// allergenKind is a line of the table of allergens: names with one of the words hold it.
// The phrases contain such a word and mean something else, so they are taken out of the
// name first.
type allergenKind struct {
	allergen       string
	words, phrases []string
}

// allergenKinds lists the fourteen allergens of Regulation (EU) No 1169/2011, Annex II, and
// bee products, with words for what holds them (the words: chosen).
var allergenKinds = []allergenKind{
	{"cereals with gluten", []string{
		"wheat", "wheatgerm", "spelt", "rye", "barley", "oat", "oatmeal", "kamut", "khorasan", "durum", "emmer",
		"einkorn", "farro", "semolina", "triticale", "malt", "beer", "triticum", "hordeum", "secale", "avena",
	}, []string{"rice semolina", "corn semolina", "maize semolina"}},
	{
		"crustaceans",
		[]string{"crustacean", "shrimp", "prawn", "crab", "lobster", "krill", "chitosan"},
		[]string{"crab apple"},
	},
	{"egg", []string{"egg", "albumen"}, []string{"egg plant"}},
	{"fish", []string{"fish", "cod liver", "salmon", "isinglass"}, nil},
	{"peanuts", []string{"peanut", "groundnut", "arachis"}, nil},
	{"soya", []string{"soy", "soya", "soybean", "glycine soja", "glycine max"}, nil},
	{"milk", dairy, slices.Concat(plantDairy(), []string{
		"milk thistle", "milk of magnesia", "cream of tartar", "butter bean", "bean curd",
	})},
	{"nuts", []string{
		"almond", "hazelnut", "walnut", "cashew", "pecan", "brazil nut", "pistachio", "macadamia", "nut",
		"prunus amygdalus", "prunus dulcis", "corylus", "juglans",
	}, nil},
	{"celery", []string{"celery", "celeriac"}, nil},
	{"mustard", []string{"mustard"}, nil},
	{"sesame", []string{"sesame", "tahini", "sesamum"}, nil},
	{"sulphites", []string{
		"sulphite", "sulfite", "bisulphite", "bisulfite", "metabisulphite", "metabisulfite", "wine",
	}, []string{"wine vinegar"}},
	{"lupin", []string{"lupin", "lupine", "lupinus"}, nil},
	{"molluscs", []string{"mollusc", "oyster", "mussel", "clam", "snail", "squid"}, []string{"oyster mushroom"}},
	{BeeProducts, []string{"honey", "propolis", "royal jelly", "bee pollen"}, nil},
}

// dairy lists the words for milk and what is made of it.
var dairy = []string{
	"milk", "buttermilk", "butter", "yoghurt", "yogurt", "kefir", "cream", "cheese", "whey", "casein", "lactose",
	"curd", "quark", "ghee",
}

// plantDairy lists the milks, creams and butters made of plants: "oat milk".
func plantDairy() (phrases []string) {
	for _, plant := range []string{
		"oat", "almond", "soy", "soya", "coconut", "rice", "hazelnut", "walnut", "cashew", "peanut", "nut", "hemp",
		"pea", "shea", "cocoa", "cacao", "mango", "kokum", "avocado",
	} {
		for _, made := range []string{"milk", "cream", "yoghurt", "yogurt", "kefir", "butter", "cheese"} {
			phrases = append(phrases, plant+" "+made)
		}
	}
	return phrases
}

// AllergensByName lists the allergens found in a name, in the order of the table. nil means
// only that the name tells none.
func AllergensByName(name string) (list []string) {
	for _, k := range allergenKinds {
		if hasWord(name, k.words...) && hasWord(leftOut(name, k.phrases), k.words...) {
			list = append(list, k.allergen)
		}
	}
	return list
}

// leftOut takes the phrases out of a name. Words on both sides of a comma or another sign
// are no phrase: "oat, milk" has both.
func leftOut(name string, phrases []string) string {
	parts := strings.FieldsFunc(strings.ReplaceAll(strings.ToLower(name), " - ", ","), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsSpace(r) && r != '-'
	})
	for i, part := range parts {
		part = " " + strings.Join(strings.Fields(strings.ReplaceAll(part, "-", " ")), " ") + " "
		for _, phrase := range phrases {
			part = strings.ReplaceAll(part, " "+phrase+" ", " , ")
			part = strings.ReplaceAll(part, " "+phrase+"s ", " , ")
		}
		parts[i] = part
	}
	return strings.Join(parts, ",")
}

// HasHoney reports whether a powder is, or holds, something from bees, by its name or by
// what the maker recorded.
func (p Powder) HasHoney() bool {
	return !p.clay() && HoneyByName(p.Name) || slices.ContainsFunc(p.Allergens, HoneyByName)
}

// HoneyByName reports whether a text names honey or something else from bees.
func HoneyByName(text string) bool {
	return text == BeeProducts || slices.Contains(AllergensByName(text), BeeProducts)
}

// UsualAllergens lists the allergens that a family may hold where the maker has not said.
func (f Family) UsualAllergens() []string {
	switch f {
	case Flour:
		return []string{"grain, nut or pulse (which one is not recorded)"}
	case Starch:
		return []string{"traces of grain or pulse (not recorded)"}
	case Botanical:
		return []string{"plant allergens (not recorded)"}
	default:
		return nil
	}
}

// AllergensText lists a powder's allergens on one line, and says when they are only known
// by its name or family.
func (p Powder) AllergensText() string {
	list, recorded := p.AllergensKnown()
	switch {
	case recorded && len(list) > 0:
		return strings.Join(list, ", ")
	case recorded:
		return "none"
	case len(list) > 0:
		return strings.Join(list, ", ") + ", guessed from its name or family"
	default:
		return "none known by its name or family"
	}
}

// AllergensKnown lists the allergens that the maker recorded. With recorded false they are
// those in the name, else the family's usual ones; clays are named after colours and hold
// none.
func (p Powder) AllergensKnown() (list []string, recorded bool) {
	if p.Allergens != nil {
		return p.Allergens, true
	}
	if list = AllergensByName(p.Name); len(list) > 0 && !p.clay() {
		return list, false
	}
	return p.Kind().UsualAllergens(), false
}

// clay reports whether the powder is a clay, whose name may be that of a colour.
func (p Powder) clay() bool { return slices.Contains([]Family{PlainClay, SwellingClay}, p.Kind()) }
