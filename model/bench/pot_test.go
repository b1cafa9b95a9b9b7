package bench_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// potted gives a step the pot that was weighed after it.
func potted(s model.Step, potG float64) model.Step {
	s.PotG = potG
	return s
}

// METHOD 2b by hand, for looks in one closed span. The scale reads 0.01 g:
// 0.01/√6 = 0.00408248 g for the span; 20 g of water as in TestMassesByHand.
func TestMassesInASpanOfThePot(t *testing.T) {
	const half = 1.96
	water := half * 0.00288675 / 20
	clay := model.Profile{Powder: model.Powder{Family: model.PlainClay}}
	scale := func(loss float64) float64 { return half * 0.00408248 / loss }

	// Four teaspoons lose 9.2 g. At the second look A = B: φ = 1/2, n_A = n_B = 2:
	// scoops 0.05·√(1/2 + 1/2)/2; at the end 0. One size: its error cancels.
	t.Run("one size", func(t *testing.T) {
		r := specimen.Read(t, clay, model.Trial{PotG: 150, LiquidG: 20, Steps: []model.Step{
			specimen.Spoons("1 tsp", 2, 3), potted(specimen.Spoons("1 tsp", 2, 5), 140.8),
		}})
		assert.InDelta(t, 4.6, r.Dishes[0].PowderG, 1e-9)
		assert.InDelta(t, 9.2, r.Dishes[1].PowderG, 1e-9)
		assertMasses(t, fit.Masses{Scoops: half * 0.05 / 2, PowderScale: scale(9.2), Liquid: water},
			r.Dishes[0].Masses(r.SpoonWeights))
		assertMasses(t, fit.Masses{PowderScale: scale(9.2), Liquid: water}, r.Dishes[1].Masses(r.SpoonWeights))
		require.NotNil(t, r.At(5).PerTsp)
	})

	// Two teaspoons, then two quarters: A = 2, B = 0.5, φ = 0.2, n_A = n_B = 2;
	// either size, never weighed: 0.05·0.2·1. The loss of 6 g parts as 4.8 and 1.2.
	t.Run("mixed sizes, nothing weighed", func(t *testing.T) {
		r := specimen.Read(t, clay, model.Trial{PotG: 150, LiquidG: 20, Steps: []model.Step{
			specimen.Spoons("1 tsp", 2, 3), potted(specimen.Spoons("1/4 tsp", 2, 5), 144),
		}})
		assert.InDelta(t, 4.8, r.Dishes[0].PowderG, 1e-9)
		assertMasses(t, fit.Masses{
			Scoops: half * 0.05 * 0.2, SpoonSize: half * 0.05 * 0.2 * math.Sqrt2, PowderScale: scale(6), Liquid: water,
		}, r.Dishes[0].Masses(r.SpoonWeights))
		assertMasses(t, fit.Masses{PowderScale: scale(6), Liquid: water}, r.Dishes[1].Masses(r.SpoonWeights))
		assert.Nil(t, r.At(5).PerTsp, "a mixed span weighs no spoon")
	})

	// The reading between two closed spans cancels: 0.01/√6 against all 9 g.
	t.Run("two spans", func(t *testing.T) {
		r := specimen.Read(t, clay, model.Trial{PotG: 150, LiquidG: 20, Steps: []model.Step{
			potted(specimen.Spoons("1 tsp", 2, 3), 145), potted(specimen.Spoons("1 tsp", 2, 5), 141),
		}})
		assert.InDelta(t, 5, r.Dishes[0].PowderG, 1e-9)
		assert.InDelta(t, 9, r.Dishes[1].PowderG, 1e-9)
		assertMasses(t, fit.Masses{PowderScale: scale(9), Liquid: water}, r.Dishes[1].Masses(r.SpoonWeights))
	})

	// A closed span of 5 g and a spoon after it, 2.5 g by that span's word: a third
	// of the powder is as unsure as a spoon weighed once by two:
	// u² = 0.0025/2 + (0.00408248/5)².
	t.Run("a spoon after the pot", func(t *testing.T) {
		r := specimen.Read(t, clay, model.Trial{PotG: 150, LiquidG: 20, Steps: []model.Step{
			potted(specimen.Spoons("1 tsp", 2, 3), 145), specimen.Spoons("1 tsp", 1, 5),
		}})
		u := math.Sqrt(0.0025/2 + math.Pow(0.00408248/5, 2))
		assertMasses(t, fit.Masses{
			SpoonWeight: 4.302653 * u / 3, Scoops: half * 0.05 / 3, PowderScale: scale(5) * 2 / 3, Liquid: water,
		}, r.Dishes[1].Masses(r.SpoonWeights))
	})

	// Paste taken out takes from all alike.
	t.Run("paste taken out", func(t *testing.T) {
		r := specimen.Read(t, clay, model.Trial{PotG: 150, LiquidG: 20, Steps: []model.Step{
			potted(specimen.Spoons("1 tsp", 2, 3), 145), {Add: model.Removed, Grams: 10, Looked: true, Level: 3},
		}})
		assert.InDelta(t, 4, r.Dishes[1].Ratio(), 1e-9)
		assertMasses(t, fit.Masses{PowderScale: scale(5), Liquid: water}, r.Dishes[1].Masses(r.SpoonWeights))
	})

	// Weighed out of the same pot: 5 g lost, 2 of them weighed.
	t.Run("weighed additions", func(t *testing.T) {
		r := specimen.Read(t, clay, model.Trial{PotG: 150, LiquidG: 20, Steps: []model.Step{
			specimen.Weighed(2, 1), potted(specimen.Spoons("1 tsp", 1, 5), 145),
		}})
		assert.InDelta(t, 5, r.Dishes[1].PowderG, 1e-9)
		tsp, _ := r.SpoonWeights.Teaspoon()
		assert.InDelta(t, 3, tsp, 1e-9)
	})
}

