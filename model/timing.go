package model

import (
	"slices"
	"strings"
	"time"
)

// Timing compares the wait before a look with the trial's rest.
type Timing string

// The timings. A look or a reading whose wait was not recorded is taken as in time.
const (
	InTime Timing = ""
	Early  Timing = "early" // before half the rest was up
	Late   Timing = "late"  // after more than three times the rest
)

// Timing compares the wait before the look or the reading with a rest, s.
func (s Step) Timing(restS int) Timing {
	switch {
	case !s.Looked && s.Reading == 0 || s.RestedS == nil || restS <= 0:
		return InTime
	case 2**s.RestedS < restS:
		return Early
	case *s.RestedS > 3*restS:
		return Late
	default:
		return InTime
	}
}

// LaterLook is a look at a finished dish that was kept covered. At least one of
// its two readings is there.
type LaterLook struct {
	At      time.Time
	Level   *float64 // as it stands, without stirring; nil not read
	Stirred *float64 // after ten turns; nil not read
	Marks   []string
	Note    string
}

// Clone makes a copy that shares nothing that is ever changed.
func (l LaterLook) Clone() LaterLook {
	l.Level, l.Stirred, l.Marks = copied(l.Level), copied(l.Stirred), slices.Clone(l.Marks)
	return l
}

// Validate lists the problems of a later look, each with its key.
func (l LaterLook) Validate() []Problem {
	c := &checker{}
	if l.At.IsZero() {
		c.add("at", "give the date and time, as in at = 2026-05-03T11:10:00Z",
			"the later look does not say when it was")
	}
	if l.Level == nil && l.Stirred == nil {
		c.add("level", "give the level as it stands, or after ten turns, or take the look out",
			"the later look has no level")
	}
	for _, one := range []struct {
		key   string
		level *float64
	}{{"level", l.Level}, {"stirred_level", l.Stirred}} {
		if one.level != nil && c.number(one.key, "a level", "", *one.level, MinLevel, MaxLevel) &&
			!isHalfStep(*one.level, 0.5) {
			c.add(one.key, "give a whole or half level", "a level of %s is between the half levels", Number(*one.level))
		}
	}
	c.seen("", l.Marks, l.Note)
	return c.problems
}

// Readings gives the levels of the look: "6 stiff as it stands, 5 spread after ten turns".
func (l LaterLook) Readings() string {
	var texts []string
	if l.Level != nil {
		texts = append(texts, LevelName(*l.Level)+" as it stands")
	}
	if l.Stirred != nil {
		texts = append(texts, LevelName(*l.Stirred)+" after ten turns")
	}
	return strings.Join(texts, ", ")
}

// LastAdded gives the time of the last addition or removal, or the start of a trial without
// one. ok is false where its time was not recorded.
func (t Trial) LastAdded() (at time.Time, ok bool) {
	at = t.Started
	for _, s := range t.Steps {
		if s.Add != AddNone {
			at = s.At
		}
	}
	return at, !at.IsZero()
}
