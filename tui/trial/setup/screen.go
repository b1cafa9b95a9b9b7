// Package setup is the first part of a trial: which powder it is, and what is
// known by mass. It ends at the bench.
package setup

import (
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// screen is the first part of a trial, in two stops: which powder it is, and how
// much is known by mass. All else has good defaults and stands behind one key.
//
// What is typed becomes part of the profile when its field is left; the first
// weighing puts the profile on the shelf, so that no weighing is ever lost.
type screen struct {
	deps    ui.Deps
	stop    stop
	more    bool           // the settings with defaults are shown too
	method  method         // what is known by mass
	fresh   map[string]int // weighings made in this visit, by spoon
	pick    int            // the weighing that is being mended, -1 for a new one
	doubted string         // a weighing that was asked about, taken if it is given again
	shelf   []model.Entry  // all powders, to take one from
	entry   model.Entry    // the profile being set up; its trials are left alone
	trial   model.Trial
	like    *model.Trial // beside which dish it is made; nil where levels are named
	session *ui.Session  // nothing is recorded at its revision 0
	said    string       // what the last key did
	begun   bool         // the trial was begun: nothing here is to be taken up again
	ui.Form
}

// stop is one of the two stops on the way to the bench.
type stop int

const (
	stopPowder stop = iota
	stopMass
)

// method says what is known by mass.
type method int

const (
	byPot method = iota
	bySpoons
	byEach
)

// New starts with a powder from the shelf, or with a new one. draft is the
// set-up that was left last, if any: where it is of the same powder, what was
// typed there is still there.
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
			s.takeOver(left)
		}
	}
	s.Focus()
	return s
}

// takeOver goes on with what was typed into a set-up of the same powder.
func (s *screen) takeOver(left *screen) {
	s.trial, s.method, s.more = left.trial, left.method, left.more
	for i := fieldMethod; i < len(s.Fields); i++ {
		if i != fieldHand { // shows what the trial has
			s.Fields[i].Set(left.Fields[i].Input.Value())
			s.Fields[i].Touched = left.Fields[i].Touched
		}
	}
}

// beside takes over what the trial has in common with its reference dish's: the
// liquid and the rest.
func (s *screen) beside(like *model.Trial) {
	if s.like = like; like == nil {
		return
	}
	t := &s.trial
	t.Match, t.Aim, t.RestS = like.Clone().Match, like.Aim, like.RestS
	t.Liquid, t.LiquidDensity, t.TemperatureC = like.Liquid, like.LiquidDensity, like.TemperatureC
}

// use sets up a trial of a powder, with the manner of its newest trial.
func (s *screen) use(e model.Entry) {
	s.entry = e
	p := e.Profile
	s.method = byPot
	if len(p.LevelSpoons) > 0 {
		s.method = bySpoons
	}
	if i := p.Newest(); i >= 0 {
		before := p.Trials[i].WithDefaults(p.Powder.Kind())
		s.trial = before.Again()
		s.trial.PotG = 0
		switch {
		case before.PotG > 0:
			s.method = byPot
		case len(before.Spoons) == 0:
			s.method, s.trial.Spoons = byEach, model.DefaultSpoons()
		}
	}
	s.beside(s.like)
	if s.entry.Slug == "" {
		p.Trials = nil // of a mix, which is not on the shelf yet: its one trial only showed the manner
	}
	s.entry.Profile = p
	s.session = ui.NewSession(s.entry, bench.NoTrial, s.deps.OwnSpoons)
	s.entry.Profile = p.Clone()
	if len(p.LevelSpoons) > 0 {
		s.weighedSpoon(p.LevelSpoons[0].Spoon)
	}
}

// Session is the profile once something of it is recorded.
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
	if !s.lastField() { // there Enter does it
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

// matches lists the powders on the shelf whose name begins as typed.
func (s *screen) matches() []model.Entry {
	typed := strings.ToLower(strings.TrimSpace(s.Fields[fieldName].Input.Value()))
	if s.entry.Slug != "" || s.Session() != nil {
		return nil // what is on the shelf already stays what it is
	}
	var found []model.Entry
	for _, e := range s.shelf {
		fits := typed != ""
		if s.like != nil { // a powder from the shelf, mostly: all of them but the reference dish's
			fits = e.Slug != s.like.Match.Powder
		}
		if fits && strings.HasPrefix(strings.ToLower(e.Profile.Powder.Name), typed) {
			found = append(found, e)
		}
	}
	return found
}
