package fit

import (
	"cmp"
	"math"
	"slices"
)

// BetweenTrials is the scale of the half-normal prior of τ, the between-trial SD of one
// powder, in ln R (METHOD, this powder; chosen).
const BetweenTrials = 0.10

// Repeat is one trial's answer at a level.
type Repeat struct {
	LnRatio             float64 // ln R, R in g liquid per g powder; within ±1000
	StandardUncertainty float64 // in ln R, without what all trials share; 1e-9 to 1000
}

// Combined holds the answer of several trials together. Its intervals are in ln R.
type Combined struct {
	Powder        Interval // the powder itself: the mean over trials
	Next          Interval // the next dish: the mean and τ
	BetweenTrials float64  // posterior median of τ, the between-trial SD, in ln R
}

// Combine joins the trials of one powder at one level (METHOD, this powder). common is the
// 95 % half-width in ln R that all trials share, 0 to 1000; it is added once, in
// quadrature, to both sides of both intervals. Trials with a value out of range are left
// out. It is false when none is left or common is out of range.
func Combine(trials []Repeat, common float64) (Combined, bool) {
	return CombineWithPrior(trials, common, BetweenTrials)
}

// CombineWithPrior is Combine with another scale of the half-normal prior of τ, in ln R. At
// 0 the trials are taken to differ by their uncertainties alone, which gives the
// fixed-effect mean. A very wide one lets the trials speak, near the answer of Paule &
// Mandel (1982). It is false also when the scale is not within 0 to 1000.
func CombineWithPrior(trials []Repeat, common, scale float64) (Combined, bool) {
	trials = usableRepeats(trials)
	if len(trials) == 0 || !(common >= 0 && common <= 1e3 && scale >= 0 && scale <= 1e3) {
		return Combined{}, false
	}
	numbers := []float64{common, scale}
	for _, t := range trials {
		numbers = append(numbers, t.LnRatio, t.StandardUncertainty)
	}
	return combinations.of(key(numbers...), func() Combined { return combined(trials, common, scale) }), true
}

// combinations remembers the answers worked out last.
var combinations = memo[string, Combined]{most: 64}

// combined is CombineWithPrior of usable trials.
func combined(trials []Repeat, common, scale float64) Combined {
	axis, density, components := tauPosterior(trials, scale)
	c := Combined{
		Powder: intervalOf(components, func(n component) float64 { return n.sd }, common),
		Next:   intervalOf(components, func(n component) float64 { return math.Hypot(n.sd, n.tau) }, common),
	}
	if scale > 0 {
		cumulative := make([]float64, len(density))
		cumulate(cumulative, density)
		c.BetweenTrials = axis.of(quantile(density, cumulative, 0.5) * axis.step)
	}
	return c
}

// usableRepeats drops the unusable trials and sorts the rest, so that the order of the
// trials never changes a sum.
func usableRepeats(trials []Repeat) []Repeat {
	usable := make([]Repeat, 0, len(trials))
	for _, t := range trials {
		if math.Abs(t.LnRatio) <= 1e3 && t.StandardUncertainty >= 1e-9 && t.StandardUncertainty <= 1e3 {
			usable = append(usable, t)
		}
	}
	slices.SortFunc(usable, func(a, b Repeat) int {
		return cmp.Or(cmp.Compare(a.LnRatio, b.LnRatio), cmp.Compare(a.StandardUncertainty, b.StandardUncertainty))
	})
	return usable
}

// component is the normal that the mean follows at one value of τ.
type component struct {
	weight   float64 // they sum to 1
	mean, sd float64
	tau      float64 // between-trial SD, in ln R
}

// tauAxis carries nodes of τ = unit·sinh(v), even in v: close together where τ is small
// against the uncertainties, and wide apart beyond.
type tauAxis struct{ step, unit float64 }

// of gives τ at v.
func (a tauAxis) of(v float64) float64 { return a.unit * math.Sinh(v) }

// tauPosterior computes the posterior of τ at nodes up to six scales of its prior. The
// density is in v. It is even about 0, so that evenly spaced nodes, the first counting
// half, are enough.
func tauPosterior(trials []Repeat, scale float64) (tauAxis, []float64, []component) {
	const nodes = 161
	if scale == 0 {
		mean, sd, _ := meanAt(trials, 0)
		return tauAxis{}, nil, []component{{1, mean, sd, 0}}
	}
	unit := scale
	for _, t := range trials {
		unit = min(unit, t.StandardUncertainty)
	}
	unit = max(unit, 1e-6*scale)
	axis := tauAxis{math.Asinh(6*scale/unit) / (nodes - 1), unit}
	density := make([]float64, nodes)
	components := make([]component, nodes)
	top := math.Inf(-1)
	for i := range nodes {
		v := float64(i) * axis.step
		tau := axis.of(v)
		mean, sd, ln := meanAt(trials, tau)
		components[i] = component{0, mean, sd, tau}
		density[i] = ln - tau*tau/(2*scale*scale) + math.Log(math.Cosh(v))
		top = max(top, density[i])
	}
	total := 0.0
	for i, ln := range density {
		density[i] = math.Exp(ln - top)
		components[i].weight = density[i]
		if i == 0 {
			components[i].weight /= 2
		}
		total += components[i].weight
	}
	for i := range components {
		components[i].weight /= total
	}
	return axis, density, components
}

// meanAt gives the weighted mean of the trials at one τ, its standard deviation, and the
// log likelihood of τ with the mean integrated out.
func meanAt(trials []Repeat, tau float64) (mean, sd, lnLikelihood float64) {
	sum := 0.0
	for _, t := range trials {
		w := 1 / (t.StandardUncertainty*t.StandardUncertainty + tau*tau)
		sum += w
		mean += w * t.LnRatio
		lnLikelihood += math.Log(w) / 2
	}
	mean /= sum
	lnLikelihood -= math.Log(sum) / 2
	for _, t := range trials {
		w := 1 / (t.StandardUncertainty*t.StandardUncertainty + tau*tau)
		lnLikelihood -= w * (t.LnRatio - mean) * (t.LnRatio - mean) / 2
	}
	return mean, 1 / math.Sqrt(sum), lnLikelihood
}

// intervalOf gives the median and 95 % interval of a mixture of normals, widened by common.
func intervalOf(components []component, sd func(component) float64, common float64) Interval {
	median := mixtureQuantile(components, sd, 0.5)
	return Interval{
		Median: median,
		Low:    median - math.Hypot(median-mixtureQuantile(components, sd, 0.025), common),
		High:   median + math.Hypot(mixtureQuantile(components, sd, 0.975)-median, common),
	}
}

// mixtureQuantile gives the quantile q of a mixture: Newton's steps on the cumulative,
// halving whenever one would leave the bracket.
func mixtureQuantile(components []component, sd func(component) float64, q float64) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, n := range components {
		low = min(low, n.mean-10*sd(n))
		high = max(high, n.mean+10*sd(n))
	}
	width := high - low
	at := low + width/2
	for range 100 {
		below, density := -q, 0.0
		for _, n := range components {
			s := sd(n)
			z := (at - n.mean) / s
			below += n.weight * math.Erfc(-z/math.Sqrt2) / 2
			density += n.weight * math.Exp(-z*z/2) / (s * math.Sqrt(2*math.Pi))
		}
		if below < 0 {
			low = at
		} else {
			high = at
		}
		next := at - below/density
		if !(low < next && next < high) {
			next = low + (high-low)/2
		}
		if math.Abs(next-at) <= 1e-13*width {
			return next
		}
		at = next
	}
	return at
}
