package bench_test

import (
	"math"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dishOf is a trial of a powder of 2.5 g a teaspoon, into so much water.
func dishOf(family model.Family, waterG, aim float64, spoons ...string) (model.Profile, model.Trial) {
	p := model.Profile{
		Powder:      model.Powder{Name: "x", Family: family},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.5, 2.45, 2.55}}},
	}
	return p, model.Trial{LiquidG: waterG, Aim: aim, Spoons: spoons}
}

func adviceFor(t *testing.T, p model.Profile, trial model.Trial) (bench.Advice, bool) {
	t.Helper()
	r, err := bench.Read(p, trial, nil)
	require.NoError(t, err)
	return r.Advice()
}

// The first addition keeps its promise: with the thirstiest powder of the family it comes
// to the aim at most, whatever the aim.
func TestTheFirstAdditionStaysBelowAnyAim(t *testing.T) {
	for _, family := range model.Families() {
		for aim := 1.0; aim <= 6; aim += 0.5 {
			p, trial := dishOf(family, 20, aim, "1 tsp", "1/2 tsp", "1/4 tsp", "1/8 tsp", "1/16 tsp", "1/32 tsp")
			a, ok := adviceFor(t, p, trial)
			require.True(t, ok)
			require.Equal(t, bench.ActPowder, a.Action)
			_, high := family.FirstRange()
			level := 5 + 6*math.Log(high*a.Grams/20)
			if a.Grams > 0.1 {
				assert.LessOrEqual(t, level, aim+0.01, "%s, aim %v: %s", family, aim, a.Text())
			}
		}
	}
}

func TestAdviceWhereNothingFits(t *testing.T) {
	p, trial := dishOf(model.Botanical, 20, 5, "1 tbsp")
	a, ok := adviceFor(t, p, trial)
	require.True(t, ok)
	assert.Contains(t, a.Text(), "1 tbsp: the smallest at hand, and it may overshoot. More liquid first would be safer")

	// A small spoon of a powder of which nothing is known.
	p, trial = dishOf(model.Other, 20, 5, "1/8 tsp")
	a, ok = adviceFor(t, p, trial)
	require.True(t, ok)
	assert.Contains(t, a.Text(), "1/8 tsp: only a very thirsty powder would come out too thick")

	// It is said where at most a quarter of the family's range, in ln R, goes beyond level 6.
	for _, family := range []model.Family{model.PlainClay, model.SwellingClay, model.Mineral, model.Other} {
		for liquid := 4.0; liquid < 60; liquid += 2 {
			p, trial := dishOf(family, liquid, 5, "1/2 tsp")
			a, ok := adviceFor(t, p, trial)
			require.True(t, ok)
			low, high := family.FirstRange()
			share := math.Log(high/(math.Exp(1.0/6)*liquid/a.Grams)) / math.Log(high/low)
			if strings.Contains(a.Text(), "smallest at hand") {
				assert.Greater(t, share, 0.25, "%s into %v g", family, liquid)
			} else if strings.Contains(a.Text(), "very thirsty") {
				assert.LessOrEqual(t, share, 0.25, "%s into %v g", family, liquid)
			}
		}
	}

	// Powder is in already and has not been looked at: a look comes first.
	p, trial = dishOf(model.Flour, 5, 5, "1 tsp", "1/8 tsp")
	trial.Steps = []model.Step{{Add: model.AddPowder, Grams: 12}}
	_, ok = adviceFor(t, p, trial)
	assert.False(t, ok)

	// Liquid dripped into powder: no liquid yet.
	p, trial = dishOf(model.Flour, 0, 5, "1 tsp", "1/8 tsp")
	trial.Steps = []model.Step{{Add: model.AddPowder, Grams: 5}}
	a, ok = adviceFor(t, p, trial)
	require.True(t, ok)
	assert.Equal(t, bench.ActLiquid, a.Action)

	// A liquid without a density, and no spoons: by weight.
	p, trial = dishOf(model.Flour, 20, 5)
	trial.Liquid = "syrup"
	a, ok = adviceFor(t, p, trial)
	require.True(t, ok)
	assert.Empty(t, a.Spoon)
	assert.InDelta(t, 20/2.5, a.Grams, 0.01)
}

