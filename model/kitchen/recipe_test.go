package kitchen_test

import (
	"math"
	"regexp"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/paper"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// face is a recipe of 200 g of light clay with 5 % honey.
func face(t *testing.T) (model.Recipe, model.Profile) {
	t.Helper()
	profile := lightClay(nil)
	p, err := kitchen.PasteOf(profile, 5, model.Choice{}, nil)
	require.NoError(t, err)
	b, err := p.Batch(model.Order{
		TotalG: 200, AllowanceG: 10,
		Extras: []model.Extra{{Name: "honey", Share: 0.05, Notes: "warm"}},
	})
	require.NoError(t, err)
	return kitchen.RecipeOf("Sunday paste", b, []string{"light-clay"}, saved), profile
}

func TestRecipeOfBatch(t *testing.T) {
	r, profile := face(t)
	assert.Empty(t, r.Validate())
	assert.Equal(t, model.RecipeSchema, r.Schema)
	assert.Equal(t, "light-clay", r.Powders[0].Slug)
	assert.Equal(t, specimen.Day(1), r.Trial)
	assert.Equal(t, 30, r.RestS)
	assert.Equal(t, repeats.Ratios(profile, profile.Bases()[0], []float64{5}, nil)[0].Next.High, r.Ratio.High,
		"of the next dish")
	assert.InDelta(t, 10.5, kitchen.RecipeAmounts(r).ExtrasG[0], 1e-9)
}

// cardOf is the recipe's card as Markdown.
func cardOf(r model.Recipe, profiles []model.Profile, own model.OwnSpoons) string {
	return paper.CardOf(r, profiles, own, paper.Options{}).Markdown()
}

// The total before and after a change is the sum of what stands above it, with
// what is made on top for the bowl.
func TestTotalOfAChangeIsItsSum(t *testing.T) {
	r, _ := face(t) // 200 g and 10 g for the bowl
	for allowance, name := range map[float64]string{0: "total", 10: "total, with what stays in the bowl"} {
		r.AllowanceG = allowance
		rows := kitchen.Differences(r, r)
		sum, total := 0.0, rows[len(rows)-1]
		for _, row := range rows[:len(rows)-1] {
			sum += row.After
		}
		assert.Equal(t, name, total.What)
		assert.InDelta(t, sum, total.After, 1e-9)
		assert.InDelta(t, 200+allowance, total.After, 0.01)
	}
}

func TestScaleARecipe(t *testing.T) {
	r, _ := face(t)
	double, err := kitchen.Scale(r, 410) // 210 g were made; 420 are
	require.NoError(t, err)
	assert.InEpsilon(t, 2*kitchen.RecipeAmounts(r).Powder.Median, kitchen.RecipeAmounts(double).Powder.Median, 1e-12)
	assert.InDelta(t, 200, r.TotalG, 0, "the recipe itself stays")
	for _, g := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err := kitchen.Scale(r, g)
		assert.ErrorContains(t, err, "scale")
	}
}

