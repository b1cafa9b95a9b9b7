package bench

import (
	"slices"
	"sync"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Reading is one trial made ready for the fit: what the dish held at each
// look, and what the look said.
type Reading struct {
	Profile      model.Profile
	Trial        model.Trial // with defaults filled in
	SpoonWeights model.SpoonWeights
	Dishes       []Dish // after each step
	// Known is where the ratio at the aim is thought to lie from earlier trials
	// of the powder; the zero value goes by its family. It only steers.
	Known fit.Expected

	data   fit.Data // the looks that count
	stepOf []int    // per look in data, the step it belongs to
	solved func() *fit.Posterior

	// What steers: data, and the looks at dishes whose powder is a guess.
	steers  fit.Data
	steered func() *fit.Posterior
}

// Read calculates a trial of the profile. An error is a *StepError: a step that
// cannot be calculated; the reading then holds what came before it.
func Read(p model.Profile, t model.Trial, d model.OwnSpoons) (Reading, error) {
	t, d = t.WithDefaults(p.Powder.Kind()), d.At(t.Started)
	r := Reading{Profile: p, Trial: t, SpoonWeights: spoonWeightsOf(p, t, d)}
	dishes, err := Dishes(t, r.SpoonWeights)
	r.Dishes = dishes
	r.data.LevelStep, r.steers.LevelStep = t.LevelStep, t.LevelStep
	if t.Match != nil {
		r.data.Beside, r.steers.Beside = &t.Match.Level, &t.Match.Level
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

// spoonWeightsOf returns the spoon weights for a trial's spoonfuls. What the trial's own
// pot says counts for itself, also in a trial that is set aside or not in the
// profile yet; spoons of which nothing is weighed have a weight to steer by
// where the pot is on the scale.
func spoonWeightsOf(p model.Profile, t model.Trial, d model.OwnSpoons) model.SpoonWeights {
	if !t.PotWeighed() {
		return p.SpoonWeights(t.SpoonSet, d)
	}
	t.SetAside = ""
	at := slices.IndexFunc(p.Trials, func(other model.Trial) bool { return other.Started.Equal(t.Started) })
	p.Trials = slices.Clone(p.Trials)
	if at < 0 {
		p.Trials = append(p.Trials, t)
	} else {
		p.Trials[at] = t
	}
	return p.SpoonWeights(t.SpoonSet, d).Guessing(p.Powder.Kind())
}

// Curve is the thickening curve as the looks have it, solved when first asked
// for.
func (r Reading) Curve() *fit.Posterior {
	if r.solved == nil {
		return fit.Solve(r.data)
	}
	return r.solved()
}

// Sketch is Curve in a third of the time, a little less exact (see fit.Sketch).
func (r Reading) Sketch() *fit.Posterior { return fit.Sketch(r.data) }

// Steered is Curve with the looks at dishes whose powder is still a guess: what
// the next addition is chosen by. No answer rests on it.
func (r Reading) Steered() *fit.Posterior {
	if r.steered == nil {
		return fit.Solve(r.steers)
	}
	return r.steered()
}

// PotOwed reports whether looks wait for the pot to be weighed again before they
// count.
func (r Reading) PotOwed() bool { return len(r.steers.Looks) > len(r.data.Looks) }

// Dish returns the contents of the dish now.
func (r Reading) Dish() Dish {
	if n := len(r.Dishes); n > 0 {
		return r.Dishes[n-1]
	}
	return StartDish(r.Trial)
}

// Looks is the number of looks that count.
func (r Reading) Looks() int { return len(r.data.Looks) }

// Closed reports whether any look of a level has two ends, as those at 0 and 7
// have not.
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
	Dish       *fit.Interval // R with what the masses do not know; nil when not reached
	PerTsp     *fit.Interval // g liquid per level teaspoon; nil when not reached or no spoon weighed
	Budget     *fit.Budget   // shares of Dish's interval; nil when not reached
	Masses     fit.Masses    // the half-widths behind the budget

	// PotOwed says that there is no ratio because the pot has to be weighed again
	// first: the spoonfuls have no weight yet.
	PotOwed bool

	// Match is the reference dish that the level stands for; nil where levels are
	// named.
	Match *model.Match

	Trial        int        // its place in the profile
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

// At reads the trial at one level. One beside a reference dish says nothing of
// any level but that of the dish.
func (r Reading) At(level float64) Answer {
	a := Answer{Result: fit.Result{Nearest: -1}, Match: r.Trial.Match}
	if asked, ok := r.asked(level); ok {
		a.Result = r.Curve().At(asked)
	}
	a.Level = level
	if a.Ratio == nil {
		a.PotOwed = r.PotOwed()
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

// asked is a level as the fit has it; false where the trial says nothing of it.
func (r Reading) asked(level float64) (float64, bool) {
	if r.Trial.Match == nil {
		return level, true
	}
	return float64(fit.Same), level == r.Trial.Match.Level
}

// target is the trial's aim as the fit has it: beside a reference dish, as thick.
func (r Reading) target() float64 {
	aim, _ := r.asked(r.Trial.Aim)
	return aim
}

// thinnest is the look of the plain liquid, as the fit has it.
func (r Reading) thinnest() float64 {
	if r.Trial.Match != nil {
		return float64(fit.MuchThinner)
	}
	return model.MinLevel
}

// comparedOf is a look beside a dish as the fit has it.
func comparedOf(b model.Beside) fit.Compared { return fit.MuchThinner + fit.Compared(b.Number()-1) }

// Reached says how far the trial reaches a level, with the bound where it does
// not; without the ratio, so that nothing has to be solved.
func (r Reading) Reached(level float64) fit.Result { return r.data.Judge(level) }

// DishAtAim is the dish at the look nearest the trial's aim in level, the later
// of equals: its masses widen every level alike, so that limits keep falling.
func (r Reading) DishAtAim() Dish {
	if i := r.stepAtAim(); i >= 0 {
		return r.Dishes[i]
	}
	return r.Dish()
}

// stepAtAim is the step of that look, -1 without a look that counts.
func (r Reading) stepAtAim() int {
	if i := r.data.Nearest(r.target()); i >= 0 {
		return r.stepOf[i]
	}
	return -1
}

// FarOut lists the steps whose look sits far from where the others put it;
// it is pointed at, never dropped.
func (r Reading) FarOut() []int {
	var steps []int
	for _, look := range r.Curve().FarOut() {
		steps = append(steps, r.stepOf[look])
	}
	return steps
}
