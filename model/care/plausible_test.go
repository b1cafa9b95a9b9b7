package care_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/measure"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func near(r float64) *fit.Interval { return &fit.Interval{Median: r, Low: r / 1.1, High: r * 1.1} }

func said(f model.Family, d care.Doubt) string {
	return strings.Join(care.Plausibility(model.Powder{Family: f}, d), "\n")
}

// Liquid limits (a paste for spreading takes 1 to 2.5 times that): Karakan 2022,
// sodium montmorillonite 309 %, calcium 219 %; one bentonite 150 % (PMC9754960);
// kaolinite 30 to 110 %, attapulgite 160 to 230 % (Mitchell & Soga, from memory).
func TestPlausibility(t *testing.T) {
	water := care.Doubt{Liquid: " Water", Level: 5, Ratio: near(1)}
	text := said(model.PlainClay, water)
	assert.Contains(t, text, "mostly take")
	assert.Contains(t, text, "kaolinite 0.3 to 1.1")
	assert.Contains(t, text, "Mitchell & Soga")

	water.Ratio = near(22)
	text = said(model.SwellingClay, water)
	assert.Contains(t, text, "22.0 g/g is unusual for a swelling clay")
	assert.Contains(t, text, "Karakan 2022")
	assert.Contains(t, text, "tablespoon", "a factor of about three above what is usual")
	assert.Contains(t, text, "montmorillonite of any kind")
	water.Ratio = near(70)
	assert.Contains(t, said(model.SwellingClay, water), "decimal point")
	water.Ratio = &fit.Interval{Median: 10, Low: 5, High: 20}
	assert.Contains(t, said(model.SwellingClay, water), "another look first")

	water.Ratio = near(5)
	assert.Empty(t, said(model.Flour, water), "no handbook range")
	water.Liquid = "vegetable oil"
	assert.Empty(t, said(model.PlainClay, water), "another liquid is another ratio")
	water.Liquid, water.Level = "water", 3
	assert.Empty(t, said(model.PlainClay, water), "handbook values are for pastes near level 5")
	assert.Empty(t, said(model.PlainClay, care.Doubt{Liquid: "water", Level: 5}), "no ratio")

	assert.Contains(t, said(model.PlainClay, care.Doubt{GramsPerML: 2.7}), "as dense as the solid itself (2.6)")
	assert.Empty(t, said(model.PlainClay, care.Doubt{GramsPerML: 0.9}))
	assert.Empty(t, said(model.Mineral, care.Doubt{GramsPerML: 9}), "no density to hold it against")
}

func TestOtherLots(t *testing.T) {
	mine := specimen.Oats()
	other := specimen.Oats()
	other.Powder.Lot = "another"
	other.Trials = []model.Trial{specimen.Line(specimen.Day(1), 2, 2, 3, 4, 5, 6)}
	other.Trials[0].State = model.Done
	basis := model.Basis{Liquid: "water", RestS: other.Trials[0].Rest(other.Powder.Kind())}
	lots := care.Lots(mine.Powder, []model.Profile{mine, other}, basis, 5, nil)
	require.Len(t, lots, 1)
	assert.Equal(t, "another", lots[0].Lot)
	r := lots[0].Ratio.Median
	d := care.Doubt{Liquid: "water", Level: 5, Ratio: near(3 * r), Lots: lots}
	assert.Contains(t, said(model.Flour, d), "3.0 times what lot another took")
	d.Ratio = near(1.2 * r)
	assert.Empty(t, said(model.Flour, d))
	assert.Empty(t, care.Lots(other.Powder, []model.Profile{other}, basis, 5, nil), "its own lot is none of the others")
	assert.Empty(t, care.Lots(mine.Powder, []model.Profile{other}, model.Basis{Liquid: "honey"}, 5, nil))
}

// Bentonite pH 9.5 to 10.5: USP-NF. Every moment has a line for the powder it is
// for, and it fits a screen of 80.
func TestLines(t *testing.T) {
	fizzes := true
	for _, f := range model.Families() {
		for _, m := range care.Moments() {
			p := model.Powder{Family: f, KeepFromMetal: true, Fizzes: &fizzes}
			assert.LessOrEqual(t, len(care.Line(m, p)), 80, m)
			if m != care.BeforeWet {
				assert.NotEmpty(t, care.Line(m, p), m)
			}
		}
	}
	assert.Contains(t, care.Line(care.BeforeWet, model.Powder{Family: model.SwellingClay}), "pH 9.5 to 10.5")
	assert.Equal(t, "USP-NF, Bentonite", measure.SwellingClayPH.Source)
	assert.Contains(t, care.Line(care.BeforeAcid, model.Powder{Fizzes: &fizzes}), "never a closed jar")
}
