package bench

import (
	"errors"
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// MatchTrial sets up a trial that brings another powder to the thickness of this dish at its
// last look that counts. It has the same liquid and rest. slug is the powder of this dish,
// trial the trial's index in the profile. An error says why the dish cannot serve as a
// reference.
func (r Reading) MatchTrial(slug string, trial int) (model.Trial, error) {
	t := r.Trial.Again()
	step := -1
	for i, s := range r.Trial.Steps {
		if s.Looked && !s.LeftOut && i < len(r.Dishes) && r.Dishes[i].HasRatio() {
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
		Powder: slug, Name: r.Profile.Powder.Title(), Trial: trial + 1, Step: step + 1, Level: level,
		PowderPerLiquid: model.RoundSignificant(dish.PowderPerLiquid(), 5),
	}
	if half := dish.Masses(r.SpoonWeights).Half(); half > 0 && !math.IsInf(half, 0) {
		t.Match.Half = model.RoundSignificant(half, 3)
	}
	t.Match.Made, _ = r.Trial.LastAdded()
	t.Aim = level
	return t, nil
}

// changedAfter reports whether powder or liquid was added after a step.
func (r Reading) changedAfter(step int) bool {
	for _, s := range r.Trial.Steps[step+1:] {
		if s.Add == model.AddPowder || s.Add == model.AddLiquid {
			return true
		}
	}
	return false
}

// Stands reports whether a reference dish is still in the record as the match notes it: the
// same masses after the same step.
func (r Reading) Stands(m model.Match) bool {
	const same = 0.005 // relative; what rounding leaves
	i := m.Step - 1
	if i < 0 || i >= len(r.Dishes) || !r.Dishes[i].Mixed() {
		return false
	}
	return math.Abs(math.Log(r.Dishes[i].PowderPerLiquid()/m.PowderPerLiquid)) < same
}

// Factor gives the liquid of a gram of the trial's powder divided by that of a gram of the
// reference dish's (METHOD, side by side). It compares this dish with that one, each with
// its masses. nil where the trial is not beside a dish, or does not reach it.
func (r Reading) Factor() *fit.Interval {
	if r.Trial.Match == nil {
		return nil
	}
	return r.At(r.Trial.Match.Level).Factor()
}

// Factor gives the factor of this answer; nil where Reading.Factor is.
func (a Answer) Factor() *fit.Interval {
	if a.Match == nil || a.Dish == nil {
		return nil
	}
	f := a.Dish.Times(a.Match.PowderPerLiquid).Widen(a.Match.MassesHalf())
	return &f
}

// LookBeside records a look at the last step's dish beside the reference dish. restedS is
// the rest before it, s; nil where it is not known.
func (e *Editor) LookBeside(b model.Beside, restedS *int) error {
	return e.mend(b.Words()+" beside the reference", len(e.stepsOf(e.profile))-1, func(s *model.Step) {
		s.Looked, s.Beside, s.Level, s.RestedS = true, b, 0, restedS
	})
}

// RepeatDue reports whether to make the last look again before the trial ends. The
// reference dish may have thickened while it stood, and only a second look at the same dish
// tells.
func (r Reading) RepeatDue() bool {
	n := len(r.Trial.Steps)
	return r.Trial.Match != nil && n > 1 && r.Trial.Steps[n-1].Add != model.AddNone
}

// times writes a factor with its limits: "1.3 times (1.2 to 1.4)".
func times(f fit.Interval) string {
	return fmt.Sprintf("%s times (%s)", model.Significant(f.Median, 2), ShortRange(f))
}

// besideSentence gives the answer of a dish beside a reference dish.
func (a Answer) besideSentence(liquid string) string {
	dish := a.Match.Dish()
	f := a.Factor()
	switch {
	case f != nil && a.Reach == fit.Bracketed:
		return fmt.Sprintf("It takes %s as much %s as %s, by weight: side by side at %s. This dish was as thick "+
			"with %s.", times(*f), liquid, dish, model.LevelName(a.Level),
			model.PerPowder(IntervalText(*a.Dish), liquid))
	case f != nil:
		return fmt.Sprintf("It takes about %s as much %s as %s, by weight, %s. %s", times(*f), liquid, a.Match.Title(),
			a.testedFrom(), a.closing())
	case a.Bound != nil:
		return fmt.Sprintf("It is not yet as thick as %s: that takes %s. %s", dish,
			model.PerPowder(BoundText(*a.Bound), liquid), a.closing())
	case a.PotDue:
		return "No answer yet: weigh the pot again, and the spoonfuls have a weight."
	default:
		return "No look yet: add powder, stir both dishes ten turns, rest, and look at them side by side."
	}
}

// besideBrief gives the answer of a dish beside a reference dish on one line, the longest
// first.
func (a Answer) besideBrief(liquid string) []string {
	f := a.Factor()
	switch {
	case f != nil:
		text := times(*f)
		side := ""
		if a.Reach != fit.Bracketed {
			text, side = "about "+text, ", "+a.testedFrom()
		}
		return []string{
			text + " as much " + liquid + " as " + a.Match.Title() + side,
			text + " as much as the reference" + side, text,
		}
	case a.Bound != nil:
		low, high := a.Bound.Low*a.Match.PowderPerLiquid, a.Bound.High*a.Match.PowderPerLiquid
		text := BoundText(fit.Bound{Low: low, High: high})
		return []string{text + " times as much as " + a.Match.Title() + " so far", text + " times as much so far"}
	default:
		return a.whenItComes()
	}
}
