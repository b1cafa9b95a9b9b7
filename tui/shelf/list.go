// Package shelf shows the list of all powders, with a filter and marks, and the
// page of one powder. The list changes no profile. To open another place it returns
// a request and does not import that place; it may import tui/ui and model/….
package shelf

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// List shows all powders of the shelf, one a line.
type List struct {
	deps   ui.Deps
	loaded bool
	rows   []row // unfinished first, then by name
	shown  []int // indexes of the rows that pass the filter
	cursor int   // index into shown
	notes  []string
	err    error

	reading int   // number of the newest reading of the shelf; older ones are dropped
	coming  []row // rows read so far; the old rows are shown until all are there
	left    int   // files still to be read
	filter  textinput.Model
	pending *ui.Session // the profile worked on before, until it is known to be on disk
	marked  []string    // slugs, in the order of marking
	resume  string      // slug to put the cursor on after reading

	archived bool               // archived powders are shown too
	about    map[string]*detail // details of powders that were under the cursor, by slug
	ui.Prompt
}

// listed carries one part of the shelf to Update.
type listed struct {
	to     *List // the list that asked
	number int   // the reading it belongs to
	first  bool  // it is the first part of its reading
	part   ui.Listing
	rows   []row
	err    error
}

// samplesAdded says that copying the samples has ended.
type samplesAdded struct{ err error }

// New makes the shelf. It keeps the marks, filter and cursor of the list before, if
// not nil; left is the profile that was open until now, nil without one.
func New(deps ui.Deps, before *List, left *ui.Session) *List {
	s := &List{deps: deps, filter: ui.NewInput("filter: ")}
	if before != nil {
		s.follow(before)
	}
	switch {
	case left == nil:
	case left.Dirty():
		s.pending = left
	default:
		s.comeFrom(left)
	}
	return s
}

// comeFrom puts the cursor on the profile that was just left and says that it is
// saved.
func (s *List) comeFrom(left *ui.Session) {
	s.resume = left.Entry().Slug
	if s.resume != "" {
		s.Say(ui.Title(left.Entry()) + ": everything is saved")
	}
}

// Start reads the shelf. If the profile just left is not on disk yet, it waits.
func (s *List) Start() tea.Cmd {
	if s.pending != nil {
		return nil
	}
	return s.Read()
}

// LeftSaved reads the shelf once the profile just left is on disk.
func (s *List) LeftSaved() tea.Cmd {
	if s.pending == nil {
		return nil
	}
	left := s.pending
	s.pending = nil
	s.comeFrom(left)
	return s.Read()
}

// OwnSpoons returns the maker's own spoons as last read.
func (s *List) OwnSpoons() model.OwnSpoons { return s.deps.OwnSpoons }

// Entries returns all powders as last read.
func (s *List) Entries() []model.Entry { return s.entries() }

// Read reads the shelf. Several readings may end in any order; only the last one
// asked for counts.
func (s *List) Read() tea.Cmd {
	s.reading++
	return s.readPart(s.deps.List, true)
}

func (s *List) readPart(part func() (ui.Listing, error), first bool) tea.Cmd {
	number := s.reading
	return func() tea.Msg {
		l, err := part()
		rows := make([]row, len(l.Items))
		for i, one := range l.Items {
			rows[i] = newRow(one, l.OwnSpoons)
		}
		return listed{to: s, number: number, first: first, part: l, rows: rows, err: err}
	}
}

func (s *List) Session() *ui.Session { return s.pending }
func (s *List) Typing() bool         { return s.filter.Focused() || s.Asking() }

func (s *List) Title() string {
	if s.deps.Demo {
		return "Shelf (demo: an invented sample, in " + s.deps.ShelfDir + ")"
	}
	return "Shelf  " + s.deps.ShelfDir
}

func (s *List) Keys() []key.Binding {
	k := shelfKeys
	switch {
	case s.Asking():
		return s.PromptKeys()
	case s.Typing():
		return []key.Binding{k.apply, k.clear}
	case s.loaded && len(s.rows) == 0:
		return []key.Binding{k.fresh, k.samples, k.reload, k.quit}
	}
	open := k.open
	if r := s.at(); r != nil && r.open >= 0 {
		open = ui.Bind("Enter", "go on with the trial", "enter")
	}
	keys := []key.Binding{open, k.trial, k.fresh, k.page, k.mark, k.compare, k.kitchen, k.filter, k.export}
	if _, due := s.due(); due {
		keys = append([]key.Binding{k.later}, keys...)
	} else if r := s.at(); r != nil && r.used > 0 {
		keys = append(keys, k.later)
	}
	if len(s.marked) > 0 {
		keys = append(keys, k.unmark)
	}
	if n := s.archivedCount(); n > 0 {
		does := fmt.Sprintf("show %d archived", n)
		if s.archived {
			does = "hide the archived"
		}
		keys = append(keys, ui.Bind("v", does, "v"))
	}
	return append(keys, k.move, k.reload, k.clear, k.quit)
}

func (s *List) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	switch msg := msg.(type) {
	case listed:
		if msg.to == s && msg.number == s.reading {
			return s, s.receive(msg)
		}
	case studied:
		if msg.number == s.reading {
			s.about[msg.slug] = msg.detail
		}
	case samplesAdded:
		if s.err = msg.err; s.err == nil {
			return s, s.Read()
		}
	case tea.KeyMsg:
		switch {
		case s.Asking():
			return s, s.Press(msg)
		case s.Typing():
			s.filterKey(msg)
			return s, s.study()
		}
		next, cmd := s.key(msg)
		return next, tea.Batch(cmd, s.study())
	default:
		s.Prompt.Receive(msg)
	}
	return s, nil
}

