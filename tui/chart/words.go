package chart

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// clean leaves of s what can be printed, so that a name can neither break a
// line nor move the cursor; in ASCII the rest becomes question marks.
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

// fitsCell says that r is one cell wide whatever stands beside it.
func fitsCell(r rune) bool {
	if r <= '~' {
		return r >= ' '
	}
	if !unicode.In(r, unicode.Latin, unicode.Greek, unicode.Cyrillic, unicode.P, unicode.S) {
		return false
	}
	return !unicode.IsMark(r) && ansi.StringWidth(string(r)) == 1
}

// mark is the letter of a series, 0 for none; one that cannot be drawn is
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
	series int
	text   string
}

func (c Chart) legend() (entries []entry) {
	for i, s := range c.Series {
		if s.Mark != 0 && s.Name != "" {
			entries = append(entries, entry{i, "(" + string(c.mark(i)) + ") " + clean(s.Name, c.ASCII)})
		}
	}
	return entries
}

// gap is the space between words of the header, in cells.
const gap = 2

// header is the line above the plot: the level label, then the legend, its
// entries cut to equal shares where they do not fit.
func (c Chart) header(w int) string {
	more := "…"
	if c.ASCII {
		more = "~"
	}
	entries := c.legend()
	all := []entry{{none, clean(c.YLabel, c.ASCII)}}
	if len(entries) > 0 && ansi.StringWidth(all[0].text) > w/4 {
		all = nil
	}
	all = append(all, entries...)

	need := 0
	for _, e := range all {
		need += ansi.StringWidth(e.text) + gap
	}
	share := w
	if need-gap > w {
		share = max((w+gap)/len(all)-gap, 0)
	}
	var out strings.Builder
	for i, e := range all {
		text := ansi.Truncate(e.text, share, more)
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
