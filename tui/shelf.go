package tui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// row is one profile on the shelf with what its line shows.
type row struct {
	item   Item
	open   int // index of the unfinished trial, -1 without one
	used   int // trials that count
	tspG   float64
	ratio  model.PowderRatio
	last   time.Time
	search string
}

// shelf is the place with all powders.
type shelf struct {
	world  World
	loaded bool
	rows   []row // unfinished first, then by name
	shown  []int // rows that pass the filter
	cursor int   // into shown
	notes  []string
	err    error

	filter  textinput.Model
	pending *Session // left, but not known to be on disk yet
	marked  []string // IDs, in the order of marking
	resume  string   // ID to put the cursor on once the shelf is read
	outlet
}

func newShelf(w World, pending *Session) *shelf {
	s := &shelf{world: w, pending: pending, filter: newInput("filter: ")}
	return s
}

// readShelf reads the shelf and works out every line.
func readShelf(w World) tea.Cmd {
	return func() tea.Msg {
		l, err := w.List()
		rows := make([]row, len(l.Items))
		for i, item := range l.Items {
			rows[i] = newRow(item, w.Drawer)
		}
		slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(unfinishedFirst(a), unfinishedFirst(b)) })
		return listed{rows: rows, broken: l.Broken, notes: l.Notes, err: err}
	}
}

func unfinishedFirst(r row) int {
	if r.open >= 0 {
		return 0
	}
	return 1
}

func newRow(item Item, d model.Drawer) row {
	p := item.Profile
	r := row{item: item, open: -1, last: p.LastTrial(), search: strings.ToLower(p.Powder.Name + " " + p.Powder.Lot + " " + string(p.Powder.Kind()))}
	for i, t := range p.Trials {
		switch {
		case t.Used():
			r.used++
		case t.State != model.Done && t.SetAside == "":
			r.open = i
		}
	}
	r.tspG, _ = p.Scales(model.US, d).Teaspoon()
	if bases := p.Bases(); len(bases) > 0 {
		r.ratio = p.Ratios(bases[0], []float64{p.Aim()}, d)[0]
	}
	return r
}

func (s *shelf) Session() *Session { return s.pending }
func (s *shelf) Typing() bool      { return s.filter.Focused() || s.asking() }

func (s *shelf) Title() string {
	if s.world.Demo {
		return "Shelf (demo: an invented sample, in " + s.world.Place + ")"
	}
	return "Shelf  " + s.world.Place
}

func (s *shelf) Keys() []key.Binding {
	k := shelfKeys
	switch {
	case s.asking():
		return outletFooter()
	case s.Typing():
		return []key.Binding{k.apply, k.clear}
	case s.loaded && len(s.rows) == 0:
		return []key.Binding{k.fresh, k.samples, k.reload, k.quit}
	}
	open := k.open
	if r := s.at(); r != nil && r.open >= 0 {
		open = bind("Enter", "go on with the unfinished trial", "enter")
	}
	keys := []key.Binding{open, k.trial, k.fresh, k.mark, k.compare, k.kitchen, k.filter, k.export}
	if len(s.marked) > 0 {
		keys = append(keys, k.unmark)
	}
	return append(keys, k.move, k.reload, k.clear, k.quit)
}

func (s *shelf) Update(msg tea.Msg) (screen, tea.Cmd) {
	switch msg := msg.(type) {
	case listed:
		s.take(msg)
	case samplesAdded:
		s.err = msg.err
		return s, readShelf(s.world)
	case tea.KeyMsg:
		switch {
		case s.asking():
			return s, s.typed(msg)
		case s.Typing():
			s.sieve(msg)
			return s, nil
		}
		return s.key(msg)
	default:
		s.outlet.take(msg)
	}
	return s, nil
}

