package data

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// recipeKeys is the file of one recipe, in the order it is written:
//
//	schema = 1
//
//	[recipe]
//	name = "Soft face mask"
//	notes = ""                       # optional
//	saved = 2026-05-04T09:30:00Z     # optional
//	level = 5.0                      # 1 to 6 in halves
//	total_g = 120.0                  # what comes out
//	jar_ml = 100.0                   # optional: the jar it was reckoned for
//	jar_g = 131.2                    # optional: what that jar holds, filled to 95 %
//	allowance_share = 0.05           # optional: of the total, for the bowl
//	allowance_g = 2.0                # optional: for the bowl, on top
//	liquid = "water"
//	rest_s = 120                     # optional
//	newest_trial = 2026-05-03T10:12:00Z   # optional: start of the newest trial it rests on
//	spoons = ["1 tsp", "1/2 tsp"]    # optional: at hand
//	steps = [                        # optional, in order
//	  "Weigh the powder and break up its lumps.",
//	]
//	warnings = []                    # optional: what has to be told beside its ratio
//
//	[recipe.ratio]                   # g liquid per g powder, of the next dish
//	median = 1.93
//	low = 1.48
//	high = 2.52
//
//	[[powder]]                       # one, or up to five of a mix
//	name = "Fine oat flour"
//	lot = "2026-04"                  # optional
//	slug = "fine-oat-flour-2026-04"  # optional: of its profile on the shelf
//	share = 0.6                      # part by mass among the powders; optional for a single one
//	family = "flour"                 # optional, for the cautions
//	keep_from_metal = false          # optional, for the cautions
//	ratio = 1.93                     # optional: of its profile when the recipe was saved
//
//	[[extra]]                        # optional
//	name = "honey"
//	share = 0.03                     # of the total
//	notes = ""                       # optional
//
// Numbers are written as in a profile, and comments kept.
var recipeKeys = []key{
	{name: "schema", kind: kindWhole, required: true, example: "schema = 1"},
	{name: "recipe", kind: kindTable, required: true, example: "[recipe]", keys: []key{
		{name: "name", kind: kindText, required: true, example: `name = "Soft face mask"`},
		{name: "notes", kind: kindText, example: `notes = "for the open day"`},
		{name: "saved", kind: kindMoment, example: "saved = 2026-05-04T09:30:00Z"},
		{name: "level", kind: kindDecimal, required: true, example: "level = 5.0"},
		{name: "total_g", kind: kindDecimal, required: true, example: "total_g = 120.0"},
		{name: "jar_ml", kind: kindDecimal, nonzero: true, example: "jar_ml = 100.0"},
		{name: "jar_g", kind: kindDecimal, nonzero: true, example: "jar_g = 92.8"},
		{name: "allowance_share", kind: kindDecimal, example: "allowance_share = 0.05"},
		{name: "allowance_g", kind: kindDecimal, example: "allowance_g = 2.0"},
		{name: "liquid", kind: kindText, required: true, example: `liquid = "water"`},
		{name: "rest_s", kind: kindWhole, example: "rest_s = 120"},
		{name: "newest_trial", kind: kindMoment, example: "newest_trial = 2026-05-03T10:12:00Z"},
		{name: "spoons", kind: kindTexts, example: `spoons = ["1 tsp", "1/2 tsp"]`},
		{name: "steps", kind: kindTexts, example: `steps = ["Weigh the powder."]`},
		{name: "warnings", kind: kindTexts, example: `warnings = ["A first estimate."]`},
		{name: "ratio", kind: kindTable, required: true, example: "[recipe.ratio]", keys: []key{
			{name: "median", kind: kindDecimal, required: true, example: "median = 1.93"},
			{name: "low", kind: kindDecimal, required: true, example: "low = 1.48"},
			{name: "high", kind: kindDecimal, required: true, example: "high = 2.52"},
		}},
	}},
	{name: "powder", kind: kindTables, required: true, example: "[[powder]]", keys: []key{
		{name: "name", kind: kindText, required: true, example: `name = "Fine oat flour"`},
		{name: "lot", kind: kindText, example: `lot = "2026-04"`},
		{name: "slug", kind: kindText, example: `slug = "fine-oat-flour-2026-04"`},
		{name: "share", kind: kindDecimal, nonzero: true, example: "share = 0.6"},
		{name: "family", kind: kindText, example: `family = "flour"`},
		{name: "keep_from_metal", kind: kindFlag, example: "keep_from_metal = false"},
		{name: "ratio", kind: kindDecimal, nonzero: true, example: "ratio = 1.93"},
	}},
	{name: "extra", kind: kindTables, example: "[[extra]]", keys: []key{
		{name: "name", kind: kindText, required: true, example: `name = "honey"`},
		{name: "share", kind: kindDecimal, required: true, example: "share = 0.03"},
		{name: "notes", kind: kindText, example: `notes = "warmed"`},
	}},
}

