package bench_test

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// on is a moment of the n-th day.
func on(n int) time.Time { return time.Date(2026, 5, n, 10, 0, 0, 0, time.UTC) }

// scoops adds n level spoons of powder and looks.
func scoops(spoon string, n int, level float64) model.Step {
	return model.Step{Add: model.AddPowder, Spoon: spoon, Count: n, Looked: true, Level: level}
}

// teff is a flour whose level teaspoon was weighed three times: 2.31 g.
func teff() model.Profile {
	return model.Profile{
		Powder:      model.Powder{Name: "Teff flour", Family: model.Flour},
		LevelSpoons: []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.31, 2.27, 2.35}}},
	}
}

// making is an editor at an open trial of teff with these steps.
func making(steps ...model.Step) *bench.Editor {
	p := teff()
	p.Trials = []model.Trial{{
		Started: on(1), State: model.Open, LiquidG: 20, Spoons: []string{"1 tsp", "1/2 tsp"}, Steps: steps,
	}}
	return bench.NewEditor(p, 0, nil)
}

// lookAt records a level with the wait since the last step, as the bench does.
func lookAt(e *bench.Editor, level float64, now time.Time) error {
	var restedS *int
	if last := e.Last(); last != nil {
		restedS = last.Rested(now)
	}
	return e.LookAfter(level, restedS)
}

// steps are the steps of the trial being made.
func steps(e *bench.Editor) []model.Step { return e.Trial().Steps }

func TestEditorMakesATrial(t *testing.T) {
	e := bench.NewEditor(teff(), bench.NoTrial, nil)
	require.NoError(t, e.Begin(model.Trial{Started: on(1), LiquidG: 20, Spoons: []string{"1 tsp"}}))
	assert.Equal(t, 0, e.Index())
	assert.Nil(t, e.Last())
	assert.Error(t, e.LookAgain(on(1)), "no powder yet")
	assert.Error(t, lookAt(e, 3, on(1)), "no step yet")
	assert.Error(t, e.Finish(), "no look yet")

	require.NoError(t, e.Add(on(2), model.Step{Add: model.AddPowder, Spoon: "1 tsp", Count: 2}))
	assert.True(t, e.AwaitsLook())
	require.NoError(t, lookAt(e, 3, on(2).Add(90*time.Second)))
	assert.False(t, e.AwaitsLook())
	rested := 90
	want := scoops("1 tsp", 2, 3)
	want.At, want.RestedS = on(2), &rested
	assert.Equal(t, want, *e.Last())

	held := 20 + 2*2.31
	_, err := e.ByScale(held)
	assert.ErrorContains(t, err, "no more than the dish held")
	grams, err := e.ByScale(held + 2.31)
	require.NoError(t, err)
	assert.InDelta(t, 2.31, grams, 1e-4)

	require.NoError(t, e.Add(on(2), model.Step{Add: model.AddPowder, Grams: grams}))
	require.NoError(t, lookAt(e, 5, on(2)))
	require.NoError(t, e.SetMarks(1, []string{"gels", "sinks"}))
	require.NoError(t, e.Note(1, "smells of rain"))
	assert.Equal(t, []string{"sinks", "gels"}, e.Last().Marks)
	require.NoError(t, e.LookAgain(on(3)))
	require.NoError(t, e.Finish())
	assert.True(t, e.Trial().Used())

	r, err := bench.Read(e.Profile(), e.Trial(), nil)
	require.NoError(t, err)
	assert.Equal(t, r.At(5), e.Outcome().Answer(5), "what it says is what the model says of its trial")
	advice, _ := r.Advice()
	assert.Equal(t, advice, *e.Outcome().Advice)
	assert.Equal(t, r.FarOut(), e.Outcome().FarOut)
}

