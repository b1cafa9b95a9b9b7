// Package handling says what a ratio alone does not: how a dish goes on changing
// after its last look, how long its powder has soaked, how much a spoon depends
// on the hand that fills it, and what a spoon really holds. It reads no clock and
// shows nothing. It may import model, model/bench, model/measure and model/fit.
package handling

import (
	"fmt"
	"math"
	"slices"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/measure"
)

// visits lists the later looks at a covered dish by the time since its last addition. Each
// may be taken until the next is due (chosen).
var visits = []struct {
	after time.Duration
	name  string
}{
	{5 * time.Minute, "5 min"},
	{30 * time.Minute, "30 min"},
	{4 * time.Hour, "4 hours"},
	{24 * time.Hour, nextDay},
}

// nextDay names the last of the visits.
const nextDay = "next day"

// lastVisit ends the time for later looks, counted from the last addition (chosen).
const lastVisit = 48 * time.Hour

// Visit is a later look at a covered dish: its name and the time it may be taken in.
type Visit struct {
	Name   string    // how long after the last addition
	At, By time.Time // from when, and until when
}

// Since says what the time of the look counts from, as "30 min after the last addition".
func (v Visit) Since() string {
	if v.Name == nextDay {
		return "a day after the last addition"
	}
	return v.Name + " after the last addition"
}

// Due reports whether the look may be taken now.
func (v Visit) Due(now time.Time) bool { return !now.Before(v.At) && now.Before(v.By) }

// NextVisit gives the later look that is due or comes next. ok is false for a dish that is
// not covered, or has had its last later look.
func NextVisit(t model.Trial, now time.Time) (v Visit, ok bool) {
	added, known := t.LastAdded()
	if !t.Covered || !known || t.SetAside != "" {
		return Visit{}, false
	}
	seen := added // the newest look at this dish
	if last, minutes, found := lastLook(t); found && last.Looked {
		seen = added.Add(time.Duration(minutes * float64(time.Minute)))
	}
	for _, l := range t.Later {
		if l.At.After(seen) {
			seen = l.At
		}
	}
	for i, one := range visits {
		v = Visit{Name: one.name, At: added.Add(one.after), By: added.Add(lastVisit)}
		if i+1 < len(visits) {
			v.By = added.Add(visits[i+1].after)
		}
		if seen.Before(v.At) && now.Before(v.By) {
			return v, true
		}
	}
	return Visit{}, false
}

// IsPastLooks reports whether the time for later looks at a dish is over.
func IsPastLooks(t model.Trial, now time.Time) bool {
	added, known := t.LastAdded()
	return known && !now.Before(added.Add(lastVisit))
}

// lastLook gives the look that later looks are compared with: the last one at the finished
// dish. minutes counts from the last addition to it; found is false where something was
// added after it.
func lastLook(t model.Trial) (s model.Step, minutes float64, found bool) {
	added, known := t.LastAdded()
	for _, one := range slices.Backward(t.Steps) {
		if one.Looked && !one.LeftOut {
			if known && !one.At.IsZero() {
				minutes = max(one.At.Sub(added).Minutes(), 0)
			}
			if one.RestedS != nil {
				minutes += float64(*one.RestedS) / 60
			} else if t.RestS != nil {
				minutes += float64(*t.RestS) / 60
			}
			return one, minutes, true
		}
		if one.Add != model.AddNone {
			break
		}
	}
	return model.Step{}, 0, false
}

// Course holds the changes of a dish after its last look.
type Course struct {
	measure.Course
	Last    float64 // the level of that look
	reading bench.Reading
}

// CourseOf compares a trial's later looks with its last look. ok is false without either,
// and for a dish read beside another.
func CourseOf(r bench.Reading) (c Course, ok bool) {
	t := r.Trial
	added, known := t.LastAdded()
	last, minutes, found := lastLook(t)
	if !known || !found || last.Beside != "" { // a dish read beside another has no level to set others against
		return Course{}, false
	}
	var later []measure.LevelAt
	for _, l := range t.Later {
		if l.Level != nil {
			later = append(later, measure.LevelAt{Minutes: l.At.Sub(added).Minutes(), Level: *l.Level})
		}
	}
	if len(later) == 0 {
		return Course{}, false
	}
	at := measure.LevelAt{Minutes: minutes, Level: last.Level}
	course, ok := measure.FollowUp(at, later, r.Curve().Eye(), t.LevelStep)
	return Course{course, last.Level, r}, ok
}

