package kitchen

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"daub.example/daub/model"
)

// jarFill is the share of a jar that is filled (METHOD, using a ratio).
const jarFill = 0.95

// BatchPowder is one powder of a batch.
type BatchPowder struct {
	PastePowder
	Grams  float64
	Spoons *SpoonSum // level spoons at hand; nil where it is better weighed
	Weigh  string    // why it is better weighed, after its name; "" where it can be spooned
}

// Batch is a paste made to order.
type Batch struct {
	Amounts
	Paste    Paste
	Order    model.Order // every extra marked as liquid, oil or dry
	Unsorted []string    // extras whose names daub does not know
	PortionG float64     // of each portion, g; 0 for one bowl
	Powders  []BatchPowder
	JarG     float64 // the jar's filling to 95 %, g; 0 without a jar
	// SpoonShift is the number of levels by which powder measured in spoons makes it
	// thicker, the liquid being weighed; 0 where the powder cannot be spooned.
	SpoonShift float64
	Warnings   []string // those of the paste too
}

// Checked gives the volumes of those spoons that were checked with water; "" without one.
func (b Batch) Checked() string {
	var sums []*SpoonSum
	for _, p := range b.Powders {
		sums = append(sums, p.Spoons)
	}
	return Checked(sums...)
}

// Filled returns the filling of each jar: a portion, or all of it, g.
func (b Batch) Filled() float64 { return cmp.Or(b.PortionG, b.TotalG) }

// Fits reports whether the filling goes into the jar; true without one.
func (b Batch) Fits() bool { return b.JarG == 0 || b.Filled() <= b.JarG*(1+1e-9) }

// Batch makes the paste to order. IsCannot tells an error of the data: liquid extras beyond
// what the powder takes up, or acid with a carbonate in a jar.
func (p Paste) Batch(o model.Order) (Batch, error) {
	if err := o.Check(); err != nil {
		return Batch{}, err
	}
	if err := notTheLiquid(p.Basis.Liquid, o.Extras); err != nil {
		return Batch{}, err
	}
	asked := o.Extras
	o.Extras = withKinds(o.Extras)
	b := Batch{Paste: p, Order: o, Unsorted: model.Unsorted(asked)}
	fizz := FizzOf(p.powders(), p.Basis.Liquid, o.Extras)
	if fizz != nil && o.JarML > 0 {
		return Batch{}, cannot("%s", fizz.InJar())
	}
	total, jar, unknown := p.sizes(o)
	if total == 0 {
		return Batch{}, unknown
	}
	b.JarG = jar
	if o.Portions > 0 {
		b.PortionG = total / float64(o.Portions)
	}
	b.Amounts = amountsOf(total, o.AllowanceShare, o.AllowanceG, o.Extras, p.Next)
	if err := b.check(p.Basis.Liquid, o.Extras); err != nil {
		return Batch{}, err
	}
	if fizz != nil {
		b.Warnings = append(b.Warnings, fizz.Text())
	}
	b.Warnings = append(append(b.Warnings, p.Warnings...), extraWarnings(b.Amounts, p.Basis.Liquid, asked)...)
	if unknown != nil {
		b.Warnings = append(b.Warnings, fmt.Sprintf("Whether it goes into the jar is not known: %v.", unknown))
	}
	if !b.Fits() {
		b.Warnings = append(b.Warnings, tooMuch(b.Filled(), o.JarML, b.JarG))
	}
	if o.Portions > 1 && b.MadeG == b.TotalG {
		b.Warnings = append(b.Warnings, nothingForTheBowl)
	}
	for _, part := range p.Powders {
		grams := b.Powder.Median * part.Fraction
		sum, weigh := spoonsOrWeigh(part.SpoonWeights, grams, o.Spoons)
		b.Powders = append(b.Powders, BatchPowder{part, grams, sum, weigh})
	}
	b.spoonShift()
	return b, nil
}

