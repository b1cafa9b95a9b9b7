package bench_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// clay is a clay whose level teaspoon was weighed once.
func clay(family model.Family, gramsPerTsp float64) model.Profile {
	return model.Profile{
		Powder:      model.Powder{Name: "Clay", Family: family},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{gramsPerTsp}}},
	}
}

func assertInterval(t *testing.T, median, low, high float64, got *fit.Interval) {
	t.Helper()
	const tolerance = 0.005 // relative
	require.NotNil(t, got)
	assert.InEpsilon(t, median, got.Median, tolerance)
	assert.InEpsilon(t, low, got.Low, tolerance)
	assert.InEpsilon(t, high, got.High, tolerance)
}

// The main job on facts of the trade (common practice, no published source): a
// light white clay, 1.42 g a level teaspoon, into 5 g of water by the half
// teaspoon, "to 2 tsp without visible change", then 3 tsp and by halves to
// 5 1/2. The numbers wanted are those of four looks at level 0, after 1/2, 1,
// 1 1/2 and 2 tsp, and none at 2 1/2.
func TestLightWhiteClay(t *testing.T) {
	p := clay(model.PlainClay, 1.42)
	r := specimen.Read(t, p, model.Trial{LiquidG: 5, Steps: []model.Step{
		specimen.Spoons("1/2 tsp", 1, 0), specimen.Spoons("1/2 tsp", 1, 0), specimen.Spoons("1/2 tsp", 1,
			0), specimen.Spoons("1/2 tsp", 1, 0),
		specimen.Spoons("1/2 tsp", 2, 1), specimen.Spoons("1/2 tsp", 1, 2), specimen.Spoons("1/2 tsp", 1, 3),
		specimen.Spoons("1/2 tsp", 1, 4), specimen.Spoons("1/2 tsp", 1, 4), specimen.Spoons("1/2 tsp", 1, 5),
	}})
	a := r.At(5)
	assert.Equal(t, fit.Bracketed, a.Reach)
	assert.Equal(t, 10, a.Looks)
	assertInterval(t, 0.627, 0.540, 0.684, a.Ratio)

	// Counting spoons alone stops at the first that looks right: 5/(5.5·1.42).
	assert.InDelta(t, 0.640, r.Dish().Ratio(), 0.0005)

	// With one weighing and a half teaspoon never weighed, the masses say more
	// than the looks, and the answer is wider on both sides.
	assert.Equal(t, a.Ratio.Median, a.Dish.Median)
	assert.Less(t, a.Dish.Low, a.Ratio.Low)
	assert.Greater(t, a.Dish.High, a.Ratio.High)
	assert.Greater(t, a.Budget.SpoonWeight, a.Budget.Looks)

	// All powder came by spoons worked out from the teaspoon: per teaspoon its
	// weight cancels.
	assert.InEpsilon(t, 1.42*a.Dish.Median, a.PerTsp.Median, 1e-12)
	assert.Less(t, a.PerTsp.High/a.PerTsp.Low, a.Dish.High/a.Dish.Low)

	assertPlausible(t, model.PlainClay, a.Ratio.Median)
}

// A heavy swelling clay, 4.78 g a level teaspoon, into 5 g of water by 1/8 tsp:
// level 1, and with the second level 6 (common practice, no published source).
func TestHeavySwellingClay(t *testing.T) {
	r := specimen.Read(t, clay(model.SwellingClay, 4.78), model.Trial{LiquidG: 5, Steps: []model.Step{
		specimen.Spoons("1/8 tsp", 1, 1), specimen.Spoons("1/8 tsp", 1, 6),
	}})
	a := r.At(5)
	assert.Equal(t, fit.Bracketed, a.Reach)
	assertInterval(t, 4.76, 4.02, 5.40, a.Ratio)
	assert.InDelta(t, 4.18, r.Dish().Ratio(), 0.005, "counting spoons")
	assertPlausible(t, model.SwellingClay, a.Ratio.Median)
}

// assertPlausible checks that a ratio is usual by handbook liquid limits (see model/care).
func assertPlausible(t *testing.T, f model.Family, ratio float64) {
	t.Helper()
	said := care.Plausibility(model.Powder{Family: f}, care.Doubt{
		Liquid: "water", Level: 5, Ratio: &fit.Interval{Median: ratio, Low: ratio / 1.1, High: ratio * 1.1},
	})
	require.Len(t, said, 1)
	assert.Contains(t, said[0], "mostly take")
}

func TestAnswersFallAsLevelsRise(t *testing.T) {
	r := specimen.Read(t, specimen.Oats(), specimen.Line(specimen.Day(1), 2, 2, 3, 4, 5, 6))
	levels := model.TableLevels(4.5)
	answers := r.Answers(levels)
	require.Len(t, answers, len(levels))
	for i, a := range answers {
		assert.Equal(t, r.At(levels[i]), a)
		if i > 0 {
			assert.Less(t, a.Ratio.Median, answers[i-1].Ratio.Median, "thicker takes less liquid")
		}
	}
	assert.InDelta(t, 2, answers[5].Ratio.Median, 0.05)
}

