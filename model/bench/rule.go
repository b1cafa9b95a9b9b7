package bench

import (
	"math"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// The rule for the next addition (chosen, and tried on simulated benches).
const (
	most      = 3    // spoonfuls of one size at a time
	maxAtOnce = 20   // of the largest size, where the dish is far from the aim
	risk      = 0.25 // accepted chance of a look more than a level above the aim
	bold      = 0.33 // the same while nothing thickens
	wary      = 0.05 // the same for a guess, where a smaller addition is no guess
	slack     = 0.05 // gain in expected squared width that a plainer addition may forgo
)

// next finds the addition after which the answer is expected to be narrowest, among those
// that hardly overshoot.
func (r Reading) next() (Advice, bool) {
	latest := r.steers.Looks[len(r.steers.Looks)-1].Level
	aim := r.target()
	all := r.candidates(model.AddPowder)
	if r.thickens() || len(all) == 0 {
		all = append(all, r.candidates(model.AddLiquid)...)
	}
	if len(all) == 0 {
		return Advice{}, false
	}
	dish := r.Dish()
	xs := make([]float64, len(all))
	for i, c := range all {
		xs[i] = dish.with(c).PowderPerLiquid()
	}
	outlooks := r.Steered().Outlooks(aim, xs, r.expected())
	if outlooks == nil {
		return Advice{}, false
	}
	at := -1
	if !r.thickens() {
		at = furthest(all, outlooks, aim)
	}
	if at < 0 {
		at = choose(all, outlooks, latest, aim)
	}
	if at < 0 {
		return Advice{}, false
	}
	return r.why(all, outlooks, at), true
}

// beyond gives the level that a look is not to go beyond: one above the aim.
func beyond(aim float64) float64 { return math.Min(aim+1, model.MaxLevel-0.5) }

// overshoot gives the chance of a look beyond that level.
func overshoot(o fit.Outlook, aim float64) float64 { return o.Above(beyond(aim)) }

// farBelow reports whether a look would hardly come within a level below the aim.
func farBelow(o fit.Outlook, aim float64) bool { return o.Above(aim-1.5) < 0.1 }

// thickens reports whether any look was above plain liquid.
func (r Reading) thickens() bool {
	return slices.ContainsFunc(r.steers.Looks, func(l fit.Look) bool { return l.Level > r.thinnest() })
}

// furthest finds the largest addition of powder that seldom overshoots, -1 without any.
// While nothing thickens, a look has little else to tell.
func furthest(all []candidate, outlooks []fit.Outlook, aim float64) int {
	best := -1
	for i, c := range all {
		if c.add == model.AddPowder && overshoot(outlooks[i], aim) <= bold && (best < 0 || c.grams > all[best].grams) {
			best = i
		}
	}
	return best
}

// choose picks a candidate, -1 without any.
func choose(all []candidate, outlooks []fit.Outlook, latest, aim float64) int {
	best := -1
	better := func(i int) bool {
		if best < 0 {
			return true
		}
		if farBelow(outlooks[i], aim) && farBelow(outlooks[best], aim) && all[i].add == model.AddPowder {
			return all[i].grams > all[best].grams // neither look tells much: get on
		}
		return outlooks[i].SquaredWidth*(1+slack*plainness(all[i], all[best])) < outlooks[best].SquaredWidth
	}
	for i, c := range all {
		tooThick := c.add == model.AddPowder && latest > aim+1
		if !tooThick && overshoot(outlooks[i], aim) <= risk && better(i) {
			best = i
		}
	}
	if best >= 0 {
		return noGuess(all, outlooks, best, aim)
	}
	for i, c := range all {
		switch {
		case latest > aim && c.add == model.AddLiquid:
			if best < 0 || overshoot(outlooks[i], aim) < overshoot(outlooks[best], aim) {
				best = i
			}
		case latest <= aim && c.add == model.AddPowder:
			if best < 0 || c.grams < all[best].grams {
				best = i
			}
		}
	}
	return best
}

// noGuess replaces a chosen addition of powder that is a guess and may well overshoot. It
// takes the largest smaller one that is no guess and still tells enough, else stays with
// the chosen one.
func noGuess(all []candidate, outlooks []fit.Outlook, chosen int, aim float64) int {
	if all[chosen].add != model.AddPowder || !isGuess(outlooks[chosen]) || overshoot(outlooks[chosen], aim) <= wary {
		return chosen
	}
	if surer := surest(all, outlooks, chosen); surer >= 0 && !farBelow(outlooks[surer], aim) {
		return surer
	}
	return chosen
}

// surest finds the largest addition below a guess that is none itself, -1 without any.
func surest(all []candidate, outlooks []fit.Outlook, chosen int) int {
	best := -1
	for i, other := range all {
		smaller := other.add == all[chosen].add && other.grams < all[chosen].grams
		if smaller && !isGuess(outlooks[i]) && (best < 0 || other.grams > all[best].grams) {
			best = i
		}
	}
	return best
}

// isGuess reports whether an outlook is too wide to build on.
func isGuess(o fit.Outlook) bool {
	low, high := o.Likely()
	return high-low > guess
}

// plainness is 1 where a is the less plain of two additions, -1 where it is the plainer:
// powder is plainer than liquid, one spoon than two.
func plainness(a, b candidate) float64 {
	switch {
	case a.add != b.add && a.add == model.AddLiquid:
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

// candidates lists one to three of each spoon at hand, or grams where no spoon of it can be
// calculated.
func (r Reading) candidates(add model.Add) []candidate {
	if cs := r.bySpoon(add); len(cs) > 0 {
		return cs
	}
	base := r.Dish().PowderG
	if add == model.AddLiquid {
		base = r.Dish().LiquidG
	}
	var cs []candidate
	weigh := func(grams float64) {
		if g := r.weighable(grams); grams > 0 && (len(cs) == 0 || g > cs[len(cs)-1].grams) {
			cs = append(cs, candidate{add: add, grams: g})
		}
	}
	for _, share := range r.shares() {
		weigh(share * base)
	}
	if add == model.AddPowder { // a small start must not make for small steps
		weigh(r.wantedG() / 2)
		weigh(r.wantedG())
	}
	return cs
}

// bySpoon lists the additions by spoon, with more of the first spoon where the dish is
// large.
func (r Reading) bySpoon(add model.Add) []candidate {
	var cs []candidate
	for _, spoon := range r.Trial.Spoons {
		var grams float64
		if add == model.AddLiquid {
			g, err := r.Trial.LiquidSpoonG(spoon, r.SpoonWeights.OwnSpoons)
			if err != nil {
				continue
			}
			grams = g
		} else {
			scoop, err := r.SpoonWeights.Scoop(spoon)
			if err != nil {
				continue
			}
			grams = scoop.Grams
		}
		for count := 1; count <= most; count++ {
			cs = append(cs, candidate{add, spoon, count, grams * float64(count)})
		}
		if len(cs) == most { // a large dish takes many of the largest spoon
			for _, n := range r.handfuls(add, grams) {
				cs = append(cs, candidate{add, spoon, n, grams * float64(n)})
			}
		}
	}
	return cs
}

// shares lists the additions of powder to consider, as shares of what is in the dish:
// multiples of it while nothing thickens.
func (r Reading) shares() []float64 {
	shares := []float64{0.05, 0.10, 0.20, 0.40}
	if !r.thickens() {
		shares = append(shares, 0.55, 0.75, 1, 1.4, 2, 2.8, 4, 5.6, 8, 11, 16)
	}
	return shares
}

// handfuls lists larger counts of a spoon of so many grams that suit the dish. For liquid
// they come to a tenth and a fifth of what it holds. For powder they come to what is
// missing, or to one of the shares of what it holds.
func (r Reading) handfuls(add model.Add, grams float64) (counts []int) {
	holds := r.Dish().LiquidG
	wants := []float64{0.1 * holds, 0.2 * holds}
	if add == model.AddPowder {
		holds = r.Dish().PowderG
		wants = []float64{r.wantedG()}
		for _, share := range r.shares() {
			wants = append(wants, share*holds)
		}
	}
	for _, want := range wants {
		n := min(int(want/grams), maxAtOnce)
		if n > most && !slices.Contains(counts, n) {
			counts = append(counts, n)
		}
	}
	return counts
}

// weighable rounds grams to what the scale shows, at least one step of it.
func (r Reading) weighable(grams float64) float64 {
	d := r.Trial.ResolutionG
	return model.RoundSignificant(math.Max(math.Round(grams/d), 1)*d, 6)
}

// with gives the dish after a candidate, for its composition only.
func (d Dish) with(c candidate) Dish {
	if c.add == model.AddLiquid {
		return Dish{PowderG: d.PowderG, LiquidG: d.LiquidG + c.grams}
	}
	return Dish{PowderG: d.PowderG + c.grams, LiquidG: d.LiquidG}
}

// Liquid at the start of a trial: the usual amount, g, and the step to which a
// larger one is rounded up (chosen).
const (
	UsualLiquidG = 20.0
	liquidStepG  = 5.0
)

// PlannedLiquidG gives the liquid, g, that suits a trial of the powder. With it the
// smallest spoon at hand moves the paste by about one level; it is never less than 20 g.
// Where nothing is weighed yet, the family's usual spoon weight is taken.
func PlannedLiquidG(p model.Profile, t model.Trial, own model.OwnSpoons) float64 {
	weights := p.SpoonWeights(t.SpoonSet, own).Guessing(p.Powder.Kind())
	smallest := math.Inf(1)
	for _, name := range t.Spoons {
		if scoop, err := weights.Scoop(name); err == nil {
			smallest = math.Min(smallest, scoop.Grams)
		}
	}
	if math.IsInf(smallest, 1) {
		return UsualLiquidG
	}
	low, high := p.Powder.Kind().FirstRange()
	return math.Max(UsualLiquidG, math.Ceil(6*math.Sqrt(low*high)*smallest/liquidStepG)*liquidStepG)
}
