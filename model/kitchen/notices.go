package kitchen

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
)

// ProfilesOf finds the profiles of the recipe's powders on the shelf, in the recipe's
// order. A powder that is not on the shelf is left out.
func ProfilesOf(r model.Recipe, shelf []model.Entry) []model.Profile {
	var out []model.Profile
	for _, p := range r.Powders {
		if at := ShelfIndex(p, shelf); at >= 0 {
			out = append(out, shelf[at].Profile)
		}
	}
	return out
}

// ShelfIndex gives the index of the powder on the shelf, -1 where it is not there. It
// looks by slug, then by name and lot.
func ShelfIndex(p model.RecipePowder, shelf []model.Entry) int {
	if p.Slug != "" {
		at := slices.IndexFunc(shelf,
			func(e model.Entry) bool { return e.Slug == p.Slug && isPowder(p, e.Profile.Powder) })
		if at >= 0 {
			return at
		}
	}
	return slices.IndexFunc(shelf, func(e model.Entry) bool { return isPowder(p, e.Profile.Powder) })
}

// isPowder reports whether the recipe's powder has that name and lot.
func isPowder(p model.RecipePowder, powder model.Powder) bool {
	return p.Name == powder.Name && p.Lot == powder.Lot
}

// profileOf finds the powder's profile among those at hand.
func profileOf(p model.RecipePowder, profiles []model.Profile) (model.Profile, bool) {
	i := slices.IndexFunc(profiles, func(q model.Profile) bool { return isPowder(p, q.Powder) })
	if i < 0 {
		return model.Profile{}, false
	}
	return profiles[i], true
}

// Notices lists the Warnings of a recipe, then its Changes. profiles are those of its
// powders, as ProfilesOf gives them.
func Notices(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) []string {
	return append(Warnings(r, profiles, own), Changes(r, profiles, own)...)
}

// Warnings lists what to know before making a recipe. It warns of an acid that meets a
// carbonate, a jar too small and what rounding to spoons does; warnings saved with the
// recipe or about its extras come too.
func Warnings(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) []string {
	var all []string
	if fizz := RecipeFizz(r, profiles); fizz != nil && r.JarML > 0 {
		all = append(all, "NOT INTO A JAR: "+fizz.InJar()+".")
	} else if fizz != nil {
		all = append(all, fizz.Text())
	}
	said := func(w string) bool { return strings.HasPrefix(w, mixBegin) }
	if len(r.Powders) > 1 && !slices.ContainsFunc(r.Warnings, said) {
		all = append(all, mixWarning)
	}
	all = append(all, r.Warnings...)
	if c := RecountOf(r, profiles, own); c != nil {
		all = append(all, c.Sentence())
	}
	all = append(all, extraWarnings(RecipeAmounts(r), r.Liquid, r.Extras)...)
	if filled := jarFilling(r); r.JarG > 0 && filled > r.JarG*(1+1e-6) {
		all = append(all, tooMuch(filled, r.JarML, r.JarG))
	}
	if text := roundingText(recipeSpoonShift(r, profiles, own)); text != "" {
		all = append(all, text)
	}
	return all
}

// Changes lists what has changed since the recipe was saved.
func Changes(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) []string {
	var all []string
	for _, p := range profiles {
		if stale := Stale(r, p, own); stale != "" {
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

// recipeSpoonShift gives the number of levels by which powder measured in spoons makes the
// paste thicker; 0 where a powder cannot be spooned.
func recipeSpoonShift(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) float64 {
	a := RecipeAmounts(r)
	paste, ok := RecipePaste(r, profiles, own)
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

// RecipeCautions lists the cautions of all its powders, each once, as they were when the
// recipe was saved and as the profiles have them now.
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
