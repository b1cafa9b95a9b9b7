package main

import (
	"fmt"
	"time"

	"daub.example/daub/data"
	"daub.example/daub/model"
)

// recipeJSON is the answer of `daub recipe show --json`, and of scale and swap;
// that of list is a list of them, by name.
type recipeJSON struct {
	Recipe   string             `json:"recipe"`
	Slug     string             `json:"slug"` // of the recipe it is, or comes from
	File     string             `json:"file"`
	Notes    string             `json:"notes"`
	Saved    *time.Time         `json:"saved"`
	Level    float64            `json:"level"`
	Liquid   string             `json:"liquid"`
	RestS    int                `json:"rest_s"`
	Ratio    *data.IntervalJSON `json:"ratio"`      // of the next dish, as it was when saved
	Trial    *time.Time         `json:"last_trial"` // the newest that it rests on
	TotalG   *float64           `json:"total_g"`
	MadeG    *float64           `json:"made_g"` // with what sticks to the bowl
	JarML    *float64           `json:"jar_ml"` // null without a jar
	PowderG  *data.IntervalJSON `json:"powder_g"`
	LiquidG  *data.IntervalJSON `json:"liquid_g"`
	Powders  []recipePowderJSON `json:"powders"`
	Extras   []extraJSON        `json:"extras"`
	StartG   *float64           `json:"start_g"`
	HoldG    *float64           `json:"hold_back_g"`
	SpareG   *float64           `json:"spare_g"`
	Steps    []string           `json:"steps"`
	Warnings []string           `json:"warnings"` // that go with its amounts
	Changes  []string           `json:"changes"`  // since it was saved
	Cautions []string           `json:"cautions"`
	Deferral string             `json:"deferral"`
	SavedAs  *savedJSON         `json:"saved_as"` // null unless scale or swap saved it
}

// recipePowderJSON is a powder of a recipe as it was when saved.
type recipePowderJSON struct {
	Powder   string   `json:"powder"`
	Lot      string   `json:"lot"`
	Slug     string   `json:"slug"`
	Family   string   `json:"family"`
	Fraction *float64 `json:"fraction"` // of all the powder
	Grams    *float64 `json:"grams"`
	Ratio    *float64 `json:"ratio"` // of its profile; null unknown
}

func (r recipeAnswer) json() recipeJSON {
	recipe, a := r.recipe, r.recipe.Amounts()
	out := recipeJSON{
		Recipe: recipe.Name, Slug: r.slug, File: r.file, Notes: recipe.Notes, Saved: moment(recipe.Saved),
		Level: recipe.Level, Liquid: recipe.Liquid, RestS: recipe.RestS, Ratio: data.ToInterval(&recipe.Ratio), Trial: moment(recipe.Trial),
		TotalG: data.Number(a.TotalG), MadeG: data.Number(a.MadeG), JarML: data.Positive(recipe.JarML),
		PowderG: data.ToInterval(&a.Powder), LiquidG: data.ToInterval(&a.Liquid),
		Powders: []recipePowderJSON{}, Extras: toExtras(recipe.Extras, a.ExtrasG),
		StartG: data.Number(a.StartG), HoldG: data.Number(a.HoldBackG), SpareG: data.Number(a.SpareG),
		Steps: filled(recipe.Steps), Warnings: filled(recipe.Cares(r.profiles, r.drawer)), Changes: filled(r.changes()), SavedAs: r.saved,
	}
	cautions := cautionsOf(r.powders()...)
	out.Cautions, out.Deferral = cautions[:len(cautions)-1], model.Deferral
	for i, p := range recipe.Powders {
		f := recipe.Fraction(i)
		out.Powders = append(out.Powders, recipePowderJSON{
			p.Name, p.Lot, p.Slug, string(p.Powder().Kind()), data.Number(f), data.Number(f * a.Powder.Median), data.Positive(p.Ratio),
		})
	}
	return out
}

// powders are those of the recipe.
func (r recipeAnswer) powders() []model.Powder {
	var out []model.Powder
	for _, p := range r.recipe.Powders {
		out = append(out, p.Powder())
	}
	return out
}

// page is the recipe for a person.
func (r recipeAnswer) page(p *page) {
	recipe, a := r.recipe, r.recipe.Amounts()
	p.say("", "", recipe.Name)
	if r.made != "" {
		p.say("", "", fmt.Sprintf("%s from the recipe on the shelf, which stays as it is:", r.made))
	}
	p.line("%s", r.file)
	if recipe.Notes != "" {
		p.say("", "", "Notes: "+recipe.Notes)
	}
	p.gap()
	size := fmt.Sprintf("%s g at %s", model.Grams(a.TotalG), model.LevelName(recipe.Level))
	if recipe.JarML > 0 {
		size += fmt.Sprintf(", for a jar of %s mL", model.Number(recipe.JarML))
	}
	p.line("%s:", size)
	p.gap()
	var rows [][]string
	for i, powder := range recipe.Powders {
		rows = append(rows, []string{handle(powder.Powder()), model.Grams(a.Powder.Median * recipe.Fraction(i)), r.spoons(i, a)})
	}
	rows = append(rows, []string{recipe.Liquid, model.Grams(a.Liquid.Median), ""})
	p.amounts(append(rows, extraRows(recipe.Extras, a.ExtrasG)...))
	if a.MadeG > a.TotalG {
		p.say("", "", fmt.Sprintf("That makes %s g, %s g of it for what sticks to the bowl.", model.Grams(a.MadeG), model.Grams(a.MadeG-a.TotalG)))
	}
	p.say("", "", a.HoldBack(recipe.Liquid))
	steps := make([]string, len(recipe.Steps))
	for i, s := range recipe.Steps {
		steps[i] = fmt.Sprintf("%d. %s", i+1, s)
	}
	p.list("Steps:", steps...)
	p.list("Mind:", recipe.Mind(r.profiles, r.drawer)...)
	p.list("Cautions:", cautionsOf(r.powders()...)...)
	if r.saved != nil {
		p.gap()
		p.line("The recipe is saved: %s", r.saved.File)
	}
}

// spoons is powder i in level spoons, where its profile is at hand.
func (r recipeAnswer) spoons(i int, a model.Amounts) string {
	powder := r.recipe.Powders[i]
	for _, p := range r.profiles {
		if p.Powder.Name != powder.Name || p.Powder.Lot != powder.Lot {
			continue
		}
		sum, err := p.Scales(spoonSetOf(p), r.drawer).SpoonsFor(a.Powder.Median*r.recipe.Fraction(i), r.recipe.Spoons)
		if err == nil {
			return fmt.Sprintf("%s (%s g)", sum, model.Grams(sum.Grams))
		}
	}
	return "weigh it"
}
