package main

import (
	"strings"

	"github.com/spf13/cobra"
)

// completePowder offers what is on the shelf: slugs, with names and lots.
func (a *app) completePowder(_ *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	var slugs []string
	if len(args) == 0 {
		entries, _ := a.shelf().List()
		for _, e := range entries {
			if strings.HasPrefix(e.Slug, typed) {
				slugs = append(slugs, cobra.CompletionWithDesc(e.Slug, a.clean(e.Profile.Powder.Title())))
			}
		}
	}
	return slugs, cobra.ShellCompDirectiveNoFileComp
}

// completeFiles offers profiles by file name.
func completeFiles(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return []string{"toml"}, cobra.ShellCompDirectiveFilterFileExt
}
