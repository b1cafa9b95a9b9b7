package trial_test

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/measure"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Nothing once recorded may be lost; much of this broke once.

func TestFirstTrialFromAnEmptyShelf(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24)
	assert.Contains(t, d.Frame(), "This shelf is empty")

	d.Press("n Barley enter A7 enter f enter") // name, lot, family
	d.Press("2 enter 2.61 enter 2.55 enter 2,66 enter")
	assert.Contains(t, d.Frame(), "2.61 ± 0.16 g a spoon", "live mean and spread")
	assert.Equal(t, []float64{2.61, 2.55, 2.66}, f.Profile("Barley").LevelSpoons[0].Grams,
		"weighings are on the shelf before the trial begins")

	d.Press("ctrl+g")
	assert.Contains(t, d.Frame(), "Trial › bench  Barley · lot A7")
	for _, level := range "013456" {
		d.Press("enter")
		f.Clock = f.Clock.Add(2 * time.Minute)
		d.Press(string(level)) // two keys a step
	}
	require.Len(t, f.Steps(t, "Barley"), 6)
	d.Press("u")
	assert.False(t, f.Steps(t, "Barley")[5].Looked, "undo takes the look back first")
	d.Press("6 e up up 2 enter f enter")
	assert.Contains(t, d.Frame(), "Trial › result")

	p := f.Profile("Barley")
	got := p.Trials[0]
	assert.Equal(t, model.Done, got.State)
	assert.Equal(t, model.Flour, p.Powder.Family)
	var levels []float64
	for _, s := range got.Steps {
		assert.Equal(t, model.AddPowder, s.Add)
		assert.True(t, s.Looked)
		require.NotNil(t, s.RestedS)
		levels = append(levels, s.Level)
	}
	assert.Equal(t, []float64{0, 1, 3, 2, 5, 6}, levels, "the mended level stands")
	d.Press("q")
	assert.True(t, d.Quit)
}

func TestPowderWithoutASpoonWeightAsksForGrams(t *testing.T) {
	f := drive.NewShelf()
	d := drive.Start(t, f.Deps(), 80, 24).Press("n X ctrl+g enter")
	assert.Contains(t, d.Frame(), "No level spoon of this powder has been weighed")
	assert.Contains(t, d.Frame(), "2", "the advised grams are there to be taken or changed")
	d.Press("bksp bksp bksp bksp 1.5 enter 4 enter")
	s := f.Steps(t, "X")[0]
	assert.Equal(t, 1.5, s.Grams)
	assert.Equal(t, 4.0, s.Level)
}

func TestUnfinishedTrialIsOfferedFirstAndResumed(t *testing.T) {
	other := drive.Barley()
	other.Powder.Name = "Aaa"
	f := drive.NewShelf(other, drive.Barley(0, 1, 3))
	d := drive.Start(t, f.Deps(), 80, 24)
	assert.Contains(t, d.Frame(), "▸ Barley · lot A7")
	assert.Contains(t, d.Frame(), "unfinished trial")
	d.Press("enter")
	assert.Contains(t, d.Frame(), "Trial › bench  Barley")

	d.Press("U")
	assert.Contains(t, d.Frame(), "nothing to redo")
	d.Press("u")
	assert.Contains(t, d.Frame(), "undone: level 3 ribbon")
	d.Press("u") // first undoes the look, then its addition
	require.Len(t, f.Steps(t, "Barley"), 2, "undo removes recorded steps from the file")
	d.Press("u u u u")
	assert.Empty(t, f.Steps(t, "Barley"))
	d.Press("u")
	assert.Contains(t, d.Frame(), "nothing to undo")
	d.Press("U U U U U U")
	assert.Equal(t, drive.Barley(0, 1, 3).Trials[0].Steps, f.Steps(t, "Barley"), "redo brings everything back")
}

