package bench

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// IntervalText writes an interval: "1.93 (1.71 to 2.20)", or "1.93 (1.71, no upper limit)".
func IntervalText(iv fit.Interval) string {
	switch {
	case math.IsInf(iv.Low, 1) || iv.High == 0 || iv.Low == 0 && math.IsInf(iv.Median, 1):
		return "?"
	case iv.Median == 0:
		return "less than " + model.RatioText(iv.High)
	case math.IsInf(iv.Median, 1):
		return "more than " + model.RatioText(iv.Low)
	case math.IsInf(iv.High, 1):
		return fmt.Sprintf("%s (%s, no upper limit)", model.RatioText(iv.Median), model.RatioText(iv.Low))
	}
	return fmt.Sprintf("%s (%s to %s)", model.RatioText(iv.Median), model.RatioText(iv.Low), model.RatioText(iv.High))
}

// RangeText is an interval without its median: "1.71 to 2.20", or "1.71 or more".
func RangeText(iv fit.Interval) string {
	if math.IsInf(iv.High, 1) {
		return model.RatioText(iv.Low) + " or more"
	}
	return fmt.Sprintf("%s to %s", model.RatioText(iv.Low), model.RatioText(iv.High))
}

// BoundText words the known limits of a ratio that was not reached.
func BoundText(b fit.Bound) string {
	switch {
	case b.Low > 0 && !math.IsInf(b.High, 1):
		return fmt.Sprintf("between %s and %s", model.RatioText(b.Low), model.RatioText(b.High))
	case b.Low > 0:
		return "more than " + model.RatioText(b.Low)
	case !math.IsInf(b.High, 1):
		return "less than " + model.RatioText(b.High)
	default:
		return "unknown"
	}
}

// Sentence gives the answer of this dish, with its reach.
func (a Answer) Sentence(liquid string) string {
	at := model.LevelName(a.Level)
	if a.Match != nil {
		return a.besideSentence(liquid)
	}
	switch {
	case a.Dish != nil && a.Reach == fit.Bracketed:
		return fmt.Sprintf("At %s this dish takes %s; %s.", at,
			model.PerPowder(IntervalText(*a.Dish), liquid), a.testedBoth())
	case a.Dish != nil:
		return fmt.Sprintf("At %s this dish takes about %s, %s. %s", at,
			model.PerPowder(IntervalText(*a.Dish), liquid), a.testedFrom(), a.closing())
	case a.Bound != nil:
		return fmt.Sprintf("Level %s is not reached: it takes %s. %s", at,
			model.PerPowder(BoundText(*a.Bound), liquid), a.closing())
	case a.PotDue:
		return "No ratio yet: weigh the pot again, and the spoonfuls have a weight."
	default:
		return "No look yet: add powder, stir ten turns, rest, and look."
	}
}

// closing says which addition and look would make the reach better.
func (a Answer) closing() string {
	switch a.Missing {
	case fit.MissingThicker:
		return fmt.Sprintf("Add powder until one look is at %s or thicker.", model.Number(a.Level))
	case fit.MissingThinner:
		return fmt.Sprintf("Add liquid until one look is at %s or thinner.", model.Number(a.Level))
	case fit.MissingNear:
		return "A look between the two, within two levels, gives a ratio."
	default:
		return "One more look near it tests the other side."
	}
}

// Term is one share of a budget in the maker's words, with what would shrink
// it.
type Term struct {
	Key    string // as in JSON and files
	Name   string
	Share  float64
	Shrink string
	// Now and After are the half-widths of the whole interval, in ln R, as it is and as it
	// would be after that. 0 where they are not known.
	Now, After float64
}

// Text names the term with what would shrink it, and the half-width that would be left of
// the whole interval where it is known: "the looks: one more look near the target level
// (would make it ±9 %)". It is the name alone where the interval would read the same as now.
func (t Term) Text() string {
	switch {
	case t.After <= 0:
		return t.Name + ": " + t.Shrink
	case PlusMinus(t.After) == PlusMinus(t.Now):
		return t.Name
	default:
		return fmt.Sprintf("%s: %s (would make it %s)", t.Name, t.Shrink, PlusMinus(t.After))
	}
}

// PlusMinus writes a half-width in ln R as a percentage, "±9 %".
func PlusMinus(half float64) string { return "±" + model.Significant(100*half, 2) + " %" }

// BudgetTerms lists a budget's shares, the largest first, without those below half a
// percent.
func BudgetTerms(b fit.Budget) []Term {
	all := []Term{
		{Key: "looks", Share: b.Looks, Name: "the looks", Shrink: "one more look near the target level"},
		{
			Key: "spoon_weight", Share: b.SpoonWeight,
			Name: "what a level spoon weighs", Shrink: "weigh two more level spoons",
		},
		{
			Key: "scoops", Share: b.Scoops,
			Name: "one scoop differing from the next", Shrink: "make a dish twice as big, so that scoops even out",
		},
		{
			Key: "powder_scale", Share: b.PowderScale,
			Name: "the scale, for powder", Shrink: "use twice as much of everything",
		},
		{
			Key: "liquid", Share: b.Liquid,
			Name: "the amount of liquid", Shrink: "weigh the liquid, or take twice as much",
		},
		{
			Key: "spoon_size", Share: b.SpoonSize,
			Name: "the size of spoons never weighed", Shrink: "weigh the small spoons level too",
		},
		{Key: "repeats", Share: b.Repeats, Name: "one dish differing from the next", Shrink: "repeat the trial"},
	}
	var terms []Term
	for _, t := range all {
		if t.Share >= 0.005 {
			terms = append(terms, t)
		}
	}
	slices.SortStableFunc(terms, func(a, b Term) int { return cmp.Compare(b.Share, a.Share) })
	return terms
}

