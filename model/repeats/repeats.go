package repeats

import (
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// Ratio holds the answer of all trials of one powder and lot, on one basis, at one level:
// this powder, and the next dish made of it.
type Ratio struct {
	Basis          model.Basis
	Level          float64
	Reach          fit.Reach
	Trials         int           // how many trials it is based on; with a bound, how many gave one
	Powder         *fit.Interval // R of this powder; nil when not reached
	Next           *fit.Interval // R of the next dish; nil when not reached
	Bound          *fit.Bound    // when not reached; nil without any look
	OnlySideBySide bool          // no ratio: every finished trial is beside a dish of another powder
	// BetweenTrials is the posterior median of the between-trial SD, in ln R.
	BetweenTrials float64
	// PerTsp is g liquid per level teaspoon, nil without a weighed spoon.
	PerTsp *fit.Interval
	TspG   float64     // what that teaspoon holds, g; 0 where it is not known
	Budget *fit.Budget // shares of Powder's interval; nil when not reached
	// Far lists the trials, by their index in the profile, that sit far from where the
	// others put them; they are used all the same.
	Far []int
	// Slope is the levels gained per e-fold of powder per liquid at this level: the
	// posterior median; 0 when not reached.
	Slope float64
	// Curve is the powder's thickening curve; nil when not reached.
	Curve Thickening

	// What one more trial would leave is worked out from these when it is asked for.
	repeats []fit.Repeat
	common  float64 // half-width in ln R of what the trials share
}

// Thickening is a powder's curve, whatever the level asked for.
type Thickening interface {
	// Level gives the consistency at x g powder per g liquid, in levels. It goes somewhat
	// beyond both ends of the scale, and stays there.
	Level(powderPerLiquid float64) fit.Interval
	// Ratio gives R at a level, g/g.
	Ratio(level float64) fit.Interval
}

// Ratios reads every used trial of the basis at several levels and pools them. The trials
// share one curve, and every level uses the same trials, those with a closed look. A trial
// that cannot be calculated is left out: Validate reports it.
func Ratios(p model.Profile, b model.Basis, levels []float64, own model.OwnSpoons) []Ratio {
	perLevel := make([][]bench.Answer, len(levels))
	pool := newTrialPool(p, b, own, bench.Reading.Curve, func(n int, r bench.Reading) {
		for i, a := range r.Answers(levels) {
			a.Trial = n
			perLevel[i] = append(perLevel[i], a)
		}
	})
	out := make([]Ratio, len(levels))
	for i, level := range levels {
		out[i] = pool.at(level, perLevel[i])
		out[i].OnlySideBySide = p.OnlySideBySide()
	}
	return out
}

// Overview gives the ratio at one level as the ratio table lists it: rounded, without
// budget or explanations. It is quicker where there are many powders: trials are sketched,
// and worked out in full where a sketch is not enough (METHOD, overviews).
func Overview(p model.Profile, b model.Basis, level float64, own model.OwnSpoons) Ratio {
	out, sure := overview(p, b, level, own, bench.Reading.Sketch)
	if !sure {
		out, _ = overview(p, b, level, own, bench.Reading.Curve)
	}
	out.PerTsp = nil // a table has none
	return out.Row().Ratio()
}

// overview is Overview unrounded; sure says whether a sketch can be relied on. The masses
// that trials share widen the answer without making the sketch any less sure.
func overview(p model.Profile, b model.Basis, level float64, own model.OwnSpoons, curve curveOf) (r Ratio, sure bool) {
	var results []fit.Result
	pool := newTrialPool(p, b, own, curve, func(_ int, r bench.Reading) { results = append(results, r.Reached(level)) })
	r = pool.plain(level, results)
	return r, r.Powder == nil || pool.powder.Ratio(level).HalfWidth() <= fit.SketchLimit
}

// AtAim gives Overview on the main basis at the newest trial's aim; the zero Ratio without
// a used trial.
func AtAim(p model.Profile, own model.OwnSpoons) Ratio {
	bases := p.Bases()
	if len(bases) == 0 {
		return Ratio{}
	}
	return Overview(p, bases[0], p.Aim(), own)
}

// curveOf finds a trial's curve, in full or as a sketch.
type curveOf func(bench.Reading) *fit.Posterior

// newTrialPool pools the used trials of a basis, each with its curve. It calls each with
// every reading and its trial's index in the profile.
func newTrialPool(p model.Profile, b model.Basis, own model.OwnSpoons, curve curveOf,
	each func(int, bench.Reading),
) *trialPool {
	pool := &trialPool{basis: b}
	for n, t := range p.Trials {
		if !t.Used() || !b.Matches(t, p.Powder.Kind()) {
			continue
		}
		r, err := bench.Read(p, t, own)
		if err != nil {
			continue
		}
		if r.Closed() {
			pool.add(r, curve(r))
		}
		each(n, r)
	}
	pool.powder = fit.Pool(pool.trials)
	return pool
}

// trialPool holds the trials of one powder on one basis.
type trialPool struct {
	basis  model.Basis
	trials []fit.Trial
	powder *fit.Powder // nil without a trial with a closed look

	// What the trials share, the weight of a level spoon, as half-widths in ln R
	// summed over the trials: for R per gram and per level teaspoon.
	spoon, spoonPerTsp float64
	tspG               float64 // g per level teaspoon; 0 without a weighing
}

// add puts a trial into the pool, with its curve and the masses at the look nearest its
// aim.
func (p *trialPool) add(r bench.Reading, curve *fit.Posterior) {
	dish := r.DishAtAim()
	own := dish.Masses(r.SpoonWeights)
	p.spoon += own.SpoonWeight
	own.SpoonWeight = 0 // common to all trials: added once, at the end
	p.trials = append(p.trials, fit.Trial{Looks: curve, Masses: own.Half() / fit.Normal95})
	if tsp, ok := r.SpoonWeights.Teaspoon(); ok {
		p.tspG = tsp
		p.spoonPerTsp += dish.MassesPerSpoon(r.SpoonWeights).SpoonWeight
	}
}

// plain works out the pooled ratio at one level from the trials' results, without its
// explanation.
func (p *trialPool) plain(level float64, results []fit.Result) Ratio {
	out := Ratio{Basis: p.basis, Level: level}
	for _, r := range results {
		out.Reach = max(out.Reach, r.Reach)
	}
	if out.Reach == fit.NotReached || p.powder == nil {
		out.Reach = fit.NotReached
		out.Bound, out.Trials = tightest(results)
		return out
	}
	n := float64(len(p.trials))
	out.Trials = len(p.trials)
	bare, common := p.powder.Ratio(level), p.common()
	powder, next := bare.Widen(common), p.powder.Next(level).Widen(common)
	// Each is widened about its own median, which may leave the next dish a hair surer.
	next.Low, next.High = min(next.Low, powder.Low), max(next.High, powder.High)
	out.Powder, out.Next = &powder, &next
	if p.tspG > 0 {
		perTsp := bare.Widen(p.spoonPerTsp / n).Times(p.tspG)
		out.PerTsp, out.TspG = &perTsp, p.tspG
	}
	out.BetweenTrials = p.powder.BetweenTrials
	return out
}

// common gives the half-width in ln R that the trials share.
func (p *trialPool) common() float64 { return p.spoon / float64(len(p.trials)) }

// at works out the pooled ratio at one level, with its slope, its budget and the trials
// that sit far from the others.
func (p *trialPool) at(level float64, answers []bench.Answer) Ratio {
	results := make([]fit.Result, len(answers))
	for i, a := range answers {
		results[i] = a.Result
	}
	out := p.plain(level, results)
	if out.Powder == nil {
		return out
	}
	out.Slope, out.Curve = p.powder.Slope(level), p.powder
	used := answersWithRepeat(answers)
	repeats := repeatsOf(used)
	half := out.Powder.HalfWidth()
	out.Budget = powderBudget(used, repeats, p.common(), half)
	out.repeats, out.common = repeats, p.common()
	for _, i := range farFrom(repeats) {
		out.Far = append(out.Far, used[i].Trial)
	}
	return out
}

// repeatsOf lists each trial's own answer, without the spoon weight that they share.
func repeatsOf(used []bench.Answer) (repeats []fit.Repeat) {
	for _, a := range used {
		own := a.Masses
		own.SpoonWeight = 0
		iv, _ := own.Widen(*a.Ratio)
		repeats = append(repeats, fit.Repeat{
			LnRatio:             math.Log(iv.Median),
			StandardUncertainty: iv.HalfWidth() / fit.Normal95,
		})
	}
	return repeats
}

// answersWithRepeat keeps the answers whose ratio has two limits. Those bracketed come
// first; where there is none, those tested from one side.
func answersWithRepeat(answers []bench.Answer) []bench.Answer {
	for _, reach := range []fit.Reach{fit.Bracketed, fit.OneSided} {
		var out []bench.Answer
		for _, a := range answers {
			if a.Reach == reach && a.Ratio.Low > 0 && !math.IsInf(a.Ratio.High, 1) {
				out = append(out, a)
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}

// tightest gives the tightest bound that the trials agree on, and how many gave one. Where
// two contradict each other, the later trial's stands.
func tightest(results []fit.Result) (*fit.Bound, int) {
	var out *fit.Bound
	n := 0
	for _, r := range results {
		if r.Bound == nil {
			continue
		}
		n++
		b := *r.Bound
		if out != nil {
			both := fit.Bound{Low: math.Max(out.Low, b.Low), High: math.Min(out.High, b.High)}
			if both.Low < both.High {
				b = both
			}
		}
		out = &b
	}
	return out, n
}

// powderBudget splits the powder's interval into shares. The trials' own terms keep the
// proportions of their budgets, each trial by its weight in the mean. The spoon weight they
// share and the between-trial SD are added.
func powderBudget(used []bench.Answer, repeats []fit.Repeat, common, half float64) *fit.Budget {
	if len(used) == 0 || math.IsInf(half, 1) {
		return &fit.Budget{Looks: 1}
	}
	precision := 0.0
	for _, r := range repeats {
		precision += 1 / math.Pow(r.StandardUncertainty, 2)
	}
	own := fit.Normal95 * fit.Normal95 / precision
	spoon := common * common
	spread := math.Max(half*half-own-spoon, 0)
	total := own + spoon + spread
	var b fit.Budget
	for i, a := range used {
		rest := 1 - a.Budget.SpoonWeight
		if rest <= 0 {
			continue
		}
		weight := 1 / math.Pow(repeats[i].StandardUncertainty, 2) / precision
		part := weight * own / total / rest
		b.Looks += part * a.Budget.Looks
		b.Scoops += part * a.Budget.Scoops
		b.PowderScale += part * a.Budget.PowderScale
		b.Liquid += part * a.Budget.Liquid
		b.SpoonSize += part * a.Budget.SpoonSize
	}
	b.SpoonWeight, b.Repeats = spoon/total, spread/total
	return &b
}
