package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"daub.example/daub/data"
	"daub.example/daub/model"
)

// pasteJSON is the answer of `daub batch --json` and `daub mix --json`.
type pasteJSON struct {
	Level   float64            `json:"level"`
	Liquid  *string            `json:"liquid"` // null when refused
	RestS   *int               `json:"rest_s"`
	Refused *string            `json:"refused"` // why there is no ratio, as a sentence; null where there is one
	Powders []pastePartJSON    `json:"powders"`
	Ratio   *data.IntervalJSON `json:"ratio"` // of the powder, or of the mix; null when refused
	Next    *data.RangeJSON    `json:"next"`  // of the next dish
	Slope   *float64           `json:"slope"` // levels per e-fold of powder per liquid

	Warnings []string   `json:"warnings"`
	Batch    *batchJSON `json:"batch"` // null when refused, and for a mix without a size
	Trial    *savedJSON `json:"trial"` // the mix on the shelf as a powder of its own; null without --trial
	Cautions []string   `json:"cautions"`
	Deferral string     `json:"deferral"`
}

// pastePartJSON is one powder of a paste.
type pastePartJSON struct {
	powderJSON
	Fraction *float64           `json:"fraction"` // by mass
	Reach    *string            `json:"reach"`    // bracketed or one-sided; null when refused
	Ratio    *data.IntervalJSON `json:"ratio"`    // null when refused
}

func (a *app) batchCommand() *cobra.Command {
	var (
		order  orderFlags
		solid  float64
		level  levelFlag
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "batch POWDER --total G | --jar ML",
		Short: "Say what goes into so much paste",
		Long: `Says how much powder and liquid make so many grams of paste, or a jar full, at
the aim of the powder's newest trial unless --level says otherwise, and how much
of the liquid to hold back. With both sizes the total is checked against the
jar. Extras are shares of the total. --save keeps it as a recipe on the shelf.`,
		Example: `  daub batch "white clay" --total 120
  daub batch white-clay --jar 60 --extra honey=0.03 --extra "rose oil=0.2%"
  daub batch white-clay --total 120 --allowance 5% --save "face mask"
  daub batch chalk --jar 60 --solid-density 2.7`,
		Args:              takes(1, 1, "one powder"),
		ValidArgsFunction: a.completePowder,
		RunE: func(cmd *cobra.Command, args []string) error {
			b, err := a.readBatch(cmd, args[0], &order, solid, level)
			if err != nil {
				return err
			}
			return a.answer(asJSON, b.json(), b.page)
		},
	}
	order.add(cmd)
	addAmount(cmd, &solid, "solid-density", "g/mL", "the solid's own, where the powder's file has none")
	addLevel(cmd, &level)
	addJSON(cmd, &asJSON)
	return cmd
}

// pasteAnswer is a paste of one powder or several, made to order.
type pasteAnswer struct {
	chosen
	level  float64
	parts  []float64    // by mass, of any sum
	paste  *model.Paste // nil when refused
	reason string       // of the refusal
	batch  *model.Batch // nil when refused or not ordered
	saved  *savedJSON   // the recipe
	trial  *savedJSON   // the mix as a powder
}

func (a *app) readBatch(cmd *cobra.Command, powder string, flags *orderFlags, solid float64, level levelFlag) (pasteAnswer, error) {
	if !flags.wanted() {
		return pasteAnswer{}, misused("how much? give --total G, --jar ML or both, as in --total 120")
	}
	c, err := a.choose(powder)
	if err != nil {
		return pasteAnswer{}, err
	}
	if solid > 0 {
		c.entries[0].Profile.Powder.SolidDensity = solid
	}
	b := pasteAnswer{chosen: c, level: level.or(c.aim()), parts: []float64{1}}
	paste, refused := model.PasteOf(c.entries[0].Profile, b.level, c.drawer)
	err = a.reckon(cmd, &b, paste, refused, flags)
	return b, err
}

