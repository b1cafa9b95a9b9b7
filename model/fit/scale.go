package fit

import "math"

// Prior of the curve (METHOD, the thickening curve: see there for the slopes
// that have been published). The slope is log-normal: 6 levels per e-fold lies
// between 8.3 e-folds of strength per e-fold of water (one-point method) and
// 3.5 to 6.7 (cone data), one level taken as e^1.1 in strength.
const (
	medianSlope = 6   // β, levels per e-fold; chosen wide around published slopes
	sdSlope     = 0.5 // SD of ln β

	sdBend = 0.5 // SD of γ around 0; chosen

	sdEye = 0.35 // SD of ln σ; chosen

	slopeReach = 4.5 // the reach of the nodes in ln β, in SD
	bendReach  = 3.6 // the reach of the nodes in γ, in SD
)

// scale says where levels are counted from and how finely they are told apart. The curve
// itself is the same on every scale.
type scale struct {
	anchor float64 // the level of which c is the ln x
	// clear is the highest level, counted from the anchor, that still reads as plain
	// liquid. A curve with a floor, anchor - β/γ for γ > 0, must not have it above: its
	// prior carries the factor Φ((clear + β/γ)/σ), which is 1 for γ ≤ 0.
	clear float64
	eye   float64 // prior median of σ, levels
	// offset is the level of the dish that levels are counted from; 0 where they are named.
	offset float64
}

// named is the scale of the levels 0 to 7 as a maker names them. A careful eye repeats to
// about half a level (chosen).
var named = scale{anchor: 5, clear: 0.5 - 5, eye: 0.4}

// lnFloor gives the logarithm of the factor that keeps the curve's floor below level 0.
func (s scale) lnFloor(beta, gamma, sigma float64) float64 {
	if gamma <= straight {
		return 0
	}
	t := (s.clear + beta/gamma) / sigma
	if t > 8 {
		return 0 // below 1e-15
	}
	return lnNormal(t)
}

// straight is the |γ| below which the curve is calculated as a straight line, which it then
// is to all digits.
const straight = 1e-9

// vAt gives v = u - c where a curve reaches a level counted from the anchor. It is infinite
// where the curve never does: -Inf for a floor above the level and +Inf for a ceiling below
// it.
func vAt(level, beta, gamma float64) float64 {
	if math.Abs(gamma) < straight {
		return level / beta
	}
	t := gamma * level / beta
	if t <= -1 {
		return math.Copysign(math.Inf(1), -gamma)
	}
	return math.Log1p(t) / gamma
}

// height gives the level, counted from the anchor, at v = u - c: the inverse of vAt.
func height(v, beta, gamma float64) float64 {
	if math.Abs(gamma) < straight {
		return beta * v
	}
	return beta * math.Expm1(gamma*v) / gamma
}