// The masses are those of the dish at the look nearest the trial's aim, not of
// the last one, and the same for every level (METHOD 5).
func TestMassesAtTheLookNearestTheAim(t *testing.T) {
	r := specimen.Read(t, specimen.Oats(), model.Trial{LiquidG: 20, Steps: []model.Step{
		specimen.Spoons("1 tsp", 3, 3), specimen.Weighed(3, 5), specimen.Weighed(2, 6),
	}})
	for _, level := range []float64{3, 5, 6} {
		assert.Equal(t, r.Dishes[1].Masses(r.SpoonWeights), r.At(level).Masses)
	}
}

func TestLooksToTheNearestHalf(t *testing.T) {
	steps := []model.Step{specimen.Weighed(6, 3), specimen.Weighed(2, 4), specimen.Weighed(2, 5)}
	whole := specimen.Read(t, specimen.Oats(), model.Trial{LiquidG: 20, Steps: steps}).At(5)
	half := specimen.Read(t, specimen.Oats(), model.Trial{LiquidG: 20, LevelStep: 0.5, Steps: steps}).At(5)
	assert.Less(t, half.Ratio.High/half.Ratio.Low, whole.Ratio.High/whole.Ratio.Low)
}

// A look far from where the others put it is pointed at by its step, counted
// among all steps.
func TestFarOutNamesTheStep(t *testing.T) {
	trial := specimen.Line(specimen.Day(1), 2, 2, 3, 4, 5, 6)
	trial.Steps = append([]model.Step{{Add: model.AddNone}}, trial.Steps...)
	assert.Empty(t, specimen.Read(t, specimen.Oats(), trial).FarOut())
	trial.Steps[3].Level = 0 // was 4
	assert.Equal(t, []int{3}, specimen.Read(t, specimen.Oats(), trial).FarOut())
}

func TestSentenceOfADish(t *testing.T) {
	sentence := func(level float64, steps ...model.Step) string {
		a := specimen.Read(t, specimen.Oats(), model.Trial{LiquidG: 20, Steps: steps}).At(level)
		return a.Sentence("water")
	}
	tests := map[string]struct{ got, want string }{
		"no look": {sentence(5), "No look yet: add powder, stir ten turns, rest, and look."},
		"below": {
			sentence(5, specimen.Weighed(5, 0), specimen.Weighed(5, 1)),
			"Level 5 spread is not reached: it takes less than 2.00 g water per g powder. Add powder until " +
				"one look is at 5 or thicker.",
		},
		"above": {
			sentence(4.5, specimen.Weighed(10, 7)),
			"Level 4.5 dollop/spread is not reached: it takes more than 2.00 g water per g powder. Add liquid until " +
				"one look is at 4.5 or thinner.",
		},
		"both sides, neither near": {
			sentence(4, specimen.Weighed(5, 1), specimen.Weighed(5, 7)),
			"Level 4 dollop is not reached: it takes between 2.00 and 4.00 g water per g powder. A look " +
				"between the two, within two levels, gives a ratio.",
		},
	}
	for name, tt := range tests {
		assert.Equal(t, tt.want, tt.got, name)
	}
	assert.Regexp(t,
		`^At 5 spread this dish takes \d\S+ \(\d\S+ to \d\S+\) g water per g powder; tested from both sides\.$`,
		sentence(5, specimen.Weighed(8, 4), specimen.Weighed(2, 6)))
	assert.Regexp(t, `; seen at this level and thicker\.$`,
		sentence(5, specimen.Weighed(13, 7), specimen.Weighed(0.1, 5), specimen.Weighed(0.5, 6)))
	assert.Regexp(t, `; seen at this level and thinner\.$`, sentence(5, specimen.Weighed(8, 4), specimen.Weighed(1, 5)))
	assert.Regexp(t, `; seen at this level only\.$`, sentence(5, specimen.Weighed(8, 5), specimen.Weighed(0.1, 5)))
	assert.Regexp(t, `^At 5 spread this dish takes about .* `+
		`tested from the thin side only\. Add powder until one look is at 5 or thicker\.$`,
		sentence(5, specimen.Weighed(8, 3), specimen.Weighed(1, 4)))
	assert.Regexp(t,
		`tested from the thick side only\. Add liquid until one look is at 3 or thinner\.$`,
		sentence(3, specimen.Weighed(8, 4)))
	assert.Regexp(t, `tested by one look only\. One more look near it tests the other side\.$`,
		sentence(4, specimen.Weighed(8, 4)))
}
