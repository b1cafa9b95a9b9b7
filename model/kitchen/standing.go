package kitchen

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// StandsAt writes a level to the tenth; at the ends of the scale "0 watery or beyond" and
// "7 crumbly or beyond".
func StandsAt(level float64) string {
	end := endName(level) + " or beyond"
	return onScale(level, end, end)
}

// StandingText writes a level with its interval: "3.7 (2.9 to 4.6)", "6.8 (5.9 to 7 or
// above)". Where the whole interval lies beyond an end of the scale, the end alone says it.
func StandingText(levels fit.Interval) string {
	if beyond(levels) {
		return StandsAt(levels.Median)
	}
	limit := func(level float64) string { return onScale(level, "0 or below", "7 or above") }
	return fmt.Sprintf("%s (%s to %s)", StandsAt(levels.Median), limit(levels.Low), limit(levels.High))
}

// StandingCell is StandingText for a table, in no more than 20 cells: an end of the scale
// stands for all beyond it, "7 crumbly (3.6 to 7)".
func StandingCell(levels fit.Interval) string {
	if beyond(levels) {
		return StandingShort(levels)
	}
	limit := func(level float64) string { return onScale(level, "0", "7") }
	return fmt.Sprintf("%s (%s to %s)", StandingShort(levels), limit(levels.Low), limit(levels.High))
}

// StandingShort is StandingCell without the interval: "3.7", "7 crumbly".
func StandingShort(levels fit.Interval) string {
	end := endName(levels.Median)
	return onScale(levels.Median, end, end)
}

// onScale writes a level to the tenth, or the words for one at or beyond an end of the
// scale.
func onScale(level float64, low, high string) string {
	switch {
	case level <= model.MinLevel:
		return low
	case level >= model.MaxLevel:
		return high
	default:
		return fmt.Sprintf("%.1f", level)
	}
}

// endName names the end of the scale that the level is nearer to: "7 crumbly".
func endName(level float64) string {
	if level > (model.MinLevel+model.MaxLevel)/2 {
		return model.LevelName(model.MaxLevel)
	}
	return model.LevelName(model.MinLevel)
}

// beyond reports whether the whole interval lies at or beyond an end of the scale.
func beyond(levels fit.Interval) bool {
	return levels.High <= model.MinLevel || levels.Low >= model.MaxLevel
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
