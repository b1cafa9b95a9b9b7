package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/outfile"
	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data/picture"
	"daub.example/daub/data/webpage"
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/paper"
	"daub.example/daub/model/printable"
	"github.com/spf13/cobra"
)

// cardFormats lists the formats of a card, the usual one first.
var cardFormats = []string{"md", "html"}

// cardJSON is the answer of `daub recipe card --json`.
type cardJSON struct {
	Recipe   string `json:"recipe"`
	Slug     string `json:"slug"`
	Markdown string `json:"markdown"`
}

func (c cardJSON) json() any { return c }

func (c cardJSON) text(p *page.Page) {
	for line := range strings.Lines(c.Markdown) {
		p.Line("%s", line)
	}
}

// paperJSON is the answer of `daub recipe card -o FILE --json`: the file written.
type paperJSON struct {
	Recipe string `json:"recipe"`
	Slug   string `json:"slug"`
	File   string `json:"file"`
	Format string `json:"format"`
	Bytes  int    `json:"bytes"`
}

func (c paperJSON) json() any { return c }

func (c paperJSON) text(p *page.Page) { p.Line("%s: the card of %s as %s", c.File, c.Recipe, c.Format) }

// cardFlags holds the flags of a card.
type cardFlags struct {
	outfile.Flags
	to     string
	made   usage.Day
	asJSON bool
}

func (a *app) recipeCardCommand() *cobra.Command {
	var flags cardFlags
	cmd := &cobra.Command{
		Use:   "card RECIPE",
		Short: "Write a recipe as a card to hand out",
		Long: `Writes a recipe as a card: every amount in the step that uses it, what to do when
it is too thick or too thin, how to keep it, and the cautions. As Markdown, or as
one HTML page with a picture that needs nothing beside it and prints on A5.
Without --made the day it is made and the day to use it by are blanks to fill in.`,
		Example: `  daub recipe card "face mask" > card.md
  daub recipe card face-mask -o card.html --made 2026-05-04`,
		Args:              usage.Takes(1, 1, "one recipe"),
		ValidArgsFunction: a.completeRecipe(0),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := flags.resolve(cmd); err != nil {
				return err
			}
			r, err := a.readRecipe(args[0])
			if err != nil {
				return err
			}
			return a.card(r, flags)
		},
	}
	flags.Add(cmd, "write to `FILE`; - or none for standard output; its ending may say the format", a.owns)
	cmd.Flags().StringVar(&flags.to, "to", "", "the `FORMAT`: "+strings.Join(cardFormats, ", "))
	_ = cmd.RegisterFlagCompletionFunc("to", usage.Words(cardFormats))
	cmd.Flags().Var(&flags.made, "made", "the day it is made, as in 2026-05-04 (default: a blank)")
	_ = cmd.RegisterFlagCompletionFunc("made", cobra.NoFileCompletions)
	usage.AddJSON(cmd, &flags.asJSON)
	return cmd
}

// resolve works out the format.
func (f *cardFlags) resolve(cmd *cobra.Command) error {
	if err := f.Check(cmd); err != nil {
		return err
	}
	if f.to == "" && f.File != "" && slices.Contains(cardFormats, f.Ending()) {
		f.to = f.Ending()
	}
	switch {
	case f.to == "" && f.File != "" && f.Ending() != "" && f.Ending() != "txt":
		return usage.Misused("a card as what? the ending of %s does not say; give --to with md or html", f.File)
	case f.to == "":
		f.to = cardFormats[0]
	case !slices.Contains(cardFormats, f.to):
		return usage.Misused("there is no card as %q; --to takes md or html", f.to)
	}
	switch {
	case f.File == "" && f.Force:
		return usage.Misused("--force is for a file; give -o FILE with it")
	case f.File == "" && f.asJSON && f.to == "html":
		return usage.Misused("standard output gets one of the two: leave out --json, or give -o FILE")
	}
	return nil
}

