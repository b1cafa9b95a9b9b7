package main

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/paper"
	"github.com/spf13/cobra"
)

// recipeJSON is the answer of `daub recipe show --json`, and of scale and swap. The
// answer of list is a list of them, by name.
type recipeJSON struct {
	Recipe   string             `json:"recipe"`
	Slug     string             `json:"slug"` // of the recipe, or of the one it was made from
	File     string             `json:"file"`
	Notes    string             `json:"notes"`
	Saved    *time.Time         `json:"saved"`
	Level    float64            `json:"level"`
	Liquid   string             `json:"liquid"`
	RestS    int                `json:"rest_s"`
	Ratio    *export.Interval   `json:"ratio"`      // of the next dish, as it was when saved
	Trial    *time.Time         `json:"last_trial"` // the newest it is based on
	TotalG   *float64           `json:"total_g"`
	MadeG    *float64           `json:"made_g"`    // with the part that sticks to the bowl
	Portions *int               `json:"portions"`  // null for one bowl
	PortionG *float64           `json:"portion_g"` // each
	JarML    *float64           `json:"jar_ml"`    // null without a jar
	JarG     *float64           `json:"jar_g"`     // grams that fit into it, filled to 95 %
	PowderG  *export.Interval   `json:"powder_g"`
	LiquidG  *export.Interval   `json:"liquid_g"`
	Powders  []recipePowderJSON `json:"powders"`
	Extras   []extraJSON        `json:"extras"`
	CountedG *float64           `json:"counted_g"` // the extras that count as liquid
	StandsAt *float64           `json:"stands_at"` // level of its grams by the powders' curves; null if unknown
	Order    []string           `json:"order"`     // of addition
	Made     *string            `json:"made"`      // days; null to be filled in by hand
	UseBy    *string            `json:"use_by"`
	StartG   *float64           `json:"start_g"`
	HoldG    *float64           `json:"hold_back_g"`
	SpareG   *float64           `json:"spare_g"`
	Steps    []string           `json:"steps"`
	Warnings []string           `json:"warnings"` // about its amounts
	Changes  []string           `json:"changes"`  // since it was saved
	Cautions []string           `json:"cautions"`
	Deferral string             `json:"deferral"`
	Was      []differenceJSON   `json:"was"`      // amounts before and after a change; empty without one
	SavedAs  *savedJSON         `json:"saved_as"` // null unless a change was saved
}

// differenceJSON is one amount of a recipe before and after a change, g.
type differenceJSON struct {
	What   string   `json:"what"`
	Before *float64 `json:"before_g"`
	After  *float64 `json:"after_g"`
}

// recipePowderJSON is a powder of a recipe as it was when saved.
type recipePowderJSON struct {
	Powder   string   `json:"powder"`
	Lot      string   `json:"lot"`
	Slug     string   `json:"slug"`
	Family   string   `json:"family"`
	Fraction *float64 `json:"fraction"` // of all the powder
	Grams    *float64 `json:"grams"`
	Ratio    *float64 `json:"ratio"` // of its profile; null if unknown
}

func (a *app) recipeCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "recipe",
		Short: "Show, change, swap and print recipes",
		Long: `Works on the recipes of the shelf, which daub batch and daub mix save. A recipe
keeps the ratio it was made with; one whose powders have changed since says so.
RECIPE is a name that only one recipe has, or the name of its file without
.toml.`,
		Example: `  daub recipe list
  daub recipe show "face mask"
  daub recipe scale face-mask --total 300 --save "big face mask"
  daub recipe swap face-mask white-clay green-clay
  daub recipe edit face-mask --extra "oat oil=2%" --portions 8
  daub recipe rename face-mask "winter mask"
  daub recipe card face-mask > card.md`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return fmt.Errorf("there is no command %q; %s --help shows what there is",
				cmd.CommandPath()+" "+args[0], cmd.CommandPath())
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			return usage.Misused("do what with a recipe? %s list, show, card, scale, swap, "+
				"edit, rename, copy or delete", cmd.CommandPath())
		},
	}
	cmd.AddCommand(
		a.recipeListCommand(), a.recipeShowCommand(), a.recipeCardCommand(), a.recipeScaleCommand(),
		a.recipeSwapCommand(),
		a.recipeEditCommand(), a.recipeRenameCommand(), a.recipeCopyCommand(), a.recipeDeleteCommand(),
	)
	return cmd
}

