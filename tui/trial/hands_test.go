package trial_test

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// halves is a trial that reads half levels and waits for a look.
func halves(t *testing.T) (*drive.Shelf, *drive.Driver) {
	t.Helper()
	p := drive.Barley(0, 1)
	p.Trials[0].LevelStep = 0.5
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter right enter")
	f.Clock = f.Clock.Add(2 * time.Minute)
	return f, d
}

func TestAPointRightAfterTheDigitMakesItAHalf(t *testing.T) {
	f, d := halves(t)
	d.Press("4")
	f.Clock = f.Clock.Add(time.Second)
	d.Press(".")
	assert.Contains(t, d.Frame(), "level 4.5 dollop/spread recorded")
	s := f.Steps(t, "Barley")[2]
	assert.Equal(t, 4.5, s.Level)
	assert.Equal(t, 120, *s.RestedS, "the rest before it stays as it was")
	d.Press("u")
	assert.False(t, f.Steps(t, "Barley")[2].Looked, "one undo for both")
	assert.Contains(t, d.Frame(), "undone: level 4.5")
}

func TestAPointLaterIsNoHalf(t *testing.T) {
	f, d := halves(t)
	d.Press("4")
	f.Clock = f.Clock.Add(1600 * time.Millisecond)
	d.Press(".")
	assert.Contains(t, d.Frame(), "! too late to make the last level a half: e mends it")
	assert.Equal(t, 4.0, f.Steps(t, "Barley")[2].Level)

	f, d = halves(t)
	d.Press("7 .")
	assert.Contains(t, d.Frame(), "! levels end at 7")
	assert.Equal(t, 7.0, f.Steps(t, "Barley")[2].Level)

	f, d = halves(t)
	d.Press(". 4 .")
	assert.Equal(t, 4.5, f.Steps(t, "Barley")[2].Level, "never twice")
}

func TestDigitsThatAreNoLevelAreAnswered(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1)).Deps(), 80, 24).Press("enter enter")
	for _, digit := range []string{"8", "9"} {
		assert.Contains(t, d.Press(digit).Frame(), "! levels go from 0 watery to 7 crumbly")
	}
}

func TestAnEarlyLevelIsAskedAboutOnce(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter enter")
	f.Clock = f.Clock.Add(8 * time.Second)
	d.Press("3")
	assert.Contains(t, d.Frame(), "only 8 s of 2 min: keep 3?")
	assert.False(t, f.Steps(t, "Barley")[2].Looked)
	d.Press("4")
	s := f.Steps(t, "Barley")[2]
	assert.Equal(t, 4.0, s.Level, "another digit is the answer, and not asked about again")
	assert.Equal(t, 8, *s.RestedS)
	assert.Equal(t, model.Early, s.Timing(120))
}

func TestAfterHalfTheRestALevelIsTaken(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter enter")
	f.Clock = f.Clock.Add(time.Minute)
	d.Press("3")
	assert.Equal(t, 60, *f.Steps(t, "Barley")[2].RestedS)
}

func TestTheMakersOwnChoiceCarriesItsForecast(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter left left left up up up up up up up up up up up up up")
	assert.Contains(t, d.Frame(), "! 14 × 1 tsp: almost every time thicker than 6")
	d.Press("enter")
	assert.Contains(t, d.Flat(), "SURE? 36.49 g into the 21.95 g in the dish? Enter: add it all the same")
	d.Press("x y 5")
	assert.Contains(t, d.Frame(), "SURE?", "other keys do not answer")
	d.Press("esc")
	assert.Len(t, f.Steps(t, "Barley"), 3)
	assert.Contains(t, d.Frame(), "14 × 1 tsp", "the choice stands")
	d.Press("enter enter")
	assert.Equal(t, 14, f.Steps(t, "Barley")[3].Count, "and can be made all the same")
}

func TestMoreThanTheDishHoldsIsAskedAbout(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter g 78 enter")
	assert.Contains(t, d.Flat(), "78.00 g into the 21.30 g in the dish?")
	d.Press("esc")
	assert.Len(t, f.Steps(t, "Barley"), 2)
}