// A refusal says why, and nothing has changed.
func TestEditorRefuses(t *testing.T) {
	e := making(scoops("1 tsp", 4, 4), model.Step{Add: model.Removed, Grams: 25})
	before := e.Revision()
	for why, err := range map[string]error{
		"500 g of paste taken out":          e.Add(on(2), model.Step{Add: model.Removed, Grams: 500}),
		`the spoon "ladle" is not known`:    e.Add(on(2), model.Step{Add: model.AddPowder, Spoon: "ladle"}),
		"step 2: 25 g of paste taken out":   e.Mend(0, func(s *model.Step) { s.Count = 1 }),
		"between the half levels":           e.Edit("aim", func(_ *model.Profile, t *model.Trial) { t.Aim = 4.7 }),
		"there is no step 3: the last is":   e.Note(2, "there is no third step"),
		"23.1 g a level 1 tsp?":             e.WeighHere("", 23.1),
		"the weighings so far are of 1":     e.Weigh(model.LevelSpoon{Spoon: "1 tsp", SpoonsEach: 10}, 23),
		"weighing 4 of 0 g is not possible": e.Weigh(model.LevelSpoon{Spoon: "1 tsp"}, 0),
	} {
		assert.ErrorContains(t, err, why)
	}
	assert.Error(t, e.DeleteStep(0), "paste is taken out of what it added")
	assert.Error(t, e.Begin(model.Trial{LiquidG: 20}), "a trial says when it was started")
	assert.Equal(t, before, e.Revision())
	_, ok := e.Redo()
	assert.False(t, ok)
}

// A trial that cannot be calculated, as one set aside may be, can be mended
// step by step.
func TestEditorMendsWhatCannotBeCalculated(t *testing.T) {
	broken := making(scoops("ladle", 1, 2), scoops("1 tsp", 1, 3))
	require.Error(t, broken.Outcome().Err)
	require.NoError(t, broken.Note(1, "the ladle got lost"))
	require.NoError(t, broken.Mend(0, func(s *model.Step) { s.Grams = 12 }))
	require.NoError(t, broken.Outcome().Err)
}

// Recorded steps are undone from the last look to the first addition.
func TestUndoWalksRecordedSteps(t *testing.T) {
	rested := 60
	marked := scoops("1 tsp", 1, 3)
	marked.Marks, marked.Note, marked.RestedS = []string{"sinks"}, "as it says", &rested
	bare := model.Step{Add: model.AddPowder, Spoon: "1 tsp", Count: 1}
	again := model.Step{Add: model.AddNone, Looked: true, Level: 3}
	all := []model.Step{marked, bare, again}
	e := making(all...)
	for _, want := range []struct {
		what  string
		steps []model.Step
	}{
		{"looked again", []model.Step{marked, bare}},
		{"1 tsp powder", []model.Step{marked}},
		{"level 3 ribbon", []model.Step{bare}},
		{"1 tsp powder", nil},
	} {
		c, ok := e.Undo()
		require.True(t, ok)
		assert.Equal(t, want.what, c.What)
		assert.Equal(t, want.steps, append([]model.Step(nil), steps(e)...))
	}
	_, ok := e.Undo()
	assert.False(t, ok)
	for range 4 {
		_, ok = e.Redo()
		require.True(t, ok)
	}
	assert.Equal(t, all, steps(e))
	_, ok = e.Redo()
	assert.False(t, ok)
}

// Weighings and the powder's own facts are undone like steps; the end of a
// trial is not, and neither are other trials.
func TestUndoOfWhatIsNoStep(t *testing.T) {
	e := making(scoops("1 tsp", 4, 4))
	require.NoError(t, e.WeighHere("", 2.33))
	require.NoError(t, e.Edit("family", func(p *model.Profile, _ *model.Trial) { p.Powder.Family = model.Starch }))
	require.NoError(t, e.Finish())
	c, _ := e.Undo()
	assert.Equal(t, "family", c.What)
	assert.Equal(t, model.Flour, e.Powder().Family)
	assert.Equal(t, model.Open, e.Trial().State, "what is changed is being made again")
	c, _ = e.Undo()
	assert.Equal(t, "weighing of 1 tsp", c.What)
	assert.Len(t, e.Profile().LevelSpoons[0].Grams, 3)
	e.Redo()
	assert.Equal(t, []float64{2.31, 2.27, 2.35, 2.33}, e.Profile().LevelSpoons[0].Grams)
}

