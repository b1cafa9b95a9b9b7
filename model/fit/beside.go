package fit

import "math"

// Compared is the result of a look beside the reference dish (METHOD, side by side).
type Compared int

// The looks beside a reference dish, thinnest first.
const (
	MuchThinner Compared = iota - 2
	Thinner
	Same
	Thicker
	MuchThicker
)

// cell gives the interval of levels by which the dish is thicker than the reference
// (chosen).
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

// besideEye is the prior median of σ, levels: two dishes side by side are told apart more
// finely than a level is named (chosen).
const besideEye = 0.25

// scale gives the scale of the looks, counted from the reference dish where there is one.
func (d Data) scale() scale {
	if d.ReferenceLevel != nil {
		return scale{anchor: 0, clear: 0.5 - *d.ReferenceLevel, eye: besideEye, offset: *d.ReferenceLevel}
	}
	return named
}