func TestStepsOfEveryKind(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 100, 30).Press("enter")
	d.Press("right enter a right enter 3 enter")     // two additions without a look between
	d.Press("k 4 enter")                             // a look without an addition
	d.Press("t 5 enter a")                           // paste taken out
	d.Press("g 0.8 enter 5 enter")                   // by weight
	d.Press("l g 2 enter 4 enter")                   // liquid by weight
	d.Press("right down down down up enter 5 enter") // two spoons at once
	steps := f.Steps(t, "Barley")[2:]
	require.Len(t, steps, 7)
	assert.Equal(t, model.AddPowder, steps[0].Add)
	assert.False(t, steps[0].Looked)
	assert.Equal(t, 3.0, steps[1].Level)
	assert.Equal(t, model.AddNone, steps[2].Add)
	assert.Equal(t, 4.0, steps[2].Level)
	assert.Equal(t, model.Step{At: f.Clock, Add: model.Removed, Grams: 5}, steps[3])
	assert.Equal(t, 0.8, steps[4].Grams)
	assert.Equal(t, model.AddLiquid, steps[5].Add)
	assert.Equal(t, 2, steps[6].Count)
}

func TestWhatTheScaleShows(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	held := 20 + 2*(2.61+2.55+2.66)/3/4 // g: the liquid, and twice 1/4 tsp by the weighings of 1 tsp
	d.Press("= 21 enter")
	assert.Contains(t, d.Frame(), "the scale shows no more than the dish held")
	d.Press("bksp bksp 22.5 enter")
	steps := f.Steps(t, "Barley")
	assert.InDelta(t, 22.5-held, steps[2].Grams, 0.005)
	assert.Equal(t, 1.2, steps[2].Grams, "to what the scale resolves, without float noise")
}

func TestHalfLevels(t *testing.T) {
	p := drive.Barley(0, 1)
	d := drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter enter .")
	assert.Contains(t, d.Frame(), "this trial reads whole levels")

	p.Trials[0].LevelStep = 0.5
	f := drive.NewShelf(p)
	d = drive.Start(t, f.Deps(), 80, 24).Press("enter enter . 4 enter")
	assert.Equal(t, 4.5, f.Steps(t, "Barley")[2].Level)
	d.Press("enter . 7")
	assert.Contains(t, d.Frame(), "levels end at 7")
	d.Press("7 enter")
	assert.Equal(t, 7.0, f.Steps(t, "Barley")[3].Level)
}

func TestMarksAndNotes(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter m s f enter n smells-of-hay enter")
	s := f.Steps(t, "Barley")[1]
	assert.Equal(t, []string{"sinks", "floats"}, s.Marks)
	assert.Equal(t, "smells-of-hay", s.Note)
	d.Press("m f enter")
	assert.Equal(t, []string{"sinks"}, f.Steps(t, "Barley")[1].Marks)
	d.Press("f enter")
	assert.Contains(t, d.PressUntil("pgdown", "sinks").Flat(), "sinks. smells-of-hay",
		"the result tells it with its step")
}

func TestMendEverything(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3))
	d := drive.Start(t, f.Deps(), 100, 30).Press("enter e up up left + g 0.7 enter d down 2 down del")
	steps := f.Steps(t, "Barley")
	require.Len(t, steps, 2, "the third step is removed")
	assert.Equal(t, "1/2 tsp", steps[0].Spoon)
	assert.Equal(t, 2, steps[0].Count)
	assert.Equal(t, 0.7, steps[0].Grams)
	assert.False(t, steps[0].Looked)
	assert.Equal(t, 2.0, steps[1].Level)
	d.Press("u u u u u u")
	assert.Equal(t, drive.Barley(0, 1, 3).Trials[0].Steps, f.Steps(t, "Barley"), "every change is undone one by one")
}

func TestRefusalsChangeNothing(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	before := f.Saves
	d.Press("5")
	assert.Contains(t, d.Frame(), "nothing was added since the last look")
	d.Press("t 500 enter")
	assert.Contains(t, d.Frame(), "500 g of paste taken out of a dish that holds 21.30 g")
	d.Press("esc g abc enter")
	assert.Contains(t, d.Frame(), `"abc" is not a number`)
	d.Press("esc")
	assert.Equal(t, drive.Barley(0, 1).Trials[0].Steps, f.Steps(t, "Barley"))
	assert.Equal(t, before, f.Saves)
}

func TestTheBellRingsWhenTheRestIsOver(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	w := f.Deps()
	w.Wait = ticking(f)
	d := drive.Start(t, w, 80, 24).Press("enter enter")
	assert.Equal(t, 1, f.Bells)
	assert.Contains(t, d.Frame(), "test now")
	d.Press("4")
	assert.Equal(t, 120, *f.Steps(t, "Barley")[2].RestedS)
}

