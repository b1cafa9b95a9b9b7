package kitchen

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
)

// ProfilesOf are the profiles of the recipe's powders among those on the shelf,
// in the recipe's order. A powder that is not on the shelf is left out.
func ProfilesOf(r model.Recipe, shelf []model.Entry) []model.Profile {
	var out []model.Profile
	for _, p := range r.Powders {
		if at := PlaceOnShelf(p, shelf); at >= 0 {
			out = append(out, shelf[at].Profile)
		}
	}
	return out
}

// PlaceOnShelf is the place of the powder on the shelf, -1 where it is not there: by
// slug, or, where that is not known there, by name and lot.
func PlaceOnShelf(p model.RecipePowder, shelf []model.Entry) int {
	if p.Slug != "" {
		at := slices.IndexFunc(shelf,
			func(e model.Entry) bool { return e.Slug == p.Slug && isPowder(p, e.Profile.Powder) })
		if at >= 0 {
			return at
		}
	}
	return slices.IndexFunc(shelf, func(e model.Entry) bool { return isPowder(p, e.Profile.Powder) })
}

// isPowder reports whether the recipe's powder is that one.
func isPowder(p model.RecipePowder, powder model.Powder) bool {
	return p.Name == powder.Name && p.Lot == powder.Lot
}

// profileOf is the powder's profile among those at hand.
func profileOf(p model.RecipePowder, profiles []model.Profile) (model.Profile, bool) {
	i := slices.IndexFunc(profiles, func(q model.Profile) bool { return isPowder(p, q.Powder) })
	if i < 0 {
		return model.Profile{}, false
	}
	return profiles[i], true
}

// Notices lists what has to be told beside the recipe's amounts: Warnings, then
// Changes. profiles are those of its powders, as Profiles gives them.
func Notices(r model.Recipe, profiles []model.Profile, d model.OwnSpoons) []string {
	return append(Warnings(r, profiles, d), Changes(r, profiles, d)...)
}

// Warnings are an acid that meets a carbonate, the warnings that the recipe was
// saved with, those of its extras, a jar that is too small, and what rounding to
// spoons does.
func Warnings(r model.Recipe, profiles []model.Profile, d model.OwnSpoons) []string {
	var all []string
	if fizz := RecipeFizz(r, profiles); fizz != nil && r.JarML > 0 {
		all = append(all, "NOT INTO A JAR: "+fizz.InJar()+".")
	} else if fizz != nil {
		all = append(all, fizz.Text())
	}
	if len(r.Powders) > 1 && !slices.Contains(r.Warnings, mixWarning) {
		all = append(all, mixWarning)
	}
	all = append(all, r.Warnings...)
	if c := RecountOf(r, profiles, d); c != nil {
		all = append(all, c.Sentence())
	}
	all = append(all, extraWarnings(RecipeAmounts(r), r.Liquid, r.Extras)...)
	if filled := jarFilling(r); r.JarG > 0 && filled > r.JarG*(1+1e-6) {
		all = append(all, tooMuch(filled, r.JarML, r.JarG))
	}
	if text := roundingText(recipeSpoonShift(r, profiles, d)); text != "" {
		all = append(all, text)
	}
	return all
}

// Changes say what is no longer as it was when the recipe was saved.
func Changes(r model.Recipe, profiles []model.Profile, d model.OwnSpoons) []string {
	var all []string
	for _, p := range profiles {
		if stale := Stale(r, p, d); stale != "" {
			all = append(all, stale)
		}
	}
	for _, p := range r.Powders {
		if _, ok := profileOf(p, profiles); !ok {
			all = append(all, fmt.Sprintf("%s is not on the shelf: whether it has changed is not known.",
				p.Powder().Title()))
		}
	}
	return all
}

// recipeSpoonShift is how many levels thicker the powder by spoons makes it; 0 where
// a powder cannot be spooned.
func recipeSpoonShift(r model.Recipe, profiles []model.Profile, d model.OwnSpoons) float64 {
	a := RecipeAmounts(r)
	paste, ok := RecipePaste(r, profiles, d)
	if !ok {
		return 0
	}
	spooned := 0.0
	for _, p := range paste.Powders {
		sum, _ := spoonsOrWeigh(p.SpoonWeights, a.Powder.Median*p.Fraction, r.Spoons)
		if sum == nil {
			return 0
		}
		spooned += sum.Grams
	}
	return paste.LevelAt(r.Ratio.Median*a.Powder.Median/spooned) - paste.LevelAt(r.Ratio.Median)
}

// RecipeCautions are those of all its powders, each once: as they were when the
// recipe was saved, and as the profiles at hand have them.
func RecipeCautions(r model.Recipe, profiles []model.Profile) []string {
	var powders []model.Powder
	for _, p := range r.Powders {
		powders = append(powders, p.Powder())
		if profile, ok := profileOf(p, profiles); ok {
			powders = append(powders, profile.Powder)
		}
	}
	return care.OfPaste(r.Liquid, r.Extras, powders...)
}
