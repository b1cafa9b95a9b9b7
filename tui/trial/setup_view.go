package trial

import (
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

func (s *setup) View(w, h int) string {
	lines, cursor := s.Lines(w, s.line)
	foot := s.foot(w)
	view, _ := ui.Window(lines, cursor, h-len(foot))
	for len(view) < h-len(foot) {
		view = append(view, "")
	}
	return strings.Join(append(slices.Clone(view), foot...), "\n")
}

// line draws the fields that have more to show than their text.
func (s *setup) line(i, w int) []string {
	f := &s.Fields[i]
	here := i == s.At
	label := f.Labelled(here)
	switch i {
	case fieldStart:
		text := "Begin the trial"
		if here {
			text = ui.TitleStyle.Render("[ " + text + " ]")
		}
		return []string{label + text}
	case fieldHand:
		return s.handLines(label, here, w)
	case fieldWeighing:
		if said := s.weighingText(); said != "" {
			return []string{ui.Cut(label+said+"   "+f.Shown(here), w)}
		}
	case fieldFamily:
		return []string{ui.Cut(label+f.Shown(here)+ui.NoteStyle.Render("  "+model.Family(f.Value()).Describe()), w)}
	}
	return nil
}

// handLines shows every spoon, those at hand in brackets.
func (s *setup) handLines(label string, here bool, w int) []string {
	names := s.deps.Drawer.Names()
	var lines []string
	line := label
	for i, n := range names {
		item := " " + n + " "
		if slices.Contains(s.trial.Spoons, n) {
			item = "[" + n + "]"
		}
		if here && i == s.Fields[fieldHand].Pick {
			item = "▸" + ui.DoStyle.Render(item)
		} else {
			item = " " + item
		}
		if ui.Cells(line)+ui.Cells(item) > w {
			lines = append(lines, line)
			line = strings.Repeat(" ", ui.LabelWidth)
		}
		line += item
	}
	return append(lines, line)
}

// foot is what the field asks, what is wrong, and whether it is on the shelf.
func (s *setup) foot(w int) []string {
	hint := s.Fields[s.At].Hint
	switch s.At {
	case fieldName:
		if m := s.matches(); len(m) > 0 {
			hint = "On the shelf: " + ui.Title(m[0]) + ". Tab takes it; Enter makes a new one."
		}
	case fieldAim:
		level := model.CurveLevels()[s.Fields[fieldAim].Pick]
		hint = model.Scale()[int(level)].Test + "."
	case fieldStart:
		hint = "Weigh the liquid into the dish now. Then begin: every step is saved as you make it."
	}
	lines := ui.Wrap(hint, w)
	if s.Problem != "" {
		lines = ui.Wrap("! "+printable.Line(s.Problem), w)
		for i := range lines {
			lines[i] = ui.RiskStyle.Render(lines[i])
		}
	}
	if s.said != "" {
		lines = []string{ui.GoodStyle.Render(s.said)}
	}
	where := "Not on the shelf yet: the first weighing or the first step puts it there."
	if s.Session() != nil || s.entry.Slug != "" {
		where = "On the shelf: weighings are saved as you make them."
	}
	return append(append([]string{""}, lines...), ui.NoteStyle.Render(where))
}
