package lines

import (
	"errors"
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/typed"
)

// reading records what was measured after the last step.
func (t *Trial) reading(text string) error {
	m, err := t.measures()
	if err != nil {
		return err
	}
	v, err := typed.MeasuredReading(text, m)
	if err != nil {
		return err
	}
	waited, err := t.waited(m.Text(v))
	if err != nil {
		return err
	}
	if err := t.done("Reading "+m.Text(v), t.editor.MeasureAfter(v, waited, t.now())); err != nil {
		return err
	}
	t.sayReadings()
	return nil
}

// measures returns what the trial measures.
func (t *Trial) measures() (model.Measured, error) {
	if m := t.editor.Trial().Measured; m != nil {
		return *m, nil
	}
	return model.Measured{}, errors.New("say once what is measured, as set reading=spread 15 mL wanted 60, slump " +
		"50 mm, cone, drain or blows")
}

// mendReading changes a step's reading, counted from 1; "none" deletes it.
func (t *Trial) mendReading(n int, text string) error {
	m, err := t.measures()
	if err != nil {
		return err
	}
	v := 0.0
	if !strings.EqualFold(strings.TrimSpace(text), "none") {
		if v, err = typed.MeasuredReading(text, m); err != nil {
			return err
		}
	}
	if err := t.done(fmt.Sprintf("Step %d is mended", n), t.editor.MendReading(n-1, v)); err != nil {
		return err
	}
	t.sayReadings()
	return nil
}

// level records the level of the last step, besides its reading.
func (t *Trial) level(text string) error {
	level, err := typed.Reading(text, t.editor.Trial().LevelStep)
	if err != nil {
		return err
	}
	return t.recordLevel(level)
}

// sayReadings gives the answer by readings, in their own unit.
func (t *Trial) sayReadings() {
	if m, ok := readings.Of(t.editor.Outcome().Reading); ok {
		t.tell("Measured: %s", m.Sentence())
		if next := m.Next(t.editor.Trial().Tolerance); next != m.Sentence() {
			t.tell("%s", next)
		}
	}
}

// onDish runs do on a finished dish: that of the trial at the bench or, before one
// is begun, of the powder's newest finished trial.
func (t *Trial) onDish(do func() error) error {
	if t.editor.Index() != bench.NoTrial {
		return do()
	}
	n := t.editor.Profile().NewestWhere(model.Trial.Finished)
	if n < 0 {
		return errors.New("no finished trial to look at again")
	}
	was, revision := t.editor.Profile(), t.editor.Revision()
	t.editor.GoTo(n)
	err := do()
	t.editor.GoTo(bench.NoTrial) // this forgets what could be undone
	if t.editor.Revision() != revision {
		t.was, t.undone, t.dishAt = &was, nil, t.editor.Revision()
	}
	return err
}

// undoDish undoes the last change of a finished dish, before a trial is begun; done
// is false if there was none.
func (t *Trial) undoDish() (done bool, err error) { return t.swapDish("Undone", &t.was, &t.undone) }

// redoDish redoes what undoDish undid.
func (t *Trial) redoDish() (done bool, err error) { return t.swapDish("Redone", &t.undone, &t.was) }

// swapDish goes to a kept state of the profile and keeps the present one for the
// way back. After any other change the kept states are forgotten: they would undo
// that change too.
func (t *Trial) swapDish(said string, to, back **model.Profile) (done bool, err error) {
	if t.editor.Revision() != t.dishAt {
		t.was, t.undone = nil, nil
	}
	if *to == nil || t.editor.Index() != bench.NoTrial {
		return false, nil
	}
	is, leaves := **to, t.editor.Profile()
	err = t.done(said+": the last change of the finished dish", t.editor.Edit("finished dish",
		func(p *model.Profile, _ *model.Trial) { *p = is }))
	t.editor.GoTo(bench.NoTrial)
	*to, *back, t.dishAt = nil, &leaves, t.editor.Revision()
	return true, err
}

// acid begins an acid test, or shows it.
func (t *Trial) acid(text string) error {
	return t.onDish(func() error {
		switch {
		case text == "":
			return t.sayAcid()
		case strings.EqualFold(text, "delete"):
			return t.done("The acid test is deleted", t.editor.EndAcid())
		}
		a, err := typed.AcidTest(text)
		if err != nil {
			return err
		}
		t.sayCare(care.BeforeAcid)
		if err := t.done("Acid test: "+a.Words(), t.editor.BeginAcid(a)); err != nil {
			return err
		}
		t.tell("Stir, wait, read; of a coloured paste the back of the strip, or the water that stands off. Type " +
			"ph 8.5 before the first drop, then ph 7 after 5 drops; ph target 6 changes the target.")
		return nil
	})
}

// ph records, mends or deletes a pH, or changes the target.
func (t *Trial) ph(text string) error {
	return t.onDish(func() error {
		if err := t.changePH(text); err != nil {
			return err
		}
		return t.sayAcid()
	})
}

func (t *Trial) changePH(text string) error {
	read := func(text string) (model.AcidStep, error) {
		return typed.SpoonsOf(t.ownSpoons, t.editor.Profile()).AcidStep(text)
	}
	first, rest, _ := strings.Cut(text, " ")
	switch strings.ToLower(first) {
	case "target":
		return t.targetPH(rest)
	case "delete":
		n, err := typed.Count(rest, "ph delete 2")
		if err != nil {
			return err
		}
		return t.done(fmt.Sprintf("pH reading %d is deleted, with the acid before it", n), t.editor.DeleteAcid(n-1))
	case "mend":
		number, what, _ := strings.Cut(rest, " ")
		n, err := typed.Count(number, "ph mend 2 7 after 5 drops")
		if err != nil {
			return err
		}
		s, err := read(what)
		if err != nil {
			return err
		}
		return t.done(fmt.Sprintf("pH reading %d is mended", n), t.editor.MendAcid(n-1, s))
	}
	s, err := read(text)
	if err != nil {
		return err
	}
	s.At = t.now()
	what := "pH " + model.Number(s.PH)
	if s.Adds() {
		what += " after " + s.Text()
	}
	return t.done(what, t.editor.AddAcid(s))
}

// targetPH changes the wanted pH.
func (t *Trial) targetPH(text string) error {
	ph, err := typed.PH(text)
	if err != nil {
		return err
	}
	a := t.editor.Trial().Acid
	if a == nil {
		return errors.New("no acid test is begun: acid " + typed.AcidExample)
	}
	is := a.Clone()
	is.TargetPH = ph
	return t.done("The target is pH "+model.Number(ph), t.editor.BeginAcid(is))
}

// sayAcid lists the readings of the acid test and the acid for the wanted pH.
func (t *Trial) sayAcid() error {
	a, ok := readings.AcidOf(t.editor.Outcome().Reading, t.ownSpoons)
	if !ok {
		return errors.New("no pH is recorded yet: acid " + typed.AcidExample + ", then ph 8.5")
	}
	for _, text := range a.Lines() {
		t.tell("%s.", text)
	}
	t.tell("%s", a.Sentence())
	for _, note := range a.Notes(t.editor.Powder()) {
		t.tell("%s", note)
	}
	return nil
}
