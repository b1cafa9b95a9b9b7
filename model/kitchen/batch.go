package kitchen

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// jarFill is the part of a jar that is filled (METHOD, using a ratio).
const jarFill = 0.95

// Amounts are the grams of a batch. Its powder and liquid have the interval of
// the next dish, and belong together crosswise: the low end of the liquid goes
// with the high end of the powder.
type Amounts struct {
	TotalG  float64   // comes out
	MadeG   float64   // with what sticks to the bowl
	ExtrasG []float64 // in the order of the extras
	Powder  fit.Interval
	Liquid  fit.Interval
	// With the median of the powder in the bowl, StartG of the liquid is what
	// the thinnest likely dish takes, HoldBackG what then is held back of the
	// median, and SpareG what the thickest likely one takes beyond it, g.
	StartG, HoldBackG, SpareG float64
}

// amountsOf divides a total: extras first, then powder and liquid by R.
func amountsOf(totalG, allowanceShare, allowanceG float64, extras []model.Extra, r fit.Interval) Amounts {
	a := Amounts{TotalG: totalG, MadeG: totalG*(1+allowanceShare) + allowanceG}
	shares := 0.0
	for _, e := range extras {
		a.ExtrasG = append(a.ExtrasG, a.MadeG*e.Share)
		shares += e.Share
	}
	paste := exactly(a.MadeG * (1 - shares))
	a.Powder = quotient(paste, onePlus(r))
	a.Liquid = quotient(paste, onePlus(inverse(r)))
	a.StartG = a.Powder.Median * r.Low
	a.HoldBackG = a.Powder.Median * (r.Median - r.Low)
	a.SpareG = a.Powder.Median * (r.High - r.Median)
	return a
}

// HoldBack says how much liquid to start with, to hold back and to have at
// hand, so that the dish comes to its level from the thick side.
func (a Amounts) HoldBack(liquid string) string {
	return fmt.Sprintf("Start with %s g of the %s and hold back %s g: stir it in little by little, rest, look; have %s g more at hand.",
		model.Grams(a.StartG), liquid, model.Grams(a.HoldBackG), model.Grams(a.SpareG))
}

// BatchPowder is one powder of a batch.
type BatchPowder struct {
	PastePowder
	Grams  float64
	Spoons *SpoonSum // level spoons at hand; nil where they have no weight
}

// Batch is a paste made to order.
type Batch struct {
	Amounts
	Paste   Paste
	Order   model.Order
	Powders []BatchPowder
	JarG    float64 // what the jar holds, filled to 95 %, g; 0 without a jar
	// SpoonShift is how many levels thicker the powder by spoons makes it, the
	// liquid being weighed; 0 where the powder cannot be spooned.
	SpoonShift float64
	Warnings   []string // those of the paste too
}

// Batch makes the paste to order.
func (p Paste) Batch(o model.Order) (Batch, error) {
	if err := o.Check(); err != nil {
		return Batch{}, err
	}
	b := Batch{Paste: p, Order: o, Warnings: append([]string(nil), p.Warnings...)}
	total := o.TotalG
	if o.JarML > 0 {
		density, err := p.Density()
		if err != nil && total == 0 {
			return Batch{}, err
		}
		b.JarG = jarFill * o.JarML * density
		switch {
		case err != nil:
			b.Warnings = append(b.Warnings, fmt.Sprintf("Whether it goes into the jar is not known: %v.", err))
		case total == 0:
			total = b.JarG
		case total > b.JarG:
			b.Warnings = append(b.Warnings, tooMuch(total, o.JarML, b.JarG))
		}
	}
	b.Amounts = amountsOf(total, o.AllowanceShare, o.AllowanceG, o.Extras, p.Next)
	for _, part := range p.Powders {
		grams := b.Powder.Median * part.Fraction
		b.Powders = append(b.Powders, BatchPowder{part, grams, spoonsOrNone(part.Scales, grams, o.Spoons)})
	}
	b.spoonShift()
	return b, nil
}

// spoonsOrNone is the powder in spoons, nil where it cannot be spooned.
func spoonsOrNone(s model.Scales, grams float64, atHand []string) *SpoonSum {
	sum, err := SpoonsFor(s, grams, atHand)
	if err != nil {
		return nil
	}
	return &sum
}

// spoonShift reckons what rounding to spoons does to the level, Δz = β·Δu, and
// warns where that is more than half a level.
func (b *Batch) spoonShift() {
	spooned := 0.0
	for _, part := range b.Powders {
		if part.Spoons == nil {
			return
		}
		spooned += part.Spoons.Grams
	}
	b.SpoonShift = b.Paste.Slope * math.Log(spooned/b.Powder.Median)
	if text := roundingText(b.SpoonShift); text != "" {
		b.Warnings = append(b.Warnings, text)
	}
}

// tooMuch says that a batch does not go into its jar.
func tooMuch(totalG, jarML, jarG float64) string {
	return fmt.Sprintf("%s g is too much for the jar: filled to 95 %% its %s mL hold %s g.", model.Grams(totalG), model.Number(jarML), model.Grams(jarG))
}

// roundingText warns where rounding to spoons moves the level by more than
// half a one; "" otherwise.
func roundingText(shift float64) string {
	if !(math.Abs(shift) > 0.5) {
		return ""
	}
	return fmt.Sprintf("Rounding the powder to these spoons makes the paste %s: weigh it, or use a smaller spoon.", LevelShift(shift))
}

// LevelShift says how many levels thicker, or, below 0, thinner. The line is
// only local: beyond two levels it does not say how many.
func LevelShift(levels float64) string {
	which := "thicker"
	if levels < 0 {
		which, levels = "thinner", -levels
	}
	if levels > 2 {
		return "more than two levels " + which
	}
	return model.Significant(levels, 2) + " levels " + which
}

// Sentence says the batch in one sentence.
func (b Batch) Sentence() string {
	text := fmt.Sprintf("%s g at %s: %s of %s and %s of %s", model.Grams(b.TotalG), model.LevelName(b.Paste.Level), AmountText(b.Powder), b.Paste.Title(), AmountText(b.Liquid), b.Paste.Basis.Liquid)
	for i, e := range b.Order.Extras {
		text += fmt.Sprintf(", %s g %s", model.Grams(b.ExtrasG[i]), e.Name)
	}
	if b.MadeG != b.TotalG {
		text += fmt.Sprintf("; that makes %s g, %s g of it for the bowl", model.Grams(b.MadeG), model.Grams(b.MadeG-b.TotalG))
	}
	return text + ". " + b.HoldBack(b.Paste.Basis.Liquid)
}
