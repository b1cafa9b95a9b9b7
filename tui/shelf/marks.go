package shelf

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

// bySlug returns the index of the row with this slug, -1 without one.
func (s *List) bySlug(slug string) int {
	return slices.IndexFunc(s.rows, func(r row) bool { return r.entry.Slug == slug })
}

// follow takes over marks, filter and cursor from the list shown before.
func (s *List) follow(before *List) {
	s.marked = before.marked
	s.filter.SetValue(before.filter.Value())
	s.archived = before.archived
	if r := before.at(); r != nil {
		s.resume = r.entry.Slug
	}
}

// mark marks the powder under the cursor, or unmarks it.
func (s *List) mark() {
	id := s.at().entry.Slug
	if i := slices.Index(s.marked, id); i >= 0 {
		s.marked = slices.Delete(slices.Clone(s.marked), i, i+1)
		return
	}
	s.marked = append(slices.Clip(s.marked), id)
}

// chosen returns the marked powders in the order of marking, else the one under the
// cursor.
func (s *List) chosen() []model.Entry {
	var entries []model.Entry
	for _, slug := range s.marked {
		if i := s.bySlug(slug); i >= 0 { // not read yet otherwise
			entries = append(entries, s.rows[i].entry)
		}
	}
	if r := s.at(); len(entries) == 0 && r != nil {
		entries = append(entries, r.entry)
	}
	return entries
}

// entries returns all powders in the order of the rows.
func (s *List) entries() []model.Entry {
	entries := make([]model.Entry, len(s.rows))
	for i, r := range s.rows {
		entries[i] = r.entry
	}
	return entries
}

// inUse returns all powders that are not archived.
func (s *List) inUse() []model.Entry {
	return slices.DeleteFunc(s.entries(), func(e model.Entry) bool { return e.Profile.Powder.Archived })
}

func (s *List) archivedCount() int { return len(s.rows) - len(s.inUse()) }

// compare opens the comparison of the marked powders.
func (s *List) compare() ui.Next {
	switch n := len(s.marked); {
	case n < kitchen.MinCompared:
		s.Refuse(fmt.Sprintf("%d marked: mark two to six powders with Space, then c sets them side by side", n))
	case n > kitchen.MaxCompared:
		s.Refuse(fmt.Sprintf("%d marked: six at most can be set side by side; Space takes a mark away", n))
	default:
		return ui.OpenCompare{Powders: s.chosen(), Shelf: s.inUse()}
	}
	return s
}

// markLines names the marked powders, also those that the filter hides.
func (s *List) markLines(w int) []string {
	if len(s.marked) == 0 {
		return nil
	}
	var names []string
	for _, e := range s.chosen() {
		names = append(names, printable.Line(e.Profile.Powder.Name))
	}
	return []string{ui.Cut(fmt.Sprintf("* %d marked: %s", len(names), strings.Join(names, ", ")), w)}
}