// Headline gives the dish's answer in short, to be copied. An example is "2.2 g water per g
// powder (5.1 g water per level tsp, weighing 2.31 g); this dish 1.9 to 2.6". Where the level
// is not reached it is the Sentence.
func (a Answer) Headline(liquid string) string {
	if f := a.Factor(); f != nil {
		return fmt.Sprintf("%s times as much %s as %s, by weight, side by side at %s; %s",
			model.Significant(f.Median, 2), liquid, a.Match.Title(), model.LevelName(a.Level), ShortRange(*f))
	}
	if a.Dish == nil || a.Dish.Median == 0 || math.IsInf(a.Dish.Median, 1) {
		return a.Sentence(liquid)
	}
	return a.Takes(liquid) + "; this dish " + ShortRange(*a.Dish)
}

// Takes gives the headline's first half, the dish's ratio without its interval. The
// answer must have a ratio.
func (a Answer) Takes(liquid string) string {
	return TakesText(a.Dish.Median, liquid, a.PerTsp, a.TspG, a.Reach)
}

// TakesText gives the ratio per gram, and in brackets that per level teaspoon of tspG g
// where it is known. An example is "2.2 g water per g powder (5.1 g per level tsp, which
// weighs 2.31 g)".
func TakesText(ratio float64, liquid string, perTsp *fit.Interval, tspG float64, reach fit.Reach) string {
	text := model.PerPowder(model.Significant(ratio, 2), liquid)
	if reach == fit.OneSided {
		text = "about " + text
	}
	switch {
	case perTsp == nil:
		return text
	case tspG > 0:
		return fmt.Sprintf("%s (%s g %s per level tsp, weighing %s g)", text, model.Significant(perTsp.Median, 2),
			liquid, model.SpoonGrams(tspG))
	default:
		return fmt.Sprintf("%s (%s g %s per level tsp)", text, model.Significant(perTsp.Median, 2), liquid)
	}
}

// ShortRange writes an interval's limits in few digits: "1.6 to 3.0", or "1.6 or more".
func ShortRange(iv fit.Interval) string {
	if math.IsInf(iv.High, 1) {
		return model.Significant(iv.Low, 2) + " or more"
	}
	return model.Significant(iv.Low, 2) + " to " + model.Significant(iv.High, 2)
}

// Brief gives the answer of this dish on one line, the longest first and shorter ones for
// where there is little room.
func (a Answer) Brief(liquid string) []string {
	if a.Match != nil {
		return a.besideBrief(liquid)
	}
	at, short := "at "+model.LevelName(a.Level), "at "+model.Number(a.Level)
	per := fmt.Sprintf(" g %s per g powder", liquid)
	switch {
	case a.Dish != nil && a.Reach == fit.Bracketed:
		iv := IntervalText(*a.Dish)
		return []string{at + ": " + iv + per, short + ": " + iv}
	case a.Dish != nil:
		iv := "about " + IntervalText(*a.Dish)
		return []string{
			at + ": " + iv + per + ", " + a.testedFrom(),
			short + ": " + iv + fmt.Sprintf(" g %s per g, ", liquid) + a.testedFrom(),
			at + ": " + iv + ", " + a.testedFrom(),
			short + ": " + iv + ", one side only", short + ": " + iv,
		}
	case a.Bound != nil:
		bound := BoundText(*a.Bound)
		return []string{at + ": " + bound + per + " so far", short + ": " + bound + " so far"}
	default:
		return a.whenItComes()
	}
}

// whenItComes says on one line what a trial without any answer still needs.
func (a Answer) whenItComes() []string {
	switch {
	case a.PotDue:
		return []string{"none before the pot is weighed again (p)", "weigh the pot again (p)"}
	case a.PotLater:
		return []string{"comes after the first look and weighing the pot again", "no look yet"}
	default:
		return []string{"comes with the first look", "no look yet"}
	}
}

// testedBoth says where the looks of a bracketed level lie: a look at the level itself
// counts for both sides.
func (a Answer) testedBoth() string {
	switch {
	case a.Thinner && a.Thicker:
		return "tested from both sides"
	case a.Thicker:
		return "seen at this level and thicker"
	case a.Thinner:
		return "seen at this level and thinner"
	default:
		return "seen at this level only"
	}
}

// testedFrom says from which side the level was tested.
func (a Answer) testedFrom() string {
	if a.Match != nil {
		return "seen " + map[bool]string{true: "thicker", false: "thinner"}[a.Missing == fit.MissingThinner] + " only"
	}
	switch a.Missing {
	case fit.MissingThinner:
		return "tested from the thick side only"
	case fit.MissingThicker:
		return "tested from the thin side only"
	default:
		return "tested by one look only"
	}
}
