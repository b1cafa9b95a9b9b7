package model

import (
	"fmt"
	"math"

	"daub.example/daub/model/fit"
)

// Action is what the bench advises to do next.
type Action string

// The actions.
const (
	ActPowder Action = "powder"
	ActLiquid Action = "liquid"
	ActWeigh  Action = "weigh" // weigh level spoons: more looks will not help
	ActStop   Action = "stop"  // the answer is good enough
)

// Advice is the next step that the bench proposes, with its reason.
type Advice struct {
	Action Action
	Spoon  string  // "" for an addition by weight, and when nothing is to be added
	Count  int     // spoons; 0 without a spoon
	Grams  float64 // the addition's weight, g; 0 when nothing is to be added
	Why    string  // one sentence
}

// Step is the advice as a step of the trial; ok is false when nothing is to be
// added.
func (a Advice) Step() (s Step, ok bool) {
	switch a.Action {
	case ActPowder, ActLiquid:
		s = Step{Add: Add(a.Action), Spoon: a.Spoon, Count: a.Count}
		if a.Spoon == "" {
			s.Grams = a.Grams
		}
		return s, true
	default:
		return Step{}, false
	}
}

// candidate is an addition that could be made.
type candidate struct {
	add   Add
	spoon string
	count int
	grams float64
}

func (c candidate) text() string {
	switch {
	case c.spoon == "":
		return Number(c.grams) + " g"
	case c.count > 1:
		return fmt.Sprintf("%d × %s", c.count, c.spoon)
	default:
		return c.spoon
	}
}

func (c candidate) advice(why string) Advice {
	return Advice{Action: Action(c.add), Spoon: c.spoon, Count: c.count, Grams: c.grams, Why: why}
}

// Advice says what to add next, or why to stop. ok is false where nothing can
// be said: a dish without liquid and without a known spoon of it.
func (r Reading) Advice() (Advice, bool) {
	if len(r.data.Looks) == 0 {
		return r.first()
	}
	answer := r.At(r.Trial.Aim)
	if ending, ok := r.ending(answer); ok {
		return ending, true
	}
	return r.next()
}

// first is the addition before the first look: as much as the thirstiest powder
// of the family needs to reach the aim, rounded down to spoons at hand. Any
// other powder of the family stays below.
func (r Reading) first() (Advice, bool) {
	dish := r.Dish()
	if dish.LiquidG <= 0 {
		liquids := r.candidates(AddLiquid)
		if len(liquids) == 0 {
			return Advice{}, false
		}
		return liquids[0].advice(liquids[0].text() + ": there is no liquid in the dish yet"), true
	}
	want := dish.LiquidG/r.expected().High - dish.PowderG
	best := candidate{add: AddPowder, grams: r.weighable(want)}
	for i, c := range r.bySpoon(AddPowder) {
		below, closer := c.grams <= want, c.grams > best.grams
		if i == 0 || (below && (closer || best.grams > want)) || (!below && c.grams < best.grams) {
			best = c
		}
	}
	return best.advice(fmt.Sprintf("%s: should stay below the aim with any %s", best.text(), familyText(r.Profile.Powder.Kind()))), true
}

// expected is where the family's ratio is thought to lie; it steers the
// additions and never reaches an answer.
func (r Reading) expected() fit.Expected {
	low, high := r.Profile.Powder.Kind().FirstRange()
	return fit.Expected{Low: low, High: high}
}

// enough is the number of looks at one dish after which more are not worth
// their spoons, once the aim is bracketed (chosen).
const enough = 12

// ending advises to stop, or to weigh, when more looks have little to give.
func (r Reading) ending(a Answer) (Advice, bool) {
	if a.Ratio == nil || a.Reach != fit.Bracketed {
		return Advice{}, false
	}
	tolerance := r.Trial.Tolerance
	looks, dish := halfWidth(*a.Ratio), halfWidth(*a.Dish)
	masses := math.Sqrt(math.Max(dish*dish-looks*looks, 0))
	if dish > tolerance && masses > tolerance && a.Budget.SpoonWeight > 0.5 {
		return Advice{Action: ActWeigh, Why: fmt.Sprintf("more looks won't help, the spoon weight is the weak point (%.0f %% of the doubt): weigh two more level spoons", 100*a.Budget.SpoonWeight)}, true
	}
	if n := len(r.data.Looks); n >= enough && looks > tolerance {
		return Advice{Action: ActStop, Why: fmt.Sprintf("%d looks give it to %s; a repeat in a fresh dish now tells more than further spoons", n, PlusMinus(looks))}, true
	}
	if looks <= tolerance {
		return Advice{Action: ActStop, Why: fmt.Sprintf("the looks give it to %s, inside the %s asked for", PlusMinus(looks), PlusMinus(tolerance))}, true
	}
	return Advice{}, false
}

// The rule for the next addition (chosen, and tried on simulated benches).
const (
	most  = 3    // spoonfuls of one size at a time
	risk  = 0.25 // the chance of a look more than a level above the aim that is taken
	slack = 0.05 // gain in expected variance that a plainer addition may forgo
)

