package measure_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"daub.example/daub/model/measure"
)

func at(minutes, level float64) measure.LevelAt {
	return measure.LevelAt{Minutes: minutes, Level: level}
}

// By hand (METHOD, later looks): σ = 0.4, whole levels:
// 1.96·√(2·0.16 + 1/6) = 1.96·0.697615 = 1.367325; halves: 1.96·√(0.32 + 1/24) =
// 1.96·0.601387 = 1.178719.
func TestFollowUp(t *testing.T) {
	c, ok := measure.FollowUp(at(2, 4), []measure.LevelAt{at(30, 6), at(10, 5)}, 0.4, 1)
	require.True(t, ok)
	require.Len(t, c.Changes, 2)
	assert.Equal(t, 2.0, c.Start)
	assert.Equal(t, 10.0, c.Changes[0].Minutes)
	assert.InDelta(t, 1-1.367325, c.Changes[0].Low, 1e-5)
	assert.InDelta(t, 1+1.367325, c.Changes[0].High, 1e-5)
	assert.InDelta(t, 2-1.367325, c.Changes[1].Low, 1e-5)
	c, _ = measure.FollowUp(at(2, 4), []measure.LevelAt{at(10, 5.5)}, 0.4, 0.5)
	assert.InDelta(t, 1.5-1.178719, c.Changes[0].Low, 1e-5)
}

func TestChangeBetweenLooks(t *testing.T) {
	c, _ := measure.FollowUp(at(0.5, 4), []measure.LevelAt{at(10, 5), at(100, 6)}, 0.4, 1)
	assert.Equal(t, 1.0, c.Start, "a minute at the least")
	none, ok := c.At(0)
	require.True(t, ok)
	assert.Equal(t, measure.Change{Minutes: 1}, none)
	half, ok := c.At(math.Sqrt(10))
	require.True(t, ok)
	assert.InDelta(t, 0.5, half.Delta, 1e-12, "straight in ln t")
	assert.InDelta(t, (1-1.367325)/2, half.Low, 1e-5)
	seen, _ := c.At(10)
	assert.Equal(t, c.Changes[0], seen)
	later, _ := c.At(math.Sqrt(1000))
	assert.InDelta(t, 1.5, later.Delta, 1e-12)
	last, ok := c.At(100)
	assert.True(t, ok)
	assert.Equal(t, c.Changes[1], last)
	for _, out := range []float64{100.1, math.Inf(1), math.NaN()} {
		_, ok = c.At(out)
		assert.False(t, ok, "never beyond the last")
	}
	c, _ = measure.FollowUp(at(5, 4), []measure.LevelAt{at(10, 5)}, 0.4, 1)
	_, ok = c.At(4)
	assert.False(t, ok, "nor before the first")
	_, ok = measure.Course{}.At(5)
	assert.False(t, ok)
}

// A look at 0 or 7 has no other end.
func TestOpenLevels(t *testing.T) {
	change := func(last, then float64) measure.Change {
		c, ok := measure.FollowUp(at(1, last), []measure.LevelAt{at(10, then)}, 0.4, 1)
		require.True(t, ok)
		return c.Changes[0]
	}
	assert.True(t, math.IsInf(change(5, 7).High, 1))
	assert.InDelta(t, 2-1.367325, change(5, 7).Low, 1e-5)
	assert.True(t, math.IsInf(change(2, 0).Low, -1))
	assert.True(t, math.IsInf(change(0, 2).High, 1))
	assert.True(t, math.IsInf(change(7, 5).Low, -1))
	assert.True(t, math.IsInf(change(7, 7).Low, -1) && math.IsInf(change(7, 7).High, 1))
	c, _ := measure.FollowUp(at(1, 5), []measure.LevelAt{at(10, 7)}, 0.4, 1)
	start, _ := c.At(1)
	assert.Zero(t, start.High, "no change yet at the last look itself")
	end, _ := c.At(10)
	assert.InDelta(t, 2-1.367325, end.Low, 1e-5)
	c, _ = measure.FollowUp(at(1, 5), []measure.LevelAt{at(10, 7), at(60, 6)}, 0.4, 1)
	end, _ = c.At(60)
	assert.Equal(t, c.Changes[1], end, "an open look before it does not count here")
	between, _ := c.At(30)
	assert.True(t, math.IsInf(between.High, 1), "but does on the way")
}

