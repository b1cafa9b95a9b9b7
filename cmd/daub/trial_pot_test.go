package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/require"
)

// potClay are the answers up to the bench for a new powder whose pot is weighed.
var potClay = []string{
	"Garden clay", "", "plain-clay", "pot", "water", "us", "1 tsp, 1/2 tsp", "0.01", "5", "1",
	"30", "0", "150 g", "5 g",
}

// A whole trial in lines with the pot on the scale and no spoon weighed; the file
// and `daub fit` agree.
func TestPlainTrialWithThePot(t *testing.T) {
	h := testHost(t)
	got := daub(typing(h, with(potClay,
		"2 x 1 tsp", "0",
		"", // the advice is to weigh the pot
		"pot 147.16",
		"1 tsp", "1",
		"1/2 tsp", "3",
		"1/2 tsp", "4",
		"1/2 tsp", "5",
		"1/2 tsp", "6",
		"pot 152", "no",
		"pot 142.9",
		"steps",
		"leave 4", "use 4",
		"finish")...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	for _, said := range []string{
		"a pot weighs something",
		"No ratio yet: weigh the pot again",
		"Next: weigh the pot of powder again",
		"Type what the scale shows, as pot 145.1; or what was added.",
		"type what the scale shows as pot 145.1",
		"The pot: 147.16 g; saved.",
		"A level 1 tsp weighs 1.42 ± 0.22 g (by the pot).",
		"The pot holds 4.84 g more than before. Another pot, or a slip? Keep it all the same? yes or no (Enter: no)",
		"it was not kept",
		"The pot before the first spoon: 150 g.",
		"then the pot 142.9 g",
		"The look of step 4 is left out of the answer; saved.",
		"The pot was weighed 3 times and lost 7.10 g.",
	} {
		require.Contains(t, flat(got.out), said)
	}
	p := shelved(t, h, "garden-clay")
	require.Empty(t, p.LevelSpoons)
	require.Equal(t, 150.0, p.Trials[0].PotG)
	require.Equal(t, 147.16, p.Trials[0].Steps[0].PotG)
	made, err := bench.Read(p, p.Trials[0], nil)
	require.NoError(t, err)

	file := filepath.Join(h.shelf, "powders", "garden-clay.toml")
	fitted := daub(h, "fit", file, "--json")
	require.Zero(t, fitted.code, fitted.err)
	var answer struct {
		Ratio struct{ Median, Low, High float64 }
		Pot   struct {
			Readings int
			LossG    float64 `json:"loss_g"`
			Open     bool
		}
		Tsp float64 `json:"grams_per_tsp"`
	}
	require.NoError(t, json.Unmarshal([]byte(fitted.out), &answer))
	want := made.At(5).Dish
	require.InEpsilon(t, want.Median, answer.Ratio.Median, 1e-3) // four digits
	require.InEpsilon(t, want.Low, answer.Ratio.Low, 1e-3)       // four digits
	require.InEpsilon(t, want.High, answer.Ratio.High, 1e-3)     // four digits
	require.InDelta(t, 1.42, answer.Tsp, 1e-9)
	require.Equal(t, 3, answer.Pot.Readings)
	require.InDelta(t, 7.1, answer.Pot.LossG, 1e-9)
	require.False(t, answer.Pot.Open)
	shown := daub(h, "show", "garden clay")
	require.Contains(t, flat(shown.out), "a level 1 tsp weighs 1.42 ± 0.22 g (by the pot)")
}

// Without a scale for the pot, the trial goes on.
func TestPlainTrialGoesOnWithoutThePot(t *testing.T) {
	h := testHost(t)
	start := with(potClay[:len(potClay)-2], "none", "5 g")
	got := daub(typing(h, with(start, "1 tsp", "weigh 1.42", "1 tsp", "1", "quit")...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	require.Contains(t, flat(got.out), "none where it is not weighed after all")
	trial := shelved(t, h, "garden-clay").Trials[0]
	require.Zero(t, trial.PotG)
	require.Contains(t, flat(got.out), "so 1 tsp has no weight: weigh one, weigh the pot, or give the grams")
	require.Len(t, trial.Steps, 1, "once a spoon is weighed")
}

// Any wrong weighing of the pot can be mended, also the first.
func TestPlainPotIsMended(t *testing.T) {
	h := testHost(t)
	start := with(potClay[:len(potClay)-2], "105 g", "5 g") // it was 150 g
	got := daub(typing(h, with(start, "2 x 1 tsp", "0", "pot 147.16", "no", "set pot=150", "pot 147.16",
		"1 tsp", "1", "pot 144.6", "1 tsp", "3", "mend 2 pot 145.7", "mend 9 pot 3", "set pot=x", "set", "set pot=130",
		"no", "quit")...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	for _, said := range []string{
		"The pot holds 42.16 g more than before. Another pot, or a slip?",
		"The pot before the first spoon: 150 g; saved.",
		"The pot after step 2: 145.7 g; saved.",
		"there is no step 9: the last is step 3",
		`"x" is not a number of grams: type it like set pot=152.4`,
		"set pot=150 g",
		"The pot holds 17.16 g more than before.",
	} {
		require.Contains(t, flat(got.out), said)
	}
	trial := shelved(t, h, "garden-clay").Trials[0]
	require.Equal(t, 150.0, trial.PotG)
	require.Equal(t, 147.16, trial.Steps[0].PotG)
	require.Equal(t, 145.7, trial.Steps[1].PotG)
}

// If the pot weighed only small spoons, lines, fit, show and list give the level
// teaspoon with the same digits.
func TestTheTeaspoonOfThePotIsTold(t *testing.T) {
	h := testHost(t)
	got := daub(typing(h, with(potClay, "8 x 1/2 tsp", "4", "pot 144", "4 x 1/2 tsp", "6", "pot 141", "finish")...),
		"trial", "--plain")
	require.Zero(t, got.code, got.err)
	told := "A level 1 tsp weighs 1.50 g (going by the 1/2 tsp)."
	require.Contains(t, flat(got.out), told)
	file := filepath.Join(h.shelf, "powders", "garden-clay.toml")
	require.Contains(t, flat(daub(h, "fit", file).out), told)
	require.Contains(t, flat(daub(h, "show", "garden clay").out), told[1:len(told)-1]+", ")
	require.Contains(t, flat(daub(h, "list").out), " 1.50 ")
}

// At the end the pot is asked for, if powder was taken since its last weighing.
func TestPlainTrialAsksForThePotAtTheEnd(t *testing.T) {
	h := testHost(t)
	owed := "Powder was taken since the pot was weighed last"
	got := daub(typing(h, with(potClay, "2 x 1 tsp", "3", "pot 147.16", "1 tsp", "5", "1/2 tsp", "6", "liquid 2 g", "4",
		"1/2 tsp", "5", "1/2 tsp", "6", "liquid 1 g", "5", "1/2 tsp", "6", "liquid 1 g", "5", "1/2 tsp", "6", "pot 140",
		"finish")...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	before, after, told := strings.Cut(flat(got.out), owed)
	require.True(t, told, got.out)
	require.Contains(t, after, "Enter finishes the trial")
	require.NotContains(t, before, "Enter finishes the trial")
}

// Until the pot is weighed again, the powder in the dish is told as a guess, and no ratio.
func TestPlainTrialTellsAGuessedWeightAsAGuess(t *testing.T) {
	got := daub(typing(testHost(t), with(potClay, "2 x 1 tsp", "3", "steps", "pot 147.16", "steps", "quit")...),
		"trial", "--plain")
	guessed, weighed, found := strings.Cut(flat(got.out), "The pot: 147.16 g")
	require.True(t, found, got.out)
	require.Contains(t, guessed, "In the dish: 5.00 g water, about 4.9 g powder, guessed until the pot is weighed.")
	require.NotContains(t, guessed, "water per g")
	require.NotContains(t, weighed, "guessed")
	require.Contains(t, weighed, "In the dish: 5.00 g water, 2.84 g powder: 1.76 g water per g powder.")
}

// A repeat is steered by what the shelf knows of the powder, in any lot.
func TestPlainTrialFollowsTheShelf(t *testing.T) {
	h := testHost(t)
	first := daub(typing(h, with(newClay, "3 x 1 tsp", "2", "1 tsp", "4", "1/2 tsp", "4", "1/2 tsp", "6", "1/2 tsp",
		"7", "finish")...), "trial", "--plain")
	require.Zero(t, first.code, first.err)
	again := daub(typing(h, "Garden clay", "", "", "yes", "", "quit"), "trial", "--plain")
	require.Contains(t, flat(again.out), "by earlier trials")
	lot := with([]string{"Garden clay@2", "yes"}, newClay[2:]...)
	other := daub(typing(h, with(lot, "quit")...), "trial", "--plain")
	require.Contains(t, flat(other.out), "by earlier trials")
}

// An early look is reported at once, by fit, show and check, until it is left out.
func TestAnEarlyLookIsTold(t *testing.T) {
	h := testHost(t)
	with5min := append([]string{}, newClay...)
	with5min[len(with5min)-2] = "5 min"
	got := daub(typing(h, with(with5min, "3 x 1 tsp", "2", "", "1 tsp", "5", "no", "4", "1/2 tsp", "6", "yes",
		"finish")...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	asked := "Only 1 min of the rest of 5 min are up. Keep 2 pouring, as an early look (no: wait and look again)? " +
		"yes or no (Enter: yes)"
	require.Contains(t, flat(got.out), asked)
	require.Contains(t, flat(got.out), "it was not kept: wait for the rest without stirring, then type it")
	require.Equal(t, 3, strings.Count(flat(got.out), "as an early look (no"), "asked once a step")
	steps := shelved(t, h, "garden-clay").Trials[0].Steps
	require.Equal(t, 60, *steps[0].RestedS, "up to the level, not to the answer")
	require.Equal(t, 4.0, steps[1].Level)
	require.Equal(t, 180, *steps[1].RestedS)
	early := "ook of step 1 was early: after 1 min of a rest of 5 min"
	require.Contains(t, flat(got.out), early)
	file := filepath.Join(h.shelf, "powders", "garden-clay.toml")
	require.Contains(t, flat(daub(h, "fit", file).out), early)
	require.Contains(t, daub(h, "show", "garden clay").out, "early")
	checked := daub(h, "check", file)
	require.Zero(t, checked.code)
	require.Contains(t, flat(checked.out), "the look was early: after 1 min of a rest of 5 min")
	fitted := daub(h, "fit", file, "--json")
	require.Contains(t, fitted.out, `"rested_s": 60`)
	require.Equal(t, model.Early, shelved(t, h, "garden-clay").Trials[0].Steps[0].Timing(300))
}
