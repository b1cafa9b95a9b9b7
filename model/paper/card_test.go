package paper_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/paper"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// classMask is a recipe of 20 portions of 75 g with honey, an oil with its solubiliser, and
// a preservative.
//
// 1500 g are made. The oil, 75 g, counts as neither; the other 1425 g are powder and liquid
// at R = 1.6: powder 1425/2.6 = 548.08 g, liquid 876.92 g. Of the liquid, honey is 60,
// solubiliser 15 and preservative 15, which leaves 786.92 g water. The thinnest likely dish
// takes 1.4: 548.08·1.4 - 90 = 677.31 g at first, 109.62 kept back; the thickest 1.8:
// 548.08·0.2 = 109.62 g more. With all of the water in, the thinnest takes 876.92/1.4 =
// 626.37 g powder: 78.30 more.
func classMask() model.Recipe {
	return model.Recipe{
		Name: "Harvest mask", Saved: time.Date(2026, 5, 4, 9, 0, 0, 0, time.UTC), Trial: time.Date(2026, 5, 3, 9, 0,
			0, 0, time.UTC),
		Level: 5, TotalG: 1500, Portions: 20, PortionG: 75, Liquid: "water", RestS: 30,
		Ratio:   fit.Interval{Median: 1.6, Low: 1.4, High: 1.8},
		Powders: []model.RecipePowder{{Name: "Hill clay", Lot: "K4", Family: model.PlainClay, KeepFromMetal: true}},
		Extras: []model.Extra{
			{Name: "honey", Share: 0.04, Counts: model.CountsLiquid, Notes: "warmed"},
			{Name: "preservative", Share: 0.01, Counts: model.CountsLiquid},
			{Name: "solubiliser", Share: 0.01, Counts: model.CountsLiquid},
			{Name: "walnut oil", Share: 0.05, Counts: model.CountsOil},
		},
	}
}

func cardOf(r model.Recipe, o paper.Options, profiles ...model.Profile) string {
	return paper.CardOf(r, profiles, nil, o).Markdown()
}

// A teacher checks ten things on a card before it is given out; each is found in the card's
// own lines.
func TestWhatATeacherChecks(t *testing.T) {
	card := cardOf(classMask(), paper.Options{})
	for _, check := range []struct {
		asks  string
		lines []string
	}{
		{"what is it, how much does it make, for how many", []string{
			"# Harvest mask", "Makes 1500.0 g at 5 spread: 20 portions of about 75 g.",
		}},
		{"is everything that goes in listed, in grams", []string{
			"| Hill clay · lot K4 | 548.1 |", "| water | 786.9 |", "| honey (warmed) | 60.00 |",
			"| walnut oil | 75.00 |", "| solubiliser | 15.00 |", "| preservative | 15.00 |",
		}},
		{"does each amount stand in the step that uses it, water without what is held back", []string{
			"Weigh 548.1 g Hill clay · lot K4 into a dry container and break up its lumps.",
			"Weigh 677.3 g of the water (boiled and cooled, or distilled) into a clean bowl of 2.5 L or more; keep " +
				"the other 109.6 g back. Stir in 60.00 g honey (warmed).",
		}},
		{"what goes in when, the preservative last", []string{
			"4. In a small cup stir 75.00 g walnut oil into 15.00 g solubiliser until it is even; then stir the " +
				"two into the bowl.",
			"5. *Preservative: how much, at which pH and with what gloves is on its maker's sheet.*",
			"Stir in 15.00 g preservative. Stir until it is even to the bottom and let it rest 30 s.",
		}},
		{"how thick, and how do I see it", []string{
			"6. Look before you stir it again: at 5 spread it keeps a drawn line, spreads smooth without running.",
		}},
		{"too thick", []string{
			"Too thick? Stir in some of the 109.6 g water kept back, a little at a time; stir until it is " +
				"even to the bottom, rest 30 s, look again. You may need all of that, and up to 109.6 g more.",
		}},
		{"too thin", []string{
			"Too thin? Sprinkle in more powder, a little at a time; stir until it is even to the bottom, rest 30 " +
				"s, look again. You may need up to 78.30 g more powder.",
		}},
		{"one portion each", []string{
			"Share it evenly among 20 clean cups, one for each person: about 75 g each (69 to 81 g, by how much went " +
				"in); what a person has touched does not go back.",
		}},
		{"when was it made, how long may it be used", []string{
			"Made: ______________  Use by: ______________",
			"Label it: name, ingredients, allergens, made, use by. Not tested with its preservative? Then it is for " +
				"the same day too.",
		}},
		{"what to mind, before the moment it is for, and what it rests on", []string{
			"1. *Fine dust: keep the spoon close to the bowl, no fan; an FFP2 or N95 mask or better for fine " +
				"minerals.*",
			"2. *Keep from metal: bowl and spoon of glass, plastic or silicone; wood is porous and hard to clean. " +
				"Short contact with stainless steel is widely held to be harmless; aluminium, copper and iron never.*",
			"**Ask who is allergic before anyone touches it. Honey: bee products (pollen). Walnut oil: nuts. " +
				"This is guessed from names and kinds: ask the supplier.**",
			"**Nothing for a child under one year: honey may hold spores that harm infants.**",
			"**Nothing on infants or broken skin; patch test on the inner arm for 24 to 48 h.**",
			"1.60 (1.40 to 1.80) g water per g powder for the next dish, at 5 spread, read after 30 s.",
			"Newest trial 2026-05-03, recipe saved 2026-05-04.", care.Deferral,
		}},
	} {
		for _, line := range check.lines {
			at := strings.Index(card, line)
			require.GreaterOrEqual(t, at, 0, "%s: no line %q in\n%s", check.asks, line, card)
			assert.Contains(t, "\n", card[at+len(line):at+len(line)+1], "%s: the line goes on after %q", check.asks,
				line)
		}
	}
}

