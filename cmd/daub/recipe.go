package main

import (
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"daub.example/daub/data"
	"daub.example/daub/model"
)

func (a *app) recipeCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "recipe",
		Short: "Show, scale, swap and print recipes",
		Long: `Works on the recipes of the shelf, which daub batch and daub mix save. A recipe
keeps the ratio it was made with; one whose powders have changed since says so.
RECIPE is a name that only one recipe has, or the name of its file without
.toml.`,
		Example: `  daub recipe list
  daub recipe show "face mask"
  daub recipe scale face-mask --total 300 --save "big face mask"
  daub recipe swap face-mask white-clay green-clay
  daub recipe card face-mask > card.md`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return nil
			}
			return fmt.Errorf("there is no command %q; %s --help shows what there is", cmd.CommandPath()+" "+args[0], cmd.CommandPath())
		},
		RunE: func(cmd *cobra.Command, _ []string) error {
			return misused("do what with a recipe? %s list, show, scale, swap or card", cmd.CommandPath())
		},
	}
	cmd.AddCommand(a.recipeListCommand(), a.recipeShowCommand(), a.recipeScaleCommand(), a.recipeSwapCommand(), a.recipeCardCommand())
	return cmd
}

func (a *app) recipeListCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:               "list",
		Short:             "Say which recipes are on the shelf",
		Example:           `  daub recipe list --json`,
		Args:              takes(0, 0, "nothing"),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(*cobra.Command, []string) error { return a.recipes(asJSON) },
	}
	addJSON(cmd, &asJSON)
	return cmd
}

// recipes answers with every recipe that can be read and complains of the
// others.
func (a *app) recipes(asJSON bool) error {
	shelf := a.shelf()
	entries, errs := shelf.Recipes()
	drawer, err := shelf.Spoons()
	if err != nil {
		return err
	}
	powders, _ := shelf.List() // one that cannot be read is among what has changed
	answers := make([]recipeJSON, len(entries))
	list := make([]recipeAnswer, len(entries))
	for i, e := range entries {
		list[i] = withProfiles(e, powders, drawer)
		answers[i] = list[i].json()
	}
	err = a.answer(asJSON, answers, func(p *page) { p.recipes(list) })
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
		Args:              takes(1, 1, "one recipe"),
		ValidArgsFunction: a.completeRecipe(0),
		RunE: func(_ *cobra.Command, args []string) error {
			r, err := a.readRecipe(args[0])
			if err != nil {
				return err
			}
			return a.answer(asJSON, r.json(), r.page)
		},
	}
	addJSON(cmd, &asJSON)
	return cmd
}

// cardJSON is the answer of `daub recipe card --json`.
type cardJSON struct {
	Recipe   string `json:"recipe"`
	Slug     string `json:"slug"`
	Markdown string `json:"markdown"`
}

func (a *app) recipeCardCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:               "card RECIPE",
		Short:             "Print a recipe as a card in Markdown",
		Example:           `  daub recipe card "face mask" > card.md`,
		Args:              takes(1, 1, "one recipe"),
		ValidArgsFunction: a.completeRecipe(0),
		RunE: func(_ *cobra.Command, args []string) error {
			r, err := a.readRecipe(args[0])
			if err != nil {
				return err
			}
			card := r.recipe.Card(r.profiles, r.drawer)
			return a.answer(asJSON, cardJSON{r.recipe.Name, r.slug, card}, func(p *page) {
				for line := range strings.Lines(card) {
					p.line("%s", line)
				}
			})
		},
	}
	addJSON(cmd, &asJSON)
	return cmd
}

// recipeAnswer is a recipe with what the shelf knows of its powders now.
type recipeAnswer struct {
	recipe     model.Recipe
	slug, file string          // of the recipe it is, or comes from
	profiles   []model.Profile // those of its powders that are on the shelf
	drawer     model.Drawer
	made       string     // how it was made of that one; "" for itself
	saved      *savedJSON // where that was saved
}

func (a *app) readRecipe(recipe string) (recipeAnswer, error) {
	shelf := a.shelf()
	e, err := shelf.FindRecipe(recipe)
	if err != nil {
		return recipeAnswer{}, err
	}
	drawer, err := shelf.Spoons()
	if err != nil {
		return recipeAnswer{}, err
	}
	powders, _ := shelf.List() // one that cannot be read is among what has changed
	return withProfiles(e, powders, drawer), nil
}

// withProfiles puts the profiles of its powders beside a recipe.
func withProfiles(e data.RecipeEntry, powders []data.Entry, d model.Drawer) recipeAnswer {
	return recipeAnswer{recipe: e.Recipe, slug: e.Slug, file: e.Path, drawer: d, profiles: e.Recipe.Profiles(powders)}
}

// changes says what is no longer as it was when the recipe was saved.
func (r recipeAnswer) changes() []string { return r.recipe.Changes(r.profiles, r.drawer) }

// recipes is the list for a person.
func (p *page) recipes(list []recipeAnswer) {
	if len(list) == 0 {
		return
	}
	var rows [][]string
	for _, r := range list {
		changed := ""
		if len(r.changes()) > 0 {
			changed = "changed"
		}
		rows = append(rows, []string{
			r.recipe.Name, model.Grams(r.recipe.TotalG), model.LevelName(r.recipe.Level), r.of(), dated(r.recipe.Saved), changed,
		})
	}
	p.table([]column{
		{title: "recipe", gives: true},
		{title: "g", right: true},
		{title: "level"},
		{title: "of", gives: true},
		{title: "saved"},
		{title: "powders"},
	}, rows)
}

// of names the recipe's powders.
func (r recipeAnswer) of() string {
	var names []string
	for _, p := range r.recipe.Powders {
		names = append(names, handle(p.Powder()))
	}
	return strings.Join(names, " + ")
}

// dated is a day, "-" for none.
func dated(t time.Time) string {
	if t.IsZero() {
		return "-"
	}
	return t.Format(day)
}
