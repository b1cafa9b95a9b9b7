package main

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/readings"
	"github.com/spf13/cobra"
)

// pasteJSON is the answer of `daub batch --json` and `daub mix --json`.
type pasteJSON struct {
	Level   float64          `json:"level"`
	Liquid  *string          `json:"liquid"` // null when refused
	RestS   *int             `json:"rest_s"`
	Refused *string          `json:"refused"` // why there is no ratio, a sentence; null if there is one
	Powders []pastePartJSON  `json:"powders"`
	Ratio   *export.Interval `json:"ratio"` // of the powder, or of the mix; null when refused
	Next    *export.Range    `json:"next"`  // for the next dish
	Slope   *float64         `json:"slope"` // levels per e-fold of powder per liquid

	Warnings []string   `json:"warnings"`
	Batch    *batchJSON `json:"batch"` // null when refused, and for a mix without a size
	Trial    *savedJSON `json:"trial"` // the mix saved as a powder of its own; null without --trial
	Cautions []string   `json:"cautions"`
	Deferral string     `json:"deferral"`
}

// pastePartJSON is one powder of a paste.
type pastePartJSON struct {
	powderJSON
	Fraction *float64         `json:"fraction"` // by mass
	Reach    *string          `json:"reach"`    // bracketed or one-sided; null when refused
	Ratio    *export.Interval `json:"ratio"`    // null when refused
}

// batchJSON is a batch made to order. Powder and liquid have the interval of the
// next dish: the low end of one goes with the high end of the other.
type batchJSON struct {
	TotalG     *float64          `json:"total_g"` // what comes out
	MadeG      *float64          `json:"made_g"`  // with the part that sticks to the bowl
	PowderG    *export.Interval  `json:"powder_g"`
	LiquidG    *export.Interval  `json:"liquid_g"`
	Powders    []batchPowderJSON `json:"powders"`
	Extras     []extraJSON       `json:"extras"`
	CountedG   *float64          `json:"counted_g"`   // the extras that count as liquid
	Portions   *int              `json:"portions"`    // null for one bowl
	PortionG   *float64          `json:"portion_g"`   // each
	StartG     *float64          `json:"start_g"`     // liquid to start with
	HoldBackG  *float64          `json:"hold_back_g"` // liquid to stir in little by little
	SpareG     *float64          `json:"spare_g"`     // liquid to have at hand beyond that
	JarML      *float64          `json:"jar_ml"`      // null without a jar
	JarG       *float64          `json:"jar_g"`       // grams that fit into the jar, filled to 95 %
	Fits       *bool             `json:"fits"`        // the total, or a portion, fits into the jar; null without a jar
	SpoonShift *float64          `json:"spoon_shift"` // levels thicker if measured by spoons; null if it cannot be
	Warnings   []string          `json:"warnings"`
	Sentence   string            `json:"sentence"`
	Saved      *savedJSON        `json:"saved"` // the recipe; null without --save
	Acid       *reply.AcidOffer  `json:"acid"`  // of one powder; null without an acid test that reached its target
}

// batchPowderJSON is one powder of a batch or a recipe.
type batchPowderJSON struct {
	Powder   string        `json:"powder"`
	Lot      string        `json:"lot"`
	Slug     string        `json:"slug"`
	Fraction *float64      `json:"fraction"` // of all the powder
	Grams    *float64      `json:"grams"`
	Spoons   *spoonSumJSON `json:"spoons"` // null where it cannot be spooned
}

// extraJSON is an extra of a batch or a recipe.
type extraJSON struct {
	Name  string   `json:"name"`
	Share *float64 `json:"share"` // of the total
	Grams *float64 `json:"grams"`
	// Counts is liquid, oil or dry; null in a recipe saved before there were kinds.
	Counts *string `json:"counts"`
	Known  bool    `json:"known"` // its kind was given, or is in the table of words
}

// savedJSON is a file saved on the shelf.
type savedJSON struct {
	Name string `json:"name"`
	Slug string `json:"slug"`
	File string `json:"file"`
}

