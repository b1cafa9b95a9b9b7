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
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// setup is the first part of a trial, in two stops: which powder it is, and how
// much is known by mass. All else has good defaults and stands behind one key.
//
// What is typed becomes part of the profile when its field is left; the first
// weighing puts the profile on the shelf, so that no weighing is ever lost.
type setup struct {
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
	session *ui.Session // nothing is recorded at its revision 0
	said    string      // what the last key did
	begun   bool        // the trial was begun: nothing here is to be taken up again
	ui.Form
}

// stop is one of the two stops on the way to the bench.
type stop int

const (
	stopPowder stop = iota
	stopMass
)

// method is what is known by mass.
type method int

const (
	byPot method = iota
	bySpoons
	byEach
)

// NewSetup starts with a powder from the shelf, or with a new one. draft is the
// set-up that was left last, if any: where it is of the same powder, what was
// typed there is still there.
func NewSetup(deps ui.Deps, from *model.Entry, shelf []model.Entry, draft ui.Draft) *setup {
	left, _ := draft.(*setup)
	if left != nil && left.begun {
		left = nil
	}
	if from == nil && left != nil && left.session.Entry().Slug == "" {
		left.deps, left.shelf = deps, shelf
		return left
	}
	s := &setup{
		deps: deps, shelf: shelf, session: ui.NewSession(model.Entry{}, bench.NoTrial, deps.OwnSpoons),
		fresh: map[string]int{}, pick: -1, trial: model.Trial{}.WithDefaults(model.Other),
	}
	s.trial.RestS = nil
	s.trial.Spoons = model.DefaultSpoons()
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
func (s *setup) takeOver(left *setup) {
	s.trial, s.method, s.more = left.trial, left.method, left.more
	for i := fieldMethod; i < len(s.Fields); i++ {
		if i != fieldHand { // shows what the trial has
			s.Fields[i].Set(left.Fields[i].Input.Value())
			s.Fields[i].Touched = left.Fields[i].Touched
		}
	}
}

// use sets up a trial of a powder, with the manner of its newest trial.
func (s *setup) use(e model.Entry) {
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
		title += "  " + ui.Title(s.entry)
	}
	return title
}

