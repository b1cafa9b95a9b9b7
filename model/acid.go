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

// IsAcid reports whether a name says that it is sour enough to make a
// carbonate fizz.
func IsAcid(name string) bool {
	if hasWord(name, "vinegar", "citric", "citric acid", "ascorbic", "lactic", "malic", "tartaric", "acetic",
		"glycolic",
		"salicylic", "cream of tartar", "vitamin c", "yoghurt", "yogurt", "buttermilk", "kombucha") {
		return true
	}
	fruit := hasWord(name, "lemon", "lime", "citrus", "orange", "grapefruit", "tamarind", "pineapple")
	return fruit && !hasWord(name, "oil", "hydrosol", "hydrolate", "flower", "blossom", "balm", "grass", "verbena",
		"clay",
		"water", "ochre")
}
