package kitchen

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// The fields of a batch: its powder, the liquid and rest of its ratio, its level,
// then the fields of its order.
const (
	batchPowder = iota
	batchBasis
	batchLevel
	batchOrder
)

// batch works out how much of each to weigh for so much paste.
type batch struct {
	batch kitchen.Batch
	slugs []string
	from  string         // where its level comes from
	offer readings.Offer // how much acid it takes; TotalG is 0 without one
	err   error
}

func newBatch(deps ui.Deps, shelf []model.Entry, back ui.Screen, r model.Entry) ui.Screen {
	t := newCalculator(deps, shelf, back, &batch{})
	fields := []ui.Field{
		batchPowder: t.powderField("powder", r), batchBasis: basisField(), batchLevel: levelField(r.Profile.Aim()),
	}
	t.Hidden = func(i int) bool { return i == batchBasis && len(t.Fields[i].Options) < 2 }
	return t.ready(append(fields, orderFields(r.Profile.SpoonsAtHand())...))
}

func (b *batch) help() []string {
	return append([]string{
		"A batch: what to weigh of one powder and its liquid, and how much of the liquid to keep back. Saved as a " +
			"recipe it has a card for others.",
	}, append(orderHelp(),
		"What goes in after what, and notes, can be changed once it is saved: e in the recipe.")...)
}

func (b *batch) title() string { return "batch" }

func (b *batch) update(t *calculator) { b.err = b.calculate(t) }

func (b *batch) calculate(t *calculator) error {
	r, err := t.powder(batchPowder)
	if err != nil {
		return err
	}
	b.from = "chosen here"
	if f := &t.Fields[batchLevel]; !f.Touched {
		f.Set(model.LevelName(r.Profile.Aim()))
		b.from = "the target level of its newest trial"
	}
	paste, err := kitchen.PasteOf(r.Profile, t.level(batchLevel), t.choice(batchBasis, r), t.deps.OwnSpoons)
	if err != nil {
		return err
	}
	order, err := t.order(batchOrder)
	if err != nil {
		return err
	}
	b.slugs = []string{r.Slug}
	b.offer = readings.Offer{}
	if b.batch, err = paste.Batch(order); err == nil && !kitchen.HasAcid(paste.Basis.Liquid, order.Extras) {
		b.offer, _ = readings.OfferOf(r.Profile, paste.Basis.Liquid, b.batch.MadeG, t.deps.OwnSpoons)
	}
	return err
}

func (b *batch) problem() string { return said(b.err) }

