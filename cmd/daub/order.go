package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"daub.example/daub/data"
	"daub.example/daub/model"
)

// orderFlags are what a batch is ordered with.
type orderFlags struct {
	total, jar float64 // g, mL
	extras     []string
	allowance  allowance
	spoons     []string
	save       string
}

// add gives a command the flags of an order.
func (f *orderFlags) add(cmd *cobra.Command) {
	addAmount(cmd, &f.total, "total", "g", "what is to come out, in grams")
	addAmount(cmd, &f.jar, "jar", "ml", "the jar's volume; without --total it is filled")
	cmd.Flags().StringArrayVar(&f.extras, "extra", nil, "more in it, `NAME=SHARE` of the total; repeatable")
	cmd.Flags().Var(&f.allowance, "allowance", "on top for the bowl: 0.05 or 5% of the total, or 5g")
	addSpoons(cmd, &f.spoons)
	cmd.Flags().StringVar(&f.save, "save", "", "put it on the shelf as the recipe `NAME`")
	for _, name := range []string{"extra", "allowance", "save"} {
		_ = cmd.RegisterFlagCompletionFunc(name, cobra.NoFileCompletions)
	}
}

// wanted reports whether a size was given.
func (f *orderFlags) wanted() bool { return f.total > 0 || f.jar > 0 }

// idle lists the flags that mean nothing without a size.
func (f *orderFlags) idle() []string {
	var idle []string
	add := func(given bool, name string) {
		if given {
			idle = append(idle, name)
		}
	}
	add(len(f.extras) > 0, "--extra")
	add(f.allowance != allowance{}, "--allowance")
	add(len(f.spoons) > 0, "--spoons")
	add(f.save != "", "--save")
	return idle
}

// order is what the flags ask for, of the chosen powders.
func (f *orderFlags) order(cmd *cobra.Command, c chosen) (model.Order, error) {
	if cmd.Flags().Changed("save") && strings.TrimSpace(f.save) == "" {
		return model.Order{}, misused("--save gives the recipe no name: give one, as in --save \"face mask\"")
	}
	spoons, err := atHand(f.spoons, c.drawer, c.profiles()...)
	if err != nil {
		return model.Order{}, err
	}
	o := model.Order{TotalG: f.total, JarML: f.jar, AllowanceShare: f.allowance.share, AllowanceG: f.allowance.grams, Spoons: spoons}
	for _, text := range f.extras {
		name, part, ok := cutLast(text, "=")
		if !ok || name == "" {
			return model.Order{}, misused("--extra %q: give a name and its share of the total, as in --extra honey=0.03", text)
		}
		s, err := share(part)
		if err != nil {
			return model.Order{}, misused("--extra %q: %w", text, err)
		}
		o.Extras = append(o.Extras, model.Extra{Name: name, Share: s})
	}
	return o, nil
}

// cutLast cuts a text at the last sep, with the space around it.
func cutLast(text, sep string) (before, after string, found bool) {
	i := strings.LastIndex(text, sep)
	if i < 0 {
		return strings.TrimSpace(text), "", false
	}
	return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+len(sep):]), true
}