// DecodeRecipe reads the file of one recipe, as strictly as Decode; file is
// the name complaints go by.
func DecodeRecipe(file string, src []byte) (model.Recipe, error) {
	r, problems := decodeRecipe(src)
	return r, refuse(file, problems)
}

func decodeRecipe(src []byte) (model.Recipe, []Problem) {
	tree, ix, problems := parse(src)
	if problems != nil {
		return model.Recipe{}, problems
	}
	if p, newer := future(tree); newer {
		return model.Recipe{}, ix.place([]model.Problem{p})
	}
	var w walker
	w.file(tree, recipeKeys)
	r := toRecipe(tree)
	return r, ix.place(append(w.problems, w.uncovered(r.Validate())...))
}

func toRecipe(tree fields) model.Recipe {
	f := tree.table("recipe")
	ratio := f.table("ratio")
	r := model.Recipe{
		Schema: tree.whole("schema"), Name: f.text("name"), Notes: f.text("notes"),
		Saved: f.moment("saved"), Level: f.decimal("level"),
		TotalG: f.decimal("total_g"), JarML: f.decimal("jar_ml"), JarG: f.decimal("jar_g"),
		AllowanceShare: f.decimal("allowance_share"), AllowanceG: f.decimal("allowance_g"),
		Spoons: f.texts("spoons"), Liquid: f.text("liquid"), RestS: f.whole("rest_s"),
		Ratio: fit.Interval{Median: ratio.decimal("median"), Low: ratio.decimal("low"), High: ratio.decimal("high")},
		Trial: f.moment("newest_trial"), Steps: f.texts("steps"), Warnings: f.texts("warnings"),
	}
	for _, t := range tree.tables("powder") {
		p := fields(t)
		r.Powders = append(r.Powders, model.RecipePowder{
			Slug: p.text("slug"), Name: p.text("name"), Lot: p.text("lot"), Share: p.decimal("share"),
			Family: model.Family(p.text("family")), KeepFromMetal: p.flag("keep_from_metal"), Ratio: p.decimal("ratio"),
		})
	}
	for _, t := range tree.tables("extra") {
		e := fields(t)
		r.Extras = append(r.Extras, model.Extra{Name: e.text("name"), Share: e.decimal("share"), Notes: e.text("notes")})
	}
	return r
}

// EncodeRecipe writes the file of one recipe, on the terms of Encode. Whether
// the recipe makes sense is for model.Recipe.Validate.
func EncodeRecipe(r model.Recipe, old []byte) ([]byte, error) {
	var w writer
	w.line("schema", fmt.Sprint(model.RecipeSchema))
	w.header(0, "[recipe]")
	w.line("name", quote(r.Name))
	w.text("notes", r.Notes)
	w.moment("saved", r.Saved)
	w.number("level", r.Level)
	w.number("total_g", r.TotalG)
	w.decimal("jar_ml", r.JarML)
	w.decimal("jar_g", r.JarG)
	w.decimal("allowance_share", r.AllowanceShare)
	w.decimal("allowance_g", r.AllowanceG)
	w.line("liquid", quote(r.Liquid))
	w.whole("rest_s", r.RestS)
	w.moment("newest_trial", r.Trial)
	w.texts("spoons", r.Spoons)
	w.longTexts("steps", r.Steps)
	w.longTexts("warnings", r.Warnings)
	w.header(0, "[recipe.ratio]")
	w.number("median", r.Ratio.Median)
	w.number("low", r.Ratio.Low)
	w.number("high", r.Ratio.High)
	for _, p := range r.Powders {
		w.header(0, "[[powder]]")
		w.line("name", quote(p.Name))
		w.text("lot", p.Lot)
		w.text("slug", p.Slug)
		w.decimal("share", p.Share)
		w.text("family", string(p.Family))
		w.flag("keep_from_metal", p.KeepFromMetal)
		w.decimal("ratio", p.Ratio)
	}
	for _, e := range r.Extras {
		w.header(0, "[[extra]]")
		w.line("name", quote(e.Name))
		w.number("share", e.Share)
		w.text("notes", e.Notes)
	}
	if w.err != nil {
		return nil, w.err
	}
	return finish(w.String(), old), nil
}
