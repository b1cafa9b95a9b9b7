package bench

import (
	"fmt"
	"reflect"
	"slices"

	"daub.example/daub/model"
)

// Change is one change of a trial or its powder, for saying what was undone.
type Change struct {
	What string // in a few words: "2 × 1/4 tsp of powder", "level 3 ribbon"
	Step int    // the step it is about, from 0; -1 where it is about none
}

// delta is a change as the history keeps it: the steps that differ, and the frame around
// them, shared where it is the same. So a history takes room for what was changed, not for
// the trial at every change.
type delta struct {
	Change
	at            int          // the first step that differs
	before, after []model.Step // the steps that differ
	was, is       frame
	// finished says that the trial was finished before and after: what follows a trial's
	// own steps does not open it again.
	finished bool
	opened   bool // the change opened a finished trial again
}

// frame holds everything an edit may change beside the steps.
type frame struct {
	powder      model.Powder
	levelSpoons []model.LevelSpoon
	reserved    map[string]any
	trial       model.Trial   // without its steps and its state
	trials      []model.Trial // all of them, where none is being made
}

// frameOf gives the frame of a profile around the steps of the trial being made.
func (e *Editor) frameOf(p model.Profile) frame {
	f := frame{powder: p.Powder, levelSpoons: p.LevelSpoons, reserved: p.Reserved}
	if e.trial == NoTrial {
		f.trials = p.Trials
		return f
	}
	f.trial = p.Trials[e.trial]
	f.trial.Steps, f.trial.State = nil, ""
	return f
}

// stepsOf gives the steps of the trial being made; nil without one.
func (e *Editor) stepsOf(p model.Profile) []model.Step {
	if e.trial == NoTrial {
		return nil
	}
	return p.Trials[e.trial].Steps
}

// difference returns the change that leads from the profile to the next.
func (e *Editor) difference(c Change, next model.Profile) delta {
	was, is := e.stepsOf(e.profile), e.stepsOf(next)
	first, last := sameSteps(was, is)
	d := delta{
		Change: c, at: first, was: e.frameOf(e.profile), is: e.frameOf(next),
		before: slices.Clone(was[first : len(was)-last]),
		after:  slices.Clone(is[first : len(is)-last]),
	}
	if reflect.DeepEqual(d.was, d.is) {
		d.is = d.was
	}
	if e.trial != NoTrial && e.profile.Trials[e.trial].State == model.Done {
		d.finished = next.Trials[e.trial].State == model.Done
		d.opened = !d.finished
	}
	return d
}

// empty reports whether nothing differs.
func (d delta) empty() bool {
	return len(d.before)+len(d.after) == 0 && reflect.DeepEqual(d.was, d.is)
}

// Undo goes back one change and says which; ok is false when there is none. After the
// changes made since the trial was opened, it takes back the recorded steps: the last look,
// then its addition, and so on to the first. Finishing is no change of its own. The trial
// is unfinished then, unless it was finished before the change.
func (e *Editor) Undo() (c Change, ok bool) {
	if len(e.past) == 0 {
		d, ok := e.recorded()
		if !ok {
			return Change{}, false
		}
		e.past = append(e.past, d)
	}
	d := pop(&e.past)
	e.future = append(e.future, d)
	e.swap(d, len(d.after), d.before, d.was)
	if d.opened {
		e.setState(model.Done)
	}
	return d.Change, true
}

// Redo makes an undone change again and says which; ok is false when there is none.
func (e *Editor) Redo() (c Change, ok bool) {
	if len(e.future) == 0 {
		return Change{}, false
	}
	d := pop(&e.future)
	e.past = append(e.past, d)
	e.swap(d, len(d.before), d.after, d.is)
	return d.Change, true
}

// pop removes the last change from a list.
func pop(ds *[]delta) delta {
	n := len(*ds) - 1
	d := (*ds)[n]
	*ds = (*ds)[:n]
	return d
}

// swap puts steps in the place of n others, and the frame around them.
func (e *Editor) swap(d delta, n int, steps []model.Step, f frame) {
	next := e.with(d.at, n, steps, f)
	if d.finished {
		next.Trials[e.trial].State = e.profile.Trials[e.trial].State
	}
	e.put(next)
	if e.trial != NoTrial {
		e.outcome = outcomeOf(e.read(e.profile))
	}
}

// with gives the profile with steps in the place of n others, in a frame.
func (e *Editor) with(at, n int, steps []model.Step, f frame) model.Profile {
	p := e.profile
	p.Powder, p.LevelSpoons, p.Reserved = f.powder, f.levelSpoons, f.reserved
	if e.trial == NoTrial {
		p.Trials = f.trials
		return p
	}
	was := e.stepsOf(p)
	p.Trials = slices.Clone(p.Trials)
	t := &p.Trials[e.trial]
	*t = f.trial
	t.State = model.Open
	t.Steps = slices.Concat(was[:at], steps, was[at+n:])
	return p
}

// recorded makes an undoable change of the last step: its look, where it has one after an
// addition, else the step as a whole.
func (e *Editor) recorded() (delta, bool) {
	steps := e.stepsOf(e.profile)
	n := len(steps)
	if n == 0 {
		return delta{}, false
	}
	last := steps[n-1]
	f := e.frameOf(e.profile)
	d := delta{Change: Change{last.In(e.Trial().Liquid), n - 1}, at: n - 1, after: []model.Step{last}, was: f, is: f}
	switch {
	case last.PotG > 0:
		d.What = fmt.Sprintf("the pot after step %d", n)
		before := last.Clone()
		before.PotG = 0
		d.before = []model.Step{before}
	case last.Reading > 0:
		d.What = fmt.Sprintf("reading of %s", model.Number(last.Reading))
		before := last.Clone()
		before.Reading = 0
		d.before = []model.Step{before}
	case last.Looked && last.Add != model.AddNone:
		d.What = last.LookText()
		d.before = []model.Step{{At: last.At, Add: last.Add, Spoon: last.Spoon, Count: last.Count, Grams: last.Grams}}
	}
	return d, true
}

// sameSteps counts the steps that a and b have in common at the beginning, and at the end
// of what is left.
func sameSteps(a, b []model.Step) (first, last int) {
	n := min(len(a), len(b))
	for first < n && reflect.DeepEqual(a[first], b[first]) {
		first++
	}
	for last < n-first && reflect.DeepEqual(a[len(a)-1-last], b[len(b)-1-last]) {
		last++
	}
	return first, last
}
