package main

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

func TestPlainTrialRefusesAndSaysHow(t *testing.T) {
	h := testHost(t)
	tests := []struct {
		typed, said string
	}{
		{"5", "5 of what? type 5 g"},
		{"2 ladles", "help lists the words"},
		{"0 g", "nothing"},
		{"= 3", "no more than the dish held"},
		{"again", "needs both powder and liquid"},
		{"removed x", "removed 3 g"},
		{"removed 500 g", "500 g of paste taken out"},
		{"liquid 1e9 g", "100000"},
		{"undo", "nothing to undo"}, // of the trial; the set-up stays
		{"mark gels", "no step yet"},
		{"note x", "no step yet"},
		{"weigh", "weigh 2.3"},
		{"weigh 0", "tare"},
		{"weigh 14.2", "14.2 g a level 1 tsp? The other says 1.42 g. Keep it all the same? yes or no (Enter: no)"},
		{"no", "it was not kept"},
		{"weigh 1.40 1,44", "(3 weighings)"},
		{"finish", "nothing to finish"},
		{"aside", "say why"},
		{"copy", "saved already"},
		{"?", "undo: undoes the last change."},
		{"scale", "5 spread: keeps a drawn line"},
		{"steps", "Nothing added yet."},
		{"answer", "No look yet"},
	}
	var lines, want []string
	for _, tt := range tests {
		lines, want = append(lines, tt.typed), append(want, tt.said)
	}
	want = append(want, "or say set levels=0.5 to read halves", "say what is right, as mend 1 level 4",
		"look first", "is not a level from 0 to 7", "is not a whole level", `no behaviour "blue"`,
		"note smells of hay")
	got := daub(typing(h, with(with(newClay, lines...), "1 tsp", "", "8", "2.5", "mend 1", "mark blue", "note",
		"note \x1b[31mred", "3", "mark", "steps", "aside spilled some")...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	for _, said := range want {
		require.Contains(t, flat(got.out), said)
	}
	require.NotContains(t, got.out, "\x1b")
	require.Equal(t, []float64{1.42, 1.40, 1.44}, shelved(t, h, "garden-clay").LevelSpoons[0].Grams)
	trial := shelved(t, h, "garden-clay").Trials[0]
	require.Equal(t, "spilled some", trial.SetAside)
	require.Len(t, trial.Steps, 1)
	require.Equal(t, "red", trial.Steps[0].Note)
}

func TestPlainSetUpAsksAgain(t *testing.T) {
	h := kitchenShelf(t)
	got := daub(typing(h,
		"chlk", "no", // an unlikely value
		"Meal@7", "grain", "flour", // a lot with the name
		"ladle", "1/2tsp", "many", "10", "0", "1 g", "x", "23 24", "", // ten half spoons at once
		"200", "mead", "imperial", "metric", "ladle", "1/2 tsp,1/4 tsp", "2.6", "no", "0,1",
		"9", "4.5", "2", "0.5", "ages", "60 s",
		"4 cups", "4 x 1 tsp", "", "4 x 1 tsp", "1.05", "", "1.5", "quit"), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	p := shelved(t, h, "meal-7")
	require.Equal(t, model.Powder{Name: "Meal", Lot: "7", Family: model.Flour}, p.Powder)
	require.Equal(t, model.LevelSpoon{
		Spoon: "1/2 tsp", Grams: []float64{23, 24}, SpoonsEach: 10, ResolutionG: 1,
		How: model.Loose,
	}, p.LevelSpoons[0])
	trial := p.Trials[0]
	require.Equal(t, "mead", trial.Liquid)
	require.Equal(t, 1.05, trial.LiquidDensity)
	require.Equal(t, 21.0, trial.LiquidG)
	require.Equal(t, model.BySpoon, trial.LiquidBy)
	require.Equal(t, model.Metric, trial.SpoonSet)
	require.Equal(t, []string{"1/2 tsp", "1/4 tsp"}, trial.Spoons)
	require.Equal(t, 4.5, trial.Aim)
	require.Equal(t, 0.5, trial.LevelStep)
	require.Equal(t, 60, *trial.RestS)
	require.Equal(t, 0.1, trial.ResolutionG)
	require.Contains(t, flat(got.out), "A scale that reads to 2.6 g? Most read to 0.01 g, 0.1 g or 1 g. "+
		"Keep it all the same?")
	require.Contains(t, flat(got.out), "There is Chalk")
	require.Contains(t, flat(got.out), `"200" is an amount, not the name of a liquid`)
}

// Any weighing of any spoon size can be mended, at the bench and before it.
func TestPlainWeighingsOfEverySpoonAreMended(t *testing.T) {
	h := testHost(t)
	lines := []string{
		"Garden clay", "", "plain-clay", "spoons", "", "1", "0.01", "1.42", "1.24",
		"weighing 2 1.44", "weigh 1/2 tsp: 0.71 0.79", "weighing 1/2 tsp: 2 0.73", "weighing 1/8 tsp: 1 3",
		"weighing ladle: 1 3", "weighing", "weighing 1/2 tsp:", "",
	}
	lines = append(lines, newClay[8:]...)
	lines = append(lines, "weighing 1/2 tsp: 1 0.72", "weighing 1/2 tsp: 2 none", "weigh 1/4 tsp: 0.36", "undo",
		"weigh 1/2 tsp: tapped 0.8", "weigh 1/2 tsp:", "quit")
	got := daub(typing(h, lines...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	for _, said := range []string{
		"Weighing 2 mended; saved.", "2 weighings recorded; saved. A level 1/2 tsp weighs",
		"there is no weighing 1 of a level 1/8 tsp", `"ladle" is no level spoon`,
		"Weighing 2 of one level teaspoon: 1.44 g. Weighing 1 of one level 1/2 tsp: 0.71 g.",
		"Weighing 2 of one level 1/2 tsp: 0.73 g. Grams of one level teaspoon",
		"type the grams after the word, as weigh 2.3 or weigh 1/2 tsp: 1.15",
	} {
		require.Contains(t, flat(got.out), said)
	}
	p := shelved(t, h, "garden-clay")
	require.Len(t, p.LevelSpoons, 2)
	require.Equal(t, []float64{1.42, 1.44}, p.LevelSpoons[0].Grams)
	require.Equal(t, []float64{0.72}, p.LevelSpoons[1].Grams)
	require.Equal(t, []float64{0.8}, p.Powder.Packings[0].TappedG)
}

// A step undone by mistake is not lost.
func TestPlainTrialDoesAgainWhatWasTakenBack(t *testing.T) {
	h := testHost(t)
	lines := with(newClay, "redo", "1 tsp", "2", "mark lumps", "undo", "undo", "redo", "redo", "redo", "quit")
	got := daub(typing(h, lines...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	for _, said := range []string{
		"Not done: nothing to redo.", "Undone: behaviour of step 1; saved.", "Undone: level 2 pouring; saved.",
		"Redone: level 2 pouring; saved.", "Redone: behaviour of step 1; saved.",
	} {
		require.Contains(t, got.out, said)
	}
	step := shelved(t, h, "garden-clay").Trials[0].Steps[0]
	require.Equal(t, 2.0, step.Level)
	require.Equal(t, []string{"lumps"}, step.Marks)
}

// The scale can give added liquid as well as powder.
func TestPlainTrialTakesLiquidByTheScale(t *testing.T) {
	h := testHost(t)
	lines := with(newClay, "1 tsp", "none", "liquid = 8.42", "none", "powder = 9.42", "quit")
	got := daub(typing(h, lines...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	steps := shelved(t, h, "garden-clay").Trials[0].Steps
	require.Len(t, steps, 3, got.out)
	require.Equal(t, model.AddLiquid, steps[1].Add)
	require.InDelta(t, 2, steps[1].Grams, 1e-9)
	require.Equal(t, model.AddPowder, steps[2].Add)
	require.InDelta(t, 1, steps[2].Grams, 1e-9)
}

// A spoiled trial does not set up the next one.
func TestPlainTrialIsSetUpAsTheLastInUse(t *testing.T) {
	h := testHost(t)
	require.Zero(t, daub(typing(h, with(newClay, "1 tsp", "1", "finish")...), "trial", "--plain").code)
	later := h.now().Add(time.Hour)
	h.now = func() time.Time { return later }
	spoiled := []string{"", "", "no", "oil", "us", "1/4 tsp", "0.01", "4", "1", "30", "6 g", "aside spilled some"}
	require.Zero(t, daub(typing(h, spoiled...), "trial", "--plain", "garden-clay").code)
	require.Equal(t, "spilled some", shelved(t, h, "garden-clay").Trials[1].SetAside)
	got := daub(typing(h, "", ""), "trial", "--plain", "garden-clay")
	require.Contains(t, got.out, "Set it up as the last one: water, spoons at hand 1 tsp, 1/2 tsp")
}
