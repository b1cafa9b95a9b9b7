// Package trial is the place where a trial is made: its set-up, the bench with
// its loop of adding and looking, and the result. It knows no other place; it
// may import tui/ui, tui/chart and model/….
package trial

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// setup is the first part of a trial: which powder, what a level spoon of it
// weighs, which liquid, which spoons, which aim.
//
// What is typed becomes part of the profile when its field is left; the first
// weighing puts the profile on the shelf, so that no weighing is ever lost.
type setup struct {
	deps    ui.Deps
	fresh   map[string]int // weighings made in this visit, by spoon
	shelf   []model.Entry  // all powders, to take one from
	entry   model.Entry    // the profile being set up; its trials are left alone
	trial   model.Trial
	session *ui.Session // nothing is recorded at its revision 0
	said    string      // what the last key did
	ui.Form
}

// NewSetup starts with a powder from the shelf, or with a new one.
func NewSetup(deps ui.Deps, from *model.Entry, shelf []model.Entry) *setup {
	s := &setup{
		deps: deps, shelf: shelf, session: ui.NewSession(model.Entry{}, bench.NoTrial, deps.Drawer),
		fresh: map[string]int{}, trial: model.Trial{}.WithDefaults(model.Other),
	}
	s.trial.RestS = nil
	s.trial.Spoons = model.DefaultSpoons()
	s.entry.Profile.Powder.Family = model.Other
	s.Form = ui.Form{Fields: newFields(deps.Drawer.Names()), Hidden: s.needless, Apply: s.apply}
	if from != nil {
		s.use(*from)
	}
	s.fill()
	if from != nil {
		s.At = fieldWeighing
	}
	s.Focus()
	return s
}

// use sets up a trial of a powder, with the manner of its newest trial.
func (s *setup) use(e model.Entry) {
	s.entry = e
	p := e.Profile
	if i := p.Newest(); i >= 0 {
		s.trial = p.Trials[i].WithDefaults(p.Powder.Kind()).Again()
	}
	if s.entry.Slug == "" {
		p.Trials = nil // of a mix, which is not on the shelf yet: its one trial only showed the manner
	}
	s.entry.Profile = p
	s.session = ui.NewSession(s.entry, bench.NoTrial, s.deps.Drawer)
	s.entry.Profile = p.Clone()
	if len(p.LevelSpoons) > 0 {
		s.weighedSpoon(p.LevelSpoons[0].Spoon)
	}
}

// Session is the profile once something of it is recorded.
func (s *setup) Session() *ui.Session {
	if s.session.Revision() == 0 {
		return nil
	}
	return s.session
}

func (s *setup) Typing() bool { return true }

func (s *setup) Title() string {
	title := "Trial › set-up"
	if name := s.entry.Profile.Powder.Name; name != "" {
		title += "  " + printable.Line(s.entry.Profile.Powder.Title())
	}
	return title
}

func (s *setup) Keys() []key.Binding {
	k := setupKeys
	keys := []key.Binding{k.next, k.prev}
	switch f := &s.Fields[s.At]; {
	case s.At == fieldStart:
		keys[0] = ui.Bind("Enter", "begin the trial", "enter")
	case s.At == fieldWeighing:
		keys[0] = ui.Bind("Enter", "record; empty: next", "enter")
		keys = append(keys, k.back)
	case s.At == fieldHand:
		keys = append(keys, k.change, k.toggle)
	case len(f.Options) > 0:
		keys = append(keys, k.change)
	}
	if s.At == fieldName && len(s.matches()) > 0 {
		keys = append(keys, k.take)
	}
	return append(keys, k.begin, k.leave)
}

func (s *setup) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	if m, ok := msg.(tea.KeyMsg); ok {
		return s.key(m)
	}
	return s, nil
}

func (s *setup) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := setupKeys
	if msg.Paste {
		s.typed(msg)
		return s, nil
	}
	switch {
	case key.Matches(msg, k.leave):
		return ui.OpenShelf{Left: s.Session()}, nil
	case key.Matches(msg, k.begin):
		return s.begin()
	case key.Matches(msg, k.next):
		if s.At == fieldStart {
			return s.begin()
		}
		s.next(msg.String() == "enter")
	case key.Matches(msg, k.prev):
		if s.leaveField() {
			s.Move(-1)
		}
	case key.Matches(msg, k.take) && s.At == fieldName:
		if m := s.matches(); len(m) > 0 {
			s.use(m[0])
			s.fill()
			s.At = fieldWeighing
			s.Focus()
		}
	default:
		s.typed(msg)
	}
	return s, nil
}

