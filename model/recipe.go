package model

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"daub.example/daub/model/fit"
)

// RecipeSchema is the version of a recipe's file.
const RecipeSchema = 1

// RecipePowder is a powder of a recipe, as it was when the recipe was saved.
// What its cautions rest on is kept too, so that a card never lacks them.
type RecipePowder struct {
	Slug          string // of its profile on the shelf; "" unknown
	Name          string
	Lot           string
	Share         float64 // part by mass among the powders; 0 means 1, for a single one
	Family        Family
	KeepFromMetal bool
	Ratio         float64 // R of its profile when the recipe was saved, g/g; 0 unknown
}

// Powder is the powder as a profile names it.
func (p RecipePowder) Powder() Powder {
	return Powder{Name: p.Name, Lot: p.Lot, Family: p.Family, KeepFromMetal: p.KeepFromMetal}
}

// parts is the powder's part by mass.
func (p RecipePowder) parts() float64 { return orElse(p.Share, 1) }

// Recipe is a batch written down: one file on the shelf. Paths of problems
// are those of its file: [recipe], [[powder]], [[extra]].
type Recipe struct {
	Schema         int // 0 means RecipeSchema
	Name           string
	Notes          string
	Saved          time.Time // zero means not recorded
	Level          float64
	TotalG         float64
	JarML          float64 // the jar it was reckoned for; 0 without
	JarG           float64 // what that jar holds, filled to 95 %, g; 0 unknown
	AllowanceShare float64
	AllowanceG     float64
	Spoons         []string // at hand; nil means DefaultSpoons
	Liquid         string
	RestS          int
	Ratio          fit.Interval // R used: of the next dish
	Trial          time.Time    // start of the newest trial it rests on; zero means not recorded
	Powders        []RecipePowder
	Extras         []Extra
	Steps          []string // in order
	Warnings       []string // what has to be told beside its ratio
}

