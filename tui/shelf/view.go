package shelf

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

func (s *List) View(w, h int) string {
	var lines []string
	if s.err != nil {
		lines = append(lines, ui.RiskStyle.Render("! "+printable.Line(s.err.Error())))
	}
	switch {
	case !s.loaded && len(s.rows) == 0:
		return strings.Join(append(lines, "Reading the shelf…"), "\n")
	case len(s.rows) == 0:
		return strings.Join(append(append(lines, s.welcome(w, h)...), s.noteLines(w, 4)...), "\n")
	}
	p := s.plan(w, h, len(lines))
	if s.filtering() {
		lines = append(lines, s.filter.View())
	}
	cols, name := s.columns(p.listW)
	head := rowLine("  powder", name, cols, func(c column) string { return c.head })
	list := []string{ui.NoteStyle.Render(head)}
	for i, n := range s.shown[p.first : p.first+p.rows] {
		list = append(list, s.line(&s.rows[n], p.first+i == s.cursor, cols, name))
	}
	if len(s.shown) == 0 {
		list = append(list, "  "+s.nothingShown())
	}
	if p.detailH > 0 {
		list = s.withDetail(list, p)
	}
	for lines = append(lines, list...); len(lines) < h-len(p.notes); {
		lines = append(lines, "")
	}
	return strings.Join(append(lines, p.notes...), "\n")
}

// plan says where the parts of the screen are, in lines and cells.
type plan struct {
	listW       int // width of the list
	first, rows int // the first row drawn and how many, of those that pass the filter
	top         int // line of the first row
	detailW     int // size of the detail, beside the list or below it
	detailH     int
	beside      bool
	notes       []string
}

// From a width of besideWidth on the detail stands beside the list. Below the list
// it takes leastDetail to fullDetail lines.
const besideWidth, leastDetail, fullDetail = 112, 4, 14

func (s *List) plan(w, h, above int) plan {
	p := plan{listW: w, detailW: w}
	p.notes = append(s.markLines(w), s.Foot(w)...)
	p.notes = append(p.notes, s.noteLines(w, 4)...)
	if s.filtering() {
		above++
	}
	p.top = above + 1
	room := h - p.top - len(p.notes) // lines for the rows and the detail
	switch {
	case s.at() == nil:
		p.rows = room
	case w >= besideWidth:
		p.beside, p.listW = true, w*11/20
		p.rows, p.detailW, p.detailH = room, w-p.listW-2, room+1
	default:
		p.rows = min(len(s.shown), max(room-fullDetail, room/2))
		if p.detailH = room - p.rows; p.detailH < leastDetail {
			p.rows, p.detailH = room, 0
		}
	}
	p.rows = max(min(p.rows, len(s.shown)), 0)
	if len(s.shown) > p.rows {
		p.first = min(max(s.cursor-p.rows/2, 0), len(s.shown)-p.rows)
	}
	return p
}

func (s *List) filtering() bool { return s.filter.Focused() || s.filter.Value() != "" }

func (s *List) nothingShown() string {
	if s.filter.Value() == "" {
		return "all powders are archived: v shows them"
	}
	return "nothing on the shelf passes this filter"
}

// withDetail draws the detail of the chosen powder beside the list or below it.
func (s *List) withDetail(list []string, p plan) []string {
	r := s.at()
	d := s.about[r.entry.Slug]
	if d == nil {
		return list
	}
	lines := d.lines(ui.Title(r.entry), p.detailW, p.detailH, s.deps.ASCII)
	if p.beside {
		return ui.Columns(list, lines, p.listW+2)
	}
	return append(list, lines...)
}

// Click puts the cursor on a powder; a second click opens it.
func (s *List) Click(x, y, w, h int) (ui.Next, tea.Cmd) {
	if len(s.rows) == 0 || s.Typing() {
		return s, nil
	}
	above := 0
	if s.err != nil {
		above = 1
	}
	p := s.plan(w, h, above)
	at := p.first + y - p.top
	if y < p.top || y >= p.top+p.rows || x >= p.listW {
		return s, nil
	}
	if at == s.cursor && s.pending == nil {
		return s.open(*s.at()), nil
	}
	s.cursor = at
	return s, s.study()
}

// Wheel moves the cursor by so many rows.
func (s *List) Wheel(by int) (ui.Next, tea.Cmd) {
	if s.Typing() {
		return s, nil
	}
	s.cursor = min(max(s.cursor+by, 0), max(len(s.shown)-1, 0))
	return s, s.study()
}

// welcome draws the first start: what daub does, and where to begin.
func (s *List) welcome(w, h int) []string {
	lines := []string{"", " " + ui.Badge(ui.DoStyle, "WELCOME") + " This shelf is empty.", ""}
	if h < fullDetail {
		lines = append(lines[1:2], s.firstKeys(w, true)...)
		return append(lines, ui.Inset(w, func(w int) []string {
			return ui.Painted(ui.PlainStyle, "daub finds how much liquid a powder takes for a paste as thick as "+
				"you want, and how sure that is. You stir in spoonfuls and say how thick it is.", w)
		})...)
	}
	for _, text := range []string{
		"daub finds how much liquid a powder takes for a paste as thick as you want.",
		"You stir spoonfuls into a little liquid and say after each how thick it is.",
		"Out comes: grams of liquid per gram of powder, and how sure that is.",
	} {
		for _, l := range ui.Wrap(text, w-3) {
			lines = append(lines, "  "+l)
		}
	}
	return append(append(lines, s.firstKeys(w, false)...), "")
}