func toBatch(b kitchen.Batch, slugs []string, saved *savedJSON) *batchJSON {
	out := &batchJSON{
		TotalG: export.Number(b.TotalG), MadeG: export.Number(b.MadeG),
		PowderG: export.IntervalOf(&b.Powder), LiquidG: export.IntervalOf(&b.Liquid),
		Powders: []batchPowderJSON{}, Extras: toExtras(b.Order.Extras, b.ExtrasG, b.Unsorted),
		CountedG: export.Number(b.CountedG), Portions: countOrNull(b.Order.Portions),
		PortionG: export.Positive(b.PortionG),
		StartG:   export.Number(b.StartG), HoldBackG: export.Number(b.HoldBackG), SpareG: export.Number(b.SpareG),
		JarML: export.Positive(b.Order.JarML), JarG: export.Positive(b.JarG),
		Warnings: reply.Filled(b.Warnings), Sentence: b.Sentence(), Saved: saved,
	}
	if b.JarG > 0 {
		fits := b.Fits()
		out.Fits = &fits
	}
	spooned := true
	for i, part := range b.Powders {
		spooned = spooned && part.Spoons != nil
		out.Powders = append(out.Powders, batchPowderJSON{
			part.Powder.Name, part.Powder.Lot, slugs[i],
			export.Number(part.Fraction), export.Number(part.Grams), toSpoonSum(part.Spoons),
		})
	}
	if spooned {
		out.SpoonShift = export.Number(b.SpoonShift)
	}
	return out
}

// toExtras converts extras with their grams; unsorted names those of unknown kind.
func toExtras(extras []model.Extra, grams []float64, unsorted []string) []extraJSON {
	out := []extraJSON{}
	for i, e := range extras {
		out = append(out, extraJSON{
			e.Name, export.Number(e.Share), export.Number(grams[i]), reply.OrNull(string(e.Counts)),
			!slices.Contains(unsorted, e.Name),
		})
	}
	return out
}

// countOrNull converts a count; 0 is null.
func countOrNull(n int) *int {
	if n == 0 {
		return nil
	}
	return &n
}

// batchFlags holds the flags of a batch.
type batchFlags struct {
	total, jar float64 // g, mL
	portions   int
	each       float64 // g
	extras     []string
	allowance  usage.Allowance
	spoons     []string
	save       saveFlags
}

// add adds the flags to a command.
func (f *batchFlags) add(cmd *cobra.Command) {
	usage.AddAmount(cmd, &f.total, usage.Grams, "total", "what is to come out, in grams")
	usage.AddAmount(cmd, &f.jar, usage.Millilitres, "jar", "the jar's volume; without --total it is filled")
	addPortions(cmd, &f.portions, &f.each, "--each, --total or --jar")
	cmd.Flags().StringArrayVar(&f.extras, "extra", nil,
		"more, `NAME=SHARE` of the total; commas between")
	cmd.Flags().Var(&f.allowance, "allowance", "on top for the bowl: 0.05 or 5% of the total, or 5g")
	usage.AddSpoons(cmd, &f.spoons)
	f.save.add(cmd)
	for _, name := range []string{"extra", "allowance"} {
		_ = cmd.RegisterFlagCompletionFunc(name, cobra.NoFileCompletions)
	}
}

// wanted reports whether a size was given.
func (f *batchFlags) wanted() bool { return f.total > 0 || f.jar > 0 || f.portions > 0 && f.each > 0 }

// addPortions adds --portions, which goes with other flags, and --each to a
// command.
func addPortions(cmd *cobra.Command, portions *int, each *float64, with string) {
	usage.AddWhole(cmd, portions, "portions", "PORTIONS", "8", "so many portions, with "+with)
	usage.AddAmount(cmd, each, usage.Grams, "each", "a portion, in grams")
}

// checkPortions refuses a number of portions that cannot be made.
func checkPortions(cmd *cobra.Command, portions int, each float64) error {
	switch {
	case cmd.Flags().Changed("portions") && (portions < 1 || portions > model.MaxPortions):
		return usage.Misused("--portions %d: give a number from 1 to %d, as in --portions 20",
			portions, model.MaxPortions)
	case each > 0 && portions == 0:
		return usage.Misused("--each says what a portion weighs, but not how many: give --portions N with it")
	}
	return nil
}

// idle lists the flags given that need a size.
func (f *batchFlags) idle() []string {
	var idle []string
	add := func(given bool, name string) {
		if given {
			idle = append(idle, name)
		}
	}
	add(f.portions > 0, "--portions")
	add(f.each > 0, "--each")
	add(len(f.extras) > 0, "--extra")
	add(f.allowance != usage.Allowance{}, "--allowance")
	add(len(f.spoons) > 0, "--spoons")
	add(f.save.name != "", "--save")
	return idle
}

// order reads the order from the flags, for the chosen powders.
func (f *batchFlags) order(cmd *cobra.Command, c chosen) (model.Order, error) {
	if err := f.save.check(cmd); err != nil {
		return model.Order{}, err
	}
	spoons, err := usage.AtHand(f.spoons, c.ownSpoons, c.profiles()...)
	if err != nil {
		return model.Order{}, err
	}
	extras, err := usage.Extras(f.extras)
	return model.Order{
		TotalG: f.total, JarML: f.jar, Portions: f.portions, PortionG: f.each, AllowanceShare: f.allowance.Share,
		AllowanceG: f.allowance.Grams, Spoons: spoons, Extras: extras,
	}, err
}