// nothingForTheBowl warns that the last portion lacks what sticks to bowl and spoon (3 %:
// chosen).
const nothingForTheBowl = "Nothing is made for what sticks to the bowl: the last portion may come out short. 3 % for " +
	"the bowl makes up for it."

// sizes gives the total and the filling of the jar, g. jar is 0 without a jar, and where it
// is not known; unknown then says why.
func (p Paste) sizes(o model.Order) (total, jar float64, unknown error) {
	total = cmp.Or(o.TotalG, float64(o.Portions)*o.PortionG)
	if o.JarML == 0 {
		return total, 0, nil
	}
	density, err := p.Density(o.Extras)
	if err != nil {
		return total, 0, err
	}
	jar = jarFill * o.JarML * density
	return cmp.Or(total, jar*float64(max(o.Portions, 1))), jar, nil
}

// withKinds returns the extras, each marked as liquid, oil or dry.
func withKinds(extras []model.Extra) []model.Extra {
	out := slices.Clone(extras)
	for i := range out {
		out[i] = out[i].WithKind()
	}
	return out
}

// spoonsOrWeigh puts the powder into spoons; where it cannot be spooned or is
// better weighed the sum is nil, and weigh says why.
func spoonsOrWeigh(s model.SpoonWeights, grams float64, atHand []string) (sum *SpoonSum, weigh string) {
	found, err := SpoonsFor(s, grams, atHand)
	switch {
	case err != nil:
		return nil, notWeighed
	case found.Weigh != "":
		return nil, found.Weigh
	}
	return &found, ""
}

// spoonShift works out by the curve what rounding to spoons does to the level, and warns
// where that is more than half a level.
func (b *Batch) spoonShift() {
	spooned := 0.0
	for _, part := range b.Powders {
		if part.Spoons == nil {
			return
		}
		spooned += part.Spoons.Grams
	}
	b.SpoonShift = b.Paste.LevelAt(b.Paste.Next.Median*b.Powder.Median/spooned) - b.Paste.LevelAt(b.Paste.Next.Median)
	if text := roundingText(b.SpoonShift); text != "" {
		b.Warnings = append(b.Warnings, text)
	}
}

// tooMuch says that a batch does not go into its jar.
func tooMuch(totalG, jarML, jarG float64) string {
	return fmt.Sprintf("%s g is too much for the jar: filled to 95 %%, its %s mL hold %s g. It takes one of %s mL or "+
		"more, or less paste.", model.Grams(totalG), model.Number(jarML), model.Grams(jarG),
		model.Number(math.Ceil(jarML*totalG/jarG)))
}

// roundingText warns where rounding to spoons moves the level by more than half a level; ""
// otherwise.
func roundingText(shift float64) string {
	if !(math.Abs(shift) > 0.5) {
		return ""
	}
	return fmt.Sprintf("Rounding the powder to these spoons makes the paste %s: weigh it, or use a smaller spoon.",
		LevelShift(shift))
}

// LevelShift says how many levels thicker, or, below 0, thinner; beyond two levels it gives
// no number.
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

// Sentence gives the batch's amounts and how much liquid to keep back.
func (b Batch) Sentence() string {
	text := fmt.Sprintf("%s g at %s: %s and %s", model.Grams(b.TotalG), model.LevelName(b.Paste.Level),
		AmountOf(b.Powder, b.Paste.Title()), AmountOf(b.Liquid, b.Paste.Basis.Liquid))
	for i, e := range b.Order.Extras {
		text += fmt.Sprintf(", %s g %s", model.Grams(b.ExtrasG[i]), e.Name)
	}
	if b.PortionG > 0 {
		text += fmt.Sprintf("; %s of %s g", model.Plural(b.Order.Portions, "portion"), model.Grams(b.PortionG))
	}
	if b.MadeG != b.TotalG {
		text += fmt.Sprintf("; that makes %s g, %s g of it for the bowl", model.Grams(b.MadeG),
			model.Grams(b.MadeG-b.TotalG))
	}
	return text + ". " + b.HoldBack(b.Paste.Basis.Liquid)
}