func TestEscGoesBackOneStepAndNeverOut(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter right up")
	require.Contains(t, d.Frame(), "advised: ")
	d.Press("esc")
	assert.NotContains(t, d.Frame(), "advised: ", "back to the advice")
	d.Press("esc esc")
	assert.Contains(t, d.Frame(), "Trial › bench")
	assert.Contains(t, d.Frame(), "everything is saved: s goes to the shelf")
	d.Press("enter a esc")
	assert.Contains(t, d.Frame(), "LOOK", "back to the look that was passed over")
	for _, opens := range []string{"m", "e", "g", "w", "c", "i", "n", "f"} {
		d.Press(opens + " esc")
		require.Contains(t, d.Frame(), "Trial › bench", opens)
	}
	d.Press("s")
	assert.Contains(t, d.Frame(), "daub  Shelf")
	assert.Contains(t, d.Frame(), "Barley · lot A7: everything is saved")
	d.Press("down")
	assert.NotContains(t, d.Frame(), "everything is saved", "said once")
}

func TestFinishingAsksWhenTheAdviceIsNotToStop(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter f")
	assert.Contains(t, d.Flat(), "±12 % was wanted. Enter: finish all the same · Esc: back to the dish")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "Trial › bench")
	assert.Equal(t, model.Open, f.Profile("Barley").Trials[0].State)
	assert.Contains(t, d.Press("f enter").Frame(), "Trial › result")
}

func TestStepsAreInsertedDeletedAndMendedInAllTheirFacts(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter e up insert")
	steps := f.Steps(t, "Barley")
	require.Len(t, steps, 4)
	assert.False(t, steps[1].Looked)
	d.Press("left + l 2 m s enter n spilled enter x")
	d.Press("space").Erase(10).Write("0:30").Press("enter")
	s := f.Steps(t, "Barley")[1]
	assert.Equal(t, model.AddLiquid, s.Add)
	assert.Equal(t, "1/2 tsp", s.Spoon)
	assert.Equal(t, 2, s.Count)
	assert.Equal(t, 2.0, s.Level)
	assert.Equal(t, 30, *s.RestedS)
	assert.Equal(t, []string{"sinks"}, s.Marks)
	assert.Equal(t, "spilled", s.Note)
	assert.True(t, s.LeftOut)
	assert.Contains(t, d.Frame(), "after 30 s (early: the rest is 2 min), left out")
	d.Press("del")
	assert.Contains(t, d.Frame(), "step 2 removed")
	d.Press("u")
	assert.Contains(t, d.Frame(), "undone: removal of step 2, 2 × 1/2 tsp water")
}

func TestTheTrialIsChangedFromTheBench(t *testing.T) {
	for name, keys := range map[string]string{"with steps": "", "without one": "u u u u"} {
		f := drive.NewShelf(drive.Barley(0, 1))
		d := drive.Start(t, f.Deps(), 80, 24).Press("enter " + keys + " c")
		d.Erase(1).Write("4.5").Press("enter").Erase(1).Write("0.5").Press("enter")
		d.Erase(5).Write("±10 %").Press("enter").Erase(5).Write("90 s").Press("enter")
		d.Erase(5).Write("whey").Press("enter").Erase(5).Write("25").Press("enter enter")
		got := f.Profile("Barley").Trials[0]
		assert.Equal(t, 4.5, got.Aim, name)
		assert.Equal(t, 0.5, got.LevelStep, name)
		assert.InDelta(t, 0.10, got.Tolerance, 1e-9, name)
		assert.Equal(t, 90, *got.RestS, name)
		assert.Equal(t, "whey", got.Liquid, name)
		assert.Equal(t, 25.0, got.LiquidG, name)
		d.Press("u")
		assert.Contains(t, d.Frame(), "undone: starting with 25 (was 20 g)", name)
		d.Press("c").Erase(3).Write("9").Press("enter")
		assert.Contains(t, d.Frame(), "! ", name)
	}
}

