package kitchen_test

import (
	"math"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The two powders of these tests: A takes 2 g/g at level 5, B side by side 3 g/g.
const takesA, takesB = 2.0, 3.0

// reference is A with one finished trial, by weight, that ends at level 5.
func reference() model.Entry {
	return model.Entry{Slug: "a", Profile: model.Profile{
		Powder: model.Powder{Name: "A", Family: model.Flour},
		Trials: []model.Trial{specimen.Line(specimen.Day(1), takesA, 3, 4, 5)},
	}}
}

// besideAt gives the look of a dish of B that is so many levels thicker than the reference.
func besideAt(levels float64) model.Beside {
	switch {
	case levels < -1.5:
		return model.MuchThinner
	case levels < -0.3:
		return model.Thinner
	case levels <= 0.3:
		return model.AsThick
	case levels <= 1.5:
		return model.Thicker
	default:
		return model.MuchThicker
	}
}

// brought makes B with a finished trial beside the dish of a. Its additions are such that
// it stands so many levels above the dish at each look.
func brought(t *testing.T, a model.Entry, levels ...float64) model.Entry {
	t.Helper()
	r := specimen.Read(t, a.Profile, a.Profile.Trials[0])
	trial, err := r.MatchTrial(a.Slug, 0)
	require.NoError(t, err)
	trial.Started, trial.State, trial.LiquidG = specimen.Day(2), model.Done, 20
	held := 0.0
	for _, d := range levels {
		powder := 20 / takesB * math.Exp(d/6)
		trial.Steps = append(trial.Steps, model.Step{
			Add: model.AddPowder, Grams: powder - held, Looked: true, Beside: besideAt(d),
		})
		held = powder
	}
	last := trial.Steps[len(trial.Steps)-1]
	trial.Steps = append(trial.Steps, model.Step{Add: model.AddNone, Looked: true, Beside: last.Beside})
	return model.Entry{Slug: "b", Profile: model.Profile{
		Powder: model.Powder{Name: "B", Family: model.Flour}, Trials: []model.Trial{trial},
	}}
}

// pairOf compares the second with the first at a level.
func pairOf(t *testing.T, level float64, a, b model.Entry) kitchen.Pair {
	t.Helper()
	c, err := kitchen.Compare([]model.Entry{a, b}, level, model.Choice{}, nil)
	require.NoError(t, err)
	return c.Against(0)[0]
}

func TestSideBySideGoesFirst(t *testing.T) {
	a := reference()
	b := brought(t, a, -4, -1, 0, 1)
	// By levels, on another day, B seemed to take 2.4 g/g.
	b.Profile.Trials = append(b.Profile.Trials, specimen.Line(specimen.Day(3), 2.4, 3, 4, 5, 6))

	p := pairOf(t, 5, a, b)
	require.NotNil(t, p.SideBySide)
	assert.Empty(t, p.Refused)
	assert.InEpsilon(t, takesB/takesA, p.ByWeight.Median, 0.02)
	assert.Less(t, p.ByWeight.Low, takesB/takesA)
	assert.Greater(t, p.ByWeight.High, takesB/takesA)
	assert.InDelta(t, 5+6*math.Log(takesB/takesA), p.StandsAt.Median, 0.6, "six levels an e-fold")
	assert.Contains(t, p.Sentence(), "side by side (trial 1 of B beside trial 1 of A, 2026-05-02)")
	assert.Contains(t, p.Warnings[0], "Side by side at 5 spread")

	back := pairOf(t, 5, b, a)
	require.NotNil(t, back.SideBySide)
	assert.InEpsilon(t, 1/p.ByWeight.Median, back.ByWeight.Median, 1e-9)
	assert.InEpsilon(t, 1/p.ByWeight.High, back.ByWeight.Low, 1e-9)
	assert.Less(t, back.StandsAt.Median, 5.0)

	other := pairOf(t, 4, a, b)
	assert.Nil(t, other.SideBySide, "it says nothing of another level")
	assert.InEpsilon(t, 1.2, other.ByWeight.Median, 0.03, "by levels")
	assert.NotContains(t, other.Sentence(), "side by side")
}

// A powder that was only ever brought beside a dish has no ratio by levels, yet its
// factor.
func TestSideBySideAlone(t *testing.T) {
	a := reference()
	b := brought(t, a, -1, 0, 1)
	p := pairOf(t, 5, a, b)
	require.NotNil(t, p.SideBySide)
	assert.Nil(t, p.B.Ratio.Powder)

	s, err := p.Swap(30, 0, kitchen.KeepLiquid)
	require.NoError(t, err)
	assert.InEpsilon(t, 30*takesA/takesB, s.NewPowder.Median, 0.03)
	assert.InEpsilon(t, p.ByWeight.High/p.ByWeight.Low, s.NewPowder.High/s.NewPowder.Low, 1e-9,
		"what A takes by levels cancels")
	assert.Contains(t, s.Sentence(), "side by side")

	none := pairOf(t, 4, a, b)
	assert.Equal(t, kitchen.LevelMissing, none.Refused)
	assert.Contains(t, none.Sentence(), "Side by side they stood at 5 spread: ask at that level.")
	assert.Contains(t, pairOf(t, 4, b, a).Sentence(), "Side by side they stood at 5 spread: ask at that level.")

	_, err = kitchen.PasteOf(b.Profile, 5, model.Choice{}, nil)
	assert.ErrorContains(t, err, "has no ratio at 5 spread")
}

func TestSideBySideFromOneSide(t *testing.T) {
	a := reference()
	b := brought(t, a, -4, -1, -0.5)
	p := pairOf(t, 5, a, b)
	assert.Nil(t, p.SideBySide)
	assert.Equal(t, kitchen.LevelMissing, p.Refused)
	assert.Contains(t, p.Sentence(), "B was seen from one side only beside trial 1 of A")
}

func TestSideBySideLeftOut(t *testing.T) {
	a := reference()
	for name, change := range map[string]func(*model.Trial){
		"set aside":     func(t *model.Trial) { t.SetAside = "spilled" },
		"unfinished":    func(t *model.Trial) { t.State = model.Open },
		"other powder":  func(t *model.Trial) { t.Match.Powder = "c" },
		"other liquid":  func(t *model.Trial) { t.Liquid = "vinegar" },
		"other rest":    func(t *model.Trial) { t.RestS = specimen.Ptr(3600) },
		"nothing known": func(t *model.Trial) { t.Steps = nil },
	} {
		b := brought(t, a, -1, 0, 1)
		change(&b.Profile.Trials[0])
		assert.Nil(t, pairOf(t, 5, a, b).SideBySide, name)
	}
}

// Side by side works in another liquid than water too, as long as both dishes were made
// with it.
func TestSideBySideInAnotherLiquid(t *testing.T) {
	a := reference()
	a.Profile.Trials[0].Liquid = "vinegar"
	p := pairOf(t, 5, a, brought(t, a, -1, 0, 1))
	require.NotNil(t, p.SideBySide)
	assert.Contains(t, p.Sentence(), "as much vinegar as A by weight")

	b := brought(t, a, -1, 0, 1)
	b.Profile.Trials = append(b.Profile.Trials, specimen.Line(specimen.Day(3), 2.4, 3, 4, 5, 6))
	inWater := pairOf(t, 5, a, b)
	require.NotNil(t, inWater.SideBySide, "though its trials by levels are in water")
	assert.InEpsilon(t, takesB/takesA, inWater.ByWeight.Median, 0.02)
	assert.Contains(t, pairOf(t, 5, b, a).Sentence(), "as much vinegar as B by weight")
}

func TestSideBySideTellsOfItsDish(t *testing.T) {
	a := reference()
	b := brought(t, a, -1, 0, 1)
	b.Profile.Trials[0].Match.Made = b.Profile.Trials[0].Started.Add(-26 * time.Hour)
	a.Profile.Trials[0].Steps[0].Grams++
	p := pairOf(t, 5, a, b)
	require.NotNil(t, p.SideBySide)
	assert.True(t, p.SideBySide.Lost)
	assert.Contains(t, p.Warnings[1], "had stood 26 h")
	assert.Contains(t, p.Warnings[2], "no longer in the record")
}

// Several trials side by side are pooled; two that agree say more than one.
func TestSideBySideRepeated(t *testing.T) {
	a := reference()
	b := brought(t, a, -1, 0, 1)
	one := pairOf(t, 5, a, b)
	again := b.Profile.Trials[0].Clone()
	again.Started = specimen.Day(4)
	b.Profile.Trials = append(b.Profile.Trials, again)
	two := pairOf(t, 5, a, b)
	assert.Equal(t, 2, two.SideBySide.Trials)
	assert.Equal(t, specimen.Day(4), two.SideBySide.Newest)
	assert.InEpsilon(t, one.ByWeight.Median, two.ByWeight.Median, 1e-6)
	assert.Contains(t, two.Sentence(), "2 trials, the newest trial 2 of B")
}

// In a recipe B takes as much as A times the factor: its own levels, which are
// another scale, do not come in.
func TestSwapInRecipeSideBySide(t *testing.T) {
	a := reference()
	b := brought(t, a, -1, 0, 1)
	p := pairOf(t, 5, a, b)
	paste, err := kitchen.PasteOf(a.Profile, 5, model.Choice{}, nil)
	require.NoError(t, err)
	batch, err := paste.Batch(model.Order{TotalG: 100})
	require.NoError(t, err)
	r := kitchen.RecipeOf("Sunday paste", batch, []string{"a"}, saved)
	was := kitchen.RecipeAmounts(r)

	kept, err := kitchen.SwapPowder(r, p, "b", kitchen.KeepLiquid, nil)
	require.NoError(t, err)
	assert.Empty(t, kept.Validate())
	now := kitchen.RecipeAmounts(kept)
	assert.InEpsilon(t, was.Liquid.Median, now.Liquid.Median, 1e-6)
	assert.InEpsilon(t, was.Powder.Median/p.ByWeight.Median, now.Powder.Median, 1e-6)
	assert.Contains(t, kept.Warnings[0], "Side by side at 5 spread")
	assert.Zero(t, kept.Powders[0].Ratio, "B has no ratio by levels")
	assert.Equal(t, b.Profile.Trials[0].Started, kept.Trial, "the newest trial it rests on is side by side")
	assert.Empty(t, kitchen.Stale(kept, b.Profile, nil))

	b.Profile.Trials = append(b.Profile.Trials, specimen.Line(specimen.Day(3), 2.4, 3, 4, 5, 6))
	with, err := kitchen.SwapPowder(r, pairOf(t, 5, a, b), "b", kitchen.KeepLiquid, nil)
	require.NoError(t, err)
	assert.InEpsilon(t, now.Powder.Median, kitchen.RecipeAmounts(with).Powder.Median, 1e-6)
	assert.InEpsilon(t, 2.4, with.Powders[0].Ratio, 0.03, "what its profile said then")
}

// Two dishes side by side were read alike, whatever rests the powders have on
// their own; a third powder is told of all the same.
func TestSideBySideIsLikeForLike(t *testing.T) {
	a := reference()
	b := brought(t, a, -2, -1, 0)
	slow := specimen.Line(specimen.Day(3), takesB, 3, 4, 5)
	slow.RestS = specimen.Ptr(600)
	b.Profile.Trials = append(b.Profile.Trials, slow)
	compared := func(powders ...model.Entry) string {
		c, err := kitchen.Compare(powders, 5, model.Choice{}, nil)
		require.NoError(t, err)
		return c.Rests()
	}
	assert.Empty(t, compared(a, b))
	third := model.Entry{Slug: "c", Profile: model.Profile{
		Powder: model.Powder{Name: "C"}, Trials: []model.Trial{slow},
	}}
	assert.Contains(t, compared(a, b, third), "C")
}
