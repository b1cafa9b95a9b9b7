package chart

import (
	"strings"
	"unicode"

	"daub.example/daub/model/printable"
	"github.com/charmbracelet/x/ansi"
)

// clean keeps the printable part of s, so that a name can neither break a line nor
// move the cursor. In ASCII, other characters become question marks.
func clean(s string, ascii bool) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case !unicode.IsPrint(r):
			return -1
		case ascii && r > '~':
			return '?'
		}
		return r
	}, s)
}

// fitsCell reports whether r is one cell wide whatever stands beside it.
func fitsCell(r rune) bool {
	if r <= '~' {
		return r >= ' '
	}
	if !unicode.In(r, unicode.Latin, unicode.Greek, unicode.Cyrillic, unicode.P, unicode.S) {
		return false
	}
	return !unicode.IsMark(r) && ansi.StringWidth(string(r)) == 1
}

// mark returns the letter of a series, 0 for none; one that cannot be drawn is
// replaced.
func (c Chart) mark(series int) rune {
	r := c.Series[series].Mark
	if r == ' ' || (r != 0 && !fitsCell(r)) || (c.ASCII && r > '~') {
		return 'A' + rune(series%26)
	}
	return r
}

// entry is a marked series in the legend.
type entry struct {
	series     int
	sign, name string
}

func (c Chart) legend() (entries []entry) {
	for i, s := range c.Series {
		if s.Mark != 0 && s.Name != "" {
			name := s.Name
			if c.ASCII {
				name = printable.ASCII(name)
			}
			entries = append(entries, entry{i, "(" + string(c.mark(i)) + ") ", clean(name, c.ASCII)})
		}
	}
	return entries
}

// gap is the space between the parts of the header, in cells.
const gap = 2

// head returns the line above the plot: the level label, then the legend. Entries
// that do not fit share the room; their names are cut in the part they have in
// common.
func (c Chart) head(w int) string {
	more := "…"
	if c.ASCII {
		more = "~"
	}
	legend := c.legend()
	all := []entry{{none, "", clean(c.YLabel, c.ASCII)}}
	if len(legend) > 0 && ansi.StringWidth(all[0].name) > w/4 {
		all = nil
	}
	all = append(all, legend...)
	names, needs := make([]string, len(all)), make([]int, len(all))
	for i, e := range all {
		names[i], needs[i] = e.name, ansi.StringWidth(e.sign+e.name)
	}
	rooms := shared(needs, max(w-gap*(len(all)-1), 0))
	var out strings.Builder
	for i, e := range all {
		text := ansi.Truncate(e.sign, rooms[i], "")
		text += printable.Shorten(names, i, more, func(s string) bool { return ansi.StringWidth(text+s) <= rooms[i] })
		n := ansi.StringWidth(text)
		if n == 0 || n > w {
			continue
		}
		w -= n
		if c.Paint != nil {
			text = c.Paint(Label, e.series, text)
		}
		out.WriteString(text)
		if space := min(gap, w); i < len(all)-1 {
			out.WriteString(strings.Repeat(" ", space))
			w -= space
		}
	}
	out.WriteString(strings.Repeat(" ", w))
	return out.String()
}

// shared splits room: who needs little gets it, the others get equal shares of the
// rest.
func shared(needs []int, room int) []int {
	out := make([]int, len(needs))
	for left := len(needs); left > 0; {
		share, before := room/left, left
		for i, n := range needs {
			if out[i] == 0 && n <= share {
				out[i] = max(n, 1)
				room -= n
				left--
			}
		}
		if left == before {
			for i := range out {
				if out[i] == 0 {
					out[i] = share
				}
			}
			break
		}
	}
	return out
}