func (s *shelf) take(m listed) {
	s.loaded, s.rows, s.err = true, m.rows, m.err
	s.notes = slices.Concat(m.notes, m.broken)
	s.marked = slices.DeleteFunc(s.marked, func(id string) bool { return s.byID(id) < 0 })
	s.sift()
	if s.pending != nil {
		s.resume = s.pending.item.ID
	}
	if at := slices.Index(s.shown, s.byID(s.resume)); at >= 0 {
		s.cursor = at
	}
	s.resume = ""
}

// sift applies the filter: every word has to occur in name, lot or family.
func (s *shelf) sift() {
	words := strings.Fields(strings.ToLower(s.filter.Value()))
	s.shown = s.shown[:0]
	for i, r := range s.rows {
		if !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(r.search, w) }) {
			s.shown = append(s.shown, i)
		}
	}
	s.cursor = min(s.cursor, max(len(s.shown)-1, 0))
}

func (s *shelf) sieve(msg tea.KeyMsg) {
	switch {
	case key.Matches(msg, shelfKeys.apply):
		s.filter.Blur()
	case key.Matches(msg, shelfKeys.clear):
		s.clear()
	default:
		typeInto(&s.filter, msg)
		s.cursor = 0
		s.sift()
	}
}

func (s *shelf) clear() {
	at := 0 // all are shown again, so that the row's place is the cursor's
	if len(s.shown) > 0 {
		at = s.shown[s.cursor]
	}
	s.filter.SetValue("")
	s.filter.Blur()
	s.sift()
	s.cursor = at
}

// at is the row under the cursor, nil on an empty shelf.
func (s *shelf) at() *row {
	if s.cursor >= len(s.shown) {
		return nil
	}
	return &s.rows[s.shown[s.cursor]]
}

func (s *shelf) key(msg tea.KeyMsg) (screen, tea.Cmd) {
	k := shelfKeys
	s.hush()
	switch {
	case key.Matches(msg, k.quit):
		return s, func() tea.Msg { return quitWanted{} }
	case key.Matches(msg, k.move):
		by := map[string]int{"up": -1, "down": 1, "pgup": -10, "pgdown": 10}[msg.String()]
		s.cursor = min(max(s.cursor+by, 0), max(len(s.shown)-1, 0))
	case key.Matches(msg, k.filter):
		s.filter.Focus()
	case key.Matches(msg, k.clear):
		s.clear()
	case key.Matches(msg, k.reload):
		return s, readShelf(s.world)
	case s.pending != nil:
		// Something is not saved yet: nothing else may take its place.
	case key.Matches(msg, k.fresh):
		return newSetup(s.world, nil, s.rows), nil
	case key.Matches(msg, k.samples) && s.loaded && len(s.rows) == 0:
		return s, func() tea.Msg { return samplesAdded{s.world.AddSamples()} }
	case len(s.rows) == 0:
	case key.Matches(msg, k.compare):
		return s.compare()
	case key.Matches(msg, k.kitchen):
		return newKitchen(s.world, s.rows, s.chosen()), nil
	case key.Matches(msg, k.unmark):
		s.marked = nil
	case s.at() == nil:
	case key.Matches(msg, k.mark):
		s.mark()
	case key.Matches(msg, k.export):
		s.exportItems(s.world, itemsOf(s.chosen()), 0)
	case key.Matches(msg, k.trial):
		return newSetup(s.world, s.at(), s.rows), nil
	case key.Matches(msg, k.open):
		return openRow(s.world, *s.at(), s.rows)
	}
	return s, nil
}

// openRow leads on: to the bench with an unfinished trial, to the result of
// the last trial, or to the set-up of the first.
func openRow(w World, r row, known []row) (screen, tea.Cmd) {
	switch n := len(r.item.Profile.Trials); {
	case r.open >= 0:
		return newBench(w, newSession(r.item, r.open, w.Drawer))
	case n > 0:
		return newResult(w, newSession(r.item, n-1, w.Drawer)), nil
	default:
		return newSetup(w, &r, known), nil
	}
}

