package model

import (
	"cmp"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"daub.example/daub/model/fit"
)

// RecipeSchema is the version of a recipe's file.
const RecipeSchema = 1

// MaxMixed is the number of powders a mix may have.
const MaxMixed = 5

// RecipePowder is a powder of a recipe, as it was when the recipe was saved. It keeps the
// facts behind its cautions too, so that a card never lacks them.
type RecipePowder struct {
	Slug          string // of its profile on the shelf; "" unknown
	Name          string
	Lot           string
	Share         float64 // part by mass among the powders; 0 means 1, for a single one
	Family        Family
	KeepFromMetal bool
	Fizzes        *bool    // as Powder.Fizzes
	Allergens     []string // as Powder.Allergens
	Ratio         float64  // R of its profile when the recipe was saved, g/g; 0 unknown
}

// Powder gives the powder as a profile holds it.
func (p RecipePowder) Powder() Powder {
	return Powder{
		Name: p.Name, Lot: p.Lot, Family: p.Family, KeepFromMetal: p.KeepFromMetal, Fizzes: p.Fizzes,
		Allergens: p.Allergens,
	}
}

// parts gives the powder's part by mass.
func (p RecipePowder) parts() float64 { return cmp.Or(p.Share, 1) }

// Recipe is a batch written down: one file on the shelf. Paths of problems are those of its
// file: [recipe], [[powder]], [[extra]].
type Recipe struct {
	Schema         int // 0 means RecipeSchema
	Name           string
	Notes          string
	Saved          time.Time // zero means not recorded
	Level          float64
	TotalG         float64
	Portions       int     // single portions that share the total; 0 for one bowl
	PortionG       float64 // each, g; 0: its part of the total
	JarML          float64 // the jar it was calculated for; 0 without
	JarG           float64 // the jar's filling to 95 %, g; 0 unknown
	AllowanceShare float64
	AllowanceG     float64
	Spoons         []string // at hand; nil means DefaultSpoons
	Liquid         string
	RestS          int
	Ratio          fit.Interval // R used: of the next dish
	Trial          time.Time    // start of the newest trial behind it; zero means not recorded
	Powders        []RecipePowder
	Extras         []Extra
	Order          []string // names in the order of addition; nil as usual
	Steps          []string // in order
	Made, UseBy    string   // days, as in 2026-05-04; "" to be filled in by hand
	Warnings       []string // to be shown with its ratio
}

// Fraction gives the share of powder i in all the powder, 0 to 1.
func (r Recipe) Fraction(i int) float64 {
	sum := 0.0
	for _, p := range r.Powders {
		sum += p.parts()
	}
	return r.Powders[i].parts() / sum
}

// Validate lists the problems of a recipe, in the order of its file; nil when it is sound.
func (r Recipe) Validate() []Problem {
	c := &checker{}
	if r.Schema != 0 && r.Schema != RecipeSchema {
		c.add("schema", fmt.Sprintf("use schema = %d, or a newer daub", RecipeSchema), "schema %d is not known",
			r.Schema)
	}
	c.name("recipe.name", r.Name, "the recipe")
	c.text("recipe.notes", "the notes", r.Notes, true)
	if err := CheckLevel(r.Level); err != nil {
		c.add("recipe.level", "give a whole or half level from 1 to 6", "level %s has no ratio", Number(r.Level))
	}
	if r.TotalG == 0 {
		c.add("recipe.total_g", "give the total in grams", "the recipe has no total")
	}
	c.order(Order{
		TotalG: r.TotalG, Portions: r.Portions, PortionG: r.PortionG, JarML: r.JarML,
		AllowanceShare: r.AllowanceShare, AllowanceG: r.AllowanceG,
	})
	c.day("recipe.made", r.Made)
	c.day("recipe.use_by", r.UseBy)
	if strings.TrimSpace(r.Liquid) == "" {
		c.add("recipe.liquid", `say which, as in liquid = "water"`, "the recipe does not say which liquid")
	}
	c.text("recipe.liquid", "the liquid's name", r.Liquid, false)
	c.texts("recipe.spoons", "a spoon's name", r.Spoons, false)
	c.texts("recipe.order", "a name in the order", r.Order, false)
	c.texts("recipe.steps", "a step", r.Steps, true)
	c.texts("recipe.warnings", "a warning", r.Warnings, true)
	c.number("recipe.rest_s", "a rest", "s", float64(r.RestS), 0, MaxRestS)
	if q := r.Ratio; !(q.Low >= least && q.Low <= q.Median && q.Median <= q.High && q.High <= 1000) {
		c.add("recipe.ratio",
			"give median, low and high in g liquid per g powder, low to high, above 0 and up to 1000",
			"the ratio %s with low %s and high %s is not possible", Number(q.Median), Number(q.Low), Number(q.High))
	}
	if n := len(r.Powders); n < 1 || n > MaxMixed {
		c.add("powder", "give one, or up to five for a mix", "the recipe has %d powders", n)
	}
	for i, p := range r.Powders {
		path := fmt.Sprintf("powder[%d]", i)
		c.name(path+".name", p.Name, "the powder")
		c.text(path+".lot", "the lot", p.Lot, false)
		c.text(path+".slug", "the name of its file", p.Slug, false)
		c.allergens(path+".allergens", p.Allergens)
		if p.Share == 0 && len(r.Powders) > 1 {
			c.add(path+".share", "give a part by mass, as in share = 0.6", "a powder of a mix has no share")
		}
		if !(p.parts() >= least && p.parts() <= MaxGrams) {
			c.add(path+".share", "give a part by mass above 0, as in share = 0.6", "a share of %s is not possible",
				Number(p.Share))
		}
		choice(c, path+".family", "the family", p.Family, Families()...)
		c.optional(path+".ratio", "a ratio", "g/g", p.Ratio, 1000)
	}
	c.order(Order{Extras: r.Extras})
	if _, liquid, _ := Split(r.Extras, r.Ratio.Median); len(c.problems) == 0 && liquid < 0 {
		c.add("extra", "take less of them, or a powder that takes up more",
			"the liquid extras are more than the powder takes up")
	}
	return c.problems
}

// Day is the layout of a written day, 2006-01-02.
const Day = "2006-01-02"

// day complains about a text that is no day.
func (c *checker) day(path, text string) {
	if _, err := time.Parse(Day, text); text != "" && err != nil {
		c.add(path, `give a day as in "2026-05-04", or leave it out`, "%q is no day", text)
	}
}

// name complains about a name that is missing, too long or no plain text.
func (c *checker) name(path, name, what string) {
	switch {
	case strings.TrimSpace(name) == "":
		c.add(path, "give it one", "%s has no name", what)
	case utf8.RuneCountInString(name) > MaxNameLength:
		c.add(path, fmt.Sprintf("keep it within %d characters", MaxNameLength), "the name of %s is too long", what)
	default:
		c.text(path, "the name of "+what, name, false)
	}
}

// texts complains about each text of a list, and about too many of them.
func (c *checker) texts(path, what string, list []string, notes bool) {
	if n := len(list); n > maxListed {
		c.add(path, fmt.Sprintf("keep them within %d", maxListed), "a list of %d is not possible", n)
		return
	}
	for _, s := range list {
		c.text(path, what, s, notes)
	}
}
