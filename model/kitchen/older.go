package kitchen

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/repeats"
)

// Moved is a powder whose older trials go by what was measured of a spoon.
type Moved struct {
	At            int           // its place among the profiles given
	Profile       model.Profile // as it stands from then on
	Level         float64
	Before, After repeats.Ratio
}

// OlderTrials lets the trials that were started before a spoon was measured go by
// its size too: it gives the maker's list as it then is, and every powder that
// this moves. ok is false where all trials go by it already.
func OlderTrials(profiles []model.Profile, d model.OwnSpoons, spoon string) (
	now model.OwnSpoons, moved []Moved, ok bool,
) {
	if now, ok = handling.ForAll(d, spoon); !ok {
		return d, nil, false
	}
	for i, was := range profiles {
		p, changed := handling.ToOwn(was, spoon)
		m := Moved{At: i, Profile: p, Level: was.Aim()}
		m.Before = repeats.Ratios(was, was.MainBasis(), []float64{m.Level}, d)[0]
		m.After = repeats.Ratios(p, p.MainBasis(), []float64{m.Level}, now)[0]
		if changed || ratioText(m.Before) != ratioText(m.After) {
			moved = append(moved, m)
		}
	}
	return now, moved, true
}

// Text says the ratio before and after.
func (m Moved) Text() string {
	return fmt.Sprintf("%s at %s: %s before, %s now.", m.Profile.Powder.Title(), model.LevelName(m.Level),
		ratioText(m.Before), ratioText(m.After))
}

func ratioText(r repeats.Ratio) string {
	if r.Powder == nil {
		return "no ratio"
	}
	return bench.IntervalText(*r.Told().Powder)
}