// next is the addition after which the answer is expected to be narrowest,
// among those that hardly overshoot.
func (r Reading) next() (Advice, bool) {
	latest := r.data.Looks[len(r.data.Looks)-1].Level
	aim := r.Trial.Aim
	all := append(r.candidates(AddPowder), r.candidates(AddLiquid)...)
	if len(all) == 0 {
		return Advice{}, false
	}
	dish := r.Dish()
	xs := make([]float64, len(all))
	for i, c := range all {
		xs[i] = dish.with(c).PowderPerLiquid()
	}
	outlooks := fit.Outlooks(r.data, aim, xs, r.expected())
	if outlooks == nil {
		return Advice{}, false
	}
	at := choose(all, outlooks, latest, aim)
	if at < 0 {
		return Advice{}, false
	}
	return all[at].advice(why(all, outlooks, at, aim)), true
}

// overshoot is the chance of a look more than a level above the aim.
func overshoot(o fit.Outlook, aim float64) float64 {
	return o.Above(math.Min(aim+1, MaxLevel-0.5))
}

// choose picks a candidate, -1 without any.
func choose(all []candidate, outlooks []fit.Outlook, latest, aim float64) int {
	best := -1
	better := func(i int) bool {
		if best < 0 {
			return true
		}
		return outlooks[i].Variance*(1+slack*plainness(all[i], all[best])) < outlooks[best].Variance
	}
	for i, c := range all {
		tooThick := c.add == AddPowder && latest > aim+1
		if !tooThick && overshoot(outlooks[i], aim) <= risk && better(i) {
			best = i
		}
	}
	if best >= 0 {
		return best
	}
	for i, c := range all {
		switch {
		case latest > aim && c.add == AddLiquid:
			if best < 0 || overshoot(outlooks[i], aim) < overshoot(outlooks[best], aim) {
				best = i
			}
		case latest <= aim && c.add == AddPowder:
			if best < 0 || c.grams < all[best].grams {
				best = i
			}
		}
	}
	return best
}

// plainness is 1 where a is the less plain of two additions, -1 where it is
// the plainer: powder is plainer than liquid, one spoon than two.
func plainness(a, b candidate) float64 {
	switch {
	case a.add != b.add && a.add == AddLiquid:
		return 1
	case a.add != b.add:
		return -1
	case a.count > b.count:
		return 1
	case a.count < b.count:
		return -1
	default:
		return 0
	}
}

// candidates are one to three of each spoon at hand, or grams where no spoon of
// it can be reckoned.
func (r Reading) candidates(add Add) []candidate {
	if cs := r.bySpoon(add); len(cs) > 0 {
		return cs
	}
	base := r.Dish().PowderG
	if add == AddLiquid {
		base = r.Dish().LiquidG
	}
	var cs []candidate
	for _, share := range []float64{0.05, 0.10, 0.20, 0.40} {
		if g := r.weighable(share * base); base > 0 && (len(cs) == 0 || g > cs[len(cs)-1].grams) {
			cs = append(cs, candidate{add: add, grams: g})
		}
	}
	return cs
}

func (r Reading) bySpoon(add Add) []candidate {
	var cs []candidate
	for _, spoon := range r.Trial.Spoons {
		var grams float64
		if add == AddLiquid {
			g, err := r.Trial.LiquidSpoonG(spoon, r.Scales.drawer)
			if err != nil {
				continue
			}
			grams = g
		} else {
			scoop, err := r.Scales.Scoop(spoon)
			if err != nil {
				continue
			}
			grams = scoop.Grams
		}
		for count := 1; count <= most; count++ {
			cs = append(cs, candidate{add, spoon, count, grams * float64(count)})
		}
	}
	return cs
}

// weighable rounds grams to what the scale shows, at least one step of it.
func (r Reading) weighable(grams float64) float64 {
	d := r.Trial.ResolutionG
	return RoundSignificant(math.Max(math.Round(grams/d), 1)*d, 6)
}

// with is the dish after a candidate, for its composition only.
func (d Dish) with(c candidate) Dish {
	if c.add == AddLiquid {
		return Dish{PowderG: d.PowderG, LiquidG: d.LiquidG + c.grams}
	}
	return Dish{PowderG: d.PowderG + c.grams, LiquidG: d.LiquidG}
}

// why says where the chosen addition is expected to land, and what the next
// larger one would risk.
func why(all []candidate, outlooks []fit.Outlook, at int, aim float64) string {
	c := all[at]
	text := c.text() + ": likely lands at " + levelRange(outlooks[at].Likely())
	if c.add == AddLiquid {
		text = c.text() + ": likely comes back to " + levelRange(outlooks[at].Likely())
	}
	larger := -1
	for i, other := range all {
		if c.add == AddPowder && other.add == AddPowder && other.grams > c.grams*1.001 && (larger < 0 || other.grams < all[larger].grams) {
			larger = i
		}
	}
	if larger >= 0 {
		if p := overshoot(outlooks[larger], aim); p > risk {
			text += fmt.Sprintf("; %s would overshoot %s", all[larger].text(), oneIn(p))
		}
	}
	return text
}

func levelRange(low, high float64) string {
	if low == high {
		return Number(low)
	}
	return Number(low) + " to " + Number(high)
}

// oneIn says a probability the way it is said at a bench.
func oneIn(p float64) string {
	switch {
	case p > 0.85:
		return "almost every time"
	case p > 0.6:
		return "two times in three"
	case p > 0.42:
		return "one time in two"
	default:
		return fmt.Sprintf("one time in %s", []string{"two", "three", "four", "five"}[min(max(int(math.Round(1/p))-2, 0), 3)])
	}
}

// familyText is the family as said in a sentence.
func familyText(f Family) string {
	if f == Other {
		return "usual powder"
	}
	return f.words()
}