func TestSwapInRecipe(t *testing.T) {
	r, profile := face(t)
	pair := compared(t, profile, heavyClay(specimen.Ptr(60)))
	was := kitchen.RecipeAmounts(r)

	kept, err := kitchen.SwapPowder(r, pair, "heavy-clay", kitchen.KeepLiquid, nil)
	require.NoError(t, err)
	assert.Empty(t, kept.Validate())
	assert.Equal(t, "heavy-clay", kept.Powders[0].Slug)
	assert.Equal(t, "Heavy clay", kept.Powders[0].Name)
	assert.Equal(t, specimen.Day(2), kept.Trial)
	liquid := func(a kitchen.Amounts) float64 { return a.Liquid.Median + a.CountedG }
	assert.InEpsilon(t, liquid(was), liquid(kitchen.RecipeAmounts(kept)), 1e-9, "all that is liquid, honey too")
	assert.InEpsilon(t, liquid(was)/pair.B.Ratio.Powder.Median, kitchen.RecipeAmounts(kept).Powder.Median, 0.001)
	assert.Contains(t, strings.Join(kept.Steps, "\n"), "rest 1 min", "the usual steps follow the powder")

	total, err := kitchen.SwapPowder(r, pair, "", kitchen.KeepTotal, nil)
	require.NoError(t, err)
	assert.InDelta(t, 200, total.TotalG, 0)
	assert.Contains(t, cardOf(total, nil, nil), "alkaline")

	own := r
	own.Steps = []string{"as grandmother did"}
	powder, err := kitchen.SwapPowder(own, pair, "", kitchen.KeepPowder, nil)
	require.NoError(t, err)
	assert.InEpsilon(t, was.Powder.Median, kitchen.RecipeAmounts(powder).Powder.Median, 0.001)
	assert.Equal(t, own.Steps, powder.Steps)

	_, err = kitchen.SwapPowder(total, pair, "", kitchen.KeepTotal, nil)
	assert.ErrorContains(t, err, "it is made of Heavy clay", "it no longer has A")
	mixed := r
	mixed.Powders = append(mixed.Powders, mixed.Powders[0])
	_, err = kitchen.SwapPowder(mixed, pair, "", kitchen.KeepTotal, nil)
	assert.ErrorContains(t, err, "not all powders of the mix")
}

func TestStale(t *testing.T) {
	r, profile := face(t)
	assert.Empty(t, kitchen.Stale(r, profile, nil))
	assert.Empty(t, kitchen.Stale(r, heavyClay(nil), nil), "not its powder")

	again := profile.Clone()
	trial := specimen.Line(specimen.Day(8), 0.8, 3, 4, 5, 6)
	trial.RestS = specimen.Ptr(30)
	again.Trials = append(again.Trials, trial)
	said := kitchen.Stale(r, again, nil)
	assert.Contains(t, said, "Light clay has changed since this recipe was saved: 0.62")
	assert.Contains(t, said, "%")
	assert.Contains(t, cardOf(r, []model.Profile{again}, nil), said)

	gone := profile.Clone()
	gone.Trials[0].SetAside = "spoiled"
	assert.Contains(t, kitchen.Stale(r, gone, nil), "no ratio at 5 spread any more")
}

// A mix rests on each powder's own wait.
func TestStaleMix(t *testing.T) {
	light, heavy := lightClay(nil), heavyClay(nil)
	p, err := kitchen.MixOf([]kitchen.MixPart{{Profile: light, Parts: 60}, {Profile: heavy, Parts: 40}}, 5,
		model.Choice{}, nil)
	require.NoError(t, err)
	b, err := p.Batch(model.Order{TotalG: 100})
	require.NoError(t, err)
	r := kitchen.RecipeOf("Mixed", b, []string{"light-clay", "heavy-clay"}, saved)
	assert.Empty(t, r.Validate())
	assert.Empty(t, kitchen.Stale(r, light, nil))
	assert.Empty(t, kitchen.Stale(r, heavy, nil))
	assert.Equal(t, 300, r.RestS)
	assert.Equal(t, specimen.Day(2), r.Trial)
	card := cardOf(r, []model.Profile{light, heavy}, nil)
	assert.Contains(t, card, "make a trial of the mix")
	assert.Equal(t, 1, strings.Count(card, "Fine dust"), "each caution once")
	assert.InDelta(t, 0.6, r.Fraction(0), 1e-12)
}