func (a *app) recipeListCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:               "list",
		Short:             "Say which recipes are on the shelf",
		Example:           `  daub recipe list --json`,
		Args:              usage.Takes(0, 0, "nothing"),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(*cobra.Command, []string) error { return a.recipes(asJSON) },
	}
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// recipes lists every recipe that can be read, and reports the others.
func (a *app) recipes(asJSON bool) error {
	if err := a.shelfIsThere(); err != nil {
		return err
	}
	shelf := a.shelf()
	entries, errs := shelf.Recipes()
	ownSpoons, err := shelf.Spoons()
	if err != nil {
		return err
	}
	powders, _ := shelf.List() // a profile that cannot be read counts as changed
	recipes := make(recipesAnswer, len(entries))
	for i, e := range entries {
		recipes[i] = withProfiles(e, powders, ownSpoons)
	}
	err = a.answer(recipes, asJSON)
	if len(entries)+len(errs) == 0 {
		a.say("the shelf %s has no recipe yet; daub batch --save NAME makes one", shelf.Dir())
	}
	return a.afterList(err, errs)
}

func (a *app) recipeShowCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:               "show RECIPE",
		Short:             "Say what is in one recipe",
		Example:           `  daub recipe show "face mask"`,
		Args:              usage.Takes(1, 1, "one recipe"),
		ValidArgsFunction: a.completeRecipe(0),
		RunE: func(_ *cobra.Command, args []string) error {
			r, err := a.readRecipe(args[0])
			if err != nil {
				return err
			}
			return a.answer(r, asJSON)
		},
	}
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// recipeAnswer is a recipe with its powders' profiles as they are now.
type recipeAnswer struct {
	recipe     model.Recipe
	slug, file string          // of the recipe, or of the one it was made from
	profiles   []model.Profile // of its powders that are on the shelf
	ownSpoons  model.OwnSpoons
	was        *model.Recipe // before a change; nil without one
	made       string        // how it was made from that recipe; "" for the recipe itself
	notes      []string      // about the change
	saved      *savedJSON    // where the change was saved
}

func (a *app) readRecipe(recipe string) (recipeAnswer, error) {
	r, _, err := a.findRecipe(recipe)
	return r, err
}

// findRecipe is readRecipe that also returns the recipe's entry, for changing it.
func (a *app) findRecipe(recipe string) (recipeAnswer, data.RecipeEntry, error) {
	if err := a.shelfIsThere(); err != nil {
		return recipeAnswer{}, data.RecipeEntry{}, err
	}
	shelf := a.shelf()
	e, err := shelf.FindRecipe(recipe)
	if err != nil {
		return recipeAnswer{}, e, err
	}
	ownSpoons, err := shelf.Spoons()
	if err != nil {
		return recipeAnswer{}, e, err
	}
	powders, _ := shelf.List() // a profile that cannot be read counts as changed
	return withProfiles(e, powders, ownSpoons), e, nil
}

// withProfiles adds the profiles of a recipe's powders.
func withProfiles(e data.RecipeEntry, powders []data.Entry, own model.OwnSpoons) recipeAnswer {
	return recipeAnswer{
		recipe: e.Recipe, slug: e.Slug, file: e.Path, ownSpoons: own,
		profiles: kitchen.ProfilesOf(e.Recipe, powders),
	}
}

// changes says what has changed since the recipe was saved.
func (r recipeAnswer) changes() []string { return kitchen.Changes(r.recipe, r.profiles, r.ownSpoons) }

func (r recipeAnswer) json() any { return toRecipe(r) }

