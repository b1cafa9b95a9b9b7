package handling

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

// PackingOf judges how much tapping changes a level spoon of a powder. ok is false where
// the weighings do not allow it, such as loose and tapped swapped.
func PackingOf(p model.Packing) (measure.Packing, bool) {
	loose, tapped, ok := p.Weights()
	if !ok {
		return measure.Packing{}, false
	}
	h := tapped.Mean / loose.Mean
	half := math.Hypot(loose.K*loose.UMean, tapped.K*tapped.UMean)
	return measure.Pack(fit.Interval{Median: h, Low: h * math.Exp(-half), High: h * math.Exp(half)})
}

// PackingSentence gives the Hausner ratio, its class, and whether recipes may give the
// powder by the spoon.
func PackingSentence(p model.Packing) string {
	m, ok := PackingOf(p)
	if !ok {
		return fmt.Sprintf("A tapped %s is lighter than a loose one: the two were likely swapped.", p.Spoon)
	}
	text := fmt.Sprintf("A tapped %s holds %s times what a loose one does (Hausner ratio %s to %s), flow %s.", p.Spoon,
		model.Significant(m.Hausner.Median, 3), model.Significant(m.Hausner.Low, 3),
		model.Significant(m.Hausner.High, 3), m.Flow)
	return text + " " + packingAdvice(m)
}

// SpoonPacks gives PackingSentence for one spoon of a powder; "" where it was not weighed
// both loose and tapped.
func SpoonPacks(p model.Powder, spoon string) string {
	for _, one := range p.Packings {
		if one.Spoon == spoon {
			return PackingSentence(one)
		}
	}
	return ""
}

// packingAdvice says whether to give the powder in grams or by the spoon.
func packingAdvice(m measure.Packing) string {
	if m.InGrams {
		return "Give this one in grams: a spoon depends on the hand that fills it."
	}
	return "Spoons will do, filled the same way every time."
}

// InGrams says to weigh a powder rather than spoon it, and why; "" where its packing was
// not weighed, or spoons will do.
func InGrams(p model.Powder) string {
	for _, one := range p.Packings {
		if m, ok := PackingOf(one); ok && m.InGrams {
			return fmt.Sprintf("Weigh %s rather than spoon it: a tapped %s holds %.0f %% more than a loose one.",
				p.Name, one.Spoon, 100*(m.Hausner.Median-1))
		}
	}
	return ""
}
