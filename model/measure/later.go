package measure

import (
	"cmp"
	"math"
	"slices"
)

// Levels run from 0 to 7; a look at either end is open: "or below", "or above".
const lowestLevel, highestLevel = 0.0, 7.0

// LevelAt is a look: the level, 0 to 7, and the minutes since the last addition.
type LevelAt struct {
	Minutes, Level float64
}

// Change is the number of levels a dish has gained since its last look, with its 95 %
// interval. An end is infinite where one of the two looks is at 0 or 7.
type Change struct {
	Minutes          float64 // since the last addition, at least 1
	Delta, Low, High float64
}

// clear reports whether the interval excludes no change.
func (c Change) clear() bool { return c.Low > 0 || c.High < 0 }

// Course holds the changes of a dish after its last look.
type Course struct {
	// Start is the time of the last look, minutes since the last addition, at least 1.
	Start float64
	// Changes are those of the later looks, in order of time.
	Changes []Change
}

// FollowUp compares later looks with a dish's last look (METHOD, later looks). The change
// is Δ = level then - level at the last look, ± 1.96·√(2σ² + step²/6). sigma is the scatter
// of a look in levels; levels are read to the nearest step.
//
// Impossible later looks, and those not after the last look, are left out; of two at one
// time the one given last counts. ok is false without a later look, where the last look is
// impossible, and where sigma or step is not finite and above 0.
func FollowUp(last LevelAt, later []LevelAt, sigma, step float64) (c Course, ok bool) {
	if !sound(last) || !positive(sigma, step) {
		return Course{}, false
	}
	half := 1.96 * math.Sqrt(2*sigma*sigma+step*step/6)
	c.Start = max(last.Minutes, 1)
	for _, l := range later {
		if !sound(l) || max(l.Minutes, 1) <= c.Start {
			continue
		}
		change := Change{Minutes: l.Minutes, Delta: l.Level - last.Level}
		change.Low, change.High = change.Delta-half, change.Delta+half
		if l.Level >= highestLevel || last.Level <= lowestLevel {
			change.High = math.Inf(1)
		}
		if l.Level <= lowestLevel || last.Level >= highestLevel {
			change.Low = math.Inf(-1)
		}
		same := func(other Change) bool { return other.Minutes == change.Minutes }
		c.Changes = append(slices.DeleteFunc(c.Changes, same), change)
	}
	slices.SortFunc(c.Changes, func(a, b Change) int { return cmp.Compare(a.Minutes, b.Minutes) })
	return c, len(c.Changes) > 0
}

// sound reports whether a look is possible: a level from 0 to 7, at 0 minutes or later.
func sound(l LevelAt) bool {
	return finite(l.Minutes) && l.Minutes >= 0 && l.Level >= lowestLevel && l.Level <= highestLevel
}

// At interpolates the change at a time, minutes since the last addition (at least 1). It
// starts from no change at the last look and runs straight in ln t between looks, and so do
// the limits. ok is false before the last look and after the last later one.
func (c Course) At(minutes float64) (Change, bool) {
	t := max(minutes, 1)
	if !finite(t) || len(c.Changes) == 0 || t < c.Start {
		return Change{}, false
	}
	before := Change{Minutes: c.Start}
	for _, after := range c.Changes {
		if t <= after.Minutes {
			return between(before, after, t), true
		}
		before = after
	}
	return Change{}, false
}

// between interpolates the change at t, straight in ln t from a to b.
func between(a, b Change, t float64) Change {
	w := math.Log(t/a.Minutes) / math.Log(b.Minutes/a.Minutes)
	switch { // at the ends exactly, where an infinite limit would have no weight
	case !(w > 0):
		return Change{t, a.Delta, a.Low, a.High}
	case !(w < 1):
		return Change{t, b.Delta, b.Low, b.High}
	}
	mix := func(from, to float64) float64 { return (1-w)*from + w*to }
	return Change{t, mix(a.Delta, b.Delta), mix(a.Low, b.Low), mix(a.High, b.High)}
}

// Confirmed is the earliest later look whose change may be told as advice: its
// interval excludes no change, or the next look apart from it moved the same way.
// A look that is not apart from another bears nothing out, but can take it back: then
// neither is told. ok is false where there is none.
func (c Course) Confirmed() (Change, bool) {
	for i, change := range c.Changes {
		later := c.Changes[i+1:]
		next := slices.IndexFunc(later, change.isApart)
		if next < 0 {
			next = len(later)
		}
		against := func(other Change) bool { return change.Delta*other.Delta <= 0 }
		if slices.ContainsFunc(later[:next], against) {
			continue
		}
		agreed := next < len(later) && !against(later[next])
		if change.clear() || agreed {
			return change, true
		}
	}
	return Change{}, false
}

// isApart reports whether a later change is a look of its own: a quarter of the time since
// the last addition has passed in between, and a minute at the least (chosen). Sooner, the
// same eye only says again what it has just said of the same dish.
func (c Change) isApart(later Change) bool {
	return later.Minutes-c.Minutes >= max(c.Minutes/4, 1)
}
