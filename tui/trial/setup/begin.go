package setup

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/tui/trial"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// begin records the trial and goes to the bench.
func (s *screen) begin() (ui.Next, tea.Cmd) {
	for i := range s.Fields { // a field of the other stop may be wrong: its stop opens
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
	if s.method == bench.ByEach {
		t.Spoons = nil
	}
	if s.method != bench.ByPot {
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
	if len(s.fresh) > 0 {
		s.session.CautionsOnce(care.BeforeDust) // the first weighing has told it
	}
	return trial.NewBench(s.deps, s.session)
}

// goTo puts the cursor on a field, at either stop, and says what is wrong there.
func (s *screen) goTo(field int, err error) {
	s.stop = stopMass
	if field <= fieldFamily {
		s.stop = stopPowder
	}
	if s.hidden(field) {
		s.more = true
	}
	s.Complain(field, err)
}

// sound reports whether the shelf accepts the profile with the trial. If not, the
// cursor goes to the field that is refused.
func (s *screen) sound(t model.Trial) bool {
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

// fieldOf gives the field for a key of the file.
var fieldOf = map[string]int{
	"name": fieldName, "lot": fieldLot, "family": fieldFamily, "pot_g": fieldPot,
	"grams": fieldWeighing, "spoons_each": fieldEach, "resolution_g": fieldScale, "spoon": fieldSpoon,
	"liquid": fieldLiquid, "liquid_g": fieldAmount, "liquid_spoon": fieldAmount, "liquid_count": fieldAmount,
	"liquid_density": fieldDensity, "temperature_c": fieldTemperature, "spoons": fieldHand, "rest_s": fieldRest,
}

// record puts the powder and its weighings into the session, to be saved.
func (s *screen) record() error {
	return s.session.Edit("set-up", func(p *model.Profile, _ *model.Trial) {
		typed := s.entry.Profile.Clone()
		p.Powder, p.LevelSpoons = typed.Powder, typed.LevelSpoons
	})
}
