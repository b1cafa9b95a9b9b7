package tui

import (
	"errors"
	"testing"
	"time"

	"daub.example/daub/model"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// barley is an invented powder with a weighed level spoon and, by spoons of
// 1/4 tsp into 20 g of water, the given looks.
func barley(levels ...float64) model.Profile {
	rest := 120
	t := model.Trial{
		Started: time.Date(2026, 5, 30, 8, 0, 0, 0, time.UTC), State: model.Open, Liquid: "water", LiquidG: 20,
		Spoons: []string{"1 tsp", "1/2 tsp", "1/4 tsp"}, Aim: 5, LevelStep: 1, RestS: &rest,
	}
	for i, l := range levels {
		rested := 120
		t.Steps = append(t.Steps, model.Step{
			At: t.Started.Add(time.Duration(i+1) * 3 * time.Minute), Add: model.AddPowder, Spoon: "1/4 tsp", Count: 1,
			Looked: true, Level: l, RestedS: &rested,
		})
	}
	p := model.Profile{
		Powder:      model.Powder{Name: "Barley", Lot: "A7", Family: model.Flour},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.61, 2.55, 2.66}}},
	}
	if len(levels) > 0 {
		p.Trials = []model.Trial{t}
	}
	return p
}

// steps is what the shelf holds of the only trial of a powder.
func (f *fakeShelf) steps(t *testing.T, name string) []model.Step {
	p := f.profile(name)
	require.Len(t, p.Trials, 1)
	return p.Trials[0].Steps
}

func TestFirstTrialFromAnEmptyShelf(t *testing.T) {
	f := newFake()
	d := drive(t, f.world(), 80, 24)
	assert.Contains(t, d.frame(), "This shelf is empty")

	d.press("n Barley enter A7 enter right right right right enter") // name, lot, family
	d.press("enter enter enter 2.61 enter 2.55 enter 2,66 enter")
	assert.Contains(t, d.frame(), "2.61 g per level spoon ± 0.16", "live mean and spread")
	assert.Equal(t, []float64{2.61, 2.55, 2.66}, f.profile("Barley").LevelSpoons[0].Grams, "weighings are on the shelf before the trial begins")

	d.press("ctrl+g")
	assert.Contains(t, d.frame(), "Trial › bench  Barley · lot A7")
	for _, level := range "013456" {
		d.press("enter " + string(level)) // two key presses a step
	}
	require.Len(t, f.steps(t, "Barley"), 6)
	d.press("u")
	assert.False(t, f.steps(t, "Barley")[5].Looked, "undo takes the look back first")
	d.press("6 e up up 2 enter f")
	assert.Contains(t, d.frame(), "Trial › result")

	p := f.profile("Barley")
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
	d.press("q")
	assert.True(t, d.quit)
}

func TestEnterAloneReachesTheBench(t *testing.T) {
	f := newFake()
	d := drive(t, f.world(), 80, 24).press("n")
	for range fieldStart + 1 {
		d.press("enter")
	}
	assert.Contains(t, d.frame(), "Trial › bench  Powder of 2026-06-01")
	assert.Equal(t, 20.0, f.profile("Powder of 2026-06-01").Trials[0].LiquidG)
}

func TestPowderWithoutASpoonWeightAsksForGrams(t *testing.T) {
	f := newFake()
	d := drive(t, f.world(), 80, 24).press("n X ctrl+g enter")
	assert.Contains(t, d.frame(), "No level spoon of this powder has been weighed")
	assert.Contains(t, d.frame(), "2", "the advised grams are there to be taken or changed")
	d.press("bksp bksp bksp bksp 1.5 enter 4")
	s := f.steps(t, "X")[0]
	assert.Equal(t, 1.5, s.Grams)
	assert.Equal(t, 4.0, s.Level)
}

