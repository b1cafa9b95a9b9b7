package kitchen

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/repeats"
)

// Moved is a powder whose older trials now use a spoon's measured volume.
type Moved struct {
	At            int           // its index among the profiles given
	Profile       model.Profile // the profile after the change
	Level         float64
	Before, After repeats.Ratio
}

// OlderTrials applies a spoon's measured volume to trials started before it was measured.
// It gives the maker's new list and every powder whose ratio or trials change. ok is false
// where all trials use it already.
func OlderTrials(profiles []model.Profile, own model.OwnSpoons, spoon string) (
	now model.OwnSpoons, moved []Moved, ok bool,
) {
	if now, ok = handling.ForAll(own, spoon); !ok {
		return own, nil, false
	}
	for i, was := range profiles {
		p, changed := handling.ToOwn(was, spoon)
		m := Moved{At: i, Profile: p, Level: was.Aim()}
		m.Before = repeats.Ratios(was, was.MainBasis(), []float64{m.Level}, own)[0]
		m.After = repeats.Ratios(p, p.MainBasis(), []float64{m.Level}, now)[0]
		if changed || ratioText(m.Before) != ratioText(m.After) {
			moved = append(moved, m)
		}
	}
	return now, moved, true
}

// Text gives the ratio before and after.
func (m Moved) Text() string {
	return fmt.Sprintf("%s at %s: %s before, %s now.", m.Profile.Powder.Title(), model.LevelName(m.Level),
		ratioText(m.Before), ratioText(m.After))
}

// ratioText writes a ratio with its interval, "no ratio" without one.
func ratioText(r repeats.Ratio) string {
	if r.Powder == nil {
		return "no ratio"
	}
	return bench.IntervalText(*r.Rounded().Powder)
}
