package bench_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func termsOf(t *testing.T, p model.Profile) (map[string]bench.Term, bench.Answer) {
	t.Helper()
	r, err := bench.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	a := r.At(5)
	terms := map[string]bench.Term{}
	for _, term := range r.Terms(a) {
		terms[term.Key] = term
	}
	return terms, a
}

// Doing what a term advises leaves what the term said, except that the two sides of an
// interval are widened separately.
func TestWhatWouldBeLeftIsLeft(t *testing.T) {
	levels := []float64{0, 0, 1, 3, 4, 5, 6}
	half := func(p model.Profile) float64 {
		_, a := termsOf(t, p)
		return a.Dish.HalfWidth()
	}

	p := specimen.Scooped(3, model.BySpoon, levels...)
	terms, a := termsOf(t, p)
	require.Len(t, terms, 5)
	for _, term := range terms {
		assert.Less(t, term.After, a.Dish.HalfWidth(), term.Key)
		want := term.Name + ": " + term.Shrink + " (would make it " + bench.PlusMinus(term.After) + ")"
		if bench.PlusMinus(term.After) == bench.PlusMinus(a.Dish.HalfWidth()) {
			want = term.Name // what hardly helps is not advised
		}
		assert.Equal(t, want, term.Text(), term.Key)
	}

	weighed := specimen.Scooped(3, model.ByWeight, levels...)
	assert.InDelta(t, half(weighed), terms["liquid"].After, 1e-4, "the liquid weighed")

	// Two more weighings that scatter as the first three: the same relative SD.
	more := specimen.Scooped(3, model.BySpoon, levels...)
	w, _ := more.LevelSpoons[0].Weight()
	nu := 2.0 + 5 - 1
	ss := w.RelSD * w.RelSD * nu * w.Mean * w.Mean // what five weighings have to scatter for that
	ss -= 2 * 0.05 * 0.05 * w.Mean * w.Mean
	d := math.Sqrt(ss / 4) // four of them off the mean by d, one on it
	more.LevelSpoons[0].Grams = []float64{w.Mean + d, w.Mean - d, w.Mean + d, w.Mean - d, w.Mean}
	again, _ := more.LevelSpoons[0].Weight()
	require.InDelta(t, w.RelSD, again.RelSD, 1e-12)
	assert.InDelta(t, half(more), terms["spoon_weight"].After, 1e-4, "two more weighings")

	// The small spoon weighed level too, at just what it was calculated to weigh,
	// so often that its weight is as good as the other's.
	_, sized := termsOf(t, p)
	sized.Masses.SpoonSize = 0
	want, _ := sized.Masses.Widen(*sized.Ratio)
	assert.InDelta(t, want.HalfWidth(), terms["spoon_size"].After, 1e-4, "no doubt about the spoon's size")

	// Twice the scoops: half the variance of their sum.
	_, twice := termsOf(t, p)
	twice.Masses.Scoops /= math.Sqrt2
	want, _ = twice.Masses.Widen(*twice.Ratio)
	assert.InDelta(t, want.HalfWidth(), terms["scoops"].After, 1e-4)
}

func TestNoTermsWithoutARatio(t *testing.T) {
	p := specimen.Scooped(3, model.ByWeight, 0, 0)
	r, err := bench.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	assert.Nil(t, r.Terms(r.At(5)))
	assert.Nil(t, repeats.Ratio{}.Terms())
}

func ratioOf(p model.Profile) repeats.Ratio {
	return repeats.Ratios(p, p.Bases()[0], []float64{5}, nil)[0]
}

func TestATrialFarFromItsSiblingsIsPointedAt(t *testing.T) {
	assert.Empty(t, ratioOf(specimen.Repeated(2.0, 2.05, 1.95, 2.02)).Far)
	r := ratioOf(specimen.Repeated(2.0, 2.05, 3.4, 1.95, 2.02))
	assert.Equal(t, []int{2}, r.Far)
	assert.Equal(t, 5, r.Trials, "pointed at, and used all the same")
	assert.Empty(t, ratioOf(specimen.Repeated(2.0, 3.4)).Far, "of two, neither is the odd one")

	p := specimen.Repeated(2.0, 2.05, 3.4, 1.95, 2.02)
	p.Trials[0].SetAside = "spilt"
	assert.Equal(t, []int{2}, ratioOf(p).Far, "its place in the profile, not among those used")
}

func TestOneMoreTrialLeavesWhatIsSaid(t *testing.T) {
	two := ratioOf(specimen.Repeated(2.0, 2.0))
	var after float64
	for _, term := range two.Terms() {
		if term.Key == "repeats" {
			after = term.After
		}
	}
	three := ratioOf(specimen.Repeated(2.0, 2.0, 2.0))
	assert.InDelta(t, three.Powder.HalfWidth(), after, 0.01)
	assert.Less(t, after, two.Powder.HalfWidth())
}
