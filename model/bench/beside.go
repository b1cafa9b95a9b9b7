package bench

import (
	"errors"
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Beside is a trial, yet to be set up, that brings another powder to the thickness
// of this dish as it stands at its last look that counts: in the same liquid, after
// the same rest. slug is the powder of this dish, trial its place in the profile. An
// error says why the dish cannot serve as a reference.
func (r Reading) Beside(slug string, trial int) (model.Trial, error) {
	t := r.Trial.Again()
	step := -1
	for i, s := range r.Trial.Steps {
		if s.Looked && !s.LeftOut && i < len(r.Dishes) && r.Dishes[i].Mixed() && !r.Dishes[i].Guess {
			step = i
		}
	}
	switch {
	case r.Trial.Match != nil:
		return t, errors.New("this dish was itself brought beside another: bring the powder to that one")
	case step < 0:
		return t, errors.New("no look of this dish counts yet: it has no thickness to bring another to")
	case r.changedAfter(step):
		return t, errors.New("the dish was changed after its last look: look at it once more first")
	case r.Trial.SetAside != "":
		return t, errors.New("this trial is set aside: another dish, or use it again first")
	case slug == "":
		return t, errors.New("the dish is not on the shelf yet: wait until it is saved")
	}
	level := r.Trial.Steps[step].Level
	if !model.IsAskable(level) {
		return t, fmt.Errorf("the dish stands at %s, an open end of the scale: bring it to 1 to 6 first",
			model.LevelName(level))
	}
	dish := r.Dishes[step]
	t.Match = &model.Match{
		Powder: slug, Trial: trial + 1, Step: step + 1, Level: level,
		PowderPerLiquid: model.RoundSignificant(dish.PowderPerLiquid(), 5),
	}
	if half := dish.Masses(r.SpoonWeights).Half(); half > 0 && !math.IsInf(half, 0) {
		t.Match.Half = model.RoundSignificant(half, 3)
	}
	t.Match.Made, _ = r.Trial.LastAdded()
	t.Aim = level
	return t, nil
}

// changedAfter reports whether anything was added after a step.
func (r Reading) changedAfter(step int) bool {
	for _, s := range r.Trial.Steps[step+1:] {
		if s.Add == model.AddPowder || s.Add == model.AddLiquid {
			return true
		}
	}
	return false
}

// Stands reports whether a reference dish is still in the record as the match has
// it: the same masses after the same step.
func (r Reading) Stands(m model.Match) bool {
	const same = 0.005 // relative; what rounding leaves
	i := m.Step - 1
	if i < 0 || i >= len(r.Dishes) || !r.Dishes[i].Mixed() {
		return false
	}
	return math.Abs(math.Log(r.Dishes[i].PowderPerLiquid()/m.PowderPerLiquid)) < same
}

// Factor is how many times as much liquid a gram of the trial's powder takes as a
// gram of the reference dish's (METHOD, side by side): this dish against that one,
// each with its masses. nil where the trial is not beside a dish, or does not reach
// it.
func (r Reading) Factor() *fit.Interval {
	m := r.Trial.Match
	if m == nil {
		return nil
	}
	a := r.At(m.Level)
	if a.Dish == nil {
		return nil
	}
	f := a.Dish.Times(m.PowderPerLiquid).Widen(m.MassesHalf())
	return &f
}

// LookBeside records how the last step's dish stands beside the reference dish,
// after a rest of so many seconds, nil where it is not known.
func (e *Editor) LookBeside(b model.Beside, restedS *int) error {
	return e.mend(b.Words()+" beside the reference", len(e.stepsOf(e.profile))-1, func(s *model.Step) {
		s.Looked, s.Beside, s.Level, s.RestedS = true, b, 0, restedS
	})
}

// RepeatOwed reports whether the last look is to be made again before the trial
// ends: the reference dish may have thickened while it stood, and only the same
// dish looked at twice tells.
func (r Reading) RepeatOwed() bool {
	n := len(r.Trial.Steps)
	return r.Trial.Match != nil && n > 1 && r.Trial.Steps[n-1].Add != model.AddNone
}

// FactorText says what the factor is of.
func (r Reading) FactorText() string {
	f := r.Factor()
	if f == nil {
		return ""
	}
	m := r.Trial.Match
	return fmt.Sprintf("It takes %s times (%s to %s) as much %s as %s by weight, side by side at %s.",
		model.Significant(f.Median, 2), model.Significant(f.Low, 2), model.Significant(f.High, 2), r.Trial.Liquid,
		m.Names(), model.LevelName(m.Level))
}

// besideSentence says the answer of a dish beside a reference dish.
func (a Answer) besideSentence(liquid string) string {
	at := a.Match.Names()
	switch {
	case a.Dish != nil && a.Reach == fit.Bracketed:
		return fmt.Sprintf("This dish is as thick as %s with %s g %s per g powder; seen thinner and thicker.", at,
			IntervalText(*a.Dish), liquid)
	case a.Dish != nil:
		return fmt.Sprintf("This dish is as thick as %s with about %s g %s per g powder, %s: %s.", at,
			IntervalText(*a.Dish), liquid, a.side(), a.closing())
	case a.Bound != nil:
		return fmt.Sprintf("It is not yet as thick as %s: that takes %s g %s per g powder; %s.", at,
			BoundText(*a.Bound), liquid, a.closing())
	case a.PotOwed:
		return "No ratio yet: weigh the pot again, and the spoonfuls have a weight."
	default:
		return "No look yet: add powder, stir both dishes ten turns, rest, and look at them side by side."
	}
}
