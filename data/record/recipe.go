package record

import (
	"time"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// recipeFile is the file of one recipe.
type recipeFile struct{ model.Recipe }

// recipeFields are the fields of a recipe's file, in the order they are written;
// data/FORMAT.md shows one.
var recipeFields = []tomlfile.Field[recipeFile]{
	schemaField(func(f *recipeFile) *int { return &f.Schema }),
	tomlfile.Table("recipe", "[recipe]",
		func(f *recipeFile) *model.Recipe { return &f.Recipe }, recipeOwnFields).Required(),
	tomlfile.Tables("powder", "[[powder]]",
		func(f *recipeFile) *[]model.RecipePowder { return &f.Powders }, recipePowderFields).Required(),
	tomlfile.Tables("extra", "[[extra]]", func(f *recipeFile) *[]model.Extra { return &f.Extras }, extraFields),
}

var recipeOwnFields = []tomlfile.Field[model.Recipe]{
	tomlfile.Text("name", `name = "Soft face mask"`, func(r *model.Recipe) *string { return &r.Name }).Required(),
	tomlfile.Text("notes", `notes = "for the open day"`, func(r *model.Recipe) *string { return &r.Notes }),
	tomlfile.Moment("saved", "saved = 2026-05-04T09:30:00Z", func(r *model.Recipe) *time.Time { return &r.Saved }),
	tomlfile.Decimal("level", "level = 5.0", func(r *model.Recipe) *float64 { return &r.Level }).Required(),
	tomlfile.Decimal("total_g", "total_g = 120.0", func(r *model.Recipe) *float64 { return &r.TotalG }).Required(),
	tomlfile.Whole("portions", "portions = 8", func(r *model.Recipe) *int { return &r.Portions }),
	tomlfile.Decimal("portion_g", "portion_g = 15.0", func(r *model.Recipe) *float64 { return &r.PortionG }).NotZero(),
	tomlfile.Decimal("jar_ml", "jar_ml = 100.0", func(r *model.Recipe) *float64 { return &r.JarML }).NotZero(),
	tomlfile.Decimal("jar_g", "jar_g = 92.8", func(r *model.Recipe) *float64 { return &r.JarG }).NotZero(),
	tomlfile.Decimal("allowance_share", "allowance_share = 0.05",
		func(r *model.Recipe) *float64 { return &r.AllowanceShare }),
	tomlfile.Decimal("allowance_g", "allowance_g = 2.0", func(r *model.Recipe) *float64 { return &r.AllowanceG }),
	tomlfile.Text("liquid", `liquid = "water"`, func(r *model.Recipe) *string { return &r.Liquid }).Required(),
	tomlfile.Whole("rest_s", "rest_s = 120", func(r *model.Recipe) *int { return &r.RestS }),
	tomlfile.Moment("newest_trial", "newest_trial = 2026-05-03T10:12:00Z",
		func(r *model.Recipe) *time.Time { return &r.Trial }),
	tomlfile.Texts("spoons", `spoons = ["1 tsp", "1/2 tsp"]`, func(r *model.Recipe) *[]string { return &r.Spoons }),
	tomlfile.Texts("order", `order = ["Fine oat flour", "water", "honey"]`,
		func(r *model.Recipe) *[]string { return &r.Order }),
	tomlfile.Text("made", `made = "2026-05-04"`, func(r *model.Recipe) *string { return &r.Made }),
	tomlfile.Text("use_by", `use_by = "2026-05-05"`, func(r *model.Recipe) *string { return &r.UseBy }),
	tomlfile.LongTexts("steps", `steps = ["Weigh the powder."]`, func(r *model.Recipe) *[]string { return &r.Steps }),
	tomlfile.LongTexts("warnings", `warnings = ["A first estimate."]`,
		func(r *model.Recipe) *[]string { return &r.Warnings }),
	tomlfile.Table("ratio", "[recipe.ratio]",
		func(r *model.Recipe) *fit.Interval { return &r.Ratio }, intervalFields).Required(),
}

var intervalFields = []tomlfile.Field[fit.Interval]{
	tomlfile.Decimal("median", "median = 1.93", func(iv *fit.Interval) *float64 { return &iv.Median }).Required(),
	tomlfile.Decimal("low", "low = 1.48", func(iv *fit.Interval) *float64 { return &iv.Low }).Required(),
	tomlfile.Decimal("high", "high = 2.52", func(iv *fit.Interval) *float64 { return &iv.High }).Required(),
}

var recipePowderFields = []tomlfile.Field[model.RecipePowder]{
	tomlfile.Text("name", `name = "Fine oat flour"`,
		func(p *model.RecipePowder) *string { return &p.Name }).Required().Identity(),
	tomlfile.Text("lot", `lot = "2026-04"`, func(p *model.RecipePowder) *string { return &p.Lot }).Identity(),
	tomlfile.Text("slug", `slug = "fine-oat-flour-2026-04"`, func(p *model.RecipePowder) *string { return &p.Slug }),
	tomlfile.Decimal("share", "share = 0.6", func(p *model.RecipePowder) *float64 { return &p.Share }).NotZero(),
	tomlfile.Text("family", `family = "flour"`, func(p *model.RecipePowder) *model.Family { return &p.Family }),
	tomlfile.Flag("keep_from_metal", "keep_from_metal = false",
		func(p *model.RecipePowder) *bool { return &p.KeepFromMetal }),
	tomlfile.MaybeFlag("fizzes", "fizzes = true", func(p *model.RecipePowder) **bool { return &p.Fizzes }),
	tomlfile.Texts("allergens", `allergens = ["gluten"]`,
		func(p *model.RecipePowder) *[]string { return &p.Allergens }),
	tomlfile.Decimal("ratio", "ratio = 1.93", func(p *model.RecipePowder) *float64 { return &p.Ratio }).NotZero(),
}

var extraFields = []tomlfile.Field[model.Extra]{
	tomlfile.Text("name", `name = "honey"`, func(e *model.Extra) *string { return &e.Name }).Required().Identity(),
	tomlfile.Decimal("share", "share = 0.03", func(e *model.Extra) *float64 { return &e.Share }).Required(),
	tomlfile.Text("counts", `counts = "liquid"`, func(e *model.Extra) *model.Counts { return &e.Counts }),
	tomlfile.Text("notes", `notes = "warmed"`, func(e *model.Extra) *string { return &e.Notes }),
}

// ReadRecipe reads the file of one recipe, as strictly as ReadProfile.
func ReadRecipe(src []byte) (model.Recipe, *tomlfile.Document, []tomlfile.Problem) {
	doc, problems := tomlfile.Parse(src)
	if problems != nil {
		return model.Recipe{}, nil, problems
	}
	r, problems := RecipeOf(doc)
	return r, doc, problems
}

// RecipeOf is ReadRecipe for text parsed already.
func RecipeOf(doc *tomlfile.Document) (model.Recipe, []tomlfile.Problem) {
	var f recipeFile
	if problems := newer(doc); problems != nil {
		return f.Recipe, problems
	}
	problems := tomlfile.Fill(doc, recipeFields, &f, func(bool) []model.Problem { return f.Validate() })
	return f.Recipe, problems
}

// WriteRecipe writes the file of one recipe, with the rules of WriteProfile.
// Whether the recipe makes sense is for model.Recipe.Validate.
func WriteRecipe(r model.Recipe, old *tomlfile.Document) ([]byte, error) {
	r.Schema = model.RecipeSchema
	return tomlfile.Write(recipeFields, &recipeFile{r}, old)
}
