// Package lines makes a trial by questions and answers, one line each: for a screen
// reader, a log or a simple terminal.
package lines

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
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
)

// Trial asks for a trial line by line. Every change is saved before the next
// question.
type Trial struct {
	in        *bufio.Reader
	out       io.Writer
	page      *page.Page // text not written yet
	now       func() time.Time
	shelf     *data.Shelf
	ownSpoons model.OwnSpoons

	entry   data.Entry     // the powder on the shelf, with its profile as last saved
	editor  *bench.Editor  // nil before a powder is chosen
	durable int            // newest revision known to be on disk
	method  bench.Method   // how the powder is known by mass
	like    *model.Trial   // the trial of the reference dish; nil if levels are named
	skipped int            // after so many steps no look is asked for
	hurried int            // the step, from 1, of which an early look was asked about
	told    bool           // it was explained how to answer
	was     *model.Profile // the profile before the last change of a finished dish, while no trial is begun
	undone  *model.Profile // the profile after that change, once undone
	dishAt  int            // the editor's revision when one of the two was kept
	wet     bool           // the cautions for the wet paste were given
	advised int            // number of steps at the last advice; -1 before any
	cut     error          // why input or output ended
}

// New makes a trial on a shelf, asked and answered over in and out.
func New(in io.Reader, out io.Writer, now func() time.Time, shelf *data.Shelf, own model.OwnSpoons, ascii bool) *Trial {
	return &Trial{
		in: bufio.NewReader(in), out: out, page: page.New(ascii),
		now: now, shelf: shelf, ownSpoons: own, advised: -1,
	}
}

// Ways in which a trial ends. Any other error is reported, and the question asked
// again.
var (
	errQuit  = errors.New("left")
	errEnded = errors.New("finished or set aside")
)

// takeReference chooses the last finished dish of another powder as the reference,
// as it is now.
func (t *Trial) takeReference(powder string) error {
	e, err := t.shelf.Find(powder)
	if err != nil {
		return err
	}
	at := e.Profile.NewestWhere(model.Trial.Used)
	if at < 0 {
		return fmt.Errorf("no finished trial of %s: make one first, and keep its dish", e.Profile.Powder.Title())
	}
	r, err := bench.Read(e.Profile, e.Profile.Trials[at], t.ownSpoons)
	if err != nil {
		return err
	}
	like, err := r.MatchTrial(e.Slug, at)
	if err != nil {
		return fmt.Errorf("beside trial %d of %s: %w", at+1, e.Profile.Powder.Title(), err)
	}
	if question := handling.OldDish(e.Profile.Powder, r.Trial, t.now()); question != "" {
		there, err := t.confirms(question)
		if err != nil {
			return err
		}
		if !there {
			return kitchen.Cannot{Why: fmt.Errorf("no dish of %s: make a trial of %[1]s first, and keep its dish "+
				"covered", e.Profile.Powder.Title())}
		}
	}
	t.like = &like
	t.tell("The reference dish: trial %d of %s, at %s, begun %s. Keep it covered.", at+1, e.Profile.Powder.Title(),
		model.LevelName(like.Aim), r.Trial.Started.Format(page.Day))
	return nil
}

// Run makes a trial of the powder, "" to ask for one. beside is a powder whose last
// finished dish is the reference, "" for none. If the maker leaves or the input
// ends, the trial stays unfinished; that is no error.
func (t *Trial) Run(powder, beside string) (err error) {
	if beside != "" {
		err = t.takeReference(beside)
	}
	if err == nil {
		err = t.setUp(powder)
	}
	for err == nil {
		if err = t.turn(); err != nil && !errors.Is(err, errQuit) && !errors.Is(err, errEnded) {
			t.refuse(err)
			err = nil
		}
	}
	switch {
	case errors.Is(err, errQuit) && t.entry.Slug == "":
		t.tell("Left; nothing is saved before the first weighing or addition.")
		err = t.cut
	case errors.Is(err, errQuit):
		if t.entry.Slug != "" && !t.unsaved() {
			if t.editor.Index() == bench.NoTrial {
				t.tell("Left; all that was recorded is saved.")
			} else {
				t.tell("Left unfinished; all that was recorded is saved.")
				t.sayNext(false)
			}
		}
		err = t.cut
	case errors.Is(err, errEnded):
		t.sayNext(true)
		err = nil
	}
	return errors.Join(err, t.flush())
}