func (s *setup) Keys() []key.Binding {
	k := setupKeys
	var keys []key.Binding
	switch f := &s.Fields[s.At]; {
	case s.lastField():
		keys = []key.Binding{ui.Bind("Enter", "to the bench", "enter"), k.prev}
	case s.At == fieldWeighing:
		keys = []key.Binding{
			ui.Bind("Enter", "record; empty: next", "enter"), k.prev,
			ui.Bind("←→", "pick one to mend", "left", "right"), k.back,
		}
	case s.At == fieldHand:
		keys = []key.Binding{k.next, k.prev, k.change, k.toggle}
	case len(f.Options) > 0:
		keys = []key.Binding{k.next, k.prev, k.change}
	default:
		keys = []key.Binding{k.next, k.prev}
	}
	switch {
	case s.stop == stopMass && s.more:
		keys = append(keys, ui.Bind("Tab", "fewer settings", "tab"))
	case s.stop == stopMass:
		keys = append(keys, ui.Bind("Tab", "more settings", "tab"))
	case s.At == fieldName && len(s.matches()) > 0:
		keys = append(keys, k.take)
	}
	leave := k.leave
	if s.stop == stopMass {
		leave = ui.Bind("Esc", "back one stop", "esc")
	}
	return append(keys, k.begin, leave)
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
		if s.stop == stopMass {
			s.toStop(stopPowder)
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

// lastField reports whether the cursor is on the field from which Enter begins
// the trial.
func (s *setup) lastField() bool {
	return s.stop == stopMass && (s.At == fieldStart || s.At == fieldAmount && !s.more)
}

// toStop goes to a stop's first field.
func (s *setup) toStop(to stop) {
	s.stop, s.Problem, s.said = to, "", ""
	s.At = fieldName
	if to == stopMass {
		s.At = fieldMethod
	}
	s.Focus()
}

// toggleMore shows or hides the settings that have defaults.
func (s *setup) toggleMore() {
	if !s.leaveField() {
		return
	}
	s.more = !s.more
	switch {
	case s.more:
		s.At = fieldAim
	case s.hidden(s.At):
		s.At = fieldAmount
	}
	s.Focus()
}

// next leaves the field for the one below; Enter in the weighing field
// records what is typed there instead.
func (s *setup) next(enter bool) {
	typed := strings.TrimSpace(s.Fields[fieldWeighing].Input.Value()) != ""
	if s.At == fieldWeighing && enter && typed {
		s.recordWeighing()
		return
	}
	if !s.leaveField() {
		return
	}
	if s.stop == stopPowder && s.At == fieldFamily {
		if enter {
			s.toStop(stopMass)
		}
		return
	}
	s.Move(1)
}

// up goes to the field above, and from the first of the second stop to the
// first stop.
func (s *setup) up() {
	before := s.At
	s.Move(-1)
	if s.At == before && s.stop == stopMass {
		s.toStop(stopPowder)
		s.At = fieldFamily
		s.Focus()
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

// typed gives a key to the field: some have ways of their own.
func (s *setup) typed(msg tea.KeyMsg) {
	s.Problem, s.said = "", ""
	switch {
	case s.At == fieldHand:
		s.hand(msg)
	case s.At == fieldWeighing && key.Matches(msg, setupKeys.back):
		s.takeBackWeighing()
	case s.At == fieldWeighing && ui.Arrow(msg) != 0 && s.pickable():
		s.pickWeighing(ui.Arrow(msg))
	case s.At == fieldFamily && msg.Type == tea.KeyRunes:
		s.jump(string(msg.Runes))
	case s.At == fieldMethod && msg.Type == tea.KeyRunes:
		if at := strings.Index("123", string(msg.Runes)); at >= 0 && len(msg.Runes) == 1 {
			s.chooseMethod(method(at))
		}
	default:
		s.Form.Press(msg)
	}
}

// jump takes the next option of the field that begins with a letter.
func (s *setup) jump(letter string) {
	f := &s.Fields[s.At]
	n := len(f.Options)
	for i := 1; i <= n; i++ {
		at := (f.Pick + i) % n
		if strings.HasPrefix(strings.ToLower(f.Options[at]), strings.ToLower(letter)) {
			f.Set(f.Options[at])
			f.Touched = true
			_ = s.apply(s.At)
			return
		}
	}
}

// hand moves among the spoons and says which are at hand.
func (s *setup) hand(msg tea.KeyMsg) {
	f := &s.Fields[fieldHand]
	names := s.deps.OwnSpoons.Names()
	f.Pick = (f.Pick + ui.Arrow(msg) + len(names)) % len(names)
	if key.Matches(msg, setupKeys.toggle) {
		s.trial.Spoons = toggled(s.trial.Spoons, names[f.Pick], names)
		s.suggest()
	}
}

// matches lists the powders on the shelf whose name begins as typed.
func (s *setup) matches() []model.Entry {
	typed := strings.ToLower(strings.TrimSpace(s.Fields[fieldName].Input.Value()))
	if s.entry.Slug != "" || s.Session() != nil {
		return nil // what is on the shelf already stays what it is
	}
	var found []model.Entry
	for _, e := range s.shelf {
		if typed != "" && strings.HasPrefix(strings.ToLower(e.Profile.Powder.Name), typed) {
			found = append(found, e)
		}
	}
	return found
}

// begin records the trial and goes to the bench.
func (s *setup) begin() (ui.Next, tea.Cmd) {
	for i := range s.Fields { // a slip in what another stop asks for is shown there
		if s.needless(i) {
			continue
		}
		if err := s.apply(i); err != nil {
			s.goTo(i, err)
			return s, nil
		}
	}
	s.named()
	if _, ok := s.trial.Density(); !ok && s.trial.LiquidBy == model.BySpoon {
		s.goTo(fieldDensity, fmt.Errorf("a spoon of %s has no weight without its density", s.trial.Liquid))
		return s, nil
	}
	t := s.trial.Clone()
	t.Started = s.deps.Now()
	if s.method == byEach {
		t.Spoons = nil
	}
	if s.method != byPot {
		t.PotG = 0
	}
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
	s.begun = true
	s.session.Steer(repeats.Steering(s.session.Powder(), profilesOf(s.shelf), s.deps.OwnSpoons))
	return newBench(s.deps, s.session)
}

func profilesOf(entries []model.Entry) []model.Profile {
	out := make([]model.Profile, len(entries))
	for i, e := range entries {
		out[i] = e.Profile
	}
	return out
}

// goTo puts the cursor on a field wherever it stands, and says what is wrong
// there.
func (s *setup) goTo(field int, err error) {
	s.stop = stopMass
	if field <= fieldFamily {
		s.stop = stopPowder
	}
	if s.hidden(field) {
		s.more = true
	}
	s.Complain(field, err)
}

// sound reports whether the shelf will take the profile with the trial; else
// the cursor goes to the field that it will not take.
func (s *setup) sound(t model.Trial) bool {
	p := s.entry.Profile.Clone()
	p.Trials = append(p.Trials, t)
	problems := bench.Check(p, s.deps.OwnSpoons)
	if len(problems) == 0 {
		return true
	}
	_, name, _ := strings.Cut(problems[0].Path, ".")
	at, ok := fieldOf[name]
	if !ok {
		at = fieldAmount
	}
	s.goTo(at, fmt.Errorf("%s; %s", problems[0].What, problems[0].Fix))
	return false
}

// fieldOf is the field behind a key of the file.
var fieldOf = map[string]int{
	"name": fieldName, "lot": fieldLot, "family": fieldFamily, "pot_g": fieldPot,
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
