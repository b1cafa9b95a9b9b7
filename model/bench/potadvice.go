package bench

import (
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// potDue asks for the pot where looks do not count before it is weighed again:
// after the first of them, and when they would be enough.
func (r Reading) potDue() (Advice, bool) {
	if !r.PotOwed() {
		return Advice{}, false
	}
	ask := Advice{Action: ActWeigh, Pot: true}
	ask.Why = "weigh the pot of powder again: until then the spoonfuls have no weight"
	n := len(r.steers.Looks)
	if len(r.data.Looks) == 0 && n == 1 {
		return ask, true
	}
	a := r.Steered().At(r.target())
	enoughLooks := a.Reach == fit.Bracketed && (n >= enough || a.Ratio.HalfWidth() <= r.Trial.Tolerance)
	return ask, enoughLooks
}

// A weighing of the pot is asked for when it leaves at most this share of the
// dish's interval (chosen).
const potGain = 0.9

// potAgain asks to weigh the pot once more where the spoons are the larger doubt
// and that would help.
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
		Why: "the spoons are the larger doubt now; weigh the pot: " + PlusMinus(now) + " becomes " + PlusMinus(then),
	}, true
}

// afterPot is the half-width in ln R that this dish's interval would have if the
// pot were weighed now and had lost what the spoons should hold; ok is false
// where there is nothing to weigh it against.
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
