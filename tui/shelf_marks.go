package tui

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	tea "github.com/charmbracelet/bubbletea"
)

// byID is the row of a profile, -1 without one.
func (s *shelf) byID(id string) int {
	return slices.IndexFunc(s.rows, func(r row) bool { return r.item.ID == id })
}

// follow takes over what was chosen on the shelf shown before.
func (s *shelf) follow(before *shelf) {
	s.marked = before.marked
	s.filter.SetValue(before.filter.Value())
	if r := before.at(); r != nil {
		s.resume = r.item.ID
	}
}

// mark marks the powder under the cursor, or takes its mark away.
func (s *shelf) mark() {
	id := s.at().item.ID
	if i := slices.Index(s.marked, id); i >= 0 {
		s.marked = slices.Delete(slices.Clone(s.marked), i, i+1)
		return
	}
	s.marked = append(slices.Clip(s.marked), id)
}

// chosen is the marked rows in the order of marking, else the one under the
// cursor.
func (s *shelf) chosen() []row {
	var rows []row
	for _, id := range s.marked {
		rows = append(rows, s.rows[s.byID(id)])
	}
	if r := s.at(); len(rows) == 0 && r != nil {
		rows = append(rows, *r)
	}
	return rows
}

func itemsOf(rows []row) []Item {
	var items []Item
	for _, r := range rows {
		items = append(items, r.item)
	}
	return items
}

// compare sets the marked powders side by side.
func (s *shelf) compare() (screen, tea.Cmd) {
	n := len(s.marked)
	switch {
	case n < model.MinCompared:
		s.refuse(fmt.Sprintf("%d marked: mark two to six powders with Space, then c sets them side by side", n))
		return s, nil
	case n > model.MaxCompared:
		s.refuse(fmt.Sprintf("%d marked: six at most can be set side by side; Space takes a mark away", n))
		return s, nil
	}
	return newCompare(s.world, s.chosen(), s.rows), nil
}

// markLines say which powders are marked, also where the filter hides them.
func (s *shelf) markLines(w int) []string {
	if len(s.marked) == 0 {
		return nil
	}
	var names []string
	for _, r := range s.chosen() {
		names = append(names, sanitise(r.item.Profile.Powder.Name))
	}
	return []string{cut(fmt.Sprintf("* %d marked: %s", len(names), strings.Join(names, ", ")), w)}
}
