package model_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func powderBy(spoon string, count int, potG float64) model.Step {
	return model.Step{Add: model.AddPowder, Spoon: spoon, Count: count, PotG: potG}
}

func TestPotSpans(t *testing.T) {
	trial := model.Trial{PotG: 150, Steps: []model.Step{
		powderBy("1 tsp", 2, 0),
		{Add: model.AddLiquid, Grams: 3},
		{Add: model.AddPowder, Grams: 1.5, PotG: 144},
		powderBy("1/2 tsp", 1, 0),
		powderBy("1/4 tsp", 3, 142.5),
		powderBy("1 tsp", 1, 0),
	}}
	spans := trial.PotSpans()
	require.Len(t, spans, 2)
	assert.Equal(t, model.PotSpan{
		From: 0, To: 3, LossG: 6, WeighedG: 1.5,
		Scoops: []model.SpoonCount{{Spoon: "1 tsp", Count: 2}},
	}, spans[0])
	assert.Equal(t, 4.5, spans[0].SpoonedG())
	assert.Equal(t, []model.SpoonCount{{Spoon: "1/2 tsp", Count: 1}, {Spoon: "1/4 tsp", Count: 3}}, spans[1].Scoops)
	assert.True(t, trial.PotOpen(), "the last teaspoon waits for the pot")
	trial.Steps[5].PotG = 140
	assert.False(t, trial.PotOpen())
	assert.False(t, model.Trial{Steps: []model.Step{powderBy("1 tsp", 1, 0)}}.PotOpen(), "no pot on the scale at all")

	// Without a reading before the first spoon the spans begin at the first there is.
	trial.PotG = 0
	assert.Equal(t, spans[1], trial.PotSpans()[0])
}

// METHOD 1 and 2b by hand: three teaspoons from one span, 6.93 g, are one
// weighing of three: ν = 2, s_rel = 5 %, scale 0.01/(√6·2.31·3) = 5.8910e-4;
// u² = 0.0025/3 + 3.4704e-7.
func TestThePotWeighsALevelSpoon(t *testing.T) {
	p := model.Profile{Trials: []model.Trial{{PotG: 152.40, Steps: []model.Step{
		powderBy("1 tsp", 2, 0), powderBy("1 tsp", 1, 145.47), powderBy("1/2 tsp", 1, 0), powderBy("1/4 tsp", 1, 143),
	}}}}
	s, err := p.SpoonWeights("", nil).Scoop("1 tsp")
	require.NoError(t, err)
	assert.InDelta(t, 2.31, s.Grams, 1e-9)
	assert.Equal(t, 1, s.Weight.N)
	assert.Equal(t, 3.0, s.Weight.Scoops)
	assert.InDelta(t, math.Sqrt(0.0025/3+3.4704e-7), s.Weight.UMean, 1e-8)

	// With a spoon weighing of 2.40 g: (2.40 + 3·2.31)/4 = 2.3325 g;
	// s_rel² = (0.005 + (0.0675² + 3·0.0225²)/2.3325²)/3.
	p.LevelSpoons = []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.40}}}
	s, err = p.SpoonWeights("", nil).Scoop("1 tsp")
	require.NoError(t, err)
	assert.InDelta(t, 2.3325, s.Grams, 1e-9)
	assert.InDelta(t, math.Sqrt((0.005+(0.0675*0.0675+3*0.0225*0.0225)/(2.3325*2.3325))/3), s.Weight.RelSD, 1e-9)

	// Sizes of a mixed span are not weighed: the half goes by volume.
	half, err := p.SpoonWeights("", nil).Scoop("1/2 tsp")
	require.NoError(t, err)
	assert.Equal(t, "1 tsp", half.Source)

	// A trial that is set aside says nothing of the powder.
	p.LevelSpoons, p.Trials[0].SetAside = nil, "spilled the pot"
	_, err = p.SpoonWeights("", nil).Scoop("1 tsp")
	assert.Error(t, err)

	// A metric spoon is larger than the same name in the US set.
	p.Trials[0].SetAside, p.Trials[0].SpoonSet = "", model.Metric
	s, err = p.SpoonWeights("", nil).Scoop("1 tsp")
	require.NoError(t, err)
	assert.InDelta(t, 2.31*model.USTeaspoonML/5, s.Grams, 1e-9)
}

