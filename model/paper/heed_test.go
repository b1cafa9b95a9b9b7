package paper_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/paper"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// seenWith is the clay of classMask with what was seen at its last look.
func seenWith(marks ...string) model.Profile {
	return model.Profile{
		Powder: model.Powder{Name: "Hill clay", Lot: "K4", Family: model.PlainClay},
		Trials: []model.Trial{{Steps: []model.Step{{}, {Looked: true, Level: 5, Marks: marks}}}},
	}
}

// stepWith finds the step of a card that holds a text, and fails unless there is exactly
// one.
func stepWith(t *testing.T, c paper.Card, text string) string {
	t.Helper()
	found := ""
	for _, s := range c.Steps {
		if strings.Contains(s.Do, text) {
			require.Empty(t, found, "%q stands in two steps", text)
			found = s.Do
		}
	}
	require.NotEmpty(t, found, "no step with %q in %+v", text, c.Steps)
	return found
}

// Every behaviour that asks for something asks for it in the step that it is for, once;
// below the steps stands only what was seen.
func TestABehaviourIsHeededInItsStep(t *testing.T) {
	inStep := map[string]string{
		"sinks": "Sprinkle the powder", "floats": "Sprinkle the powder", "rafts": "Sprinkle the powder",
		"lumps": "Sprinkle the powder", "holds bubbles": "Sprinkle the powder", "slow to wet": "Too thick?",
		"gritty": "into a dry container", "gels": "Share it evenly", "settles": "Share it evenly",
		"hardens when stirred": "Sprinkle the powder",
	}
	for _, b := range model.Behaviours() {
		c := paper.CardOf(classMask(), []model.Profile{seenWith(b.Name)}, nil, paper.Options{})
		assert.Equal(t, []string{"Hill clay: " + b.Name + "."}, c.Tips, b.Name)
		if b.Advice == "" {
			continue
		}
		step := stepWith(t, c, inStep[b.Name])
		assert.Contains(t, step, b.Of("Hill clay")+": "+b.Advice+".", b.Name)
		stepWith(t, c, b.Of("Hill clay"))
	}
}

// The steps never ask for one thing and its opposite. A look comes before the next
// stirring, and a paste that settles or gels is stirred up before it is shared out, slowly
// where stirring hardens it.
func TestTheStepsAgreeWithTheBehaviour(t *testing.T) {
	c := paper.CardOf(classMask(), []model.Profile{seenWith("settles", "hardens when stirred")}, nil, paper.Options{})
	card := c.Markdown()
	assert.NotContains(t, card, "Do not stir again")
	assert.Contains(t, card, "Look before you stir it again: at 5 spread it keeps a drawn line")
	assert.Contains(t, card, "let it sink, stir slowly until it is even to the bottom and let it rest 30 s. "+
		"Hill clay hardens when stirred: stir slowly.")
	assert.Contains(t, card, "a little at a time; stir slowly until it is even to the bottom, rest 30 s, look again.")
	assert.Contains(t, stepWith(t, c, "Share it evenly"), "Stir it up slowly. Share it evenly among 20 clean cups")
	r := classMask()
	r.Steps = []string{"Do it as grandmother did."}
	c = paper.CardOf(r, []model.Profile{seenWith("rafts", "gritty")}, nil, paper.Options{})
	assert.Contains(t, c.Steps[0].Do, "Hill clay is gritty: sieve it first. Hill clay rafts: strew slowly, let it "+
		"sink.")
}

// A powder that floats is not waited for to sink, and what forms lumps is told as such.
func TestWhatFloatsIsNotToSink(t *testing.T) {
	card := func(mark string) string {
		return paper.CardOf(classMask(), []model.Profile{seenWith(mark)}, nil, paper.Options{}).Markdown()
	}
	assert.NotContains(t, card("floats"), "sink")
	assert.Contains(t, card("floats"), "Sprinkle the powder into the bowl in several goes, stir until it is even to "+
		"the bottom and let it rest 30 s. Hill clay floats: strew thinly")
	assert.Contains(t, card("lumps"), "let it sink")
	assert.Contains(t, card("lumps"), "Hill clay forms lumps: let lumps soak, then press them; do not chase them.")
}