// The table has the order of the steps, whatever order the recipe lists them in.
func TestTheTableHasTheOrderOfTheSteps(t *testing.T) {
	order := func(card string) (names []string) {
		rows := regexp.MustCompile(`(?m)^\| ([^|(]+?) (?:\([^|]*)?\| [0-9]`)
		for _, row := range rows.FindAllStringSubmatch(card, -1) {
			names = append(names, row[1])
		}
		return names
	}
	r := classMask()
	assert.Equal(t, []string{"Hill clay · lot K4", "water", "honey", "solubiliser", "walnut oil", "preservative"},
		order(cardOf(r, paper.Options{})))
	r.Order = []string{"water", "walnut oil"}
	assert.Equal(t, []string{"water", "walnut oil", "Hill clay · lot K4", "honey", "solubiliser", "preservative"},
		order(cardOf(r, paper.Options{})))
}

// The amounts in the table add up to the batch, and those of the water in the steps to the
// water in the table: 548.08 + 786.92 + 60 + 15 + 15 + 75 = 1500 and 677.31 + 109.62 =
// 786.92, to a tenth of a gram a line.
func TestTheAmountsOfACardAreWhatIsMade(t *testing.T) {
	card := cardOf(classMask(), paper.Options{})
	number := func(text string) float64 {
		v, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return v
	}
	sum, water := 0.0, 0.0
	rows := regexp.MustCompile(`(?m)^\| ([^|]+) \| ([0-9.]+) \|`).FindAllStringSubmatch(card, -1)
	require.Len(t, rows, 6)
	for _, row := range rows {
		sum += number(row[2])
		if row[1] == "water" {
			water = number(row[2])
		}
	}
	assert.InDelta(t, 1500, sum, 0.3)
	parts := regexp.MustCompile(`Weigh ([0-9.]+) g of the water .*; keep the other ([0-9.]+) g back`)
	step := parts.FindStringSubmatch(card)
	require.Len(t, step, 3)
	assert.InDelta(t, water, number(step[1])+number(step[2]), 0.11)
}

// A card's ratio has the digits of the table that shelf and page show: four, then three.
func TestTheRatioOfACardIsThatOfTheTable(t *testing.T) {
	r := classMask()
	r.Ratio = fit.Interval{Median: 0.84446, Low: 0.5378, High: 1.04}
	assert.Contains(t, cardOf(r, paper.Options{}), "\n0.845 (0.538 to 1.04) g water per g powder")
}