// firstKeys lists the keys to begin with, in few words where the window is low.
func (s *List) firstKeys(w int, few bool) []string {
	var lines []string
	for _, k := range [][3]string{
		{"n", "make a first trial: a powder, a bowl, a spoon and a kitchen scale", "make a first trial"},
		{"s", "look around first: puts sample powders here (an invented scenario)", "put sample powders here"},
		{"?", "what the screen is for, and the levels of thickness", "what this is for"},
	} {
		if few {
			lines = append(lines, "  "+ui.DoStyle.Render(k[0])+"  "+k[2])
			continue
		}
		lines = append(lines, "")
		for i, text := range ui.Wrap(k[1], w-6) {
			sign := " "
			if i == 0 {
				sign = ui.DoStyle.Render(k[0])
			}
			lines = append(lines, "  "+sign+"  "+text)
		}
	}
	return lines
}

// Help says what the shelf is for.
func (s *List) Help() []string {
	return []string{
		"The shelf: every powder and lot you have tried, one line each. An unfinished trial comes first, and " +
			"Enter goes on with it.",
		"Choose with ↑↓; below or beside the list stands what is known of the powder, what would help it most, " +
			"and its curve. " +
			"Enter opens its newest trial, t begins another, p opens the powder's page, where everything about it " +
			"can be mended, " +
			"archived or deleted. Mark two to six with Space: c sets them side by side, k takes them to the kitchen.",
		"g liquid/g at target: how many grams of liquid a gram of powder takes at the level you aim at, and " +
			"within which limits. " +
			"? behind it: tested from one side only.",
		ui.ChartSigns(s.deps.ASCII) + " Of several trials each has its own sign; it stands beside the trial's date.",
		"The table counts g liquid per g powder. A small chart has that scale below it; a tall one has it on top, " +
			"and below it g powder per g liquid. A label as 3+4 in a small chart: one row for both levels.",
	}
}

func (s *List) noteLines(w, most int) []string {
	var lines []string
	for _, n := range s.notes {
		lines = append(lines, ui.WaitStyle.Render(ui.Cut("! "+printable.Line(n), w)))
	}
	if len(lines) > most {
		more := fmt.Sprintf("! and %d more; daub check says all", len(lines)-most+1)
		lines = append(lines[:most-1], ui.WaitStyle.Render(more))
	}
	if s.left > 0 {
		coming := fmt.Sprintf("reading the shelf: %d of %d still to come", s.left, len(s.coming)+s.left)
		lines = append([]string{ui.NoteStyle.Render(ui.Cut(coming, w))}, lines...)
	}
	return lines
}

func (s *List) line(r *row, here bool, cols []column, name int) string {
	sign, mark := " ", " "
	if here {
		sign = "▸"
	}
	if slices.Contains(s.marked, r.entry.Slug) {
		mark = "*"
	}
	more := ""
	if s.alike(r) {
		more += " · file " + printable.Line(r.entry.Slug)
	}
	if r.entry.Profile.Powder.Archived {
		more += " · archived"
	}
	if r.open >= 0 && r.ratio.Powder != nil {
		more += " · unfinished"
	}
	powder := r.entry.Profile.Powder
	text := sign + mark + printable.Line(powder.Title()) + more
	if ui.Cells(text) > name && more == "" { // the lot stays
		text = sign + mark + ui.CutTitle(powder, name-ui.Cells(sign+mark))
	}
	line := rowLine(text, name, cols, func(c column) string { return c.cell(r) })
	if here {
		return ui.DoStyle.Render(line)
	}
	return line
}

// alike reports whether another profile has the same name and lot. Then the line
// names the file too.
func (s *List) alike(r *row) bool {
	return slices.ContainsFunc(s.rows, func(other row) bool {
		return other.entry.Slug != r.entry.Slug && other.entry.Profile.Powder.Title() == r.entry.Profile.Powder.Title()
	})
}

// ratioText gives the ratio at the target level, or why there is none.
func (r *row) ratioText() string {
	switch told := r.ratio.Rounded(); {
	case told.Powder != nil && told.Reach == fit.Bracketed:
		return bench.IntervalText(*told.Powder)
	case told.Powder != nil:
		return bench.IntervalText(*told.Powder) + " ?"
	case told.Bound != nil:
		return bench.BoundText(*told.Bound)
	case r.open >= 0:
		return "unfinished trial"
	case r.measured != "":
		return r.measured
	case r.entry.Profile.OnlySideBySide():
		return model.BesideOnly
	default:
		return "no finished trial"
	}
}
