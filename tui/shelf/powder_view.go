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

// lines draws all rows under the titles of their sections; cursor is the index of
// its line.
func (p *powderPage) lines(w int) (lines []string, cursor int) {
	powder := p.session.Profile()
	title := func(text string) { lines = append(lines, ui.Rule(text, w)) }
	bySpoon := func() {
		if len(powder.LevelSpoons) == 0 {
			title("level spoons")
			lines = append(lines, p.spoonsByPot(w)...)
		}
	}
	for i, row := range p.rows {
		before := pageRow{spoon: -1, trial: -1}
		if i > 0 {
			before = p.rows[i-1]
		}
		switch {
		case row.spoon >= 0 && before.spoon < 0:
			title("level spoons")
		case row.trial >= 0 && before.trial < 0:
			bySpoon()
			title("trials")
		}
		here := i == p.cursor
		if here {
			cursor = len(lines)
		}
		lines = append(lines, line(ui.Fitting(w-2, p.rowTexts(row, here)...), here, w))
		if row.fact != nil && row.fact.Key == "packing" {
			for _, one := range powder.Powder.Packings {
				for _, l := range ui.Painted(ui.NoteStyle, handling.PackingSentence(one), w-ui.LabelWidth-2) {
					lines = append(lines, strings.Repeat(" ", ui.LabelWidth+2)+l)
				}
			}
		}
	}
	if len(powder.Trials) == 0 {
		bySpoon()
		lines = append(lines, ui.Rule("trials", w), ui.NoteStyle.Render("  none yet: t makes one"))
	}
	return lines, cursor
}

// spoonsByPot lists level spoons whose weight comes from the pot of a trial,
// because they were never weighed themselves.
func (p *powderPage) spoonsByPot(w int) []string {
	profile := p.session.Profile()
	texts := profile.SpoonWeights(profile.SpoonSet(), p.deps.OwnSpoons).Texts()
	if len(texts) == 0 {
		texts = []string{"none weighed yet: w weighs one"}
	} else {
		texts = append(texts, "w weighs one by itself")
	}
	var lines []string
	for _, text := range texts {
		lines = append(lines, ui.Inset(w, func(w int) []string { return ui.Painted(ui.NoteStyle, text, w) })...)
	}
	return lines
}

// rowTexts returns the texts of a row, the longest first; the longest that fits is
// drawn.
func (p *powderPage) rowTexts(row pageRow, here bool) []string {
	switch {
	case row.trial >= 0:
		return p.trialTexts(row.trial)
	case row.spoon >= 0:
		return p.spoonTexts(p.session.Profile().LevelSpoons[row.spoon], here)
	default:
		whole := ui.Pad(row.fact.Label(), ui.LabelWidth) + p.factText(*row.fact, here)
		if row.fact.Key != "family" || here {
			return []string{whole}
		}
		parts := strings.Split(whole, ": ")
		return []string{whole, strings.Join(parts[:min(len(parts), 2)], ": "), parts[0]}
	}
}

// line draws one row, with the sign of the cursor.
func line(text string, here bool, w int) string {
	if here {
		return ui.DoStyle.Render(ui.Cut("▸ "+text, w))
	}
	return ui.Cut("  "+text, w)
}

// factText gives a fact's value, or says that there is none.
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

// spoonTexts writes a spoon's weighings, the picked one in brackets, and the weight
// they give, the longest text first.
func (p *powderPage) spoonTexts(l model.LevelSpoon, here bool) []string {
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
		return []string{text + "no weighing yet"}
	}
	text += fmt.Sprintf("  = %s g ± %s", model.SpoonGrams(weight.Mean), model.Significant(weight.HalfWidth(), 2))
	texts := []string{text}
	if l.Each() > 1 {
		text += fmt.Sprintf(", %d spoons per weighing", l.Each())
		texts = append([]string{text}, texts...)
	}
	if filled == "" {
		texts = append([]string{text + ", " + printable.Line(l.How)}, texts...)
	}
	return texts
}

// trialTexts writes a trial with its answer, the longest text first. In the shorter
// ones the answer stays and the liquid and rest go.
func (p *powderPage) trialTexts(n int) []string {
	profile := p.session.Profile()
	t := profile.Trials[n].WithDefaults(profile.Powder.Kind())
	day := fmt.Sprintf("%d  %s", n+1, t.Started.Local().Format("2006-01-02"))
	looks := t.ReadBy()
	made := fmt.Sprintf("%s  in %s, %s, %s", day, printable.Line(t.Liquid), model.Seconds(*t.RestS), looks)
	answer, short, least := "", "", ""
	switch a := p.answers[n]; {
	case t.SetAside != "":
		answer = "  SET ASIDE: " + printable.Line(t.SetAside)
		short, least = answer, answer
	case t.Unfinished():
		answer = "  unfinished"
		short, least = answer, answer
	case a.Factor() != nil: // a ratio to the reference dish
		f := *a.Factor()
		least = "  " + model.Significant(f.Median, 2) + " times"
		answer = fmt.Sprintf("%s (%s)", least, bench.ShortRange(f))
		short = answer
	case a.Dish != nil:
		ratio := bench.IntervalText(*a.Dish) + " g/g"
		answer = fmt.Sprintf("  at %s: %s", model.LevelName(t.Aim), ratio)
		short, least = fmt.Sprintf("  at %s: %s", model.Number(t.Aim), ratio), "  "+ratio
	}
	return []string{made + answer, made + short, day + "  " + looks + short, day + least}
}

// foot draws the row's question, the outcome of the last key, and the line being
// typed.
func (p *powderPage) foot(w int) []string {
	lines := []string{""}
	if p.Asking() || !p.Silent() {
		return append(lines, p.Foot(w)...)
	}
	text := "File: " + p.session.Entry().Path
	row := p.rows[p.cursor]
	whole := p.rowTexts(row, true)[0]
	if row.fact != nil {
		whole = p.factText(*row.fact, false)
		text = row.fact.Hint
	}
	if ui.Cells(p.rowTexts(row, true)[0]) > w-2 { // what did not fit into its row
		text = strings.Join(strings.Fields(whole), " ") + ". " + text
	}
	return append(lines, ui.Inset(w, func(w int) []string { return ui.Painted(ui.NoteStyle, text, w) })...)
}
