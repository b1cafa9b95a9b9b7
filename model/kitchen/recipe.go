package kitchen

import (
	"fmt"
	"math"
	"slices"
	"time"

	"daub.example/daub/model"
)

// RecipeOf makes a recipe of a batch, under a name. slugs are those of its powders'
// profiles, in their order; nil where unknown.
func RecipeOf(name string, b Batch, slugs []string, saved time.Time) model.Recipe {
	r := model.Recipe{
		Schema: model.RecipeSchema, Name: name, Saved: saved, Level: b.Paste.Level,
		TotalG: b.TotalG, Portions: b.Order.Portions, PortionG: model.RoundSignificant(b.PortionG,
			6), JarML: b.Order.JarML, JarG: model.RoundSignificant(b.JarG, 6), AllowanceShare: b.Order.AllowanceShare,
		AllowanceG: b.Order.AllowanceG,
		Spoons:     append([]string(nil), b.Order.Spoons...), Extras: append([]model.Extra(nil), b.Order.Extras...),
		Liquid: b.Paste.Basis.Liquid, Ratio: b.Paste.Next, Warnings: append([]string(nil), b.Paste.Warnings...),
	}
	for i, p := range b.Powders {
		entry := recipePowder(p.Side, p.Fraction)
		if i < len(slugs) {
			entry.Slug = slugs[i]
		}
		r.Powders = append(r.Powders, entry)
		r.RestS = max(r.RestS, p.Ratio.Basis.RestS)
		if p.LastTrial.After(r.Trial) {
			r.Trial = p.LastTrial
		}
	}
	r.Steps = usualSteps(r)
	return r
}

// recipePowder notes a powder in a recipe, as the side has it at the time.
func recipePowder(s Side, share float64) model.RecipePowder {
	return model.RecipePowder{
		Name: s.Powder.Name, Lot: s.Powder.Lot, Share: share, Family: s.Powder.Kind(),
		KeepFromMetal: s.Powder.KeepFromMetal, Fizzes: s.Powder.Fizzes, Allergens: s.Powder.Allergens,
		Ratio: s.byLevels(),
	}
}

// byLevels gives the side's own ratio by levels, g/g; 0 where it has none.
func (s Side) byLevels() float64 {
	if s.Ratio.Powder == nil {
		return 0
	}
	return s.Ratio.Powder.Median
}

// usualSteps lists the steps of every paste. They name no amounts, so that scaling leaves
// them true.
func usualSteps(r model.Recipe) []string {
	powder := "Weigh the powder and break up its lumps."
	if len(r.Powders) > 1 {
		powder = "Weigh the powders, break up their lumps and mix them dry."
	}
	steps := []string{
		powder,
		fmt.Sprintf("Weigh the %s into the bowl, without what is held back.", r.Liquid),
		fmt.Sprintf("Sprinkle the powder in, stir ten turns, let it rest %s.", model.Seconds(r.RestS)),
	}
	for _, e := range r.Extras {
		steps = append(steps, fmt.Sprintf("Stir in: %s.", e.Name))
	}
	look := model.Scale()[int(math.Floor(r.Level))].Test
	if upper := model.Scale()[int(math.Ceil(r.Level))].Test; upper != look {
		look = "lies between two: " + look + "; and: " + upper
	}
	return append(steps, fmt.Sprintf("Look: at %s it %s. Too thick: stir in some of what is held back, rest, look "+
		"again.", model.LevelName(r.Level), look))
}

// UsualSteps reports whether the recipe's steps are the usual ones: it has none of its own,
// or those written when it was saved.
func UsualSteps(r model.Recipe) bool {
	return len(r.Steps) == 0 || slices.Equal(r.Steps, usualSteps(r))
}

// RecipeAmounts works out the recipe's grams. They mean something for a sound recipe only.
func RecipeAmounts(r model.Recipe) Amounts {
	return amountsOf(r.TotalG, r.AllowanceShare, r.AllowanceG, r.Extras, r.Ratio)
}

// AdditionOrder lists the recipe's ingredients by name in the order they go in: its
// powders' titles, the liquid, its extras. Those that the recipe's own order names come as
// it says. The rest follow as usual: powders with what is dry, the water phase, a
// solubiliser with the oils, preservatives last.
func AdditionOrder(r model.Recipe) []string {
	var usual []string
	for _, p := range r.Powders {
		usual = append(usual, p.Powder().Title())
	}
	for role := model.WithPowders; role <= model.Preservative; role++ {
		if role == model.WithLiquid {
			usual = append(usual, r.Liquid)
		}
		for _, e := range r.Extras {
			if e.Role() == role {
				usual = append(usual, e.Name)
			}
		}
	}
	var out []string
	take := func(name string) {
		at := slices.IndexFunc(usual, func(u string) bool { return model.SameLiquid(u, name) })
		if at >= 0 {
			out = append(out, usual[at])
			usual = slices.Delete(usual, at, at+1)
		}
	}
	for _, name := range r.Order {
		take(name)
	}
	return append(out, usual...)
}

// basisOf returns the basis of the recipe's ratio for a profile. A mix rests as long as its
// slowest powder, so there it is the profile's own basis most like the recipe's.
func basisOf(r model.Recipe, p model.Profile) model.Basis {
	b := model.Basis{Liquid: r.Liquid, RestS: r.RestS}
	if len(r.Powders) > 1 {
		b, _ = b.Nearest(p.Bases())
	}
	return b
}

// changed is the relative change of a ratio above which a notice says so (chosen).
const changed = 0.001

// Stale says that the profile of one of the recipe's powders has changed since the recipe
// was saved. It is "" where it has not, and for a profile of another powder or lot.
func Stale(r model.Recipe, p model.Profile, own model.OwnSpoons) string {
	for _, powder := range r.Powders {
		if powder.Name != p.Powder.Name || powder.Lot != p.Powder.Lot || !(powder.Ratio > 0) {
			continue
		}
		if powder.KeepFromMetal != p.Powder.KeepFromMetal || powder.Powder().Kind() != p.Powder.Kind() {
			return fmt.Sprintf("The family or the cautions of %s have changed since this recipe was saved.",
				p.Powder.Title())
		}
		now := SideOf(p, basisOf(r, p), r.Level, own)
		if now.Ratio.Powder == nil {
			return fmt.Sprintf("%s has changed since this recipe was saved: it has no ratio at %s any more.",
				p.Powder.Title(), model.LevelName(r.Level))
		}
		factor := now.Ratio.Powder.Median / powder.Ratio
		if math.Abs(factor-1) > changed {
			return fmt.Sprintf("%s has changed since this recipe was saved: %s then, %s now (%+.1f %%).",
				p.Powder.Title(), model.PerPowder(model.RatioText(powder.Ratio), r.Liquid),
				model.RatioText(now.Ratio.Powder.Median), 100*(factor-1))
		}
	}
	return ""
}
