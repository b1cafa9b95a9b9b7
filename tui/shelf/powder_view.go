package shelf

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
)

func (p *powderPage) View(w, h int) string {
	foot := p.foot(w)
	if p.restore != nil {
		lines := []string{ui.Badge(ui.WaitStyle, "DELETED"), ""}
		lines = append(lines,
			ui.Painted(ui.PlainStyle,
				"Its file lies in the folder \"deleted\". u brings it back, Esc goes to the shelf.", w)...)
		return strings.Join(append(lines, p.Said(w)...), "\n")
	}
	lines, cursor := p.lines(w)
	room := max(h-len(foot), 1)
	view, _ := ui.Window(lines, cursor, room)
	view = append([]string{}, view...)
	for len(view) < room {
		view = append(view, "")
	}
	return strings.Join(append(view, foot...), "\n")
}

// lines are all rows with the titles of their sections, and where the cursor is.
func (p *powderPage) lines(w int) (lines []string, cursor int) {
	powder := p.session.Profile()
	title := func(text string) { lines = append(lines, ui.Rule(text, w)) }
	for i, row := range p.rows {
		before := pageRow{spoon: -1, trial: -1}
		if i > 0 {
			before = p.rows[i-1]
		}
		switch {
		case row.spoon >= 0 && before.spoon < 0:
			title("level spoons")
		case row.trial >= 0 && before.trial < 0:
			title("trials")
		}
		here := i == p.cursor
		if here {
			cursor = len(lines)
		}
		lines = append(lines, line(p.rowText(row, here), here, w))
		if row.fact != nil && row.fact.Key == "packing" {
			for _, one := range powder.Powder.Packings {
				for _, l := range ui.Painted(ui.NoteStyle, handling.PackingSentence(one), w-ui.LabelWidth-2) {
					lines = append(lines, strings.Repeat(" ", ui.LabelWidth+2)+l)
				}
			}
		}
	}
	if len(powder.LevelSpoons) == 0 {
		lines = append(append(lines, ui.Rule("level spoons", w)), p.spoonsByPot(w)...)
	}
	if len(powder.Trials) == 0 {
		lines = append(lines, ui.Rule("trials", w), ui.NoteStyle.Render("  none yet: t makes one"))
	}
	return lines, cursor
}

// spoonsByPot lists the level spoons that the pot of a trial tells the weight of,
// where none was weighed.
func (p *powderPage) spoonsByPot(w int) []string {
	texts := []string{"none weighed yet: w weighs one"}
	profile := p.session.Profile()
	if newest := profile.Newest(); newest >= 0 {
		weights := profile.SpoonWeights(profile.Trials[newest].SpoonSet, p.deps.OwnSpoons)
		for _, spoon := range weights.Weighed() {
			texts = append(texts, spoon.Text())
		}
	}
	for i, text := range texts {
		texts[i] = ui.NoteStyle.Render(ui.Cut("  "+printable.Line(text), w))
	}
	return texts
}

// rowText is what a row has to say.
func (p *powderPage) rowText(row pageRow, here bool) string {
	switch {
	case row.trial >= 0:
		return p.trialText(row.trial)
	case row.spoon >= 0:
		return p.spoonText(p.session.Profile().LevelSpoons[row.spoon], here)
	default:
		return ui.Pad(row.fact.Label(), ui.LabelWidth) + p.factText(*row.fact, here)
	}
}

// line is one row, with the sign of the cursor.
func line(text string, here bool, w int) string {
	if here {
		return ui.DoStyle.Render(ui.Cut("▸ "+text, w))
	}
	return ui.Cut("  "+text, w)
}

// factText is a fact's value, or that it was not said.
func (p *powderPage) factText(f typed.Fact, here bool) string {
	text := printable.Line(f.Show(p.session.Powder()))
	switch {
	case f.Key == "family" && p.session.Powder().Family != "":
		text += ": " + p.session.Powder().Family.Describe()
	case f.Key == "allergens" && text == "":
		text = p.session.Powder().AllergensText()
	case text == "":
		text = "-"
	}
	if here && f.Options != nil {
		return "← " + text + " →"
	}
	return text
}

// spoonText is a spoon's weighings, the picked one in brackets, and what they
// give.
func (p *powderPage) spoonText(l model.LevelSpoon, here bool) string {
	name, filled := l.Spoon, l.Filling()
	if filled != "" {
		name += ", " + filled
	}
	text := ui.Pad(printable.Line(name), ui.LabelWidth-1) + " "
	for i, g := range l.Grams {
		if here && i == p.pick {
			text += "[" + model.Number(g) + "] "
		} else {
			text += " " + model.Number(g) + "  "
		}
	}
	weight, ok := l.Weight()
	if !ok {
		return text + "no weighing yet"
	}
	text += fmt.Sprintf("  = %s g ± %s", model.Significant(weight.Mean, 3), model.Significant(weight.HalfWidth(), 2))
	if l.Each() > 1 {
		text += fmt.Sprintf(", %d spoons per weighing", l.Each())
	}
	if filled == "" {
		text += ", " + printable.Line(l.How)
	}
	return text
}

func (p *powderPage) trialText(n int) string {
	profile := p.session.Profile()
	t := profile.Trials[n].WithDefaults(profile.Powder.Kind())
	text := fmt.Sprintf("%d  %s  %s g %s, rest %s, %d looks", n+1, t.Started.Local().Format("2006-01-02"),
		model.Number(t.LiquidG), printable.Line(t.Liquid), model.Seconds(*t.RestS), t.Looks())
	switch a := p.answers[n]; {
	case t.SetAside != "":
		text += "  SET ASIDE: " + printable.Line(t.SetAside)
	case t.Unfinished():
		text += "  unfinished"
	case a.Dish != nil:
		text += fmt.Sprintf("  at %s: %s", model.LevelName(t.Aim), bench.IntervalText(*a.Dish))
	}
	return text
}

// foot holds the row's question, what the last key did, and the line being typed.
func (p *powderPage) foot(w int) []string {
	lines := []string{""}
	if p.Asking() || !p.Silent() {
		return append(lines, p.Foot(w)...)
	}
	text := "File: " + p.session.Entry().Path
	row := p.rows[p.cursor]
	whole := p.rowText(row, true)
	if row.fact != nil {
		whole = p.factText(*row.fact, false)
		text = row.fact.Hint
	}
	if ui.Cells(p.rowText(row, true)) > w-2 { // what has no room in its row
		text = strings.Join(strings.Fields(whole), " ") + ". " + text
	}
	return append(lines, ui.Inset(w, func(w int) []string { return ui.Painted(ui.NoteStyle, text, w) })...)
}
