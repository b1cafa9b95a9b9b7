package shelf

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

func (s *List) View(w, h int) string {
	var lines []string
	if s.err != nil {
		lines = append(lines, ui.RiskStyle.Render("! "+printable.Line(s.err.Error())))
	}
	switch {
	case !s.loaded:
		return strings.Join(append(lines, "Reading the shelf…"), "\n")
	case len(s.rows) == 0:
		return strings.Join(append(append(lines, s.welcome(w)...), s.noteLines(w, 4)...), "\n")
	}
	if s.filter.Focused() || s.filter.Value() != "" {
		lines = append(lines, s.filter.View())
	}
	notes := append(s.markLines(w), s.Foot(w)...)
	notes = append(notes, s.noteLines(w, 4)...)
	head := shelfLine("  powder", "g/tsp", "g liquid/g at the aim", "trials", "age", "care", w)
	lines = append(lines, ui.NoteStyle.Render(head))
	room := h - len(lines) - len(notes) - 2
	view, first := ui.Window(s.shown, s.cursor, room)
	for i, n := range view {
		lines = append(lines, s.line(&s.rows[n], first+i == s.cursor, w))
	}
	if len(s.shown) == 0 {
		lines = append(lines, "  nothing on the shelf passes this filter")
	}
	lines = append(lines, "", s.detail(w))
	return strings.Join(append(lines, notes...), "\n")
}

func (s *List) welcome(w int) []string {
	text := []string{
		"This shelf is empty.",
		"",
		"daub walks you through a thickening trial: powder by the spoonful into a",
		"little liquid, a look after each, until the paste is as thick as you want.",
		"Out of it comes how much liquid a gram of this powder takes, and how sure that is.",
		"",
		ui.KeyStyle.Render("n") + "  make the first trial of a powder",
		ui.KeyStyle.Render("s") + "  put the sample powders on this shelf (an invented scenario) and look around",
	}
	for i := range text {
		text[i] = ui.Cut("  "+text[i], w)
	}
	return text
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
	return lines
}

// shelfLine lays out one line; the name takes what the window leaves.
func shelfLine(name, tsp, ratio, trials, age, care string, w int) string {
	right := ui.PadLeft(tsp, 6) + "  " + ui.Pad(ratio, 22)
	if w >= 72 {
		right += ui.PadLeft(trials, 6) + ui.PadLeft(age, 6)
	}
	if w >= 96 {
		right += "  " + ui.Pad(care, 16)
	}
	return ui.Pad(name, w-ui.Cells(right)-1) + " " + right
}

func (s *List) line(r *row, here bool, w int) string {
	sign, mark := " ", " "
	if here {
		sign = "▸"
	}
	if slices.Contains(s.marked, r.entry.Slug) {
		mark = "*"
	}
	name := sign + mark + r.entry.Profile.Powder.Title()
	if s.alike(r) {
		name += " · file " + r.entry.Slug
	}
	if r.open >= 0 && r.ratio.Powder != nil {
		name += " · unfinished"
	}
	tsp := "-"
	if r.tspG > 0 {
		tsp = model.Grams(r.tspG)
	}
	care := r.entry.Profile.Powder.CautionWord()
	line := shelfLine(printable.Line(name), tsp, r.ratioText(), fmt.Sprint(r.used), age(s.deps.Now(), r.last), care, w)
	if here {
		return ui.DoStyle.Render(line)
	}
	return line
}

// alike reports whether another profile has the same name and lot: then only
// the file tells them apart.
func (s *List) alike(r *row) bool {
	return slices.ContainsFunc(s.rows, func(other row) bool {
		return other.entry.Slug != r.entry.Slug && other.entry.Profile.Powder.Title() == r.entry.Profile.Powder.Title()
	})
}

// ratioText is the ratio at the aim, or what stands in its way.
func (r *row) ratioText() string {
	switch {
	case r.ratio.Powder != nil && r.ratio.Reach == fit.Bracketed:
		return bench.IntervalText(*r.ratio.Powder)
	case r.ratio.Powder != nil:
		return bench.IntervalText(*r.ratio.Powder) + " ?"
	case r.ratio.Bound != nil:
		return bench.BoundText(*r.ratio.Bound)
	case r.open >= 0:
		return "unfinished trial"
	default:
		return "no finished trial"
	}
}

// detail is one sentence on the powder under the cursor.
func (s *List) detail(w int) string {
	r := s.at()
	switch {
	case r == nil:
		return ""
	case r.open >= 0:
		t := r.entry.Profile.Trials[r.open]
		since := t.Started.Local().Format("2006-01-02 15:04")
		text := fmt.Sprintf("Unfinished: %d steps since %s. Enter goes on where it stopped.", len(t.Steps), since)
		return ui.Cut(text, w)
	case r.ratio.Level == 0:
		return ui.Cut("No finished trial yet. t starts one.", w)
	default:
		return ui.Cut(r.ratio.Sentence(), w)
	}
}

// age is how long ago, in one short word.
func age(now, then time.Time) string {
	if then.IsZero() {
		return "-"
	}
	days := int(now.Sub(then).Hours() / 24)
	switch {
	case days < 1:
		return "today"
	case days < 14:
		return fmt.Sprintf("%d d", days)
	case days < 61:
		return fmt.Sprintf("%d wk", days/7)
	case days < 730:
		return fmt.Sprintf("%d mo", days/30)
	default:
		return fmt.Sprintf("%d y", days/365)
	}
}