// reckon orders the batch and saves it, where that is asked for. A paste that is
// refused is an answer, unless it was to be saved.
func (a *app) reckon(cmd *cobra.Command, b *pasteAnswer, paste model.Paste, refused error, flags *orderFlags) error {
	order, err := flags.order(cmd, b.chosen)
	switch {
	case err != nil:
		return err
	case refused != nil && flags.save != "":
		return fmt.Errorf("nothing to save: %w", refused)
	case refused != nil:
		b.reason = refused.Error()
		return nil
	}
	b.paste = &paste
	if !flags.wanted() {
		return nil
	}
	if _, err := paste.Density(); err != nil && flags.jar > 0 {
		return misused("%w, and leave --jar out", err)
	}
	batch, err := paste.Batch(order)
	if err != nil {
		return misuse{err}
	}
	b.batch = &batch
	if flags.save == "" {
		return nil
	}
	b.saved, err = a.saveRecipe(model.RecipeOf(flags.save, batch, b.slugs(), a.now()))
	return err
}

// saveRecipe puts a new recipe on the shelf; a name that is taken is refused.
func (a *app) saveRecipe(r model.Recipe) (*savedJSON, error) {
	shelf := a.shelf()
	entries, _ := shelf.Recipes() // one that cannot be read keeps its file: slugs do not collide
	for _, e := range entries {
		if sameName(e.Recipe.Name, r.Name) {
			return nil, misused("save %q: there is a recipe of that name (%s); give another", r.Name, e.Path)
		}
	}
	e, err := shelf.SaveRecipe(data.RecipeEntry{Recipe: r})
	if err != nil {
		return nil, err
	}
	return &savedJSON{e.Recipe.Name, e.Slug, e.Path}, nil
}

func (b pasteAnswer) json() pasteJSON {
	out := pasteJSON{Level: b.level, Refused: orNull(b.reason), Powders: []pastePartJSON{}, Warnings: []string{}, Trial: b.trial, Deferral: model.Deferral}
	total := 0.0
	for _, part := range b.parts {
		total += part
	}
	for i, e := range b.entries {
		tsp, _ := e.Profile.Scales(spoonSetOf(e.Profile), b.drawer).Teaspoon()
		part := pastePartJSON{powderJSON: named(e, tsp), Fraction: data.Number(b.parts[i] / total)}
		if b.paste != nil {
			r := b.paste.Powders[i].Ratio
			part.Reach, part.Ratio = orNull(r.Reach.String()), data.ToInterval(r.Powder)
		}
		out.Powders = append(out.Powders, part)
	}
	cautions := cautionsOf(b.powders()...)
	out.Cautions = cautions[:len(cautions)-1]
	if p := b.paste; p != nil {
		basis := toBasis(model.Basis{Liquid: p.Basis.Liquid, RestS: p.RestS()})
		out.Liquid, out.RestS, out.Slope = basis.Liquid, basis.RestS, data.Number(p.Slope)
		out.Ratio, out.Next, out.Warnings = data.ToInterval(&p.Powder), data.ToRange(&p.Next), filled(p.Warnings)
	}
	if b.batch != nil {
		out.Batch = toBatch(*b.batch, b.slugs(), b.saved)
	}
	return out
}

// powders are those of the paste.
func (b pasteAnswer) powders() []model.Powder {
	var out []model.Powder
	for _, e := range b.entries {
		out = append(out, e.Profile.Powder)
	}
	return out
}

// page is the paste for a person.
func (b pasteAnswer) page(p *page) {
	if b.paste == nil {
		p.say("", "", "Nothing to reckon with: "+strings.TrimSuffix(b.reason, ".")+".")
		return
	}
	if b.paste.Mixed() {
		b.mixed(p)
	}
	if b.batch != nil {
		p.batch(*b.batch)
	}
	p.list("Cautions:", cautionsOf(b.powders()...)...)
	if b.saved != nil {
		p.gap()
		p.line("The recipe is saved: %s", b.saved.File)
	}
	if b.trial != nil {
		p.gap()
		p.line("The mix is on the shelf, its trial ready to begin: %s", b.trial.File)
		p.line("daub trial --plain %s goes on with it, or daub opens the bench.", b.trial.Slug)
	}
}
