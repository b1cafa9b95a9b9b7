package bench

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Action is the kind of step that the bench advises.
type Action string

// The actions.
const (
	ActPowder Action = "powder"
	ActLiquid Action = "liquid"
	ActWeigh  Action = "weigh" // weigh level spoons: more looks will not help
	ActStop   Action = "stop"  // the answer is good enough
	ActLook   Action = "look"  // look at the same dish again, before the end
)

// Advice is the next step that the bench proposes, with its reason.
type Advice struct {
	Action Action
	Spoon  string  // "" for an addition by weight, and when nothing is to be added
	Count  int     // spoons; 0 without a spoon
	Grams  float64 // the addition's weight, g; 0 when nothing is to be added
	Lands  string  // where the next look will likely fall; "" where that is not known
	// Reasons say what to do or know, one thought a sentence, the most needed first. They
	// begin small and have no full stop.
	Reasons []string
	// Pot says that ActWeigh means the pot of powder, not level spoons.
	Pot bool
	// Now and Then are the half-widths of the dish's interval in ln R before and after the
	// weighing; 0 where they are not known.
	Now, Then float64
}

// Step gives the advice as a step of the trial; ok is false when nothing is to be added.
func (a Advice) Step() (s model.Step, ok bool) {
	switch a.Action {
	case ActPowder, ActLiquid:
		s = model.Step{Add: model.Add(a.Action), Spoon: a.Spoon, Count: a.Count}
		if a.Spoon == "" {
			s.Grams = a.Grams
		}
		return s, true
	case ActLook:
		return model.Step{Add: model.AddNone}, true
	default:
		return model.Step{}, false
	}
}

// Text says the advice in sentences, without the last full stop: the addition, if there is
// one, and the reasons.
func (a Advice) Text() string {
	sentences := a.Reasons
	if a.Lands != "" {
		sentences = append([]string{a.Lands}, sentences...)
	}
	text := Sentences(sentences)
	if s, ok := a.Step(); ok && s.Add != model.AddNone {
		return s.Amount() + ": " + text
	}
	return text
}

// Sentences joins what is told one thought a sentence; the first stays small and the last
// without its full stop.
func Sentences(told []string) string {
	var text strings.Builder
	for i, sentence := range told {
		if i > 0 {
			sentence = ". " + model.Capital(sentence)
		}
		text.WriteString(sentence)
	}
	return text.String()
}

// candidate is an addition that could be made.
type candidate struct {
	add   model.Add
	spoon string
	count int
	grams float64
}

// text writes the amount of the addition.
func (c candidate) text() string {
	s := model.Step{Spoon: c.spoon, Count: c.count}
	if c.spoon == "" {
		s.Grams = c.grams
	}
	return s.Amount()
}

// advice proposes the addition, with where it lands and the reasons for it.
func (c candidate) advice(lands string, reasons ...string) Advice {
	return Advice{
		Action: Action(c.add), Spoon: c.spoon, Count: c.count, Grams: c.grams, Lands: lands, Reasons: reasons,
	}
}

// Advice says what to add next, or why to stop. ok is false for a dish without liquid where
// no spoon of it is known, and where no addition is needed before a look.
func (r Reading) Advice() (Advice, bool) {
	if len(r.steers.Looks) == 0 {
		return r.first()
	}
	if ending, ok := r.potDue(); ok {
		return ending, true
	}
	if ending, ok := r.ending(r.At(r.Trial.Aim)); ok {
		if ending.Action == ActStop && r.RepeatDue() {
			return Advice{Action: ActLook, Reasons: []string{"look at both dishes once more: the reference may have " +
				"thickened while it stood"}}, true
		}
		return ending, true
	}
	if ending, ok := r.hopeless(); ok {
		return ending, true
	}
	return r.next()
}

// first gives the addition before the first look. For an unknown powder it is as much as
// the thirstiest of the family needs to reach the aim, rounded down to spoons at hand, so
// that any other stays below. For a known powder it is the nearest to its ratio, for looks
// near the aim tell most. ok is false where that is in the dish already: a look comes
// first.
func (r Reading) first() (Advice, bool) {
	if r.Dish().LiquidG <= 0 {
		liquids := r.candidates(model.AddLiquid)
		if len(liquids) == 0 {
			return Advice{}, false
		}
		return liquids[0].advice("", "there is no liquid in the dish yet"), true
	}
	want := r.wantedG()
	if want <= 0 {
		return Advice{}, false
	}
	best := candidate{add: model.AddPowder, grams: r.weighable(want)}
	all := r.bySpoon(model.AddPowder)
	for i, c := range all {
		if i == 0 || r.suitsBetter(c.grams, best.grams, want) {
			best = c
		}
	}
	switch {
	case best.grams <= 1.5*want:
		return r.firstWhy(best, all), true
	case r.thirstShare(best) <= risk:
		return best.advice("", "only a very thirsty powder would come out too thick"), true
	default:
		return best.advice("", "the smallest at hand, and it may overshoot", "more liquid first would be safer"), true
	}
}