func TestDaysOnACard(t *testing.T) {
	r := classMask()
	r.Extras = r.Extras[:1]
	assert.Contains(t, cardOf(r, paper.Options{Made: "2026-12-31"}),
		"Made: 2026-12-31  Use by: 2026-12-31, chilled 2027-01-01\n")
	r.Made, r.UseBy = "2026-05-04", "2026-05-05"
	assert.Contains(t, cardOf(r, paper.Options{}), "Made: 2026-05-04  Use by: 2026-05-05\n")
	assert.Contains(t, cardOf(classMask(), paper.Options{Made: "2026-05-04"}), "Made: 2026-05-04  Use by: ____",
		"a preserved paste keeps as long as its own test says")
}

func TestOrderOfAdditionIsTheRecipes(t *testing.T) {
	r := classMask()
	r.Order = []string{"water", "walnut oil", "Hill clay · lot K4"}
	card := cardOf(r, paper.Options{})
	at := func(text string) int {
		i := strings.Index(card, text)
		require.GreaterOrEqual(t, i, 0, "%q in\n%s", text, card)
		return i
	}
	water, oil, clay := at("1. *Keep from metal"), at("Stir in 75.00 g walnut oil"), at("Weigh 548.1 g Hill clay")
	assert.True(t, water < oil && oil < clay && clay < at("Sprinkle the powder into the bowl"))
}

// While the bowl is empty an ingredient goes to the powder, or is the first in the bowl: no
// step names a bowl twice as a new one.
func TestWhatComesFirstHasAVessel(t *testing.T) {
	r := classMask()
	r.TotalG, r.Portions, r.PortionG = 100, 0, 0
	r.Order = []string{"Hill clay · lot K4", "solubiliser", "walnut oil", "water"}
	card := cardOf(r, paper.Options{})
	assert.Contains(t, card, "2. In a small cup stir 5.00 g walnut oil into 1.00 g solubiliser until it is even; then "+
		"stir the two into the weighed powder.")
	assert.Contains(t, card, "into a clean bowl; keep the other")
	r.Order = []string{"walnut oil", "water"}
	card = cardOf(r, paper.Options{})
	assert.Contains(t, card, "1. Weigh 5.00 g walnut oil into a clean bowl.")
	assert.Contains(t, card, "into the bowl; keep the other")
	r.Order = []string{"Hill clay · lot K4", "walnut oil", "water"}
	assert.Contains(t, cardOf(r, paper.Options{}), "2. Stir 5.00 g walnut oil into the weighed powder.")
	r.Order = []string{"honey", "Hill clay · lot K4", "water"}
	card = cardOf(r, paper.Options{})
	assert.Regexp(t, `1\. Weigh [0-9.]+ g honey .*into a clean bowl\.`, card)
	assert.Contains(t, card, "into the bowl; keep the other")
}

// Whatever comes first, the paste is stirred and rested once, after the last ingredient.
// The powder is sprinkled on the liquid, not on a small extra in the bowl.
func TestStirredAndRestedOnce(t *testing.T) {
	r := classMask()
	clay := "Hill clay · lot K4"
	for _, order := range [][]string{
		{"walnut oil", "water", "honey", "preservative", "solubiliser", clay},
		{"walnut oil", "honey", "preservative", "solubiliser", clay, "water"},
		{"honey", clay, "water"},
		{clay, "honey", "water"},
		{"water", clay},
		nil,
	} {
		r.Order = order
		var steps []string
		for _, s := range paper.CardOf(r, nil, nil, paper.Options{}).Steps {
			steps = append(steps, s.Do)
		}
		all := strings.Join(steps, "\n")
		all, _, _ = strings.Cut(all, "\nLook before you stir it again")
		for _, s := range strings.Split(all, "\n") {
			assert.LessOrEqual(t, strings.Count(strings.ToLower(s), "stir until it is even to the bottom"), 1, s)
		}
		water, sprinkled := strings.Index(all, "Weigh 677.3 g of the water"), strings.Index(all, "Sprinkle the powder")
		assert.True(t, water >= 0 && sprinkled > water, "%v: %s", order, all)
		assert.True(t, strings.HasSuffix(all, "rest 30 s."), all)
		assert.Equal(t, 1, strings.Count(all, "a clean bowl"), "%v: %s", order, all)
	}
	r.Order = []string{"honey", clay, "water"}
	card := cardOf(r, paper.Options{})
	assert.Contains(t, card, "1. Weigh 60.00 g honey (warmed) into a clean bowl of 2.5 L or more.")
}

