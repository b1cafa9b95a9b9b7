package bench

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"daub.example/daub/model"
)

// errNoAcid is the error for a pH before its acid test.
var errNoAcid = errors.New("no acid test is begun: say the acid and the grams of paste first")

// Measures says what the trial measures beside or instead of levels, and how.
func (e *Editor) Measures(m model.Measured) error {
	return e.Edit("measuring "+m.Words(), func(_ *model.Profile, t *model.Trial) { t.Measured = &m })
}

// MeasureAfter records a reading after the last step, in the unit of the trial's kind, with
// the rest in seconds, nil where it is not known. Where the step has a reading already, the
// same dish is measured again now, as a step of its own.
func (e *Editor) MeasureAfter(reading float64, rested *int, now time.Time) error {
	last := e.Last()
	if last == nil {
		return errNoStep
	}
	if m := e.Trial().Measured; m != nil && last.Reading > 0 {
		return e.Add(now, model.Step{Add: model.AddNone, Reading: reading})
	}
	return e.measure(len(e.stepsOf(e.profile))-1, reading, func(s *model.Step) {
		if !s.Looked {
			s.RestedS = rested
		}
	})
}

// MendReading changes the reading after a step, counted from 0; 0 deletes it.
func (e *Editor) MendReading(step int, reading float64) error {
	return e.measure(step, reading, func(*model.Step) {})
}

// measure records the reading of a step, and changes the step further by also.
func (e *Editor) measure(step int, reading float64, also func(*model.Step)) error {
	m := e.Trial().Measured
	switch {
	case m == nil:
		return errors.New("the trial does not say what is measured: spread, slump, cone, drain or blows")
	case !e.has(step):
		return e.noStep(step)
	}
	what := "reading of " + m.Text(reading)
	if was := e.stepsOf(e.profile)[step].Reading; was > 0 && reading == 0 {
		what = fmt.Sprintf("mending of step %d: reading of %s deleted", step+1, m.Text(was))
	} else if was > 0 {
		what = fmt.Sprintf("mending of step %d: reading of %s to %s", step+1, m.Text(was), m.Text(reading))
	}
	return e.mend(what, step, func(s *model.Step) {
		s.Reading = reading
		also(s)
	})
}

// BeginAcid starts an acid test or changes its setting; readings made before stay. Like
// every change of the acid test it leaves a finished trial finished: its looks are
// unchanged.
func (e *Editor) BeginAcid(a model.AcidTest) error {
	if t := e.Trial(); t.Acid != nil {
		a.Steps = t.Acid.Clone().Steps
	}
	return e.acid("acid test with "+a.Acid, a)
}

// AddAcid records a pH and the acid before it.
func (e *Editor) AddAcid(s model.AcidStep) error {
	if e.Trial().Acid == nil {
		return errNoAcid
	}
	a := e.Trial().Acid.Clone()
	a.Steps = append(a.Steps, s)
	return e.acid(fmt.Sprintf("pH %s after %s", model.Number(s.PH), s.Text()), a)
}

// MendAcid replaces one of the readings, counted from 0.
func (e *Editor) MendAcid(n int, s model.AcidStep) error {
	return e.alterAcid(fmt.Sprintf("mending of pH %d", n+1), n, func(a *model.AcidTest) {
		s.At = a.Steps[n].At
		a.Steps[n] = s
	})
}

// DeleteAcid deletes one of the readings, counted from 0, with the acid before it.
func (e *Editor) DeleteAcid(n int) error {
	return e.alterAcid(fmt.Sprintf("removal of pH %d", n+1), n, func(a *model.AcidTest) {
		a.Steps = slices.Delete(a.Steps, n, n+1)
	})
}

// EndAcid deletes the acid test with all its readings.
func (e *Editor) EndAcid() error {
	if e.Trial().Acid == nil {
		return errNoAcid
	}
	return e.after("removal of the acid test", func(t *model.Trial) { t.Acid = nil })
}

// Fizzes records whether the powder was seen to fizz with acid.
func (e *Editor) Fizzes(seen bool) error {
	what := "that it does not fizz"
	if seen {
		what = "that it fizzes"
	}
	return e.alter(Change{what, -1}, func(p *model.Profile, _ *model.Trial) { p.Powder.Fizzes = &seen })
}

// alterAcid changes the reading n of the acid test, from 0.
func (e *Editor) alterAcid(what string, n int, change func(a *model.AcidTest)) error {
	was := e.Trial().Acid
	switch {
	case was == nil:
		return errNoAcid
	case n < 0 || n >= len(was.Steps):
		return errors.New("there is no such pH")
	}
	is := was.Clone()
	change(&is)
	return e.acid(what, is)
}

// acid saves an acid test in which every drop has a weight.
func (e *Editor) acid(what string, a model.AcidTest) error {
	drops := func(s model.AcidStep) bool { return s.Drops > 0 && s.Grams == 0 }
	if a.DropG == 0 && slices.ContainsFunc(a.Steps, drops) {
		return errors.New("a drop has no weight yet: weigh twenty drops, and give a twentieth of that as its weight")
	}
	return e.after(what, func(t *model.Trial) { t.Acid = &a })
}
