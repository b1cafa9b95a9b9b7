package shelf

import (
	"fmt"
	"slices"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

// Waiting is a covered dish that waits for its next later look.
type Waiting struct {
	Entry model.Entry
	Trial int // its index in the profile
	handling.Visit
}

// Text says which look is due, as "later look due: Rye flour, 30 min".
func (d Waiting) Text() string {
	return fmt.Sprintf("later look due: %s, %s", printable.Line(d.Entry.Profile.Powder.Title()), d.Name)
}

// Waiting lists all covered dishes whose next later look is due or still to come,
// as the shelf was last read. Without a covered dish the list is empty.
func (s *List) Waiting(now time.Time) (all []Waiting) {
	for i := range s.rows {
		r := &s.rows[i]
		if r.keeps {
			all = append(all, WaitingOf(r.entry, now)...)
		}
	}
	return all
}

// WaitingOf lists the covered dishes of one powder that wait for a later look.
func WaitingOf(e model.Entry, now time.Time) (all []Waiting) {
	for n, t := range e.Profile.Trials {
		if v, ok := handling.NextVisit(t, now); ok {
			all = append(all, Waiting{e, n, v})
		}
	}
	return all
}

// Keeps reports whether a dish of the powder is kept covered.
func Keeps(p model.Profile) bool {
	return slices.ContainsFunc(p.Trials, func(t model.Trial) bool { return t.Covered })
}

// Keeps reports whether any dish is kept covered; if none is, no clock is read.
func (s *List) Keeps() bool {
	return slices.ContainsFunc(s.rows, func(r row) bool { return r.keeps })
}

// due returns the first dish whose later look is due now.
func (s *List) due() (d Waiting, ok bool) {
	if !s.Keeps() {
		return Waiting{}, false
	}
	now := s.deps.Now()
	for _, w := range s.Waiting(now) {
		if w.Due(now) {
			return w, true
		}
	}
	return Waiting{}, false
}

// openLater opens the later looks of the dish that is due. If none is due, it opens
// those of the newest trial of the powder under the cursor.
func (s *List) openLater() ui.Next {
	if d, ok := s.due(); ok {
		return ui.OpenLater{Session: ui.NewSession(d.Entry, d.Trial, s.deps.OwnSpoons)}
	}
	e := s.at().entry
	n := e.Profile.Newest()
	if n < 0 || e.Profile.Trials[n].State != model.Done {
		s.Refuse("no finished trial of this powder to look at again")
		return s
	}
	return ui.OpenLater{Session: ui.NewSession(e, n, s.deps.OwnSpoons)}
}