// next leaves the field for the one below; Enter in the weighing field
// records what is typed there instead.
func (s *setup) next(enter bool) {
	typed := strings.TrimSpace(s.Fields[fieldWeighing].Input.Value()) != ""
	if s.At == fieldWeighing && enter && typed {
		s.recordWeighing()
		return
	}
	if s.leaveField() {
		s.Move(1)
	}
}

// leaveField takes the field. What names the powder is on the shelf at once
// when the powder is.
func (s *setup) leaveField() bool {
	ok := s.Form.LeaveField()
	if !ok || s.Session() == nil || s.At > fieldFamily {
		return ok
	}
	if err := s.record(); err != nil {
		s.Problem = err.Error()
		return false
	}
	return true
}

// typed gives a key to the field: the spoons at hand and the weighings have
// ways of their own.
func (s *setup) typed(msg tea.KeyMsg) {
	s.Problem, s.said = "", ""
	switch {
	case s.At == fieldHand:
		s.hand(msg)
	case s.At == fieldWeighing && key.Matches(msg, setupKeys.back):
		s.takeBackWeighing()
	default:
		s.Form.Press(msg)
	}
}

// hand moves among the spoons and says which are at hand.
func (s *setup) hand(msg tea.KeyMsg) {
	f := &s.Fields[fieldHand]
	names := s.deps.Drawer.Names()
	f.Pick = (f.Pick + ui.Arrow(msg) + len(names)) % len(names)
	if key.Matches(msg, setupKeys.toggle) {
		s.trial.Spoons = toggled(s.trial.Spoons, names[f.Pick], names)
		s.suggest()
	}
}

// matches lists the powders on the shelf whose name begins as typed.
func (s *setup) matches() []model.Entry {
	typed := strings.ToLower(strings.TrimSpace(s.Fields[fieldName].Input.Value()))
	if typed == "" || s.entry.Slug != "" || s.Session() != nil {
		return nil // what is on the shelf already stays what it is
	}
	var found []model.Entry
	for _, e := range s.shelf {
		if strings.HasPrefix(strings.ToLower(e.Profile.Powder.Name), typed) {
			found = append(found, e)
		}
	}
	return found
}

// begin records the trial and goes to the bench.
func (s *setup) begin() (ui.Next, tea.Cmd) {
	if !s.ApplyAll() {
		return s, nil
	}
	if s.entry.Profile.Powder.Name == "" {
		s.entry.Profile.Powder.Name = "Powder of " + s.deps.Now().Format("2006-01-02")
	}
	if _, ok := s.trial.Density(); !ok && s.trial.LiquidBy == model.BySpoon {
		s.Complain(fieldDensity, fmt.Errorf("a spoon of %s has no weight without its density", s.trial.Liquid))
		return s, nil
	}
	t := s.trial.Clone()
	t.Started = s.deps.Now()
	if !s.sound(t) {
		return s, nil
	}
	err := s.record()
	if err == nil {
		err = s.session.Begin(t)
	}
	if err != nil {
		s.Problem = err.Error()
		return s, nil
	}
	return newBench(s.deps, s.session)
}

// sound reports whether the shelf will take the profile with the trial; else
// the cursor goes to the field that it will not take.
func (s *setup) sound(t model.Trial) bool {
	p := s.entry.Profile.Clone()
	p.Trials = append(p.Trials, t)
	problems := bench.Check(p, s.deps.Drawer)
	if len(problems) == 0 {
		return true
	}
	_, name, _ := strings.Cut(problems[0].Path, ".")
	at, ok := fieldOf[name]
	if !ok {
		at = fieldStart
	}
	s.Complain(at, fmt.Errorf("%s; %s", problems[0].What, problems[0].Fix))
	return false
}

// fieldOf is the field behind a key of the file.
var fieldOf = map[string]int{
	"name": fieldName, "lot": fieldLot, "family": fieldFamily,
	"grams": fieldWeighing, "spoons_each": fieldEach, "resolution_g": fieldScale, "spoon": fieldSpoon,
	"liquid": fieldLiquid, "liquid_g": fieldAmount, "liquid_spoon": fieldAmount, "liquid_count": fieldAmount,
	"liquid_density": fieldDensity, "temperature_c": fieldTemperature, "spoons": fieldHand, "rest_s": fieldRest,
}

// record puts the powder and its weighings as they stand into the session, to
// be saved.
func (s *setup) record() error {
	return s.session.Edit("set-up", func(p *model.Profile, _ *model.Trial) {
		typed := s.entry.Profile.Clone()
		p.Powder, p.LevelSpoons = typed.Powder, typed.LevelSpoons
	})
}

// toggled adds or removes a name, in the order of all.
func toggled(have []string, name string, all []string) []string {
	var out []string
	for _, n := range all {
		if had := slices.Contains(have, n); had != (n == name) {
			out = append(out, n)
		}
	}
	return out
}
