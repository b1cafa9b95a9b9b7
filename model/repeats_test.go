package model_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// withTrials is oats with these trials.
func withTrials(ts ...model.Trial) model.Profile {
	p := oats()
	p.Trials = ts
	return p
}

// ratio is what all trials on the newest basis say at one level.
func ratio(t *testing.T, p model.Profile, level float64) model.PowderRatio {
	t.Helper()
	bases := p.Bases()
	require.NotEmpty(t, bases)
	return p.Ratios(bases[0], []float64{level}, nil)[0]
}

// full is a trial with looks on both sides of level 5.
func full(n int, ratio float64) model.Trial { return line(day(n), ratio, 3, 4, 5, 6) }

func TestOneTrial(t *testing.T) {
	p := withTrials(full(1, 2))
	r := ratio(t, p, 5)
	a := read(t, p, p.Trials[0]).At(5)
	assert.Equal(t, fit.Bracketed, r.Reach)
	assert.Equal(t, 1, r.Trials)
	assert.Equal(t, model.Basis{Liquid: "water", RestS: 120}, r.Basis)
	assert.InEpsilon(t, a.Dish.Median, r.Powder.Median, 0.01)
	assert.Less(t, r.Powder.Low, a.Dish.Low, "one trial does not know how trials differ")
	assert.Less(t, r.Next.Low, r.Powder.Low, "the next dish differs from this powder")
	assert.Greater(t, r.Next.High, r.Powder.High)
	assert.InEpsilon(t, 2.31*r.Powder.Median, r.PerTsp.Median, 1e-9)
	assert.Positive(t, r.Budget.Repeats)
}

func TestThreeTrials(t *testing.T) {
	one, three := withTrials(full(1, 2)), withTrials(full(1, 2), full(2, 2.1), full(3, 1.9))
	a, b := ratio(t, one, 5), ratio(t, three, 5)
	assert.Equal(t, 3, b.Trials)
	assert.InEpsilon(t, 2, b.Powder.Median, 0.03)
	assert.Less(t, b.Powder.High/b.Powder.Low, a.Powder.High/a.Powder.Low, "repeats narrow it")
	assert.Greater(t, b.Next.High/b.Next.Low, b.Powder.High/b.Powder.Low)

	// The order in the file is nothing to the answer.
	slices.Reverse(three.Trials)
	assert.Equal(t, b.Powder, ratio(t, three, 5).Powder)
}

// All powder by the weighed teaspoon: its weight is in the ratio per gram and
// cancels in the ratio per teaspoon.
func TestPerTeaspoonLosesTheSpoonWeight(t *testing.T) {
	trial := model.Trial{Started: day(1), State: model.Done, LiquidG: 20, Steps: []model.Step{
		spoons("1 tsp", 3, 3), spoons("1 tsp", 1, 5), spoons("1 tsp", 1, 6),
	}}
	r := ratio(t, withTrials(trial), 5)
	assert.Positive(t, r.Budget.SpoonWeight)
	perGram := math.Log(r.Powder.High/r.Powder.Median) * math.Log(r.Powder.High/r.Powder.Median)
	perTsp := math.Log(r.PerTsp.High/r.PerTsp.Median) * math.Log(r.PerTsp.High/r.PerTsp.Median)
	assert.InDelta(t, 0.0600767*0.0600767, perGram-perTsp, 1e-7)
}

func TestTrialsThatDoNotCount(t *testing.T) {
	open, aside, broken := full(2, 4), full(3, 4), full(4, 4)
	open.State = model.Open
	aside.SetAside = "spilled"
	broken.Steps[0] = model.Step{Add: model.AddPowder, Spoon: "ladle"}
	p := withTrials(full(1, 2), open, aside, broken)
	r := ratio(t, p, 5)
	assert.Equal(t, 1, r.Trials)
	assert.Equal(t, ratio(t, withTrials(full(1, 2)), 5).Powder, r.Powder)
	assert.Empty(t, withTrials(open, aside).Bases())
	assert.Equal(t, day(1), withTrials(full(1, 2), open, aside).LastTrial())
	assert.True(t, withTrials(open).LastTrial().IsZero())
}

func TestBases(t *testing.T) {
	in := func(trial model.Trial, liquid string, rest int) model.Trial {
		trial.Liquid, trial.RestS = liquid, &rest
		return trial
	}
	water60, water120, water30 := in(full(1, 2), "", 60), in(full(2, 2), "water", 120), in(full(3, 2.6), "Water ", 30)
	oil := in(full(4, 1.2), "vegetable oil", 120)

	p := withTrials(water60, water120)
	assert.Equal(t, []model.Basis{{Liquid: "water", RestS: 120}}, p.Bases(), "60 s and 120 s are comparable")
	assert.Equal(t, 2, ratio(t, p, 5).Trials)

	p = withTrials(water120, water30)
	assert.Equal(t, []model.Basis{{Liquid: "Water ", RestS: 30}, {Liquid: "water", RestS: 120}}, p.Bases(), "30 s and 120 s are not")
	for i, r := range []float64{2.6, 2} {
		got := p.Ratios(p.Bases()[i], []float64{5}, nil)[0]
		assert.Equal(t, 1, got.Trials)
		assert.InEpsilon(t, r, got.Powder.Median, 0.03)
	}

	p = withTrials(oil, water120, water60)
	assert.Equal(t, []model.Basis{{Liquid: "vegetable oil", RestS: 120}, {Liquid: "water", RestS: 120}}, p.Bases(), "newest first, whatever the order in the file")
	assert.InEpsilon(t, 1.2, ratio(t, p, 5).Powder.Median, 0.03)
}

