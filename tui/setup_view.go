package tui

import (
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
)

func (s *setup) View(w, h int) string {
	lines, cursor := s.lines(w, s.line)
	foot := s.foot(w)
	view, _ := Window(lines, cursor, h-len(foot))
	for len(view) < h-len(foot) {
		view = append(view, "")
	}
	return strings.Join(append(slices.Clone(view), foot...), "\n")
}

// line draws the fields that have more to show than their text.
func (s *setup) line(i, w int) []string {
	f := &s.fields[i]
	here := i == s.at
	label := f.labelled(here)
	switch i {
	case fieldStart:
		text := "Begin the trial"
		if here {
			text = TitleStyle.Render("[ " + text + " ]")
		}
		return []string{label + text}
	case fieldHand:
		return s.handLines(label, here, w)
	case fieldWeighing:
		if said := s.weighingText(); said != "" {
			return []string{Cut(label+said+"   "+f.shown(here), w)}
		}
	case fieldFamily:
		return []string{Cut(label+f.shown(here)+DimStyle.Render("  "+model.Family(f.value()).Describe()), w)}
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
		if here && i == s.fields[fieldHand].pick {
			item = "▸" + AccentStyle.Render(item)
		} else {
			item = " " + item
		}
		if Cells(line)+Cells(item) > w {
			lines = append(lines, line)
			line = strings.Repeat(" ", LabelWidth)
		}
		line += item
	}
	return append(lines, line)
}

// foot is what the field asks, what is wrong, and whether it is on the shelf.
func (s *setup) foot(w int) []string {
	hint := s.fields[s.at].hint
	switch s.at {
	case fieldName:
		if m := s.matches(); len(m) > 0 {
			hint = "On the shelf: " + Title(m[0]) + ". Tab takes it; Enter makes a new one."
		}
	case fieldAim:
		level := model.CurveLevels()[s.fields[fieldAim].pick]
		hint = model.Scale()[int(level)].Test + "."
	case fieldStart:
		hint = "Weigh the liquid into the dish now. Then begin: every step is saved as you make it."
	}
	lines := Wrap(hint, w)
	if s.problem != "" {
		lines = Wrap("! "+printable.Line(s.problem), w)
		for i := range lines {
			lines[i] = BadStyle.Render(lines[i])
		}
	}
	if s.said != "" {
		lines = []string{GoodStyle.Render(s.said)}
	}
	where := "Not on the shelf yet: the first weighing or the first step puts it there."
	if s.Session() != nil || s.entry.Slug != "" {
		where = "On the shelf: weighings are saved as you make them."
	}
	return append(append([]string{""}, lines...), DimStyle.Render(where))
}
