package handling_test

import (
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/measure"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var begun = time.Date(2026, 3, 2, 9, 0, 0, 0, time.UTC)

func at(minutes float64) time.Time { return begun.Add(time.Duration(minutes * float64(time.Minute))) }

func level(l float64) *float64 { return &l }

// gelling is a swelling clay tried over 40 min, read after rests of 5 min.
func gelling() (model.Profile, model.Trial) {
	rest := 300
	step := func(minutes, grams, level float64, marks ...string) model.Step {
		return model.Step{
			At: at(minutes), Add: model.AddPowder, Grams: grams,
			Looked: true, Level: level, RestedS: &rest, Marks: marks,
		}
	}
	t := model.Trial{
		Started: begun, State: model.Done, Liquid: "water", LiquidG: 40, Covered: true,
		Steps: []model.Step{
			step(0, 4, 2, "rafts"), step(10, 2, 3), step(20, 2, 4, "gels"), step(35, 2, 5),
		},
	}
	p := model.Profile{
		Powder: model.Powder{Name: "Marsh swelling clay", Family: model.SwellingClay},
		Trials: []model.Trial{t},
	}
	return p, t
}

func TestVisitsOfACoveredDish(t *testing.T) {
	_, trial := gelling()
	next := func(now time.Time) string {
		v, ok := handling.NextVisit(trial, now)
		if !ok {
			return "none"
		}
		if v.Due(now) {
			return v.Name + " now"
		}
		return v.Name + " later"
	}
	// The last look was read 5 min after the last addition: the first visit has been made.
	assert.Equal(t, "30 min later", next(at(41)))
	assert.Equal(t, "30 min now", next(at(35+30)))
	assert.Equal(t, "30 min now", next(at(35+239)))
	assert.Equal(t, "4 hours now", next(at(35+240)), "a visit that was missed gives way to the next")
	trial.Later = []model.LaterLook{{At: at(35 + 250), Level: level(6)}}
	assert.Equal(t, "next day later", next(at(35+260)))
	assert.Equal(t, "next day now", next(at(35+24*60)))
	assert.Equal(t, "none", next(at(35+48*60)))
	trial.Covered = false
	assert.Equal(t, "none", next(at(35+24*60)), "who wants none of it sees none")
}

// The half-width is 1.96·√(2σ² + step²/6), worked out by hand from the eye that
// the looks themselves give.
func TestCourseOfADish(t *testing.T) {
	p, trial := gelling()
	course := func(later ...model.LaterLook) (handling.Course, bool) {
		trial.Later = later
		p.Trials[0] = trial
		r, err := bench.Read(p, trial, nil)
		require.NoError(t, err)
		return handling.CourseOf(r)
	}
	_, ok := course()
	assert.False(t, ok)
	_, ok = course(model.LaterLook{At: at(65), Stirred: level(4)})
	assert.False(t, ok, "a dish that was stirred does not say how it stood")

	one, ok := course(model.LaterLook{At: at(65), Level: level(6)})
	require.True(t, ok)
	require.Len(t, one.Changes, 1)
	assert.InDelta(t, 1, one.Changes[0].Delta, 1e-12)
	assert.InDelta(t, 30, one.Changes[0].Minutes, 1e-12)
	assert.InDelta(t, 5, one.Start, 1e-12)
	assert.Empty(t, one.Advice(5, 100), "one look a level off is within what an eye strays")
	assert.Contains(t, one.Lines()[0],
		"a level thicker, give or take 1.3 levels; one look alone cannot tell that from no change")

	hasty, ok := course(model.LaterLook{At: at(65), Level: level(6)},
		model.LaterLook{At: at(65).Add(time.Second), Level: level(6)})
	require.True(t, ok)
	assert.Equal(t, one.Lines(), hasty.Lines(), "typed twice, a second apart: one look, told once and with its warning")
	assert.Empty(t, hasty.Advice(5, 100))

	two, ok := course(model.LaterLook{At: at(65), Level: level(6)}, model.LaterLook{At: at(35 + 240), Level: level(6)})
	require.True(t, ok)
	r, err := bench.Read(p, trial, nil)
	require.NoError(t, err)
	more, change, ok := two.Thinner(5)
	require.True(t, ok, "two that agree may be told")
	assert.InDelta(t, 1, change.Delta, 1e-12)
	assert.InDelta(t, r.At(4).Ratio.Median-r.At(5).Ratio.Median, more, 1e-9)
	assert.Regexp(t, `^Mix a little thinner, to level 4: it gains a level in 25 min\. `+
		`For 10\.00 g powder that is about \S+ g more water than level 5 takes\.$`, two.Advice(5, 10))
	for _, line := range two.Lines() {
		assert.NotContains(t, line, "cannot tell", "two looks that agree do tell")
	}
	of, ok := handling.CourseOfPowder(p, "water", nil)
	require.True(t, ok)
	assert.Equal(t, two.Lines(), of.Lines())
	_, ok = handling.CourseOfPowder(p, "honey", nil)
	assert.False(t, ok)

	trial.Steps = append(trial.Steps, model.Step{At: at(50), Add: model.AddLiquid, Grams: 1})
	_, ok = course(model.LaterLook{At: at(90), Level: level(6)})
	assert.False(t, ok, "the dish is no longer the one that was looked at")
}

func TestRegains(t *testing.T) {
	_, trial := gelling()
	assert.Empty(t, handling.Regains(trial))
	trial.Steps[3].LevelStirred = level(3.5)
	assert.Equal(t, "Stirring takes 1.5 levels, and rest gives it back: "+
		"3.5 ribbon/dollop just stirred, 5 spread at rest.", handling.Regains(trial))
	trial.Later = []model.LaterLook{{At: at(90), Level: level(6), Stirred: level(6)}}
	assert.Equal(t, "Just stirred and at rest it stands alike, at 6 stiff.", handling.Regains(trial))
}

func TestContactTime(t *testing.T) {
	p, trial := gelling()
	c, ok := handling.ContactOf(trial, model.SwellingClay)
	require.True(t, ok)
	assert.Equal(t, 40*time.Minute, c.Stood)
	assert.Contains(t, c.Sentence(), "stood 40 min before the last look, and each look rested 5 min")
	assert.Contains(t, c.Advice(), "looks too thin at first")
	_, ok = handling.ContactOf(trial, model.PlainClay)
	assert.False(t, ok, "a powder that does not soak")
	trial.Steps = trial.Steps[:2]
	_, ok = handling.ContactOf(trial, model.SwellingClay)
	assert.False(t, ok, "15 min of a rest of 5 is not much longer")
	_, ok = handling.ContactOfPowder(p)
	assert.True(t, ok)

	for i := range p.Trials[0].Steps {
		p.Trials[0].Steps[i].Level, p.Trials[0].Steps[i].Beside = 0, model.Thinner
	}
	p.Trials[0].Match = &model.Match{Powder: "grey-clay", PowderPerLiquid: 0.2, Level: 5}
	_, ok = handling.ContactOfPowder(p)
	assert.True(t, ok, "what was found side by side soaks as long")
	assert.Contains(t, strings.Join(handling.OfPowder(p, "water", nil), " "), "looks too thin at first")

	measured := p.Trials[0].Clone()
	measured.Match, measured.Measured = nil, &model.Measured{Kind: measure.Cone}
	for i := range measured.Steps {
		measured.Steps[i].Unlook()
		measured.Steps[i].Reading = 60
	}
	_, ok = handling.ContactOf(measured, model.SwellingClay)
	assert.True(t, ok, "a reading is made as late as a look")
}

// A later look that has no level to be set against is told as it was seen.
func TestLaterLooksWithoutACourse(t *testing.T) {
	p, trial := gelling()
	said := func(t *testing.T) string {
		p.Trials[0] = trial
		r, err := bench.Read(p, trial, nil)
		require.NoError(t, err)
		text := strings.Join(handling.WithResult(r), "\n")
		assert.NotContains(t, strings.Join(handling.OfTrial(r), "\n"), "as it stands",
			"the list of the looks says it")
		for _, line := range strings.Split(text, "\n") {
			if strings.Contains(line, "after the last addition") {
				assert.Contains(t, handling.OfPowder(p, "water", nil), line)
			}
		}
		assert.NotContains(t, strings.Join(handling.OfPowder(p, "honey", nil), " "), "after the last addition")
		return text
	}
	trial.Later = []model.LaterLook{{At: at(65), Stirred: level(4)}}
	assert.Contains(t, said(t), "30 min after the last addition: 4 dollop after ten turns.")
	trial.Later[0].At = at(35)
	assert.Contains(t, said(t), "A minute after the last addition: 4 dollop after ten turns.")
	trial.Later[0].At = at(65)
	trial.Later = append(trial.Later, model.LaterLook{At: at(35 + 240), Level: level(6)})
	both := said(t)
	assert.Contains(t, both, "30 min after the last addition: 4 dollop after ten turns.")
	assert.Contains(t, both, "4 hours after the last addition: a level thicker")
	assert.NotContains(t, both, "6 stiff as it stands")
	trial.Later[1].At = at(35 + 10*24*60)
	assert.Contains(t, said(t), "10 days after the last addition: a level thicker")
	trial.Later[1].At = at(35 + 240)

	trial.Later[0] = model.LaterLook{At: at(36), Level: level(5.5)} // before the rest of the last look was over
	assert.Contains(t, said(t), "1 min after the last addition: 5.5 spread/stiff as it stands.")

	for i := range trial.Steps {
		trial.Steps[i].Level, trial.Steps[i].Beside = 0, model.Thinner
	}
	trial.Match = &model.Match{Powder: "grey-clay", PowderPerLiquid: 0.2, Level: 5}
	assert.Contains(t, said(t), "4 hours after the last addition: 6 stiff as it stands.")
}

// Classes: USP <1174>, Hausner ratio up to 1.25 fair, to 1.34 passable.
func TestPacking(t *testing.T) {
	fluffy := model.Packing{Spoon: "1 tsp", LooseG: []float64{2, 2.02, 1.98}, TappedG: []float64{2.6, 2.62, 2.58}}
	m, ok := handling.PackingOf(fluffy)
	require.True(t, ok)
	assert.InDelta(t, 1.30, m.Hausner.Median, 1e-9)
	assert.Equal(t, measure.Passable, m.Flow)
	assert.Contains(t, handling.PackingSentence(fluffy), "Give this one in grams")
	assert.Contains(t, handling.InGrams(model.Powder{Name: "Fluff", Packings: []model.Packing{fluffy}}), "30 % more")
	even := model.Packing{Spoon: "1 tsp", LooseG: []float64{2, 2.02}, TappedG: []float64{2.1, 2.12}}
	assert.Contains(t, handling.PackingSentence(even), "flow excellent. Spoons will do")
	assert.Empty(t, handling.InGrams(model.Powder{Packings: []model.Packing{even}}))
	swapped := model.Packing{Spoon: "1 tsp", LooseG: []float64{4, 4.02, 3.98}, TappedG: []float64{2, 2.02, 1.98}}
	assert.Contains(t, handling.PackingSentence(swapped), "swapped")
}

// Z factor at 21 °C: 1.0031 mL per g (as used with ISO 8655-6).
func TestSpoonCheck(t *testing.T) {
	warm := 21.0
	list := model.OwnSpoons{{Name: "blue scoop", VolumeML: 8, UncertaintyML: 0.2}}
	c, err := handling.CheckSpoon(list, "blue scoop", []float64{8.60, 8.64, 8.62}, &warm, 0.01, begun)
	require.NoError(t, err)
	assert.InDelta(t, 8.62*1.0031, c.Volume.ML, 0.001)
	assert.True(t, c.Far)
	assert.Contains(t, c.Sentence(), "8.1 % more than the 8 mL it was taken for: go by what it holds")
	assert.Equal(t, 8.0, c.Spoon.BeforeML)
	with := c.With(list)
	assert.Empty(t, with.Validate())
	for started, want := range map[time.Time]float64{begun.Add(-time.Hour): 8, begun.Add(time.Hour): c.Spoon.VolumeML} {
		s, _ := with.At(started).Spoon(model.US, "blue scoop")
		assert.Equal(t, want, s.VolumeML)
	}
	assert.Equal(t, 8.0, list[0].VolumeML, "the list that came in stays")

	grams := []float64{8.61, 8.64, 8.62}
	again, err := handling.CheckSpoon(with, "blue scoop", grams, &warm, 0.01, begun.AddDate(0, 1, 0))
	require.NoError(t, err)
	assert.Equal(t, 8.0, again.Spoon.BeforeML, "the oldest trials keep the size they were made with")
	assert.True(t, again.Far, "it was taken for 8 mL at first")
	assert.InDelta(t, c.Off, again.Off, 0.001)

	tsp, err := handling.CheckSpoon(nil, "1 tsp", []float64{4.90, 4.92, 4.91}, nil, 0.01, begun)
	require.NoError(t, err)
	assert.False(t, tsp.Far)
	assert.Contains(t, tsp.Older(), `spoon set is "own"`)
	for _, bad := range [][]float64{nil, {4.9, 4.9}, {4.9, -1, 4.9}} {
		_, err = handling.CheckSpoon(nil, "1 tsp", bad, nil, 0.01, begun)
		assert.Error(t, err)
	}
	hot := 90.0
	_, err = handling.CheckSpoon(nil, "1 tsp", []float64{4.9, 4.9, 4.9}, &hot, 0.01, begun)
	assert.ErrorContains(t, err, "from 0 to 40")
}

// A slip of the finger, or a tare forgotten, is asked about. A volume that the fills leave
// uncertain is never called near enough.
func TestFillsThatDifferAreAskedAbout(t *testing.T) {
	check := func(grams ...float64) handling.SpoonCheck {
		c, err := handling.CheckSpoon(nil, "1 tsp", grams, nil, 0.01, begun)
		require.NoError(t, err)
		return c
	}
	assert.Equal(t, "9.72 g of water? The others say 4.72 g", check(4.71, 4.74, 9.72).Doubt)
	assert.Equal(t, "9.00 g of water? The others say 6.05 g", check(6, 6.1, 9).Doubt)
	assert.Equal(t, "2.30 g of water? The others say 4.90 g", check(4.9, 2.3, 4.8, 5).Doubt)
	assert.NotEmpty(t, check(4.9, 9.8, 14.7).Doubt, "a scale that was not tared in between")
	assert.NotContains(t, check(4.71, 4.74, 9.72).Sentence(), "near enough")
	for _, grams := range [][]float64{{4.9, 4.92, 4.91}, {4.6, 4.9, 5.1}} {
		assert.Empty(t, check(grams...).Doubt, "%v", grams)
	}
	assert.Contains(t, check(4.9, 4.92, 4.91).Sentence(), "within 0.10 % of what its name says: near enough")
	wide := check(4.2, 4.8, 5)
	assert.Empty(t, wide.Doubt)
	assert.Contains(t, wide.Sentence(), "the fills differ too much to tell; weigh more of them")

	coarse, err := handling.CheckSpoon(nil, "1/16 tsp", []float64{0.3, 0.4, 0.3}, nil, 0.1, begun)
	require.NoError(t, err)
	assert.Empty(t, coarse.Doubt, "no more than the scale rounds off")
}

// On a coarse scale fills that weigh alike do not look like a tare forgotten; fills that
// rise still do.
func TestFillsOnACoarseScaleAreUntaredOnlyWhereTheyRise(t *testing.T) {
	doubt := func(resolutionG float64, grams ...float64) string {
		c, err := handling.CheckSpoon(nil, "1/4 tsp", grams, nil, resolutionG, begun)
		require.NoError(t, err)
		return c.Doubt
	}
	assert.Empty(t, doubt(1, 1, 1, 1))
	assert.Empty(t, doubt(1, 1, 1, 2))
	assert.Empty(t, doubt(0.1, 0.1, 0.1, 0.2))
	assert.Contains(t, doubt(1, 1, 2, 3), "was the cup tared")
	assert.Contains(t, doubt(0.1, 0.3, 0.6, 0.9), "was the cup tared")
}

// A spoon that is far from its name is said to be, however much its fills differ.
func TestAFarSpoonIsSaidToBeFar(t *testing.T) {
	c, err := handling.CheckSpoon(nil, "1 tsp", []float64{2.6, 3, 3.1}, nil, 0.01, begun)
	require.NoError(t, err)
	require.True(t, c.Far)
	require.Greater(t, c.Volume.Interval.High-c.Volume.ML, 0.15*c.Volume.ML, "its fills differ much")
	assert.Contains(t, c.Sentence(), "less than what its name says: go by what it holds")
}

func TestBehaviourIsSummedUp(t *testing.T) {
	p, _ := gelling()
	assert.Equal(t, "rafts at first, gels", model.SeenText(p.Seen()))
	assert.Equal(t, "Strew slowly, let it sink; stir again before use.", model.SeenAdvice(p.Seen()))
	p.Trials[0].SetAside = "spilled"
	assert.Empty(t, p.Seen())
	assert.Empty(t, model.SeenAdvice(nil))
}
