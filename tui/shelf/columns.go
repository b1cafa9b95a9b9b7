package shelf

import (
	"fmt"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

// column is one column of the list beside the powder's name.
type column struct {
	head  string
	width int
	right bool
	cell  func(r *row) string
}

// leastName is the least room for a powder's name, in cells.
const leastName = 24

// columns picks the columns that fit into w cells, the most important first, and
// returns the cells left for the name. Liquid and rest are shown only where powders
// differ in them.
func (s *List) columns(w int) (cols []column, name int) {
	all := []column{
		{"g liquid/g at target", 22, false, (*row).ratioText},
		{"1 tsp", 7, true, func(r *row) string {
			if r.tspG > 0 {
				return model.SpoonGrams(r.tspG) + " g"
			}
			return "-"
		}},
	}
	if s.differ(func(a, b model.Basis) bool { return !strings.EqualFold(a.Liquid, b.Liquid) }) {
		all = append(all, column{
			"liquid", 9, false,
			func(r *row) string { return orDash(printable.Line(r.ratio.Basis.Liquid)) },
		})
	}
	if s.differ(func(a, b model.Basis) bool { return a.RestS != b.RestS }) {
		all = append(all, column{"rest", 6, true, func(r *row) string {
			if r.ratio.Level == 0 {
				return "-"
			}
			return model.Seconds(r.ratio.Basis.RestS)
		}})
	}
	now := s.deps.Now()
	all = append(all,
		column{"trials", 6, true, func(r *row) string { return fmt.Sprint(r.used) }},
		column{"tried", 9, true, func(r *row) string { return age(now, r.last) }},
		column{"care", 15, false, func(r *row) string { return care.Words(r.entry.Profile.Powder) }},
	)
	name = w
	for i, c := range all {
		if i > 0 && name-c.width-2 < leastName {
			break
		}
		name -= c.width + 2
		cols = append(cols, c)
	}
	return cols, max(name, 0)
}

// differ reports whether the ratios of two powders differ by the test in. Powders
// hidden by the filter count too.
func (s *List) differ(in func(a, b model.Basis) bool) bool {
	var first *row
	for i := range s.rows {
		r := &s.rows[i]
		switch {
		case r.ratio.Level == 0:
		case first == nil:
			first = r
		case in(first.ratio.Basis, r.ratio.Basis):
			return true
		}
	}
	return false
}

// rowLine writes one line of the list, the cells in columns.
func rowLine(name string, nameW int, cols []column, cell func(c column) string) string {
	text := ui.Pad(name, nameW)
	for _, c := range cols {
		if c.right {
			text += "  " + ui.PadLeft(cell(c), c.width)
		} else {
			text += "  " + ui.Pad(cell(c), c.width)
		}
	}
	return strings.TrimRight(text, " ")
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

// age says how long ago then was, as "9 mo ago"; "-" for no time.
func age(now, then time.Time) string {
	if then.IsZero() {
		return "-"
	}
	days := int(now.Sub(then).Hours() / 24)
	switch {
	case days < 1:
		return "today"
	case days < 14:
		return fmt.Sprintf("%d d ago", days)
	case days < 61:
		return fmt.Sprintf("%d wk ago", days/7)
	case days < 730:
		return fmt.Sprintf("%d mo ago", days/30)
	default:
		return fmt.Sprintf("%d y ago", days/365)
	}
}