// A spoon is filled in one way; tapped beside loose ones go to its packing, and
// an answer is worked out from the loose ones alone.
func TestSpoonsAreFilledInOneWay(t *testing.T) {
	e := making(scoops("1 tsp", 4, 4))
	loose := e.Profile().LevelSpoons[0].Grams
	before, _ := e.Profile().SpoonWeights(model.US, nil).Teaspoon()
	require.NoError(t, e.WeighHere(model.Tapped, 2.9, 2.88))
	require.NoError(t, e.WeighHere(model.Tapped, 2.92))
	packed := model.Packing{Spoon: "1 tsp", LooseG: loose, TappedG: []float64{2.9, 2.88, 2.92}}
	assert.Equal(t, []model.Packing{packed}, e.Powder().Packings)
	assert.Equal(t, loose, e.Profile().LevelSpoons[0].Grams)
	after, _ := e.Profile().SpoonWeights(model.US, nil).Teaspoon()
	assert.Equal(t, before, after)
	assert.ErrorContains(t, e.WeighHere(model.Packed, 3.4), "what is packed weighs another amount")
	e.Undo()
	assert.Equal(t, []float64{2.9, 2.88}, e.Powder().Packings[0].TappedG)

	require.NoError(t, e.Fill("1 tsp", model.Packed))
	require.NoError(t, e.WeighHere("", 2.4))
	assert.Equal(t, model.Packed, e.Profile().SpoonWeights(model.US, nil).Filled())
	assert.Contains(t, e.Profile().SpoonWeights(model.US, nil).Weighed()[0].Text(), "a level 1 tsp, packed, weighs")
	assert.ErrorContains(t, e.Fill("1 tbsp", model.Loose), "no level 1 tbsp has been weighed")

	ten := model.LevelSpoon{Spoon: "1/4 tsp", SpoonsEach: 10}
	require.NoError(t, e.Weigh(ten, 6))
	ten.How = model.Tapped
	require.NoError(t, e.Weigh(ten, 7.5))
	assert.Equal(t, model.Packing{Spoon: "1/4 tsp", LooseG: []float64{0.6}, TappedG: []float64{0.75}},
		e.Powder().Packings[1], "grams of one spoon")

	own := "from the bag, shaken" // as a file may say it
	assert.Empty(t, model.LevelSpoon{How: own}.Filling())
	assert.Equal(t, model.Loose, model.LevelSpoon{}.Filling())
	require.NoError(t, e.Fill("1/4 tsp", own))
	require.NoError(t, e.Weigh(model.LevelSpoon{Spoon: "1/4 tsp", SpoonsEach: 10, How: own}, 6.1), "as before")
	assert.ErrorContains(t, e.Weigh(ten, 7.5), "were filled from the bag, shaken")
}

func TestSettingAsideKeepsTheEnd(t *testing.T) {
	e := making(scoops("1 tsp", 4, 4))
	require.NoError(t, e.Finish())
	require.NoError(t, e.SetAside("spilled"))
	assert.Equal(t, model.Done, e.Trial().State)
	require.NoError(t, e.SetAside(""))
	assert.True(t, e.Trial().Used())
	require.NoError(t, e.Note(0, "after all"))
	assert.Equal(t, model.Open, e.Trial().State)
}

func TestAnEmptyTrialIsDropped(t *testing.T) {
	e := making(scoops("1 tsp", 1, 0))
	e.DropEmpty()
	require.Len(t, e.Profile().Trials, 1, "it has a step")
	again := e.Trial().Again()
	again.Started = on(2)
	require.NoError(t, e.Begin(again))
	e.DropEmpty()
	assert.Len(t, e.Profile().Trials, 1)
	assert.Equal(t, bench.NoTrial, e.Index())
}

// An edit that changes nothing leaves nothing to undo and nothing to save.
func TestAnEditWithoutAChange(t *testing.T) {
	e := making(scoops("1 tsp", 1, 0))
	require.NoError(t, e.Note(0, ""))
	assert.Zero(t, e.Revision())
	require.NoError(t, e.Finish())
	require.NoError(t, e.SetMarks(0, nil))
	assert.Equal(t, model.Done, e.Trial().State)
}