func (a *app) batchCommand() *cobra.Command {
	var (
		flags  batchFlags
		solid  float64
		level  usage.Level
		on     model.Choice
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "batch POWDER --total G | --portions N --each G | --jar ML",
		Short: "Work out a batch",
		Long: `Says how much powder and liquid make so many grams of paste, so many portions,
or a jar full, at the target level of the powder's newest trial unless --level
says otherwise, and how much of the liquid to hold back. With a jar the total,
or the portion, is checked against it.

Extras are shares of the total. What is like water (juice, glycerine, honey)
counts as part of the liquid; oils and dry extras ride along. A name that daub
does not know counts as liquid, and daub says so: write :oil or :dry after the
share if it is one.

--save keeps it as a recipe on the shelf. Exit code 3: refused, as with more
liquid extras than the powder takes up, or acid with a carbonate in a jar.`,
		Example: `  daub batch "white clay" --total 120
  daub batch white-clay --portions 8 --each 15g --extra glycerine=4%
  daub batch white-clay --jar 60 --extra honey=3% --extra "rose gel=1%:oil"
  daub batch white-clay --total 120 --in hydrosol --rest 30s
  daub batch white-clay --total 120 --allowance 5% --save "face mask"
  daub batch chalk --jar 60 --solid-density 2.7`,
		Args:              usage.Takes(1, 1, "one powder"),
		ValidArgsFunction: a.completePowder,
		RunE: func(cmd *cobra.Command, args []string) error {
			b, err := a.readBatch(cmd, args[0], &flags, solid, level, on)
			if err != nil {
				return err
			}
			return a.answer(b, asJSON)
		},
	}
	flags.add(cmd)
	usage.AddAmount(cmd, &solid, usage.Density, "solid-density", "the solid's own, where the powder's file has none")
	usage.AddLevel(cmd, &level)
	usage.AddChoice(cmd, &on)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// pasteAnswer is a paste of one powder or several, with its batch if a size was
// given.
type pasteAnswer struct {
	chosen
	level  float64
	parts  []float64      // by mass; any sum
	paste  *kitchen.Paste // nil when refused
	reason string         // why it was refused
	batch  *kitchen.Batch // nil if refused or no size was given
	saved  *savedJSON     // the recipe
	trial  *savedJSON     // the mix as a powder
}

func (a *app) readBatch(
	cmd *cobra.Command, powder string, flags *batchFlags, solid float64, level usage.Level, on model.Choice,
) (pasteAnswer, error) {
	switch err := checkPortions(cmd, flags.portions, flags.each); {
	case err != nil:
		return pasteAnswer{}, err
	case !flags.wanted() && flags.portions > 0:
		return pasteAnswer{}, usage.Misused("%s of how much each? give --each G, --total G or --jar ML with it",
			model.Plural(flags.portions, "portion"))
	case !flags.wanted():
		return pasteAnswer{}, usage.Misused(
			"how much? give --total G, --portions N with --each G, or --jar ML, as in --total 120")
	}
	c, err := a.choose(powder)
	if err != nil {
		return pasteAnswer{}, err
	}
	if solid > 0 {
		c.entries[0].Profile.Powder.SolidDensity = solid
	}
	b := pasteAnswer{chosen: c, level: level.Or(c.aim()), parts: []float64{1}}
	paste, refused := kitchen.PasteOf(c.entries[0].Profile, b.level, on, c.ownSpoons)
	err = a.order(cmd, &b, paste, refused, flags)
	return b, err
}

// refused reports whether there is no paste.
func (b pasteAnswer) refused() bool { return b.reason != "" }

// order works out the batch and saves it if asked. A refusal is an answer; it is an
// error only if the paste was to be saved.
func (a *app) order(cmd *cobra.Command, b *pasteAnswer, paste kitchen.Paste, refused error, flags *batchFlags) error {
	order, err := flags.order(cmd, b.chosen)
	switch {
	case err != nil:
		return err
	case refused != nil && flags.save.name != "":
		return fmt.Errorf("nothing to save: %w", refused)
	case refused != nil:
		b.reason = refused.Error()
		return nil
	}
	b.paste = &paste
	if !flags.wanted() {
		return nil
	}
	if _, err := paste.Density(order.Extras); err != nil && flags.jar > 0 {
		return usage.Misused("%w, and leave --jar out", err)
	}
	batch, err := paste.Batch(order)
	switch {
	case kitchen.IsCannot(err) && flags.save.name != "":
		return fmt.Errorf("nothing to save: %w", err)
	case kitchen.IsCannot(err):
		b.reason = err.Error()
		return nil
	case err != nil:
		return usage.Wrong(err)
	}
	b.batch = &batch
	if flags.save.name == "" {
		return nil
	}
	b.saved, err = a.saveRecipe(kitchen.RecipeOf(flags.save.name, batch, b.slugs(), a.now()), flags.save.force)
	return err
}

// saveRecipe saves a recipe. If another has its name it is refused, or, with over,
// written over.
func (a *app) saveRecipe(r model.Recipe, over bool) (*savedJSON, error) {
	there, taken := recipeCalled(a.shelf(), r.Name, "")
	switch {
	case taken && !over:
		return nil, recipeNameTaken(r.Name, there)
	case taken:
		r.Name = there.Recipe.Name
	}
	there.Recipe = r
	e, err := a.shelf().SaveRecipe(there)
	if err != nil {
		return nil, err
	}
	return &savedJSON{e.Recipe.Name, e.Slug, e.Path}, nil
}

func (b pasteAnswer) json() any {
	out := pasteJSON{
		Level: b.level, Refused: reply.OrNull(b.reason), Powders: []pastePartJSON{}, Warnings: []string{},
		Trial: b.trial, Deferral: care.Deferral,
	}
	total := 0.0
	for _, part := range b.parts {
		total += part
	}
	for i, e := range b.entries {
		tsp, _ := e.Profile.SpoonWeights(e.Profile.SpoonSet(), b.ownSpoons).Teaspoon()
		part := pastePartJSON{powderJSON: named(e, tsp), Fraction: export.Number(b.parts[i] / total)}
		if b.paste != nil {
			r := b.paste.Powders[i].Ratio
			part.Reach, part.Ratio = reply.OrNull(r.Reach.String()), export.IntervalOf(r.Powder)
		}
		out.Powders = append(out.Powders, part)
	}
	out.Cautions = reply.Filled(b.cautions())
	if p := b.paste; p != nil {
		basis := reply.BasisOf(model.Basis{Liquid: p.Basis.Liquid, RestS: p.RestS()})
		out.Liquid, out.RestS, out.Slope = basis.Liquid, basis.RestS, export.Number(p.Slope)
		out.Ratio, out.Next = export.IntervalOf(&p.Powder), export.RangeOf(&p.Next)
		out.Warnings = reply.Filled(p.Warnings)
	}
	if b.batch != nil {
		out.Batch = toBatch(*b.batch, b.slugs(), b.saved)
		out.Batch.Acid = reply.OfferOf(b.offer())
	}
	return out
}

// unsaved says how to keep the batch.
const unsaved = "Not saved: --save NAME keeps it as a recipe of its own."

// powders returns the powders of the paste.
func (b pasteAnswer) powders() []model.Powder {
	var out []model.Powder
	for _, e := range b.entries {
		out = append(out, e.Profile.Powder)
	}
	return out
}

// cautions returns the cautions for the powders, their liquid and the extras.
func (b pasteAnswer) cautions() []string {
	if b.paste == nil {
		return care.Of(b.powders()...)
	}
	var extras []model.Extra
	if b.batch != nil {
		extras = b.batch.Order.Extras
	}
	return care.OfPaste(b.paste.Basis.Liquid, extras, b.powders()...)
}

// offer returns the acid for the batch, from the acid test of its only powder; none
// if an acid is in it already.
func (b pasteAnswer) offer() (readings.Offer, bool) {
	if len(b.entries) != 1 || kitchen.HasAcid(b.paste.Basis.Liquid, b.batch.Order.Extras) {
		return readings.Offer{}, false
	}
	return readings.OfferOf(b.entries[0].Profile, b.paste.Basis.Liquid, b.batch.MadeG, b.ownSpoons)
}

// text writes the paste for people.
func (b pasteAnswer) text(p *page.Page) {
	if b.refused() {
		p.Say("Cannot calculate: " + strings.TrimSuffix(b.reason, ".") + ".")
		return
	}
	if b.paste.Mixed() {
		b.mixed(p)
	}
	if b.batch != nil {
		p.Batch(*b.batch)
		if b.batch.PortionG > 0 && b.batch.MadeG == b.batch.TotalG {
			p.Say("Nothing is on top for what sticks to the bowl; --allowance 5% adds it.")
		}
		if offer, ok := b.offer(); ok {
			p.List("pH:", offer.Sentence())
		}
	}
	p.Cautions(b.cautions())
	switch {
	case b.saved != nil:
		p.Gap()
		p.Line("The recipe is saved: %s", b.saved.File)
		p.Line("daub recipe card %s -o %s.html makes its card.", b.saved.Slug, b.saved.Slug)
	case b.batch != nil:
		p.Gap()
		p.Say(unsaved)
	}
	if b.trial != nil {
		p.Gap()
		p.Line("The mix is on the shelf, its trial ready to begin: %s", b.trial.File)
		p.Line("daub trial --plain %s goes on with it, or daub opens the bench.", b.trial.Slug)
	}
}
