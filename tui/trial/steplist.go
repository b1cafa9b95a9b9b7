package trial

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

// Room that steps and chart need.
const (
	stepsWidth  = 42 // the list of steps beside the chart, at the least
	namedWidth  = 46 // where "12 × 1/4 tsp liquid" is not cut
	chartWidth  = 34 // least width of a chart beside it
	chartHeight = 8  // least height of a chart
	listHeight  = 4  // least height of a list of steps above it
)

// drawLower draws the steps with the chart beside or below them, or alone.
func (b *benchScreen) drawLower(d *drawn, l layout) {
	w, h := l.w, l.lowerH()
	switch {
	case h <= 0:
	case w >= stepsWidth+chartWidth && h >= chartHeight:
		list := max(min(namedWidth, w-chartWidth), w/3)
		left := b.drawSteps(d, l.lower, list, h)
		d.put(l.lower, ui.Columns(left, trialChart(b.session, w-list, h, b.deps.ASCII), list)...)
	case h >= listHeight+chartHeight:
		top := b.drawSteps(d, l.lower, w, h-chartHeight)
		d.put(l.lower, append(top, trialChart(b.session, w, h-len(top), b.deps.ASCII)...)...)
	default:
		d.put(l.lower, b.drawSteps(d, l.lower, w, h)...)
	}
}

// drawSteps lists the steps, scrolled to the newest or the one being mended. A
// click on a step mends it.
func (b *benchScreen) drawSteps(d *drawn, row, w, h int) []string {
	t := b.trial()
	var lines []string
	if h > 2 {
		lines = append(lines, ui.NoteStyle.Render(stepLine("", "step", b.ratioHead(), b.readHead(), w)))
	}
	if len(t.Steps) == 0 {
		return append(lines, ui.NoteStyle.Render("  nothing added yet"))[:min(len(lines)+1, h)]
	}
	room := h - len(lines)
	first := b.firstStep(len(t.Steps), room)
	above := first
	if above > 0 && room > 1 {
		first++ // the line says that some are hidden
		lines = append(lines, ui.NoteStyle.Render(fmt.Sprintf("  ↑ %d more", first)))
	}
	for i := first; i < len(t.Steps) && len(lines) < h; i++ {
		if b.mode == adding || b.mode == looking || b.mode == mending {
			d.area(0, row+len(lines), w, 1, func() { b.startMending(i) })
		}
		lines = append(lines, b.stepText(i, t.Steps[i], w))
	}
	if below := len(t.Steps) - first - room; below > 0 && len(lines) == h && room > 2 {
		lines[h-1] = ui.NoteStyle.Render(fmt.Sprintf("  ↓ %d more", below+1))
	}
	legend := ui.Inset(w, func(w int) []string { return ui.Painted(ui.NoteStyle, b.legend(), w) })
	if len(legend) > h-len(lines) {
		return lines
	}
	return append(lines, legend...)
}

// ratioHead names the column of the dish's ratio by its unit.
func (b *benchScreen) ratioHead() string {
	const longest = 14
	if head := "g " + printable.Line(b.trial().Liquid) + "/g"; ui.Cells(head) <= longest {
		return head
	}
	return "g liquid/g"
}

// readHead names the column of levels or readings.
func (b *benchScreen) readHead() string {
	switch t := b.trial(); {
	case t.Match != nil:
		return "beside"
	case t.HasReading() && t.Looks() == 0:
		return string(t.Measured.Kind)
	default:
		return "level"
	}
}

// firstStep returns the index of the first of n steps that is shown in room lines.
func (b *benchScreen) firstStep(n, room int) int {
	last := n - 1
	if b.mode == mending {
		last = min(max(b.mend+min(room/2, 1), room-1), n-1)
	}
	b.above = min(b.above, max(n-room, 0))
	return max(last-b.above-room+1, 0)
}

// stepLine puts a step into columns. What was added is never cut: in a narrow
// window the level loses its word.
func stepLine(sign, what, ratio, level string, w int) string {
	wider := max(ui.Cells(ratio)-ratioWidth, 0) // a head reaches to the left
	return ui.Pad(sign, 2) + ui.Pad(what, whatWidth(w)-wider) +
		ui.PadLeft(ratio, ratioWidth+wider) + "  " + ui.Pad(level, levelWidth(w))
}

