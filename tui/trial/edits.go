package trial

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

// mendLines draws the step under the cursor with everything recorded of it.
func (b *benchScreen) mendLines(l layout) []string {
	t := b.trial()
	s := t.Steps[b.mend]
	title := fmt.Sprintf("Mending step %d of %d", b.mend+1, len(t.Steps))
	if !l.narrow {
		title += ": every change is saved at once"
	}
	lines := []string{b.head(l, ui.DoStyle, "MEND", title)}
	add := func(label, text string) {
		wrapped := ui.Painted(ui.PlainStyle, text, l.w-14)
		for i, line := range wrapped {
			if i > 0 {
				label = ""
			}
			lines = append(lines, "  "+ui.NoteStyle.Render(ui.Pad(label, 11))+line)
		}
	}
	what := s.In(printable.Line(t.Liquid))
	if !s.Weighed() && s.Spoon != "" {
		what += b.chosenText(s)
	}
	if !s.At.IsZero() && !l.narrow {
		what += ", at " + s.At.Local().Format("15:04")
	}
	add("added", what)
	var read []string
	if s.Looked {
		read = append(read, strings.TrimPrefix(s.LookText(), "level "))
	}
	if t.Measured != nil && s.Reading > 0 {
		read = append(read, "measured "+t.Measured.Text(s.Reading))
	}
	if len(read) > 0 && s.RestedS != nil {
		read = append(read, "after "+model.Seconds(*s.RestedS))
	}
	level := "none recorded"
	if len(read) > 0 {
		level = strings.Join(read, ", ")
	}
	if timing := s.Timing(b.restS()); timing != model.InTime {
		level += fmt.Sprintf(" (%s: the rest is %s)", timing, model.Seconds(b.restS()))
	}
	if s.LeftOut {
		level += ", left out"
	}
	if b.half {
		level += "; half above the digit you type now"
	}
	add("level", level)
	if s.PotG > 0 {
		add("pot", model.Number(s.PotG)+" g after it")
	}
	if len(s.Marks) > 0 || !l.narrow {
		add("behaviour", orDash(strings.Join(s.Marks, ", ")))
	}
	if s.Note != "" || !l.narrow {
		add("note", orDash(s.Note))
	}
	return atLeast(lines, l.nowH)
}

func orDash(text string) string {
	if text == "" {
		return "–"
	}
	return text
}

// drawMarks draws the behaviours with their letters; a click toggles one.
func (b *benchScreen) drawMarks(d *drawn, l layout) {
	s := b.trial().Steps[b.marks.step]
	step := fmt.Sprintf("step %d", b.marks.step+1)
	text := ui.Fitting(l.w-20, step+", "+s.In(printable.Line(b.trial().Liquid))+": what else do you see?",
		step+": what else do you see?", step+": a letter")
	all := model.Behaviours()
	rows := (len(all) + 1) / 2
	lines := []string{b.head(l, ui.DoStyle, "SEEN", text)}
	column := l.w / 2
	if l.narrow {
		column = min(17, l.w/2)
	}
	for r := range rows {
		line := ""
		for i := r; i < len(all); i += rows {
			wide := column
			if i >= rows {
				wide = l.w - column
			}
			line += ui.Pad(behaviour(all[i], slices.Contains(s.Marks, all[i].Name), wide, l.narrow), wide)
			x := column * (i / rows)
			d.area(x, l.now+1+r, wide, 1, func() {
				b.done("", b.session.SetMarks(b.marks.step, model.WithMark(s.Marks, all[i].Name)))
			})
		}
		lines = append(lines, line)
	}
	d.put(l.now, atLeast(lines, l.nowH)...)
}

// behaviour draws one behaviour with its letter, and its meaning if that fits.
func behaviour(seen model.Behaviour, have bool, w int, narrow bool) string {
	box, style := "  [ ] ", ui.PlainStyle
	if have {
		box, style = "  [x] ", ui.TitleStyle
	}
	if narrow {
		box = map[bool]string{false: " ", true: "*"}[have]
	}
	text := box + ui.KeyStyle.Render(seen.Letter) + " " + style.Render(seen.Name)
	if long := text + "  " + ui.NoteStyle.Render(seen.Means); ui.Cells(long) <= w {
		return long
	}
	return text
}

// factLines draws the trial's own facts, scrolled to the cursor.
func (b *benchScreen) factLines(l layout) []string {
	lines, cursor := b.facts.Lines(l.w, func(i, w int) []string {
		f := &b.facts.Fields[i]
		text := f.Labelled(i == b.facts.At) + f.Shown(i == b.facts.At)
		if ui.Cells(text)+ui.Cells(f.Hint)+3 > w {
			return []string{ui.Cut(text, w)}
		}
		return []string{ui.Justify(text, ui.NoteStyle.Render(f.Hint)+" ", w)}
	})
	lines, _ = ui.Window(lines, cursor, l.nowH-1)
	head := b.head(l, ui.DoStyle, "CHANGE", ui.Fitting(l.w-11, "the trial; each line is saved when you leave it",
		"the trial"))
	return atLeast(append([]string{head}, lines...), l.nowH)
}