func TestUnfinishedTrialIsOfferedFirstAndResumed(t *testing.T) {
	other := barley()
	other.Powder.Name = "Aaa"
	f := newFake(other, barley(0, 1, 3))
	d := drive(t, f.world(), 80, 24)
	assert.Contains(t, d.frame(), "▸ Barley · lot A7")
	assert.Contains(t, d.frame(), "unfinished trial")
	d.press("enter")
	assert.Contains(t, d.frame(), "Trial › bench  Barley")

	d.press("U")
	assert.Contains(t, d.frame(), "nothing to redo")
	d.press("u u") // the last look, then its addition
	require.Len(t, f.steps(t, "Barley"), 2, "undo removes recorded steps from the file")
	d.press("u u u u")
	assert.Empty(t, f.steps(t, "Barley"))
	d.press("u")
	assert.Contains(t, d.frame(), "nothing to undo")
	d.press("U U U U U U")
	assert.Equal(t, barley(0, 1, 3).Trials[0].Steps, f.steps(t, "Barley"), "redo brings everything back")
}

func TestStepsOfEveryKind(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.world(), 100, 30).press("enter")
	d.press("enter a enter 3")                   // two additions without a look between
	d.press("k 4")                               // a look without an addition
	d.press("t 5 enter a")                       // paste taken out
	d.press("g 0.8 enter 5")                     // by weight
	d.press("l g 2 enter 4")                     // liquid by weight
	d.press("l right down down down up enter 5") // two spoons at once; l goes to the other of powder and liquid
	steps := f.steps(t, "Barley")[2:]
	require.Len(t, steps, 7)
	assert.Equal(t, model.AddPowder, steps[0].Add)
	assert.False(t, steps[0].Looked)
	assert.Equal(t, 3.0, steps[1].Level)
	assert.Equal(t, model.AddNone, steps[2].Add)
	assert.Equal(t, 4.0, steps[2].Level)
	assert.Equal(t, model.Step{At: f.now, Add: model.Removed, Grams: 5}, steps[3])
	assert.Equal(t, 0.8, steps[4].Grams)
	assert.Equal(t, model.AddLiquid, steps[5].Add)
	assert.Equal(t, 2, steps[6].Count)
}

func TestWhatTheScaleShows(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.world(), 80, 24).press("enter")
	held := d.app.screen.Session().Outcome().Reading.Dish().PasteG()
	d.press("= 21 enter")
	assert.Contains(t, d.frame(), "the scale shows no more than the dish held")
	d.press("bksp bksp 22.5 enter")
	steps := f.steps(t, "Barley")
	assert.InDelta(t, 22.5-held, steps[2].Grams, 1e-4)
}

func TestHalfLevels(t *testing.T) {
	p := barley(0, 1)
	d := drive(t, newFake(p).world(), 80, 24).press("enter enter .")
	assert.Contains(t, d.frame(), "this trial reads whole levels")

	p.Trials[0].LevelStep = 0.5
	f := newFake(p)
	d = drive(t, f.world(), 80, 24).press("enter enter . 4")
	assert.Equal(t, 4.5, f.steps(t, "Barley")[2].Level)
	d.press("enter . 7")
	assert.Contains(t, d.frame(), "the scale ends at 7")
	d.press("7")
	assert.Equal(t, 7.0, f.steps(t, "Barley")[3].Level)
}

func TestMarksAndNotes(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.world(), 80, 24).press("enter m space down space enter n smells-of-hay enter")
	s := f.steps(t, "Barley")[1]
	assert.Equal(t, []string{"sinks", "floats"}, s.Marks)
	assert.Equal(t, "smells-of-hay", s.Note)
	d.press("m down space enter")
	assert.Equal(t, []string{"sinks"}, f.steps(t, "Barley")[1].Marks)
	d.press("f")
	assert.Contains(t, d.frame(), "sinks")
}