// ratioWidth is the room for a ratio in a step's line, in cells.
const ratioWidth = 6

// levelWidth gives the room for a level, in a narrow window without its word.
func levelWidth(w int) int {
	if w < stepsWidth {
		return 8
	}
	return 13
}

// whatWidth gives the room for a step's number and what it added.
func whatWidth(w int) int { return max(w-2-ratioWidth-2-levelWidth(w), 6) }

func (b *benchScreen) stepText(i int, s model.Step, w int) string {
	ratio, level := "", "–"
	out := b.session.Outcome()
	if i < len(out.Reading.Dishes) {
		switch d := out.Reading.Dishes[i]; {
		case d.HasRatio():
			ratio = model.RatioText(d.Ratio())
		case d.Mixed():
			ratio = "–" // a guess until the pot is weighed
		}
	}
	if s.Beside != "" {
		level = s.Beside.Words()
	} else if s.Looked {
		level = model.Number(s.Level)
		if s.Level == float64(int(s.Level)) && w >= stepsWidth {
			level = model.LevelName(s.Level)
		}
	}
	if m := b.trial().Measured; s.Reading > 0 && m != nil {
		read := m.Text(s.Reading)
		if s.Looked {
			read = model.Number(s.Level) + ", " + read
		}
		level = read
	}
	if signs := b.stepSigns(i, s); signs != "" {
		level += " " + signs
	}
	// a wide gap behind the number: "6 1/4 tsp" is another amount
	what := fmt.Sprintf("%2d  %s", i+1, addition(s, printable.Line(b.trial().Liquid), whatWidth(w)-4))
	if b.mode == mending && i == b.mend {
		return ui.DoStyle.Render(stepLine("▸", what, ratio, level, w))
	}
	return stepLine("", what, ratio, level, w)
}

// sign is a letter beside a step, with its meaning.
type sign struct {
	letter, means string
	of            func(b *benchScreen, i int, s model.Step) bool
}

// signs lists all of them, in the order they are shown.
var signs = []sign{
	{"!", "far from where the others put it", func(b *benchScreen, i int, _ model.Step) bool {
		return slices.Contains(b.session.Outcome().FarOut, i)
	}},
	{"e", "read early", func(b *benchScreen, _ int, s model.Step) bool { return s.Timing(b.restS()) == model.Early }},
	{"l", "read late", func(b *benchScreen, _ int, s model.Step) bool { return s.Timing(b.restS()) == model.Late }},
	{"x", "left out", func(_ *benchScreen, _ int, s model.Step) bool { return s.LeftOut }},
	{"p", "the pot weighed", func(_ *benchScreen, _ int, s model.Step) bool { return s.PotG > 0 }},
	{"m", "behaviour seen", func(_ *benchScreen, _ int, s model.Step) bool { return len(s.Marks) > 0 }},
	{"n", "a note", func(_ *benchScreen, _ int, s model.Step) bool { return s.Note != "" }},
}

// stepSigns returns the letters beside a step.
func (b *benchScreen) stepSigns(i int, s model.Step) (letters string) {
	for _, sign := range signs {
		if sign.of(b, i, s) {
			letters += sign.letter
		}
	}
	return letters
}

// legend explains the signs that stand beside any step.
func (b *benchScreen) legend() string {
	used := ""
	for i, s := range b.trial().Steps {
		used += b.stepSigns(i, s)
	}
	return strings.Join(worded(used), " · ")
}

// allSigns explains every sign.
func allSigns() string {
	all := ""
	for _, sign := range signs {
		all += sign.letter
	}
	return strings.Join(worded(all), ", ")
}

// worded returns the meanings of letters, each behind its letter.
func worded(letters string) (parts []string) {
	for _, sign := range signs {
		if strings.Contains(letters, sign.letter) {
			parts = append(parts, sign.letter+" "+sign.means)
		}
	}
	return parts
}

// addition describes in at most w cells what a step added. A long name of the liquid gives
// way first, then that of powder.
func addition(s model.Step, liquid string, w int) string {
	texts := []string{strings.TrimSpace(s.In(liquid)), strings.TrimSpace(s.In("liquid"))}
	if s.Add == model.AddPowder {
		texts = append(texts, s.Amount())
	}
	return ui.Fitting(w, texts...)
}
