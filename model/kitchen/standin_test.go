package kitchen_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// called is a flour that takes so much at level 5, g/g, with its name on the shelf.
func called(name string, ratio float64) model.Entry {
	e := model.Entry{Slug: name, Profile: specimen.WithTrials(specimen.Full(1, ratio))}
	e.Profile.Powder.Name = name
	return e
}

// At six levels an e-fold, a powder of ratio R stands in the place of one of 2 about
// 6·ln(R/2) levels higher: 2.1 +0.3, 1.8 -0.6, 2.6 +1.6, 1.2 -3.1. One in another
// liquid, one without a trial and one put away are not in the list.
func TestStandInsAreRankedByTheLevelTheyStandAt(t *testing.T) {
	wanted := called("wanted", 2)
	oily, bare, away := called("oily", 2), called("bare", 2), called("away", 2)
	oily.Profile = inOil(oily.Profile)
	bare.Profile.Trials = nil
	away.Profile.Powder.Archived = true
	shelf := []model.Entry{
		called("far", 1.2), oily, called("high", 2.6), wanted, bare, called("low", 1.8), away, called("near", 2.1),
	}
	all := func(shelf []model.Entry) []model.Entry { return kitchen.Candidates(wanted, shelf, model.Choice{}, 0) }
	found, err := kitchen.StandIns(wanted, all(shelf), 5, model.Choice{}, nil)
	require.NoError(t, err)
	var names []string
	for _, s := range found {
		names = append(names, s.Entry.Slug)
	}
	require.Equal(t, []string{"near", "low", "high", "far"}, names)
	for i, off := range []float64{0.3, -0.6, 1.6, -3.1} {
		assert.InDelta(t, 5+off, found[i].Pair.StandsAt.Median, 0.5, names[i])
	}

	apart := called("apart", 2)
	rest := 1800
	apart.Profile.Trials[0].RestS = &rest
	found, err = kitchen.StandIns(wanted, all(append(shelf, apart)), 5, model.Choice{}, nil)
	require.NoError(t, err)
	assert.Equal(t, "apart", found[len(found)-1].Entry.Slug, "rests far apart: last, however near")

	assert.Contains(t, kitchen.RestsOf(found[0].Pair.A, found), "Not like for like: wanted")
	assert.Contains(t, kitchen.RestsOf(found[0].Pair.A, found), "apart")
	assert.Empty(t, kitchen.RestsOf(found[0].Pair.A, found[:4]))
	assert.Regexp(t, `^Not listed: oily\b.* \(tried in .*oil\), bare\b.* \(no finished trial\)\.$`,
		kitchen.LeftOut(wanted, shelf, found, 5, model.Choice{}))
	assert.Empty(t, kitchen.LeftOut(wanted, []model.Entry{wanted, away}, found, 5, model.Choice{}))
	many := []model.Entry{bare, bare, bare, bare, bare, bare, bare}
	assert.Regexp(t, ` and 2 more\.$`, kitchen.LeftOut(wanted, many, nil, 5, model.Choice{}))

	_, err = kitchen.StandIns(wanted, shelf, 9, model.Choice{}, nil)
	assert.Error(t, err)
}

// On a large shelf those whose ratios are nearest are worked out, and rank as they would
// among all.
func TestStandInsOfALargeShelf(t *testing.T) {
	wanted := called("wanted", 2)
	var shelf []model.Entry
	for i := range 40 {
		shelf = append(shelf, called(fmt.Sprint(i), 1+0.05*float64(i)))
	}
	found, err := kitchen.StandIns(wanted, shelf, 5, model.Choice{}, nil)
	require.NoError(t, err)
	require.Len(t, found, 20)
	assert.Equal(t, "20", found[0].Entry.Slug, "its ratio is 2")
	for _, s := range found {
		assert.Less(t, math.Abs(s.Pair.ByWeight.Median-1), 0.35, s.Entry.Slug)
	}

	beside := besideDish("beside", "wanted")
	found, err = kitchen.StandIns(wanted, append(shelf, beside), 5, model.Choice{}, nil)
	require.NoError(t, err)
	assert.Len(t, found, 20)
	assert.True(t, slices.ContainsFunc(found, func(s kitchen.StandIn) bool { return s.Entry.Slug == "beside" }),
		"one known only beside the one to be replaced")

	found, err = kitchen.StandIns(beside, append(shelf, wanted), 5, model.Choice{}, nil)
	require.NoError(t, err)
	require.Len(t, found, 1, "and the other way round")
	assert.Equal(t, "wanted", found[0].Entry.Slug)
}

// besideDish is a powder that was only brought beside a dish of another, thinner and thicker.
func besideDish(name, reference string) model.Entry {
	e := called(name, 2)
	trial := e.Profile.Trials[0]
	trial.Match = &model.Match{Powder: reference, Name: reference, Trial: 1, Level: 5, PowderPerLiquid: 0.5}
	seen := []model.Beside{model.MuchThinner, model.Thinner, model.AsThick, model.Thicker}
	for i := range trial.Steps {
		trial.Steps[i].Level, trial.Steps[i].Beside = 0, seen[i%len(seen)]
	}
	e.Profile.Trials = []model.Trial{trial}
	return e
}

// A screen looks at so many only: those of the family first.
func TestCandidatesOfTheFamilyComeFirst(t *testing.T) {
	wanted, clay, flour := called("wanted", 2), called("clay", 2), called("flour", 2)
	clay.Profile.Powder.Family = model.PlainClay
	shelf := []model.Entry{clay, wanted, flour}
	of := func(most int) (names []string) {
		for _, e := range kitchen.Candidates(wanted, shelf, model.Choice{}, most) {
			names = append(names, e.Slug)
		}
		return names
	}
	assert.Equal(t, []string{"clay", "flour"}, of(0))
	assert.Equal(t, []string{"flour"}, of(1))
}
