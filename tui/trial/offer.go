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

// drawAdd draws what Enter adds: spoons as a picture, where the dish will likely
// land, and the risk of one more.
func (b *benchScreen) drawAdd(d *drawn, l layout) {
	readWidth := 14
	if b.trial().LevelStep == 0.5 {
		readWidth = 22 // room for a large "4.5"
	}
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
	for _, line := range b.reasons(w - 4) {
		lines = append(lines, "  "+line)
	}
	at := l.nowH - 1
	lines = atLeast(lines, at)[:at]
	lines = append(lines, b.spoonLine(d, l.now+at, w))
	if w < l.w {
		if b.sure == nil { // a question would cover its top
			lines = ui.Columns(lines, b.lastRead(readWidth), w)
		}
		lines[0] = b.head(l, role, badge, text)
	}
	d.put(l.now, lines...)
	if !l.narrow {
		d.area(0, l.now, w, glyph.SpoonLines+2, func() { b.add() })
	}
}

// whatNow returns the one thing to do: its badge, words, and a picture of at most w
// cells.
func (b *benchScreen) whatNow(w int) (badge string, role lipgloss.Style, text string, picture []string) {
	a := b.advised()
	t := b.trial()
	switch {
	case a != nil && a.Action == bench.ActStop:
		answer := b.session.Outcome().Answer(t.Aim)
		if f := answer.Factor(); f != nil {
			picture = b.big(model.Significant(f.Median, 2), fmt.Sprintf("times as much %s", printable.Line(t.Liquid)))
		} else if iv := answer.Dish; iv != nil {
			picture = b.big(model.RatioText(iv.Median), fmt.Sprintf("g %s per g powder", printable.Line(t.Liquid)))
		}
		if t.PotOpen() {
			return "STOP", ui.GoodStyle, ui.Fitting(w-9, "p weighs the pot once more, then Enter finishes the trial",
				"p weighs the pot, then Enter finishes", "p: the pot; then Enter"), picture
		}
		return "STOP", ui.GoodStyle, ui.Fitting(w-9, "Enter finishes the trial; ←→ chooses a spoon to add more",
			"Enter finishes; ←→ to add more", "Enter finishes"), picture
	case a != nil && a.Action == bench.ActLook:
		return "LOOK", ui.DoStyle, "at both dishes once more: Enter, stir both, rest", nil
	case a != nil && a.Action == bench.ActWeigh && a.Pot:
		return "WEIGH", ui.DoStyle, "the open pot of powder: Enter, then the grams", potPicture()
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
	if weight := b.chosenText(s); weight != "" {
		if how := b.session.Outcome().Reading.SpoonWeights.Filled(); how != "" && s.Add == model.AddPowder {
			plain += ", " + how
		}
		full := ", struck off level"
		if s.Add == model.AddLiquid {
			full = ", full to the brim"
		}
		text = ui.Fitting(w-9, plain+full+weight, plain+weight, plain)
	} else {
		text = ui.Fitting(w-9, plain+": no weight yet, so its grams will be asked for", plain+": grams will be asked")
	}
	return "ADD", ui.DoStyle, text, b.spoons(s, w-4)
}

// potPicture says what to put on the scale; the sentence below it says why.
func potPicture() []string {
	return []string{"", "  your powder's jar or bag, open, on the scale", ""}
}

// big draws a number in small block digits with its unit behind it.
func (b *benchScreen) big(number, unit string) []string {
	lines := glyph.Digits(number, glyph.Small)
	for i := range lines {
		lines[i] = "  " + ui.DoStyle.Render(lines[i])
	}
	lines[len(lines)-1] += "  " + unit
	return lines
}

// spoons draws a count of level spoons in their size.
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

// what names the chosen addition: powder, or the liquid by its name.
func (b *benchScreen) what() string {
	if b.choice.liquid {
		return printable.Line(b.trial().Liquid)
	}
	return "powder"
}

// landing draws a small row of levels with the target. The levels at which the next
// look will likely be are in brackets.
func (b *benchScreen) landing(l layout) string {
	fs := b.forecasts()
	if len(fs) == 0 {
		return ""
	}
	if fs[0].SideBySide {
		return ui.Cut("  likely looks  "+ui.TitleStyle.Render(fs[0].Range()), l.w)
	}
	if fs[0].Blind() {
		return ui.Cut("  "+ui.TitleStyle.Render("the first look shows where this powder begins"), l.w)
	}
	pitch, line := 5, "  likely in [ ] "
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

// reasonRows is the number of rows for the reasons of an addition.
const reasonRows = 2

// reasons says why the addition is advised. For the maker's own choice it gives the
// risk and the advice.
func (b *benchScreen) reasons(w int) []string {
	if a := b.advised(); a != nil {
		sign, style := "", ui.PlainStyle
		if fs := b.forecasts(); len(fs) > 0 && fs[0].Guess() && (fs[0].Known || !fs[0].Unlooked) {
			sign, style = "! ", ui.RiskStyle
		}
		return reasonLines(*a, sign, style, w)
	}
	var lines []string
	if fs := b.forecasts(); len(fs) > 0 {
		lines = append(lines, b.risk(fs, w))
	}
	if a := b.session.Outcome().Advice; a != nil && b.choice.own {
		text := "advised: " + advisedText(*a, printable.Line(b.trial().Liquid))
		lines = append(lines, ui.NoteStyle.Render(ui.Fitting(w, text+" (Esc goes back to it)", text)))
	}
	return lines
}

// reasonLines writes where an advised addition lands and the reasons for it. Where there is
// no room for all, it leaves out first where it lands, which the row above shows, then the
// last reasons.
func reasonLines(a bench.Advice, sign string, style lipgloss.Style, w int) []string {
	told := a.Reasons
	if a.Lands != "" && !strings.HasPrefix(a.Lands, "likely looks ") {
		told = append([]string{a.Lands}, told...)
	}
	for {
		if len(told) == 0 {
			return nil
		}
		text := bench.Sentences(told)
		if len(told) > 1 {
			text = model.Ended(model.Capital(text))
		}
		lines := ui.Painted(style, sign+text, w)
		switch {
		case len(lines) <= reasonRows:
			return lines
		case len(told) > len(a.Reasons) && len(a.Reasons) > 0:
			told = a.Reasons
		case len(told) > 1:
			told = told[:len(told)-1]
		default:
			return append(lines[:reasonRows-1], ui.Cut(strings.Join(lines[reasonRows-1:], " "), w))
		}
	}
}

// advisedText gives an advice in a few words.
func advisedText(a bench.Advice, liquid string) string {
	switch a.Action {
	case bench.ActStop:
		return "stop"
	case bench.ActLook:
		return "look at both again"
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

// risk says what the maker's own choice will likely do.
func (b *benchScreen) risk(fs []bench.Forecast, w int) string {
	s, _ := b.planned()
	f := fs[0]
	if f.Blind() && !f.SideBySide {
		small := "a small first spoon is safest"
		return ui.Fitting(w, s.Amount()+": may land anywhere; "+small, small)
	}
	if f.Unlooked {
		lands := map[bool]string{true: "looks ", false: "lands at "}[f.SideBySide] + f.Range()
		by := " " + b.session.Outcome().Reading.Basis()
		if f.Guess() {
			lands += ", a guess"
			by = "," + by
		}
		return ui.Fitting(w, s.Amount()+": "+lands+by, lands+by, lands)
	}
	beyond := f.Odds() + " " + f.BeyondText()
	if f.Seldom() {
		end := map[bool]string{true: "thin", false: "thick"}[f.Thins]
		beyond = fmt.Sprintf("hardly ever too %s (%s)", end, f.BeyondText())
	}
	if f.Guess() {
		beyond += ", a guess"
	}
	text := s.Amount() + ": " + beyond
	if f.Thins {
		text = s.In(printable.Line(b.trial().Liquid)) + ": " + beyond
	}
	if f.Risky() {
		return ui.RiskStyle.Render(ui.Fitting(w, "! "+text, "! "+beyond))
	}
	if fs[1].Risky() {
		more := fmt.Sprintf("; one more: %s", fs[1].Odds())
		return ui.Fitting(w, text+more, beyond+more, beyond)
	}
	return ui.Fitting(w, text, beyond)
}

// spoonLine draws the spoons at hand, with the one that Enter would add in
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

// lastRead draws the level recorded last, large.
func (b *benchScreen) lastRead(w int) []string {
	steps := b.trial().Steps
	for i := len(steps) - 1; i >= 0; i-- {
		if s := steps[i]; s.Looked {
			if s.Beside != "" {
				return []string{
					"", "", ui.PadLeft(ui.TitleStyle.Render(s.Beside.Words()), w-2),
					ui.PadLeft(ui.NoteStyle.Render(fmt.Sprintf("step %d", i+1)), w-2),
				}
			}
			text := strings.TrimSuffix(model.LevelName(s.Level), " "+model.LevelWord(s.Level))
			size := glyph.Large
			lines := []string{""}
			for _, row := range glyph.Digits(text, size) {
				lines = append(lines, ui.PadLeft(ui.TitleStyle.Render(row), w-2))
			}
			lines = append(lines, ui.PadLeft(model.LevelWord(s.Level), w-2),
				ui.PadLeft(ui.NoteStyle.Render(fmt.Sprintf("seen step %d", i+1)), w-2))
			return lines
		}
	}
	return nil
}
