package bench

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// PotStart records what the scale shows for the open pot of powder before the first spoon,
// g; 0 deletes it.
func (e *Editor) PotStart(grams float64) error { return e.potAt(-1, grams) }

// Pot records what the scale shows for the open pot of powder now, g: after the last step,
// or before the first. It asks about a pot that gained, or lost far more or less than the
// spoons should hold: the error is a *Question then.
func (e *Editor) Pot(grams float64) error { return e.potAt(len(e.stepsOf(e.profile))-1, grams) }

// PotAt corrects what the pot weighed after a step, counted from 0; 0 deletes it. It asks
// as Pot does.
func (e *Editor) PotAt(step int, grams float64) error {
	if !e.has(step) {
		return e.noStep(step)
	}
	return e.potAt(step, grams)
}

// potAt records the pot after a step, -1 for before the first.
func (e *Editor) potAt(step int, grams float64) error {
	if e.trial == NoTrial {
		return errors.New("no trial yet: set it up first")
	}
	what := fmt.Sprintf("the pot, %s g", model.Number(grams))
	if grams == 0 {
		what = "removal of a weighing of the pot"
	}
	set := func(t *model.Trial, grams float64) {
		if step < 0 {
			t.PotG = grams
		} else {
			t.Steps[step].PotG = grams
		}
	}
	change := func() error {
		return e.altered(what, step, func(_ *model.Profile, t *model.Trial) { set(t, grams) })
	}
	if !(grams > 0 && grams <= model.MaxGrams) {
		return change()
	}
	with, without := e.draft(), e.draft()
	set(&with.Trials[e.trial], grams)
	set(&without.Trials[e.trial], 0)
	spoons := with.Trials[e.trial].SpoonSet
	weights := without.SpoonWeights(spoons, e.ownSpoons)
	for _, span := range with.Trials[e.trial].PotSpans() {
		if span.To != step+1 && span.From != step+1 {
			continue
		}
		q := askSpan(span, weights)
		if q == nil {
			q = askDensity(span, spoons, e.ownSpoons)
		}
		if q != nil {
			q.insist = change
			return q
		}
	}
	return change()
}

// likelyLoss is the largest factor, either way, between the loss of the pot and the weight
// of its spoonfuls that is not asked about.
const likelyLoss = 2

// askSpan asks about a span that looks like a slip, nil where none does. The spoon weights
// must not include the span itself.
func askSpan(span model.PotSpan, weights model.SpoonWeights) *Question {
	lost := span.SpoonedG()
	if span.LossG < 0 {
		text := fmt.Sprintf("The pot holds %s g more than before. Another pot, or a slip?", model.Grams(-span.LossG))
		return &Question{Key: AskGained, Text: text}
	}
	if len(span.Scoops) == 0 {
		return nil
	}
	if lost <= 0 {
		text := "The pot lost only %s g, no more than was weighed out of it, though spoons were taken too. A slip?"
		return &Question{Key: AskGained, Text: fmt.Sprintf(text, model.Grams(span.LossG))}
	}
	nominal, err := spoonedG(span, weights)
	if err != nil {
		return nil // no weighing to judge by
	}
	if c := lost / nominal; math.Max(c, 1/c) > likelyLoss {
		text := "The pot lost %s g to spoons that should hold %s g. Spilled, or another pot?"
		return &Question{Key: AskLoss, Text: fmt.Sprintf(text, model.Grams(lost), model.Grams(nominal))}
	}
	return nil
}

// askDensity asks about a span whose spoonfuls would be lighter or heavier per mL than
// powders are. nil where they are not, or a spoon has no known size.
func askDensity(span model.PotSpan, set model.SpoonSet, own model.OwnSpoons) *Question {
	ml := 0.0
	for _, s := range span.Scoops {
		size, known := own.Spoon(set, s.Spoon)
		if !known {
			return nil
		}
		ml += size.VolumeML * float64(s.Count)
	}
	if ml == 0 {
		return nil
	}
	text, wild := model.WildDensity(span.SpoonedG(), ml)
	if !wild {
		return nil
	}
	return &Question{Key: AskLoss, Text: fmt.Sprintf("The pot lost %s g to spoons of %s mL. %s. A slip?",
		model.Grams(span.SpoonedG()), model.Significant(ml, 3), text)}
}