// A table that says the pot gave it counts where the trials do not say so.
func TestATableGivenByThePot(t *testing.T) {
	p := model.Profile{LevelSpoons: []model.LevelSpoon{{
		Spoon: "1 tsp", Grams: []float64{23}, SpoonsEach: 10,
		How: model.ByPot,
	}}}
	tsp, ok := p.SpoonWeights("", nil).Teaspoon()
	require.True(t, ok)
	assert.InDelta(t, 2.3, tsp, 1e-12)
	p.Trials = []model.Trial{{PotG: 100, Steps: []model.Step{powderBy("1 tsp", 4, 90)}}}
	tsp, _ = p.SpoonWeights("", nil).Teaspoon()
	assert.InDelta(t, 2.5, tsp, 1e-12, "and is not counted twice")
}

func TestGuessingGivesNoTeaspoon(t *testing.T) {
	s := model.Profile{}.SpoonWeights("", nil).Guessing(model.SwellingClay)
	scoop, err := s.Scoop("1 tsp")
	require.NoError(t, err)
	assert.True(t, scoop.Guess)
	assert.InDelta(t, 0.9*model.USTeaspoonML, scoop.Grams, 1e-12)
	_, ok := s.Teaspoon()
	assert.False(t, ok)
}

// METHOD 1: asked about outside a factor of 1.5 of the median of the others; a
// first one outside 0.1 to 2 g/mL, a teaspoon of 4.93 mL from 0.493 to 9.86 g.
func TestWildWeighing(t *testing.T) {
	with := func(grams ...float64) model.Profile {
		return model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: grams}}}
	}
	for _, tt := range []struct {
		grams []float64
		wild  bool
	}{
		{[]float64{2.3, 2.4, 23.5}, true},
		{[]float64{2.3, 2.4, 3.5}, false},
		{[]float64{2.3, 2.4, 3.6}, true},
		{[]float64{2.4, 1.61}, false},
		{[]float64{2.4, 1.59}, true},
		{[]float64{23.5}, true},
		{[]float64{9.8}, false},
		{[]float64{0.5}, false},
		{[]float64{0.49}, true},
		{[]float64{0}, false},
	} {
		question, wild := with(tt.grams...).WildWeighing("1 tsp", len(tt.grams)-1, "", nil)
		assert.Equal(t, tt.wild, wild, "%v: %s", tt.grams, question)
	}
	question, _ := with(2.3, 2.4, 2.2, 23.5).WildWeighing("1 tsp", 3, "", nil)
	assert.Equal(t, "23.5 g a level 1 tsp? The others say 2.30 g", question)
	question, _ = with(23.5).WildWeighing("1 tsp", 0, "", nil)
	assert.Equal(t, "23.5 g a level 1 tsp? That is 4.8 g/mL; powders weigh 0.1 to 2", question)
	_, wild := with(2.3).WildWeighing("1 tbsp", 0, "", nil)
	assert.False(t, wild, "never weighed")
}

func TestTiming(t *testing.T) {
	look := func(s int) model.Step { return model.Step{Looked: true, RestedS: &s} }
	assert.Equal(t, model.Early, look(14).Timing(30))
	assert.Equal(t, model.InTime, look(15).Timing(30))
	assert.Equal(t, model.InTime, look(90).Timing(30))
	assert.Equal(t, model.Late, look(91).Timing(30))
	assert.Equal(t, model.InTime, look(91).Timing(0))
	assert.Equal(t, model.InTime, model.Step{Looked: true}.Timing(30), "not recorded")
	assert.Equal(t, model.InTime, model.Step{RestedS: look(1).RestedS}.Timing(30), "no look")
}

// The weight of a teaspoon that was not weighed itself is told too, with the spoon it comes
// from.
func TestTheWeightOfATeaspoonIsTold(t *testing.T) {
	p := model.Profile{Trials: []model.Trial{{PotG: 100, Steps: []model.Step{powderBy("1/8 tsp", 8, 97.36)}}}}
	assert.Equal(t, []string{
		"a level 1 tsp weighs 2.64 g (going by the 1/8 tsp)",
		"a level 1/8 tsp weighs 0.330 ± 0.025 g (by the pot)",
	}, p.SpoonWeights("", nil).Texts())

	p = model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.61, 2.55, 2.66}}}}
	assert.Equal(t, []string{"a level 1 tsp weighs 2.61 ± 0.16 g (3 weighings)"}, p.SpoonWeights("", nil).Texts())
	assert.Empty(t, model.Profile{}.SpoonWeights("", nil).Texts())
}