func TestALevelBeforeHalfTheRestIsAskedAboutOnce(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter enter")
	f.Clock = f.Clock.Add(40 * time.Second)
	d.Press("?  esc")
	assert.Contains(t, d.Press("m").Frame(), "rest 1:20")
	d.Press("enter 3")
	assert.Contains(t, d.Frame(), "only 40 s of 2 min: keep 3? Enter: yes, Esc: wait")
	d.Press("esc 3")
	assert.Equal(t, 40, *f.Steps(t, "Barley")[2].RestedS)
}

// Input that the shelf would refuse is refused at once, not when saving.
func TestTheBenchRefusesWhatTheShelfWould(t *testing.T) {
	p := drive.Barley(0)
	for range 9 {
		p.Trials[0].Steps = append(p.Trials[0].Steps, model.Step{Add: model.AddLiquid, Grams: 99999})
	}
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter a l g 99999 enter enter")
	assert.Contains(t, d.Frame(), "the dish would hold")
	assert.NotContains(t, d.Frame(), "NOT SAVED")
	assert.Len(t, f.Steps(t, "Barley"), 10)
}

// A look before there is a paste says nothing, so there is nothing to finish.
func TestNothingToFinishWithoutALookThatCounts(t *testing.T) {
	p := drive.Barley(2)
	p.Trials[0].LiquidG = 0
	d := drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter f")
	assert.Contains(t, d.Frame(), "nothing to finish yet: no look that counts has been made. s leaves")
}

// One spoon in the place of ten, or ten in the place of one, is asked about.
func TestTheBenchRefusesAWeighingThatIsASlip(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter w 26 enter")
	assert.Contains(t, d.Flat(), "26.0 g a level 1 tsp?")
	was := drive.Barley().LevelSpoons[0].Grams
	assert.Equal(t, was, f.Profile("Barley").LevelSpoons[0].Grams)
	d.Press("esc 2.6 enter")
	assert.Contains(t, d.Flat(), "weighing kept: 2.6 g")
	assert.Contains(t, d.Frame(), "grams of one level teaspoon", "weighing stays until it is left")
	d.Press("esc enter")
	assert.Len(t, f.Profile("Barley").LevelSpoons[0].Grams, len(was)+1)
}

func TestALevelMonthsLaterIsTakenWithoutARest(t *testing.T) {
	p := drive.Barley(0, 1, 3)
	last := &p.Trials[0].Steps[2]
	last.Looked, last.Level, last.RestedS = false, 0, nil
	f := drive.NewShelf(p)
	f.Clock = f.Clock.AddDate(0, 6, 0)
	drive.Start(t, f.Deps(), 80, 24).Press("enter 3")
	s := f.Steps(t, "Barley")[2]
	assert.Equal(t, 3.0, s.Level)
	assert.Nil(t, s.RestedS)
}

func TestUndoDoesNotFinishATrial(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	f.Entries[0].Profile.Trials[0].State = model.Done
	drive.Start(t, f.Deps(), 80, 24).Press("enter b u")
	assert.Equal(t, model.Open, f.Profile("Barley").Trials[0].State)
}

func TestAFinishedTrialMayBeLookedAt(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	f.Entries[0].Profile.Trials[0].State = model.Done
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter b s")
	assert.Equal(t, model.Done, f.Profile("Barley").Trials[0].State)
	assert.NotContains(t, d.Frame(), "unfinished")
}

func TestATrialWithoutAStepIsDropped(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1, 3, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter f enter r s")
	assert.Len(t, f.Profile("Barley").Trials, 1)
	assert.NotContains(t, d.Frame(), "unfinished")
}

func TestThePassedOverAdditionCanBeLookedAtAfterAll(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	drive.Start(t, f.Deps(), 80, 24).Press("enter enter a 3 enter")
	s := f.Steps(t, "Barley")
	require.Len(t, s, 3)
	assert.Equal(t, 3.0, s[2].Level)
}

