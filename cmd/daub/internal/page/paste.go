package page

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/repeats"
)

// Ingredient is one line of a paste's table.
type Ingredient struct {
	What   string
	Grams  float64
	Spoons string // the same in level spoons; "" if there are none
	Counts string // what an extra counts as
}

// Spooned gives a sum of level spoons and its grams; nil must be weighed.
func Spooned(sum *kitchen.SpoonSum) string {
	if sum == nil {
		return "weigh it"
	}
	return fmt.Sprintf("%s (%s g)", sum, model.Grams(sum.Grams))
}

// Checked names the spoons that were checked with water, if there are any.
func (p *Page) Checked(text string) {
	if text != "" {
		p.Say("Spoons: " + text + ".")
	}
}

// Extras makes the lines for the extras.
func Extras(extras []model.Extra, grams []float64) []Ingredient {
	lines := make([]Ingredient, len(extras))
	for i, e := range extras {
		lines[i] = Ingredient{What: e.Name, Grams: grams[i], Counts: string(e.Counts)}
	}
	return lines
}

// Ingredients writes the table of ingredients with their total.
func (p *Page) Ingredients(lines []Ingredient, totalG float64) {
	lines = append(lines, Ingredient{What: "altogether", Grams: totalG})
	columns := []Column{{Title: "what"}, {Title: "grams", Right: true}}
	rows := make([][]string, len(lines))
	for i, l := range lines {
		rows[i] = []string{l.What, model.Grams(l.Grams)}
	}
	add := func(title string, cell func(Ingredient) string) {
		if !slices.ContainsFunc(lines, func(l Ingredient) bool { return cell(l) != "" }) {
			return
		}
		columns = append(columns, Column{Title: title})
		for i, l := range lines {
			rows[i] = append(rows[i], cell(l))
		}
	}
	add("level spoons", func(l Ingredient) string { return l.Spoons })
	add("counts as", func(l Ingredient) string { return l.Counts })
	p.Table(columns, rows)
	p.Gap()
}

// Worked gives the ratio used for the amounts, so that they can be checked.
func (p *Page) Worked(ratio fit.Interval, a kitchen.Amounts, liquid string) {
	counted := ""
	if a.CountedG > 0 {
		counted = fmt.Sprintf(" and %s g that counts as liquid", model.Grams(a.CountedG))
	}
	p.Say(fmt.Sprintf("Ratio %s: %s g %s%s, to %s g powder.", model.RatioText(repeats.RoundedInterval(ratio).Median),
		model.Grams(a.Liquid.Median), liquid, counted, model.Grams(a.Powder.Median)))
}

// Bowl says how much is made on top for the bowl, if anything.
func (p *Page) Bowl(a kitchen.Amounts) {
	if a.MadeG > a.TotalG {
		p.Say(fmt.Sprintf("Altogether %s g: the %s g wanted, and %s g for what sticks to the bowl.",
			model.Grams(a.MadeG), model.Grams(a.TotalG), model.Grams(a.MadeG-a.TotalG)))
	}
}

// Batch writes a batch made to order.
func (p *Page) Batch(b kitchen.Batch) {
	p.Say(fmt.Sprintf("%s g at %s, %s:", model.Grams(b.TotalG), model.LevelName(b.Paste.Level), b.Paste.Tried()))
	p.Gap()
	var lines []Ingredient
	for _, part := range b.Powders {
		lines = append(lines, Ingredient{What: Handle(part.Powder), Grams: part.Grams, Spoons: Spooned(part.Spoons)})
	}
	lines = append(lines, Ingredient{What: b.Paste.Basis.Liquid, Grams: b.Liquid.Median})
	p.Ingredients(append(lines, Extras(b.Order.Extras, b.ExtrasG)...), b.MadeG)
	p.Worked(b.Paste.Next, b.Amounts, b.Paste.Basis.Liquid)
	p.Checked(b.Checked())
	p.Bowl(b.Amounts)
	if b.PortionG > 0 {
		p.Say(fmt.Sprintf("%s of %s g.", model.Plural(b.Order.Portions, "portion"), model.Grams(b.PortionG)))
	}
	if b.JarG > 0 && b.Fits() {
		p.Say(fmt.Sprintf("A jar of %s mL, filled to 95 %%, holds %s g; air stirred in is not counted.",
			model.Number(b.Order.JarML), model.Grams(b.JarG)))
	}
	p.Say(b.HoldBack(b.Paste.Basis.Liquid))
	p.List("Take care:", b.Warnings...)
}

// Cautions writes cautions, and who has the last word on safety.
func (p *Page) Cautions(cautions []string) {
	p.List("Cautions:", append(cautions[:len(cautions):len(cautions)], care.Deferral)...)
}