// Powder taken by spoon since the pot was weighed is not shown as if it had been weighed.
func TestPowderSinceThePotIsCalledAbout(t *testing.T) {
	steps := []model.Step{potted(specimen.Spoons("1 tsp", 5, 7), 137), specimen.Spoons("1/2 tsp", 1, 6)}
	text := func(steps ...model.Step) string {
		return specimen.Read(t, model.Profile{}, model.Trial{PotG: 150, LiquidG: 20, Steps: steps}).Dish().PowderText()
	}
	assert.Equal(t, "13.00 g powder", text(steps[0]))
	assert.Equal(t, "about 14.3 g powder", text(steps...))
	assert.Equal(t, "14.20 g powder", text(steps[0], potted(steps[1], 135.8)))
	assert.Equal(t, "15.00 g powder", text(steps[0], specimen.Weighed(2, 5)))
}

// The shares of the doubt sum to one with the pot too.
func TestBudgetWithThePotSumsToOne(t *testing.T) {
	r := specimen.Read(t, model.Profile{}, model.Trial{PotG: 150, LiquidG: 20, Steps: []model.Step{
		specimen.Spoons("1 tsp", 2, 3), specimen.Spoons("1/4 tsp", 3, 5), potted(specimen.Spoons("1/2 tsp", 1, 6), 141),
	}})
	b := r.At(5).Budget
	require.NotNil(t, b)
	assert.InDelta(t, 1, b.Looks+b.SpoonWeight+b.Scoops+b.PowderScale+b.Liquid+b.SpoonSize, 1e-12)
	assert.Zero(t, b.SpoonWeight)
	assert.Positive(t, b.Scoops)
}

// Before the second reading no ratio is shown, but the steering goes on, the file
// is sound, and the pot is asked for after the first addition and at the end.
func TestNoRatioBeforeTheSecondReading(t *testing.T) {
	p := model.Profile{Powder: model.Powder{Name: "Loam", Family: model.PlainClay}}
	trial := model.Trial{Started: specimen.Day(1), PotG: 150, LiquidG: 20, Spoons: model.DefaultSpoons()}
	r := specimen.Read(t, p, trial)
	first, ok := r.Advice()
	require.True(t, ok)
	assert.Equal(t, bench.ActPowder, first.Action, "spoons can be advised by what the family weighs")
	const later = "comes after the first look and weighing the pot again"
	assert.Equal(t, later, r.At(5).Brief("water")[0])
	trial.Steps = []model.Step{{Add: model.AddPowder, Spoon: "1 tsp", Count: 3}}
	assert.Equal(t, later, specimen.Read(t, p, trial).At(5).Brief("water")[0])
	trial.Steps[0].Grams = 6
	assert.Equal(t, "comes with the first look", specimen.Read(t, p, trial).At(5).Brief("water")[0], "weighed")

	trial.Steps = []model.Step{specimen.Spoons("1 tsp", 3, 0)}
	r = specimen.Read(t, p, trial)
	a := r.At(5)
	assert.Nil(t, a.Ratio)
	assert.True(t, a.PotDue)
	assert.Contains(t, a.Sentence("water"), "weigh the pot")
	advice, ok := r.Advice()
	require.True(t, ok)
	assert.True(t, advice.Pot)
	assert.Equal(t, bench.ActWeigh, advice.Action)
	p.Trials = []model.Trial{trial}
	assert.Empty(t, bench.Check(p, nil))

	trial.Steps = append(trial.Steps, specimen.Spoons("1 tsp", 3, 2))
	advice, ok = specimen.Read(t, p, trial).Advice()
	require.True(t, ok)
	assert.Equal(t, bench.ActPowder, advice.Action, "passed over, the trial goes on")

	for range 12 {
		trial.Steps = append(trial.Steps, specimen.Spoons("1/4 tsp", 1, 5))
	}
	r = specimen.Read(t, p, trial)
	assert.Nil(t, r.At(5).Ratio)
	advice, _ = r.Advice()
	assert.True(t, advice.Pot, "looks enough, and no weight")

	trial.Steps[len(trial.Steps)-1].PotG = 130
	r = specimen.Read(t, p, trial)
	assert.NotNil(t, r.At(5).Ratio)
	assert.False(t, r.PotDue())
}