// RecipeOf writes a batch down under a name. slugs are those of its powders'
// profiles, in their order; nil where unknown.
func RecipeOf(name string, b Batch, slugs []string, saved time.Time) Recipe {
	r := Recipe{
		Schema: RecipeSchema, Name: name, Saved: saved, Level: b.Paste.Level,
		TotalG: b.TotalG, JarML: b.Order.JarML, JarG: RoundSignificant(b.JarG, 6), AllowanceShare: b.Order.AllowanceShare, AllowanceG: b.Order.AllowanceG,
		Spoons: append([]string(nil), b.Order.Spoons...), Extras: append([]Extra(nil), b.Order.Extras...),
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
	r.Steps = r.usualSteps()
	return r
}

func recipePowder(s Side, share float64) RecipePowder {
	return RecipePowder{
		Name: s.Powder.Name, Lot: s.Powder.Lot, Share: share, Family: s.Powder.Kind(),
		KeepFromMetal: s.Powder.KeepFromMetal, Ratio: s.Ratio.Powder.Median,
	}
}

// usualSteps are the steps of every paste; they name no amounts, so that
// scaling leaves them true.
func (r Recipe) usualSteps() []string {
	powder := "Weigh the powder and break up its lumps."
	if len(r.Powders) > 1 {
		powder = "Weigh the powders, break up their lumps and mix them dry."
	}
	steps := []string{
		powder,
		fmt.Sprintf("Weigh the %s into the bowl, without what is held back.", r.Liquid),
		fmt.Sprintf("Sprinkle the powder in, stir ten turns, let it rest %s.", Seconds(r.RestS)),
	}
	for _, e := range r.Extras {
		steps = append(steps, fmt.Sprintf("Stir in: %s.", e.Name))
	}
	look := Scale()[int(math.Floor(r.Level))].Test
	if upper := Scale()[int(math.Ceil(r.Level))].Test; upper != look {
		look = "lies between two: " + look + "; and: " + upper
	}
	return append(steps, fmt.Sprintf("Look: at %s it %s. Too thick: stir in some of what is held back, rest, look again.", LevelName(r.Level), look))
}

// Amounts are the recipe's grams. They mean something for a sound recipe.
func (r Recipe) Amounts() Amounts {
	return amountsOf(r.TotalG, r.AllowanceShare, r.AllowanceG, r.Extras, r.Ratio)
}

// Fraction is the part of powder i of all the powder, 0 to 1.
func (r Recipe) Fraction(i int) float64 {
	sum := 0.0
	for _, p := range r.Powders {
		sum += p.parts()
	}
	return r.Powders[i].parts() / sum
}

// Scale is the recipe for another total, g. An allowance in grams stays as it
// is; the jar is dropped.
func (r Recipe) Scale(totalG float64) (Recipe, error) {
	if !(totalG > 0 && totalG <= maxGrams) {
		return Recipe{}, fmt.Errorf("scale %q to %s g: give a total above 0 and up to %s g", r.Name, Number(totalG), Number(maxGrams))
	}
	r.TotalG, r.JarML, r.JarG = totalG, 0, 0
	return r, nil
}

// Swap is the recipe with B of the pair in the place of its powder, A. Extras
// keep their shares, so with the powder or the liquid kept the total follows;
// the jar is dropped.
func (r Recipe) Swap(p Pair, slug string, keep Keep) (Recipe, error) {
	if len(r.Powders) != 1 {
		return Recipe{}, fmt.Errorf("swap in %q: a recipe of one powder can be swapped, this one has %d; make a trial of the new mix", r.Name, len(r.Powders))
	}
	a := p.A.Powder
	if old := r.Powders[0]; old.Name != a.Name || old.Lot != a.Lot || p.A.Ratio.Level != r.Level || !SameLiquid(p.A.Ratio.Basis.Liquid, r.Liquid) {
		return Recipe{}, fmt.Errorf("swap in %q: it has %s at level %s in %s, but %s at level %s in %s is to be replaced", r.Name, old.Powder().Title(), Number(r.Level), r.Liquid, a.Title(), Number(p.A.Ratio.Level), p.A.Ratio.Basis.Liquid)
	}
	was := r.Amounts()
	swap, err := p.Swap(was.Powder.Median, was.Liquid.Median, keep)
	if err != nil {
		return Recipe{}, err
	}
	if swap.Keep != KeepTotal {
		paste := swap.NewPowder.Median + swap.NewLiquid.Median
		scale := paste / (was.Powder.Median + was.Liquid.Median)
		r.TotalG = (was.MadeG*scale - r.AllowanceG) / (1 + r.AllowanceShare)
		if !(r.TotalG > 0) {
			return Recipe{}, errors.New("swap: nothing would be left beside what sticks to the bowl; keep the total instead")
		}
	}
	entry := recipePowder(p.B, 1)
	entry.Slug = slug
	usual := slices.Equal(r.Steps, r.usualSteps())
	r.JarML, r.JarG = 0, 0
	r.Warnings = append([]string(nil), p.Warnings...)
	r.Powders, r.Ratio = []RecipePowder{entry}, *p.B.Ratio.Next
	r.Trial, r.RestS = p.B.LastTrial, p.B.Ratio.Basis.RestS
	if usual {
		r.Steps = r.usualSteps()
	}
	return r, nil
}

// basisOf is what the recipe's ratio of the profile's powder rests on: in a
// mix, whose rest is the longest of its powders', the profile's own basis most
// like the recipe's.
func (r Recipe) basisOf(p Profile) Basis {
	b := Basis{r.Liquid, r.RestS}
	if len(r.Powders) > 1 {
		b, _ = b.nearest(p.Bases())
	}
	return b
}

// changed is the relative change of a ratio from which on it is told (chosen).
const changed = 0.001

// Stale says in a sentence that the profile of one of the recipe's powders has
// changed since the recipe was saved; "" where it has not, and for a profile
// of another powder or lot.
func (r Recipe) Stale(p Profile, d Drawer) string {
	for _, powder := range r.Powders {
		if powder.Name != p.Powder.Name || powder.Lot != p.Powder.Lot || !(powder.Ratio > 0) {
			continue
		}
		if powder.KeepFromMetal != p.Powder.KeepFromMetal || powder.Powder().Kind() != p.Powder.Kind() {
			return fmt.Sprintf("The profile of %s has changed since this recipe was saved: its family or its cautions are others.", p.Powder.Title())
		}
		now := p.Side(r.basisOf(p), r.Level, d)
		if now.Ratio.Powder == nil {
			return fmt.Sprintf("The profile of %s has changed since this recipe was saved: it has no ratio at %s any more.", p.Powder.Title(), LevelName(r.Level))
		}
		factor := now.Ratio.Powder.Median / powder.Ratio
		if math.Abs(factor-1) > changed {
			return fmt.Sprintf("The profile of %s has changed since this recipe was saved: %s g %s per g then, %s now (%+.1f %%).",
				p.Powder.Title(), RatioText(powder.Ratio), r.Liquid, RatioText(now.Ratio.Powder.Median), 100*(factor-1))
		}
	}
	return ""
}

// Validate says everything that is wrong with a recipe, in the order of its
// file; nil when it is sound.
func (r Recipe) Validate() []Problem {
	c := &checker{}
	if r.Schema != 0 && r.Schema != RecipeSchema {
		c.add("schema", fmt.Sprintf("use schema = %d, or a newer daub", RecipeSchema), "schema %d is not known", r.Schema)
	}
	c.name("recipe.name", r.Name, "the recipe")
	if err := checkLevel(r.Level); err != nil {
		c.add("recipe.level", "give a whole or half level from 1 to 6", "level %s has no ratio", Number(r.Level))
	}
	if r.TotalG == 0 {
		c.add("recipe.total_g", "give the total in grams", "the recipe has no total")
	}
	c.order(Order{TotalG: r.TotalG, JarML: r.JarML, AllowanceShare: r.AllowanceShare, AllowanceG: r.AllowanceG})
	if strings.TrimSpace(r.Liquid) == "" {
		c.add("recipe.liquid", `say which, as in liquid = "water"`, "the recipe does not say which liquid")
	}
	c.number("recipe.rest_s", "a rest", "s", float64(r.RestS), 0, MaxRestS)
	if q := r.Ratio; !(q.Low > 0 && q.Low <= q.Median && q.Median <= q.High && q.High <= 1000) {
		c.add("recipe.ratio", "give median, low and high in g liquid per g powder, low to high, above 0 and up to 1000", "the ratio %s with low %s and high %s is not possible", Number(q.Median), Number(q.Low), Number(q.High))
	}
	if n := len(r.Powders); n < 1 || n > MaxMixed {
		c.add("powder", "give one, or up to five for a mix", "the recipe has %d powders", n)
	}
	for i, p := range r.Powders {
		path := fmt.Sprintf("powder[%d]", i)
		c.name(path+".name", p.Name, "the powder")
		if p.Share == 0 && len(r.Powders) > 1 {
			c.add(path+".share", "give a part by mass, as in share = 0.6", "a powder of a mix has no share")
		}
		if !(p.parts() > 0 && p.parts() <= maxGrams) {
			c.add(path+".share", "give a part by mass above 0, as in share = 0.6", "a share of %s is not possible", Number(p.Share))
		}
		choice(c, path+".family", "the family", p.Family, Families()...)
		c.optional(path+".ratio", "a ratio", "g/g", p.Ratio, 1000)
	}
	c.order(Order{Extras: r.Extras})
	return c.problems
}

// name complains about a name that is missing or too long.
func (c *checker) name(path, name, what string) {
	switch {
	case strings.TrimSpace(name) == "":
		c.add(path, "give it one", "%s has no name", what)
	case utf8.RuneCountInString(name) > maxNameLength:
		c.add(path, fmt.Sprintf("keep it within %d characters", maxNameLength), "the name of %s is too long", what)
	}
}
