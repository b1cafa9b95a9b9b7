package bench

import (
	"errors"
	"fmt"
	"slices"

	"daub.example/daub/model"
)

// errNoLater is the error for a later look that does not exist.
var errNoLater = errors.New("there is no such later look")

// Cover says whether the dish is kept covered for later looks. Like all changes of its
// later looks, it leaves a finished trial finished.
func (e *Editor) Cover(covered bool) error {
	what := "keeping the dish for later looks"
	if !covered {
		what = "throwing the dish away"
	}
	return e.after(what, func(t *model.Trial) { t.Covered = covered })
}

// AddLater adds a later look, sorted by time. A dish looked at is a dish that was kept.
func (e *Editor) AddLater(l model.LaterLook) error {
	if len(e.stepsOf(e.profile)) == 0 {
		return errNoStep
	}
	return e.after("later look: "+l.Readings(), func(t *model.Trial) {
		if len(t.Later) == 0 {
			t.Covered = true
		}
		t.Later = append(t.Later, l)
		byTime(t.Later)
	})
}

// MendLater changes one of the later looks, counted from 0.
func (e *Editor) MendLater(n int, change func(*model.LaterLook)) error {
	if !e.hasLater(n) {
		return errNoLater
	}
	return e.after(fmt.Sprintf("mending of later look %d", n+1), func(t *model.Trial) {
		change(&t.Later[n])
		byTime(t.Later)
	})
}

// DeleteLater deletes one of the later looks, counted from 0.
func (e *Editor) DeleteLater(n int) error {
	if !e.hasLater(n) {
		return errNoLater
	}
	what := fmt.Sprintf("removal of later look %d, %s", n+1, e.Trial().Later[n].Readings())
	return e.after(what, func(t *model.Trial) { t.Later = slices.Delete(t.Later, n, n+1) })
}

// hasLater reports whether there is a later look n, from 0.
func (e *Editor) hasLater(n int) bool { return n >= 0 && n < len(e.Trial().Later) }

// after changes what follows the trial's own steps, and leaves a finished trial finished.
func (e *Editor) after(what string, change func(t *model.Trial)) error {
	return e.alter(Change{what, -1}, func(_ *model.Profile, t *model.Trial) { change(t) })
}

// byTime sorts later looks by time.
func byTime(looks []model.LaterLook) {
	slices.SortStableFunc(looks, func(a, b model.LaterLook) int { return a.At.Compare(b.At) })
}