// Asked for once more when the advice would be to stop, with the figures, and no
// more once it was done.
func TestThePotIsAskedForAtTheEnd(t *testing.T) {
	p := specimen.Oats()
	p.LevelSpoons[0].Grams = []float64{2.31}
	trial := specimen.Line(specimen.Day(1), 2, 2, 3, 4, 5, 5, 6)
	trial.PotG = 300
	for i := range trial.Steps {
		trial.Steps[i].Spoon, trial.Steps[i].Grams, trial.Steps[i].Count = "1 tsp", 0, 1
	}
	trial.LiquidG = 24
	r := specimen.Read(t, p, trial)
	require.NotNil(t, r.At(5).Dish)
	a, ok := r.Advice()
	require.True(t, ok)
	require.True(t, a.Pot, a.Text())
	assert.Contains(t, a.Text(), "weigh the pot: the spoons are the larger doubt now, and "+
		bench.PlusMinus(a.Now)+" becomes "+bench.PlusMinus(a.Then))
	assert.InDelta(t, r.At(5).Dish.HalfWidth(), a.Now, 1e-12)

	trial.Steps[len(trial.Steps)-1].PotG = 300 - r.Dish().PowderG
	r = specimen.Read(t, p, trial)
	assert.InDelta(t, a.Then, r.At(5).Dish.HalfWidth(), 2e-3, "it comes true when the spoons held what they should")
	a, _ = r.Advice()
	assert.False(t, a.Pot)
}

func TestEditorTakesThePot(t *testing.T) {
	e := bench.NewEditor(specimen.Oats(), bench.NoTrial, nil)
	require.NoError(t, e.Begin(model.Trial{Started: specimen.Day(1), LiquidG: 20}))
	require.NoError(t, e.Pot(150))
	assert.Equal(t, 150.0, e.Trial().PotG, "before the first step")
	now := specimen.Day(1)
	require.NoError(t, e.Add(now, model.Step{Add: model.AddPowder, Spoon: "1 tsp", Count: 2}))
	require.NoError(t, lookAt(e, 3, now.Add(2*time.Minute)))

	var q *bench.Question
	require.ErrorAs(t, e.Pot(151), &q)
	assert.Equal(t, bench.AskGained, q.Key)
	assert.Equal(t, "The pot holds 1.00 g more than before. Another pot, or a slip?", q.Text)
	require.ErrorAs(t, e.Pot(135), &q)
	assert.Equal(t, bench.AskLoss, q.Key)
	assert.Equal(t, "The pot lost 15.00 g to spoons that should hold 4.62 g. Spilled, or another pot?", q.Text)
	assert.Zero(t, e.Last().PotG, "asking changes nothing")
	require.NoError(t, q.Insist())
	assert.Equal(t, 135.0, e.Last().PotG)
	assert.InDelta(t, 15, e.Outcome().Dish().PowderG, 1e-9)

	c, ok := e.Undo()
	require.True(t, ok)
	assert.Equal(t, "the pot, 135 g", c.What)
	require.NoError(t, e.Pot(145.2))
	assert.InDelta(t, 4.8, e.Outcome().Dish().PowderG, 1e-9)
	require.NoError(t, e.PotAt(0, 0))
	assert.Zero(t, e.Last().PotG)
	require.Error(t, e.PotAt(7, 145))
	require.ErrorContains(t, e.Pot(-3), "not possible")

	// A pot that gained is kept when its maker insists, and begins anew.
	require.ErrorAs(t, e.Pot(400), &q)
	require.NoError(t, q.Insist())
	assert.InDelta(t, 4.62, e.Outcome().Dish().PowderG, 1e-9)

	// Reopened, undo takes the pot back before the look.
	again := bench.NewEditor(e.Profile(), 0, nil)
	c, _ = again.Undo()
	assert.Contains(t, c.What, "pot")
	assert.True(t, again.Last().Looked)
	c, _ = again.Undo()
	assert.NotContains(t, c.What, "pot")
}

