package trial

import (
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/glyph"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/lipgloss"
)

// drawNow draws the one thing to do now into the band at the top. Only a
// question that is longer than the band reaches beyond it.
func (b *benchScreen) drawNow(d *drawn, l layout) {
	switch {
	case b.Asking():
		d.put(l.now, b.promptLines(l)...)
		return
	case b.mode == marking:
		b.drawMarks(d, l)
	case b.mode == mending:
		d.put(l.now, b.mendLines(l)...)
	case b.mode == changing:
		d.put(l.now, b.factLines(l)...)
	case b.mode == looking:
		b.drawLook(d, l)
	default:
		b.drawAdd(d, l)
	}
	if b.sure != nil {
		lines := b.doubtLines(l)
		d.put(l.now, lines...)
		d.area(0, l.now, l.w, len(lines), nil)
	}
}

// doubtLines are the question that Enter answers. One about a level stays on
// one line where it can, so that the levels stay in sight.
func (b *benchScreen) doubtLines(l layout) []string {
	short := printable.Line(b.sure.text)
	if !strings.HasSuffix(short, "?") && !strings.HasSuffix(short, ".") {
		short += "."
	}
	short += " Enter"
	text := fmt.Sprintf("%s: %s, Esc: %s", short, b.sure.yes, b.sure.no)
	badge := " " + ui.Badge(ui.RiskStyle, "SURE?") + " "
	for _, line := range []string{
		badge + ui.TitleStyle.Render(text), badge + ui.TitleStyle.Render(short),
		ui.RiskStyle.Render(short),
	} {
		if ui.Cells(line) <= l.w && (b.mode == looking || strings.Contains(line, text)) {
			return []string{line}
		}
	}
	return ui.Wrap(badge+ui.TitleStyle.Render(text), l.w)
}

// head is the first row of the band: a badge and the one thing to do, with the
// rest at the right where one runs in the background.
func (b *benchScreen) head(l layout, role lipgloss.Style, badge, text string) string {
	left := " " + ui.Badge(role, badge) + " " + ui.TitleStyle.Render(text)
	right := ""
	if (b.mode != looking || b.Asking()) && b.awaitsLook() && b.restLeft() > 0 {
		right = ui.WaitStyle.Render("rest "+clock(b.restLeft())) + " "
	}
	if right == "" || ui.Cells(left)+ui.Cells(right) > l.w {
		return ui.Cut(left, l.w)
	}
	return ui.Justify(left, right, l.w)
}

// promptLines are the question that is typed for, whole in any window.
func (b *benchScreen) promptLines(l layout) []string {
	var lines []string
	if !l.narrow {
		lines = append(lines, b.head(l, ui.DoStyle, "TYPE", "Enter keeps it, Esc goes back"), "")
	}
	for _, line := range b.Line(l.w - 4) {
		lines = append(lines, "  "+line)
	}
	for len(lines) < l.nowH {
		lines = append(lines, "")
	}
	return lines
}

// clock writes seconds as a clock does, "1:48".
func clock(s int) string { return fmt.Sprintf("%d:%02d", s/60, s%60) }

// drawLook is the countdown with the levels beside it.
func (b *benchScreen) drawLook(d *drawn, l layout) {
	left, role := b.restLeft(), ui.WaitStyle
	text := fitting(l.w-10, "stir ten turns, rest, then test; scrape everything back",
		"stir ten turns, rest, test, scrape it back", "stir, rest, test. Level?")
	if left <= 0 {
		role = ui.DoStyle
		text = fitting(l.w-10, "test now, then scrape everything back into the dish. Level?",
			"test now, then scrape it back. Level?", "test now. Level?")
	}
	if b.half {
		text = fitting(l.w-10, "half a level above the digit you type now", "half above the digit")
	}
	d.put(l.now, b.head(l, ui.DoStyle, "LOOK", text))
	size, wide := glyph.Small, 16
	if l.w >= 76 && left < 600 {
		size, wide = glyph.Large, 30
	}
	if l.narrow {
		size = glyph.Small
	}
	d.put(l.now+1, ui.Beside(b.countdown(l, role, size, wide), b.levelLines(l, wide), wide)...)
	b.levelAreas(d, l, wide)
}

