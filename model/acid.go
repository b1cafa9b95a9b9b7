package model

// Fizzing says how a powder behaves under a drop of vinegar, as far as is known.
type Fizzing int

// What may be known.
const (
	DoesNotFizz Fizzing = iota
	FizzUntested
	Fizzes
)

// Fizzing returns what the maker saw; where nothing was tried, a name that says
// carbonate fizzes, and a mineral, a clay or a powder of no known family is
// untested. Flours, starches and plants hold no carbonate to speak of.
func (p Powder) Fizzing() Fizzing {
	switch {
	case p.Fizzes != nil && *p.Fizzes:
		return Fizzes
	case p.Fizzes != nil:
		return DoesNotFizz
	case IsCarbonate(p.Name):
		return Fizzes
	}
	switch p.Kind() {
	case PlainClay, SwellingClay, Mineral, Other:
		return FizzUntested
	default:
		return DoesNotFizz
	}
}

// IsCarbonate reports whether a name says that it gives off gas with an acid.
func IsCarbonate(name string) bool {
	return hasWord(name, "carbonate", "bicarbonate", "baking soda", "washing soda", "soda", "chalk", "whiting",
		"limestone",
		"marble", "dolomite", "calcite", "eggshell", "oyster shell", "coral") &&
		!hasWord(name, "caustic soda", "soda water")
}

// acidKinds are the names of what is sour enough to make a carbonate foam, about pH 4.5
// and below (chosen): names with one of the words are acids, unless they have one of the
// others too.
var acidKinds = []struct{ words, unless []string }{
	{
		[]string{"acid", "aha", "bha"},
		[]string{
			"hyaluronic", "stearic", "palmitic", "myristic", "lauric", "oleic", "linoleic", "linolenic", "fatty",
			"amino",
			"nucleic", "folic", "boric", "silicic", "alginic",
		},
	},
	{[]string{
		"vinegar", "citric", "ascorbic", "lactic", "malic", "tartaric", "acetic", "glycolic", "salicylic",
		"cream of tartar", "vitamin c", "yoghurt", "yogurt", "buttermilk", "kefir", "kombucha", "cider", "verjuice",
		"sour",
	}, nil},
	{
		[]string{"hibiscus", "amla", "acerola", "baobab", "tamarind"},
		[]string{"oil", "butter", "hydrosol", "hydrolate", "leaf"},
	},
	{
		[]string{
			"lemon", "lime", "citrus", "orange", "grapefruit", "pineapple", "apple", "grape", "wine", "cranberry",
			"currant", "gooseberry", "raspberry", "strawberry", "kiwi", "pomegranate", "passion fruit", "rhubarb",
			"sea buckthorn", "rosehip", "rose hip",
		},
		[]string{
			"oil", "hydrosol", "hydrolate", "flower", "blossom", "balm", "grass", "verbena", "clay", "water", "ochre",
			"seed", "leaf", "leaves", "wax", "mint", "fragrance", "chalk", "pigment", "oxide", "mica", "kaolin",
			"slaked",
			"hydrated", "burnt",
		},
	},
}

// IsAcid reports whether a name says that it is sour enough to make a
// carbonate fizz.
func IsAcid(name string) bool {
	for _, k := range acidKinds {
		if hasWord(name, k.words...) && !hasWord(name, k.unless...) {
			return true
		}
	}
	return false
}
