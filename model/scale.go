package model

import (
	"fmt"
	"math"
	"slices"
)

// The consistency scale runs from MinLevel to MaxLevel. The ends are open: 0
// says "at most this thick", 7 says "at least".
const (
	MinLevel = 0.0
	MaxLevel = 7.0
)

// Ratios are asked for between these levels; the open ends have none.
const (
	MinAim = 1.0
	MaxAim = 6.0
)

// DefaultAim is the level a trial aims at unless the maker says otherwise.
const DefaultAim = 5.0

// Consistency is one level of the scale: its word, and the bench test that
// tells it from its neighbours. Colour never counts.
type Consistency struct {
	Level float64
	Word  string
	Test  string
	Short string // the test in at most 32 letters, for where there is little room
}

// Scale lists the levels of the consistency scale, 0 to 7 in order.
func Scale() []Consistency {
	return []Consistency{
		{0, "watery", "runs off like the liquid alone", "runs off like the liquid alone"},
		{1, "slick", "runs off nearly as fast, leaves a wet film", "nearly as fast, leaves a film"},
		{
			2, "pouring", "coats the back of the spoon; a line drawn with a spatula closes at once",
			"coats the spoon, a line closes",
		},
		{
			3, "ribbon", "the drip from the tip draws a thread that sinks back within a second or two",
			"a thread sinks back in 1 to 2 s",
		},
		{4, "dollop", "drops in soft lumps; a drawn line closes slowly", "soft lumps, line closes slowly"},
		{5, "spread", "keeps a drawn line, spreads smooth without running", "keeps a line, spreads smooth"},
		{6, "stiff", "stands in a peak, tears when pulled", "stands in a peak, tears"},
		{7, "crumbly", "breaks, or balls up like dough, instead of spreading", "breaks, or balls up like dough"},
	}
}

// LevelWord gives the word of a level; a half level names both neighbours.
func LevelWord(level float64) string {
	s := Scale()
	if !(level >= MinLevel && level <= MaxLevel) {
		return "?"
	}
	low, high := s[int(math.Floor(level))], s[int(math.Ceil(level))]
	if low.Level == high.Level {
		return low.Word
	}
	return low.Word + "/" + high.Word
}

// LevelName writes a level with its word, "5 spread" or "4.5 dollop/spread".
func LevelName(level float64) string {
	return fmt.Sprintf("%s %s", Number(level), LevelWord(level))
}

// TableLevels lists the levels of a ratio table: 1 to 6, and the aim where it lies between
// two of them.
func TableLevels(aim float64) []float64 {
	levels := []float64{1, 2, 3, 4, 5, 6}
	if aim > MinAim && aim < MaxAim && !slices.Contains(levels, aim) {
		levels = append(levels, aim)
		slices.Sort(levels)
	}
	return levels
}

// CurveLevels lists the levels at which a curve is drawn: 1 to 6 in halves.
func CurveLevels() []float64 {
	levels := make([]float64, 0, 11)
	for l := MinAim; l <= MaxAim; l += 0.5 {
		levels = append(levels, l)
	}
	return levels
}

// IsAskable reports whether a level may have a ratio: 1 to 6 in halves.
func IsAskable(level float64) bool {
	return level >= MinAim && level <= MaxAim && isHalfStep(level, 0.5)
}

// isHalfStep reports whether v is a whole number of steps (0.5 or 1).
func isHalfStep(v, step float64) bool {
	n := v / step
	return n == math.Trunc(n)
}

// CheckLevel complains about a level that has no ratio.
func CheckLevel(level float64) error {
	if level >= MinAim && level <= MaxAim && isHalfStep(level, 0.5) {
		return nil
	}
	return fmt.Errorf("level %s has no ratio: give a whole or half level from %s to %s", Number(level),
		Number(MinAim), Number(MaxAim))
}
