package main

import (
	"fmt"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/typed"
	"github.com/spf13/cobra"
)

func (a *app) editCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "edit POWDER KEY=VALUE…",
		Short: "Change what is known of a powder",
		Long: `Changes a powder's own facts: name, lot, family, solid_density (g/mL),
keep_from_metal, fizzes (with a drop of vinegar), allergens (commas between),
packing (a level spoon filled loose and tapped), archived and notes. Its file and
what its trials say stay as they are. An empty value, or unknown, takes a fact
away. Archived powders are kept, but hidden from the shelf, and from daub list
without --all.

Without KEY=VALUE it says what is known.`,
		Example: `  daub edit "rye flour" lot=2026-02 family=flour
  daub edit "quarry chalk" fizzes=yes "notes=from the south face"
  daub edit "rye flour" "packing=1 tsp: loose 2.2 2.3, tapped 2.9 2.8"
  daub edit moor-mud archived=yes`,
		Args:              usage.Takes(1, usage.Many, "a powder and what is to be changed"),
		ValidArgsFunction: a.completeEdit,
		RunE: func(_ *cobra.Command, args []string) error {
			e, err := a.edit(args[0], args[1:])
			if err != nil {
				return err
			}
			return a.answer(editAnswer(e), asJSON)
		},
	}
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// edit changes the facts of a powder: all of them or, on an error, none.
func (a *app) edit(powder string, changes []string) (data.Entry, error) {
	shelf := a.shelf()
	e, err := shelf.Find(powder)
	if err != nil || len(changes) == 0 {
		return e, err
	}
	for _, c := range changes {
		if err := typed.Assignment(&e.Profile.Powder, c); err != nil {
			return e, usage.Misused("edit %s: %w", e.Slug, err)
		}
	}
	return shelf.Save(e)
}

// completeEdit offers powders, then keys.
func (a *app) completeEdit(cmd *cobra.Command, args []string, text string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return a.completePowder(cmd, args, text)
	}
	var keys []string
	for _, f := range typed.Facts() {
		keys = append(keys, cobra.CompletionWithDesc(f.Key+"=", f.Hint))
	}
	return keys, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
}

// editAnswer is a powder with its facts.
type editAnswer data.Entry

// factsJSON is the answer of `daub edit --json`.
type factsJSON struct {
	Powder string `json:"powder"`
	Lot    string `json:"lot"`
	Slug   string `json:"slug"`
	File   string `json:"file"`
	Family string `json:"family"` // "" if not given
	powderFactsJSON
	Notes string `json:"notes"`
}

// powderFactsJSON holds the facts of a powder besides its name.
type powderFactsJSON struct {
	SolidDensity  *float64 `json:"solid_density"` // g/mL; null when not given
	KeepFromMetal bool     `json:"keep_from_metal"`
	Fizzes        *bool    `json:"fizzes"`    // with a drop of vinegar; null when not tested
	Allergens     []string `json:"allergens"` // empty: those of its name or family
	Archived      bool     `json:"archived"`

	Packing []reply.Packing `json:"packing"` // level spoons filled loose and tapped
}

func powderFacts(p model.Powder) powderFactsJSON {
	return powderFactsJSON{
		export.Positive(p.SolidDensity), p.KeepFromMetal, p.Fizzes, reply.Filled(p.Allergens), p.Archived,
		reply.PackingsOf(p),
	}
}

func (e editAnswer) json() any {
	p := e.Profile.Powder
	return factsJSON{p.Name, p.Lot, e.Slug, e.Path, string(p.Family), powderFacts(p), p.Notes}
}

// text writes each known fact on its own line, as it can be typed again.
func (e editAnswer) text(p *page.Page) {
	for _, f := range typed.Facts() {
		p.Say(fmt.Sprintf("%s=%s", f.Key, f.Show(e.Profile.Powder)))
		if f.Key == "allergens" && e.Profile.Powder.Allergens == nil {
			p.Hang("  ", "  ", "not recorded; "+e.Profile.Powder.AllergensText())
		}
	}
	p.Line("%s", e.Path)
}