// batchJSON is a batch made to order. Powder and liquid have the interval of
// the next dish, and belong together crosswise.
type batchJSON struct {
	TotalG     *float64           `json:"total_g"` // comes out
	MadeG      *float64           `json:"made_g"`  // with what sticks to the bowl
	PowderG    *data.IntervalJSON `json:"powder_g"`
	LiquidG    *data.IntervalJSON `json:"liquid_g"`
	Powders    []batchPowderJSON  `json:"powders"`
	Extras     []extraJSON        `json:"extras"`
	StartG     *float64           `json:"start_g"`     // liquid to start with
	HoldBackG  *float64           `json:"hold_back_g"` // liquid to stir in little by little
	SpareG     *float64           `json:"spare_g"`     // liquid to have at hand beyond that
	JarML      *float64           `json:"jar_ml"`      // null without a jar
	JarG       *float64           `json:"jar_g"`       // what the jar holds, filled to 95 %
	Fits       *bool              `json:"fits"`        // the total into the jar; null without a jar
	SpoonShift *float64           `json:"spoon_shift"` // levels thicker by spoons; null where it cannot be spooned
	Warnings   []string           `json:"warnings"`
	Sentence   string             `json:"sentence"`
	Saved      *savedJSON         `json:"saved"` // the recipe; null without --save
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

// extraJSON is something else in a batch or a recipe.
type extraJSON struct {
	Name  string   `json:"name"`
	Share *float64 `json:"share"` // of the total
	Grams *float64 `json:"grams"`
}

// savedJSON is a file that was put on the shelf.
type savedJSON struct {
	Name string `json:"name"`
	Slug string `json:"slug"`
	File string `json:"file"`
}

func toBatch(b model.Batch, slugs []string, saved *savedJSON) *batchJSON {
	out := &batchJSON{
		TotalG: data.Number(b.TotalG), MadeG: data.Number(b.MadeG), PowderG: data.ToInterval(&b.Powder), LiquidG: data.ToInterval(&b.Liquid),
		Powders: []batchPowderJSON{}, Extras: toExtras(b.Order.Extras, b.ExtrasG),
		StartG: data.Number(b.StartG), HoldBackG: data.Number(b.HoldBackG), SpareG: data.Number(b.SpareG),
		JarML: data.Positive(b.Order.JarML), JarG: data.Positive(b.JarG),
		Warnings: filled(b.Warnings), Sentence: b.Sentence(), Saved: saved,
	}
	if b.JarG > 0 {
		fits := b.TotalG <= b.JarG
		out.Fits = &fits
	}
	spooned := true
	for i, part := range b.Powders {
		spooned = spooned && part.Spoons != nil
		out.Powders = append(out.Powders, batchPowderJSON{
			part.Powder.Name, part.Powder.Lot, slugs[i], data.Number(part.Fraction), data.Number(part.Grams), toSpoonSum(part.Spoons),
		})
	}
	if spooned {
		out.SpoonShift = data.Number(b.SpoonShift)
	}
	return out
}

func toExtras(extras []model.Extra, grams []float64) []extraJSON {
	out := []extraJSON{}
	for i, e := range extras {
		out = append(out, extraJSON{e.Name, data.Number(e.Share), data.Number(grams[i])})
	}
	return out
}

// batch is a batch for a person.
func (p *page) batch(b model.Batch) {
	p.line("%s g at %s:", model.Grams(b.TotalG), model.LevelName(b.Paste.Level))
	p.gap()
	var rows [][]string
	for _, part := range b.Powders {
		spoons := "weigh it"
		if part.Spoons != nil {
			spoons = fmt.Sprintf("%s (%s g)", part.Spoons, model.Grams(part.Spoons.Grams))
		}
		rows = append(rows, []string{handle(part.Powder), model.Grams(part.Grams), spoons})
	}
	rows = append(rows, []string{b.Paste.Basis.Liquid, model.Grams(b.Liquid.Median), ""})
	p.amounts(append(rows, extraRows(b.Order.Extras, b.ExtrasG)...))
	if b.MadeG > b.TotalG {
		p.say("", "", fmt.Sprintf("That makes %s g, %s g of it for what sticks to the bowl.", model.Grams(b.MadeG), model.Grams(b.MadeG-b.TotalG)))
	}
	if b.JarG > 0 && b.TotalG <= b.JarG {
		p.say("", "", fmt.Sprintf("The jar of %s mL, filled to 95 %%, holds %s g.", model.Number(b.Order.JarML), model.Grams(b.JarG)))
	}
	p.say("", "", b.HoldBack(b.Paste.Basis.Liquid))
	p.list("Mind:", b.Warnings...)
}

func extraRows(extras []model.Extra, grams []float64) [][]string {
	var rows [][]string
	for i, e := range extras {
		rows = append(rows, []string{e.Name, model.Grams(grams[i]), ""})
	}
	return rows
}

// amounts is the table of what goes in.
func (p *page) amounts(rows [][]string) {
	p.table([]column{{title: "what", gives: true}, {title: "grams", right: true}, {title: "level spoons", gives: true}}, rows)
	p.gap()
}

// cautionsOf are those of all the powders, each once, and what goes with them.
func cautionsOf(powders ...model.Powder) []string {
	var all []string
	seen := map[string]bool{}
	for _, p := range powders {
		for _, c := range p.Cautions() {
			if !seen[c] {
				seen[c] = true
				all = append(all, c)
			}
		}
	}
	return append(all, model.Deferral)
}
