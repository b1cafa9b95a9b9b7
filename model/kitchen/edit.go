package kitchen

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// Scale changes the recipe to another total, g: as many portions as before, each larger or
// smaller. An allowance in grams stays as it is; the jar is dropped.
func Scale(r model.Recipe, totalG float64) (model.Recipe, error) {
	if !(totalG > 0 && totalG <= model.MaxGrams) {
		return model.Recipe{}, fmt.Errorf("scale %q to %s g: give a total above 0 and up to %s g", r.Name,
			model.Number(totalG), model.Number(model.MaxGrams))
	}
	r.TotalG, r.JarML, r.JarG = totalG, 0, 0
	if r.Portions > 0 {
		r.PortionG = totalG / float64(r.Portions)
	}
	return r, nil
}

// InPortions changes the recipe to so many portions of eachG grams. With eachG 0 portions
// stay as large as they were, or as large as the whole was; 0 portions make one bowl.
func InPortions(r model.Recipe, portions int, eachG float64) (model.Recipe, error) {
	switch {
	case portions < 0 || portions > model.MaxPortions:
		return model.Recipe{}, fmt.Errorf("%d portions of %q: give a number up to %d", portions, r.Name,
			model.MaxPortions)
	case portions == 0:
		r.Portions, r.PortionG = 0, 0
		return r, nil
	case eachG == 0:
		eachG = jarFilling(r)
	}
	r.Portions = portions
	return Scale(r, float64(portions)*eachG)
}

// WithExtra puts an extra into the recipe, or in the place of the one of that name. The
// recipe's own liquid is refused.
func WithExtra(r model.Recipe, e model.Extra) (model.Recipe, error) {
	at := slices.IndexFunc(r.Extras, func(x model.Extra) bool { return model.SameLiquid(x.Name, e.Name) })
	if at < 0 {
		if err := notTheLiquid(r.Liquid, []model.Extra{e}); err != nil {
			return r, err
		}
	}
	r = unwritten(r)
	r.Extras = slices.Clone(r.Extras)
	if at < 0 {
		r.Extras = append(r.Extras, e.WithKind())
		return r, nil
	}
	if e.Counts == "" {
		e.Counts = r.Extras[at].Counts
	}
	if e.Notes == "" {
		e.Notes = r.Extras[at].Notes
	}
	r.Extras[at] = e.WithKind()
	return r, nil
}

// notTheLiquid refuses an extra that is the paste's own liquid. Its amount is worked out,
// so listed twice nobody knows how much to weigh.
func notTheLiquid(liquid string, extras []model.Extra) error {
	for _, e := range extras {
		if model.SameLiquid(e.Name, liquid) {
			return fmt.Errorf("%s is the liquid of this paste already, and how much of it goes in is worked out: "+
				"leave it out of the extras", e.Name)
		}
	}
	return nil
}

// WithoutExtra takes the extra of that name out of the recipe.
func WithoutExtra(r model.Recipe, name string) (model.Recipe, error) {
	at := slices.IndexFunc(r.Extras, func(x model.Extra) bool { return model.SameLiquid(x.Name, name) })
	if at < 0 {
		return r, fmt.Errorf("take %q out of %q: it has no such extra; it has %s", name, r.Name,
			orNothing(extraNames(r)))
	}
	r = unwritten(r)
	r.Extras = slices.Delete(slices.Clone(r.Extras), at, at+1)
	r.Order = slices.DeleteFunc(slices.Clone(r.Order), func(o string) bool { return model.SameLiquid(o, name) })
	return r, nil
}

// unwritten drops the recipe's steps where they are the usual ones, which follow from the
// ingredients.
func unwritten(r model.Recipe) model.Recipe {
	if UsualSteps(r) {
		r.Steps = nil
	}
	return r
}

// extraNames lists the names of a recipe's extras.
func extraNames(r model.Recipe) []string {
	names := make([]string, len(r.Extras))
	for i, e := range r.Extras {
		names[i] = e.Name
	}
	return names
}