// countdown is what is left of the rest, in big digits over a quiet bar.
func (b *benchScreen) countdown(l layout, role lipgloss.Style, size glyph.Size, wide int) []string {
	left := max(b.restLeft(), 0)
	var lines []string
	if !l.narrow {
		lines = append(lines, "")
	}
	for _, row := range glyph.Digits(clock(left), size) {
		lines = append(lines, " "+role.Render(row))
	}
	for !l.narrow && len(lines) < 6 {
		lines = append(lines, "")
	}
	share := 1.0
	if b.restS() > 0 {
		share = 1 - float64(left)/float64(b.restS())
	}
	done, open := glyph.Bar(share, wide-3)
	lines = append(lines, " "+role.Render(done)+ui.NoteStyle.Render(open))
	if l.narrow {
		return lines
	}
	says := "Space: starts now"
	if left == 0 {
		says = "rest over"
	}
	if ui.Cells(says) > wide-3 {
		says = "Space: again"
	}
	return append(lines, " "+ui.NoteStyle.Render(says))
}

// levelLines are the levels with their tests, or in two columns of words.
func (b *benchScreen) levelLines(l layout, left int) []string {
	aim := b.trial().Aim
	scale := model.Scale()
	var lines []string
	if l.narrow {
		half := len(scale) / 2
		for i := range half {
			lines = append(lines, levelWord(scale[i], aim)+levelWord(scale[i+half], aim))
		}
		return lines
	}
	const number, word, target = 3, 10, 9
	room := l.w - left - number - word
	for _, c := range scale {
		test := c.Test
		if ui.Cells(test) > room-target {
			test = c.Short
		}
		head, word := ui.KeyStyle.Render(model.Number(c.Level)), ui.Pad(c.Word, word)
		if c.Level == aim {
			mark := " ◂ target"
			if ui.Cells(test)+ui.Cells(mark) > room {
				mark = " ◂"
			}
			lines = append(lines, head+"  "+ui.DoStyle.Render(word)+test+ui.DoStyle.Render(mark))
			continue
		}
		lines = append(lines, head+"  "+ui.TitleStyle.Render(word)+test)
	}
	return lines
}

func levelWord(c model.Consistency, aim float64) string {
	sign := ""
	if c.Level == aim {
		sign = "◂"
	}
	return ui.Pad(ui.KeyStyle.Render(model.Number(c.Level))+" "+c.Word+ui.DoStyle.Render(sign), 12)
}

// levelAreas make the levels clickable.
func (b *benchScreen) levelAreas(d *drawn, l layout, left int) {
	for i, c := range model.Scale() {
		take := func() { b.look(c.Level) }
		if l.narrow {
			half := len(model.Scale()) / 2
			d.area(left+12*(i/half), l.now+1+i%half, 12, 1, take)
			continue
		}
		d.area(left, l.now+1+i, l.w-left, 1, take)
	}
}

// drawAdd is what Enter adds: as a picture of spoons, with where it will likely
// land and what one more would risk.
func (b *benchScreen) drawAdd(d *drawn, l layout) {
	const readWidth = 22
	w := l.w
	if !l.narrow && w >= 76 {
		w -= readWidth
	}
	badge, role, text, picture := b.whatNow(w)
	lines := []string{b.head(l, role, badge, text)}
	if !l.narrow {
		lines = append(lines, "")
		lines = append(lines, atLeast(picture, glyph.SpoonLines)...)
	}
	lines = append(lines, b.landing(l))
	reasons := b.reasons(w - 4)
	for _, line := range reasons[:min(len(reasons), 2)] {
		lines = append(lines, "  "+line)
	}
	at := l.nowH - 1
	lines = atLeast(lines, at)[:at]
	lines = append(lines, b.spoonLine(d, l.now+at, w))
	if w < l.w {
		lines = ui.Beside(lines, b.lastRead(readWidth), w)
		lines[0] = b.head(l, role, badge, text)
	}
	d.put(l.now, lines...)
	if !l.narrow {
		d.area(0, l.now, w, glyph.SpoonLines+2, func() { b.add() })
	}
}

