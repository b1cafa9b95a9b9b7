package bench

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// why says where the chosen addition is expected to land, and what the next larger one
// would risk. For a guess it names a smaller addition that is none.
func (r Reading) why(all []candidate, outlooks []fit.Outlook, at int) string {
	c, aim := all[at], r.target()
	low, high := outlooks[at].Likely()
	does := map[bool]string{true: "comes back to ", false: "lands at "}[c.add == model.AddLiquid]
	text := c.text() + ": likely " + does
	if r.Trial.Match != nil {
		text = c.text() + ": likely looks "
	}
	text += r.landing(low, high)
	if r.Trial.Match == nil && high-low >= model.MaxLevel-model.MinLevel {
		text = fmt.Sprintf("%s: anything from %s", c.text(), r.landing(low, high))
	}
	if isGuess(outlooks[at]) {
		return text + ", a guess; " + r.surer(all, outlooks, at) + r.thereAlready()
	}
	text += r.thereAlready()
	larger := -1
	for i, other := range all {
		more := c.add == model.AddPowder && other.add == model.AddPowder && other.grams > c.grams*1.001
		if more && (larger < 0 || other.grams < all[larger].grams) {
			larger = i
		}
	}
	if larger >= 0 {
		if p := overshoot(outlooks[larger], aim); p > risk {
			text += fmt.Sprintf("; more (%s) would %s %s", all[larger].text(), r.goBeyond(), oneIn(p))
		}
	}
	return text
}

// thereAlready says why more is added to a dish that was just seen at the target.
func (r Reading) thereAlready() string {
	last := r.steers.Looks[len(r.steers.Looks)-1].Level
	if r.Trial.Match != nil || math.Abs(last-r.Trial.Aim) > 0.5 {
		return ""
	}
	return "; the dish is at the target: one more look makes the answer surer"
}

// goBeyond words an overshoot: a look more than a level above the aim.
func (r Reading) goBeyond() string {
	if r.Trial.Match != nil {
		return "overshoot"
	}
	return "go beyond " + model.Number(beyond(r.target()))
}

// surer names the largest addition below a guess that is none itself.
func (r Reading) surer(all []candidate, outlooks []fit.Outlook, at int) string {
	best := surest(all, outlooks, at)
	if best < 0 {
		return noneSurer
	}
	low, high := outlooks[best].Likely()
	return surerText(all[best], farBelow(outlooks[best], r.target()), r.landing(low, high))
}

// noneSurer is shown with a guess where no smaller addition is surer.
const noneSurer = "a smaller spoon, or more liquid, makes for smaller steps"

// surerText names an addition that is no guess, and where it lands.
func surerText(c candidate, tellsLittle bool, lands string) string {
	does := "is surer"
	if tellsLittle {
		does = "is surer but tells little"
	}
	return fmt.Sprintf("%s %s (%s)", c.text(), does, lands)
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
