package kitchen

import (
	"fmt"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
)

// dateFormat is how a card writes a day.
const dateFormat = "2006-01-02"

// Card is the recipe as Markdown: amounts, steps, what to hold back, what it
// rests on, and the cautions. Profiles of its powders that are at hand give
// the amounts in spoons and tell whether they have changed; others do no harm.
// A recipe that is not sound gives a card that says why.
func Card(r model.Recipe, profiles []model.Profile, d model.Drawer) string {
	c := &card{}
	c.line("# %s", printable.Words(r.Name))
	if problems := r.Validate(); len(problems) > 0 {
		c.section("Not to be made up yet")
		for _, p := range problems {
			c.line("- %s: %s", p.Place(), printable.Words(p.Fix))
		}
		return c.String()
	}
	a := RecipeAmounts(r)
	size := fmt.Sprintf("%s g at %s", model.Grams(a.TotalG), model.LevelName(r.Level))
	if r.JarML > 0 {
		size += fmt.Sprintf(", for a jar of %s mL", model.Number(r.JarML))
	}
	if a.MadeG > a.TotalG {
		size += fmt.Sprintf("; %s g more are made for what sticks to the bowl", model.Grams(a.MadeG-a.TotalG))
	}
	c.line("")
	c.line("%s.", size)
	if r.Notes != "" {
		c.line("")
		c.line("%s", strings.TrimSpace(r.Notes))
	}
	c.amounts(r, a, profiles, d)
	c.section("Steps")
	for i, s := range r.Steps {
		c.line("%d. %s", i+1, printable.Words(s))
	}
	c.section("Hold back")
	c.line("%s", a.HoldBack(printable.Words(r.Liquid)))
	c.section("Rests on")
	c.restsOn(r, profiles, d)
	c.section("Cautions")
	for _, s := range RecipeCautions(r, profiles) {
		c.line("- %s", s)
	}
	c.line("- %s", model.Deferral)
	return c.String()
}

// card gathers lines.
type card struct{ strings.Builder }

func (c *card) line(format string, args ...any) { fmt.Fprintf(c, format+"\n", args...) }

func (c *card) section(title string) { c.line("\n## %s\n", title) }

// amounts is the table of what goes in.
func (c *card) amounts(r model.Recipe, a Amounts, profiles []model.Profile, d model.Drawer) {
	c.section("Amounts")
	c.line("| what | grams | level spoons |")
	c.line("| --- | ---: | --- |")
	for i, p := range r.Powders {
		grams := a.Powder.Median * r.Fraction(i)
		spoons := "weigh it"
		if profile, ok := profileOf(p, profiles); ok {
			side := SideOf(profile, basisOf(r, profile), r.Level, d)
			if sum := spoonsOrNone(side.Scales, grams, r.Spoons); sum != nil {
				spoons = fmt.Sprintf("%s (%s g)", sum, model.Grams(sum.Grams))
			}
		}
		c.line("| %s | %s | %s |", cell(p.Powder().Title()), model.Grams(grams), cell(spoons))
	}
	c.line("| %s | %s | |", cell(r.Liquid), model.Grams(a.Liquid.Median))
	for i, e := range r.Extras {
		name := e.Name
		if e.Notes != "" {
			name += " (" + e.Notes + ")"
		}
		c.line("| %s | %s | |", cell(name), model.Grams(a.ExtrasG[i]))
	}
}

// restsOn says where the ratio comes from, and what has changed since.
func (c *card) restsOn(r model.Recipe, profiles []model.Profile, d model.Drawer) {
	c.line("%s g %s per g powder for the next dish, rest %s; newest trial %s, saved %s.", bench.IntervalText(r.Ratio), printable.Words(r.Liquid), model.Seconds(r.RestS), day(r.Trial), day(r.Saved))
	for _, text := range Notices(r, profiles, d) {
		c.line("\n**%s**", printable.Words(text))
	}
}

// day is a date, "not recorded" for the zero time.
func day(t time.Time) string {
	if t.IsZero() {
		return "not recorded"
	}
	return t.Format(dateFormat)
}

// cell is a text that cannot break a table.
func cell(s string) string { return strings.ReplaceAll(printable.Words(s), "|", `\|`) }
