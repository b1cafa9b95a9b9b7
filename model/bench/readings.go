package bench

import (
	"errors"
	"fmt"

	"daub.example/daub/model"
)

// Measure records what was measured after the last step, beside or instead of a
// look, in the unit of the trial's kind of reading; 0 takes it away.
func (e *Editor) Measure(reading float64) error {
	m := e.Trial().Measured
	if m == nil {
		return errors.New("the trial does not say what is measured: spread, slump, cone, drain or blows")
	}
	return e.mend(
		"reading of "+m.Text(reading),
		len(e.stepsOf(e.profile))-1,
		func(s *model.Step) { s.Reading = reading },
	)
}

// BeginAcid says which acid goes into how much of the paste; readings made before
// stay.
func (e *Editor) BeginAcid(a model.AcidTest) error {
	return e.alter(Change{"acid test with " + a.Acid, -1}, func(_ *model.Profile, t *model.Trial) {
		if t.Acid != nil {
			a.Steps = t.Acid.Steps
		}
		t.Acid = &a
	})
}

// AddAcid records a pH and the acid before it. It leaves a finished trial
// finished: the looks are what they were.
func (e *Editor) AddAcid(s model.AcidStep) error {
	acid := e.Trial().Acid
	if acid == nil {
		return errors.New("no acid test is begun: say the acid and the grams of paste first")
	}
	if s.Drops > 0 && acid.DropG == 0 {
		return errors.New(
			"a drop has no weight yet: weigh twenty drops, and begin again with drop 0.05 g or what it is",
		)
	}
	return e.alter(Change{fmt.Sprintf("pH %s", model.Number(s.PH)), -1}, func(_ *model.Profile, t *model.Trial) {
		next := t.Acid.Clone()
		next.Steps = append(next.Steps, s)
		t.Acid = &next
	})
}

// UndoAcid takes the last pH back; without one, the acid test.
func (e *Editor) UndoAcid() {
	_ = e.alter(Change{"taking back of a pH", -1}, func(_ *model.Profile, t *model.Trial) {
		if t.Acid == nil || len(t.Acid.Steps) == 0 {
			t.Acid = nil
			return
		}
		next := t.Acid.Clone()
		next.Steps = next.Steps[:len(next.Steps)-1]
		t.Acid = &next
	})
}