// atLeast fills a block up to n lines, so that what stands below it does not
// jump from key to key.
func atLeast(lines []string, n int) []string {
	for len(lines) < n {
		lines = append(lines, "")
	}
	return lines
}

// whatNow is the one thing to do: its badge, in words, and as a picture of at
// most w cells.
func (b *benchScreen) whatNow(w int) (badge string, role lipgloss.Style, text string, picture []string) {
	a := b.advised()
	t := b.trial()
	switch {
	case a != nil && a.Action == bench.ActStop:
		if iv := b.session.Outcome().Answer(t.Aim).Dish; iv != nil {
			picture = b.big(model.RatioText(iv.Median), fmt.Sprintf("g %s per g powder", printable.Line(t.Liquid)))
		}
		return "STOP", ui.GoodStyle, "Enter finishes the trial", picture
	case a != nil && a.Action == bench.ActWeigh && a.Pot:
		return "WEIGH", ui.DoStyle, "the open pot of powder: Enter, then the grams", b.potPicture(*a)
	case a != nil && a.Action == bench.ActWeigh:
		return "WEIGH", ui.DoStyle, "level spoons: Enter, then the grams", nil
	}
	s, ok := b.planned()
	if !ok {
		return "ADD", ui.DoStyle, b.what() + ": g, then the grams", nil
	}
	plain := s.In(printable.Line(t.Liquid))
	if s.Weighed() {
		return "ADD", ui.DoStyle, "about " + plain, b.big(model.Number(s.Grams), "g "+b.what())
	}
	if grams, err := b.chosenG(s); err == nil {
		weight := fmt.Sprintf(" (%s g)", model.Grams(grams))
		text = fitting(w-9, plain+", struck off level"+weight, plain+weight, plain)
	} else {
		text = fitting(w-9, plain+": no weight yet, so its grams will be asked for", plain+": grams will be asked")
	}
	return "ADD", ui.DoStyle, text, b.spoons(s, w-4)
}

// potPicture is what weighing the pot would make of the answer's width.
func (b *benchScreen) potPicture(a bench.Advice) []string {
	if a.Then <= 0 {
		return nil
	}
	return []string{"", "  " + ui.DoStyle.Render(bench.PlusMinus(a.Now)+" becomes "+bench.PlusMinus(a.Then)), ""}
}

// big is a number in small block digits with its unit behind it.
func (b *benchScreen) big(number, unit string) []string {
	lines := glyph.Digits(number, glyph.Small)
	for i := range lines {
		lines[i] = "  " + ui.DoStyle.Render(lines[i])
	}
	lines[len(lines)-1] += "  " + unit
	return lines
}

// spoons is a count of level spoons as a picture of their size.
func (b *benchScreen) spoons(s model.Step, w int) []string {
	t := b.trial()
	ml := 0.0
	if spoon, ok := b.deps.OwnSpoons.Spoon(t.SpoonSet, s.Spoon); ok {
		ml = spoon.VolumeML
	}
	count := glyph.Digits(model.Number(float64(s.Spoons()))+"×", glyph.Small)
	shapes := glyph.Spoons(s.Spoons(), ml, s.Add == model.AddLiquid, w-ui.Cells(count[0])-3)
	lines := make([]string, len(shapes))
	for i := range lines {
		lines[i] = "  " + ui.TitleStyle.Render(count[i]) + "   " + ui.DoStyle.Render(shapes[i])
	}
	return lines
}

// what is powder or the liquid's name, whichever is chosen.
func (b *benchScreen) what() string {
	if b.choice.liquid {
		return printable.Line(b.trial().Liquid)
	}
	return "powder"
}

// landing is a little row of levels with those between which the look after
// the addition will likely fall in brackets, and the target.
func (b *benchScreen) landing(l layout) string {
	fs := b.forecasts()
	if len(fs) == 0 {
		return ""
	}
	pitch, line := 5, "  lands at  "
	if l.narrow {
		pitch, line = 4, "  "
	}
	for _, c := range model.Scale() {
		open, end := " ", " "
		inside := c.Level >= math.Floor(fs[0].Low) && c.Level <= math.Ceil(fs[0].High)
		if fs[0].High-fs[0].Low >= 1 {
			inside = c.Level >= fs[0].Low && c.Level <= fs[0].High
		}
		style := ui.NoteStyle
		if inside {
			style = ui.TitleStyle
			open, end = "[", "]"
		}
		number := model.Number(c.Level)
		if c.Level == b.trial().Aim {
			number += "◂"
		}
		line += ui.Pad(style.Render(open+number+end), pitch)
	}
	return ui.Cut(line, l.w)
}