// said gives an error's text, "" for nil.
func said(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

func (b *batch) keys() []key.Binding {
	if b.err != nil {
		return []key.Binding{calculatorKeys.kind}
	}
	all := []key.Binding{calculatorKeys.save, calculatorKeys.export, calculatorKeys.kind}
	if b.offer.TotalG > 0 {
		all = append(all, calculatorKeys.acid)
	}
	return all
}

func (b *batch) key(t *calculator, msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	if key.Matches(msg, calculatorKeys.kind) {
		t.kindKey(batchOrder + orderExtras)
		return t, nil
	}
	if key.Matches(msg, calculatorKeys.acid) {
		t.addAcid(batchOrder+orderExtras, b.offer)
		return t, nil
	}
	t.outOfBatch(b.batch, b.slugs, msg)
	return t, nil
}

func (b *batch) lines(_ *calculator, w int) []string {
	if b.err != nil {
		return incomplete(b.err, w)
	}
	lines := batchLines(b.batch, b.from, w)
	if b.offer.TotalG > 0 {
		lines = append(append(lines, ""), ui.Painted(ui.PlainStyle, b.offer.Sentence(), w)...)
	}
	return append(lines, batchCare(b.batch, w)...)
}

// addAcid adds the acid that is offered to the extras.
func (t *calculator) addAcid(extras int, o readings.Offer) {
	f := &t.Fields[extras]
	all, err := typed.Extras(f.Value(), "oil 3 %")
	if err != nil {
		t.Refuse(err.Error())
		return
	}
	share := model.RoundSignificant(o.Share, 2)
	f.Input.SetValue(extrasText(append(all, model.Extra{Name: o.Test.Acid, Share: share, Counts: model.CountsLiquid})))
	f.Touched = true
	t.task.update(t)
	t.Say(o.Test.Acid + " is among the extras and counts as liquid.")
}

// outOfBatch saves a batch as a recipe, or writes its card.
func (t *calculator) outOfBatch(b kitchen.Batch, slugs []string, msg tea.KeyMsg) {
	name := fmt.Sprintf("%s, %s g", b.Paste.Name(), model.Number(model.RoundSignificant(b.TotalG, 4)))
	now := t.deps.Now()
	if key.Matches(msg, calculatorKeys.export) {
		r := kitchen.RecipeOf(name, b, slugs, time.Time{}) // it is not saved
		t.AskCard(t.deps, r, kitchen.ProfilesOf(r, t.shelf))
		return
	}
	t.Ask(ui.Question{
		Title: "Save as a recipe, its name", Yes: "save it",
		Answer: func(name string) (tea.Cmd, error) {
			r := kitchen.RecipeOf(name, b, slugs, now)
			return t.SaveRecipe(t.deps, model.RecipeEntry{Recipe: r})
		},
	}, name)
}

// batchLines draws a batch: what to weigh and what to keep back. Warnings about the
// batch come first, those about its ratio below the amounts. from says where its
// level comes from.
func batchLines(b kitchen.Batch, from string, w int) []string {
	head := fmt.Sprintf("%s g at %s", model.Grams(b.TotalG), model.LevelName(b.Paste.Level))
	if b.Order.Portions > 0 {
		head += fmt.Sprintf(", %s of %s g", model.Plural(b.Order.Portions, "portion"),
			model.Number(model.RoundSignificant(b.PortionG, 4)))
	}
	if b.MadeG != b.TotalG {
		bowl := model.Grams(b.MadeG - b.TotalG)
		head += fmt.Sprintf(" (%s g made, %s g of it for the bowl)", model.Grams(b.MadeG), bowl)
	}
	lines := ui.Painted(ui.TitleStyle, head, w)
	about := fmt.Sprintf("In %s. %s: %s.", pasteBasis(b.Paste), model.LevelName(b.Paste.Level), from)
	lines = append(lines, ui.Painted(ui.NoteStyle, about, w)...)
	for _, warning := range b.Warnings {
		if !slices.Contains(b.Paste.Warnings, warning) {
			lines = append(lines, ui.Warned(warning, w)...)
		}
	}
	ready := "have ready, in case"
	if w < batchName(w)+batchGrams+2+len(ready) {
		ready = "have ready"
	}
	lines = append(lines, ui.NoteStyle.Render(batchLine("what", "grams", ready, w)))
	for _, p := range b.Powders {
		all := kitchen.Together(p.Grams, p.Fraction*b.SparePowderG)
		lines = append(lines, batchLine(p.Powder.Title(), model.Grams(p.Grams), all, w))
	}
	all := kitchen.Together(b.Liquid.Median, b.SpareG)
	lines = append(lines, batchLine(b.Paste.Basis.Liquid, model.Grams(b.Liquid.Median), all, w))
	for i, e := range b.Order.Extras {
		grams := model.Grams(b.ExtrasG[i])
		lines = append(lines, batchLine(e.Name, grams, grams, w))
	}
	if text := kindsText(b.Order.Extras); text != "" {
		lines = append(lines, ui.Painted(ui.NoteStyle, text, w)...)
	}
	lines = append(append(lines, ""), ui.Painted(ui.PlainStyle, b.HoldBack(b.Paste.Basis.Liquid), w)...)
	if b.SparePowderG > 0 {
		text := fmt.Sprintf("Too thin? You may need up to %s g more powder.", model.Grams(b.SparePowderG))
		lines = append(lines, ui.Painted(ui.PlainStyle, text, w)...)
	}
	lines = append(lines, spoonedLines(b, w)...)
	if b.JarG > 0 && b.Fits() {
		volume := model.Number(b.Order.JarML)
		jar := fmt.Sprintf("The jar of %s mL, filled to 95 %%, holds %s g.", volume, model.Grams(b.JarG))
		lines = append(lines, ui.Painted(ui.PlainStyle, jar, w)...)
	}
	if len(b.Paste.Warnings) > 0 {
		lines = append(lines, "")
	}
	for _, warning := range b.Paste.Warnings {
		lines = append(lines, ui.Warned(warning, w)...)
	}
	return lines
}

// pasteBasis names the liquid of a paste and the rest its dish needs.
func pasteBasis(p kitchen.Paste) string {
	return basisName(model.Basis{Liquid: p.Basis.Liquid, RestS: p.RestS()})
}

// batchCare gives the cautions for a batch.
func batchCare(b kitchen.Batch, w int) []string {
	powders := make([]model.Powder, len(b.Powders))
	for i, p := range b.Powders {
		powders[i] = p.Powder
	}
	return careLines(w, care.OfPaste(b.Paste.Basis.Liquid, b.Order.Extras, powders...))
}

// kindsText says what the extras count as, "" without any.
func kindsText(extras []model.Extra) string {
	var texts []string
	for _, kind := range model.CountsAs() {
		var names []string
		for _, e := range extras {
			if e.Kind() == kind {
				names = append(names, printable.Line(e.Name))
			}
		}
		if len(names) > 0 {
			texts = append(texts, fmt.Sprintf("Counts as %s: %s.", kind, strings.Join(names, ", ")))
		}
	}
	return strings.Join(texts, " ")
}

// batchGrams is the width of the grams in the table of a batch, in cells.
const batchGrams = 9

// batchName is the width of the names there.
func batchName(w int) int { return min(max(w-30, 12), 34) }

func batchLine(what, grams, ready string, w int) string {
	return ui.Cut(ui.Pad(printable.Line(what), batchName(w))+ui.PadLeft(grams, batchGrams)+"  "+ready, w)
}

// spoonedLines give the powder in spoons, and how the rounding shifts the level.
func spoonedLines(b kitchen.Batch, w int) []string {
	var lines []string
	for _, p := range b.Powders {
		if p.Spoons == nil {
			return ui.Painted(ui.PlainStyle, "Weigh the "+p.Powder.Name+": it "+p.Weigh+".", w)
		}
		text := "By the spoon: "
		if b.Paste.Mixed() {
			text += p.Powder.Name + ", "
		}
		lines = append(lines, ui.Painted(ui.PlainStyle, text+p.Spoons.Sentence(), w)...)
	}
	if checked := b.Checked(); checked != "" {
		lines = append(lines, ui.Painted(ui.NoteStyle, "  "+printable.Line(checked)+".", w)...)
	}
	return append(lines, ui.Painted(ui.PlainStyle, "  That rounding "+shiftText(b.SpoonShift)+".", w)...)
}

// shiftText says how far rounding the powder to spoons shifts the level.
func shiftText(levels float64) string {
	if levels < 0.05 && levels > -0.05 {
		return "does not change the level"
	}
	return "makes it " + kitchen.LevelShift(levels)
}