// flush writes the text gathered so far.
func (t *Trial) flush() error {
	_, err := io.WriteString(t.out, t.page.Drain())
	return err
}

// tell says a sentence or two, in lines that break no word.
func (t *Trial) tell(format string, args ...any) { t.page.Say(fmt.Sprintf(format, args...)) }

// refuse says why nothing was done.
func (t *Trial) refuse(err error) { t.tell("Not done: %s.", strings.TrimRight(err.Error(), ".")) }

// read returns the next line typed, after writing all text so far.
func (t *Trial) read() (string, error) {
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

// ask asks a set-up question until accept takes the answer. Enter gives the one
// offered.
func (t *Trial) ask(question, offered string, accept func(answer string) error) error {
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
		if done, err := t.setUpWord(answer); done {
			if err != nil {
				t.refuse(err)
			}
			continue
		}
		if err = accept(answer); err == nil || errors.Is(err, errQuit) {
			return err
		}
		t.refuse(err)
	}
}

// yes asks a question with yes or no; Enter is yes.
func (t *Trial) yes(question string) (yes bool, err error) {
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

// askAgain asks about an unlikely value and makes the change if the maker confirms.
// Any other refusal stands.
func (t *Trial) askAgain(refused error) error {
	var q *bench.Question
	for errors.As(refused, &q) {
		if err := t.insists(q.Text); err != nil {
			return err
		}
		refused = q.Insist()
	}
	return refused
}

// insists asks about an unlikely value; it returns an error if the maker does not
// keep it.
func (t *Trial) insists(question string) error {
	yes, err := t.confirms(model.Ended(question) + " Keep it all the same?")
	if err == nil && !yes {
		err = errors.New("it was not kept; type it again")
	}
	return err
}

// confirms asks a question with yes or no; Enter is no.
func (t *Trial) confirms(question string) (yes bool, err error) {
	t.tell("%s yes or no (Enter: no)", question)
	answer, err := t.read()
	if strings.EqualFold(answer, "quit") {
		err = errQuit
	}
	return strings.EqualFold(answer, "y") || strings.EqualFold(answer, "yes"), err
}

// Unsaved returns the powder as it is now, and whether it may not be on disk.
func (t *Trial) Unsaved() (e data.Entry, unsaved bool) { return t.entry, t.unsaved() }

func (t *Trial) unsaved() bool { return t.editor != nil && t.editor.Revision() != t.durable }

// done saves a change of the editor and says what was recorded. A refused change
// has changed nothing.
func (t *Trial) done(what string, refused error) error {
	refused = t.askAgain(refused)
	if refused == nil {
		t.store(what, t.shelf.Save)
	}
	return refused
}

// until asks a question and records its answer, until that is accepted.
func (t *Trial) until(question, record func() error) error {
	for {
		if err := question(); err != nil {
			return err
		}
		err := record()
		if err == nil || errors.Is(err, errQuit) {
			return err
		}
		t.refuse(err)
	}
}

// store saves the profile, and says what was recorded and whether it is saved.
func (t *Trial) store(what string, save func(data.Entry) (data.Entry, error)) {
	t.entry.Profile = t.editor.Profile()
	e, err := save(t.entry)
	t.entry = e
	if err == nil {
		t.durable = t.editor.Revision()
	}
	switch {
	case errors.Is(err, data.ErrChanged):
		t.tell("%s; NOT SAVED: %v. The word copy saves it in a file of its own.", what, err)
	case err != nil:
		t.tell("%s; NOT SAVED: %v. The word save tries again.", what, err)
	default:
		t.tell("%s; saved.", what)
	}
}

// last returns the index of the newest step, -1 before the first.
func (t *Trial) last() int { return len(t.editor.Trial().Steps) - 1 }

func (t *Trial) undo(string) error { return t.back(t.editor.Undo, "Undone", "nothing to undo") }

func (t *Trial) redo(string) error { return t.back(t.editor.Redo, "Redone", "nothing to redo") }

// back undoes or redoes one change.
func (t *Trial) back(step func() (bench.Change, bool), yes, no string) error {
	c, ok := step()
	if !ok {
		return errors.New(no)
	}
	t.skipped, t.advised, t.hurried = 0, -1, 0
	return t.done(yes+": "+c.What, nil)
}
