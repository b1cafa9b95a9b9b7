package trial

import (
	"daub.example/daub/model"
	"daub.example/daub/tui/glyph"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/lipgloss"
)

// drawLook draws the countdown with the levels beside it.
func (b *benchScreen) drawLook(d *drawn, l layout) {
	left, role := b.restLeft(), ui.WaitStyle
	text := ui.Fitting(l.w-10, "stir ten turns, rest, test; then scrape it all back into the dish",
		"stir ten turns, rest, test, scrape it back", "stir, rest, test. Level?")
	if left <= 0 {
		role = ui.DoStyle
		text = ui.Fitting(l.w-10, "test now, then scrape it all back into the dish. Level?",
			"test now, then scrape it back. Level?", "test now. Level?")
	}
	if b.trial().Match != nil {
		text = ui.Fitting(l.w-10, "stir both dishes ten turns, rest both, then test them side by side",
			"stir both, rest, test side by side", "both: stir, rest, test")
	}
	if b.half {
		text = ui.Fitting(l.w-10, "half a level above the digit you type now", "half above the digit")
	}
	d.put(l.now, b.head(l, ui.DoStyle, "LOOK", text))
	size, wide := glyph.Small, 16
	if l.w >= 76 && left < 600 {
		size, wide = glyph.Large, 30
	}
	if l.narrow {
		size = glyph.Small
	}
	d.put(l.now+1, ui.Columns(b.countdown(l, role, size, wide), b.levelLines(l, wide), wide)...)
	b.levelAreas(d, l, wide)
}

// countdown draws the time left of the rest in big digits over a bar.
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
	says := []string{"Space when you have stirred", "Space: stirred"}
	switch {
	case left >= longRest:
		says = []string{"hours:minutes"}
	case left == 0:
		says = []string{"rest over"}
	case !b.rest.from.IsZero():
		says = []string{"Space restarts the clock", "Space restarts"}
	}
	return append(lines, " "+ui.NoteStyle.Render(ui.Fitting(wide-2, says...)))
}

// levelLines lists the levels with their tests; in a narrow window words only, in
// two columns.
func (b *benchScreen) levelLines(l layout, left int) []string {
	if b.trial().Match != nil {
		return b.besideLines(l, left)
	}
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
	const number, word, target = 3, 9, 9
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

// levelAreas makes the levels clickable.
func (b *benchScreen) levelAreas(d *drawn, l layout, left int) {
	if b.trial().Match != nil {
		for i := range model.BesideLooks() {
			d.area(left, l.now+1+i, l.w-left, 1, func() { b.look(float64(i + 1)) })
		}
		return
	}
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

// besideLines lists the looks beside the reference dish, each with what to see.
func (b *benchScreen) besideLines(l layout, left int) []string {
	const number, word = 3, 14
	var lines []string
	for i, look := range model.BesideLooks() {
		line := ui.KeyStyle.Render(model.Number(float64(i+1))) + "  "
		style, words := ui.TitleStyle, look.Beside.Words()
		if look.Beside == model.AsThick {
			style = ui.DoStyle
		}
		line += style.Render(ui.Pad(words, word))
		if room := l.w - left - number - word; !l.narrow {
			line += ui.Fitting(room, look.Test, look.Short)
		}
		lines = append(lines, line)
	}
	if !l.narrow {
		m := b.trial().Match
		lines = append(lines, ui.NoteStyle.Render(ui.Cut("   the reference: "+m.Dish()+", at "+model.LevelName(m.Level),
			l.w-left)))
	}
	return lines
}
