package fit

import "math"

// Compared says how a dish looks beside the reference dish (METHOD, side by
// side).
type Compared int

// The looks beside a reference dish, thinnest first.
const (
	MuchThinner Compared = iota - 2
	Thinner
	Same
	Thicker
	MuchThicker
)

// cell is how many levels the dish is thicker than the reference (chosen).
func (c Compared) cell() cell {
	const slight, much = 0.3, 1.5
	inf := math.Inf(1)
	switch {
	case c <= MuchThinner:
		return cell{-inf, -much}
	case c == Thinner:
		return cell{-much, -slight}
	case c == Same:
		return cell{-slight, slight}
	case c == Thicker:
		return cell{slight, much}
	default:
		return cell{much, inf}
	}
}

// MatchLook is one look at a dish beside the reference.
type MatchLook struct {
	PowderPerLiquid float64 // x, g powder per g liquid; finite and above 0
	Compared        Compared
}

// Match is a trial that brings a powder to the thickness of a reference dish. A
// look with a composition that is not finite and positive is left out.
type Match struct {
	Looks     []MatchLook
	Reference float64 // the level of the reference dish, 0 to 7
}

// matchEye is the prior median of σ, levels: two dishes side by side are told
// apart more finely than a level is named (chosen).
const matchEye = 0.25

// MatchResult holds the answer of a match.
type MatchResult struct {
	Ratio     Interval // R at the thickness of the reference; mostly prior unless bracketed
	Looks     int      // looks used
	Bracketed bool     // seen from both sides, one of them near
}

// Solve finds R where the dish is as thick as the reference. The curve is that
// of a trial, counted from the reference instead of level 5.
func (m Match) Solve() MatchResult {
	s := scale{anchor: 0, clear: 0.5 - m.Reference, eye: matchEye}
	var readings []reading
	low, high, near := false, false, false
	for _, l := range m.Looks {
		if !(l.PowderPerLiquid > 0) || math.IsInf(l.PowderPerLiquid, 1) {
			continue
		}
		readings = append(readings, reading{math.Log(l.PowderPerLiquid), l.Compared.cell(), 1})
		low = low || l.Compared <= Same
		high = high || l.Compared >= Same
		near = near || l.Compared > MuchThinner && l.Compared < MuchThicker
	}
	r := MatchResult{Looks: len(readings), Bracketed: low && high && near && len(readings) >= 2}
	readings = merge(readings)
	bundle := solve(s, readings, ending(fine(len(readings)))).sheaf()
	r.Ratio = bundle.ratio(0)
	return r
}
