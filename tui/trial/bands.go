package trial

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/tui/chart"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

func (b *benchScreen) Keys() []key.Binding {
	k := benchKeys
	switch {
	case b.Asking():
		return b.PromptKeys()
	case b.sure != nil:
		return b.doubtKeys()
	}
	switch b.mode {
	case marking:
		return []key.Binding{markKeys.toggle, markKeys.done}
	case changing:
		return []key.Binding{factKeys.next, factKeys.prev, factKeys.done}
	case mending:
		m := mendKeys
		return []key.Binding{
			m.move, m.level, m.undo, m.done, m.insert, m.remove, m.half, m.spoon, m.count, m.grams, m.other, m.rest,
			m.measure, m.marks, m.note, m.none, m.use, m.pot, m.redo,
		}
	case looking:
		keys := []key.Binding{
			b.lookKeys(), k.rest, k.undo, k.without, k.marks, k.note, k.mend, k.leave, k.finish, k.measure,
			k.more, k.change, k.pot, k.weigh, k.removed, k.stirred, k.redo, k.aside, k.back, k.quit,
		}
		return b.withHalf(keys)
	default:
		add := ui.Bind("Enter", b.enterDoes(), "enter")
		keys := []key.Binding{
			add, k.spoon, k.count, k.undo, k.liquid, k.grams, k.scale, k.leave, k.finish, k.again, k.mend,
			k.marks, k.note, k.more, k.change, k.pot, k.weigh, k.removed, k.redo, k.aside, k.back, k.quit,
			k.measure, k.stirred,
		}
		if b.stopAdvised() {
			if b.trial().PotOpen() {
				keys = slices.Insert(without(keys, k.pot), 1, k.pot)
			}
			keys = append(without(keys, k.finish), k.finish) // Enter does it
		}
		return b.withHalf(keys)
	}
}

// without returns the keys without but.
func without(keys []key.Binding, but key.Binding) []key.Binding {
	return slices.DeleteFunc(keys, func(k key.Binding) bool { return slices.Equal(k.Keys(), but.Keys()) })
}

// lookKeys returns the digits that record a look.
func (b *benchScreen) lookKeys() key.Binding {
	if b.trial().Match != nil {
		return benchKeys.beside
	}
	return benchKeys.level
}

// doubtKeys returns the answers to the open question.
func (b *benchScreen) doubtKeys() []key.Binding {
	keys := []key.Binding{ui.Bind("Enter", b.sure.yes, "enter"), ui.Bind("Esc", b.sure.no, "esc")}
	return append(keys, b.sure.keys...)
}

// enterDoes says what Enter does while adding.
func (b *benchScreen) enterDoes() string {
	if a := b.advised(); a != nil {
		switch a.Action {
		case bench.ActStop:
			return "finish"
		case bench.ActLook:
			return "look at both again"
		case bench.ActWeigh:
			return advisedText(*a, b.trial().Liquid)
		}
	}
	if s, ok := b.planned(); ok {
		return "add " + s.In(b.trial().Liquid)
	}
	return "add"
}

// withHalf puts second the key that this trial needs at each step: for a reading if
// it measures, for half levels if it reads halves.
func (b *benchScreen) withHalf(keys []key.Binding) []key.Binding {
	if b.trial().Measured != nil {
		keys = slices.Insert(without(keys, benchKeys.measure), 1, benchKeys.measure)
	}
	if b.trial().LevelStep != 0.5 || b.trial().Match != nil || b.mode == adding && !b.halfInTime() {
		return keys
	}
	return append([]key.Binding{keys[0], benchKeys.half}, keys[1:]...)
}

func (b *benchScreen) View(w, h int) string { return strings.Join(b.draw(w, h).lines, "\n") }

// draw puts the bands into their rows: what to do now, dish and answer, last
// message, and steps with chart.
func (b *benchScreen) draw(w, h int) drawn {
	l := layoutOf(w, h)
	d := drawn{lines: make([]string, max(h, 0))}
	if b.more {
		b.drawStatistics(&d, l)
	} else {
		d.put(l.dish, b.dishLine(w), b.answerLine(w))
		d.put(l.rule, ui.Rule("", w))
		b.drawLower(&d, l)
	}
	if b.more && l.low() {
		return d
	}
	if said := b.said(w); len(said) > 0 {
		d.put(max(min(l.rule, h-len(said)), l.now+l.nowH), said...)
	}
	b.drawNow(&d, l)
	return d
}

// said draws what the last key did, or why it did nothing.
func (b *benchScreen) said(w int) []string {
	if b.mode == changing && b.facts.Problem != "" {
		return ui.Loud(b.facts.Problem, w)
	}
	return b.Said(w)
}

// dishLine says what is in the dish, with the trial's target at the right.
func (b *benchScreen) dishLine(w int) string {
	t, d := b.trial(), b.session.Outcome().Dish()
	liquid := printable.Line(t.Liquid)
	holds, short := model.Grams(d.LiquidG)+" g "+liquid, model.Grams(d.LiquidG)+" g"
	if d.PowderG > 0 {
		holds, short = holds+" + "+d.PowderText(), short+" + "+d.PowderText()
	}
	aim := fmt.Sprintf("target %s · rest %s", model.Number(t.Aim), model.Seconds(b.restS()))
	if t.Match != nil {
		aim = "side by side · rest " + model.Seconds(b.restS())
	}
	if t.SetAside != "" {
		aim = ui.WaitStyle.Render("! set aside (i says why)")
	}
	inDish := "In the dish  "
	beside, alone := []string{inDish + holds}, []string{holds}
	switch {
	case d.HasRatio():
		ratio := ui.TitleStyle.Render(model.RatioText(d.Ratio()) + " g/g")
		full := ui.TitleStyle.Render(model.PerPowder(model.RatioText(d.Ratio()), liquid))
		beside = []string{inDish + holds + ": " + full, inDish + holds + ": " + ratio, holds + ": " + ratio}
		alone = []string{
			inDish + holds + ": " + ratio, holds + ": " + ratio, ratio + " · " + holds, ratio + " · " + short,
		}
	case d.Mixed():
		beside = []string{inDish + holds + ", guessed until the pot is weighed", inDish + holds + " (a guess)"}
		alone = []string{inDish + holds + " (a guess)", holds + " (a guess)", short + " (a guess)"}
	}
	for _, text := range beside {
		if ui.Cells(text)+ui.Cells(aim)+4 <= w {
			return ui.Justify("  "+text, ui.NoteStyle.Render(aim)+" ", w)
		}
	}
	return "  " + ui.Fitting(w-2, alone...)
}

