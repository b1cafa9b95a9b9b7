package kitchen

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Keep names what stays the same when one powder stands in for another.
type Keep string

// What may be kept.
const (
	KeepLiquid Keep = "liquid"
	KeepPowder Keep = "powder"
	KeepTotal  Keep = "total"
)

// Keeps lists what may be kept, the usual one first.
func Keeps() []Keep { return []Keep{KeepLiquid, KeepPowder, KeepTotal} }

// UsualKeep says what a swap in a recipe keeps unless its maker says otherwise. It is the
// total where there are portions, which are to stay as large, else the liquid.
func UsualKeep(r model.Recipe) Keep {
	if r.Portions > 0 {
		return KeepTotal
	}
	return KeepLiquid
}

// Swap is B in A's place at one level. Amounts are grams; one that was given or is kept as
// given has no width.
type Swap struct {
	Pair                 Pair
	Keep                 Keep
	OldPowder, OldLiquid fit.Interval // of A
	NewPowder, NewLiquid fit.Interval // of B
	Notes                []string
}

// Swap puts B in the place of powderG of A with liquidG of liquid, g. 0 for one of the two
// means that it follows from A's ratio at the level; keep "" keeps the liquid.
func (p Pair) Swap(powderG, liquidG float64, keep Keep) (Swap, error) {
	keep = cmp.Or(keep, KeepLiquid)
	if p.Refused != "" {
		return Swap{}, cannot("no swap: %s", p.WhyNot())
	}
	for _, g := range []float64{powderG, liquidG} {
		if !(g >= 0 && g <= model.MaxGrams) {
			return Swap{}, fmt.Errorf("a swap of %s g is not possible: give a number from 0 to %s", model.Number(g),
				model.Number(model.MaxGrams))
		}
	}
	if powderG == 0 && liquidG == 0 {
		return Swap{}, errors.New("a swap needs an amount: give the grams of powder, of liquid, or of both")
	}
	a, b := p.ratios()
	s := Swap{Pair: p, Keep: keep, OldPowder: exactly(powderG), OldLiquid: exactly(liquidG)}
	total := exactly(powderG + liquidG)
	switch {
	case powderG == 0:
		s.OldPowder = s.OldLiquid.Over(a)
		total = s.OldLiquid.Over(inverse(onePlus(inverse(a)))) // L·(1 + 1/R)
	case liquidG == 0:
		s.OldLiquid = s.OldPowder.Over(inverse(a))
		total = s.OldPowder.Over(inverse(onePlus(a))) // P·(1 + R)
	default:
		s.Notes = p.offLevel(liquidG / powderG)
	}
	switch keep {
	case KeepLiquid:
		s.NewLiquid, s.NewPowder = s.OldLiquid, s.OldLiquid.Over(b)
	case KeepPowder:
		s.NewPowder, s.NewLiquid = s.OldPowder, s.OldPowder.Over(inverse(b))
	case KeepTotal:
		s.NewPowder = total.Over(onePlus(b))
		s.NewLiquid = total.Over(onePlus(inverse(b)))
	default:
		return Swap{}, fmt.Errorf("a swap cannot keep %q: keep liquid, powder or total", string(keep))
	}
	if p.SideBySide != nil && keep == KeepLiquid && liquidG == 0 { // what A takes cancels
		s.NewPowder = s.OldPowder.Over(*p.ByWeight)
	}
	if p.SideBySide != nil && keep == KeepPowder && powderG == 0 {
		s.NewLiquid = product(s.OldLiquid, *p.ByWeight)
	}
	return s, nil
}

// offLevel says where a recipe's own ratio, g/g, is more than half a level from what A
// takes at the level.
func (p Pair) offLevel(ratio float64) []string {
	r := p.A.Ratio
	if r.Curve == nil {
		return nil
	}
	shift := p.A.levelAt(ratio) - r.Level
	if math.Abs(shift) <= 0.5 {
		return nil
	}
	a, _ := p.Names()
	return []string{fmt.Sprintf("By the trials of %s the amounts given are %s than %s; the swap is made for %s.", a,
		LevelShift(shift), model.LevelName(r.Level), model.LevelName(r.Level))}
}

// Spoons gives the new powder in spoons at hand.
func (s Swap) Spoons(atHand []string) (SpoonSum, error) {
	return SpoonsFor(s.Pair.B.SpoonWeights, s.NewPowder.Median, atHand)
}

// Sentence gives the swap, after a warning where rests are apart.
func (s Swap) Sentence() string {
	if s.Pair.RestsApart {
		return s.Pair.Warnings[0] + " " + s.Finding()
	}
	return s.Finding()
}

// Finding is Sentence without a warning of rests apart.
func (s Swap) Finding() string {
	a, b := s.Pair.Names()
	liquid := s.Pair.A.Ratio.Basis.Liquid
	lead := "At"
	if s.Pair.RestsApart {
		lead = "Even so: at"
	}
	text := fmt.Sprintf("%s %s, %s", lead, model.LevelName(s.Pair.A.Ratio.Level), s.standsIn(a, b, liquid))
	if s.Pair.Verdict != Close {
		text += fmt.Sprintf(" Gram for gram it would come out at %s instead of %s: %s.",
			StandingText(*s.Pair.StandsAt), model.LevelName(s.Pair.A.Ratio.Level), s.Pair.verdictText())
	}
	if s.Pair.SideBySide != nil {
		text += " By dishes side by side: " + s.Pair.SideBySide.Text + "."
	}
	return text
}

// standsIn says what stands in for what, beginning with what stays the same.
func (s Swap) standsIn(a, b, liquid string) string {
	switch s.Keep {
	case KeepPowder:
		return fmt.Sprintf("%s takes %s in the place of %s with %s.", AmountOf(s.NewPowder, b),
			AmountOf(s.NewLiquid, liquid), AmountOf(s.OldPowder, a), AmountOf(s.OldLiquid, liquid))
	case KeepTotal:
		return fmt.Sprintf("%s with %s takes the place of %s with %s: as much in all.", AmountOf(s.NewPowder, b),
			AmountOf(s.NewLiquid, liquid), AmountOf(s.OldPowder, a), AmountOf(s.OldLiquid, liquid))
	default:
		if s.NewLiquid.Low < s.NewLiquid.High {
			return fmt.Sprintf("%s takes the place of %s in %s, the %s that the %s takes.", AmountOf(s.NewPowder, b),
				AmountOf(s.OldPowder, a), AmountOf(s.NewLiquid, liquid), liquid, a)
		}
		return fmt.Sprintf("%s takes the place of %s in the same %s.", AmountOf(s.NewPowder, b),
			AmountOf(s.OldPowder, a), AmountOf(s.NewLiquid, liquid))
	}
}

// AmountOf is grams of something with their interval, "2.63 g of Oat (2.01 to 3.44)",
// and without where the amount is known.
func AmountOf(g fit.Interval, of string) string {
	text := fmt.Sprintf("%s g of %s", model.Grams(g.Median), of)
	if g.Low < g.High {
		text += fmt.Sprintf(" (%s to %s)", model.Grams(g.Low), model.Grams(g.High))
	}
	return text
}