// receive takes in one part of the shelf. On the first reading the list fills part
// by part; on a later one the old rows stay until all parts are there.
func (s *List) receive(m listed) tea.Cmd {
	if m.first {
		s.coming, s.notes = nil, nil
	}
	s.notes = slices.Concat(s.notes, m.part.Notes, m.part.Broken)
	s.coming, s.left, s.err = merged(s.coming, m.rows), m.part.Left, m.err
	if m.err == nil {
		s.deps.OwnSpoons = m.part.OwnSpoons
	}
	all := m.part.More == nil
	if all || !s.loaded {
		s.show(s.coming, all)
	}
	var more tea.Cmd
	if !all {
		more = s.readPart(m.part.More, false)
	}
	return tea.Batch(s.study(), more)
}

// show replaces the rows; all says that they are the whole shelf. The cursor stays
// on its powder, or at the top.
func (s *List) show(rows []row, all bool) {
	stay := s.resume
	if r := s.at(); stay == "" && s.cursor > 0 && r != nil {
		stay = r.entry.Slug
	}
	if s.pending != nil {
		stay = s.pending.Entry().Slug
	}
	if s.loaded || s.about == nil { // the first reading, or a new one
		s.about = map[string]*detail{}
	}
	s.rows, s.loaded = rows, s.loaded || all
	s.applyFilter()
	if at := slices.Index(s.shown, s.bySlug(stay)); at >= 0 {
		s.cursor, s.resume = at, ""
	}
	if all {
		s.resume = ""
		s.marked = slices.DeleteFunc(s.marked, func(id string) bool { return s.bySlug(id) < 0 })
	}
}

// applyFilter shows the rows whose name, lot or family holds every word of the
// filter. Archived powders are left out unless they are asked for.
func (s *List) applyFilter() {
	words := strings.Fields(strings.ToLower(s.filter.Value()))
	s.shown = s.shown[:0]
	for i, r := range s.rows {
		if r.entry.Profile.Powder.Archived && !s.archived {
			continue
		}
		if !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(r.search, w) }) {
			s.shown = append(s.shown, i)
		}
	}
	s.cursor = min(s.cursor, max(len(s.shown)-1, 0))
}

func (s *List) filterKey(msg tea.KeyMsg) {
	switch {
	case key.Matches(msg, shelfKeys.apply):
		s.filter.Blur()
	case key.Matches(msg, shelfKeys.clear):
		s.clear()
	default:
		ui.TypeInto(&s.filter, msg)
		s.cursor = 0
		s.applyFilter()
	}
}

func (s *List) clear() {
	at := 0 // all rows will be shown: a row's index is then the cursor's
	if len(s.shown) > 0 {
		at = s.shown[s.cursor]
	}
	s.filter.SetValue("")
	s.filter.Blur()
	s.applyFilter()
	s.cursor = at
}

// at returns the row under the cursor, nil if no row is shown.
func (s *List) at() *row {
	if s.cursor >= len(s.shown) {
		return nil
	}
	return &s.rows[s.shown[s.cursor]]
}

func (s *List) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := shelfKeys
	s.Hush()
	switch {
	case key.Matches(msg, k.quit):
		return ui.Quit{}, nil
	case key.Matches(msg, k.move):
		s.resume = ""
		s.cursor = ui.MoveCursor(s.cursor, len(s.shown), msg.String())
	case key.Matches(msg, k.archive) && s.archivedCount() > 0:
		s.archived = !s.archived
		s.applyFilter()
	case key.Matches(msg, k.filter):
		s.filter.Focus()
	case key.Matches(msg, k.clear):
		s.clear()
	case key.Matches(msg, k.reload):
		return s, s.Read()
	case s.pending != nil:
		// A change is not saved yet: no other place may open.
	case key.Matches(msg, k.fresh):
		return ui.OpenSetup{Shelf: s.entries()}, nil
	case key.Matches(msg, k.samples) && s.loaded && len(s.rows) == 0:
		return s, func() tea.Msg { return samplesAdded{s.deps.AddSamples()} }
	case len(s.rows) == 0:
	case key.Matches(msg, k.compare):
		return s.compare(), nil
	case key.Matches(msg, k.kitchen):
		return ui.OpenKitchen{Powders: s.chosen(), Shelf: s.inUse()}, nil
	case key.Matches(msg, k.unmark):
		s.marked = nil
	case s.at() == nil:
	case key.Matches(msg, k.mark):
		s.mark()
	case key.Matches(msg, k.later):
		return s.openLater(), nil
	case key.Matches(msg, k.page):
		return newPowderPage(s.deps, s.at().entry, s.entries()), nil
	case key.Matches(msg, k.export):
		s.AskExport(s.deps, s.chosen(), 0)
	case key.Matches(msg, k.trial):
		return ui.OpenSetup{Powder: &s.at().entry, Shelf: s.entries()}, nil
	case key.Matches(msg, k.open):
		return s.open(*s.at()), nil
	}
	return s, nil
}

// open opens the unfinished trial, else the newest, else the set-up of a first one.
func (s *List) open(r row) ui.Next {
	switch newest := r.entry.Profile.Newest(); {
	case r.open >= 0:
		return ui.OpenTrial{Powder: r.entry, Trial: r.open}
	case newest >= 0:
		return ui.OpenTrial{Powder: r.entry, Trial: newest}
	default:
		return ui.OpenSetup{Powder: &r.entry, Shelf: s.entries()}
	}
}
