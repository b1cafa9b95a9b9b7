package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/model/printable"
)

// plain is a trial as questions and answers in lines. It owns the profile that
// is worked on; every change is saved before it is said to be.
type plain struct {
	in     *bufio.Reader
	page   *page.Page // what is to be said
	flush  func() error
	now    func() time.Time
	drawer model.Drawer

	find             func(powder string) (data.Entry, error)
	save, saveBeside func(data.Entry) (data.Entry, error)

	entry   data.Entry
	trial   int             // the one being made
	past    []model.Profile // for undo, since the trial was taken up
	skipped int             // so many steps, the last of which needs no look
	told    bool            // how to answer has been explained
	advised int             // so many steps had their advice told; -1 for none
	owed    bool            // the profile is not known to be on disk
	cut     error           // why input or output broke off
}

// Ways a trial ends. Any other error of a turn is told, and the turn taken
// again.
var (
	errQuit  = errors.New("left")
	errEnded = errors.New("finished or set aside")
)

// run makes a trial of the powder, "" to ask for one. Left by its maker, or by
// the end of the input, it stays unfinished: that is no error.
func (t *plain) run(powder string) error {
	err := t.setUp(powder)
	for err == nil {
		if err = t.turn(); err != nil && !errors.Is(err, errQuit) && !errors.Is(err, errEnded) {
			t.refuse(err)
			err = nil
		}
	}
	switch {
	case errors.Is(err, errQuit):
		if t.entry.Slug != "" && !t.owed {
			t.tell("Left unfinished; all that was recorded is saved.")
		}
		err = t.cut
	case errors.Is(err, errEnded):
		err = nil
	}
	return errors.Join(err, t.flush())
}

// tell says one line.
func (t *plain) tell(format string, args ...any) { t.page.Line(format, args...) }

// refuse says why nothing was done.
func (t *plain) refuse(err error) { t.tell("Not done: %s.", strings.TrimRight(err.Error(), ".")) }

// read is the next line that is typed, after all that was said is out.
func (t *plain) read() (string, error) {
	if err := t.flush(); err != nil {
		t.cut = fmt.Errorf("write a question: %w", err)
		return "", errQuit
	}
	line, err := t.in.ReadString('\n')
	if err != nil && !errors.Is(err, io.EOF) {
		t.cut = fmt.Errorf("read an answer: %w", err)
	}
	if err != nil && line == "" {
		return "", errQuit
	}
	return strings.TrimSpace(printable.Line(line)), nil
}

// ask puts a question of the set-up until take accepts the answer. Enter gives
// what is offered.
func (t *plain) ask(question, offered string, take func(answer string) error) error {
	for {
		if offered != "" {
			t.tell("%s (Enter: %s)", question, offered)
		} else {
			t.tell("%s", question)
		}
		answer, err := t.read()
		switch {
		case err != nil:
			return err
		case strings.EqualFold(answer, "quit"):
			return errQuit
		case answer == "":
			answer = offered
		}
		if err := take(answer); err != nil {
			t.refuse(err)
			continue
		}
		return nil
	}
}

// yes asks a question that takes yes or no; Enter is yes.
func (t *plain) yes(question string) (yes bool, err error) {
	err = t.ask(question+" yes or no", "yes", func(answer string) error {
		switch strings.ToLower(answer) {
		case "y", "yes":
			yes = true
		case "n", "no":
			yes = false
		default:
			return fmt.Errorf("%q is neither yes nor no", answer)
		}
		return nil
	})
	return yes, err
}

// change changes the profile and saves it. A change that makes it unsound is
// refused, and nothing has changed.
func (t *plain) change(what string, change func(p *model.Profile)) error {
	next := t.entry.Profile.Clone()
	change(&next)
	if problems := next.Validate(t.drawer); len(problems) > 0 {
		return fmt.Errorf("%s; %s", problems[0].What, problems[0].Fix)
	}
	t.past = append(t.past, t.entry.Profile)
	t.keep(what, next)
	return nil
}

// until puts a question and records what came of it, again and again until
// that is accepted.
func (t *plain) until(question, record func() error) error {
	for {
		if err := question(); err != nil {
			return err
		}
		err := record()
		if err == nil {
			return nil
		}
		t.refuse(err)
	}
}

// keep puts a state of the profile on the shelf and says so.
func (t *plain) keep(what string, p model.Profile) {
	t.entry.Profile = p
	t.store(what, t.save)
}

// store saves the profile, and says what was recorded and whether it is saved.
func (t *plain) store(what string, save func(data.Entry) (data.Entry, error)) {
	e, err := save(t.entry)
	t.entry, t.owed = e, err != nil
	switch {
	case errors.Is(err, data.ErrChanged):
		t.tell("%s; NOT SAVED: %v. The word beside saves it in a file of its own.", what, err)
	case err != nil:
		t.tell("%s; NOT SAVED: %v. The word save tries again.", what, err)
	case e.Recreated:
		t.tell("%s; saved. The file was gone and has been written anew.", what)
	default:
		t.tell("%s; saved.", what)
	}
}

// current is the trial being made, with defaults filled in.
func (t *plain) current() model.Trial {
	return t.entry.Profile.Trials[t.trial].WithDefaults(t.entry.Profile.Powder.Kind())
}

// reading is what the trial says. A step that cannot be reckoned would have
// been refused.
func (t *plain) reading() model.Reading {
	r, _ := model.Read(t.entry.Profile, t.entry.Profile.Trials[t.trial], t.drawer)
	return r
}

// edit is change for the trial being made.
func (t *plain) edit(what string, change func(trial *model.Trial)) error {
	return t.change(what, func(p *model.Profile) { change(&p.Trials[t.trial]) })
}

// last is the step made last, nil before the first.
func (t *plain) last() *model.Step {
	steps := t.entry.Profile.Trials[t.trial].Steps
	if len(steps) == 0 {
		return nil
	}
	return &steps[len(steps)-1]
}

// undo takes back the last change since the trial was taken up; before that,
// what its steps tell: a look, then its addition.
func (t *plain) undo(string) error {
	if n := len(t.past); n > 0 {
		p := t.past[n-1]
		t.past = t.past[:n-1]
		t.skipped, t.advised = 0, -1
		t.keep("Taken back", p)
		return nil
	}
	last := t.last()
	if last == nil {
		return errors.New("nothing to undo")
	}
	p := t.entry.Profile.Clone()
	steps := p.Trials[t.trial].Steps
	n := len(steps)
	what := fmt.Sprintf("The look of step %d is taken back", n)
	if s := &steps[n-1]; s.Looked && s.Add != model.AddNone {
		s.Looked, s.Level, s.RestedS, s.Marks, s.Note = false, 0, nil, nil, ""
	} else {
		what = fmt.Sprintf("Step %d is taken back", n)
		p.Trials[t.trial].Steps = steps[:n-1]
	}
	t.skipped, t.advised = 0, -1
	t.keep(what, p)
	return nil
}