func TestEditorMendsWeighings(t *testing.T) {
	e := bench.NewEditor(specimen.Oats(), bench.NoTrial, nil)
	l := e.Profile().LevelSpoons[0]
	var q *bench.Question
	require.ErrorAs(t, e.Weigh(l, 2.3, 23.5), &q)
	assert.Equal(t, bench.AskWeighing, q.Key)
	assert.Len(t, e.Profile().LevelSpoons[0].Grams, 3, "none of them is kept yet")
	require.NoError(t, q.Insist())
	assert.Equal(t, []float64{2.31, 2.27, 2.35, 2.3, 23.5}, e.Profile().LevelSpoons[0].Grams)
	require.ErrorAs(t, e.MendWeighing("1 tsp", 4, 0.235), &q)
	require.NoError(t, e.MendWeighing("1 tsp", 4, 2.35))
	require.NoError(t, e.DeleteWeighing("1 tsp", 0))
	assert.Equal(t, []float64{2.27, 2.35, 2.3, 2.35}, e.Profile().LevelSpoons[0].Grams)
	require.ErrorContains(t, e.DeleteWeighing("1 tsp", 4), "no weighing 5")
	require.ErrorContains(t, e.MendWeighing("1 tbsp", 0, 5), "no weighing 1 of a level 1 tbsp")
	require.ErrorContains(t, e.MendWeighing("1 tsp", 0, -5), "not possible")
	_, ok := e.Undo()
	require.True(t, ok)
	assert.Len(t, e.Profile().LevelSpoons[0].Grams, 5)
}

func TestALookLeftOutDoesNotCount(t *testing.T) {
	p := specimen.Oats()
	p.Trials = []model.Trial{specimen.Line(specimen.Day(1), 2, 2, 3, 4, 5, 6)}
	e := bench.NewEditor(p, 0, nil)
	all := e.Outcome().Answer(5)
	require.NoError(t, e.UseLook(2, false))
	assert.Equal(t, all.Looks-1, e.Outcome().Answer(5).Looks)
	assert.True(t, e.Profile().Trials[0].Steps[2].Looked, "it is kept")
	require.NoError(t, e.UseLook(2, true))
	assert.Equal(t, all.Ratio, e.Outcome().Answer(5).Ratio)
	require.Error(t, e.UseLook(40, false))
	c, _ := e.Undo()
	assert.Equal(t, "use of look 3", c.What)
}

func TestEarlyAndLateLooks(t *testing.T) {
	trial := specimen.Line(specimen.Day(1), 2, 2, 3, 4, 5)
	trial.RestS = specimen.Ptr(60)
	for i, s := range []int{29, 30, 180, 181} {
		trial.Steps[i].RestedS = &s
	}
	r := specimen.Read(t, specimen.Oats(), trial)
	assert.Equal(t, []int{0}, r.Early())
	assert.Equal(t, []int{3}, r.Late())
	assert.Equal(t, 4, r.Looks(), "they count")
}

// With 100 g of water no botanical, gum or unknown powder opens with more than a
// gram or two.
func TestAnUnknownPowderOpensSmall(t *testing.T) {
	for _, f := range []model.Family{model.Botanical, model.Gum, model.Other} {
		for _, spoons := range [][]string{{"1 tsp", "1/2 tsp", "1/4 tsp", "1/8 tsp"}, nil} {
			p, trial := dishOf(f, 100, 5, spoons...)
			a, ok := adviceFor(t, p, trial)
			require.True(t, ok)
			assert.Equal(t, bench.ActPowder, a.Action)
			assert.LessOrEqual(t, a.Grams, 2.0, f)
		}
	}
}

func TestQuestionsAreErrors(t *testing.T) {
	var err error = &bench.Question{Key: bench.AskLoss, Text: "Spilled?"}
	assert.Equal(t, "Spilled?", err.Error())
	assert.False(t, errors.Is(err, errors.ErrUnsupported))
}

// A slip on the scale is asked about from the first span on: no powder weighs 293 g
// by the millilitre (180.4 g of it in 1/8 tsp, 0.616 mL).
func TestThePotIsDoubtedByTheDensityOfItsPowder(t *testing.T) {
	p := specimen.Oats()
	p.LevelSpoons = nil
	p.Trials = []model.Trial{{Started: specimen.Day(1), LiquidG: 20, PotG: 182.4, Steps: []model.Step{
		{Add: model.AddPowder, Spoon: "1/8 tsp", Count: 1, Looked: true},
	}}}
	e := bench.NewEditor(p, 0, nil)
	var q *bench.Question
	require.ErrorAs(t, e.Pot(2), &q)
	assert.Equal(t, "The pot lost 180.4 g to spoons of 0.616 mL. That is 290 g/mL; powders weigh 0.1 to 2. A slip?",
		q.Text)
	assert.Zero(t, e.Last().PotG)
	require.NoError(t, e.Pot(182.1))
	assert.Equal(t, 182.1, e.Last().PotG)
}