// reasons say why the addition is advised, or what the maker's own choice
// would bring and what was advised instead.
func (b *benchScreen) reasons(w int) []string {
	a := b.advised()
	if a != nil {
		return ui.Painted(ui.PlainStyle, reason(*a), w)
	}
	var lines []string
	if fs := b.forecasts(); len(fs) > 0 {
		lines = append(lines, b.risk(fs, w))
	}
	if a := b.session.Outcome().Advice; a != nil && b.choice.own {
		text := "advised: " + advisedText(*a, printable.Line(b.trial().Liquid))
		lines = append(lines, ui.NoteStyle.Render(fitting(w, text+" (Esc takes it)", text)))
	}
	return lines
}

// reason is an advice's sentence without the amount it begins with, which is
// shown large.
func reason(a bench.Advice) string {
	if _, why, ok := strings.Cut(a.Why, ": "); ok && (a.Action == bench.ActPowder || a.Action == bench.ActLiquid) {
		return why
	}
	return a.Why
}

// advisedText is an advice in a few words.
func advisedText(a bench.Advice, liquid string) string {
	switch a.Action {
	case bench.ActStop:
		return "stop"
	case bench.ActWeigh:
		if a.Pot {
			return "weigh the pot"
		}
		return "weigh level spoons"
	default:
		s, _ := a.Step()
		return s.In(liquid)
	}
}

// risk says what the maker's own choice would bring.
func (b *benchScreen) risk(fs []bench.Forecast, w int) string {
	s, _ := b.planned()
	f := fs[0]
	if f.Unlooked {
		return ui.Cut(fmt.Sprintf("%s: lands at %s, a guess from the family", s.Amount(), f.Range()), w)
	}
	beyond := fmt.Sprintf("%s beyond %s", f.Odds(), model.Number(f.Beyond))
	if f.Guess() {
		beyond += ", a guess"
	}
	text := s.Amount() + ": " + beyond
	if f.Risky() {
		return ui.RiskStyle.Render(fitting(w, "! "+text, "! "+beyond))
	}
	if fs[1].Risky() {
		more := fmt.Sprintf("; one more: %s", fs[1].Odds())
		return fitting(w, text+more, beyond+more, beyond)
	}
	return fitting(w, text, beyond)
}

// spoonLine shows the spoons at hand, the one that Enter would add in
// brackets. A click chooses one.
func (b *benchScreen) spoonLine(d *drawn, row, w int) string {
	line := "  "
	a := b.advised()
	for i, name := range b.trial().Spoons {
		here := i == b.choice.spoon && (a == nil || a.Spoon == name)
		label := " " + name + " "
		if here {
			label = "[" + name + "]"
		}
		if ui.Cells(line)+ui.Cells(label) > w-1 {
			return line + "…"
		}
		d.area(ui.Cells(line), row, ui.Cells(label), 1, func() { b.choose(i) })
		if here {
			label = ui.TitleStyle.Render(label)
		} else {
			label = ui.NoteStyle.Render(label)
		}
		line += label + " "
	}
	return line
}

// lastRead is the level that stands recorded last, large.
func (b *benchScreen) lastRead(w int) []string {
	steps := b.trial().Steps
	for i := len(steps) - 1; i >= 0; i-- {
		if s := steps[i]; s.Looked {
			text := strings.TrimSuffix(model.LevelName(s.Level), " "+model.LevelWord(s.Level))
			size := glyph.Large
			lines := []string{""}
			for _, row := range glyph.Digits(text, size) {
				lines = append(lines, ui.PadLeft(ui.TitleStyle.Render(row), w-2))
			}
			lines = append(lines, ui.PadLeft(model.LevelWord(s.Level), w-2),
				ui.PadLeft(ui.NoteStyle.Render(fmt.Sprintf("step %d", i+1)), w-2))
			return lines
		}
	}
	return nil
}
