package model_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"daub.example/daub/model"
)

// scooped is a finished trial of 1/2 tsp into 10 g of water, the level spoon
// weighed n times, with looks at every step.
func scooped(weighings int, liquidBy model.By, levels ...float64) model.Profile {
	t := model.Trial{
		Started: time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC), State: model.Done, LiquidG: 10, LiquidBy: liquidBy,
		Spoons: []string{"1/2 tsp", "1/4 tsp"},
	}
	for _, l := range levels {
		t.Steps = append(t.Steps, model.Step{Add: model.AddPowder, Spoon: "1/2 tsp", Count: 1, Looked: true, Level: l})
	}
	l := model.LevelSpoon{Spoon: "1 tsp", ResolutionG: 0.01}
	for i := range weighings {
		l.Grams = append(l.Grams, 2.4+0.1*float64(i%3))
	}
	return model.Profile{Powder: model.Powder{Name: "x", Family: model.Flour}, LevelSpoons: []model.LevelSpoon{l}, Trials: []model.Trial{t}}
}

func termsOf(t *testing.T, p model.Profile) (map[string]model.Term, model.Answer) {
	t.Helper()
	r, err := model.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	a := r.At(5)
	terms := map[string]model.Term{}
	for _, term := range r.Terms(a) {
		terms[term.Key] = term
	}
	return terms, a
}

// What a term says would be left is what is left once it is done, but for the
// two sides of an interval being widened each on its own.
func TestWhatWouldBeLeftIsLeft(t *testing.T) {
	levels := []float64{0, 0, 1, 3, 4, 5, 6}
	half := func(p model.Profile) float64 {
		_, a := termsOf(t, p)
		return model.HalfWidth(*a.Dish)
	}

	p := scooped(3, model.BySpoon, levels...)
	terms, a := termsOf(t, p)
	require.Len(t, terms, 5)
	for _, term := range terms {
		assert.Less(t, term.After, model.HalfWidth(*a.Dish), term.Key)
		assert.Contains(t, term.Effect(), "leaves ±")
	}

	weighed := scooped(3, model.ByWeight, levels...)
	assert.InDelta(t, half(weighed), terms["liquid"].After, 1e-4, "the liquid weighed")

	// Two more weighings that scatter as the first three: the same relative SD.
	more := scooped(3, model.BySpoon, levels...)
	w, _ := more.LevelSpoons[0].Weight()
	nu := 2.0 + 5 - 1
	ss := w.RelSD * w.RelSD * nu * w.Mean * w.Mean // what five weighings have to scatter for that
	ss -= 2 * 0.05 * 0.05 * w.Mean * w.Mean
	d := math.Sqrt(ss / 4) // four of them off the mean by d, one on it
	more.LevelSpoons[0].Grams = []float64{w.Mean + d, w.Mean - d, w.Mean + d, w.Mean - d, w.Mean}
	again, _ := more.LevelSpoons[0].Weight()
	require.InDelta(t, w.RelSD, again.RelSD, 1e-12)
	assert.InDelta(t, half(more), terms["spoon_weight"].After, 1e-4, "two more weighings")

	// The small spoon weighed level too, at just what it was reckoned to weigh,
	// so often that its weight is as good as the other's.
	_, sized := termsOf(t, p)
	sized.Masses.SpoonSize = 0
	want, _ := sized.Masses.Widen(*sized.Ratio)
	assert.InDelta(t, model.HalfWidth(want), terms["spoon_size"].After, 1e-4, "no doubt about the spoon's size")

	// Twice the scoops: half the variance of their sum.
	_, twice := termsOf(t, p)
	twice.Masses.Scoops /= math.Sqrt2
	want, _ = twice.Masses.Widen(*twice.Ratio)
	assert.InDelta(t, model.HalfWidth(want), terms["scoops"].After, 1e-4)
}

func TestNoTermsWithoutARatio(t *testing.T) {
	p := scooped(3, model.ByWeight, 0, 0)
	r, err := model.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	assert.Nil(t, r.Terms(r.At(5)))
	assert.Nil(t, model.PowderRatio{}.Terms())
}

// repeated is a powder with trials at the given ratios, each bracketed.
func repeated(ratios ...float64) model.Profile {
	p := scooped(5, model.ByWeight)
	p.Trials = nil
	for i, ratio := range ratios {
		t := model.Trial{Started: time.Date(2026, 3, 1+i, 9, 0, 0, 0, time.UTC), State: model.Done, LiquidG: 10}
		for _, off := range []float64{-2, -1, 0, 1} {
			x := math.Exp(off/6) / ratio
			grams := x*10 - sumOf(t.Steps)
			t.Steps = append(t.Steps, model.Step{Add: model.AddPowder, Grams: grams, Looked: true, Level: 5 + off})
		}
		p.Trials = append(p.Trials, t)
	}
	return p
}

func sumOf(steps []model.Step) (grams float64) {
	for _, s := range steps {
		grams += s.Grams
	}
	return grams
}

func ratioOf(p model.Profile) model.PowderRatio {
	return p.Ratios(p.Bases()[0], []float64{5}, nil)[0]
}

func TestATrialFarFromItsSiblingsIsPointedAt(t *testing.T) {
	assert.Empty(t, ratioOf(repeated(2.0, 2.05, 1.95, 2.02)).Far)
	r := ratioOf(repeated(2.0, 2.05, 3.4, 1.95, 2.02))
	assert.Equal(t, []int{2}, r.Far)
	assert.Equal(t, 5, r.Trials, "pointed at, and used all the same")
	assert.Empty(t, ratioOf(repeated(2.0, 3.4)).Far, "of two, neither is the odd one")

	p := repeated(2.0, 2.05, 3.4, 1.95, 2.02)
	p.Trials[0].SetAside = "spilt"
	assert.Equal(t, []int{2}, ratioOf(p).Far, "its place in the profile, not among those used")
}

func TestOneMoreTrialLeavesWhatIsSaid(t *testing.T) {
	two := ratioOf(repeated(2.0, 2.0))
	var after float64
	for _, term := range two.Terms() {
		if term.Key == "repeats" {
			after = term.After
		}
	}
	three := ratioOf(repeated(2.0, 2.0, 2.0))
	assert.InDelta(t, model.HalfWidth(*three.Powder), after, 0.01)
	assert.Less(t, after, model.HalfWidth(*two.Powder))
}
