package kitchen_test

import (
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A card repeats the warnings given when its recipe was made.
func TestTheCardWarnsAsTheBatchDid(t *testing.T) {
	p := specimen.Repeated(2.0, 2.05)
	paste, err := kitchen.PasteOf(p, 5, model.Choice{}, nil)
	require.NoError(t, err)
	b, err := paste.Batch(model.Order{TotalG: 120, JarML: 60, Spoons: []string{"1 tbsp"}})
	require.NoError(t, err)
	r := kitchen.RecipeOf("mask", b, []string{"x"}, time.Time{})
	card := cardOf(r, []model.Profile{p}, nil)
	for _, w := range b.Warnings {
		assert.Contains(t, card, w)
	}
	assert.Contains(t, card, "too much for the jar: filled to 95 %, its 60 mL hold")

	small, err := kitchen.Scale(r, 30)
	require.NoError(t, err)
	card = cardOf(small, []model.Profile{p}, nil)
	assert.NotContains(t, card, "too much for the jar")
	assert.Contains(t, card, "Rounding the powder to these spoons makes the paste",
		"scaled down, a tablespoon is too coarse")

	slow := specimen.Repeated(8, 8.2)
	rest := 900
	for i := range slow.Trials {
		slow.Trials[i].RestS = &rest
	}
	pair := kitchen.PairOf(sideOf(p), sideOf(slow))
	require.True(t, pair.RestsApart)
	swapped, err := kitchen.SwapPowder(r, pair, "y", kitchen.KeepLiquid, nil)
	require.NoError(t, err)
	card = cardOf(swapped, []model.Profile{slow}, nil)
	assert.NotContains(t, card, "Not like for like", "what it was compared with is no longer in it")
	assert.Contains(t, card, "let it rest 15 min")
}

func sideOf(p model.Profile) kitchen.Side { return kitchen.SideOf(p, p.Bases()[0], 5, nil) }

// Where two files have the same name and lot, a recipe keeps to its own.
func TestARecipeKnowsItsOwnFile(t *testing.T) {
	first, second := specimen.Repeated(2.0, 2.05), specimen.Repeated(2.6, 2.62)
	paste, err := kitchen.PasteOf(second, 5, model.Choice{}, nil)
	require.NoError(t, err)
	b, err := paste.Batch(model.Order{TotalG: 100})
	require.NoError(t, err)
	r := kitchen.RecipeOf("mask", b, []string{"second"}, time.Time{})
	shelf := []model.Entry{{Slug: "first", Profile: first}, {Slug: "second", Profile: second}}
	assert.Equal(t, []model.Profile{second}, kitchen.ProfilesOf(r, shelf))
	assert.Empty(t, kitchen.Changes(r, kitchen.ProfilesOf(r, shelf), nil))
	assert.Len(t, kitchen.Changes(r, kitchen.ProfilesOf(r, shelf[:1]), nil), 1,
		"the other file of that name says something else")
	gone := kitchen.Changes(r, kitchen.ProfilesOf(r, nil), nil)
	require.Len(t, gone, 1)
	assert.Contains(t, gone[0], "is not on the shelf")
}

func TestACautionAddedLaterReachesTheCard(t *testing.T) {
	p := specimen.Repeated(2.0, 2.05)
	paste, err := kitchen.PasteOf(p, 5, model.Choice{}, nil)
	require.NoError(t, err)
	b, err := paste.Batch(model.Order{TotalG: 100})
	require.NoError(t, err)
	r := kitchen.RecipeOf("mask", b, nil, time.Time{})
	p.Powder.KeepFromMetal = true
	card := cardOf(r, []model.Profile{p}, nil)
	assert.Contains(t, card, "Keep from metal")
	assert.Contains(t, card, "The family or the cautions of")
}

func TestAJarIsNotCheckedWithoutADensity(t *testing.T) {
	p := specimen.Repeated(2.0, 2.05)
	p.Powder.Family = model.Mineral
	for i := range p.Trials {
		p.Trials[i].RestS = nil
	}
	paste, err := kitchen.PasteOf(p, 5, model.Choice{}, nil)
	require.NoError(t, err)
	b, err := paste.Batch(model.Order{TotalG: 100, JarML: 60})
	require.NoError(t, err, "the total is given")
	assert.Contains(t, strings.Join(b.Warnings, " "), "Whether it goes into the jar is not known")
	_, err = paste.Batch(model.Order{JarML: 60})
	assert.Error(t, err, "the jar alone gives no total")
}

func TestShiftsBeyondTwoLevelsAreNotCounted(t *testing.T) {
	assert.Equal(t, "0.70 levels thicker", kitchen.LevelShift(0.7))
	assert.Equal(t, "1.5 levels thinner", kitchen.LevelShift(-1.5))
	assert.Equal(t, "more than two levels thicker", kitchen.LevelShift(10))
}
