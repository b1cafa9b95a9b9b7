package bench

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// why gives the chosen addition as an advice: where it is expected to land, then what to
// do or know, one thought a sentence. For a guess that is which addition to take. At the
// target it is what one more look is for. Else it is what the next larger one would risk.
func (r Reading) why(all []candidate, outlooks []fit.Outlook, at int) Advice {
	c := all[at]
	low, high := outlooks[at].Likely()
	a := c.advice(r.landsText(c.add, low, high))
	if r.atTarget() {
		a.Reasons = append(a.Reasons, "you are at the target: one more look makes the answer surer, or finish")
	}
	if isGuess(outlooks[at]) {
		a.Reasons = append(a.Reasons, r.guessReasons(all, outlooks, at)...)
	} else if larger := r.tooLarge(all, outlooks, at); larger != "" && !r.atTarget() {
		a.Reasons = append(a.Reasons, larger)
	}
	return a
}

// landsText says where the look after an addition will likely fall.
func (r Reading) landsText(add model.Add, low, high float64) string {
	switch {
	case r.Trial.Match != nil:
		return "likely looks " + r.landing(low, high)
	case high-low >= model.MaxLevel-model.MinLevel:
		return "anything from " + r.landing(low, high)
	case add == model.AddLiquid:
		return "likely comes back to " + r.landing(low, high)
	default:
		return "likely lands at " + r.landing(low, high)
	}
}

// atTarget reports whether the dish was just seen at the target.
func (r Reading) atTarget() bool {
	last := r.steers.Looks[len(r.steers.Looks)-1].Level
	return r.Trial.Match == nil && math.Abs(last-r.Trial.Aim) <= 0.5
}

// tooLarge says how often the next larger addition of powder would overshoot; "" where
// there is none, or it would be advised too.
func (r Reading) tooLarge(all []candidate, outlooks []fit.Outlook, at int) string {
	larger := -1
	for i, other := range all {
		more := all[at].add == model.AddPowder && other.add == model.AddPowder && other.grams > all[at].grams*1.001
		if more && (larger < 0 || other.grams < all[larger].grams) {
			larger = i
		}
	}
	if larger < 0 {
		return ""
	}
	p := overshoot(outlooks[larger], r.target())
	if p <= risk {
		return ""
	}
	return fmt.Sprintf("more (%s) would %s %s", all[larger].text(), r.goBeyond(), oneIn(p))
}

// goBeyond words an overshoot: a look more than a level above the aim.
func (r Reading) goBeyond() string {
	if r.Trial.Match != nil {
		return "overshoot"
	}
	return "go beyond " + model.Number(beyond(r.target()))
}

// guessReasons says which addition to take where the advised one is a guess.
func (r Reading) guessReasons(all []candidate, outlooks []fit.Outlook, at int) []string {
	best := surest(all, outlooks, at)
	if best < 0 {
		return noCareful(all[at].add)
	}
	low, high := outlooks[best].Likely()
	return careful(all[best], farBelow(outlooks[best], r.target()), r.landing(low, high))
}

// noCareful are the reasons of a guess where no smaller addition is surer.
func noCareful(add model.Add) []string {
	if add == model.AddLiquid {
		return []string{"a guess", "a smaller spoon makes smaller steps"}
	}
	return []string{"a guess", "a smaller spoon, or more liquid in the dish, makes smaller steps"}
}

// careful are the reasons of a guess beside a smaller addition that is none, with where
// that lands.
func careful(c candidate, tellsLittle bool, lands string) []string {
	way := fmt.Sprintf("more careful: %s (%s)", c.text(), lands)
	if tellsLittle {
		way += ", which tells little"
	}
	return []string{"a guess, but no other step tells more: take it", way}
}

// landing writes the range in which a look will likely fall.
func (r Reading) landing(low, high float64) string { return rangeText(low, high, r.Trial.Match != nil) }

// rangeText writes a range of levels, or of looks beside a reference dish.
func rangeText(low, high float64, beside bool) string {
	text := model.Number
	if beside {
		text = func(v float64) string { return model.Besides()[int(v)-int(fit.MuchThinner)].Words() }
	}
	if low == high {
		return text(low)
	}
	return text(low) + " to " + text(high)
}

// aimText names what the trial aims at.
func (r Reading) aimText() string {
	if r.Trial.Match != nil {
		return "the reference dish"
	}
	return "the target level"
}

// oneIn puts a probability into everyday words.
func oneIn(p float64) string {
	switch {
	case p > 0.85:
		return "almost every time"
	case p > 0.6:
		return "two times in three"
	case p > 0.42:
		return "one time in two"
	default:
		return fmt.Sprintf("one time in %s",
			[]string{"two", "three", "four", "five"}[min(max(int(math.Round(1/p))-2, 0), 3)])
	}
}

// familyText names the family in a sentence.
func familyText(f model.Family) string {
	if f == model.Other {
		return "usual powder"
	}
	return f.Words()
}

// familiesText names the powders of a family in a sentence.
func familiesText(f model.Family) string {
	switch f {
	case model.Other:
		return "powders"
	case model.Starch:
		return "starches"
	default:
		return f.Words() + "s"
	}
}