func (s *shelf) View(w, h int) string {
	var lines []string
	if s.err != nil {
		lines = append(lines, badStyle.Render("! "+sanitise(s.err.Error())))
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
	notes := append(s.markLines(w), s.saidLines(w)...)
	notes = append(notes, s.noteLines(w, 4)...)
	lines = append(lines, dimStyle.Render(shelfLine("  powder", "g/tsp", "g liquid/g at the aim", "trials", "age", "care", w)))
	room := h - len(lines) - len(notes) - 2
	view, first := window(s.shown, s.cursor, room)
	for i, n := range view {
		lines = append(lines, s.line(&s.rows[n], first+i == s.cursor, w))
	}
	if len(s.shown) == 0 {
		lines = append(lines, "  nothing on the shelf passes this filter")
	}
	lines = append(lines, "", s.detail(w))
	return strings.Join(append(lines, notes...), "\n")
}

func (s *shelf) welcome(w int) []string {
	text := []string{
		"This shelf is empty.",
		"",
		"daub walks you through a thickening trial: powder by the spoonful into a",
		"little liquid, a look after each, until the paste is as thick as you want.",
		"Out of it comes how much liquid a gram of this powder takes, and how sure that is.",
		"",
		keyStyle.Render("n") + "  make the first trial of a powder",
		keyStyle.Render("s") + "  put the sample powders on this shelf (an invented scenario) and look around",
	}
	for i := range text {
		text[i] = cut("  "+text[i], w)
	}
	return text
}

func (s *shelf) noteLines(w, most int) []string {
	var lines []string
	for _, n := range s.notes {
		lines = append(lines, warnStyle.Render(cut("! "+sanitise(n), w)))
	}
	if len(lines) > most {
		lines = append(lines[:most-1], warnStyle.Render(fmt.Sprintf("! and %d more; daub check says all", len(lines)-most+1)))
	}
	return lines
}

// shelfLine lays out one line; the name takes what the window leaves.
func shelfLine(name, tsp, ratio, trials, age, care string, w int) string {
	right := padLeft(tsp, 6) + "  " + pad(ratio, 22)
	if w >= 72 {
		right += padLeft(trials, 6) + padLeft(age, 6)
	}
	if w >= 96 {
		right += "  " + pad(care, 16)
	}
	return pad(name, w-cells(right)-1) + " " + right
}

func (s *shelf) line(r *row, here bool, w int) string {
	sign, mark := " ", " "
	if here {
		sign = "▸"
	}
	if slices.Contains(s.marked, r.item.ID) {
		mark = "*"
	}
	name := sign + mark + r.item.Profile.Powder.Title()
	tsp := "-"
	if r.tspG > 0 {
		tsp = model.Grams(r.tspG)
	}
	care := r.item.Profile.Powder.CautionWord()
	line := shelfLine(sanitise(name), tsp, r.ratioText(), fmt.Sprint(r.used), age(s.world.Now(), r.last), care, w)
	if here {
		return accentStyle.Render(line)
	}
	return line
}

// ratioText is the ratio at the aim, or what stands in its way.
func (r *row) ratioText() string {
	switch {
	case r.open >= 0:
		return "unfinished trial"
	case r.ratio.Powder != nil && r.ratio.Reach == fit.Bracketed:
		return model.IntervalText(*r.ratio.Powder)
	case r.ratio.Powder != nil:
		return model.IntervalText(*r.ratio.Powder) + " ?"
	case r.ratio.Bound != nil:
		return model.BoundText(*r.ratio.Bound)
	default:
		return "no finished trial"
	}
}

// detail is one sentence on the powder under the cursor.
func (s *shelf) detail(w int) string {
	r := s.at()
	switch {
	case r == nil:
		return ""
	case r.open >= 0:
		t := r.item.Profile.Trials[r.open]
		return cut(fmt.Sprintf("Unfinished: %d steps since %s. Enter goes on where it stopped.", len(t.Steps), t.Started.Local().Format("2006-01-02 15:04")), w)
	case r.ratio.Level == 0:
		return cut("No finished trial yet. t starts one.", w)
	default:
		return cut(r.ratio.Sentence(), w)
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
