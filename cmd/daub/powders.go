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

// chosen holds the profiles that a command of several powders works on.
type chosen struct {
	entries   []data.Entry // in the order asked
	ownSpoons model.OwnSpoons
}

// choose reads the powders that were named, each of which may be named once,
// and the maker's own spoons.
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

// profiles are those of the entries, in their order.
func (c chosen) profiles() []model.Profile { return profiles(c.entries) }

func profiles(entries []data.Entry) []model.Profile {
	out := make([]model.Profile, len(entries))
	for i, e := range entries {
		out[i] = e.Profile
	}
	return out
}

// aim is the level that the first powder's newest trial aims at.
func (c chosen) aim() float64 { return c.entries[0].Profile.Aim() }

// exported are the entries for an export, in their order.
func exported(entries []data.Entry) []export.Powder {
	out := make([]export.Powder, len(entries))
	for i, e := range entries {
		out[i] = export.Powder{Slug: e.Slug, Profile: e.Profile}
	}
	return out
}

// slugs are those of the entries, in their order.
func (c chosen) slugs() []string {
	out := make([]string, len(c.entries))
	for i, e := range c.entries {
		out[i] = e.Slug
	}
	return out
}

// named says which powder an answer is about; tspG is what a level teaspoon of
// it weighs, 0 unknown.
func named(e data.Entry, tspG float64) powderJSON {
	p := e.Profile.Powder
	return powderJSON{p.Name, p.Lot, e.Slug, string(p.Kind()), e.Path, export.Positive(tspG)}
}

// completePowder offers what is on the shelf for a command of one powder.
func (a *app) completePowder(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	return a.completePowders(1)(cmd, args, typed)
}

// completePowders offers what is on the shelf for the first n arguments, all
// of them for many: slugs, with names and lots, without those given already.
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

// slugs are those on the shelf that begin as typed, without those given, with
// something behind them.
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

// completeRecipe offers the recipes on the shelf, then powders for the
// arguments after it, powders of them at most.
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

// completeSpoon offers the spoons, the maker's own among them, for a first argument.
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