// answerLine gives the trial's answer so far.
func (b *benchScreen) answerLine(w int) string {
	out := b.session.Outcome()
	if out.Err != nil {
		return ui.RiskStyle.Render(ui.Cut("! "+out.Err.Error(), w))
	}
	note := ""
	if len(out.FarOut) > 0 {
		note = fmt.Sprintf("! step %d sits far out (i)", out.FarOut[0]+1)
	}
	brief := out.Answer(b.trial().Aim).Brief(printable.Line(b.trial().Liquid))
	if m, ok := readings.Alone(out.Reading); ok {
		brief = m.Brief()
	}
	var texts []string
	for _, text := range brief {
		texts = append(texts, "Answer       "+text, text)
	}
	for _, text := range texts {
		text = "  " + text
		if ui.Cells(text)+ui.Cells(note)+2 <= w {
			return ui.Justify(ui.TitleStyle.Render(text), ui.WaitStyle.Render(note)+" ", w)
		}
	}
	return ui.TitleStyle.Render(ui.Cut("  "+brief[len(brief)-1], w))
}

// drawStatistics puts the statistics below the first band, or over the whole screen
// if room is short.
func (b *benchScreen) drawStatistics(d *drawn, l layout) {
	top := l.dish
	if l.low() {
		top = 0
	}
	d.put(top, b.statistics(l.w, l.h-top)...)
}

// statistics lists the parts of the answer; while shown they replace the lower
// bands.
func (b *benchScreen) statistics(w, h int) []string {
	t, out := b.trial(), b.session.Outcome()
	lines := []string{ui.Rule(ui.TitleStyle.Render("Statistics")+" (i closes)", w)}
	add := func(text string) {
		for _, line := range ui.Painted(ui.PlainStyle, text, w-3) {
			lines = append(lines, "  "+line)
		}
	}
	a := out.Answer(t.Aim)
	m, measured := readings.Of(out.Reading)
	if measured {
		add("Measured: " + m.Sentence())
	}
	if !measured || out.Reading.Looks() > 0 {
		add(a.Sentence(t.Liquid))
	}
	if a.Budget != nil {
		add(doubtText(a, t.Tolerance))
	}
	for _, far := range out.FarOut {
		add(fmt.Sprintf("! Step %d sits far from where the others put it: e mends it, k looks again.", far+1))
	}
	if t.SetAside != "" {
		add("! Set aside: " + t.SetAside)
	}
	if len(lines) > h && h > 0 {
		lines = append(lines[:h-1],
			ui.NoteStyle.Render(fmt.Sprintf("  … %d more lines in a taller window", len(lines)-h+1)))
	}
	for len(lines) < h {
		lines = append(lines, "")
	}
	return lines
}

// doubtText says how well the dish is known, what was wanted, and where the doubt comes
// from.
func doubtText(a bench.Answer, wanted float64) string {
	text := model.Capital(bench.Doubt(a.Ratio.HalfWidth(), a.Dish.HalfWidth(), wanted))
	terms := bench.BudgetTerms(*a.Budget)
	if len(terms) < 2 {
		return text + "; spoons and scale add next to nothing."
	}
	var parts []string
	for _, term := range terms {
		parts = append(parts, fmt.Sprintf("%.0f from %s", 100*term.Share, term.Name))
	}
	return text + ". Of 100 parts of that doubt come " + strings.Join(parts, ", ") + "."
}

// trialChart draws a trial's looks with curve, band and target, or its readings if
// it was only measured.
func trialChart(s *ui.Session, w, h int, ascii bool) []string {
	if m, ok := readings.Alone(s.Outcome().Reading); ok {
		return readingChart(m, s.Outcome().Dish(), w, h, ascii)
	}
	return looksChart(s, w, h, ascii)
}

// looksChart draws the looks with curve, band and target; looks beside a reference
// dish on an axis of words.
func looksChart(s *ui.Session, w, h int, ascii bool) []string {
	t, out := s.Trial(), s.Outcome()
	series := chart.Series{Points: ui.Points(out.Reading.LookPoints(out.FarOut))}
	if n := len(series.Points); n > 0 {
		series.Points[n-1].Latest = true
	}
	c := ui.BesideChart(t.Liquid, ascii)
	if t.Match == nil {
		c = ui.Chart(t.Liquid, ascii)
		c.Aim, c.HasAim = t.Aim, true
		var levels []bench.CurvePoint
		for _, a := range out.Curve {
			levels = append(levels, bench.CurvePointOf(a.Level, a.Dish, a.Reach))
		}
		series.Curve = ui.CurvePoints(levels)
	}
	c.Series = []chart.Series{series}
	if d := out.Reading.Dish(); d.HasRatio() {
		c.NowX = d.PowderPerLiquid()
	}
	c.LogX = s.LogAxis(c.Log())
	return c.Render(w, h)
}
