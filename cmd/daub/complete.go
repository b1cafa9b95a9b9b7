package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// completer offers what may be typed next.
type completer = func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective)

// completePowder offers what is on the shelf for a command of one powder.
func (a *app) completePowder(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	return a.completePowders(1)(cmd, args, typed)
}

// completePowders offers what is on the shelf for the first n arguments, all
// of them for many: slugs, with names and lots, without those given already.
func (a *app) completePowders(n int) completer {
	return func(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if n != many && len(args) >= n {
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
		taken := slices.ContainsFunc(given, func(g string) bool { return g == e.Slug || behind != "" && strings.HasPrefix(g, e.Slug+behind) })
		if strings.HasPrefix(e.Slug, typed) && !taken {
			slugs = append(slugs, cobra.CompletionWithDesc(e.Slug+behind, a.clean(e.Profile.Powder.Title())))
		}
	}
	return slugs
}

// completeRecipe offers the recipes on the shelf, then powders for the
// arguments after it, powders of them at most.
func (a *app) completeRecipe(powders int) completer {
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return a.completePowders(powders)(cmd, args[1:], typed)
		}
		var slugs []string
		entries, _ := a.shelf().Recipes()
		for _, e := range entries {
			if strings.HasPrefix(e.Slug, typed) {
				slugs = append(slugs, cobra.CompletionWithDesc(e.Slug, a.clean(e.Recipe.Name)))
			}
		}
		return slugs, cobra.ShellCompDirectiveNoFileComp
	}
}

// words offers a fixed list of words in its order.
func words[T ~string](list []T) completer {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		out := make([]string, len(list))
		for i, w := range list {
			out[i] = string(w)
		}
		return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
	}
}

// completeFiles offers profiles by file name.
func completeFiles(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
}
