package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// pageWidth is how wide a text is made, in cells.
const pageWidth = 80

// asciiSigns turns the signs that daub writes itself into ASCII.
var asciiSigns = strings.NewReplacer("·", "-", "×", "x", "Δ", "d", "→", "->", "±", "+/-", "°", " deg ", "…", "~", "–", "-", "≤", "<=", "≥", ">=", "³", "3")

// printable makes one line without control characters of a text: a file may
// hold anything, also what a terminal would obey.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return ' '
		case r < ' ' || r == 0x7f || (r >= 0x80 && r < 0xa0):
			return -1
		default:
			return r
		}
	}, ansi.Strip(strings.TrimRight(s, "\r\n")))
}

// clean makes one printable line of a text, in ASCII where that is asked for.
func (a *app) clean(s string) string {
	s = printable(s)
	if a.ascii {
		s = asciiSigns.Replace(s)
	}
	return s
}

// answer writes what a command found out to standard output, in one piece:
// as JSON, or as the text that a person reads.
func (a *app) answer(asJSON bool, v any, text func(*page)) error {
	var out bytes.Buffer
	if asJSON {
		enc := json.NewEncoder(&out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(v); err != nil {
			return fmt.Errorf("write the answer as JSON: %w", err)
		}
	} else {
		p := page{clean: a.clean}
		text(&p)
		out.WriteString(p.text.String())
	}
	if _, err := a.out.Write(out.Bytes()); err != nil {
		return fmt.Errorf("write the answer: %w", err)
	}
	return nil
}

// page gathers what a person reads, in lines of pageWidth cells where the
// words allow it.
type page struct {
	clean func(string) string
	text  strings.Builder
}

// line writes one line as it is.
func (p *page) line(format string, args ...any) {
	p.text.WriteString(strings.TrimRight(p.clean(fmt.Sprintf(format, args...)), " ") + "\n")
}

// gap writes an empty line.
func (p *page) gap() { p.text.WriteString("\n") }

// say writes a text, broken into lines; those after the first are indented.
func (p *page) say(first, indent, text string) {
	room := pageWidth - max(ansi.StringWidth(first), ansi.StringWidth(indent))
	for i, l := range strings.Split(ansi.Wrap(p.clean(text), room, " "), "\n") {
		lead := indent
		if i == 0 {
			lead = first
		}
		p.line("%s%s", lead, strings.TrimSpace(l))
	}
}

// list writes texts under a title; nothing at all without a text.
func (p *page) list(title string, texts ...string) {
	if len(texts) == 0 {
		return
	}
	p.gap()
	p.line("%s", title)
	for _, t := range texts {
		p.say("  ", "    ", t)
	}
}

// column is how one column of a table is set.
type column struct {
	title string
	right bool // numbers stand to the right
	gives bool // is cut where the page is too narrow
}

// leastGiven is the width below which a column is not cut.
const leastGiven = 12

// table writes rows under their titles, each column as wide as it needs.
func (p *page) table(columns []column, rows [][]string) {
	titles := make([]string, len(columns))
	for i, c := range columns {
		titles[i] = c.title
	}
	all := append([][]string{titles}, rows...)
	widths := make([]int, len(columns))
	total := -len(gutter)
	for i := range columns {
		for _, row := range all {
			widths[i] = max(widths[i], ansi.StringWidth(p.clean(row[i])))
		}
		total += widths[i] + len(gutter)
	}
	for i, c := range columns {
		if c.gives && total > pageWidth {
			cut := min(total-pageWidth, max(widths[i]-leastGiven, 0))
			widths[i], total = widths[i]-cut, total-cut
		}
	}
	for _, row := range all {
		cells := make([]string, len(row))
		for i, cell := range row {
			cell = ansi.Truncate(p.clean(cell), widths[i], p.clean("…"))
			fill := strings.Repeat(" ", widths[i]-ansi.StringWidth(cell))
			if columns[i].right {
				cells[i] = fill + cell
			} else {
				cells[i] = cell + fill
			}
		}
		p.line("%s", strings.Join(cells, gutter))
	}
}

// gutter stands between two columns.
const gutter = "  "