// laterLines describe the later looks, one line each in order of time. A line tells the
// change, or the reading alone where there is no level to compare it with.
func laterLines(r bench.Reading) []string {
	var lines []string
	course, _ := CourseOf(r)
	added, known := r.Trial.LastAdded()
	for _, l := range r.Trial.Later {
		minutes := l.At.Sub(added).Minutes()
		at := slices.IndexFunc(course.Changes, func(c measure.Change) bool { return c.Minutes == minutes })
		line := fmt.Sprintf("Later, %s: %s.", l.At.Format(model.Day), l.Readings())
		switch {
		case known && l.Level != nil && at >= 0:
			line = lineOf(course.Changes[at], !course.isSure())
		case known:
			line = fmt.Sprintf("%s after the last addition: %s.", model.Capital(after(minutes)), l.Readings())
		}
		if !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	return lines
}

// seenLater finds the newest finished trial in the named liquid with later looks. Trials
// with a course come first; ok is false without any.
func seenLater(p model.Profile, liquid string, own model.OwnSpoons) (r bench.Reading, ok bool) {
	if c, found := CourseOfPowder(p, liquid, own); found {
		return c.reading, true
	}
	for _, n := range p.NewestFirst() {
		t := p.Trials[n]
		if !t.Finished() || len(t.Later) == 0 ||
			!model.SameLiquid(t.WithDefaults(p.Powder.Kind()).Liquid, liquid) {
			continue
		}
		if r, err := bench.Read(p, t, own); err == nil {
			return r, true
		}
	}
	return r, false
}

// Lines describe the changes, one line each, and say which of them may be no change at all.
func (c Course) Lines() []string {
	var lines []string
	for _, change := range c.Changes {
		if line := lineOf(change, !c.isSure()); !slices.Contains(lines, line) {
			lines = append(lines, line)
		}
	}
	return lines
}

// isSure reports whether the looks together tell a change from none.
func (c Course) isSure() bool {
	_, ok := c.Confirmed()
	return ok
}

// lineOf puts one change into a sentence, with its interval in levels; alone where no
// other look bears it out.
func lineOf(change measure.Change, alone bool) string {
	text := fmt.Sprintf("%s after the last addition: %s", model.Capital(after(change.Minutes)), gained(change.Delta))
	if math.IsInf(change.Low, 0) || math.IsInf(change.High, 0) {
		text += ", or more: the ends of the scale are open"
	} else {
		text += fmt.Sprintf(", give or take %s levels", model.Significant(change.High-change.Delta, 2))
	}
	if alone && change.Low <= 0 && change.High >= 0 {
		text += "; one look alone cannot tell that from no change"
	}
	return text + "."
}

// Thinner gives the extra liquid, g per g of powder, for a dish that is to stand at level
// after it has changed. A value below 0 means less liquid. ok is false where the change may
// be none, or leads off the scale.
func (c Course) Thinner(level float64) (liquidPerPowder float64, change measure.Change, ok bool) {
	change, ok = c.Confirmed()
	mix := level - change.Delta
	if !ok || change.Delta == 0 || mix < model.MinAim || mix > model.MaxAim || level < model.MinAim ||
		level > model.MaxAim {
		return 0, change, false
	}
	now, then := c.reading.At(level).Ratio, c.reading.At(mix).Ratio
	if now == nil || then == nil {
		return 0, change, false
	}
	return then.Median - now.Median, change, true
}

// Advice says to mix thinner or thicker, to allow for the change while the dish stands. The
// amount is for powderG of powder; "" where the looks do not allow it.
func (c Course) Advice(level, powderG float64) string {
	more, change, ok := c.Thinner(level)
	if !ok {
		return ""
	}
	how, does, than := "thinner", "gains", "more"
	if change.Delta < 0 {
		how, does, than = "thicker", "loses", "less"
	}
	return fmt.Sprintf("Mix a little %s, to level %s: it %s %s in %s. For %s g powder that is about %s g %s %s than "+
		"level %s takes.", how, model.Number(level-change.Delta), does, levels(math.Abs(change.Delta)),
		after(change.Minutes-c.Start), model.Grams(powderG), model.Significant(math.Abs(more)*powderG, 2), than,
		c.reading.Trial.Liquid, model.Number(level))
}

// CourseOfPowder gives the course of the newest trial in the named liquid that is used and
// has one; ok is false without.
func CourseOfPowder(p model.Profile, liquid string, own model.OwnSpoons) (c Course, ok bool) {
	var newest time.Time
	for _, t := range p.Trials {
		if !t.Used() || len(t.Later) == 0 || t.Started.Before(newest) ||
			!model.SameLiquid(t.WithDefaults(p.Powder.Kind()).Liquid, liquid) {
			continue
		}
		r, err := bench.Read(p, t, own)
		if err != nil {
			continue
		}
		if one, found := CourseOf(r); found {
			c, ok, newest = one, true, t.Started
		}
	}
	return c, ok
}

// Regains compares the levels just stirred and at rest, from the newest look with both; ""
// without one.
func Regains(t model.Trial) string {
	var level, stirred *float64
	for _, s := range t.Steps {
		if s.Looked && s.Beside == "" && s.LevelStirred != nil {
			level, stirred = &s.Level, s.LevelStirred
		}
	}
	for _, l := range t.Later {
		if l.Level != nil && l.Stirred != nil {
			level, stirred = l.Level, l.Stirred
		}
	}
	switch {
	case level == nil:
		return ""
	case *stirred < *level:
		return fmt.Sprintf("Stirring takes %s, and rest gives it back: %s just stirred, %s at rest.",
			levels(*level-*stirred), model.LevelName(*stirred), model.LevelName(*level))
	case *stirred > *level:
		return fmt.Sprintf("Stirring makes it thicker by %s: %s just stirred, %s at rest.", levels(*stirred-*level),
			model.LevelName(*stirred), model.LevelName(*level))
	default:
		return fmt.Sprintf("Just stirred and at rest it stands alike, at %s.", model.LevelName(*level))
	}
}

// gained puts a change of level into words.
func gained(delta float64) string {
	switch {
	case delta > 0:
		return levels(delta) + " thicker"
	case delta < 0:
		return levels(-delta) + " thinner"
	default:
		return "no change"
	}
}

// levels puts a number of levels, 0 or more, into words, to the nearest half.
func levels(n float64) string {
	switch n = math.Round(2*n) / 2; n {
	case 0.5:
		return "half a level"
	case 1:
		return "a level"
	default:
		return model.Number(n) + " levels"
	}
}

// after puts minutes into words: "a minute", "40 min", "2.5 hours", "3 days".
func after(minutes float64) string {
	switch m := int(math.Round(minutes)); {
	case m < 1:
		return "a minute"
	case m < 100:
		return model.Seconds(m * 60)
	case m < 48*60:
		return model.Number(math.Round(minutes/30)/2) + " hours"
	default:
		return model.Plural(int(math.Round(minutes/(24*60))), "day")
	}
}