func TestMendEverything(t *testing.T) {
	f := newFake(barley(0, 1, 3))
	d := drive(t, f.world(), 100, 30).press("enter e up up left + g 0.7 enter d down 2 down del")
	steps := f.steps(t, "Barley")
	require.Len(t, steps, 2, "the third step is removed")
	assert.Equal(t, "1/2 tsp", steps[0].Spoon)
	assert.Equal(t, 2, steps[0].Count)
	assert.Equal(t, 0.7, steps[0].Grams)
	assert.False(t, steps[0].Looked)
	assert.Equal(t, 2.0, steps[1].Level)
	d.press("u u u u u u")
	assert.Equal(t, barley(0, 1, 3).Trials[0].Steps, f.steps(t, "Barley"), "every change is undone one by one")
}

func TestRefusalsChangeNothing(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.world(), 80, 24).press("enter")
	before := f.saves
	d.press("5")
	assert.Contains(t, d.frame(), "nothing was added since the last look")
	d.press("t 500 enter")
	assert.Contains(t, d.frame(), "500 g of paste taken out of a dish that holds 21.30 g")
	d.press("esc g abc enter")
	assert.Contains(t, d.frame(), `"abc" is not a number`)
	d.press("esc")
	assert.Equal(t, barley(0, 1).Trials[0].Steps, f.steps(t, "Barley"))
	assert.Equal(t, before, f.saves)
}

func TestSetAsideAndUseAgain(t *testing.T) {
	f := newFake(barley(0, 1, 3, 4, 5, 6))
	d := drive(t, f.world(), 80, 24).press("enter f x dropped enter")
	assert.Equal(t, "dropped", f.profile("Barley").Trials[0].SetAside)
	assert.Contains(t, d.frame(), "SET ASIDE (dropped)")
	assert.NotContains(t, d.frame(), "This powder.")
	d.press("x")
	assert.Empty(t, f.profile("Barley").Trials[0].SetAside)
	assert.Contains(t, d.frame(), "This powder.")
}

func TestRepeatAndOtherTrials(t *testing.T) {
	f := newFake(barley(0, 1, 3, 4, 5, 6))
	d := drive(t, f.world(), 80, 24).press("enter f r")
	assert.Contains(t, d.frame(), "Trial › bench")
	p := f.profile("Barley")
	require.Len(t, p.Trials, 2)
	assert.Empty(t, p.Trials[1].Steps)
	assert.Equal(t, p.Trials[0].Spoons, p.Trials[1].Spoons)
	assert.Equal(t, model.Open, p.Trials[1].State)
	d.press("left enter 4 f left")
	assert.Contains(t, d.frame(), "(1 of 2)")
	d.press("b")
	assert.Equal(t, model.Done, f.profile("Barley").Trials[0].State, "a look at the bench changes nothing")
	d.press("k 4")
	assert.Equal(t, model.Open, f.profile("Barley").Trials[0].State, "a trial that is changed is being made again")
	d.press("u u")
	assert.Equal(t, model.Open, f.profile("Barley").Trials[0].State, "undo takes steps back, not that")
}

func TestTheBellRingsWhenTheRestIsOver(t *testing.T) {
	f := newFake(barley(0, 1))
	w := f.world()
	w.Wait = func(d time.Duration) { f.now = f.now.Add(d) }
	d := drive(t, w, 80, 24).press("enter enter")
	assert.Equal(t, 1, f.bells)
	assert.Contains(t, d.frame(), "rest is over")
	d.press("4")
	assert.Equal(t, 120, *f.steps(t, "Barley")[2].RestedS)
}

func TestALevelBeforeTheRestIsUpIsTaken(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.world(), 80, 24).press("enter enter")
	f.now = f.now.Add(40 * time.Second)
	d.press("?  esc")
	assert.Contains(t, d.press("m enter").frame(), "1 min 20 s more")
	d.press("3")
	assert.Equal(t, 40, *f.steps(t, "Barley")[2].RestedS)
}