// firstWhy gives a first addition as an advice: where it should land, and which to take
// where that is a guess.
func (r Reading) firstWhy(c candidate, all []candidate) Advice {
	lands := r.foreseen(c)
	switch {
	case !r.isKnown():
		a := c.advice("", fmt.Sprintf("should stay thinner than %s %s", r.aimText(), r.Basis()),
			"that is meant: start thin")
		if lands.Guess() {
			a.Reasons = append(a.Reasons, "how thin it will be is a guess")
		}
		return a
	case !lands.Guess():
		return c.advice("", fmt.Sprintf("should come near %s, %s of this powder", r.aimText(), r.Basis()))
	}
	reasons, best := noCareful(c.add), 0.0
	for _, other := range all {
		f := r.foreseen(other)
		if other.grams < c.grams && other.grams > best && !f.Guess() {
			best, reasons = other.grams, careful(other, f.High < r.target()-1, f.Range())
		}
	}
	does := map[bool]string{true: "looks", false: "lands at"}[lands.SideBySide]
	return c.advice(fmt.Sprintf("likely %s %s %s", does, lands.Range(), r.Basis()), reasons...)
}

// foreseen forecasts the look after a first addition.
func (r Reading) foreseen(c candidate) Forecast {
	f := Forecast{SideBySide: r.Trial.Match != nil}
	r.foresee(&f, r.Dish().with(c).PowderPerLiquid())
	return f
}

// thirstShare gives the share of the expected ratios, in ln R, with which the dish would go
// beyond its aim after a first addition of powder.
func (r Reading) thirstShare(c candidate) float64 {
	e, dish := r.expected(), r.Dish()
	least := math.Exp((beyond(r.Trial.Aim)-r.Trial.Aim)/usualSlope) * dish.LiquidG / (dish.PowderG + c.grams)
	return math.Max(math.Log(e.High/least), 0) / math.Log(e.High/e.Low)
}

// suitsBetter reports whether a first addition of a grams suits the wanted grams better
// than one of b. The largest below is better, or, for a known powder, the nearest.
func (r Reading) suitsBetter(a, b, want float64) bool {
	if r.isKnown() {
		return math.Abs(math.Log(a/want)) < math.Abs(math.Log(b/want))
	}
	if a <= want {
		return a > b || b > want
	}
	return a < b
}

// shy is the part of the powder needed at the known ratio that a first addition takes: one
// that overshoots tells less (chosen; tried on simulated benches).
const shy = 0.89

// wantedG gives the powder, g, still missing to reach the aim. It goes by the thirstiest of
// the family, or by nearly the middle of what is known of the powder. It is below 0 where
// the dish holds more than that.
func (r Reading) wantedG() float64 {
	ratio := r.expected().High
	if r.isKnown() {
		ratio = math.Sqrt(r.Known.Low*r.Known.High) / shy
	}
	return r.Dish().LiquidG/ratio - r.Dish().PowderG
}

// usualSlope is the prior's median slope of the thickening curve, levels per e-fold of
// powder per liquid.
const usualSlope = 6

// expected gives the likely ratio at the aim: from earlier trials, else the family's. The
// family's range is of level 5; a thinner aim takes more liquid. It steers additions and
// never reaches an answer.
func (r Reading) expected() fit.Expected {
	if r.isKnown() {
		return r.Known
	}
	low, high := r.Profile.Powder.Kind().FirstRange()
	thinner := math.Exp((5 - r.Trial.Aim) / usualSlope)
	return fit.Expected{Low: low * thinner, High: high * thinner}
}

// isKnown reports whether earlier trials of the powder steer this one.
func (r Reading) isKnown() bool { return r.Known.Low > 0 && r.Known.High > r.Known.Low }

// enough is the number of looks at one dish after which more are not worth their spoons,
// once the aim is bracketed (chosen).
const enough = 12

