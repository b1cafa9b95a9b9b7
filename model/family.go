// Package model is the trade: powders and their families, level spoons, liquids, the
// consistency scale, thickening trials, and the rules for all of them. It is pure: no
// files, no clock, no terminal. The numbers behind a ratio are in package fit.
//
// Bench units throughout: grams, millilitres, seconds, degrees Celsius. A ratio is grams of
// liquid per gram of powder.
package model

import (
	"slices"
	"strings"
)

// Family is the kind of powder; it decides the default rest before a look and
// the cautions shown.
type Family string

// The families, as written in files.
const (
	PlainClay    Family = "plain-clay"
	SwellingClay Family = "swelling-clay"
	Starch       Family = "starch"
	Flour        Family = "flour"
	Mineral      Family = "mineral"
	Botanical    Family = "botanical"
	Gum          Family = "gum"
	Other        Family = "other"
)

// Families lists every family in the order a maker picks from.
func Families() []Family {
	return []Family{PlainClay, SwellingClay, Starch, Flour, Mineral, Botanical, Gum, Other}
}

// Known reports whether f is one of Families.
func (f Family) Known() bool { return slices.Contains(Families(), f) }

// Describe names in a few words what belongs to the family.
func (f Family) Describe() string {
	switch f {
	case PlainClay:
		return "clay that does not swell: kaolin, white, pink, yellow"
	case SwellingClay:
		return "clay that swells and gels: bentonite and its kin"
	case Starch:
		return "maize, tapioca, arrowroot, potato"
	case Flour:
		return "milled grain, seed or pulse"
	case Mineral:
		return "chalk, zinc oxide, silica, pumice"
	case Botanical:
		return "ground leaf, root, bark, petal"
	case Gum:
		return "guar, xanthan: a pinch thickens a cup; strew it on, it takes hours"
	default:
		return "anything else"
	}
}

// DefaultRestS gives the wait, s, between stirring and a look: the slower a family takes up
// liquid, the longer (chosen).
func (f Family) DefaultRestS() int {
	switch f {
	case Mineral, PlainClay, Starch:
		return 30
	case SwellingClay, Botanical:
		return 300
	case Gum:
		return 1800
	default:
		return 120
	}
}

// FirstRange gives the range of ratios at level 5, g/g, to plan the first spoonful and the
// first amount of liquid with. Chosen, used for that and nothing else: no answer depends on
// it.
func (f Family) FirstRange() (low, high float64) {
	switch f {
	case PlainClay:
		return 0.4, 1.6
	case SwellingClay:
		return 1, 10
	case Starch:
		return 0.6, 1.2
	case Flour:
		return 1, 2.5
	case Mineral:
		return 0.3, 3
	case Botanical:
		return 1.5, 60
	case Gum:
		return 15, 200
	default:
		return 0.3, 200
	}
}

// SpoonDensity gives a bulk density for a level spoon of the family, g/mL, until the pot or
// a weighing gives a better one. Chosen, for steering only: no answer depends on it.
func (f Family) SpoonDensity() float64 {
	switch f {
	case SwellingClay:
		return 0.9
	case Starch, Gum:
		return 0.6
	case Mineral:
		return 0.8
	case Botanical:
		return 0.35
	default:
		return 0.5
	}
}

// TypicalSolidDensity gives the density of the solid itself, g/mL, where the family has a
// usual one (chosen); ok is false where the maker has to say.
func (f Family) TypicalSolidDensity() (gPerML float64, ok bool) {
	switch f {
	case PlainClay, SwellingClay:
		return 2.6, true
	case Starch, Flour, Gum:
		return 1.5, true
	case Botanical:
		return 1.4, true
	default:
		return 0, false
	}
}

// Words writes the family as in a sentence.
func (f Family) Words() string { return strings.ReplaceAll(string(f), "-", " ") }
