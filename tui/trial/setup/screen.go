// Package setup is the first part of a trial: it asks for the powder and for what
// is known by mass. It ends at the bench.
package setup

import (
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// screen is the first part of a trial, in two stops: the powder, and what is known
// by mass. The settings have good defaults and are shown by one key.
//
// A field becomes part of the profile when the cursor leaves it. The first weighing
// puts the profile on the shelf, so that no weighing is ever lost.
type screen struct {
	deps    ui.Deps
	stop    stop
	more    bool           // the settings with defaults are shown too
	method  bench.Method   // what is known by mass
	fresh   map[string]int // number of weighings made in this visit, by spoon
	pick    int            // index of the weighing being mended, -1 for a new one
	doubted string         // an unlikely weighing or scale asked about: taken if given again
	shelf   []model.Entry  // all powders, to choose from
	entry   model.Entry    // the profile being set up; its trials stay as they are
	trial   model.Trial
	like    *model.Trial // the trial of the reference dish; nil if levels are named
	session *ui.Session  // at revision 0 it holds nothing yet
	said    string       // what the last key did
	begun   bool         // the trial was begun: the set-up is not offered again
	ui.Form
}

// stop is one of the two stops on the way to the bench.
type stop int

const (
	stopPowder stop = iota
	stopMass
)

// New opens the set-up for a powder of the shelf, or for a new one. draft is the
// set-up left last; for the same powder it brings back what was typed there.
func New(deps ui.Deps, asked ui.OpenSetup, draft ui.Draft) *screen {
	from, shelf := asked.Powder, asked.Shelf
	left, _ := draft.(*screen)
	if left != nil && (left.begun || (left.like == nil) != (asked.Like == nil)) {
		left = nil
	}
	if from == nil && left != nil && left.session.Entry().Slug == "" {
		left.deps, left.shelf = deps, shelf
		left.beside(asked.Like)
		return left
	}
	s := &screen{
		deps: deps, shelf: shelf, session: ui.NewSession(model.Entry{}, bench.NoTrial, deps.OwnSpoons),
		fresh: map[string]int{}, pick: -1,
		trial: model.Trial{SpoonSet: deps.OwnSpoons.UsualSet()}.WithDefaults(model.Other),
	}
	s.trial.RestS = nil
	s.trial.Spoons = model.DefaultSpoons()
	s.beside(asked.Like)
	s.Form = ui.Form{Fields: newFields(deps.OwnSpoons.Names()), Hidden: s.hidden, Apply: s.apply}
	if from != nil {
		s.use(*from)
	}
	s.fill()
	if from != nil {
		s.toStop(stopMass)
		if left != nil && from.Slug != "" && left.session.Entry().Slug == from.Slug {
			s.copyFrom(left)
		}
	}
	s.Focus()
	return s
}

// copyFrom continues a set-up of the same powder that was left.
func (s *screen) copyFrom(left *screen) {
	s.trial, s.method, s.more = left.trial, left.method, left.more
	for i := fieldMethod; i < len(s.Fields); i++ {
		if i != fieldHand { // it shows the trial's spoons
			s.Fields[i].Set(left.Fields[i].Input.Value())
			s.Fields[i].Touched = left.Fields[i].Touched
		}
	}
}

// beside copies what both trials have in common from the reference dish's: liquid,
// rest, temperature and level.
func (s *screen) beside(like *model.Trial) {
	if s.like = like; like == nil {
		return
	}
	t := &s.trial
	t.Match, t.Aim, t.RestS = like.Clone().Match, like.Aim, like.RestS
	t.Liquid, t.LiquidDensity, t.TemperatureC = like.Liquid, like.LiquidDensity, like.TemperatureC
}

// use sets up another trial of a powder, with the settings of its newest.
func (s *screen) use(e model.Entry) {
	s.entry = e
	p := e.Profile
	s.method = bench.MethodOf(p)
	if i := p.Newest(); i >= 0 {
		before := p.Trials[i].WithDefaults(p.Powder.Kind())
		s.trial = before.Again()
		s.trial.PotG = 0
		if len(before.Spoons) == 0 {
			s.trial.Spoons = model.DefaultSpoons()
		}
	}
	s.beside(s.like)
	if s.entry.Slug == "" {
		p.Trials = nil // a mix is not on the shelf: its trial only gave the settings
	}
	s.entry.Profile = p
	s.session = ui.NewSession(s.entry, bench.NoTrial, s.deps.OwnSpoons)
	s.entry.Profile = p.Clone()
	if len(p.LevelSpoons) > 0 {
		s.weighedSpoon(p.LevelSpoons[0].Spoon)
	}
}

// Session returns the profile once something of it is recorded.
func (s *screen) Session() *ui.Session {
	if s.session.Revision() == 0 {
		return nil
	}
	return s.session
}

func (s *screen) Typing() bool { return true }

func (s *screen) Title() string {
	title := "Trial › set-up"
	if s.like != nil {
		title = "Trial › side by side"
	}
	if name := s.entry.Profile.Powder.Name; name != "" {
		title += "  " + ui.Title(s.entry)
	}
	return title
}

func (s *screen) Keys() []key.Binding {
	k := keys
	var shown []key.Binding
	switch f := &s.Fields[s.At]; {
	case s.lastField():
		shown = []key.Binding{ui.Bind("Enter", "to the bench", "enter"), k.prev}
	case s.At == fieldWeighing:
		shown = []key.Binding{
			ui.Bind("Enter", "record; empty: next", "enter"), k.prev,
			ui.Bind("←→", "pick one to mend", "left", "right"), k.back,
		}
	case s.At == fieldHand:
		shown = []key.Binding{k.next, k.prev, k.change, k.toggle}
	case len(f.Options) > 0:
		shown = []key.Binding{k.next, k.prev, k.change}
	default:
		shown = []key.Binding{k.next, k.prev}
	}
	switch {
	case s.stop == stopMass && s.more:
		shown = append(shown, ui.Bind("Tab", "fewer settings", "tab"))
	case s.stop == stopMass:
		shown = append(shown, ui.Bind("Tab", "more settings", "tab"))
	case s.At == fieldName && len(s.matches()) > 0:
		shown = append(shown, k.take)
	}
	leave := k.leave
	if s.stop == stopMass {
		leave = ui.Bind("Esc", "back one stop", "esc")
	}
	if !s.lastField() { // at the last field Enter does it
		shown = append(shown, k.begin)
	}
	return append(shown, leave)
}

func (s *screen) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	if m, ok := msg.(tea.KeyMsg); ok {
		return s.key(m)
	}
	return s, nil
}