// played follows the advice with a powder of known ratio until it ends.
func played(t *testing.T, p model.Profile, trial model.Trial, ratio float64) (model.Trial, bench.Advice) {
	t.Helper()
	for range 40 {
		r, err := bench.Read(p, trial, nil)
		require.NoError(t, err)
		a, ok := r.Advice()
		require.True(t, ok)
		step, adds := a.Step()
		if !adds {
			return trial, a
		}
		d := r.Dish()
		if step.Add == model.AddPowder {
			d.PowderG += a.Grams
		} else {
			d.LiquidG += a.Grams
		}
		step.Looked = true
		step.Level = math.Min(math.Max(math.Round(5+6*math.Log(d.PowderPerLiquid()*ratio)), 0), 7)
		trial.Steps = append(trial.Steps, step)
	}
	t.Fatalf("no end after 40 steps; the last looks were at %v", trial.Steps[38:])
	return trial, bench.Advice{}
}

func TestTrialsEnd(t *testing.T) {
	all := []string{"1 tsp", "1/2 tsp", "1/4 tsp", "1/8 tsp"}
	for _, tt := range []struct {
		name          string
		family        model.Family
		water, ratio  float64
		spoons        []string
		most          int
		neverThickens bool
	}{
		{"a large dish", model.PlainClay, 500, 0.8, all, 16, false},
		{"a small dish", model.PlainClay, 5, 0.8, all, 10, false},
		{"by weight", model.Flour, 20, 1.8, nil, 10, false},
		{"thirstier than its family", model.PlainClay, 20, 5, all, 12, false},
		{"never thickens", model.Flour, 20, 0.001, all, 14, true},
		{"one spoon only", model.Flour, 20, 1.8, []string{"1/2 tsp"}, 14, false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p, trial := dishOf(tt.family, tt.water, 5, tt.spoons...)
			trial, last := played(t, p, trial, tt.ratio)
			assert.LessOrEqual(t, len(trial.Steps), tt.most)
			if tt.neverThickens {
				assert.Contains(t, last.Text(), "may not thicken")
				return
			}
			r, err := bench.Read(p, trial, nil)
			require.NoError(t, err)
			require.NotNil(t, r.At(5).Dish)
			assert.InDelta(t, math.Log(tt.ratio), math.Log(r.At(5).Dish.Median), 0.12)
		})
	}
}

func TestASmallStartByWeightDoesNotMakeForSmallSteps(t *testing.T) {
	p, trial := dishOf(model.Flour, 20, 5)
	trial.Steps = []model.Step{{Add: model.AddPowder, Grams: 0.05, Looked: true, Level: 0}}
	trial, _ = played(t, p, trial, 1.8)
	assert.LessOrEqual(t, len(trial.Steps), 12)
}

// A forecast over the whole scale says nothing of where the look will fall, and says so.
func TestAForecastOverTheWholeScaleSaysSo(t *testing.T) {
	p, trial := dishOf(model.Other, 20, 5, "1 tbsp", "1 tsp")
	trial.LevelStep = 1
	trial.Steps = []model.Step{{Add: model.AddPowder, Spoon: "1 tsp", Count: 1, Looked: true, Level: 0}}
	a, ok := adviceFor(t, p, trial)
	require.True(t, ok)
	assert.Contains(t, a.Text(), ": anything from 0 to 7. A guess")
}

// For a powder whose trials leave it uncertain the first addition is a guess too, and a
// smaller one that is no guess is named.
func TestAFirstAdditionThatIsAGuessSaysSo(t *testing.T) {
	p, trial := dishOf(model.Flour, 20, 5, "1 tsp", "1/2 tsp", "1/4 tsp")
	r, err := bench.Read(p, trial, nil)
	require.NoError(t, err)
	a, ok := r.Advice()
	require.True(t, ok)
	assert.Contains(t, a.Text(), "thinner than the target level with most flours. That is meant: start thin. "+
		"How thin it will be is a guess")

	r.Known = fit.Expected{Low: 1.4, High: 2.8}
	a, ok = r.Advice()
	require.True(t, ok)
	assert.Contains(t, a.Text(), "should come near the target level, by earlier trials of this powder")
	s, _ := a.Step()
	assert.False(t, r.Forecasts(s)[0].Guess())

	// 4 × 1 tsp, 10 g: likely ln(4)·0.654/2 to either side of ratio 2, so -2.7 and 2.7 levels.
	r.Known = fit.Expected{Low: 1, High: 4}
	a, ok = r.Advice()
	require.True(t, ok)
	s, _ = a.Step()
	f := r.Forecasts(s)[0]
	assert.True(t, f.Guess() && f.Known)
	assert.Contains(t, a.Text(), ": likely lands at "+f.Range()+" by earlier trials. "+
		"A guess, but no other step tells more: take it. ")
	_, careful, _ := strings.Cut(a.Text(), "take it. ")
	assert.Regexp(t, `^More careful: \d × 1.* \(0( to [1-3])?\), which tells little$`, careful)
}
