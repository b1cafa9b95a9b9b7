package paper_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/paper"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A page says what the powder takes, how that was measured, and what to mind.
func TestPageOfAPowder(t *testing.T) {
	profile := specimen.WithTrials(specimen.Full(1, 2), specimen.Full(2, 2))
	profile.Trials[1].SetAside = "wrong\npot"
	profile.Powder.Fizzes = specimen.Ptr(true)
	profile.Powder.Allergens = []string{"gluten"}
	profile.Powder.Notes = "from the mill\n\nsifted"
	page := paper.PowderOf(profile, model.Choice{}, nil)

	assert.Equal(t, "Fine oat flour · lot 2026-04", page.Title)
	assert.Contains(t, page.Headline, "At 5 spread this powder takes ")
	require.Len(t, page.Ratios, 1)
	assert.Equal(t, "water", page.Ratios[0].Liquid)
	assert.Equal(t, "2 min", page.Ratios[0].Rest)
	require.Len(t, page.Ratios[0].Rows, 6)
	spread := page.Ratios[0].Rows[4]
	assert.Equal(t, "5 spread", spread.Level)
	assert.Contains(t, spread.Test, "keeps a drawn line")
	assert.Contains(t, page.Headline, spread.Ratio)
	assert.Regexp(t, `^[0-9.]+ to [0-9.]+$`, spread.Next)
	assert.NotEmpty(t, spread.Teaspoon)
	assert.Equal(t, "both sides", spread.Tested)

	assert.Contains(t, page.Facts, paper.Fact{Name: "Fizzes with vinegar", Value: "yes: it holds carbonate"})
	assert.Contains(t, page.Facts, paper.Fact{Name: "Allergens", Value: "gluten"})
	assert.Equal(t, []string{"from the mill", "sifted"}, page.Notes)
	assert.Contains(t, page.Measured[0], "A level 1 tsp holds 2.31 ± ")
	assert.Contains(t, page.Measured[0], ": 3 weighings, scale to 0.01 g")
	require.Len(t, page.Trials, 2)
	assert.Equal(t, paper.TrialLine{
		Number: "1", Day: "2026-05-01", Liquid: "20.00 g water", Rest: "2 min", Looks: "4", Levels: "3 to 6",
		State: "done",
	}, page.Trials[0])
	assert.Equal(t, "set aside, not used: wrong pot", page.Trials[1].State)
	assert.Equal(t, string(care.BeforeDust), page.Cautions[0].Before)
	assert.Equal(t, string(care.BeforeSkin), page.Cautions[len(page.Cautions)-1].Before)
}

// Every number of a page is that of the table which shelf and commands show.
func TestAPageHasTheNumbersOfTheTable(t *testing.T) {
	profile := specimen.WithTrials(specimen.Full(1, 2), specimen.Full(2, 2))
	for grams := 2.0; grams < 3; grams += 0.05 {
		profile.LevelSpoons[0].Grams = []float64{grams, grams, grams}
		page := paper.PowderOf(profile, model.Choice{}, nil)
		for i, r := range repeats.Ratios(profile, profile.MainBasis(), model.CurveLevels(), nil) {
			if r.Level != math.Trunc(r.Level) || r.Powder == nil {
				continue
			}
			row := page.Ratios[0].Rows[int(r.Level)-1]
			assert.Equal(t, bench.IntervalText(*r.Rounded().Powder), row.Ratio, "%v", i)
			assert.Equal(t, bench.IntervalText(*r.Rounded().PerTsp), row.Teaspoon)
			next := r.Rounded().Next
			assert.Equal(t, model.RatioText(next.Low)+" to "+model.RatioText(next.High), row.Next)
		}
	}
}

func TestPageOfAPowderNeverTried(t *testing.T) {
	untried := model.Profile{Powder: model.Powder{Name: "New clay", Family: model.PlainClay}}
	page := paper.PowderOf(untried, model.Choice{}, nil)
	assert.Equal(t, "No finished trial with a look yet.", page.Headline)
	assert.Empty(t, page.Ratios)
	assert.Empty(t, page.Trials)
	assert.Contains(t, page.Facts, paper.Fact{Name: "Fizzes with vinegar", Value: "not tested"})
}