func (s *screen) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := keys
	if msg.Paste {
		s.typed(msg)
		return s, nil
	}
	switch {
	case key.Matches(msg, k.leave):
		if s.stop == stopMass {
			s.backToPowder()
			return s, nil
		}
		return ui.OpenShelf{Left: s.Session(), Draft: s}, nil
	case key.Matches(msg, k.begin):
		return s.begin()
	case key.Matches(msg, k.next):
		if s.lastField() && msg.String() == "enter" {
			return s.begin()
		}
		s.next(msg.String() == "enter")
	case key.Matches(msg, k.prev):
		if s.leaveField() {
			s.up()
		}
	case key.Matches(msg, k.take) && s.stop == stopPowder:
		if m := s.matches(); s.At == fieldName && len(m) > 0 {
			s.use(m[0])
			s.fill()
			s.toStop(stopMass)
		}
	case key.Matches(msg, k.take):
		s.toggleMore()
	default:
		s.typed(msg)
	}
	return s, nil
}

// matches lists the powders of the shelf whose name begins as typed.
func (s *screen) matches() []model.Entry {
	typed := strings.ToLower(strings.TrimSpace(s.Fields[fieldName].Input.Value()))
	if s.entry.Slug != "" || s.Session() != nil {
		return nil // a powder of the shelf keeps its identity
	}
	var found []model.Entry
	for _, e := range s.shelf {
		fits := typed != ""
		if s.like != nil { // the second dish is mostly of a known powder: all but the reference's
			fits = e.Slug != s.like.Match.Powder
		}
		if fits && strings.HasPrefix(strings.ToLower(e.Profile.Powder.Name), typed) {
			found = append(found, e)
		}
	}
	return found
}