func toRecipe(r recipeAnswer) recipeJSON {
	recipe, a := r.recipe, kitchen.RecipeAmounts(r.recipe)
	out := recipeJSON{
		Recipe: recipe.Name, Slug: r.slug, File: r.file, Notes: recipe.Notes, Saved: reply.Moment(recipe.Saved),
		Level: recipe.Level, Liquid: recipe.Liquid, RestS: recipe.RestS, Ratio: export.IntervalOf(&recipe.Ratio),
		Trial: reply.Moment(recipe.Trial), TotalG: export.Number(a.TotalG),
		MadeG: export.Number(a.MadeG), JarML: export.Positive(recipe.JarML), JarG: export.Positive(recipe.JarG),
		Portions: countOrNull(recipe.Portions), PortionG: export.Positive(recipe.PortionG),
		CountedG: export.Number(a.CountedG), Order: reply.Filled(kitchen.AdditionOrder(recipe)),
		Made: reply.OrNull(recipe.Made), UseBy: reply.OrNull(recipe.UseBy), Was: []differenceJSON{},
		PowderG: export.IntervalOf(&a.Powder), LiquidG: export.IntervalOf(&a.Liquid),
		Powders: []recipePowderJSON{}, Extras: toExtras(recipe.Extras, a.ExtrasG, model.Unsorted(recipe.Extras)),
		StartG: export.Number(a.StartG), HoldG: export.Number(a.HoldBackG), SpareG: export.Number(a.SpareG),
		Steps: r.steps(), Warnings: reply.Filled(kitchen.Warnings(recipe, r.profiles,
			r.ownSpoons)), Changes: reply.Filled(r.changes()),
		Cautions: reply.Filled(kitchen.RecipeCautions(recipe, r.profiles)), Deferral: care.Deferral, SavedAs: r.saved,
	}
	if stands, ok := kitchen.RecipeStands(recipe, r.profiles, r.ownSpoons); ok {
		out.StandsAt = export.Number(stands)
	}
	if r.was != nil {
		for _, d := range kitchen.Differences(*r.was, recipe) {
			out.Was = append(out.Was, differenceJSON{d.What, export.Number(d.Before), export.Number(d.After)})
		}
	}
	for i, p := range recipe.Powders {
		f := recipe.Fraction(i)
		out.Powders = append(out.Powders, recipePowderJSON{
			p.Name, p.Lot, p.Slug, string(p.Powder().Kind()),
			export.Number(f), export.Number(f * a.Powder.Median), export.Positive(p.Ratio),
		})
	}
	return out
}

// text writes the recipe for people.
func (r recipeAnswer) text(p *page.Page) {
	recipe, a := r.recipe, kitchen.RecipeAmounts(r.recipe)
	p.Say(recipe.Name)
	if r.made != "" {
		p.Say(r.made)
	}
	for _, n := range r.notes {
		p.Say(n)
	}
	p.Line("%s", r.file)
	if recipe.Notes != "" {
		p.Say("Notes: " + recipe.Notes)
	}
	p.Gap()
	r.changed(p)
	size := fmt.Sprintf("%s g at %s", model.Grams(a.TotalG), model.LevelName(recipe.Level))
	if recipe.Portions > 0 {
		size += fmt.Sprintf(", %s of %s g", model.Plural(recipe.Portions, "portion"),
			model.Grams(a.TotalG/float64(recipe.Portions)))
	}
	if recipe.JarML > 0 {
		size += fmt.Sprintf(", for a jar of %s mL", model.Number(recipe.JarML))
	}
	p.Line("%s:", size)
	p.Gap()
	var lines []page.Ingredient
	for i, powder := range recipe.Powders {
		lines = append(lines, page.Ingredient{
			What: page.Handle(powder.Powder()), Grams: a.Powder.Median * recipe.Fraction(i),
			Spoons: page.Spooned(r.spoons(i, a)),
		})
	}
	lines = append(lines, page.Ingredient{What: recipe.Liquid, Grams: a.Liquid.Median})
	p.Ingredients(append(lines, page.Extras(recipe.Extras, a.ExtrasG)...), a.MadeG)
	p.Worked(recipe.Ratio, a, recipe.Liquid)
	p.Bowl(a)
	p.Say(a.HoldBack(recipe.Liquid))
	steps := r.steps()
	for i, s := range steps {
		steps[i] = fmt.Sprintf("%d. %s", i+1, s)
	}
	p.List("Steps:", steps...)
	p.List("Take care:", kitchen.Notices(recipe, r.profiles, r.ownSpoons)...)
	p.Cautions(kitchen.RecipeCautions(recipe, r.profiles))
	if r.saved != nil {
		p.Gap()
		p.Line("The recipe is saved: %s", r.saved.File)
	} else if r.made != "" {
		p.Gap()
		p.Say(unsaved)
	}
}

