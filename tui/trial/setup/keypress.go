package setup

import (
	"slices"
	"strings"

	"daub.example/daub/model/bench"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// lastField reports whether Enter in this field begins the trial.
func (s *screen) lastField() bool {
	return s.stop == stopMass && (s.At == fieldStart || s.At == fieldAmount && !s.more)
}

// toStop goes to the first field of a stop.
func (s *screen) toStop(to stop) {
	s.stop, s.Problem, s.said = to, "", ""
	s.At = fieldName
	if to == stopMass {
		s.At = fieldMethod
	}
	s.Focus()
}

// toggleMore shows or hides the settings with defaults.
func (s *screen) toggleMore() {
	if !s.leaveField() {
		return
	}
	s.more = !s.more
	switch {
	case s.more:
		for s.At = fieldAim; s.hidden(s.At); s.At++ {
		}
	case s.hidden(s.At):
		s.At = fieldAmount
	}
	s.Focus()
}

// next goes to the field below. In the weighing field Enter records a typed
// weighing instead.
func (s *screen) next(enter bool) {
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

// up goes to the field above. From the first field of the second stop it goes to
// the first stop.
func (s *screen) up() {
	before := s.At
	s.Move(-1)
	if s.At == before && s.stop == stopMass {
		s.backToPowder()
	}
}

// backToPowder returns to the last field of the first stop, if the set-up began
// there.
func (s *screen) backToPowder() {
	s.toStop(stopPowder)
	s.At = fieldFamily
	s.Focus()
}

// leaveField applies the field. If the powder is on the shelf, a new name, lot or
// family is saved at once.
func (s *screen) leaveField() bool {
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

// typed hands a key to the field; some fields use keys in their own way.
func (s *screen) typed(msg tea.KeyMsg) {
	s.Problem, s.said = "", ""
	switch {
	case s.At == fieldHand:
		s.hand(msg)
	case s.At == fieldWeighing && key.Matches(msg, keys.back):
		s.deleteWeighing()
	case s.At == fieldWeighing && ui.Arrow(msg) != 0 && s.pickable():
		s.pickWeighing(ui.Arrow(msg))
	case s.At == fieldFamily && msg.Type == tea.KeyRunes:
		s.jump(string(msg.Runes))
	case s.At == fieldMethod && msg.Type == tea.KeyRunes:
		if at := strings.Index("123", string(msg.Runes)); at >= 0 && len(msg.Runes) == 1 {
			s.chooseMethod(bench.Method(at))
			s.Move(1)
		}
	default:
		s.Form.Press(msg)
	}
}

// jump goes to the field's next option that begins with a letter.
func (s *screen) jump(letter string) {
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

// hand moves among the spoons and marks those at hand.
func (s *screen) hand(msg tea.KeyMsg) {
	f := &s.Fields[fieldHand]
	names := s.deps.OwnSpoons.Names()
	f.Pick = (f.Pick + ui.Arrow(msg) + len(names)) % len(names)
	if key.Matches(msg, keys.toggle) {
		s.trial.Spoons = toggled(s.trial.Spoons, names[f.Pick], names)
		s.suggest()
	}
}

// toggled adds or removes a name, keeping the order of all.
func toggled(have []string, name string, all []string) []string {
	var out []string
	for _, n := range all {
		if had := slices.Contains(have, n); had != (n == name) {
			out = append(out, n)
		}
	}
	return out
}