func TestThePotIsWeighedAtTheBench(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	d := drive.Start(t, f.Deps(), 80, 24).Press("t ctrl+g p 152.4 enter enter p 144.6 enter")
	got := f.Profile("Barley").Trials[0]
	assert.Equal(t, 152.4, got.PotG)
	assert.Equal(t, 144.6, got.Steps[0].PotG)
	d.Press("p 190 enter")
	assert.Contains(t, d.Flat(), "more than before", "a pot that gained is asked about")
	d.Press("esc")
	assert.Equal(t, 144.6, f.Profile("Barley").Trials[0].Steps[0].PotG)
}

func TestThePotIsIntroducedWhole(t *testing.T) {
	p := drive.Barley()
	p.LevelSpoons = nil
	d := drive.Start(t, drive.NewShelf(p).Deps(), 60, 20).Press("t ctrl+g p 150 enter enter 1 enter")
	assert.Contains(t, d.Frame(), "your powder's jar or bag, open, on the scale")
}

func TestThePotIsShownToTheHundredth(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	d := drive.Start(t, f.Deps(), 80, 24).Press("t ctrl+g p 152.43 enter enter p 144.66 enter")
	assert.Contains(t, d.Flat(), "144.66 g", "as it was typed")
	assert.Contains(t, d.Press("e").Flat(), "144.66 g after it")
}

// A look that does not fit the others widens the range.
func TestAWiderRangeIsExplained(t *testing.T) {
	wider := "it does not fit the looks before it, so the range is wider"
	d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 3, 4, 5)).Deps(), 80, 24)
	assert.NotContains(t, d.Press("enter k 5 enter").Flat(), wider, "one more that agrees")
	d = drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 3, 4, 5)).Deps(), 80, 24)
	assert.Contains(t, d.Press("enter k 2 enter").Flat(), "level 2 pouring recorded: "+wider)
}

func TestTheMouseAtTheBench(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	click := func(text string) {
		t.Helper()
		d.Click(text)
	}
	click(" 1 tsp ")
	assert.Contains(t, d.Frame(), "[1 tsp]", "a spoon")
	click("▄█  ▄ ▄")
	require.Contains(t, d.Frame(), "LOOK", "the picture of what is added")
	f.Clock = f.Clock.Add(2 * time.Minute)
	click("3  ribbon")
	assert.Equal(t, 3.0, f.Steps(t, "Barley")[2].Level, "a level")
	click(" 1  1/4 tsp")
	assert.Contains(t, d.Frame(), "Mending step 1 of 3", "a step")
	d.Send(tea.MouseMsg{Button: tea.MouseButtonWheelDown})
	assert.Contains(t, d.Frame(), "Mending step 2 of 3", "the wheel")
	d.Press("m")
	click("[ ] g gritty")
	assert.Equal(t, []string{"gritty"}, f.Steps(t, "Barley")[1].Marks, "a behaviour")
}

// l changes to liquid or back and starts the count anew: counts of powder and of
// liquid are separate.
func TestTurningToLiquidStartsAfresh(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1)).Deps(), 80, 24).Press("enter left up up up up l")
	assert.Contains(t, d.Frame(), "ADD  1/4 tsp water")
	assert.Contains(t, d.Press("up up l").Frame(), "powder, struck off level")
	assert.NotContains(t, d.Frame(), "3 × ")
}

// A forecast for liquid says how thin it makes the dish.
func TestLiquidOfOnesOwnIsToldHowThinItMakes(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6)).Deps(), 80, 24).Press("enter up")
	assert.Contains(t, d.Frame(), "2 × 1/4 tsp water: ")
	assert.Contains(t, d.Frame(), "thinner than 4")
	assert.NotContains(t, d.Frame(), "thicker than")
	assert.Contains(t, d.Press("left left up up").Frame(), "! 4 × 1 tsp water: almost every time thinner than 4")
}

// Whoever turns back to the advised addition is not told that another is advised.
func TestTheAdvisedAdditionIsNoChoiceOfOnesOwn(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6)).Deps(), 80, 24).Press("enter")
	advised := d.Frame()
	assert.Contains(t, d.Press("up").Frame(), "advised: 1/4 tsp water")
	assert.Equal(t, advised, d.Press("down").Frame())
	assert.Contains(t, d.Press("left").Frame(), "advised: 1/4 tsp water")
	assert.Equal(t, advised, d.Press("right").Frame())
	assert.Contains(t, d.Press("l").Frame(), "advised: 1/4 tsp water")
	assert.Equal(t, advised, d.Press("l").Frame())
}