// Up to 400 g a few turns of a spatula reach all of it; above, it is stirred until it is
// even, in a bowl of half as much again as it has grams: 1500·1.5 = 2250, so 2.5 L; 401·1.5
// = 601.5, so 1 L.
func TestALargeBatchIsStirredAsOne(t *testing.T) {
	r := classMask()
	for _, c := range []struct {
		grams      float64
		has, hasno string
	}{
		{400, "into a clean bowl; keep", "even to the bottom"},
		{401, "into a clean bowl of 1 L or more; keep", "ten turns"},
		{1500, "into a clean bowl of 2.5 L or more; keep", "ten turns"},
	} {
		r.TotalG, r.Portions, r.PortionG = c.grams, 0, 0
		card := cardOf(r, paper.Options{})
		assert.Contains(t, card, c.has)
		assert.NotContains(t, card, c.hasno)
	}
}

// One portion is one cup, or one jar.
func TestOnePortion(t *testing.T) {
	r := classMask()
	r.TotalG, r.Portions, r.PortionG = 75, 1, 75
	card := cardOf(r, paper.Options{})
	assert.Contains(t, card, "Makes 75.00 g at 5 spread: 1 portion of about 75 g.\n")
	assert.Contains(t, card, "Fill it into a clean cup: about 75 g (69 to 81 g, by how much went in); what a "+
		"person has touched ")
	r.JarML, r.JarG = 60, 80
	card = cardOf(r, paper.Options{})
	assert.Contains(t, card, "1 portion of about 75 g, for a jar of 60 mL.")
	assert.Contains(t, card, "Fill it into a clean jar of 60 mL: about 75 g (69 to 81 g, by how much went in), no "+
		"more than 80 g; what")
	assert.NotRegexp(t, `\b1 [a-z]+s\b`, card)
}

// A patch test takes one or two days, a fresh paste is for the same day: the card says
// how both fit, before anything is weighed; what keeps needs no such word. How long it
// keeps is said once.
func TestPatchTestFitsTheDay(t *testing.T) {
	r := classMask()
	const ahead = "patch test ahead: make a little a day or two before"
	preserved := cardOf(r, paper.Options{})
	assert.NotContains(t, preserved, ahead)
	assert.Equal(t, 1, strings.Count(preserved, "within a day chilled"))
	r.Extras = r.Extras[:1] // honey alone
	fresh := cardOf(r, paper.Options{})
	assert.Less(t, strings.Index(fresh, ahead), strings.Index(fresh, "## Steps"))
	assert.Contains(t, fresh, ahead)
	assert.Equal(t, 1, strings.Count(fresh, "within a day chilled"))
	r.Liquid, r.Extras = "vegetable oil", nil
	assert.NotContains(t, cardOf(r, paper.Options{}), ahead)
}

// A card says nothing twice in two ways: a jar that is too small is no jar to
// fill, and an acid that fizzes goes into none.
func TestCardDoesNotContradictItself(t *testing.T) {
	r := classMask()
	r.JarML, r.JarG = 60, 70
	card := cardOf(r, paper.Options{})
	assert.Contains(t, card, "**75.00 g is too much for the jar")
	assert.NotContains(t, card, "jars of 60 mL")
	r.JarG = 80
	card = cardOf(r, paper.Options{})
	assert.Contains(t, card, "evenly among 20 clean jars of 60 mL")
	r.Extras[0].Name = "lemon juice"
	card = cardOf(r, paper.Options{})
	assert.Contains(t, card, "NOT INTO A JAR: no jar for lemon juice with Hill clay")
	assert.NotContains(t, card, "jars of 60 mL")
}