// orNothing joins names, "none" without any.
func orNothing(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return listed(names)
}

// WithOrder gives the recipe an order of addition of its own. names are those of its
// powders, its liquid and its extras, or beginnings that only one of them has. Without
// names it has the usual order again.
func WithOrder(r model.Recipe, names []string) (model.Recipe, error) {
	r.Order = nil
	all := AdditionOrder(r)
	for _, name := range names {
		var found []string
		for _, a := range all {
			if model.SameLiquid(a, name) {
				found = []string{a}
				break
			}
			if strings.HasPrefix(strings.ToLower(a), strings.ToLower(strings.TrimSpace(name))) {
				found = append(found, a)
			}
		}
		name = strings.TrimSpace(name)
		switch {
		case name == "" || len(found) != 1:
			return r, fmt.Errorf("order of %q: %q is not one of its parts; it has %s", r.Name, name, listed(all))
		case slices.Contains(r.Order, found[0]):
			return r, fmt.Errorf("order of %q: %q is named twice", r.Name, found[0])
		}
		r.Order = append(r.Order, found[0])
	}
	return r, nil
}

// Edited makes a changed recipe ready to save: it works out again what the jar holds, and
// refuses a change that cannot be made.
func Edited(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) (model.Recipe, error) {
	if err := RecipeAmounts(r).check(r.Liquid, r.Extras); err != nil {
		return r, err
	}
	if problems := r.Validate(); len(problems) > 0 {
		return r, problems[0]
	}
	if r.JarML == 0 {
		r.JarG = 0
		return r, nil
	}
	if fizz := RecipeFizz(r, profiles); fizz != nil {
		return r, cannot("%s", fizz.InJar())
	}
	r.JarG = 0
	if paste, ok := RecipePaste(r, profiles, own); ok {
		paste.Next = r.Ratio
		if density, err := paste.Density(r.Extras); err == nil {
			r.JarG = model.RoundSignificant(jarFill*r.JarML*density, 6)
		}
	}
	return r, nil
}

// Renewed updates the recipe to its powders' profiles as they are now, with every extra
// counted; the total stays.
func Renewed(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) (model.Recipe, error) {
	paste, ok := RecipePaste(r, profiles, own)
	if !ok {
		return r, cannot("renew %q: not all of its powders are on the shelf with a ratio at %s", r.Name,
			model.LevelName(r.Level))
	}
	r = withPaste(r, paste)
	r.Extras = withKinds(r.Extras)
	return Edited(r, profiles, own)
}

// withPaste gives the recipe the powders and the ratio of a paste.
func withPaste(r model.Recipe, p Paste) model.Recipe {
	usual := UsualSteps(r)
	slugs := make([]string, len(p.Powders))
	for i, part := range p.Powders {
		for _, old := range r.Powders {
			if isPowder(old, part.Powder) {
				slugs[i] = old.Slug
			}
		}
	}
	r.Powders, r.RestS = nil, 0
	r.Trial = p.Powders[0].LastTrial
	for i, part := range p.Powders {
		entry := recipePowder(part.Side, part.Fraction)
		entry.Slug = slugs[i]
		r.Powders = append(r.Powders, entry)
		r.RestS = max(r.RestS, part.Ratio.Basis.RestS)
		if part.LastTrial.After(r.Trial) {
			r.Trial = part.LastTrial
		}
	}
	r.Ratio, r.Warnings = p.Next, append([]string(nil), p.Warnings...)
	if usual && len(r.Steps) > 0 {
		r.Steps = usualSteps(r)
	}
	return r
}

