package fit

import "math"

// Reach tells how well the looks cover a level.
type Reach int

const (
	// NotReached: no closed look within two levels; a bound and no ratio.
	NotReached Reach = iota
	// OneSided: a closed look within two levels, but a single look or nothing
	// on one side; a ratio, and which look is missing.
	OneSided
	// Bracketed: two looks or more, both sides, a closed look within two levels.
	Bracketed
)

// String gives the name used in files and answers.
func (r Reach) String() string {
	switch r {
	case Bracketed:
		return "bracketed"
	case OneSided:
		return "one-sided"
	default:
		return "not-reached"
	}
}

// Tested says from which sides a level was tested.
func (r Reach) Tested() string {
	switch r {
	case Bracketed:
		return "both sides"
	case OneSided:
		return "one side"
	default:
		return "not yet"
	}
}

// Side says the same after a powder's name.
func (r Reach) Side() string {
	switch r {
	case Bracketed:
		return "tested from both sides"
	case OneSided:
		return "tested from one side only"
	default:
		return "not at this level yet"
	}
}

// Missing says which look would make the reach better.
type Missing int

const (
	// MissingNothing: the level is bracketed, or it cannot be asked for.
	MissingNothing Missing = iota
	// MissingThicker: all looks are below the level; add powder.
	MissingThicker
	// MissingThinner: all looks are above the level; add liquid.
	MissingThinner
	// MissingNear: tested from both sides, none within two levels.
	MissingNear
	// MissingSecond: no look yet, or one look only, at the level itself; any
	// look near the level helps.
	MissingSecond
)

// String gives a plain word for the missing look, "" when nothing is missing.
func (m Missing) String() string {
	switch m {
	case MissingThicker:
		return "thicker"
	case MissingThinner:
		return "thinner"
	case MissingNear:
		return "near"
	case MissingSecond:
		return "another"
	default:
		return ""
	}
}

// near is the distance, in levels, within which a closed look gives a ratio (METHOD, reach;
// chosen).
const near = 2

// sides sums up the looks around a level, as far as the reach needs them.
type sides struct {
	looks     int
	close     bool // a closed look within two levels
	below     *Look
	above     *Look
	thickest  float64 // largest x
	thinnest  float64 // smallest x
	nearest   int
	nearestBy float64
}

// survey sums up the looks around a level. A look at the level itself is on both sides. Of
// looks equally near in level the thickest stands for the low side and the thinnest for the
// high side: the two between which the level lies.
func survey(d Data, level float64) sides {
	s := sides{nearest: -1, nearestBy: math.Inf(1), thinnest: math.Inf(1)}
	for i := range d.Looks {
		l := &d.Looks[i]
		if !d.usable(*l) {
			continue
		}
		s.looks++
		s.thickest = max(s.thickest, l.PowderPerLiquid)
		s.thinnest = min(s.thinnest, l.PowderPerLiquid)
		by := math.Abs(l.Level - level)
		s.close = s.close || d.closed(*l) && by <= near
		if by <= s.nearestBy {
			s.nearest, s.nearestBy = i, by
		}
		if l.Level <= level && (s.below == nil || s.below.before(l)) {
			s.below = l
		}
		if l.Level >= level && (s.above == nil || l.before(s.above)) {
			s.above = l
		}
	}
	return s
}

// before orders looks by level, and equal levels by composition.
func (l *Look) before(other *Look) bool {
	if l.Level != other.Level {
		return l.Level < other.Level
	}
	return l.PowderPerLiquid < other.PowderPerLiquid
}

// Nearest gives the index of the look nearest a level, the later of equals; -1 without a
// usable one.
func (d Data) Nearest(level float64) int { return survey(d, level).nearest }

// Judge gives everything about a level but the numbers of the fit.
func (d Data) Judge(level float64) Result {
	s := survey(d, level)
	r := Result{Level: level, Looks: s.looks, Nearest: s.nearest}
	if !d.fittable(level) {
		return r
	}
	r.Missing = s.missing()
	switch {
	case s.close && s.looks >= 2 && s.below != nil && s.above != nil:
		r.Reach = Bracketed
	case s.close:
		r.Reach = OneSided
	default:
		r.Bound = s.bound()
	}
	return r
}

// missing names the look that would make the reach better.
func (s sides) missing() Missing {
	switch {
	case s.below == nil && s.above == nil:
		return MissingSecond
	case s.above == nil:
		return MissingThicker
	case s.below == nil:
		return MissingThinner
	case !s.close:
		return MissingNear
	case s.looks < 2:
		return MissingSecond
	default:
		return MissingNothing
	}
}

// bound gives the answer without a ratio. Looks out of order can put the low look at the
// larger x; the bound then runs between the two all the same.
func (s sides) bound() *Bound {
	switch {
	case s.looks == 0:
		return nil
	case s.above == nil:
		return &Bound{Low: 0, High: 1 / s.thickest}
	case s.below == nil:
		return &Bound{Low: 1 / s.thinnest, High: math.Inf(1)}
	default:
		a, b := 1/s.below.PowderPerLiquid, 1/s.above.PowderPerLiquid
		return &Bound{Low: min(a, b), High: max(a, b)}
	}
}
