package tui

import (
	"slices"
	"strings"

	"daub.example/daub/model"
)

const labelWidth = 17

func (s *setup) View(w, h int) string {
	var lines []string
	cursor := 0
	for i := range s.fields {
		if s.hidden(i) {
			continue
		}
		if i == s.at {
			cursor = len(lines)
		}
		lines = append(lines, s.line(i, w)...)
	}
	foot := s.foot(w)
	view, _ := window(lines, cursor, h-len(foot))
	for len(view) < h-len(foot) {
		view = append(view, "")
	}
	return strings.Join(append(slices.Clone(view), foot...), "\n")
}

func (s *setup) line(i, w int) []string {
	f := &s.fields[i]
	here := i == s.at
	label := "  " + pad(f.label, labelWidth-2)
	if here {
		label = accentStyle.Render("▸ " + pad(f.label, labelWidth-2))
	}
	text := f.input.Value()
	if here && f.typed {
		text = f.input.View()
	}
	switch {
	case i == fieldStart:
		text = "Begin the trial"
		if here {
			text = titleStyle.Render("[ " + text + " ]")
		}
	case i == fieldHand:
		return s.handLines(label, here, w)
	case i == fieldWeighing:
		if said := s.weighingText(); said != "" {
			text = said + "   " + text
		}
	case i == fieldFamily:
		text += dimStyle.Render("  " + model.Family(f.value()).Describe())
	case here && len(f.options) > 0:
		text = "← " + text + " →"
	}
	return []string{cut(label+text, w)}
}

// handLines shows every spoon, those at hand in brackets.
func (s *setup) handLines(label string, here bool, w int) []string {
	names := s.world.Drawer.Names()
	var lines []string
	line := label
	for i, n := range names {
		item := " " + n + " "
		if slices.Contains(s.trial.Spoons, n) {
			item = "[" + n + "]"
		}
		if here && i == s.fields[fieldHand].pick {
			item = "▸" + accentStyle.Render(item)
		} else {
			item = " " + item
		}
		if cells(line)+cells(item) > w {
			lines = append(lines, line)
			line = strings.Repeat(" ", labelWidth)
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
			hint = "On the shelf: " + sanitise(m[0].item.Profile.Powder.Title()) + ". Tab takes it; Enter makes a new one."
		}
	case fieldAim:
		level := model.CurveLevels()[s.fields[fieldAim].pick]
		hint = model.Scale()[int(level)].Test + "."
	case fieldStart:
		hint = "Weigh the liquid into the dish now. Then begin: every step is saved as you make it."
	}
	lines := wrap(hint, w)
	if s.problem != "" {
		lines = wrap("! "+sanitise(s.problem), w)
		for i := range lines {
			lines[i] = badStyle.Render(lines[i])
		}
	}
	where := "Not on the shelf yet: the first weighing or the first step puts it there."
	if s.session != nil || s.item.ID != "" {
		where = "On the shelf: weighings are saved as you make them."
	}
	return append(append([]string{""}, lines...), dimStyle.Render(where))
}