func TestNotSavedStaysUntilItIsSaved(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.world(), 80, 24).press("enter")
	f.fail = errors.New("the disk is full")
	d.press("enter")
	assert.Contains(t, d.frame(), "NOT SAVED. Ctrl+S save again")
	assert.Contains(t, d.frame(), "the disk is full")
	d.press("3 esc")
	assert.Contains(t, d.frame(), "NOT SAVED", "also on the shelf")
	d.press("n")
	assert.Contains(t, d.frame(), "Shelf", "nothing else takes its place while it is not saved")
	d.press("ctrl+c")
	assert.False(t, d.quit, "the first quit tries to save")
	_, owed := d.app.Owed()
	assert.True(t, owed)

	f.fail = nil
	d.press("ctrl+s")
	assert.NotContains(t, d.frame(), "NOT SAVED")
	assert.Len(t, f.steps(t, "Barley"), 3)
	_, owed = d.app.Owed()
	assert.False(t, owed)
}

func TestSaveBesideKeepsBoth(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.world(), 80, 24).press("enter")
	f.fail = errors.New("changed elsewhere")
	d.press("enter")
	f.fail = nil
	d.press("ctrl+b")
	require.Len(t, f.items, 2)
	assert.Len(t, f.items[0].Profile.Trials[0].Steps, 2)
	assert.Len(t, f.items[1].Profile.Trials[0].Steps, 3)
}

// TestOneWriteInFlight holds a write back while keys go on, and sees that the
// newest state is written once it ends.
func TestOneWriteInFlight(t *testing.T) {
	f := newFake(barley(0, 1))
	app := New(f.world())
	step := func(msg tea.Msg) tea.Cmd { _, cmd := app.Update(msg); return cmd }
	step(app.Init()())
	key := func(k string) tea.Cmd {
		if m, ok := namedKeys[k]; ok {
			return step(m)
		}
		return step(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(k)})
	}
	key("enter")
	first := key("enter")
	require.NotNil(t, first, "the addition is being written")
	assert.Nil(t, key("3"), "no second write while one is in flight")
	assert.Nil(t, key("enter"))
	assert.Contains(t, app.View(), "saving…")
	d := &driver{t: t, app: app}
	d.run(first)
	assert.Contains(t, d.frame(), "saved")
	assert.Equal(t, 2, f.saves)
	assert.Len(t, f.steps(t, "Barley"), 4)
}

func TestQuitWaitsForTheSave(t *testing.T) {
	f := newFake(barley(0, 1))
	app := New(f.world())
	d := &driver{t: t, app: app}
	d.run(app.Init())
	d.press("enter")
	_, write := app.Update(namedKeys["enter"])
	_, cmd := app.Update(namedKeys["ctrl+c"])
	assert.Nil(t, cmd, "not before the write has ended")
	d.run(write)
	assert.True(t, d.quit)
}

func TestShelfFiltersAsYouType(t *testing.T) {
	a, b := barley(), barley()
	a.Powder = model.Powder{Name: "Red clay", Family: model.PlainClay}
	b.Powder = model.Powder{Name: "Maize starch", Family: model.Starch}
	d := drive(t, newFake(a, b).world(), 80, 24).press("/ clay")
	assert.Contains(t, d.frame(), "Red clay")
	assert.NotContains(t, d.frame(), "Maize")
	d.press("x")
	assert.Contains(t, d.frame(), "nothing on the shelf passes this filter")
	d.press("esc")
	assert.Contains(t, d.frame(), "Maize starch")
}

func TestSamplesAreOffered(t *testing.T) {
	d := drive(t, newFake().world(), 80, 24).press("s")
	assert.Contains(t, d.frame(), "Sample")
}

func TestBrokenFilesAreNamed(t *testing.T) {
	f := newFake(barley())
	w := f.world()
	list := w.List
	w.List = func() (Listing, error) {
		l, err := list()
		l.Broken = []string{"oat.toml:12: the level is no number"}
		return l, err
	}
	assert.Contains(t, drive(t, w, 80, 24).frame(), "! oat.toml:12")
}