// Before the first look at a powder of unknown family every level is possible. A
// sentence then says what the first spoon is for.
func TestTheFirstSpoonOfAnUnknownPowder(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {60, 20}, {40, 12}} {
		d := drive.Start(t, drive.NewShelf().Deps(), size[0], size[1]).Press("n X ctrl+g p 200 enter")
		assert.Contains(t, d.Frame(), "1/8 tsp powder")
		assert.Contains(t, d.Frame(), "the first look shows")
		assert.NotContains(t, d.Frame(), "[0]")
		assert.NotContains(t, d.Frame(), "may overshoot")
		d.Press("left left")
		assert.NotContains(t, d.Frame(), "0 to 7")
		assert.Contains(t, d.Frame(), "a small first spoon is safest")
	}
	d := drive.Start(t, drive.NewShelf(drive.Barley()).Deps(), 80, 24).Press("t ctrl+g")
	assert.Contains(t, d.Frame(), "likely in [ ] [0]", "a flour is known well enough")
}

// A chart's axis that became logarithmic stays so.
func TestTheAxisStaysLogarithmic(t *testing.T) {
	f := drive.NewShelf(drive.Barley(2))
	d := drive.Start(t, f.Deps(), 120, 40).Press("enter")
	step := func(level string) string {
		d.Press("right right right enter")
		f.Clock = f.Clock.Add(2 * time.Minute)
		return d.Press(level).Frame()
	}
	assert.NotContains(t, step("2"), "log scale")
	assert.Contains(t, step("3"), "log scale", "the answer may be far from the looks")
	for _, level := range []string{"4", "5", "6"} {
		assert.Contains(t, step(level), "log scale")
	}
	assert.Contains(t, d.Press("f enter").Frame(), "log scale", "at the result too")
	d = drive.Start(t, f.Deps(), 120, 40).Press("enter")
	assert.NotContains(t, d.Frame(), "log scale", "taken up anew it is as the looks have it")
}

// Before the first look a choice of one's own is told with what its forecast builds on,
// and as a guess only where it is as wide as one.
func TestTheFirstChoiceSaysWhatItBuildsOn(t *testing.T) {
	f := drive.NewShelf(drive.Barley(), drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter ctrl+g right right right right")
	assert.Contains(t, d.Flat(), "1/8 tsp: lands at 0 with most flours advised:")
	d.Press("left left left up")
	assert.Contains(t, d.Flat(), "4 × 1 tsp: lands at 1 to 7, a guess, with most flours advised:")

	d.Press("s").PressUntil("down", "▸ Oat").Press("t ctrl+g right")
	assert.Contains(t, d.Flat(), "by earlier trials advised:")
	assert.NotContains(t, d.Frame(), "family")
}

// Any weighing is mended or deleted during the trial; one that is not kept is not said to be.
func TestWeighingsAreMendedAtTheBench(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	grams := func() []float64 { return f.Profile("Barley").LevelSpoons[0].Grams }
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter w")
	assert.Contains(t, d.Frame(), "↑↓ mend an earlier one")
	d.Press("up")
	assert.Contains(t, d.Flat(), "▸ weighing 3 of 3, grams of one level teaspoon (an empty line deletes it) 2.66")
	d.Press("up 2.5 enter")
	assert.Equal(t, []float64{2.61, 2.5, 2.66}, grams())
	assert.Contains(t, d.Flat(), "weighing 2: 2.5 g (was 2.55)")
	d.Press("up bksp enter")
	assert.Equal(t, []float64{2.61, 2.5}, grams())
	assert.Contains(t, d.Flat(), "2.66 g deleted")

	d.Press("down down down")
	assert.Contains(t, d.Flat(), "tared (Enter alone: done)", "beyond the last comes a new one")
	d.Press("25 enter")
	assert.Contains(t, d.Flat(), "SURE?")
	d.Press("esc")
	assert.Equal(t, []float64{2.61, 2.5}, grams())
	assert.NotContains(t, d.Flat(), "kept")
	d.Press("esc u u")
	assert.Equal(t, []float64{2.61, 2.55, 2.66}, grams())
}
