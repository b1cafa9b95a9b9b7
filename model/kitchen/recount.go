package kitchen

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// RecipePaste makes the paste of the recipe's powders from their profiles as they are now.
// ok is false where one of them is not at hand or has no ratio.
func RecipePaste(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) (p Paste, ok bool) {
	var powders []PastePowder
	for i, powder := range r.Powders {
		profile, ok := profileOf(powder, profiles)
		if !ok {
			return Paste{}, false
		}
		powders = append(powders, PastePowder{SideOf(profile, basisOf(r, profile), r.Level, own), r.Fraction(i)})
	}
	p, err := PasteOfSides(powders)
	return p, err == nil
}

// RecipeFizz finds an acid with a carbonate in a recipe; nil where there is none. Its
// powders are taken as they are at hand, else as they were when it was saved.
func RecipeFizz(r model.Recipe, profiles []model.Profile) *Fizz {
	var powders []model.Powder
	for _, p := range r.Powders {
		powder := p.Powder()
		if profile, ok := profileOf(p, profiles); ok {
			powder = profile.Powder
		}
		powders = append(powders, powder)
	}
	return FizzOf(powders, r.Liquid, r.Extras)
}

// jarFilling returns the filling of each jar: a portion, or all of it, g.
func jarFilling(r model.Recipe) float64 {
	if r.Portions == 0 {
		return r.TotalG
	}
	return cmp.Or(r.PortionG, r.TotalG/float64(r.Portions))
}

// Recount belongs to a recipe saved before extras counted as liquid, oil or dry. Its grams
// stay; Recount tells the level they really give.
type Recount struct {
	Was    model.Recipe
	Recipe model.Recipe // the same total with every extra counted: new amounts
	Stands float64      // the level that the old grams really give
	Known  bool         // of Stands: the powders' profiles are at hand
}

// RecountOf works out what a recipe's extras would count as; nil where each has its kind
// already.
func RecountOf(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) *Recount {
	if !slices.ContainsFunc(r.Extras, func(e model.Extra) bool { return e.Counts == "" }) {
		return nil
	}
	c := Recount{Was: r, Recipe: r}
	c.Recipe.Extras = withKinds(r.Extras)
	c.Stands, c.Known = RecipeStands(r, profiles, own)
	return &c
}

// RecipeStands gives the level at which the recipe's grams stand, by the curve at the ratio
// of everything liquid to the powder. ok is false where a profile it needs is not at hand.
func RecipeStands(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) (level float64, ok bool) {
	paste, ok := RecipePaste(r, profiles, own)
	if !ok {
		return 0, false
	}
	a := RecipeAmounts(r)
	liquid := a.Liquid.Median
	for i, e := range r.Extras {
		if e.Kind() == model.CountsLiquid {
			liquid += a.ExtrasG[i]
		}
	}
	return paste.LevelAt(liquid / a.Powder.Median), true
}

// Sentence says what each extra would count as and which level the grams give.
func (c Recount) Sentence() string {
	var kinds []string
	for i, e := range c.Recipe.Extras {
		if c.Was.Extras[i].Counts == "" {
			kinds = append(kinds, fmt.Sprintf("%s as %s", e.Name, e.Counts))
		}
	}
	text := fmt.Sprintf("This recipe was saved before extras counted (%s): its grams stay as they are",
		strings.Join(kinds, ", "))
	now, was := RecipeAmounts(c.Recipe), RecipeAmounts(c.Was)
	if model.Grams(now.Powder.Median) == model.Grams(was.Powder.Median) &&
		model.Grams(now.Liquid.Median) == model.Grams(was.Liquid.Median) {
		return text + "; counted, they come out the same."
	}
	if c.Known {
		text += fmt.Sprintf(", and come out at %s, not at %s", StandsAt(c.Stands), model.LevelName(c.Was.Level))
	}
	if err := now.check(c.Was.Liquid, c.Recipe.Extras); err != nil {
		return text + fmt.Sprintf(". Counted, it cannot be made: %v.", err)
	}
	return text + fmt.Sprintf(". Counted, it takes %s g of powder and %s g of %s.", model.Grams(now.Powder.Median),
		model.Grams(now.Liquid.Median), c.Was.Liquid)
}
