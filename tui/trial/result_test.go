package trial_test

import (
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSetAsideAndUseAgain(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter f enter x dropped enter")
	assert.Equal(t, "dropped", f.Profile("Barley").Trials[0].SetAside)
	assert.Contains(t, d.Frame(), "because: dropped")
	assert.NotContains(t, d.Frame(), "to write down; a second trial")
	d.Press("x")
	assert.Empty(t, f.Profile("Barley").Trials[0].SetAside)
	assert.Contains(t, d.Frame(), "to write down; a second trial")
}

func TestRepeatAndOtherTrials(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter f enter r")
	assert.Contains(t, d.Frame(), "Trial › bench")
	p := f.Profile("Barley")
	require.Len(t, p.Trials, 2)
	assert.Empty(t, p.Trials[1].Steps)
	assert.Equal(t, p.Trials[0].Spoons, p.Trials[1].Spoons)
	assert.Equal(t, model.Open, p.Trials[1].State)
	d.Press("left enter 4 enter f enter left")
	assert.Contains(t, d.Frame(), "(1 of 2)")
	d.Press("b")
	assert.Equal(t, model.Done, f.Profile("Barley").Trials[0].State, "a look at the bench changes nothing")
	d.Press("k 4 enter")
	assert.Equal(t, model.Open, f.Profile("Barley").Trials[0].State, "a trial that is changed is being made again")
	d.Press("u u")
	assert.Equal(t, model.Done, f.Profile("Barley").Trials[0].State, "nothing is left of the change")
	assert.Contains(t, d.Flat(), "the trial is finished, as it was")
	d.Press("k")
	assert.Contains(t, d.Flat(), "this finished trial is open again: f finishes it")
}

// The repeat of a trial just finished uses it, though the shelf has not been read
// since.
func TestRepeatIsSteeredByTheTrialJustFinished(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter f enter r")
	assert.Contains(t, d.Flat(), "by earlier trials")
	d.Press("s enter r")
	assert.Contains(t, d.Flat(), "by earlier trials", "and as it is once the shelf is read again")

	f = drive.NewShelf()
	d = drive.Start(t, f.Deps(), 80, 24).Press("n New enter A7 enter f ctrl+g")
	for _, level := range "13456" {
		d.Press("g 2 enter")
		f.Clock = f.Clock.Add(2 * time.Minute)
		d.Press(string(level))
	}
	d.Press("f enter r")
	assert.Contains(t, d.Flat(), "by earlier trials", "of a powder that was never read from the shelf")
}

func TestResultGetsOut(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press("down enter y")
	answer := "Oat: 4.8 g water per g powder (13 g water per level tsp, weighing 2.61 g); the next dish may need "
	assert.True(t, strings.HasPrefix(f.Clip, answer), f.Clip)
	shown, _, _ := strings.Cut(answer, "; the next dish")
	assert.Contains(t, d.Frame(), "RESULT  "+strings.TrimPrefix(shown, "Oat: "), "its range stands below it")
	d.Press("e json enter")
	assert.Contains(t, d.Frame(), "written to /written/oat.json")
	assert.Equal(t, "1 at 0", f.Files["oat.json"])
}

// The steps are listed with what was seen and noted, and the numbers with their
// use.
func TestResultTellsStepsAndUses(t *testing.T) {
	p := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	p.Trials[0].Steps[2].Marks, p.Trials[0].Steps[2].Note = []string{"lumps"}, "stirred twice"
	early := 30
	p.Trials[0].Steps[3].RestedS = &early
	p.Trials[0].PotG, p.Trials[0].Steps[4].PotG = 152.4, 149.1
	d := drive.Start(t, drive.NewShelf(p).Deps(), 80, 60).Press("enter")
	for _, fact := range []string{
		"to write down; a second trial narrows it", "of this one dish only",
		": to plan with; wider, as days differ", "3 1/4 tsp of powder",
		"level 4 dollop, lumps. stirred twice",
		"level 5 spread (read early: after 30 s of 2 min)",
		"! The look of step 4 was early: after 30 s of a rest of 2 min.",
		"The pot before the first spoon: 152.4 g 1 1/4 tsp", "level 6 stiff, then the pot 149.1 g",
	} {
		assert.Contains(t, d.Flat(), fact)
	}
}

// Before another powder is compared with an old wet dish, the maker is asked
// whether it is still there. Any other key drops the question. A fresh dish is not
// asked about.
func TestAnOldDishIsAskedAbout(t *testing.T) {
	p := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5)
	f := drive.NewShelf(p)
	made, _ := p.Trials[0].LastAdded()
	const question = "The last dish of Oat is of 2026-05-30, and a wet dish keeps a day. Is it before you, kept " +
		"covered and fit to use? m again: yes."
	f.Clock = made.Add(25 * time.Hour)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter m")
	require.Contains(t, d.Flat(), question)
	require.Contains(t, d.Flat(), "Trial › result")
	d.Press("down m")
	require.Contains(t, d.Flat(), question, "asked anew after another key")
	require.Contains(t, d.Press("m").Flat(), "Trial › side by side")

	f = drive.NewShelf(p)
	f.Clock = made.Add(23 * time.Hour)
	require.Contains(t, drive.Start(t, f.Deps(), 80, 24).Press("enter m").Flat(), "Trial › side by side")
}

// A pot that weighed only small spoons also gives the level teaspoon. The shelf's
// row, the copied headline and the result show the same digits.
func TestTheTeaspoonOfThePotIsTheSameEverywhere(t *testing.T) {
	f := drive.NewShelf(byTheEighth())
	d := drive.Start(t, f.Deps(), 80, 24)
	assert.Contains(t, d.Frame(), " 2.64 g ")
	d.Press("enter y")
	assert.Contains(t, f.Clip, "g water per level tsp, weighing 2.64 g);")
	assert.Contains(t, d.Flat(), "a level 1 tsp weighs 2.64 g (going by the 1/8 tsp), a level 1/8 tsp weighs 0.330 ±")
}

// byTheEighth is a powder of which the pot weighed only 1/8 tsp.
func byTheEighth() model.Profile {
	p := drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6)
	p.LevelSpoons = nil
	steps := p.Trials[0].Steps
	for i := range steps {
		steps[i].Spoon, steps[i].Count = "1/8 tsp", 2
	}
	p.Trials[0].PotG, steps[len(steps)-1].PotG = 100, 96.7
	return p
}

// The table of the shelf has four digits: the result shows the same three.
func TestTheResultShowsTheDigitsOfTheShelf(t *testing.T) {
	p := drive.Finished("Oat", model.Flour, "water", 0, 1, 2, 4, 4, 6)
	table := repeats.Ratios(p, p.MainBasis(), []float64{5}, nil)[0].Row().Ratio()
	want := bench.IntervalText(*table.Powder)
	require.Equal(t, "5.66 (4.21 to 7.43)", want, "7.44 without the table")
	d := drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Frame(), "this powder  "+want)
}

// One look is "1 look".
func TestOneLookIsCountedAsOne(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley(5)).Deps(), 80, 40).Press("enter f enter")
	assert.Contains(t, d.PressUntil("pgdown", "Begun").Flat(), "with 20.00 g water in the dish, 1 look, rest")
	assert.NotContains(t, d.Flat(), "1 looks")
}
