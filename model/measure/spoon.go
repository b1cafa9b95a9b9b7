package measure

import (
	"math"

	"daub.example/daub/model/fit"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Densities for weighing water in air, g/mL (ISO 8655-6 practice).
const (
	airGPerML     = 0.0012
	weightsGPerML = 8.0 // of the weights that balances are set with
)

// ZFactor gives the mL of water that a balance reads as one gram, for water of waterGPerML
// at the bench: in air, water is lifted a little. ok is false for a density that is not
// finite or not above that of air.
func ZFactor(waterGPerML float64) (mlPerG float64, ok bool) {
	if !finite(waterGPerML) || waterGPerML <= airGPerML {
		return 0, false
	}
	return (1 - airGPerML/weightsGPerML) / (waterGPerML - airGPerML), true
}

// Repeats holds the mean of repeat readings of one thing and its uncertainty (JCGM 100:2008, 4.2).
type Repeats struct {
	N         int
	Mean, SD  float64 // SD of a single reading; 0 for one reading
	OfTheMean float64 // standard uncertainty of the mean, SD/√N
}

// Repeat computes the mean of repeat readings; ok is false without any and where one is not
// finite.
func Repeat(readings []float64) (r Repeats, ok bool) {
	n := len(readings)
	if n == 0 || !finite(readings...) {
		return Repeats{}, false
	}
	r = Repeats{N: n, Mean: readings[0]}
	if n > 1 {
		r.Mean, r.SD = stat.MeanStdDev(readings, nil)
	}
	r.OfTheMean = r.SD / math.Sqrt(float64(n))
	return r, finite(r.Mean, r.SD)
}

// Volume is the volume of a level spoon, found with water.
type Volume struct {
	Weighings Repeats // g of water per level spoon
	ML        float64
	// UncertaintyML is the standard uncertainty: scatter of the mean and the
	// balance's resolution, which does not average away.
	UncertaintyML float64
	// DegreesOfFreedom behind it (Welch-Satterthwaite, JCGM 100:2008, G.4.1);
	// at least N - 1, +Inf where the balance alone sets it.
	DegreesOfFreedom float64
	// Interval is 95 %, by Student's t on those degrees of freedom: few
	// weighings pay for being few.
	Interval fit.Interval
}

// SpoonVolume finds the volume of a level spoon from weighings of its water, g. It takes
// two weighings or more (three are wanted), a balance of resolutionG, and water of
// waterGPerML. ok is false for fewer than two weighings and for numbers that are not finite
// or not above 0. That the spoon itself grows with warmth (some 0.005 % a degree) is left
// out.
func SpoonVolume(grams []float64, resolutionG, waterGPerML float64) (v Volume, ok bool) {
	z, ok := ZFactor(waterGPerML)
	r, enough := Repeat(grams)
	if !ok || !enough || r.N < 2 || !positive(grams...) || !positive(resolutionG) {
		return Volume{}, false
	}
	scatter, rounding := r.OfTheMean, resolutionG/math.Sqrt(12)
	u := math.Hypot(scatter, rounding)
	dof := math.Inf(1)
	if scatter > 0 {
		dof = math.Pow(u/scatter, 4) * float64(r.N-1)
	}
	v = Volume{Weighings: r, ML: r.Mean * z, UncertaintyML: u * z, DegreesOfFreedom: dof}
	half := coverage95(dof) * v.UncertaintyML
	v.Interval = fit.Interval{Median: v.ML, Low: max(v.ML-half, 0), High: v.ML + half}
	return v, positive(v.ML) && finite(half)
}

// coverage95 is the half-width of a 95 % interval in standard uncertainties.
func coverage95(degreesOfFreedom float64) float64 {
	if degreesOfFreedom > 1e6 { // as good as the normal
		return distuv.UnitNormal.Quantile(0.975)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degreesOfFreedom}.Quantile(0.975)
}

// FarSpoon is the share of its nominal volume by which a spoon may be off before that is
// pointed out (chosen: below it, scoops differ by more).
const FarSpoon = 0.05

// Deviation gives the volume's distance from the nominal one as a share of that (0.08: 8 %
// more). far is true where it is more than 5 % and the nominal volume lies outside the
// interval. ok is false for a nominal volume that is not finite and above 0.
func (v Volume) Deviation(nominalML float64) (share float64, far, ok bool) {
	if !positive(nominalML) {
		return 0, false, false
	}
	share = v.ML/nominalML - 1
	outside := nominalML < v.Interval.Low || nominalML > v.Interval.High
	return share, outside && math.Abs(share) > FarSpoon, true
}