// METHOD 6: comparable within a factor of three.
func TestComparableRests(t *testing.T) {
	for _, tt := range []struct {
		a, b int
		want bool
	}{
		{30, 120, false},
		{60, 120, true},
		{40, 120, true},
		{39, 120, false},
		{0, 10, true},
		{0, 15, true},
		{0, 16, false},
		{300, 300, true},
	} {
		assert.Equal(t, tt.want, model.ComparableRests(tt.a, tt.b), "%d and %d", tt.a, tt.b)
		assert.Equal(t, tt.want, model.ComparableRests(tt.b, tt.a), "%d and %d", tt.b, tt.a)
	}
}

// Every level rests on the same trials, those with a closed look; the reach of
// the powder is the best of theirs.
func TestEveryLevelRestsOnTheSameTrials(t *testing.T) {
	below := line(day(2), 2.1, 2, 3, 4)
	open := line(day(3), 2, 0, 7)
	p := withTrials(full(1, 2), below, open)
	for _, level := range []float64{2, 3, 4, 5, 6} {
		r := ratio(t, p, level)
		assert.Equal(t, fit.Bracketed, r.Reach, "level %v", level)
		assert.Equal(t, 2, r.Trials, "level %v", level)
	}

	alone := ratio(t, withTrials(below), 5)
	assert.Equal(t, fit.OneSided, alone.Reach)
	assert.Equal(t, 1, alone.Trials)
	assert.NotNil(t, alone.Powder)
	assert.Equal(t, fit.Bracketed, ratio(t, withTrials(below), 3).Reach)
}

func TestBoundsOfSeveralTrials(t *testing.T) {
	thin, thinner, thick := line(day(1), 2, 0, 1), line(day(2), 2.5, 0, 1), line(day(3), 1.5, 7)
	r := ratio(t, withTrials(thin, thinner), 5)
	assert.Equal(t, fit.NotReached, r.Reach)
	assert.Nil(t, r.Powder)
	assert.Nil(t, r.Next)
	assert.Nil(t, r.PerTsp)
	assert.Nil(t, r.Budget)
	// The thickest look of each: R·e^((5-1)/6).
	assert.InEpsilon(t, 2*math.Exp(4.0/6), r.Bound.High, 1e-9)
	assert.Zero(t, r.Bound.Low)
	assert.Equal(t, 2, r.Trials)

	r = ratio(t, withTrials(thin, thinner, thick), 5)
	assert.InEpsilon(t, 1.5*math.Exp(-2.0/6), r.Bound.Low, 1e-9)
	assert.InEpsilon(t, 2*math.Exp(4.0/6), r.Bound.High, 1e-9)

	blind := model.Trial{Started: day(1), State: model.Done, LiquidG: 5}
	assert.Nil(t, ratio(t, withTrials(blind), 5).Bound)
}

func TestBudgetOfAPowderSumsToOne(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := oats()
		for n := range rapid.IntRange(1, 3).Draw(rt, "trials") {
			trial := full(n+1, rapid.Float64Range(0.4, 8).Draw(rt, "ratio"))
			if rapid.Bool().Draw(rt, "spoons") {
				trial.Steps[0] = spoons("1/2 tsp", rapid.IntRange(1, 8).Draw(rt, "count"), 3)
			}
			if rapid.Bool().Draw(rt, "liquid by spoon") {
				trial.LiquidBy = model.BySpoon
			}
			p.Trials = append(p.Trials, trial)
		}
		for _, r := range p.Ratios(p.Bases()[0], []float64{3, 5}, nil) {
			require.NotNil(rt, r.Budget)
			b := *r.Budget
			shares := []float64{b.Looks, b.SpoonWeight, b.Scoops, b.PowderScale, b.Liquid, b.SpoonSize, b.Repeats}
			sum := 0.0
			for _, s := range shares {
				assert.GreaterOrEqual(rt, s, 0.0)
				sum += s
			}
			assert.InDelta(rt, 1, sum, 1e-9)
			assert.LessOrEqual(rt, r.Next.Low, r.Powder.Low)
			assert.GreaterOrEqual(rt, r.Next.High, r.Powder.High)
		}
	})
}

func TestAimIsTheNewestTrials(t *testing.T) {
	a, b := full(1, 2), full(2, 2)
	a.Aim = 3.5
	assert.Equal(t, 5.0, oats().Aim())
	assert.Equal(t, 3.5, withTrials(a).Aim())
	assert.Equal(t, 5.0, withTrials(b, a).Aim())
	// Of two that started at the same moment, the later in the file.
	b.Started = a.Started
	assert.Equal(t, 3.5, withTrials(b, a).Aim())
	assert.Equal(t, time.Time{}, oats().LastTrial())
}

func TestSentenceOfAPowder(t *testing.T) {
	assert.Regexp(t, `^At 5 spread this powder takes \S+ \(\S+ to \S+\) g water per g \(2 trials, rest 2 min\); the next dish \S+ to \S+\.$`,
		ratio(t, withTrials(full(1, 2), full(2, 2)), 5).Sentence())
	assert.Regexp(t, `^At 5 spread this powder takes about .*, seen from one side only \(1 trial, rest 2 min\)\.$`,
		ratio(t, withTrials(line(day(1), 2, 3, 4)), 5).Sentence())
	assert.Equal(t, "Level 5 spread is not reached: it takes less than 3.90 g water per g powder.",
		ratio(t, withTrials(line(day(1), 2, 0, 1)), 5).Sentence())
	assert.Equal(t, "No finished trial with a look yet.", model.PowderRatio{Level: 5}.Sentence())
}
