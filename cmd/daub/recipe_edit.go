package main

import (
	"path/filepath"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/repeats"
	"github.com/spf13/cobra"
)

// recipeEdit holds the changes to a recipe.
type recipeEdit struct {
	total, each, jar float64
	portions         int
	extras, without  []string
	allowance        usage.Allowance
	order            string
	notes            string
	made, useBy      string
	renew            bool
}

func (a *app) recipeEditCommand() *cobra.Command {
	var (
		edit   recipeEdit
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "edit RECIPE",
		Short: "Change amounts, extras, order or notes of a recipe",
		Long: `Changes a recipe on the shelf and shows what goes in before and after. An extra
of a name that is there already takes its place. --renew works the amounts out
from what its powders' trials say today; in a recipe of before extras counted it
counts them.`,
		Example: `  daub recipe edit face-mask --total 300
  daub recipe edit face-mask --portions 8 --each 15g
  daub recipe edit face-mask --extra "oat oil=2%" --without glycerine
  daub recipe edit face-mask --order "white clay, water, oat oil"
  daub recipe edit face-mask --renew`,
		Args:              usage.Takes(1, 1, "one recipe"),
		ValidArgsFunction: a.completeRecipe(0),
		RunE: func(cmd *cobra.Command, args []string) error {
			r, err := a.editRecipe(cmd, args[0], edit)
			if err != nil {
				return err
			}
			return a.answer(r, asJSON)
		},
	}
	usage.AddAmount(cmd, &edit.total, usage.Grams, "total", "what is to come out, in grams")
	addPortions(cmd, &edit.portions, &edit.each, "--each or --total")
	usage.AddAmount(cmd, &edit.jar, usage.Millilitres, "jar", "the jar's volume")
	f := cmd.Flags()
	f.StringArrayVar(&edit.extras, "extra", nil, "put in or change, `NAME=SHARE`; commas between")
	f.StringArrayVar(&edit.without, "without", nil, "take the extra `NAME` out; repeatable")
	f.Var(&edit.allowance, "allowance", "on top for the bowl: 0.05 or 5% of the total, or 5g; 0 for none")
	_ = cmd.RegisterFlagCompletionFunc("allowance", cobra.NoFileCompletions)
	f.StringVar(&edit.order, "order", "", "`NAMES` in the order of addition, commas between; \"\" as usual")
	f.StringVar(&edit.notes, "notes", "", "the `NOTES`")
	f.StringVar(&edit.made, "made", "", "the `DAY` it is made, as in 2026-05-04; \"\" to fill in by hand")
	f.StringVar(&edit.useBy, "use-by", "", "the `DAY` to use it by")
	f.BoolVar(&edit.renew, "renew", false, "by what its powders' trials say today")
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

func (a *app) editRecipe(cmd *cobra.Command, name string, edit recipeEdit) (recipeAnswer, error) {
	if cmd.Flags().NFlag() == 0 {
		return recipeAnswer{}, usage.Misused("edit what of %q? %s --help shows what can be changed",
			name, cmd.CommandPath())
	}
	if err := checkPortions(cmd, edit.portions, edit.each); err != nil {
		return recipeAnswer{}, err
	}
	r, entry, err := a.findRecipe(name)
	if err != nil {
		return r, err
	}
	was := r.recipe
	changed, err := edit.apply(cmd, was, r)
	if err == nil {
		changed, err = kitchen.Edited(changed, r.profiles, r.ownSpoons)
	}
	switch {
	case kitchen.IsCannot(err):
		return r, err
	case err != nil:
		return r, usage.Wrong(err)
	}
	entry.Recipe = changed
	if entry, err = a.shelf().SaveRecipe(entry); err != nil {
		return r, err
	}
	r.recipe, r.was, r.made = changed, &was, "Changed:"
	r.saved = &savedJSON{changed.Name, entry.Slug, entry.Path}
	return r, nil
}

// apply makes the changes, one after the other.
func (e recipeEdit) apply(cmd *cobra.Command, r model.Recipe, of recipeAnswer) (model.Recipe, error) {
	var err error
	given := cmd.Flags().Changed
	if e.renew {
		if r, err = kitchen.Renewed(r, of.profiles, of.ownSpoons); err != nil {
			return r, err
		}
	}
	jar := r.JarML
	if r, err = resized(r, e.total, e.portions, e.each); err != nil {
		return r, err
	}
	if r.JarML = jar; e.jar > 0 {
		r.JarML = e.jar
	}
	for _, name := range e.without {
		if r, err = kitchen.WithoutExtra(r, name); err != nil {
			return r, err
		}
	}
	extras, err := usage.Extras(e.extras)
	if err != nil {
		return r, err
	}
	for _, extra := range extras {
		if r, err = kitchen.WithExtra(r, extra); err != nil {
			return r, err
		}
	}
	if given("allowance") {
		r.AllowanceShare, r.AllowanceG = e.allowance.Share, e.allowance.Grams
	}
	if given("order") {
		var names []string
		if strings.TrimSpace(e.order) != "" {
			names = strings.Split(e.order, ",")
		}
		if r, err = kitchen.WithOrder(r, names); err != nil {
			return r, err
		}
	}
	if given("notes") {
		r.Notes = e.notes
	}
	if given("made") {
		r.Made = e.made
	}
	if given("use-by") {
		r.UseBy = e.useBy
	}
	return r, nil
}

// recipeMovedJSON is the answer of rename, copy and delete.
type recipeMovedJSON struct {
	Recipe string `json:"recipe"` // its name now
	Slug   string `json:"slug"`
	File   string `json:"file"`   // its file now
	Before string `json:"before"` // its old name, or the name of the original
	said   string
}

func (m recipeMovedJSON) json() any { return m }

func (m recipeMovedJSON) text(p *page.Page) { p.Say(m.said); p.Line("%s", m.File) }

func (a *app) recipeRenameCommand() *cobra.Command {
	return a.recipeNewName("rename RECIPE NAME", "Give a recipe another name",
		`  daub recipe rename face-mask "winter mask"`, func(e data.RecipeEntry, name string) (recipeMovedJSON, error) {
			before := e.Recipe.Name
			but := e.Slug
			if name == before {
				but = "" // its own name is not a new one
			}
			if there, taken := recipeCalled(a.shelf(), name, but); taken {
				return recipeMovedJSON{}, recipeNameTaken(name, there)
			}
			e.Recipe.Name = name
			saved, err := a.shelf().SaveRecipe(e)
			return recipeMovedJSON{name, saved.Slug, saved.Path, before, before + " is called " + name +
				" now; its file stays:"}, err
		})
}

func (a *app) recipeCopyCommand() *cobra.Command {
	return a.recipeNewName("copy RECIPE NAME", "Make a copy of a recipe under another name",
		`  daub recipe copy face-mask "winter mask"`, func(e data.RecipeEntry, name string) (recipeMovedJSON, error) {
			r := e.Recipe
			before := r.Name
			if there, taken := recipeCalled(a.shelf(), name, ""); taken {
				return recipeMovedJSON{}, recipeNameTaken(name, there)
			}
			r.Name, r.Saved = name, a.now()
			saved, err := a.shelf().SaveRecipe(data.RecipeEntry{Recipe: r})
			return recipeMovedJSON{name, saved.Slug, saved.Path, before, name + " is a copy of " + before + ":"}, err
		})
}

// recipeNewName makes a command that gives a recipe a name that no other has.
func (a *app) recipeNewName(
	use, short, example string, do func(e data.RecipeEntry, name string) (recipeMovedJSON, error),
) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use: use, Short: short, Example: example,
		Args:              usage.Takes(2, 2, "a recipe and a name"),
		ValidArgsFunction: a.completeRecipe(0),
		RunE: func(_ *cobra.Command, args []string) error {
			name := strings.TrimSpace(args[1])
			_, e, err := a.findRecipe(args[0])
			if err != nil {
				return err
			}
			moved, err := do(e, name)
			if err != nil {
				return err
			}
			return a.answer(moved, asJSON)
		},
	}
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// recipeCalled finds another recipe with the name, not the one with slug but. One
// that cannot be read keeps its file: slugs do not collide.
func recipeCalled(shelf *data.Shelf, name, but string) (there data.RecipeEntry, taken bool) {
	entries, _ := shelf.Recipes()
	for _, e := range entries {
		if e.Slug != but && repeats.SameName(e.Recipe.Name, name) {
			return e, true
		}
	}
	return data.RecipeEntry{}, false
}