func TestSettled(t *testing.T) {
	settled := func(last float64, later ...measure.LevelAt) (measure.Change, bool) {
		c, _ := measure.FollowUp(at(1, last), later, 0.4, 1)
		return c.Confirmed()
	}
	_, ok := settled(4, at(10, 5))
	assert.False(t, ok, "one look, one level: not yet")
	told, ok := settled(4, at(10, 6))
	assert.True(t, ok, "two levels: the interval excludes none")
	assert.Equal(t, 2.0, told.Delta)
	told, ok = settled(4, at(10, 5), at(30, 5))
	assert.True(t, ok, "two looks agree")
	assert.Equal(t, 10.0, told.Minutes)
	_, ok = settled(4, at(10, 5), at(30, 4))
	assert.False(t, ok)
	_, ok = settled(4, at(10, 5), at(30, 3))
	assert.False(t, ok, "they disagree")
	_, ok = settled(4, at(10, 4), at(30, 4))
	assert.False(t, ok, "no change is no advice")
	told, ok = settled(6, at(10, 6), at(30, 5), at(60, 4))
	assert.True(t, ok)
	assert.Equal(t, -1.0, told.Delta, "thinner as well")
	_, ok = measure.Course{}.Confirmed()
	assert.False(t, ok)

	// Looks within a quarter of the time since the last addition, and within a minute, are one look.
	_, ok = settled(4, at(30, 5), at(30.02, 5))
	assert.False(t, ok, "a second apart: the same eye on the same dish")
	_, ok = settled(4, at(30, 5), at(37.4, 5))
	assert.False(t, ok, "less than a quarter of 30 min apart")
	told, ok = settled(4, at(30, 5), at(30.02, 5), at(37.5, 5))
	assert.True(t, ok, "a look that is apart bears both out")
	assert.Equal(t, 30.0, told.Minutes)
	_, ok = settled(4, at(2, 5), at(2.9, 5))
	assert.False(t, ok, "less than a minute apart")
	_, ok = settled(4, at(30, 6), at(30.02, 4))
	assert.False(t, ok, "a look that takes the other back at once")
	_, ok = settled(4, at(30, 6), at(30.02, 5))
	assert.True(t, ok, "one clear look that is not taken back")
}

func TestLaterLooksThatCannotBe(t *testing.T) {
	good := []measure.LevelAt{at(10, 5)}
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		last        measure.LevelAt
		later       []measure.LevelAt
		sigma, step float64
	}{
		{at(1, 4), nil, 0.4, 1},
		{at(20, 4), good, 0.4, 1},
		{at(1, 4), []measure.LevelAt{at(nan, 5), at(10, nan), at(inf, 5), at(10, 8), at(10, -1), at(0.5, 5)}, 0.4, 1},
		{at(-1, 4), good, 0.4, 1},
		{at(1, nan), good, 0.4, 1},
		{at(1, 8), good, 0.4, 1},
		{at(1, 4), good, 0, 1},
		{at(1, 4), good, inf, 1},
		{at(1, 4), good, 0.4, nan},
	} {
		_, ok := measure.FollowUp(c.last, c.later, c.sigma, c.step)
		assert.False(t, ok, c)
	}
	c, ok := measure.FollowUp(at(1, 4), []measure.LevelAt{at(10, 5), at(10, 6)}, 0.4, 1)
	require.True(t, ok)
	require.Len(t, c.Changes, 1)
	assert.Equal(t, 2.0, c.Changes[0].Delta, "the one given last")
}

// The change is within what was seen, whenever it is asked for.
func TestCourseStaysWithinItsLooks(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		level := rapid.Float64Range(0, 7)
		minutes := rapid.Float64Range(1, 2000)
		var later []measure.LevelAt
		for range rapid.IntRange(1, 5).Draw(t, "n") {
			later = append(later, at(minutes.Draw(t, "minutes"), level.Draw(t, "level")))
		}
		c, ok := measure.FollowUp(at(1, level.Draw(t, "last")), later, 0.4, 1)
		if !ok {
			return
		}
		low, high := 0.0, 0.0
		for _, change := range c.Changes {
			low, high = min(low, change.Delta), max(high, change.Delta)
		}
		got, ok := c.At(minutes.Draw(t, "asked"))
		if !ok {
			return
		}
		assert.True(t, low-1e-9 <= got.Delta && got.Delta <= high+1e-9)
		assert.True(t, got.Low <= got.Delta && got.Delta <= got.High)
	})
}