// The swelling clay stood 40 min from its first to its last step, with looks after 30 s: one soak
// takes the place of the rests right before it. The rest before the oil stays.
func TestASoakTakesThePlaceOfTheRestBeforeIt(t *testing.T) {
	p, noon := seenWith(), time.Date(2026, 5, 3, 12, 0, 0, 0, time.UTC)
	p.Powder.Family = model.SwellingClay
	p.Trials[0] = model.Trial{Liquid: "water", Started: noon, State: model.Done, RestS: new(int), Steps: []model.Step{
		{At: noon, Add: model.AddPowder, Grams: 3, Looked: true, Level: 1},
		{At: noon.Add(40 * time.Minute), Add: model.AddPowder, Grams: 1, Looked: true, Level: 5},
	}}
	*p.Trials[0].RestS = 30
	r := classMask()
	said := func() string {
		var all []string
		for _, s := range paper.CardOf(r, []model.Profile{p}, nil, paper.Options{}).Steps {
			all = append(all, s.Do)
		}
		return strings.Join(all, "\n")
	}
	const soak = "\nLet it soak about 40 min: until then it looks too thin. Then stir until it is even to the " +
		"bottom and let it rest 30 s.\nLook before"
	assert.Contains(t, said(), "let it sink, stir until it is even to the bottom and let it rest 30 s.\n")
	assert.Contains(t, said(), "Stir in 15.00 g preservative. Stir until it is even to the bottom."+soak)
	r.Extras = nil
	assert.Contains(t, said(), "let it sink and stir until it is even to the bottom."+soak)
}

// Each cup gets its part of the bowl: (1500 - 109.62)/20 = 69.5 g without the water kept
// back, (1500 + 109.62)/20 = 80.5 g with all the spare water or powder. In between, with
// all the water, it is 75 g.
func TestPortionsArePartsOfWhatIsInTheBowl(t *testing.T) {
	card := cardOf(classMask(), paper.Options{})
	assert.Contains(t, card, "Share it evenly among 20 clean cups, one for each person: about 75 g each (69 to 81 g, "+
		"by how much went in)")
	r := classMask()
	r.AllowanceG = 30 // stays in the bowl, and is no part of a cup
	card = cardOf(r, paper.Options{})
	assert.Contains(t, card, "about 75 g each (69 to 81 g")
	r.JarML, r.JarG = 60, 80
	assert.Contains(t, cardOf(r, paper.Options{}), "about 75 g each (69 to 81 g, by how much went in), no more than "+
		"80 g")
}

// The list of things to have ready gives sums before anything is weighed: 548.1 + 78.30 =
// 626.4 g powder and 786.9 + 109.6 = 896.5 g water.
func TestWhatToHaveReady(t *testing.T) {
	c := paper.CardOf(classMask(), nil, nil, paper.Options{})
	card := c.Markdown()
	assert.Contains(t, card, "\nHave ready: 626.4 g Hill clay · lot K4 (548.1 g, and 78.30 g in case it is too "+
		"thin); 896.5 g water, boiled and cooled, or distilled (786.9 g, and 109.6 g in case it is too thick); "+
		"60.00 g honey; 15.00 g preservative; 15.00 g solubiliser; 75.00 g walnut oil; a clean bowl of 2.5 L or more; "+
		"a dry container for the powder; a small cup for the oil; 20 clean cups.\n")
	assert.Less(t, strings.Index(card, "Have ready"), strings.Index(card, "| what |"))
	r := classMask()
	r.Powders = append(r.Powders, model.RecipePowder{Name: "Oat flour", Share: 1, Family: model.Flour})
	r.Powders[0].Share = 3
	card = cardOf(r, paper.Options{})
	assert.Contains(t, card, "469.8 g Hill clay · lot K4 (411.1 g, and 58.72 g in case it is too thin); "+
		"156.6 g Oat flour")
	r.JarML, r.JarG = 60, 80
	assert.Contains(t, cardOf(r, paper.Options{}), "20 clean jars of 60 mL.\n")
	r.Steps = []string{"Do as always."}
	assert.NotContains(t, cardOf(r, paper.Options{}), "a dry container", "the maker's own steps name none")
	assert.NotContains(t, cardOf(r, paper.Options{}), "Inf")
}

