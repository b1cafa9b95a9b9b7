package main

import (
	"errors"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"github.com/spf13/cobra"
)

// chosen holds the profiles for a command on several powders.
type chosen struct {
	entries   []data.Entry // in the order asked
	ownSpoons model.OwnSpoons
}

// choose reads the powders named and the maker's own spoons. A powder may be named
// only once.
func (a *app) choose(powders ...string) (chosen, error) {
	if err := a.shelfIsThere(); err != nil {
		return chosen{}, err
	}
	shelf := a.shelf().Visit()
	var c chosen
	var wrong []error
	seen := map[string]bool{}
	for _, name := range powders {
		e, err := shelf.Find(name)
		switch {
		case err != nil:
			wrong = append(wrong, err)
		case seen[e.Slug]:
			wrong = append(wrong, usage.Misused("%s is named twice; name each powder once", e.Profile.Powder.Title()))
		default:
			seen[e.Slug] = true
			c.entries = append(c.entries, e)
		}
	}
	if len(wrong) > 0 {
		return chosen{}, errors.Join(wrong...)
	}
	c.ownSpoons = shelf.OwnSpoons
	return c, shelf.Err
}

// profiles returns the profiles of the entries, in their order.
func (c chosen) profiles() []model.Profile { return profiles(c.entries) }

func profiles(entries []data.Entry) []model.Profile {
	out := make([]model.Profile, len(entries))
	for i, e := range entries {
		out[i] = e.Profile
	}
	return out
}

// aim returns the target level of the first powder's newest trial.
func (c chosen) aim() float64 { return c.entries[0].Profile.Aim() }

// exported converts entries for an export, in their order.
func exported(entries []data.Entry) []export.Powder {
	out := make([]export.Powder, len(entries))
	for i, e := range entries {
		out[i] = export.Powder{Slug: e.Slug, Profile: e.Profile}
	}
	return out
}

// slugs returns the slugs of the entries, in their order.
func (c chosen) slugs() []string {
	out := make([]string, len(c.entries))
	for i, e := range c.entries {
		out[i] = e.Slug
	}
	return out
}

// named says which powder an answer is about; tspG is the weight of a level
// teaspoon, g, 0 if unknown.
func named(e data.Entry, tspG float64) powderJSON {
	p := e.Profile.Powder
	return powderJSON{p.Name, p.Lot, e.Slug, string(p.Kind()), e.Path, export.Positive(tspG)}
}

// completePowder offers the powders of the shelf for a command on one powder.
func (a *app) completePowder(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	return a.completePowders(1)(cmd, args, typed)
}

// completePowders offers powders for the first n arguments, or for all of them with
// usage's many: slugs with names and lots, without those already given.
func (a *app) completePowders(n int) usage.Completer {
	return func(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if n != usage.Many && len(args) >= n {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return a.slugs(args, typed, ""), cobra.ShellCompDirectiveNoFileComp
	}
}

// completeShares offers powders as parts of a mix.
func (a *app) completeShares(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	return a.slugs(args, typed, "="), cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
}

// slugs returns the slugs that begin as typed, without those given, each with
// behind added.
func (a *app) slugs(given []string, typed, behind string) []string {
	var slugs []string
	entries, _ := a.shelf().List()
	for _, e := range entries {
		taken := slices.ContainsFunc(given, func(g string) bool {
			return g == e.Slug || behind != "" && strings.HasPrefix(g, e.Slug+behind)
		})
		if strings.HasPrefix(e.Slug, typed) && !taken && page.Clean(e.Slug, false) == e.Slug {
			slugs = append(slugs, cobra.CompletionWithDesc(e.Slug+behind, page.Clean(e.Profile.Powder.Title(),
				a.ascii)))
		}
	}
	return slugs
}

// completeRecipe offers recipes, then at most powders powders for the arguments
// after it.
func (a *app) completeRecipe(powders int) usage.Completer {
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return a.completePowders(powders)(cmd, args[1:], typed)
		}
		var slugs []string
		entries, _ := a.shelf().Recipes()
		for _, e := range entries {
			if strings.HasPrefix(e.Slug, typed) && page.Clean(e.Slug, false) == e.Slug {
				slugs = append(slugs, cobra.CompletionWithDesc(e.Slug, page.Clean(e.Recipe.Name, a.ascii)))
			}
		}
		return slugs, cobra.ShellCompDirectiveNoFileComp
	}
}

// completeSpoon offers all spoons, also the maker's own, for the first argument.
func (a *app) completeSpoon(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	own, _ := a.shelf().Spoons()
	return usage.Words(own.Names())(cmd, args, typed)
}

// completeFiles offers profiles by file name.
func completeFiles(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
}
