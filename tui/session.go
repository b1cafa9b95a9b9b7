package tui

import (
	"slices"
	"time"

	"daub.example/daub/model"
	tea "github.com/charmbracelet/bubbletea"
)

// noTrial is the trial of a session that is still being set up.
const noTrial = -1

// Session is the one owner of the profile being worked on. It is changed in
// Update only. A revision counter says when it changed; at most one write is
// in flight and the newest state always wins.
type Session struct {
	item   model.Entry
	trial  int // index of the trial being worked on, or noTrial
	drawer model.Drawer

	past, future []model.Profile

	revision  int // counts changes
	attempted int // newest revision handed to a write
	durable   int // newest revision known to be on disk
	inFlight  bool
	savedAt   time.Time
	err       error // why the last write failed

	out outcome
}

// outcome is what the trial says now; it is worked out after every change.
type outcome struct {
	reading model.Reading
	err     error          // the step that cannot be reckoned
	levels  []float64      // model.CurveLevels
	curve   []model.Answer // one a level
	farOut  []int          // steps
	advice  *model.Advice  // what to do next; nil where nothing can be said
}

// newSession takes up a profile at one of its trials.
func newSession(item model.Entry, trial int, d model.Drawer) *Session {
	s := &Session{item: item, drawer: d}
	s.take(trial)
	return s
}

// recorded is the history of a trial as its steps tell it, so that undo walks
// back through what was recorded before the program was last closed.
func recorded(p model.Profile, trial int) []model.Profile {
	if trial < 0 || trial >= len(p.Trials) {
		return nil
	}
	var past []model.Profile
	at := func(steps []model.Step) {
		c := p.Clone()
		c.Trials[trial].Steps = steps
		past = append(past, c)
	}
	steps := p.Trials[trial].Steps
	for i, s := range steps {
		at(steps[:i:i])
		if s.Looked && s.Add != model.AddNone {
			bare := s.Clone()
			bare.Looked, bare.Level, bare.RestedS, bare.Marks, bare.Note = false, 0, nil, nil, ""
			at(append(steps[:i:i], bare))
		}
	}
	return past
}

// Trial is the trial being worked on, with defaults filled in.
func (s *Session) Trial() model.Trial {
	return s.item.Profile.Trials[s.trial].WithDefaults(s.item.Profile.Powder.Kind())
}

// Powder is the powder being worked on.
func (s *Session) Powder() model.Powder { return s.item.Profile.Powder }

// edit changes the profile. A change that leaves a step which cannot be
// reckoned is refused with the reason, and nothing has changed.
func (s *Session) edit(change func(p *model.Profile, t *model.Trial)) error {
	next := s.item.Profile.Clone()
	change(&next, &next.Trials[s.trial])
	reading, err := model.Read(next, next.Trials[s.trial], s.drawer)
	if err != nil && s.out.err == nil {
		return err
	}
	s.past = append(s.past, s.item.Profile)
	s.future = nil
	s.replace(next)
	s.refitFrom(reading, err)
	return nil
}

// finish and reopen say whether the trial is still being made. They are no
// steps: undo walks past them.
func (s *Session) finish() { s.setState(model.Done) }
func (s *Session) reopen() { s.setState(model.Open) }

func (s *Session) setState(state model.State) {
	if s.item.Profile.Trials[s.trial].State == state {
		return
	}
	p := s.item.Profile.Clone()
	p.Trials[s.trial].State = state
	s.replace(p)
	s.refit()
}

// dropEmpty takes a trial without a step out again: nothing was recorded in it.
func (s *Session) dropEmpty() {
	if len(s.Trial().Steps) > 0 || s.Trial().SetAside != "" {
		return
	}
	p := s.item.Profile.Clone()
	p.Trials = slices.Delete(p.Trials, s.trial, s.trial+1)
	s.replace(p)
	s.trial, s.past, s.future, s.out = noTrial, nil, nil, outcome{}
}

// undo goes back one change; false when there is none.
func (s *Session) undo() bool { return s.step(&s.past, &s.future) }

// redo takes an undo back; false when there is none.
func (s *Session) redo() bool { return s.step(&s.future, &s.past) }

func (s *Session) step(from, to *[]model.Profile) bool {
	n := len(*from)
	if n == 0 {
		return false
	}
	*to = append(*to, s.item.Profile)
	next := (*from)[n-1].Clone()
	*from = (*from)[:n-1]
	next.Trials[s.trial].State = s.item.Profile.Trials[s.trial].State // finishing is no step
	s.replace(next)
	s.refit()
	return true
}

// begin adds a trial to the profile and takes it up.
func (s *Session) begin(t model.Trial) {
	p := s.item.Profile.Clone()
	p.Trials = append(p.Trials, t)
	s.replace(p)
	s.take(len(p.Trials) - 1)
}

// take goes to another trial of the same profile.
func (s *Session) take(trial int) {
	s.trial = trial
	s.past, s.future = recorded(s.item.Profile, trial), nil
	s.refit()
}

func (s *Session) replace(p model.Profile) {
	s.item.Profile = p
	s.revision++
}

func (s *Session) refit() {
	if s.trial == noTrial {
		return
	}
	reading, err := model.Read(s.item.Profile, s.item.Profile.Trials[s.trial], s.drawer)
	s.refitFrom(reading, err)
}

func (s *Session) refitFrom(reading model.Reading, err error) {
	s.out = outcome{reading: reading, err: err, levels: model.CurveLevels()}
	s.out.curve = reading.Answers(s.out.levels)
	s.out.farOut = reading.FarOut()
	if advice, ok := reading.Advice(); ok && err == nil {
		s.out.advice = &advice
	}
}

// answer is what the trial says of one of the curve's levels.
func (o outcome) answer(level float64) model.Answer {
	for i, l := range o.levels {
		if l == level {
			return o.curve[i]
		}
	}
	return o.reading.At(level)
}

// owed reports whether a change is not known to be on disk.
func (s *Session) owed() bool { return s.revision != s.durable }

// save starts a write when one is owed, none is in flight, and this state has
// not just failed; otherwise it is nil.
func (s *Session) save(deps Deps) tea.Cmd {
	return s.write(deps, deps.Save)
}

func (s *Session) write(deps Deps, save func(model.Entry) (model.Entry, error)) tea.Cmd {
	if s.inFlight || !s.owed() || (s.err != nil && s.attempted == s.revision) {
		return nil
	}
	s.inFlight, s.attempted = true, s.revision
	item, revision := s.item, s.revision
	item.Profile = item.Profile.Clone()
	return func() tea.Msg {
		stands, err := save(item)
		return Saved{revision: revision, item: stands, at: deps.Now(), err: err}
	}
}

// retry writes again after a failure, with Save or with SaveBeside.
func (s *Session) retry(deps Deps, save func(model.Entry) (model.Entry, error)) tea.Cmd {
	s.err = nil
	return s.write(deps, save)
}

// onSaved takes in the end of a write.
func (s *Session) onSaved(m Saved) {
	s.inFlight = false
	s.err = m.err
	s.item.Slug, s.item.Path, s.item.Read = m.item.Slug, m.item.Path, m.item.Read
	if m.err == nil {
		s.durable, s.savedAt = m.revision, m.at
	}
}

// status says whether what is on screen is saved.
func (s *Session) status() string {
	switch {
	case s == nil:
		return ""
	case s.err != nil:
		return "NOT SAVED"
	case s.owed():
		return "saving…"
	case s.savedAt.IsZero():
		return "saved"
	default:
		return "saved " + s.savedAt.Format("15:04:05")
	}
}
