package bench

import (
	"fmt"
	"slices"
	"sync"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Reading is one trial made ready for the fit: the dish at each look, and the level of the
// look.
type Reading struct {
	Profile      model.Profile
	Trial        model.Trial // with defaults filled in
	SpoonWeights model.SpoonWeights
	Dishes       []Dish // after each step
	// Known is the likely ratio at the aim from earlier trials of the powder; the zero
	// value goes by its family. It only steers.
	Known fit.Expected

	data   fit.Data // the looks that count
	stepOf []int    // per look in data, the step it belongs to
	solved func() *fit.Posterior

	// For steering: data, and the looks at dishes whose powder is a guess.
	steers  fit.Data
	steered func() *fit.Posterior
}

// Read calculates a trial of the profile. An error is a *StepError: a step that cannot be
// calculated; the reading then holds the steps before it.
func Read(p model.Profile, t model.Trial, own model.OwnSpoons) (Reading, error) {
	t, own = t.WithDefaults(p.Powder.Kind()), own.At(t.Started)
	r := Reading{Profile: p, Trial: t, SpoonWeights: spoonWeightsOf(p, t, own)}
	dishes, err := Dishes(t, r.SpoonWeights)
	r.Dishes = dishes
	r.data.LevelStep, r.steers.LevelStep = t.LevelStep, t.LevelStep
	if t.Match != nil {
		r.data.ReferenceLevel, r.steers.ReferenceLevel = &t.Match.Level, &t.Match.Level
	}
	for i, dish := range dishes {
		step := t.Steps[i]
		if !step.Looked || step.LeftOut || !dish.Mixed() {
			continue
		}
		look := fit.Look{PowderPerLiquid: dish.PowderPerLiquid(), Level: step.Level}
		if t.Match != nil {
			look.Level = float64(comparedOf(step.Beside))
		}
		r.steers.Looks = append(r.steers.Looks, look)
		if !dish.Guess {
			r.data.Looks = append(r.data.Looks, look)
			r.stepOf = append(r.stepOf, i)
		}
	}
	data, steers := r.data, r.steers
	r.solved = sync.OnceValue(func() *fit.Posterior { return fit.Solve(data) })
	r.steered = r.solved
	if len(steers.Looks) > len(data.Looks) {
		r.steered = sync.OnceValue(func() *fit.Posterior { return fit.Solve(steers) })
	}
	return r, err
}

// spoonWeightsOf returns the spoon weights for a trial's spoonfuls. The trial's own pot
// counts, also in a trial that is set aside or not in the profile yet. Where the pot is
// weighed, spoons never weighed get a guessed weight to steer by.
func spoonWeightsOf(p model.Profile, t model.Trial, own model.OwnSpoons) model.SpoonWeights {
	if !t.PotWeighed() {
		return p.SpoonWeights(t.SpoonSet, own)
	}
	t.SetAside = ""
	at := slices.IndexFunc(p.Trials, func(other model.Trial) bool { return other.Started.Equal(t.Started) })
	p.Trials = slices.Clone(p.Trials)
	if at < 0 {
		p.Trials = append(p.Trials, t)
	} else {
		p.Trials[at] = t
	}
	return p.SpoonWeights(t.SpoonSet, own).Guessing(p.Powder.Kind())
}

// Curve gives the thickening curve fitted to the looks, solved when first asked for.
func (r Reading) Curve() *fit.Posterior {
	if r.solved == nil {
		return fit.Solve(r.data)
	}
	return r.solved()
}

// Sketch is Curve in a third of the time, a little less exact (see fit.Sketch).
func (r Reading) Sketch() *fit.Posterior { return fit.Sketch(r.data) }

// Steered gives the curve that also uses looks at dishes whose powder is still a guess, to
// choose the next addition. No answer uses it.
func (r Reading) Steered() *fit.Posterior {
	if r.steered == nil {
		return fit.Solve(r.steers)
	}
	return r.steered()
}

// PotDue reports whether looks wait for the pot to be weighed again before they count.
func (r Reading) PotDue() bool { return len(r.steers.Looks) > len(r.data.Looks) }

// Dish returns the contents of the dish now.
func (r Reading) Dish() Dish {
	if n := len(r.Dishes); n > 0 {
		return r.Dishes[n-1]
	}
	return StartDish(r.Trial)
}

// Looks gives the number of looks that count.
func (r Reading) Looks() int { return len(r.data.Looks) }

// Closed reports whether any look is closed: levels 1 to 6, as 0 and 7 are open.
func (r Reading) Closed() bool {
	for _, l := range r.data.Looks {
		if l.Level > model.MinLevel && l.Level < model.MaxLevel {
			return true
		}
	}
	return false
}

// Early lists the steps whose look came before half the rest was up.
func (r Reading) Early() []int { return r.timed(model.Early) }

// Late lists the steps whose look came after more than three times the rest.
func (r Reading) Late() []int { return r.timed(model.Late) }

// Timings lists in words which looks were early or late, in the order of the steps.
func (r Reading) Timings() []string {
	var texts []string
	for _, step := range slices.Sorted(slices.Values(append(r.Early(), r.Late()...))) {
		texts = append(texts, r.TimingText(step))
	}
	return texts
}

// TimingText says that the look of a step, counted from 0, was early or late.
func (r Reading) TimingText(step int) string {
	s := r.Trial.Steps[step]
	return fmt.Sprintf("The look of step %d was %s: after %s of a rest of %s", step+1,
		s.Timing(*r.Trial.RestS), model.Seconds(*s.RestedS), model.Seconds(*r.Trial.RestS))
}

// timed lists the steps whose look came early, or late.
func (r Reading) timed(when model.Timing) (steps []int) {
	for i, s := range r.Trial.Steps {
		if s.Timing(*r.Trial.RestS) == when {
			steps = append(steps, i)
		}
	}
	return steps
}

// Answer holds the ratio of one trial at one level: this dish.
type Answer struct {
	fit.Result               // the fit alone
	Dish       *fit.Interval // R widened for the masses; nil when not reached
	PerTsp     *fit.Interval // g liquid per level teaspoon; nil when not reached or no spoon weighed
	Budget     *fit.Budget   // shares of Dish's interval; nil when not reached
	Masses     fit.Masses    // the half-widths behind the budget

	// PotDue says that there is no ratio because the pot has to be weighed again
	// first: the spoonfuls have no weight yet.
	PotDue bool
	// PotLater says that there is no look yet, and that the first one alone will give no
	// ratio: the pot has to be weighed again too.
	PotLater bool

	// Thinner and Thicker say that a look lies on that side of the level, not at it.
	Thinner, Thicker bool

	// Match is the reference dish that the level stands for; nil where levels are named.
	Match *model.Match

	Trial        int        // its index in the profile
	TspG         float64    // g per level teaspoon, 0 without a weighing
	MassesPerTsp fit.Masses // as Masses, for the ratio per teaspoon
}

// Answers reads the trial at several levels at once, in the order given.
func (r Reading) Answers(levels []float64) []Answer {
	answers := make([]Answer, len(levels))
	for i, level := range levels {
		answers[i] = r.At(level)
	}
	return answers
}

// At reads the trial at one level. A trial beside a reference dish has an answer at the
// level of that dish only.
func (r Reading) At(level float64) Answer {
	a := Answer{Result: fit.Result{Nearest: -1}, Match: r.Trial.Match}
	if asked, ok := r.asked(level); ok {
		a.Result = r.Curve().At(asked)
		for _, look := range r.data.Looks {
			a.Thinner, a.Thicker = a.Thinner || look.Level < asked, a.Thicker || look.Level > asked
		}
	}
	a.Level = level
	if a.Ratio == nil {
		a.PotDue, a.PotLater = r.PotDue(), r.potLater()
		return a
	}
	dish := r.DishAtAim()
	a.Masses = dish.Masses(r.SpoonWeights)
	iv, budget := a.Masses.Widen(*a.Ratio)
	a.Dish, a.Budget = &iv, &budget
	if tsp, ok := r.SpoonWeights.Teaspoon(); ok {
		a.TspG, a.MassesPerTsp = tsp, dish.MassesPerSpoon(r.SpoonWeights)
		per, _ := a.MassesPerTsp.Widen(*a.Ratio)
		inTeaspoons := per.Times(tsp)
		a.PerTsp = &inTeaspoons
	}
	return a
}

// asked gives a level on the scale of the fit; false where the trial has no answer at it.
func (r Reading) asked(level float64) (float64, bool) {
	if r.Trial.Match == nil {
		return level, true
	}
	return float64(fit.Same), level == r.Trial.Match.Level
}

// target gives the trial's aim on the scale of the fit: beside a reference dish, as thick.
func (r Reading) target() float64 {
	aim, _ := r.asked(r.Trial.Aim)
	return aim
}

// thinnest gives the look of the plain liquid on the scale of the fit.
func (r Reading) thinnest() float64 {
	if r.Trial.Match != nil {
		return float64(fit.MuchThinner)
	}
	return model.MinLevel
}

// comparedOf turns a look beside a dish into the fit's scale.
func comparedOf(b model.Beside) fit.Compared { return fit.MuchThinner + fit.Compared(b.Number()-1) }

// Reached gives the reach of a level and its bound, without the ratio, so that nothing has
// to be solved.
func (r Reading) Reached(level float64) fit.Result { return r.data.Judge(level) }

// DishAtAim gives the dish at the look nearest the trial's aim in level, the later of
// equals. Its masses widen every level alike, so that limits keep falling.
func (r Reading) DishAtAim() Dish {
	if i := r.stepAtAim(); i >= 0 {
		return r.Dishes[i]
	}
	return r.Dish()
}

// stepAtAim gives the step of the look nearest the trial's aim, -1 without a look that
// counts.
func (r Reading) stepAtAim() int {
	if i := r.data.Nearest(r.target()); i >= 0 {
		return r.stepOf[i]
	}
	return -1
}

// FarOut lists the steps whose look sits far from where the others put it; they are pointed
// out, never dropped.
func (r Reading) FarOut() []int {
	var steps []int
	for _, look := range r.Curve().FarOut() {
		steps = append(steps, r.stepOf[look])
	}
	return steps
}
