package lines

import (
	"errors"
	"fmt"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/model"
	"daub.example/daub/model/typed"
)

// set changes a fact of the powder or the trial; without text it lists them.
func (t *Trial) set(text string) error {
	if text == "" {
		t.sayFacts()
		return nil
	}
	key, value, found := strings.Cut(text, "=")
	if !found {
		return errors.New("type what is to be set to what, as set lot=2026-04; set alone says all there is")
	}
	key = strings.ToLower(strings.TrimSpace(key))
	if t.editor.Index() >= 0 {
		if key == "pot" {
			return t.potStart(value)
		}
		for _, f := range typed.TrialFacts() {
			if f.Key == key {
				t.advised = -1
				return t.change(key, func(_ *model.Profile, trial *model.Trial) error { return f.Set(trial, value) })
			}
		}
	}
	return t.change(key, func(p *model.Profile, _ *model.Trial) error { return typed.Assignment(&p.Powder, text) })
}

// change makes a change that may be refused, and saves it. A powder not on the
// shelf yet is only changed: its first weighing or step saves it.
func (t *Trial) change(what string, change func(*model.Profile, *model.Trial) error) error {
	var refused error
	err := t.editor.Edit(what, func(p *model.Profile, trial *model.Trial) { refused = change(p, trial) })
	if refused != nil {
		return refused
	}
	return t.done(model.Capital(what)+" is set", err)
}

// sayFacts lists every fact as it can be typed again.
func (t *Trial) sayFacts() {
	for _, f := range typed.Facts() {
		t.tell("set %s=%s", f.Key, f.Show(t.editor.Powder()))
	}
	if t.editor.Index() < 0 {
		return
	}
	for _, f := range typed.TrialFacts() {
		t.tell("set %s=%s", f.Key, f.Show(t.editor.Trial()))
	}
	if pot := t.editor.Trial().PotG; pot > 0 {
		t.tell("set pot=%s g", model.Number(pot))
	}
}

// deleteStep deletes a step, counted from 1.
func (t *Trial) deleteStep(text string) error {
	n, err := typed.Count(text, "delete 3")
	if err != nil {
		return err
	}
	t.advised = -1
	if err := t.done(fmt.Sprintf("Step %d is deleted", n), t.editor.DeleteStep(n-1)); err != nil {
		return err
	}
	t.sayDish()
	return t.sayAnswer("")
}

// mend changes a step, counted from 1: its level, or what was added.
func (t *Trial) mend(text string) error {
	number, what, _ := strings.Cut(text, " ")
	n, err := typed.Count(number, "mend 3 level 4, or mend 3 2 x 1/4 tsp")
	if err != nil {
		return err
	}
	if what = strings.TrimSpace(what); what == "" {
		return fmt.Errorf("say what is right, as mend %d level 4, or mend %[1]d 2 x 1/4 tsp", n)
	}
	t.advised = -1
	word, value, _ := strings.Cut(what, " ")
	switch strings.ToLower(word) {
	case "level", "beside":
		return t.mendLevel(n, value)
	case "reading":
		return t.mendReading(n, value)
	case "pot":
		return t.potAt(n, value)
	}
	if _, err := model.BesideOf(what); err == nil && t.editor.Trial().Match != nil {
		return t.mendLevel(n, what)
	}
	steps, err := t.addition(what)
	if err != nil {
		return err
	}
	if len(steps) != 1 {
		return errors.New("a step is of one size: type spoons of one size, and insert the others")
	}
	return t.mended(n, t.editor.Mend(n-1, func(s *model.Step) {
		s.Add, s.Spoon, s.Count, s.Grams = steps[0].Add, steps[0].Spoon, steps[0].Count, steps[0].Grams
	}))
}

// mendLevel changes a step's level; "none" deletes it.
func (t *Trial) mendLevel(n int, value string) error {
	if strings.EqualFold(strings.TrimSpace(value), "none") {
		return t.mended(n, t.editor.Mend(n-1, (*model.Step).Unlook))
	}
	if t.editor.Trial().Match != nil {
		b, err := model.BesideOf(value)
		if err != nil {
			return err
		}
		return t.mended(n, t.editor.Mend(n-1, func(s *model.Step) { s.Looked, s.Beside = true, b }))
	}
	level, err := typed.Reading(value, t.editor.Trial().LevelStep)
	if err != nil {
		return err
	}
	return t.mended(n, t.editor.Mend(n-1, func(s *model.Step) { s.Looked, s.Level = true, level }))
}

func (t *Trial) mended(n int, refused error) error {
	if err := t.done(fmt.Sprintf("Step %d is mended", n), refused); err != nil {
		return err
	}
	t.sayDish()
	return t.sayAnswer("")
}

// insert puts an addition before a step, counted from 1.
func (t *Trial) insert(text string) error {
	number, what, _ := strings.Cut(text, " ")
	n, err := typed.Count(number, "insert 3 1/4 tsp")
	if err != nil {
		return err
	}
	steps, err := t.addition(what)
	if err != nil {
		return err
	}
	if len(steps) != 1 {
		return errors.New("one size at a time: type spoons of one size")
	}
	t.advised = -1
	if err := t.done(fmt.Sprintf("Inserted as step %d: %s", n, steps[0].Text()),
		t.editor.InsertStep(n-1, steps[0])); err != nil {
		return err
	}
	t.sayDish()
	return t.sayAnswer("")
}

// sayNext says what can follow a trial that was finished or left.
func (t *Trial) sayNext(ended bool) {
	name := page.Handle(t.entry.Profile.Powder)
	if ended {
		t.tell("What next? These say what all trials of it say, and make another:")
		t.page.Line("  daub show %q", name)
		t.page.Line("  daub trial --plain %q", name)
		return
	}
	t.tell("This goes on with it:")
	t.page.Line("  daub trial --plain %q", name)
}