// SwapPowder puts B of the pair in the place of powder A in a recipe. B takes A's part by
// mass. In a mix, others are the sides of all its powders in their order, A's own among
// them.
//
// Extras keep their shares, so with the powder or the liquid kept the total follows; the
// jar is dropped. keep "" is UsualKeep. The pair's warnings are about the swap and not
// kept: the new recipe no longer has A in it.
func SwapPowder(r model.Recipe, p Pair, slug string, keep Keep, others []Side) (model.Recipe, error) {
	a := p.A.Powder
	at := slices.IndexFunc(r.Powders, func(old model.RecipePowder) bool { return isPowder(old, a) })
	if at < 0 {
		var names []string
		for _, old := range r.Powders {
			names = append(names, old.Powder().Title())
		}
		return model.Recipe{}, fmt.Errorf("there is no %s in %q; it is made of %s", a.Title(), r.Name, listed(names))
	}
	if p.A.Ratio.Level != r.Level || !model.SameLiquid(p.A.Ratio.Basis.Liquid, r.Liquid) {
		return model.Recipe{}, fmt.Errorf("swap in %q: it is of %s at level %s in %s, but %s at level %s in %s is "+
			"to be replaced", r.Name, a.Title(), model.Number(r.Level), r.Liquid, a.Title(),
			model.Number(p.A.Ratio.Level),
			p.A.Ratio.Basis.Liquid)
	}
	if p.Refused != "" {
		return model.Recipe{}, cannot("no swap: %s", p.WhyNot())
	}
	if len(r.Powders) > 1 && len(others) != len(r.Powders) {
		return model.Recipe{}, cannot("swap in %q: not all powders of the mix are on the shelf", r.Name)
	}
	powders := make([]PastePowder, len(r.Powders))
	for i := range powders {
		powders[i] = PastePowder{p.inPlace(), r.Fraction(i)}
		if i != at {
			powders[i].Side = others[i]
		}
	}
	paste, err := PasteOfSides(powders)
	if err != nil {
		return model.Recipe{}, err
	}
	keep = cmp.Or(keep, UsualKeep(r))
	hadJar := r.JarML > 0
	was, old := RecipeAmounts(r), r.Ratio.Median
	r = withPaste(r, paste)
	if p.SideBySide != nil {
		r.Warnings = append(r.Warnings, p.SideBySide.notes()...)
	}
	r.Powders[at].Slug, r.Powders[at].Ratio = slug, p.B.byLevels()
	r.JarML, r.JarG = 0, 0
	now := r.Ratio.Median
	scale := 1.0 // of the paste, P·(1 + R)
	switch keep {
	case KeepLiquid:
		scale = old / now * (1 + now) / (1 + old)
	case KeepPowder:
		scale = (1 + now) / (1 + old)
	case KeepTotal:
	default:
		return model.Recipe{}, fmt.Errorf("a swap cannot keep %q: keep liquid, powder or total", string(keep))
	}
	if keep != KeepTotal {
		r.TotalG = (was.MadeG*scale - r.AllowanceG) / (1 + r.AllowanceShare)
		if !(r.TotalG > 0) {
			return model.Recipe{}, errors.New("swap: nothing would be left beside what sticks to the bowl; keep " +
				"the total instead")
		}
		if r.Portions > 0 {
			r.PortionG = r.TotalG / float64(r.Portions)
		}
	}
	if fizz := RecipeFizz(r, []model.Profile{{Powder: p.B.Powder}}); fizz != nil && hadJar {
		return model.Recipe{}, cannot("%s", fizz.InJar())
	}
	return r, RecipeAmounts(r).check(r.Liquid, r.Extras)
}

// TotalChange says that a change makes more or less of a recipe than before; "" where the
// total stays within 0.5 %.
func TotalChange(before, after model.Recipe, keep Keep) string {
	if math.Abs(after.TotalG/before.TotalG-1) < 0.005 {
		return ""
	}
	a, why := RecipeAmounts(before), ""
	if keep == KeepPowder {
		why = "the powder stays " + model.Grams(a.Powder.Median) + " g"
	} else {
		why = "all the liquid together stays " + model.Grams(a.Liquid.Median+a.CountedG) + " g"
	}
	return fmt.Sprintf("It makes %s g now, not %s g (%+.0f %%), because %s; keep the total to make as much as before.",
		model.Grams(after.TotalG), model.Grams(before.TotalG), 100*(after.TotalG/before.TotalG-1), why)
}