// ending advises to stop, or to weigh, when more looks have little to give.
func (r Reading) ending(a Answer) (Advice, bool) {
	if a.Ratio == nil || a.Reach != fit.Bracketed {
		return Advice{}, false
	}
	tolerance := r.Trial.Tolerance
	looks, dish := a.Ratio.HalfWidth(), a.Dish.HalfWidth()
	masses := math.Sqrt(math.Max(dish*dish-looks*looks, 0))
	n := len(r.data.Looks)
	if looks <= tolerance || n >= enough || dish > tolerance && masses > tolerance {
		if pot, ok := r.potAgain(a); ok {
			return pot, true
		}
	}
	if dish > tolerance && masses > tolerance && a.Budget.SpoonWeight > 0.5 {
		return Advice{
			Action: ActWeigh,
			Reasons: []string{fmt.Sprintf("weigh two more level spoons: what a spoon weighs is %.0f %% of the doubt, "+
				"and more looks won't help", 100*a.Budget.SpoonWeight)},
		}, true
	}
	if n >= enough && looks > tolerance {
		return Advice{
			Action: ActStop,
			Reasons: []string{
				fmt.Sprintf("after %d looks the ratio is known to %s", n, PlusMinus(looks)),
				"a repeat in a fresh dish now tells more than more spoonfuls",
			},
		}, true
	}
	if looks <= tolerance {
		a := Advice{Action: ActStop, Reasons: []string{Doubt(looks, dish, tolerance)}}
		if unseen := r.unseen(); unseen != "" {
			a.Reasons = append(a.Reasons, unseen)
		}
		return a, true
	}
	return Advice{}, false
}

// Doubt gives the half-width by the looks with the tolerance wanted, and the one with the
// masses where that is more; all are in ln R.
func Doubt(looks, dish, tolerance float64) string {
	text := fmt.Sprintf("the looks alone give %s (%s wanted)", PlusMinus(looks), PlusMinus(tolerance))
	if PlusMinus(dish) != PlusMinus(looks) {
		text += "; with spoons and scale " + PlusMinus(dish)
	}
	return text
}

// BackG gives the liquid, g, that brings a dish which is too thick back to its aim. It is 0
// beside a dish, without an answer, and for a dish that is not too thick.
func (r Reading) BackG() float64 {
	dish, a := r.Dish(), r.At(r.Trial.Aim)
	if r.Trial.Match != nil || a.Dish == nil {
		return 0
	}
	return math.Max(a.Dish.Median*dish.PowderG-dish.LiquidG, 0)
}

// unseen says what a maker who stops may still want to do. It names a look that does not
// fit, the liquid that brings an open dish back to the aim, or an aim not seen yet; ""
// otherwise.
func (r Reading) unseen() string {
	if far := r.FarOut(); len(far) > 0 {
		return fmt.Sprintf("step %d does not fit the others, was it misread?", far[0]+1)
	}
	if r.Trial.Match != nil {
		return "" // seen beside the dish itself
	}
	last, nearest, half := 0.0, math.Inf(1), cmp.Or(r.Trial.LevelStep, 1)/2
	for _, l := range r.data.Looks {
		last, nearest = l.Level, math.Min(nearest, math.Abs(l.Level-r.Trial.Aim))
	}
	aim := model.LevelName(r.Trial.Aim)
	if last > r.Trial.Aim+half && r.Trial.State != model.Done {
		if liquidG := r.BackG(); liquidG > 0 {
			return fmt.Sprintf("about %s g %s brings it back to %s", model.Significant(liquidG, 2),
				r.Trial.Liquid, aim)
		}
	}
	if nearest > half {
		return fmt.Sprintf("%s itself was not seen yet, one more look there would show it", aim)
	}
	return ""
}

// hopeless advises to stop where the dish holds far more powder than any of the family
// should need, and no look yet is above 0.
func (r Reading) hopeless() (Advice, bool) {
	const far = 4
	for _, l := range r.steers.Looks {
		if l.Level > r.thinnest() {
			return Advice{}, false
		}
	}
	ratio := r.Dish().Ratio()
	if ratio*far > r.expected().Low {
		return Advice{}, false
	}
	at := "so much powder"
	if r.Dish().HasRatio() {
		at = model.PerPowder(model.RatioText(ratio), r.Trial.Liquid)
	}
	return Advice{
		Action: ActStop,
		Reasons: []string{fmt.Sprintf("no thickening at %s, far beyond what a %s usually takes: it may not thicken "+
			"this liquid", at, familyText(r.Profile.Powder.Kind()))},
	}, true
}
