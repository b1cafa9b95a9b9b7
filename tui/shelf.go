package tui

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
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

	reading int // counts the reads of the shelf; only the newest is taken
	filter  textinput.Model
	pending *Session // left, but not known to be on disk yet
	marked  []string // IDs, in the order of marking
	resume  string   // ID to put the cursor on once the shelf is read
	outlet
}

func newShelf(w World, pending *Session) *shelf {
	return &shelf{world: w, pending: pending, filter: newInput("filter: ")}
}

// toShelf is the shelf with what it has to do first: read its files, once what
// was left is on disk.
func toShelf(w World, left *Session) (screen, tea.Cmd) {
	s := newShelf(w, left)
	if left != nil && left.owed() {
		return s, nil // the App reads when it is saved
	}
	return s, s.reads()
}

// reads reads the shelf and works out every line. Reads may end in any order:
// only the one asked for last is taken.
func (s *shelf) reads() tea.Cmd {
	s.reading++
	w, number := s.world, s.reading
	return func() tea.Msg {
		l, err := w.List()
		rows := make([]row, len(l.Items))
		for i, item := range l.Items {
			rows[i] = newRow(item, l.Drawer)
		}
		slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(unfinishedFirst(a), unfinishedFirst(b)) })
		return listed{to: s, number: number, rows: rows, drawer: l.Drawer, broken: l.Broken, notes: l.Notes, err: err}
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
	r := row{item: item, open: p.NewestUnfinished(), last: p.LastTrial(), search: strings.ToLower(p.Powder.Name + " " + p.Powder.Lot + " " + string(p.Powder.Kind()))}
	for _, t := range p.Trials {
		if t.Used() {
			r.used++
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
		if msg.to == s && msg.number == s.reading {
			s.take(msg)
		}
	case samplesAdded:
		if s.err = msg.err; s.err == nil {
			return s, s.reads()
		}
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
	if m.err == nil {
		s.world.Drawer = m.drawer
	}
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
		return s, s.reads()
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
// the newest trial, or to the set-up of the first.
func openRow(w World, r row, known []row) (screen, tea.Cmd) {
	switch newest := r.item.Profile.Newest(); {
	case r.open >= 0:
		return newBench(w, newSession(r.item, r.open, w.Drawer))
	case newest >= 0:
		return newResult(w, newSession(r.item, newest, w.Drawer)), nil
	default:
		return newSetup(w, &r, known), nil
	}
}
