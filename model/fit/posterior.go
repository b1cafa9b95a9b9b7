package fit

import (
	"math"
	"slices"
	"sync"
)

// Posterior is the distribution of the thickening curve given the looks of one trial. It
// never changes, so it may be read from several places at once.
type Posterior struct {
	data     Data
	readings []reading
	grid     *grid
	sheaf    sheaf
	size     size // how finely it was solved

	// Earlier answers.
	ratios   memo[uint64, Interval] // by the bits of the level
	slopes   memo[uint64, float64]
	outlooks memo[question, Outlook]
	farOut   func() []int
}

// solved remembers the trials fitted last; a posterior takes up to 1 MB.
var solved = memo[string, *Posterior]{most: 16}

// Solve finds the posterior. Without a usable look it is the prior.
func Solve(d Data) *Posterior {
	d.Looks = slices.Clone(d.Looks)
	return solved.of(d.key(), func() *Posterior {
		readings := merge(d.readings())
		return posterior(d, readings, ending(fine(len(readings))))
	})
}

// key tells data apart by everything that goes into a posterior.
func (d Data) key() string {
	numbers := []float64{d.LevelStep, -1}
	if d.ReferenceLevel != nil {
		numbers[1] = *d.ReferenceLevel
	}
	for _, l := range d.Looks {
		numbers = append(numbers, l.PowderPerLiquid, l.Level)
	}
	return key(numbers...)
}

// Sketch is Solve on fewer nodes, in a third of the time or less, for overviews of many
// powders. A powder of one trial whose interval has a half-width of at most SketchLimit
// gets the median and limits of Solve to a fifteenth of that half-width, mostly to a
// hundredth. A wider interval depends on tails that a sketch does not follow.
func Sketch(d Data) *Posterior {
	readings := merge(d.readings())
	return posterior(d, readings, sketching(len(readings)))
}

// posterior solves the readings in passes.
func posterior(d Data, readings []reading, p passes) *Posterior {
	g := solve(d.scale(), readings, p)
	out := &Posterior{data: d, readings: readings, grid: g, sheaf: g.sheaf(), size: p.last}
	out.ratios.most, out.slopes.most, out.outlooks.most = 32, 32, 256
	out.farOut = sync.OnceValue(out.findFarOut)
	return out
}

// Looks counts the usable looks.
func (p *Posterior) Looks() int { return int(looksIn(p.readings)) }

// Ratio gives R where the curve reaches a level, any number: the bare posterior, whatever
// the reach. Without near looks it is mostly the prior and no ratio to show. Median and
// limits never rise with the level.
func (p *Posterior) Ratio(level float64) Interval {
	return p.ratios.of(math.Float64bits(level), func() Interval { return p.sheaf.ratio(level) })
}

// Level gives the consistency of a paste of x g powder per g liquid, in levels from -1 to
// 8; beyond, it stays at the end. A reference dish is taken to stand at its level exactly.
func (p *Posterior) Level(powderPerLiquid float64) Interval { return p.sheaf.levels(powderPerLiquid) }

// Slope gives the posterior median of the slope at a level, levels per e-fold of x.
func (p *Posterior) Slope(level float64) float64 {
	return p.slopes.of(math.Float64bits(level), func() float64 { return p.sheaf.slope(level) })
}

// Eye gives the posterior median of σ, the SD of a look, levels.
func (p *Posterior) Eye() float64 {
	return p.grid.scale.eye * math.Exp(sdEye*p.grid.eyeQuantile(0.5))
}

// Contradictory reports whether the looks contradict each other: over half of the
// probability lies at an eye of more than one level.
func (p *Posterior) Contradictory() bool { return p.Eye() > 1 }

// eyeQuantile gives the quantile q of ln σ, in SD from the prior's middle. The mass of each
// node is spread evenly over its cell.
func (g *grid) eyeQuantile(q float64) float64 {
	mass := make([]float64, g.columns())
	g.each(func(_ *pair, _ int, eyes []float64) {
		for k, w := range eyes {
			mass[k] += w
		}
	})
	below := 0.0
	for k, m := range mass {
		if below+m >= q {
			return g.eyes.at(g.seen.first+k) + g.eyes.apart*((q-below)/m-0.5)
		}
		below += m
	}
	return g.eyes.at(g.seen.end-1) + g.eyes.apart/2
}