func TestSetupTakesLiquidBySpoonAndRefusesSlips(t *testing.T) {
	f := newFake()
	d := drive(t, f.world(), 80, 24).press("n Clay")
	for range fieldAmount - 1 { // the density is not asked for water
		d.press("enter")
	}
	for range "20 g" {
		d.press("bksp")
	}
	d.press("lots enter")
	assert.Contains(t, d.frame(), `"lots" is no amount`)
	d.press("bksp bksp bksp bksp 4")
	d.send(namedKeys["space"])
	d.press("x1")
	d.send(namedKeys["space"])
	d.press("tsp ctrl+g")
	got := f.profile("Clay").Trials[0]
	assert.Equal(t, model.BySpoon, got.LiquidBy)
	assert.Equal(t, "1 tsp", got.LiquidSpoon)
	assert.Equal(t, 4, got.LiquidCount)
	assert.InDelta(t, 4*4.92892*0.99821, got.LiquidG, 0.01)
}

// A trial that was spoiled and set aside is not what is looked for.
func TestOpensTheNewestTrialInUse(t *testing.T) {
	p := barley(0, 1, 3, 5)
	p.Trials[0].State = model.Done
	spoiled := p.Trials[0].Clone()
	spoiled.Started = spoiled.Started.Add(time.Hour)
	spoiled.SetAside = "spilled"
	p.Trials = append(p.Trials, spoiled)
	d := drive(t, newFake(p).world(), 80, 24).press("enter")
	assert.Contains(t, d.frame(), "Trial › result  Barley · lot A7 (1 of 2)")

	p.Trials[0].SetAside = "wrong scale"
	d = drive(t, newFake(p).world(), 80, 24).press("enter")
	assert.Contains(t, d.frame(), "(2 of 2)", "where all are set aside, the newest")

	older := spoiled.Clone()
	older.Started, older.SetAside = p.Trials[0].Started.Add(-time.Hour), ""
	p.Trials = append(p.Trials, older)
	p.Trials[0].SetAside = ""
	d = drive(t, newFake(p).world(), 80, 24).press("enter")
	assert.Contains(t, d.frame(), "(1 of 3)", "newest by its start, wherever it stands in the file")
}

// What the shelf would not take is refused at once, not at the save.
func TestTheBenchRefusesWhatTheShelfWould(t *testing.T) {
	p := barley(0)
	for range 9 {
		p.Trials[0].Steps = append(p.Trials[0].Steps, model.Step{Add: model.AddLiquid, Grams: 99999})
	}
	f := newFake(p)
	d := drive(t, f.world(), 80, 24).press("enter a l g 99999 enter")
	assert.Contains(t, d.frame(), "the dish would hold")
	assert.NotContains(t, d.frame(), "NOT SAVED")
	assert.Len(t, f.steps(t, "Barley"), 10)
}

// A look before there is a paste says nothing, so that nothing is finished.
func TestNothingToFinishWithoutALookThatCounts(t *testing.T) {
	p := barley(2)
	p.Trials[0].LiquidG = 0
	d := drive(t, newFake(p).world(), 80, 24).press("enter f")
	assert.Contains(t, d.frame(), "nothing to finish yet: no look that counts has been made. Esc leaves")
}

// One spoon where ten go together, or ten where one goes, is a slip.
func TestTheBenchRefusesAWeighingThatIsASlip(t *testing.T) {
	f := newFake(barley(0))
	d := drive(t, f.world(), 80, 24).press("enter w 26 enter")
	assert.Contains(t, d.frame(), "far from the 2.61 g so far")
	was := barley().LevelSpoons[0].Grams
	assert.Equal(t, was, f.profile("Barley").LevelSpoons[0].Grams)
	d.press("w 2.6 enter")
	assert.Len(t, f.profile("Barley").LevelSpoons[0].Grams, len(was)+1)
}
