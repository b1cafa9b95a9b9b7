package paper_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/paper"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A card gives the ratio that the powder's own page gives. Where the powder has changed
// since, the saved ratio stands, and the card says so.
func TestWhatACardIsBasedOn(t *testing.T) {
	profile := specimen.WithTrials(specimen.Full(1, 2), specimen.Full(2, 2))
	basis := profile.MainBasis()
	now := kitchen.SideOf(profile, basis, 1, nil).Ratio.Powder
	require.NotNil(t, now)
	require.NotEqual(t, model.RatioText(now.Median), model.RatioText(0.9992*now.Median), "a difference that shows")
	for _, c := range []struct {
		saved, powder float64 // the recipe's ratio and its powder's, times what it is now
		says          float64
		then          bool
	}{
		{1, 1, 1, false},
		{0.9985, 1, 1, false}, // the middle of the next dish, worked out otherwise
		{0.9992, 0.9992, 1, false},
		{1.1, 1.1, 1.1, true},
		{1.1, 0, 1.1, true}, // the powder's own was not noted
	} {
		r := classMask()
		r.Level, r.Liquid, r.RestS = 1, basis.Liquid, basis.RestS
		r.Ratio = fit.Interval{Median: c.saved * now.Median, Low: 0.8 * now.Median, High: 1.3 * now.Median}
		r.Powders = []model.RecipePowder{{
			Name: profile.Powder.Name, Lot: profile.Powder.Lot, Family: profile.Powder.Kind(),
			KeepFromMetal: profile.Powder.KeepFromMetal, Share: 1, Ratio: c.powder * now.Median,
		}}
		card := paper.CardOf(r, []model.Profile{profile}, nil, paper.Options{})
		require.NotEmpty(t, card.BasedOn, card.Missing)
		assert.Regexp(t, "^"+model.RatioText(c.says*now.Median)+" \\(", card.BasedOn[0])
		if c.then {
			assert.Regexp(t, ", as it was when this recipe was saved\\.$", card.BasedOn[0])
		} else {
			assert.NotContains(t, card.BasedOn[0], "when this recipe was saved")
		}
	}
}
