// Package page writes text for people: lines of eighty cells, tables, lists,
// and the words and cells that several answers share.
package page

import (
	"fmt"
	"strings"

	"daub.example/daub/model/printable"
	"github.com/charmbracelet/x/ansi"
)

// Width is the width of a page, in cells.
const Width = 80

// Page gathers text for people, in lines of Width cells if the words allow it.
// Nothing in it can steer a terminal.
type Page struct {
	ascii bool
	text  strings.Builder
}

// New makes an empty page, in plain ASCII if asked.
func New(ascii bool) *Page { return &Page{ascii: ascii} }

// Clean makes one line safe to show, in ASCII if asked.
func Clean(s string, ascii bool) string {
	s = printable.Line(s)
	if ascii {
		s = printable.ASCII(s)
	}
	return s
}

func (p *Page) clean(s string) string { return Clean(s, p.ascii) }

// Drain returns all text written since the last Drain.
func (p *Page) Drain() string {
	text := p.text.String()
	p.text.Reset()
	return text
}

// Line writes one line as it is.
func (p *Page) Line(format string, args ...any) {
	p.text.WriteString(strings.TrimRight(p.clean(fmt.Sprintf(format, args...)), " ") + "\n")
}

// Gap writes an empty line, unless there is one already.
func (p *Page) Gap() {
	if !strings.HasSuffix(p.text.String(), "\n\n") {
		p.text.WriteString("\n")
	}
}

// Say writes text, wrapped.
func (p *Page) Say(text string) { p.Hang("", "", text) }

// unbroken is a hyphen at which no line breaks.
const unbroken = "\u2011"

// Hang writes text, wrapped: its first line after first, the others after indent.
// No word is broken, even if it has hyphens or is longer than a line.
func (p *Page) Hang(first, indent, text string) {
	room := Width - max(ansi.StringWidth(first), ansi.StringWidth(indent))
	text = ansi.Wordwrap(strings.ReplaceAll(p.clean(text), "-", unbroken), room, " ")
	for i, l := range strings.Split(strings.ReplaceAll(text, unbroken, "-"), "\n") {
		lead := indent
		if i == 0 {
			lead = first
		}
		p.Line("%s%s", lead, strings.TrimSpace(l))
	}
}

// List writes texts under a title, and nothing if there are none.
func (p *Page) List(title string, texts ...string) {
	if len(texts) == 0 {
		return
	}
	p.Gap()
	p.Line("%s", title)
	for _, t := range texts {
		p.Hang("  ", "    ", t)
	}
}

// Column is the layout of one column of a table.
type Column struct {
	Title string
	Right bool // right-aligned, for numbers
}

// gutter stands between two columns.
const gutter = "  "

// Table writes rows under their titles, each column as wide as it needs. Names are
// never cut, since a cut name may be another powder's: a row may be wider than the
// page.
func (p *Page) Table(columns []Column, rows [][]string) {
	titles := make([]string, len(columns))
	for i, c := range columns {
		titles[i] = c.Title
	}
	all := append([][]string{titles}, rows...)
	widths := p.widths(columns, all)
	for _, row := range all {
		cells := make([]string, len(row))
		for i, cell := range row {
			cell = p.clean(cell)
			fill := strings.Repeat(" ", widths[i]-ansi.StringWidth(cell))
			if columns[i].Right {
				cells[i] = fill + cell
			} else {
				cells[i] = cell + fill
			}
		}
		p.Line("%s", strings.Join(cells, gutter))
	}
}

// Fits reports whether a table is no wider than the page.
func (p *Page) Fits(columns []Column, rows [][]string) bool {
	titles := make([]string, len(columns))
	for i, c := range columns {
		titles[i] = c.Title
	}
	total := (len(columns) - 1) * len(gutter)
	for _, w := range p.widths(columns, append([][]string{titles}, rows...)) {
		total += w
	}
	return total <= Width
}

// TableInRoom writes a table without as many of its last columns as do not fit the page,
// at most spare of them. It returns the number of columns written.
func (p *Page) TableInRoom(spare int, columns []Column, rows [][]string) int {
	n := len(columns)
	cut := func() [][]string {
		out := make([][]string, len(rows))
		for i, row := range rows {
			out[i] = row[:n]
		}
		return out
	}
	for n > len(columns)-spare && !p.Fits(columns[:n], cut()) {
		n--
	}
	p.Table(columns[:n], cut())
	return n
}

// widths returns the width of each column, in cells.
func (p *Page) widths(columns []Column, rows [][]string) []int {
	widths := make([]int, len(columns))
	for i := range columns {
		for _, row := range rows {
			widths[i] = max(widths[i], ansi.StringWidth(p.clean(row[i])))
		}
	}
	return widths
}
