package lines

import (
	"errors"
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/typed"
)

// laterHelp says how later looks are typed.
const laterHelp = "a later look at the covered dish, as later 5, stirred 4, gels; later alone lists them; later mend " +
	"2 5.5; later delete 2; later keep and later end say whether the dish is kept covered"

// later records, lists, mends or deletes later looks. They belong to the trial at
// the bench; before one is begun, to the powder's newest finished trial.
func (t *Trial) later(text string) error {
	return t.onDish(func() error { return t.changeLater(text) })
}

func (t *Trial) changeLater(text string) error {
	first, rest, _ := strings.Cut(text, " ")
	switch strings.ToLower(first) {
	case "":
		t.sayLater()
		return nil
	case "keep":
		return t.done("The dish is kept covered for later looks", t.editor.Cover(true))
	case "end":
		return t.done("The dish is no longer kept", t.editor.Cover(false))
	case "delete":
		n, err := typed.Count(rest, "later delete 2")
		if err != nil {
			return err
		}
		return t.saidLater(fmt.Sprintf("Later look %d is deleted", n), t.editor.DeleteLater(n-1))
	case "mend":
		return t.mendLater(rest)
	}
	l, err := typed.Later(text)
	if err != nil {
		return err
	}
	l.At = t.now()
	return t.saidLater("Later look: "+l.Readings(), t.editor.AddLater(l))
}

// mendLater replaces a later look, counted from 1.
func (t *Trial) mendLater(text string) error {
	number, what, _ := strings.Cut(text, " ")
	n, err := typed.Count(number, "later mend 2 5.5")
	if err != nil {
		return err
	}
	is, err := typed.Later(what)
	if err != nil {
		return err
	}
	return t.saidLater(fmt.Sprintf("Later look %d is mended", n), t.editor.MendLater(n-1, func(l *model.LaterLook) {
		is.At = l.At
		*l = is
	}))
}

func (t *Trial) saidLater(what string, refused error) error {
	if err := t.done(what, refused); err != nil {
		return err
	}
	t.sayLater()
	return nil
}

// sayLater lists the later looks and sums them up.
func (t *Trial) sayLater() {
	trial := t.editor.Trial()
	if len(trial.Later) == 0 {
		t.tell("No later look yet.")
	}
	for i, l := range trial.Later {
		t.tell("Later look %d, %s: %s.", i+1, l.At.Format("2006-01-02 15:04"), typed.ShowLater(l))
	}
	for _, text := range handling.OfTrial(t.editor.Outcome().Reading) {
		t.tell("%s", text)
	}
}

// sayDue says which later look is due.
func (t *Trial) sayDue() {
	for i, trial := range t.editor.Profile().Trials {
		if v, ok := handling.NextVisit(trial, t.now()); ok && v.Due(t.now()) {
			t.tell("Trial %d is due for its later look, %s. Type it as later 5; it is taken at any question.",
				i+1, v.Name)
		}
	}
}

// stirred records the level just after stirring, for the last look.
func (t *Trial) stirred(text string) error {
	if t.editor.Trial().Match != nil {
		return errors.New("this trial is read beside a dish, not by levels")
	}
	level, err := typed.Reading(text, 0.5)
	if err != nil {
		return err
	}
	return t.done("Just stirred: "+model.LevelName(level),
		t.editor.Mend(t.last(), func(s *model.Step) { s.LevelStirred = &level }))
}
