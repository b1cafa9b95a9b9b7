package kitchen

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// StandsAt writes a level to the tenth; at the ends of the scale "0 or below" and "7 or
// above".
func StandsAt(level float64) string {
	switch {
	case level <= model.MinLevel:
		return "0 or below"
	case level >= model.MaxLevel:
		return "7 or above"
	default:
		return fmt.Sprintf("%.1f", level)
	}
}

// StandingText writes a level with its interval: "3.7 (2.9 to 4.6)". Where the whole
// interval lies beyond an end of the scale, the end alone says it.
func StandingText(levels fit.Interval) string {
	if low := StandsAt(levels.Low); low == StandsAt(levels.High) {
		return low
	}
	return fmt.Sprintf("%s (%s to %s)", StandsAt(levels.Median), StandsAt(levels.Low), StandsAt(levels.High))
}

// levelAt gives the consistency of the side's powder at R, g/g, by its curve.
func (s Side) levelAt(r float64) float64 { return s.Ratio.Curve.Level(1 / r).Median }

// LevelAt gives the level of the paste at R, g/g, by the curves of its powders. At each
// level a mix takes the sum of what its powders take there.
func (p Paste) LevelAt(r float64) float64 {
	if !p.Mixed() {
		return p.Powders[0].levelAt(r)
	}
	low, high := -1.0, 8.0
	for high-low > 1e-4 {
		middle := (low + high) / 2
		takes := 0.0
		for _, part := range p.Powders {
			takes += part.Fraction * part.Ratio.Curve.Ratio(middle).Median
		}
		if takes > r {
			low = middle
		} else {
			high = middle
		}
	}
	return (low + high) / 2
}

// powders lists the powders of the paste.
func (p Paste) powders() []model.Powder {
	out := make([]model.Powder, len(p.Powders))
	for i, part := range p.Powders {
		out[i] = part.Powder
	}
	return out
}