// steps lists what to do, in order, with every amount in the step that uses it.
func (r recipeAnswer) steps() []string {
	steps := []string{}
	for _, s := range paper.CardOf(r.recipe, r.profiles, r.ownSpoons, paper.Options{}).Steps {
		steps = append(steps, s.Do)
	}
	return steps
}

// changed writes the amounts before and after a change.
func (r recipeAnswer) changed(p *page.Page) {
	if r.was == nil {
		return
	}
	all := kitchen.Differences(*r.was, r.recipe)
	if kitchen.SameAmounts(all) {
		p.Say("The amounts stay as they are.")
	} else {
		var rows [][]string
		for _, d := range all {
			change := "as before"
			if before, after := model.Grams(d.Before), model.Grams(d.After); before != after {
				change = changed(before, after)
			}
			rows = append(rows, []string{d.What, model.Grams(d.Before), model.Grams(d.After), change})
		}
		p.Table([]page.Column{
			{Title: "what"},
			{Title: "before, g", Right: true},
			{Title: "after, g", Right: true},
			{Title: "change", Right: true},
		}, rows)
	}
	for _, text := range kitchen.Reworded(*r.was, r.recipe) {
		p.Hang("", "  ", text)
	}
	p.Gap()
}

// changed returns the difference of two masses as shown, with its sign, so that
// subtracting them by hand gives the same.
func changed(before, after string) string {
	places := func(text string) int { return len(text) - 1 - strings.LastIndex(text, ".") }
	b, _ := strconv.ParseFloat(before, 64)
	a, _ := strconv.ParseFloat(after, 64)
	return fmt.Sprintf("%+.*f", min(places(before), places(after)), a-b)
}

// spoons returns powder i in level spoons; nil if its profile is missing or has no
// weight for them.
func (r recipeAnswer) spoons(i int, a kitchen.Amounts) *kitchen.SpoonSum {
	powder := r.recipe.Powders[i]
	for _, p := range r.profiles {
		if p.Powder.Name != powder.Name || p.Powder.Lot != powder.Lot {
			continue
		}
		weights := p.SpoonWeights(p.SpoonSet(), r.ownSpoons)
		sum, err := kitchen.SpoonsFor(weights, a.Powder.Median*r.recipe.Fraction(i), r.recipe.Spoons)
		if err == nil && sum.Weigh == "" {
			return &sum
		}
	}
	return nil
}

// recipesAnswer is the recipes of the shelf, by name.
type recipesAnswer []recipeAnswer

func (l recipesAnswer) json() any {
	out := make([]recipeJSON, len(l))
	for i, r := range l {
		out[i] = toRecipe(r)
	}
	return out
}

// text writes the list for people.
func (l recipesAnswer) text(p *page.Page) {
	if len(l) == 0 {
		return
	}
	columns := []page.Column{
		{Title: "recipe"}, {Title: "g", Right: true}, {Title: "level"}, {Title: "of"}, {Title: "saved"},
	}
	var rows [][]string
	var changed []string
	for _, r := range l {
		rows = append(rows, []string{
			r.recipe.Name, model.Grams(r.recipe.TotalG), model.LevelName(r.recipe.Level), r.of(),
			page.Date(r.recipe.Saved),
		})
		if len(r.changes()) > 0 {
			changed = append(changed, r.recipe.Name)
		}
	}
	if p.Fits(columns, rows) {
		p.Table(columns, rows)
	} else {
		for _, row := range rows {
			p.Hang("", "  ", row[0])
			p.Hang("  ", "    ", fmt.Sprintf("%s g at %s, saved %s, of %s", row[1], row[2], row[4], row[3]))
		}
	}
	if len(changed) > 0 {
		p.Gap()
		p.Say("Powders changed or missing since it was saved (daub recipe show says which): " +
			strings.Join(changed, ", ") + ".")
	}
}

// of names the recipe's powders.
func (r recipeAnswer) of() string {
	var names []string
	for _, p := range r.recipe.Powders {
		names = append(names, page.Handle(p.Powder()))
	}
	return strings.Join(names, " + ")
}