// A rest may last overnight: its time left is shown in hours.
func TestARestOvernight(t *testing.T) {
	p := drive.Barley(0, 1)
	night := 8 * 3600
	p.Trials[0].RestS = &night
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter enter")
	assert.Contains(t, d.Frame(), "hours:minutes")
	assert.Contains(t, d.Frame(), "rest 8 h")
	assert.NotContains(t, d.Frame(), "…")
	d.Press("esc m")
	assert.Contains(t, d.Frame(), "rest 8:00 h")
}

func TestTheBellRingsWhileMarksAreOpen(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	w := f.Deps()
	var waits int
	wait := ticking(f)
	w.Wait = func(d time.Duration) {
		if d == time.Second {
			waits++
		}
		wait(d)
	}
	d := drive.Start(t, w, 80, 24).Press("enter")
	cmd := d.Hold("enter") // the rest begins
	d.Press("m")
	d.Run(cmd)
	assert.Equal(t, 1, f.Bells)
	assert.Equal(t, 120, waits, "one clock, and no more")
}

func TestTheWeighedIsNotThrownAwayByAnArrow(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter g 0.87 enter 3 enter e left")
	assert.Contains(t, d.Frame(), "this addition was weighed")
	assert.Equal(t, 0.87, f.Steps(t, "Barley")[2].Grams)
	d.Press("l")
	assert.Equal(t, model.AddLiquid, f.Steps(t, "Barley")[2].Add)
}

// ticking is a wait that moves the shelf's clock by the seconds of a rest. The wait
// for a slow write runs beside it and moves nothing.
func ticking(f *drive.Shelf) func(time.Duration) {
	return func(d time.Duration) {
		if d == time.Second {
			f.Clock = f.Clock.Add(d)
		}
	}
}

// A stop also says how to go on, and those keys work.
func TestMoreIsAddedAtAStop(t *testing.T) {
	p := drive.Barley(0, 1, 2, 3, 4, 5, 4, 5, 5, 5)
	p.Trials[0].Tolerance = 0.2
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Frame(), "STOP  Enter finishes the trial; ←→ chooses a spoon to add more")
	d.Press("right enter")
	assert.Contains(t, d.Frame(), "LOOK")
	assert.Len(t, f.Steps(t, "Barley"), 11)
}

// Esc at the second stop of a set-up returns to where the first was left.
func TestEscGoesBackToTheFamily(t *testing.T) {
	d := drive.Start(t, drive.NewShelf().Deps(), 80, 24).Press("n X enter enter right enter")
	assert.Contains(t, d.Frame(), "WHAT IS WEIGHED?")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "▸ family")
}

// The advice to stop names the liquid that a too thick dish needs. l chooses the
// spoonfuls nearest to it, g offers its grams.
func TestLiquidThatBringsADishBackIsOffered(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 3, 4, 5, 7)).Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Flat(), "About 4.9 g water brings it back to 5 spread")
	d.Press("l")
	assert.Contains(t, d.Frame(), "ADD  1 tsp water, full to the brim (about 4.9 g)")
	assert.Contains(t, d.Frame(), "1 tsp water: hardly ever too thin (thinner than 4)")
	assert.Contains(t, d.Press("g").Flat(), "grams of water added 4.9")
}

// Typing in a note goes on at its end; the first letter does not replace it.
func TestTypingGoesOnInANote(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter n").Write("smells of hay").Press("enter n")
	d.Write(", later sour").Press("enter")
	assert.Equal(t, "smells of hay, later sour", f.Steps(t, "Barley")[1].Note)
}

// The column of readings is headed by what was measured.
func TestTheColumnOfReadingsIsNotCalledLevel(t *testing.T) {
	p := drive.Barley(0, 1)
	p.Trials[0].Measured = &model.Measured{Kind: measure.Spread, VolumeML: 15}
	for i, mm := range []float64{93, 80} {
		p.Trials[0].Steps[i].Looked, p.Trials[0].Steps[i].Level, p.Trials[0].Steps[i].Reading = false, 0, mm
	}
	d := drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter")
	assert.Regexp(t, `step +g water/g +spread`, d.Frame())
	p.Trials[0].Steps[1].Looked, p.Trials[0].Steps[1].Level = true, 1
	d = drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter")
	assert.Regexp(t, `step +g water/g +level`, d.Frame(), "a level and a reading")
}
