package bench

import (
	"errors"
	"fmt"
	"maps"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// NoTrial is the trial of an editor whose powder is still being set up.
const NoTrial = -1

// Editor is one trial being made, and the one owner of its profile: every change of either
// goes through it. It refuses a change that the shelf would not save, or that leaves a step
// which cannot be calculated. The error says why; nothing has changed then. It has no
// clock: the time comes with the change.
//
// No state that it gave out is ever changed, so that one can be saved while the next is
// being made.
type Editor struct {
	profile   model.Profile
	trial     int // index of the trial being made, or NoTrial
	ownSpoons model.OwnSpoons
	steer     Steering // nil: by the powder's family

	past, future []delta

	revision int
	outcome  Outcome
}

// NewEditor opens a profile at one of its trials, or at NoTrial. Spoons of the maker's own
// come from own. The profile must not be changed any more.
func NewEditor(p model.Profile, trial int, own model.OwnSpoons) *Editor {
	e := &Editor{profile: p, ownSpoons: own}
	e.GoTo(trial)
	return e
}

// Profile gives the profile as it stands. It shares its parts with the editor: clone it
// before changing it.
func (e *Editor) Profile() model.Profile { return e.profile }

// Powder gives the powder being worked on.
func (e *Editor) Powder() model.Powder { return e.profile.Powder }

// Index gives the index of the trial in its profile, or NoTrial.
func (e *Editor) Index() int { return e.trial }

// Trial gives the trial being made, with defaults filled in. There must be one.
func (e *Editor) Trial() model.Trial {
	return e.profile.Trials[e.trial].WithDefaults(e.profile.Powder.Kind())
}

// Last gives a copy of the last step; nil before the first.
func (e *Editor) Last() *model.Step {
	steps := e.profile.Trials[e.trial].Steps
	if len(steps) == 0 {
		return nil
	}
	last := steps[len(steps)-1].Clone()
	return &last
}

// AwaitsLook reports whether the last step waits for its look.
func (e *Editor) AwaitsLook() bool {
	last := e.Last()
	return last != nil && !last.Looked && last.Reading == 0 && e.outcome.Dish().Mixed()
}

// Outcome returns the answer of the trial as it stands.
func (e *Editor) Outcome() Outcome { return e.outcome }

// Revision counts the changes, undone ones and the end of a trial among them. To see what
// is not saved yet, compare it with the revision that is on disk.
func (e *Editor) Revision() int { return e.revision }

// GoTo goes to another trial of the same profile, or to NoTrial.
func (e *Editor) GoTo(trial int) {
	e.trial, e.past, e.future, e.outcome = trial, nil, nil, Outcome{}
	if trial != NoTrial {
		e.outcome = outcomeOf(e.read(e.profile))
	}
}

// Steering gives the likely ratio at a trial's aim, from what a shelf knows of the powder;
// the zero value where it knows nothing. It steers the additions and never reaches an
// answer.
type Steering func(t model.Trial) fit.Expected

// Steer makes the advice follow what is known of the powder instead of its family; nil goes
// back to the family.
func (e *Editor) Steer(by Steering) {
	e.steer = by
	if e.trial != NoTrial {
		e.outcome = outcomeOf(e.read(e.profile))
	}
}

// read calculates the trial being made, in one state of the profile.
func (e *Editor) read(p model.Profile) (Reading, error) {
	r, err := Read(p, p.Trials[e.trial], e.ownSpoons)
	if e.steer != nil {
		r.Known = e.steer(r.Trial)
	}
	return r, err
}

// Begin adds a trial to the profile and opens it.
func (e *Editor) Begin(t model.Trial) error {
	next := e.profile
	next.Trials = append(slices.Clip(next.Trials), t.Clone())
	if err := e.sound(next); err != nil {
		return err
	}
	e.put(next)
	e.GoTo(len(next.Trials) - 1)
	return nil
}

// DropEmpty deletes a trial without a step: nothing was recorded in it. The editor is left
// without a trial then.
func (e *Editor) DropEmpty() {
	if t := e.profile.Trials[e.trial]; len(t.Steps) > 0 || t.SetAside != "" {
		return
	}
	next := e.profile
	next.Trials = slices.Delete(slices.Clone(next.Trials), e.trial, e.trial+1)
	e.put(next)
	e.GoTo(NoTrial)
}

// Edit makes any change of the profile and of the trial being made. Leave the other trials
// alone; without a trial being made, t is nil and any of them may be changed or deleted. A
// finished trial that is changed becomes unfinished. what names the change in a few words.
func (e *Editor) Edit(what string, change func(p *model.Profile, t *model.Trial)) error {
	return e.alter(Change{what, -1}, func(p *model.Profile, t *model.Trial) {
		change(p, t)
		if t != nil {
			t.State = model.Open
		}
	})
}

// alter makes a change: it refuses what cannot be calculated or saved, and keeps the rest
// for undo.
func (e *Editor) alter(c Change, change func(p *model.Profile, t *model.Trial)) error {
	next := e.draft()
	var t *model.Trial
	if e.trial != NoTrial {
		t = &next.Trials[e.trial]
	}
	change(&next, t)
	outcome := e.outcome
	if t != nil {
		reading, err := e.read(next)
		if err != nil && e.outcome.Err == nil {
			return reason(err, c.Step)
		}
		outcome = outcomeOf(reading, err)
	}
	if err := e.sound(next); err != nil {
		return err
	}
	d := e.difference(c, next)
	if d.empty() {
		return nil
	}
	e.past, e.future = append(e.past, d), nil
	e.put(e.with(d.at, len(d.before), d.after, d.is))
	if t != nil {
		e.profile.Trials[e.trial].State = t.State
	}
	e.outcome = outcome
	return nil
}

// reason says why a step cannot be calculated. The step that was being changed is not
// named; any other is.
func reason(err error, changed int) error {
	if at := new(StepError); errors.As(err, &at) && at.Step == changed {
		return at.Err
	}
	return err
}

// sound complains about a state that the shelf would not save. Where it would not save the
// state before either, any change may be a step towards mending.
func (e *Editor) sound(next model.Profile) error {
	problems := Check(next, e.ownSpoons)
	if len(problems) == 0 || len(Check(e.profile, e.ownSpoons)) > 0 {
		return nil
	}
	return fmt.Errorf("%s; %s", problems[0].What, problems[0].Fix)
}

// draft copies everything in the profile that an edit may change.
func (e *Editor) draft() model.Profile {
	p := e.profile
	p.LevelSpoons = slices.Clone(p.LevelSpoons)
	for i := range p.LevelSpoons {
		p.LevelSpoons[i].Grams = slices.Clone(p.LevelSpoons[i].Grams)
	}
	p.Reserved = maps.Clone(p.Reserved)
	p.Trials = slices.Clone(p.Trials)
	if e.trial != NoTrial {
		p.Trials[e.trial] = p.Trials[e.trial].Clone()
	}
	return p
}

// put makes p the profile and counts the change.
func (e *Editor) put(p model.Profile) {
	e.profile = p
	e.revision++
}

// Finish ends the trial: it counts for the powder from then on. Without a look that counts
// there is nothing to finish. Undo does not take it as a change of its own.
func (e *Editor) Finish() error {
	if e.outcome.Reading.Looks() == 0 && !e.Trial().HasReading() {
		return errors.New("nothing to finish yet: no look that counts has been made")
	}
	e.setState(model.Done)
	return nil
}

// setState sets the state of the trial being made, without undo.
func (e *Editor) setState(s model.State) {
	if e.profile.Trials[e.trial].State == s {
		return
	}
	next := e.profile
	next.Trials = slices.Clone(next.Trials)
	next.Trials[e.trial].State = s
	e.put(next)
	e.outcome.Reading.Profile = next
	e.outcome.Reading.Trial.State = s
}

// Outcome holds the answer of a trial, worked out once after a change and shown in several
// places.
type Outcome struct {
	Reading Reading
	Err     error     // the step that cannot be calculated, a *StepError; the reading holds what came before it
	Levels  []float64 // CurveLevels
	Curve   []Answer  // one a level
	FarOut  []int     // steps whose look sits far from where the others put it
	Advice  *Advice   // what to do next; nil where nothing can be said
}

// outcomeOf works out the answer of a reading; err comes from Read.
func outcomeOf(r Reading, err error) Outcome {
	o := Outcome{Reading: r, Err: err, Levels: model.CurveLevels()}
	o.Curve = r.Answers(o.Levels)
	o.FarOut = r.FarOut()
	if advice, ok := r.Advice(); ok && err == nil {
		o.Advice = &advice
	}
	return o
}

// Dish returns the contents of the dish now.
func (o Outcome) Dish() Dish { return o.Reading.Dish() }

// Answer returns the ratio of the trial at a level from 1 to 6.
func (o Outcome) Answer(level float64) Answer {
	for i, l := range o.Levels {
		if l == level {
			return o.Curve[i]
		}
	}
	return o.Reading.At(level)
}