// Every change can be undone and made again to the bit, and no state that was given out
// ever changes.
func TestHistory(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		// No powder, so that no look counts and nothing is fitted: fast.
		e := making(
			model.Step{Add: model.AddLiquid, Grams: 2},
			model.Step{Add: model.AddLiquid, Spoon: "1/2 tsp", Looked: true},
		)
		base := len(steps(e))
		given := []model.Profile{e.Profile()}
		kept := []model.Profile{e.Profile().Clone()}
		n := rapid.IntRange(1, 12).Draw(t, "edits")
		for range n {
			step := rapid.IntRange(0, max(len(steps(e))-1, 0)).Draw(t, "step")
			was := e.Revision()
			switch rapid.IntRange(0, 7).Draw(t, "kind") {
			case 0:
				_ = e.Add(on(3), model.Step{Add: model.AddLiquid, Grams: 1}, model.Step{Add: model.Removed, Grams: 2})
			case 1:
				_ = lookAt(e, float64(rapid.IntRange(0, 7).Draw(t, "level")), on(3))
			case 2:
				_ = e.Mend(step, func(s *model.Step) { s.Grams += 0.5 })
			case 3:
				_ = e.DeleteStep(step)
			case 4:
				_ = e.SetMarks(step, []string{"gels"})
			case 5:
				_ = e.WeighHere("", 2.3)
			case 6:
				_ = e.SetAside("spilled")
			case 7:
				_ = e.Edit("insert", func(p *model.Profile, t *model.Trial) {
					p.Powder.Notes += "x"
					t.Spoons = append(t.Spoons, "1/4 tsp")
					t.Steps = append([]model.Step{{Add: model.AddLiquid, Grams: 3}}, t.Steps...)
				})
			}
			if e.Revision() != was {
				given, kept = append(given, e.Profile()), append(kept, e.Profile().Clone())
			}
		}
		for i := len(kept) - 2; i >= 0; i-- {
			_, ok := e.Undo()
			require.True(t, ok)
			require.Equal(t, kept[i], e.Profile().Clone())
		}
		require.Len(t, steps(e), base)
		for i := 1; i < len(kept); i++ {
			_, ok := e.Redo()
			require.True(t, ok)
			require.Equal(t, kept[i], e.Profile().Clone())
		}
		for i := range kept {
			require.Equal(t, kept[i], given[i].Clone())
		}
	})
}

// A second reading of a dish stands beside the first: nothing is written over, and one
// undo takes it back.
func TestMeasuredAgain(t *testing.T) {
	e := making(scoops("1 tsp", 2, 3), scoops("1 tsp", 2, 5))
	require.NoError(t, e.Measures(model.Measured{Kind: "cone"}))
	n := len(e.Trial().Steps)
	require.NoError(t, e.MeasureAfter(21, e.Last().Rested(on(1)), on(1)))
	require.NoError(t, e.MeasureAfter(22, e.Last().Rested(on(1)), on(1)))
	require.Len(t, e.Trial().Steps, n+1)
	require.Equal(t, 21.0, e.Trial().Steps[n-1].Reading)
	require.Equal(t, 22.0, e.Trial().Steps[n].Reading)
	_, ok := e.Undo()
	require.True(t, ok)
	require.Len(t, e.Trial().Steps, n)
	require.Error(t, e.MendReading(n, 20), "no such step")
}

// Changes that follow a trial's own steps leave it finished, and so do their undo and redo;
// changing a step opens it again.
func TestAFinishedTrialStaysFinished(t *testing.T) {
	e := making(scoops("1 tsp", 2, 3), scoops("1 tsp", 2, 5))
	require.NoError(t, e.Finish())
	level := 5.0
	for what, change := range map[string]func() error{
		"acid":  func() error { return e.BeginAcid(model.AcidTest{Acid: "vinegar", By: model.ByStrip, PasteG: 30}) },
		"pH":    func() error { return e.AddAcid(model.AcidStep{PH: 8}) },
		"later": func() error { return e.AddLater(model.LaterLook{At: on(2), Level: &level}) },
		"fizz":  func() error { return e.Fizzes(true) },
	} {
		require.NoError(t, e.BeginAcid(model.AcidTest{Acid: "lactic acid", By: model.ByStrip, PasteG: 30}))
		require.NoError(t, change(), what)
		for range 2 {
			_, ok := e.Undo()
			require.True(t, ok, what)
			require.Equal(t, model.Done, e.Trial().State, what)
			_, ok = e.Redo()
			require.True(t, ok, what)
			require.Equal(t, model.Done, e.Trial().State, what)
		}
	}
	require.NoError(t, e.Mend(0, func(s *model.Step) { s.Note = "spilled" }))
	require.Equal(t, model.Open, e.Trial().State)
	_, _ = e.Undo()
	require.Equal(t, model.Done, e.Trial().State, "finished, as before the step was mended")
	_, _ = e.Redo()
	require.Equal(t, model.Open, e.Trial().State)
	require.NoError(t, e.Finish())
	_, _ = e.Undo()
	_, _ = e.Undo()
	require.Equal(t, model.Done, e.Trial().State, "later looks and acid leave it finished")
	require.Error(t, e.AddAcid(model.AcidStep{PH: 7, Drops: 3}), "a drop without a weight")
	require.Error(t, e.MendAcid(9, model.AcidStep{PH: 7}))
	require.Error(t, e.DeleteAcid(-1))
}