// card writes the card to its file or to standard output.
func (a *app) card(r recipeAnswer, f cardFlags) error {
	text, err := cardText(r, f.to, f.made.String())
	if err != nil {
		return err
	}
	if f.File == "" && f.to == "md" {
		return a.answer(cardJSON{r.recipe.Name, r.slug, string(text)}, f.asJSON)
	}
	if f.File == "" {
		return a.print(text)
	}
	if err := f.Write(text); err != nil {
		return err
	}
	return a.answer(paperJSON{r.recipe.Name, r.slug, f.File, f.to, len(text)}, f.asJSON)
}

// cardText returns a recipe's card as HTML or Markdown; made is the day it is made,
// "" to leave that open.
func cardText(r recipeAnswer, format, made string) ([]byte, error) {
	on := model.Choice{In: r.recipe.Liquid}
	if r.recipe.RestS > 0 && len(r.recipe.Powders) == 1 { // a mix has the longest rest of its powders
		on.Rest = &r.recipe.RestS
	}
	c := paper.CardOf(r.recipe, r.profiles, r.ownSpoons, paper.Options{Made: made})
	if format != "html" {
		return []byte(c.Markdown()), nil
	}
	var out bytes.Buffer
	err := webpage.Card(&out, c, drawn(r.profiles, r.ownSpoons, r.recipe.Level, on))
	return out.Bytes(), err
}

// drawn returns a picture of the profiles for a page. It is empty if they cannot be
// drawn together, as powders in different liquids.
func drawn(profiles []model.Profile, own model.OwnSpoons, level float64, on model.Choice) webpage.Picture {
	var svg bytes.Buffer
	if err := picture.Draw(&svg, "svg", profiles, own, picture.Options{Level: level, On: on}); err != nil {
		return webpage.Picture{}
	}
	var names []string
	for _, p := range profiles {
		names = append(names, printable.Words(p.Powder.Title()))
	}
	alt := fmt.Sprintf("How thick %s gets with how much liquid; the ratio at %s stands in the text.",
		strings.Join(names, ", "), model.LevelName(level))
	return webpage.Picture{SVG: svg.Bytes(), Alt: alt}
}

// print writes text to standard output as it is.
func (a *app) print(text []byte) error {
	if _, err := a.out.Write(text); err != nil {
		return fmt.Errorf("write the answer: %w", err)
	}
	return nil
}

func (a *app) pageCommand() *cobra.Command {
	var (
		out    outfile.Flags
		on     model.Choice
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "page POWDER... [-o FILE.html]",
		Short: "Write powders as one web page, to pass on or print",
		Long: `Writes one HTML page that needs nothing beside it: the curve, the ratio at every
level, how it was measured, and the cautions; of one powder, or of up to six
after each other. It prints on A5. Every liquid and rest has its table; --in and
--rest show those of one alone.`,
		Example: `  daub page "white clay" -o clay.html
  daub page white-clay -o clay.html --in milk
  daub page white-clay green-clay -o clays.html`,
		Args:              usage.Takes(1, kitchen.MaxCompared, "one to six powders"),
		ValidArgsFunction: a.completePowders(kitchen.MaxCompared),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := out.Check(cmd); err != nil {
				return err
			}
			switch {
			case out.File == "" && (out.Force || asJSON):
				return usage.Misused("--force and --json are for a file; give -o FILE.html with them")
			case out.File != "" && out.Ending() != "html" && out.Ending() != "htm":
				return usage.Misused("a page is HTML: end %s in .html; daub export writes other formats", out.File)
			}
			c, err := a.choose(args...)
			if err != nil {
				return err
			}
			a.sayUntried(on, c.profiles()...)
			text, err := powdersPage(c, on)
			switch {
			case err != nil:
				return err
			case out.File == "":
				return a.print(text)
			}
			return a.written(out, "html", text, c, asJSON)
		},
	}
	out.Add(cmd, "write to `FILE`; - or none for standard output", a.owns)
	usage.AddChoice(cmd, &on)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// powdersPage returns the page of the chosen powders, for one liquid and rest.
func powdersPage(c chosen, on model.Choice) ([]byte, error) {
	var powders []paper.Powder
	for _, p := range c.profiles() {
		powders = append(powders, paper.PowderOf(p, on, c.ownSpoons, c.profiles()...))
	}
	var out bytes.Buffer
	err := webpage.Powders(&out, powders, drawn(c.profiles(), c.ownSpoons, c.aim(), on))
	return out.Bytes(), err
}
