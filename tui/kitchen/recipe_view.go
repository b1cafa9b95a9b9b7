package kitchen

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/paper"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

func (r *recipe) View(w, h int) string {
	lines := r.state(w)
	said := r.Foot(w)
	lines = append(lines, ui.Inset(w, func(w int) []string {
		return r.Sight(cardLines(r.card, min(w, 90)), h-len(lines)-len(said))
	})...)
	for len(lines) < h-len(said) {
		lines = append(lines, "")
	}
	return strings.Join(append(lines, said...), "\n")
}

// state says whether the recipe is saved, or asks the open question.
func (r *recipe) state(w int) []string {
	k := recipeKeys
	switch {
	case r.asked == saveOver:
		text := fmt.Sprintf("Save over %q?", printable.Line(r.stands.Name))
		lines := ui.Painted(ui.DoStyle, "▸ "+text, w)
		return append(append(lines, ui.Inset(w, func(w int) []string {
			return changeLines(r.stands, r.entry.Recipe, w)
		})...), "")
	case r.asked == deleteIt:
		text := fmt.Sprintf("Delete %q? It moves to the folder \"deleted\".", printable.Line(r.stands.Name))
		return ui.Painted(ui.DoStyle, "▸ "+text, w)
	case len(r.changed) > 0:
		text := fmt.Sprintf("Not saved: %s. %s saves it, %s as a copy.", r.changes(), k.save.Help().Key,
			k.copy.Help().Key)
		return ui.Warned(text, w)
	default:
		return ui.Inset(w, func(w int) []string { return ui.Painted(ui.NoteStyle, "Saved as "+r.entry.Path, w) })
	}
}

// changeLines says what a change does: amounts that differ, before and after, and
// what else is new on the card.
func changeLines(before, after model.Recipe, w int) []string {
	all := kitchen.Differences(before, after)
	lines := amountLines(all, w)
	if kitchen.SameAmounts(all) {
		lines = ui.Painted(ui.PlainStyle, "The amounts stay as they are.", w)
	}
	for _, text := range kitchen.Reworded(before, after) {
		lines = append(lines, ui.Bullet(text, w)...)
	}
	return lines
}

// amountLines lists the amounts before and after a change; if none changed, once.
func amountLines(all []kitchen.Difference, w int) []string {
	name, same := min(max(w-32, 12), 34), kitchen.SameAmounts(all)
	row := func(what, a, b, sign string) string {
		text := ui.Pad(printable.Line(what), name) + ui.PadLeft(a, 10)
		if !same {
			text += ui.PadLeft(b, 10) + sign
		}
		return ui.Cut(text, w)
	}
	head := row("grams of", "before", "after", "")
	if same {
		head = row("grams of", "", "", "")
	}
	lines := []string{ui.NoteStyle.Render(strings.TrimRight(head, " "))}
	for _, d := range all {
		sign := ""
		if model.Grams(d.Before) != model.Grams(d.After) {
			sign = " *"
		}
		lines = append(lines, row(d.What, gramsOrNone(d.Before), gramsOrNone(d.After), sign))
	}
	return lines
}

func gramsOrNone(g float64) string {
	if g == 0 {
		return "-"
	}
	return model.Grams(g)
}

// cardLines draws a card for the screen.
func cardLines(c paper.Card, w int) []string {
	if len(c.Missing) > 0 {
		lines := []string{ui.TitleStyle.Render("Not ready to make")}
		for _, m := range c.Missing {
			lines = append(lines, ui.Loud(m, w)...)
		}
		return lines
	}
	lines := ui.Painted(ui.TitleStyle, c.Size, w)
	for _, f := range c.First {
		lines = append(lines, ui.Warned(f, w)...)
	}
	for _, n := range c.Notes {
		lines = append(lines, ui.Painted(ui.PlainStyle, n, w)...)
	}
	lines = append(lines, ui.Painted(ui.PlainStyle, c.Ready, w)...)
	lines = append(lines, "")
	lines = append(lines, ingredientLines(c.Ingredients, w)...)
	if c.Spoons != "" {
		lines = append(lines, ui.Painted(ui.NoteStyle, c.Spoons, w)...)
	}
	lines = append(lines, "", ui.TitleStyle.Render("Steps"))
	for i, s := range c.Steps {
		for _, m := range s.Cautions {
			lines = append(lines, hung("    ! ", m, w)...)
		}
		lines = append(lines, hung(fmt.Sprintf("%3d ", i+1), s.Do, w)...)
	}
	if len(c.Tips) > 0 {
		lines = append(lines, "", ui.TitleStyle.Render("How it behaves"))
	}
	for _, s := range c.Tips {
		lines = append(lines, ui.Bullet(s, w)...)
	}
	lines = append(lines, "", ui.TitleStyle.Render("On the skin"))
	for _, s := range c.Cautions {
		lines = append(lines, ui.Bullet(s, w)...)
	}
	lines = append(lines, "", ui.TitleStyle.Render("Based on"))
	for _, b := range c.BasedOn {
		lines = append(lines, ui.Painted(ui.PlainStyle, b, w)...)
	}
	return append(lines, ui.Painted(ui.NoteStyle, c.Deferral, w)...)
}

// hung wraps text behind a lead, its further lines indented under the first.
func hung(lead, text string, w int) []string {
	lines := ui.Painted(ui.PlainStyle, text, max(w-ui.Cells(lead), 1))
	for i := range lines {
		if i > 0 {
			lead = strings.Repeat(" ", ui.Cells(lead))
		}
		lines[i] = ui.Cut(lead+lines[i], w)
	}
	return lines
}

// ingredientLines draws the table of ingredients.
func ingredientLines(all []paper.Ingredient, w int) []string {
	width := 4
	for _, i := range all {
		width = max(width, ui.Cells(i.Named()))
	}
	width = min(width, max(w/2-4, 12))
	head := ui.Pad("what", width) + ui.PadLeft("grams", 9)
	if paper.BySpoon(all) {
		head += "  level spoons"
	}
	lines := []string{ui.NoteStyle.Render(ui.Cut(head, w))}
	for _, i := range all {
		left := ui.Pad(i.Named(), width) + ui.PadLeft(i.Grams, 9)
		for n, spoons := range ui.Wrap(i.Spoons, max(w-width-11, 12)) { // further lines stay in the column
			if n > 0 {
				left = strings.Repeat(" ", width+9)
			}
			lines = append(lines, ui.Cut(strings.TrimRight(left+"  "+spoons, " "), w))
		}
	}
	return lines
}