// recipeNameTaken refuses a name that a recipe has.
func recipeNameTaken(name string, there data.RecipeEntry) error {
	return usage.Misused("save %q: there is a recipe of that name (%s); give another, change it with "+
		"recipe edit, or save over it with --save and --force", name, there.Path)
}

func (a *app) recipeDeleteCommand() *cobra.Command {
	var undo, asJSON bool
	cmd := &cobra.Command{
		Use:   "delete RECIPE",
		Short: "Take a recipe from the shelf, or bring it back with --undo",
		Long: `Moves a recipe to the shelf's folder of deleted files; nothing is destroyed.
--undo brings it back.`,
		Example: `  daub recipe delete face-mask
  daub recipe delete face-mask --undo`,
		Args:              usage.Takes(1, 1, "one recipe"),
		ValidArgsFunction: a.completeRecipe(0),
		RunE: func(_ *cobra.Command, args []string) error {
			moved, err := a.deleteRecipe(args[0], undo)
			if err != nil {
				return err
			}
			return a.answer(moved, asJSON)
		},
	}
	cmd.Flags().BoolVar(&undo, "undo", false, "bring a deleted recipe back")
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

func (a *app) deleteRecipe(name string, undo bool) (recipeMovedJSON, error) {
	shelf := a.shelf()
	if undo {
		e, err := shelf.UndeleteRecipe(name)
		r := e.Recipe.Name
		return recipeMovedJSON{r, e.Slug, e.Path, r, r + " is back:"}, err
	}
	_, e, err := a.findRecipe(name)
	if err != nil {
		return recipeMovedJSON{}, err
	}
	_, err = shelf.DeleteRecipe(e)
	r := e.Recipe.Name
	where := filepath.Join(shelf.Dir(), "deleted")
	return recipeMovedJSON{r, e.Slug, where, r, r + " is deleted; daub recipe delete " + e.Slug +
		" --undo brings it back. It lies in:"}, err
}