// The first line says who must not touch it, with something to do; mere information comes
// after.
func TestAllergiesAreAskedAboutFirst(t *testing.T) {
	c := paper.CardOf(classMask(), nil, nil, paper.Options{})
	require.NotEmpty(t, c.First)
	assert.Equal(t, "Ask who is allergic before anyone touches it. Honey: bee products (pollen). Walnut oil: nuts. "+
		"This is guessed from names and kinds: ask the supplier.", c.First[0])
	assert.Equal(t, "Nothing for a child under one year: honey may hold spores that harm infants.", c.First[1])
	assert.Equal(t, "Nothing on infants or broken skin; patch test on the inner arm for 24 to 48 h.", c.First[2])
	card := c.Markdown()
	for _, once := range []string{"infants or broken skin", "Walnut oil: nuts", "under one year", "patch test"} {
		assert.Equal(t, 1, strings.Count(card, once), once)
	}
	assert.Contains(t, card, "Label it: name, ingredients, allergens, made, use by.")
	r := classMask()
	r.Extras = nil
	c = paper.CardOf(r, nil, nil, paper.Options{})
	assert.NotContains(t, strings.Join(c.First, "\n"), "allergic")
	r.Powders[0] = model.RecipePowder{Name: "Meal", Family: model.Flour, Allergens: []string{"lupin"}}
	assert.Equal(t, "Ask who is allergic before anyone touches it. Meal: lupin.",
		paper.CardOf(r, nil, nil, paper.Options{}).First[0], "what is recorded is not asked about")
}

// The ratio on a card is that of the powder's own page, to the last digit: 0.7575 and
// 0.7578 would be 0.757 and 0.758.
func TestTheRatioOfACardIsThePowders(t *testing.T) {
	r := classMask()
	r.Ratio.Median, r.Ratio.Low, r.Ratio.High = 0.75748, 0.538, 1.051
	r.Powders[0].Ratio = 0.75784
	assert.Contains(t, cardOf(r, paper.Options{}), "0.758 (0.538 to 1.05) g water per g powder for the next dish")
	r.Powders[0].Ratio = 0.77
	assert.Contains(t, cardOf(r, paper.Options{}), "0.757 (0.538 to 1.05) g water per g powder", "another ratio")
}

// The maker's own note is marked as a note.
func TestANoteIsMarkedAsOne(t *testing.T) {
	r := classMask()
	r.Notes = "Bring towels.\nRing the office."
	assert.Contains(t, cardOf(r, paper.Options{}), "\nNote: Bring towels.\n\nRing the office.\n")
}

// The two parts of the water are the water, to the last digit shown.
func TestPartsOfTheWaterAddUpAsShown(t *testing.T) {
	parts := regexp.MustCompile(`Weigh ([0-9.]+) g of the water .*; keep the other ([0-9.]+) g back`)
	sums := regexp.MustCompile(`([0-9.]+) g [^(;\n]*\(([0-9.]+) g, and ([0-9.]+) g`)
	table := regexp.MustCompile(`(?m)^\| water \| ([0-9.]+) \|`)
	number := func(text string) float64 {
		v, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		return v
	}
	for total := 60.0; total < 2000; total += 37 {
		r := classMask()
		r.TotalG, r.Portions, r.PortionG = total, 0, 0
		card := cardOf(r, paper.Options{})
		step, row := parts.FindStringSubmatch(card), table.FindStringSubmatch(card)
		require.Len(t, step, 3)
		require.Len(t, row, 2)
		assert.InDelta(t, number(row[1]), number(step[1])+number(step[2]), 1e-9, "%g g", total)
		for _, sum := range sums.FindAllStringSubmatch(card, -1) {
			digit := 0.006 + 0.05*math.Floor(min(number(sum[1])/99.995, 1)) // of what the sum is rounded to
			assert.InDelta(t, number(sum[1]), number(sum[2])+number(sum[3]), digit, sum[0])
		}
		assert.Contains(t, card, "some of the "+step[2]+" g water kept back")
	}
}
