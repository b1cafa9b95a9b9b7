package kitchen

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// StandIn is a powder that could go into the place of another.
type StandIn struct {
	Entry model.Entry
	Pair  Pair // of the other and this
}

// mostStandIns limits how many are worked out in full, those with the nearest ratios
// (chosen: more would keep a screen waiting).
const mostStandIns = 20

// Candidates lists the powders of the shelf that were tried in the liquid of the one to be
// replaced, or beside other powders. Those of its family come first, at most so many, 0 for
// all. Archived powders are left out.
func Candidates(replaced model.Entry, shelf []model.Entry, on model.Choice, most int) []model.Entry {
	basis, kind := replaced.Profile.BasisFor(on), replaced.Profile.Powder.Kind()
	others := slices.DeleteFunc(slices.Clone(shelf), func(e model.Entry) bool {
		_, like := basis.Nearest(e.Profile.Bases())
		beside := slices.ContainsFunc(e.Profile.Trials, func(t model.Trial) bool { return t.Match != nil })
		return e.Slug == replaced.Slug || e.Profile.Powder.Archived || like == 0 && !beside
	})
	if most == 0 || len(others) <= most {
		return others
	}
	other := func(e model.Entry) int { return map[bool]int{true: 1}[e.Profile.Powder.Kind() != kind] }
	slices.SortStableFunc(others, func(a, b model.Entry) int { return other(a) - other(b) })
	return others[:most]
}

// StandIns compares the candidates with the powder to be replaced. Those come first that
// stand nearest to the level in its place, gram for gram; those read after rests far apart
// come last.
func StandIns(
	replaced model.Entry, others []model.Entry, level float64, on model.Choice, own model.OwnSpoons,
) ([]StandIn, error) {
	if err := model.CheckLevel(level); err != nil {
		return nil, err
	}
	var out []StandIn
	for _, e := range nearest(replaced, others, level, on, own) {
		c, err := Compare([]model.Entry{replaced, e}, level, on, own)
		if err != nil {
			return nil, err
		}
		if p := c.Against(0)[0]; p.Refused == "" {
			out = append(out, StandIn{e, p})
		}
	}
	off := func(s StandIn) float64 { return math.Abs(s.Pair.StandsAt.Median - level) }
	apart := func(s StandIn) int { return map[bool]int{true: 1}[s.Pair.RestsApart] }
	slices.SortStableFunc(out, func(a, b StandIn) int {
		return cmp.Or(cmp.Compare(apart(a), apart(b)), cmp.Compare(off(a), off(b)))
	})
	return out, nil
}

// NoStandIn says that no powder can be compared with the one to be replaced.
func NoStandIn(replaced model.Powder, level float64) string {
	return fmt.Sprintf("Nothing on the shelf can be compared with %s at %s: that takes a finished trial of both in "+
		"the same liquid.", replaced.Title(), model.LevelName(level))
}

// nearest keeps the powders that stood beside the one to be replaced, then those with the
// nearest ratios, at most mostStandIns.
func nearest(
	replaced model.Entry, others []model.Entry, level float64, on model.Choice, own model.OwnSpoons,
) []model.Entry {
	if len(others) <= mostStandIns {
		return others
	}
	basis := replaced.Profile.BasisFor(on)
	wanted := repeats.Overview(replaced.Profile, basis, level, own).Powder
	far := map[string]float64{}
	others = slices.DeleteFunc(slices.Clone(others), func(e model.Entry) bool {
		if besideEachOther(e, replaced) {
			far[e.Slug] = -1
			return false
		}
		near, like := basis.Nearest(on.Among(e.Profile.Bases()))
		if wanted == nil || like == 0 {
			return true
		}
		r := repeats.Overview(e.Profile, near, level, own).Powder
		if r != nil {
			far[e.Slug] = math.Abs(math.Log(r.Median / wanted.Median))
		}
		return r == nil
	})
	slices.SortStableFunc(others, func(a, b model.Entry) int { return cmp.Compare(far[a.Slug], far[b.Slug]) })
	return others[:min(len(others), mostStandIns)]
}

// besideEachOther reports whether one of the two was tried beside a dish of the other.
func besideEachOther(a, b model.Entry) bool {
	beside := func(e, dish model.Entry) bool {
		return slices.ContainsFunc(e.Profile.Trials, func(t model.Trial) bool {
			return t.Match != nil && t.Match.Powder == dish.Slug
		})
	}
	return beside(a, b) || beside(b, a)
}

// RestsOf says which of the stand-ins were read after rests far from that of the powder to
// be replaced; "" where none was.
func RestsOf(replaced Side, found []StandIn) string {
	sides, names := []Side{replaced}, []string{replaced.Powder.Title()}
	for _, s := range found {
		if s.Pair.RestsApart {
			sides, names = append(sides, s.Pair.B), append(names, s.Entry.Profile.Powder.Title())
		}
	}
	if len(sides) == 1 {
		return ""
	}
	return restsText(sides, names, forComparison)
}

// mostLeftOut limits how many powders LeftOut names (chosen: two or three lines).
const mostLeftOut = 5

// LeftOut says which powders of the shelf are not among the stand-ins found, and why; ""
// where all are. Archived powders are not told of.
func LeftOut(replaced model.Entry, shelf []model.Entry, found []StandIn, level float64, on model.Choice) string {
	basis := replaced.Profile.BasisFor(on)
	var names []string
	for _, e := range shelf {
		listed := slices.ContainsFunc(found, func(s StandIn) bool { return s.Entry.Slug == e.Slug })
		if listed || e.Slug == replaced.Slug || e.Profile.Powder.Archived {
			continue
		}
		why := "no ratio at " + model.LevelName(level)
		if bases := e.Profile.Bases(); len(bases) == 0 {
			why = "no finished trial"
		} else if _, like := basis.Nearest(bases); like == 0 {
			why = "tried in " + bases[0].Liquid
		} else if len(found) == mostStandIns {
			why = "further away"
		}
		names = append(names, fmt.Sprintf("%s (%s)", e.Profile.Powder.Title(), why))
	}
	if len(names) == 0 {
		return ""
	}
	more := ""
	if n := len(names) - mostLeftOut; n > 0 {
		names, more = names[:mostLeftOut], fmt.Sprintf(" and %d more", n)
	}
	return "Not listed: " + strings.Join(names, ", ") + more + "."
}