func TestRecipeProblems(t *testing.T) {
	sound, _ := face(t)
	for _, c := range []struct {
		path string
		harm func(*model.Recipe)
	}{
		{"schema", func(r *model.Recipe) { r.Schema = 9 }},
		{"recipe.name", func(r *model.Recipe) { r.Name = " " }},
		{"recipe.name", func(r *model.Recipe) { r.Name = strings.Repeat("x", 201) }},
		{"recipe.level", func(r *model.Recipe) { r.Level = 4.2 }},
		{"recipe.total_g", func(r *model.Recipe) { r.TotalG = 0 }},
		{"recipe.total_g", func(r *model.Recipe) { r.TotalG = -1 }},
		{"recipe.jar_ml", func(r *model.Recipe) { r.JarML = -1 }},
		{"recipe.allowance_g", func(r *model.Recipe) { r.AllowanceG = math.Inf(1) }},
		{"recipe.allowance_share", func(r *model.Recipe) { r.AllowanceShare = 2 }},
		{"recipe.liquid", func(r *model.Recipe) { r.Liquid = "" }},
		{"recipe.rest_s", func(r *model.Recipe) { r.RestS = -1 }},
		{"recipe.ratio", func(r *model.Recipe) { r.Ratio.Low = 0 }},
		{"recipe.ratio", func(r *model.Recipe) { r.Ratio.Median = math.NaN() }},
		{"powder", func(r *model.Recipe) { r.Powders = nil }},
		{"powder[0].name", func(r *model.Recipe) { r.Powders[0].Name = "" }},
		{"powder[0].share", func(r *model.Recipe) { r.Powders[0].Share = -1 }},
		{"powder[1].share", func(r *model.Recipe) { r.Powders = append(r.Powders, model.RecipePowder{Name: "B"}) }},
		{"powder[0].family", func(r *model.Recipe) { r.Powders[0].Family = "sand" }},
		{"powder[0].ratio", func(r *model.Recipe) { r.Powders[0].Ratio = math.NaN() }},
		{"extra[0].name", func(r *model.Recipe) { r.Extras[0].Name = "" }},
		{
			"extra[1].share",
			func(r *model.Recipe) { r.Extras = append(r.Extras, model.Extra{Name: "oil", Share: 0.97}) },
		},
	} {
		r, _ := face(t)
		c.harm(&r)
		problems := r.Validate()
		require.Len(t, problems, 1, c.path)
		assert.Equal(t, c.path, problems[0].Path)
		assert.NotEmpty(t, problems[0].Fix)
		card := cardOf(r, nil, nil)
		assert.Contains(t, card, "Not ready to make")
	}
	sound.Schema = 0
	assert.Empty(t, sound.Validate(), "schema 0 is the zero value")
}

func TestStepsAtHalfLevels(t *testing.T) {
	s := side("A", model.Flour, 1, 1.2)
	s.Ratio.Level = 4.5
	b, err := pasteOf(t, s).Batch(model.Order{TotalG: 10})
	require.NoError(t, err)
	r := kitchen.RecipeOf("x", b, nil, time.Time{})
	assert.Contains(t, r.Steps[len(r.Steps)-1], "at 4.5 dollop/spread it lies between two")
	assert.NotContains(t, cardOf(r, nil, nil), "recipe saved", "when is not known")
}

// No card has a number that is none, whatever is in the recipe.
func TestCardsHoldNumbers(t *testing.T) {
	nonsense := regexp.MustCompile(`NaN|Inf|%!`)
	odd := rapid.OneOf(rapid.Float64Range(0.001, 5000),
		rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1), math.Inf(-1), 1e-300, 1e300}))
	rapid.Check(t, func(t *rapid.T) {
		o := order(t)
		r := model.Recipe{
			Name: "x", Level: rapid.SampledFrom([]float64{1, 4.5, 6, 7}).Draw(t, "level"), TotalG: odd.Draw(t, "total"),
			JarML: odd.Draw(t, "jar"), AllowanceG: odd.Draw(t,
				"allowance"), AllowanceShare: o.AllowanceShare, Extras: o.Extras,
			Liquid: "water", RestS: 30, Powders: []model.RecipePowder{
				{Name: "A", Share: odd.Draw(t, "share")},
				{Name: "B", Share: 1},
			},
		}
		m := odd.Draw(t, "ratio")
		r.Ratio = fit.Interval{Median: m, Low: m / 2, High: m * 2}
		card := cardOf(r, []model.Profile{lightClay(nil)}, nil)
		assert.NotRegexp(t, nonsense, card)
		assert.Equal(t, len(r.Validate()) > 0, strings.Contains(card, "Not ready to make"))
	})
	r, _ := face(t)
	r.Steps = []string{"100 % by hand %d"}
	assert.NotRegexp(t, nonsense, cardOf(r, nil, nil))
}
