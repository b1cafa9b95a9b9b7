package repeats_test

import (
	"math"
	"slices"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// ratio pools all trials on the newest basis at one level.
func ratio(t *testing.T, p model.Profile, level float64) repeats.Ratio {
	t.Helper()
	bases := p.Bases()
	require.NotEmpty(t, bases)
	return repeats.Ratios(p, bases[0], []float64{level}, nil)[0]
}

func TestOneTrial(t *testing.T) {
	p := specimen.WithTrials(specimen.Full(1, 2))
	r := ratio(t, p, 5)
	a := specimen.Read(t, p, p.Trials[0]).At(5)
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
	one, three := specimen.WithTrials(specimen.Full(1, 2)), specimen.WithTrials(specimen.Full(1, 2),
		specimen.Full(2, 2.1), specimen.Full(3, 1.9))
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
	trial := model.Trial{Started: specimen.Day(1), State: model.Done, LiquidG: 20, Steps: []model.Step{
		specimen.Spoons("1 tsp", 3, 3), specimen.Spoons("1 tsp", 1, 5), specimen.Spoons("1 tsp", 1, 6),
	}}
	r := ratio(t, specimen.WithTrials(trial), 5)
	assert.Positive(t, r.Budget.SpoonWeight)
	perGram := math.Log(r.Powder.High/r.Powder.Median) * math.Log(r.Powder.High/r.Powder.Median)
	perTsp := math.Log(r.PerTsp.High/r.PerTsp.Median) * math.Log(r.PerTsp.High/r.PerTsp.Median)
	assert.InDelta(t, 0.0600767*0.0600767, perGram-perTsp, 1e-7)
}

func TestTrialsThatDoNotCount(t *testing.T) {
	open, aside, broken := specimen.Full(2, 4), specimen.Full(3, 4), specimen.Full(4, 4)
	open.State = model.Open
	aside.SetAside = "spilled"
	broken.Steps[0] = model.Step{Add: model.AddPowder, Spoon: "ladle"}
	p := specimen.WithTrials(specimen.Full(1, 2), open, aside, broken)
	r := ratio(t, p, 5)
	assert.Equal(t, 1, r.Trials)
	assert.Equal(t, ratio(t, specimen.WithTrials(specimen.Full(1, 2)), 5).Powder, r.Powder)
	assert.Empty(t, specimen.WithTrials(open, aside).Bases())
	assert.Equal(t, specimen.Day(1), specimen.WithTrials(specimen.Full(1, 2), open, aside).LastTrial())
	assert.True(t, specimen.WithTrials(open).LastTrial().IsZero())
}

func TestBases(t *testing.T) {
	in := func(trial model.Trial, liquid string, rest int) model.Trial {
		trial.Liquid, trial.RestS = liquid, &rest
		return trial
	}
	water60, water120, water30 := in(specimen.Full(1, 2), "", 60), in(specimen.Full(2, 2), "water",
		120), in(specimen.Full(3, 2.6), "Water ", 30)
	oil := in(specimen.Full(4, 1.2), "vegetable oil", 120)

	p := specimen.WithTrials(water60, water120)
	assert.Equal(t, []model.Basis{{Liquid: "water", RestS: 120}}, p.Bases(), "60 s and 120 s are comparable")
	assert.Equal(t, 2, ratio(t, p, 5).Trials)

	p = specimen.WithTrials(water120, water30)
	assert.Equal(t, []model.Basis{{Liquid: "Water ", RestS: 30}, {Liquid: "water", RestS: 120}}, p.Bases(),
		"30 s and 120 s are not")
	for i, r := range []float64{2.6, 2} {
		got := repeats.Ratios(p, p.Bases()[i], []float64{5}, nil)[0]
		assert.Equal(t, 1, got.Trials)
		assert.InEpsilon(t, r, got.Powder.Median, 0.03)
	}

	p = specimen.WithTrials(oil, water120)
	assert.Equal(t, []model.Basis{{Liquid: "vegetable oil", RestS: 120}, {Liquid: "water", RestS: 120}}, p.Bases(),
		"newest first, whatever the order in the file")
	assert.InEpsilon(t, 1.2, ratio(t, p, 5).Powder.Median, 0.03)

	p = specimen.WithTrials(oil, water120, water60)
	assert.Equal(t, []model.Basis{{Liquid: "water", RestS: 120}, {Liquid: "vegetable oil", RestS: 120}}, p.Bases(),
		"two trials in water, one in oil")
	assert.Equal(t, 2, ratio(t, p, 5).Trials)
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
	below := specimen.Line(specimen.Day(2), 2.1, 2, 3, 4)
	open := specimen.Line(specimen.Day(3), 2, 0, 7)
	p := specimen.WithTrials(specimen.Full(1, 2), below, open)
	for _, level := range []float64{2, 3, 4, 5, 6} {
		r := ratio(t, p, level)
		assert.Equal(t, fit.Bracketed, r.Reach, "level %v", level)
		assert.Equal(t, 2, r.Trials, "level %v", level)
	}

	alone := ratio(t, specimen.WithTrials(below), 5)
	assert.Equal(t, fit.OneSided, alone.Reach)
	assert.Equal(t, 1, alone.Trials)
	assert.NotNil(t, alone.Powder)
	assert.Equal(t, fit.Bracketed, ratio(t, specimen.WithTrials(below), 3).Reach)
}

func TestBoundsOfSeveralTrials(t *testing.T) {
	thin, thinner, thick := specimen.Line(specimen.Day(1), 2, 0, 1), specimen.Line(specimen.Day(2), 2.5, 0,
		1), specimen.Line(specimen.Day(3), 1.5, 7)
	r := ratio(t, specimen.WithTrials(thin, thinner), 5)
	assert.Equal(t, fit.NotReached, r.Reach)
	assert.Nil(t, r.Powder)
	assert.Nil(t, r.Next)
	assert.Nil(t, r.PerTsp)
	assert.Nil(t, r.Budget)
	// The thickest look of each: R·e^((5-1)/6).
	assert.InEpsilon(t, 2*math.Exp(4.0/6), r.Bound.High, 1e-9)
	assert.Zero(t, r.Bound.Low)
	assert.Equal(t, 2, r.Trials)

	r = ratio(t, specimen.WithTrials(thin, thinner, thick), 5)
	assert.InEpsilon(t, 1.5*math.Exp(-2.0/6), r.Bound.Low, 1e-9)
	assert.InEpsilon(t, 2*math.Exp(4.0/6), r.Bound.High, 1e-9)

	blind := model.Trial{Started: specimen.Day(1), State: model.Done, LiquidG: 5}
	assert.Nil(t, ratio(t, specimen.WithTrials(blind), 5).Bound)
}

func TestBudgetOfAPowderSumsToOne(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := specimen.Oats()
		for n := range rapid.IntRange(1, 3).Draw(rt, "trials") {
			trial := specimen.Full(n+1, rapid.Float64Range(0.4, 8).Draw(rt, "ratio"))
			if rapid.Bool().Draw(rt, "spoons") {
				trial.Steps[0] = specimen.Spoons("1/2 tsp", rapid.IntRange(1, 8).Draw(rt, "count"), 3)
			}
			if rapid.Bool().Draw(rt, "liquid by spoon") {
				trial.LiquidBy = model.BySpoon
			}
			p.Trials = append(p.Trials, trial)
		}
		for _, r := range repeats.Ratios(p, p.Bases()[0], []float64{3, 5}, nil) {
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
	a, b := specimen.Full(1, 2), specimen.Full(2, 2)
	a.Aim = 3.5
	assert.Equal(t, 5.0, specimen.Oats().Aim())
	assert.Equal(t, 3.5, specimen.WithTrials(a).Aim())
	assert.Equal(t, 5.0, specimen.WithTrials(b, a).Aim())
	// Of two that started at the same moment, the later in the file.
	b.Started = a.Started
	assert.Equal(t, 3.5, specimen.WithTrials(b, a).Aim())
	assert.Equal(t, time.Time{}, specimen.Oats().LastTrial())
}

func TestSentenceOfAPowder(t *testing.T) {
	assert.Regexp(t, `^At 5 spread this powder takes \S+ \(\S+ to \S+\) g water per g powder `+
		`\(2 trials, rest 2 min\)\. Your next dish may take \S+ to \S+: plan with that\.$`,
		ratio(t, specimen.WithTrials(specimen.Full(1, 2), specimen.Full(2, 2)), 5).Sentence())
	assert.Regexp(t, `^At 5 spread this powder takes about .*, tested from one side only \(1 trial, rest 2 min\)\.$`,
		ratio(t, specimen.WithTrials(specimen.Line(specimen.Day(1), 2, 3, 4)), 5).Sentence())
	assert.Equal(t, "Level 5 spread is not reached: it takes less than 3.90 g water per g powder.",
		ratio(t, specimen.WithTrials(specimen.Line(specimen.Day(1), 2, 0, 1)), 5).Sentence())
	assert.Equal(t, "No finished trial with a look yet.", repeats.Ratio{Level: 5}.Sentence())

	inf := math.Inf(1)
	open := repeats.Ratio{
		Basis: model.Basis{Liquid: "water", RestS: 120}, Level: 1, Reach: fit.Bracketed, Trials: 1,
		Powder: &fit.Interval{Median: 2, Low: 0.745, High: inf}, Next: &fit.Interval{Median: 2, Low: 0.5, High: inf},
	}
	assert.Equal(t, "At 1 slick this powder takes 2.00 (0.745, no upper limit) g water per g powder (1 trial, rest "+
		"2 min). Your next dish may take 0.500 or more: plan with that.", open.Sentence())
	open.Powder.Median, open.Next.Median = inf, inf
	most := "At 1 slick this powder takes more than 0.745 g water per g powder (1 trial, rest 2 min). " +
		"Your next dish may take 0.500 or more: plan with that."
	assert.Equal(t, most, open.Sentence(), "most curves never reach the level")
	assert.Equal(t, most, open.Headline())
	open.Powder, open.Next = &fit.Interval{High: 13.4}, &fit.Interval{High: 13.5}
	assert.Contains(t, open.Headline(), "takes less than 13.4 g water per g powder",
		"nor do they here, at the thick end")
}

// A ratio is told with the digits that a line of the table gives, so that shelf,
// result and commands agree in each: 7.4349 is 7.435 there, and 7.43 of that.
func TestARatioIsToldAsItsTableHasIt(t *testing.T) {
	for ln := 0.0; ln < 2; ln += 0.0037 {
		m := math.Exp(ln)
		powder := fit.Interval{Median: m, Low: m / 1.2, High: m * 1.2}
		next := fit.Interval{Median: m, Low: m / 2, High: m * 2}
		for _, r := range []repeats.Ratio{
			{Level: 5, Reach: fit.Bracketed, Powder: &powder, Next: &next, PerTsp: &powder, Trials: 1},
			{Level: 5, Reach: fit.OneSided, Powder: &powder, Next: &next, Trials: 2},
			{Level: 5, Reach: fit.NotReached, Bound: &fit.Bound{Low: m, High: math.Inf(1)}},
		} {
			table := r.Row().Ratio()
			require.Equal(t, table.Sentence(), r.Sentence())
			require.Equal(t, table.Powder, r.Rounded().Powder)
			require.Equal(t, table.PerTsp, r.Rounded().PerTsp)
			require.Equal(t, table.Bound, r.Rounded().Bound)
		}
	}
}
