package bench

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
)

var (
	errNoStep   = errors.New("no step yet: add something first")
	errNotMixed = errors.New("nothing to look at yet: the dish needs both powder and liquid")
)

// Add appends steps made at the given time, as one change.
func (e *Editor) Add(at time.Time, steps ...model.Step) error {
	steps = slices.Clone(steps)
	var words []string
	for i := range steps {
		steps[i].At = at
		words = append(words, steps[i].In(e.Trial().Liquid))
	}
	n := len(e.stepsOf(e.profile))
	return e.altered(strings.Join(words, " and "), n,
		func(_ *model.Profile, t *model.Trial) { t.Steps = append(t.Steps, steps...) })
}

// ByScale returns the grams added, to the scale's resolution. shown is the present reading
// of the scale, tared with the empty dish.
func (e *Editor) ByScale(shown float64) (grams float64, err error) {
	held := e.outcome.Dish().PasteG()
	if shown <= held {
		return 0, fmt.Errorf("the scale shows no more than the dish held (%s g)", model.Grams(held))
	}
	return e.outcome.Reading.weighable(shown - held), nil
}

// LookAgain adds a step at which the same dish is looked at again.
func (e *Editor) LookAgain(at time.Time) error {
	if !e.outcome.Dish().Mixed() {
		return errNotMixed
	}
	return e.Add(at, model.Step{Add: model.AddNone})
}

// LookAfter records the level of the last step's dish after a rest of so many seconds, nil
// where it is not known.
func (e *Editor) LookAfter(level float64, restedS *int) error {
	return e.mend("level "+model.LevelName(level), len(e.stepsOf(e.profile))-1, func(s *model.Step) {
		s.Looked, s.Level, s.Beside, s.RestedS = true, level, "", restedS
	})
}

// UseLook says whether the look of a step, counted from 0, counts for the answer. One that
// does not is kept and shown.
func (e *Editor) UseLook(step int, use bool) error {
	if !e.has(step) {
		return e.noStep(step)
	}
	if s := e.stepsOf(e.profile)[step]; !s.Looked && s.Reading == 0 {
		return errors.New("nothing was read at this step")
	}
	what := fmt.Sprintf("leaving out of look %d", step+1)
	if use {
		what = fmt.Sprintf("use of look %d", step+1)
	}
	return e.mend(what, step, func(s *model.Step) { s.LeftOut = !use })
}

// Mend changes one of the steps, counted from 0.
func (e *Editor) Mend(step int, change func(s *model.Step)) error {
	if !e.has(step) {
		return e.noStep(step)
	}
	was := e.stepsOf(e.profile)[step].Clone()
	is := was.Clone()
	change(&is)
	return e.mend(mendingOf(step, was, is, e.Trial().Liquid), step, change)
}

// mendingOf says what was changed in a step.
func mendingOf(step int, was, is model.Step, liquid string) string {
	what := fmt.Sprintf("mending of step %d", step+1)
	switch {
	case was.In(liquid) != is.In(liquid):
		return what + ": " + was.In(liquid) + " to " + is.In(liquid)
	case was.Looked && is.Looked && was.LookText() != is.LookText():
		return what + ": " + was.ShortLook() + " to " + is.ShortLook()
	case was.Looked && !is.Looked:
		return what + ": " + was.ShortLook() + " deleted"
	case is.Looked && !was.Looked:
		return what + ": " + is.ShortLook()
	default:
		return what
	}
}

// InsertStep inserts a forgotten step before one of the steps, counted from 0, at the time
// of the one before it.
func (e *Editor) InsertStep(step int, s model.Step) error {
	if !e.has(step) {
		return e.noStep(step)
	}
	s.At = e.stepsOf(e.profile)[max(step-1, 0)].At
	what := fmt.Sprintf("%s inserted as step %d", s.In(e.Trial().Liquid), step+1)
	return e.altered(what, step, func(_ *model.Profile, t *model.Trial) { t.Steps = slices.Insert(t.Steps, step, s) })
}

// DeleteStep deletes one of the steps, counted from 0.
func (e *Editor) DeleteStep(step int) error {
	if !e.has(step) {
		return e.noStep(step)
	}
	gone := e.stepsOf(e.profile)[step].In(e.Trial().Liquid)
	what := fmt.Sprintf("removal of step %d, %s", step+1, gone)
	return e.altered(what, step,
		func(_ *model.Profile, t *model.Trial) { t.Steps = slices.Delete(t.Steps, step, step+1) })
}

// SetMarks gives a step, counted from 0, these marks and no others, in the order of Marks.
func (e *Editor) SetMarks(step int, marks []string) error {
	return e.mend(fmt.Sprintf("behaviour of step %d", step+1), step, func(s *model.Step) {
		s.Marks = nil
		for _, m := range model.Marks() {
			if slices.Contains(marks, m) {
				s.Marks = append(s.Marks, m)
			}
		}
	})
}

// Note gives a step, counted from 0, a note; "" deletes it.
func (e *Editor) Note(step int, text string) error {
	return e.mend(fmt.Sprintf("note to step %d", step+1), step, func(s *model.Step) { s.Note = text })
}

// SetAside keeps the trial out of use for a reason; "" uses it again. It does not change
// whether the trial is finished.
func (e *Editor) SetAside(reason string) error {
	what := "setting aside"
	if reason == "" {
		what = "use of the trial"
	}
	return e.alter(Change{what, -1}, func(_ *model.Profile, t *model.Trial) { t.SetAside = reason })
}

// mend changes one step as one change.
func (e *Editor) mend(what string, step int, change func(s *model.Step)) error {
	if !e.has(step) {
		return e.noStep(step)
	}
	return e.altered(what, step, func(_ *model.Profile, t *model.Trial) { change(&t.Steps[step]) })
}

// has reports whether there is such a step, counted from 0.
func (e *Editor) has(step int) bool { return step >= 0 && step < len(e.stepsOf(e.profile)) }

// noStep is the error for a step that does not exist, counted from 0.
func (e *Editor) noStep(step int) error {
	n := len(e.stepsOf(e.profile))
	if n == 0 {
		return errNoStep
	}
	return fmt.Errorf("there is no step %d: the last is step %d", step+1, n)
}

// altered is Edit for a change that is about one step.
func (e *Editor) altered(what string, step int, change func(p *model.Profile, t *model.Trial)) error {
	return e.alter(Change{what, step}, func(p *model.Profile, t *model.Trial) {
		change(p, t)
		t.State = model.Open
	})
}