// spoonedG returns the weight of the span's spoonfuls by the spoon weights, g, or an error
// where those do not know a spoon.
func spoonedG(span model.PotSpan, weights model.SpoonWeights) (float64, error) {
	sum := 0.0
	for _, s := range span.Scoops {
		scoop, err := weights.Scoop(s.Spoon)
		if err != nil {
			return 0, err
		}
		sum += scoop.Grams * float64(s.Count)
	}
	return sum, nil
}

// potDue asks for the pot where looks only count after it is weighed again: after the first
// of them, and when they would be enough.
func (r Reading) potDue() (Advice, bool) {
	if !r.PotDue() {
		return Advice{}, false
	}
	ask := Advice{Action: ActWeigh, Pot: true}
	ask.Reasons = []string{"weigh the pot of powder again: until then what the spoonfuls weigh is a guess"}
	n := len(r.steers.Looks)
	if len(r.data.Looks) == 0 && n == 1 {
		return ask, true
	}
	a := r.Steered().At(r.target())
	enoughLooks := a.Reach == fit.Bracketed && (n >= enough || a.Ratio.HalfWidth() <= r.Trial.Tolerance)
	return ask, enoughLooks
}

// potLater reports whether a first look is still to come and will have to wait for the pot:
// the powder in the dish, or of a spoon at hand before any is in, weighs a guess.
func (r Reading) potLater() bool {
	if len(r.steers.Looks) > 0 {
		return false
	}
	if r.Dish().PowderG > 0 {
		return r.Dish().Guess
	}
	return slices.ContainsFunc(r.Trial.Spoons, func(name string) bool {
		scoop, err := r.SpoonWeights.Scoop(name)
		return err == nil && scoop.Guess
	})
}

// potGain is the largest share of the dish's interval that a weighing of the pot may leave
// and still be asked for (chosen).
const potGain = 0.9

// potAgain asks to weigh the pot once more where the spoons leave more uncertainty than the
// looks and that would help.
func (r Reading) potAgain(a Answer) (Advice, bool) {
	spoons := a.Budget.SpoonWeight + a.Budget.Scoops + a.Budget.SpoonSize
	if spoons <= a.Budget.Looks {
		return Advice{}, false
	}
	then, ok := r.afterPot(a)
	now := a.Dish.HalfWidth()
	if !ok || then > potGain*now {
		return Advice{}, false
	}
	return Advice{
		Action: ActWeigh, Pot: true, Now: now, Then: then,
		Reasons: []string{"weigh the pot: the spoons are the larger doubt now, and " + PlusMinus(now) + " becomes " +
			PlusMinus(then)},
	}, true
}

// afterPot gives the half-width in ln R of this dish's interval if the pot were weighed
// now. It takes the pot to have lost what the spoons should hold. ok is false where there
// is no earlier weighing to compare with.
func (r Reading) afterPot(a Answer) (half float64, ok bool) {
	t := r.Trial
	if !t.PotOpen() || len(r.Dishes) != len(t.Steps) || a.Ratio == nil {
		return 0, false
	}
	pot := t.PotG
	for i, s := range t.Steps {
		if s.Add == model.AddPowder {
			grams, _ := r.Dishes[i].powder.grams(i)
			pot -= grams
		}
		if s.PotG > 0 {
			pot = s.PotG
		}
	}
	if pot <= 0 {
		return 0, false
	}
	t.Steps = slices.Clone(t.Steps)
	t.Steps[len(t.Steps)-1].PotG = pot
	dishes, err := Dishes(t, r.SpoonWeights)
	if err != nil {
		return 0, false
	}
	iv, _ := dishes[r.stepAtAim()].Masses(r.SpoonWeights).Widen(*a.Ratio)
	return iv.HalfWidth(), true
}