func TestOilAloneIsNotWarnedOfMicrobes(t *testing.T) {
	r := classMask()
	r.Liquid, r.Extras = "vegetable oil", nil
	card := cardOf(r, paper.Options{Made: "2026-05-04"})
	assert.NotContains(t, card, "Microbes")
	assert.NotContains(t, card, "distilled")
	assert.Contains(t, card, "Use by: ____")
	assert.Contains(t, card, "let no water in")
}

func TestMixNamesEachPowder(t *testing.T) {
	r := classMask()
	r.Powders = append(r.Powders, model.RecipePowder{Name: "Oat flour", Share: 1, Family: model.Flour})
	r.Powders[0].Share = 3
	card := cardOf(r, paper.Options{})
	assert.Contains(
		t,
		card,
		"Weigh 411.1 g Hill clay · lot K4 and 137.0 g Oat flour into a dry container, break up the lumps and "+
			"mix them dry.",
	)
	assert.Contains(t, card, "Sprinkle the powders into the bowl in several goes, let them sink, stir until it is even")
	assert.Contains(t, card, "more of the powders mixed dry (58.72 g Hill clay, 19.57 g Oat flour).")
	assert.Contains(t, card, " Oat flour: cereals with gluten. ")
}

// The maker's own steps stay, with the amounts that belong to them.
func TestOwnStepsStay(t *testing.T) {
	r := classMask()
	r.Steps = []string{"Do it as grandmother did."}
	card := cardOf(r, paper.Options{})
	assert.Contains(t, card, "Of the 786.9 g water weigh 677.3 g for the start; keep 109.6 g back.")
	assert.Contains(t, card, "2. Do it as grandmother did.")
	assert.Contains(t, card, "Too thin?")
}

// Spoons stand beside the grams up to eight scoops, with the set they are of.
func TestSpoonsOnACard(t *testing.T) {
	r := classMask()
	r.Portions, r.PortionG, r.TotalG, r.Extras = 0, 0, 26, nil // 10 g of powder
	profile := model.Profile{
		Powder:      model.Powder{Name: "Hill clay", Lot: "K4", Family: model.PlainClay},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.5}}},
	}
	card := cardOf(r, paper.Options{}, profile)
	assert.Contains(t, card, "| Hill clay · lot K4 | 10.00 | 4 × 1 tsp (10.00 g) |")
	assert.Contains(t, card, "Grams come first. Spoons are level, struck off flat: US, 1 tsp = 4.93 mL.")
	assert.Contains(t, card, "into a cup of its own with a clean spatula")

	checked := model.OwnSpoons{{
		Name: "1 tsp", VolumeML: 4.7104, UncertaintyML: 0.01, Own: true, WaterG: []float64{4.7, 4.71, 4.7},
		Measured: time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC),
	}}
	assert.Equal(t, card, paper.CardOf(r, []model.Profile{profile}, checked, paper.Options{}).Markdown(),
		"a US teaspoon is none of the maker's own")
	own := profile
	own.Trials = []model.Trial{{SpoonSet: model.Own, Started: time.Date(2026, 3, 3, 9, 0, 0, 0, time.UTC)}}
	assert.Contains(t, paper.CardOf(r, []model.Profile{own}, checked, paper.Options{}).Markdown(),
		"struck off flat: the maker's own set; 1 tsp holds 4.71 mL, checked 2026-03-02.")

	r.TotalG = 130 // 50 g: twenty scoops
	card = cardOf(r, paper.Options{}, profile)
	assert.Contains(t, card, "| Hill clay · lot K4 | 50.00 |\n")
	assert.NotContains(t, card, "struck off")
	assert.NotContains(t, card, "level spoons", "no empty column")
}

func TestCardOfARecipeThatIsNotSound(t *testing.T) {
	r := classMask()
	r.Name, r.Level = "two\nlines", 9
	card := cardOf(r, paper.Options{})
	assert.Contains(t, card, "# two lines\n")
	assert.Contains(t, card, "## Not ready to make")
	assert.NotContains(t, card, "Steps")
	r = classMask()
	r.Liquid = "a | b"
	assert.Contains(t, cardOf(r, paper.Options{}), `| a \| b |`)
}
