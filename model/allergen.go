package model

import (
	"slices"
	"strings"
)

// BeeProducts are no allergen of the list in the Regulation, but people react to them.
const BeeProducts = "bee products (pollen)"

// allergenKind is a line of the table of allergens: names with one of the words hold
// it, unless they have one of the others too.
type allergenKind struct {
	allergen      string
	words, unless []string
}

// allergenKinds are the fourteen of Regulation (EU) No 1169/2011, Annex II, and bee
// products, with the words by which makers call what holds them (the words: chosen).
var allergenKinds = []allergenKind{
	{"cereals with gluten", []string{
		"wheat", "wheatgerm", "spelt", "rye", "barley", "oat", "oatmeal", "kamut", "khorasan", "durum", "emmer",
		"einkorn", "farro", "semolina", "triticale", "malt", "beer", "triticum", "hordeum", "secale", "avena",
	}, nil},
	{"crustaceans", []string{"crustacean", "shrimp", "prawn", "crab", "lobster", "krill", "chitosan"}, nil},
	{"egg", []string{"egg", "albumen"}, nil},
	{"fish", []string{"fish", "cod liver", "salmon", "isinglass"}, nil},
	{"peanuts", []string{"peanut", "groundnut", "arachis"}, nil},
	{"soya", []string{"soy", "soya", "soybean", "glycine soja", "glycine max"}, nil},
	{
		"milk",
		[]string{
			"milk", "buttermilk", "yoghurt", "yogurt", "kefir", "cream", "whey", "casein", "lactose", "curd", "quark",
			"ghee",
		},
		[]string{
			"oat", "almond", "soy", "soya", "coconut", "rice", "hazelnut", "cashew", "hemp", "pea", "milk thistle",
			"milk of magnesia", "cream of tartar",
		},
	},
	{"nuts", []string{
		"almond", "hazelnut", "walnut", "cashew", "pecan", "brazil nut", "pistachio", "macadamia", "nut",
		"prunus amygdalus", "prunus dulcis", "corylus", "juglans",
	}, nil},
	{"celery", []string{"celery", "celeriac"}, nil},
	{"mustard", []string{"mustard"}, nil},
	{"sesame", []string{"sesame", "tahini", "sesamum"}, nil},
	{"sulphites", []string{
		"sulphite", "sulfite", "bisulphite", "bisulfite", "metabisulphite", "metabisulfite", "wine",
	}, []string{"vinegar"}},
	{"lupin", []string{"lupin", "lupine", "lupinus"}, nil},
	{"molluscs", []string{"mollusc", "oyster", "mussel", "clam", "snail", "squid"}, nil},
	{BeeProducts, []string{"honey", "propolis", "royal jelly", "bee pollen"}, nil},
}

// AllergensByName lists the allergens that a name tells, in the order of the table; nil
// for a name that tells none. That a name tells none says nothing of what is in it.
func AllergensByName(name string) (list []string) {
	for _, k := range allergenKinds {
		if hasWord(name, k.words...) && !hasWord(name, k.unless...) {
			list = append(list, k.allergen)
		}
	}
	return list
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

// AllergensText words them on one line, with what they are known by.
func (p Powder) AllergensText() string {
	list, recorded := p.AllergensKnown()
	switch {
	case recorded && len(list) > 0:
		return strings.Join(list, ", ")
	case recorded:
		return "none"
	case len(list) > 0:
		return strings.Join(list, ", ") + ", by its name or family"
	default:
		return "none known by its name or family"
	}
}

// AllergensKnown are those that the maker recorded, or, with recorded false, those that
// the name tells, else the family's usual ones. Clays are named after colours and hold none.
func (p Powder) AllergensKnown() (list []string, recorded bool) {
	if p.Allergens != nil {
		return p.Allergens, true
	}
	clay := slices.Contains([]Family{PlainClay, SwellingClay}, p.Kind())
	if list = AllergensByName(p.Name); len(list) > 0 && !clay {
		return list, false
	}
	return p.Kind().UsualAllergens(), false
}
