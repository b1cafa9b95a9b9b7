package bench_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

var blueScoop = model.OwnSpoons{{Name: "blue scoop", VolumeML: 2.5}}

func TestSoundProfileHasNoProblem(t *testing.T) {
	assert.Empty(t, bench.Check(specimen.Sound(), blueScoop))
	assert.Empty(t, bench.Check(specimen.Oats(), nil))
	assert.Empty(t, bench.Check(model.Profile{Powder: model.Powder{Name: "Chalk"}}, nil))
}

func TestValidateSaysWhatIsWrong(t *testing.T) {
	type profile = *model.Profile
	trial := func(change func(*model.Trial)) func(profile) { return func(p profile) { change(&p.Trials[0]) } }
	step := func(i int, change func(*model.Step)) func(profile) {
		return func(p profile) { change(&p.Trials[0].Steps[i]) }
	}
	spoon := func(change func(*model.LevelSpoon)) func(profile) {
		return func(p profile) { change(&p.LevelSpoons[0]) }
	}
	nan, inf := math.NaN(), math.Inf(1)

	tests := []struct {
		name  string
		wreck func(profile)
		path  string
		what  string
		fix   string
	}{
		{
			"no name", func(p profile) { p.Powder.Name = " " }, "powder.name", "the powder has no name",
			`name = "Fine oat flour"`,
		},
		{
			"endless name",
			func(p profile) { p.Powder.Name = strings.Repeat("ü", 201) }, "powder.name", "too long", "200 characters",
		},
		{
			"a name that steers the terminal",
			func(p profile) { p.Powder.Name = "Red\x1b[31m clay" },
			"powder.name", "control character after \"Red\"", "type it again",
		},
		{
			"a liquid that steers it",
			func(p profile) { p.Trials[0].Liquid = "milk\a" }, "trial[0].liquid", "control character", "type it again",
		},
		{
			"a note that steers it",
			func(p profile) { p.Trials[0].Steps[0].Note = "line\nand \u009b2J" },
			"trial[0].step[0].note", "control character", "type it again",
		},
		{
			"an endless lot",
			func(p profile) { p.Powder.Lot = strings.Repeat("ü", 100001) },
			"powder.lot", "the lot is too long", "100000 characters",
		},
		{"an endless trial", func(p profile) {
			for len(p.Trials[0].Steps) <= 5000 {
				p.Trials[0].Steps = append(p.Trials[0].Steps, model.Step{Add: model.AddNone})
			}
		}, "trial[0].step", "a trial of 5001 steps is not possible", "within 5000 steps"},
		{"endless spoons", func(p profile) {
			for len(p.LevelSpoons) <= 200 {
				p.LevelSpoons = append(p.LevelSpoons,
					model.LevelSpoon{Spoon: fmt.Sprint("scoop ", len(p.LevelSpoons)), VolumeML: 2})
			}
		}, "level_spoon", "201 sizes of spoon", "within 200"},
		{
			"family", func(p profile) { p.Powder.Family = "sand" }, "powder.family", `the family "sand" is not known`,
			"plain-clay, swelling-clay",
		},
		{
			"solid density",
			func(p profile) { p.Powder.SolidDensity = -1 },
			"powder.solid_density", "-1 g/mL is not possible", "above 0 and up to 25 g/mL",
		},
		{
			"solid density NaN",
			func(p profile) { p.Powder.SolidDensity = nan }, "powder.solid_density", "NaN", "leave it out",
		},

		{
			"which spoon",
			spoon(func(l *model.LevelSpoon) { l.Spoon = "" }),
			"level_spoon[0].spoon", "does not say which spoon", `spoon = "1 tsp"`,
		},
		{
			"spoon in two tables",
			func(p profile) { p.LevelSpoons = append(p.LevelSpoons, p.LevelSpoons[0]) },
			"level_spoon[2].spoon", "weighed in two tables", "into one table",
		},
		{
			"spoon of no size or weight",
			func(p profile) { p.LevelSpoons[1].Grams = nil },
			"level_spoon[1].spoon", `the spoon "cone" is not known`, "spoons.toml",
		},
		{
			"weighing of nothing",
			spoon(func(l *model.LevelSpoon) { l.Grams[1] = 0 }),
			"level_spoon[0].grams", "weighing 2 of 0 g is not possible", "tared scale",
		},
		{
			"weighing below zero",
			spoon(func(l *model.LevelSpoon) { l.Grams[2] = -2.3 }),
			"level_spoon[0].grams", "weighing 3 of -2.3 g", "above 0",
		},
		{
			"weighing NaN",
			spoon(func(l *model.LevelSpoon) { l.Grams[0] = nan }),
			"level_spoon[0].grams", "weighing 1 of NaN g", "above 0",
		},
		{
			"spoons each",
			spoon(func(l *model.LevelSpoon) { l.SpoonsEach = -1 }),
			"level_spoon[0].spoons_each", "-1 spoons in each weighing", "whole number from 1",
		},
		{
			"scale at the spoons",
			spoon(func(l *model.LevelSpoon) { l.ResolutionG = -0.01 }),
			"level_spoon[0].resolution_g", "scale resolution of -0.01 g", "above 0",
		},
		{
			"spoon volume",
			spoon(func(l *model.LevelSpoon) { l.VolumeML = 4928 }),
			"level_spoon[0].volume_ml", "spoon volume of 4928 mL", "up to 1000 mL",
		},

		{
			"no start", trial(func(t *model.Trial) { t.Started = time.Time{} }), "trial[0].started",
			"does not say when it was started", "started = 2026",
		},
		{
			"state", trial(func(t *model.Trial) { t.State = "half" }),
			"trial[0].state", `the state "half" is not known`,
			"open, done",
		},
		{
			"liquid by", trial(func(t *model.Trial) { t.LiquidBy = "eye" }), "trial[0].liquid_by", `"eye" is not known`,
			"weight, spoon",
		},
		{
			"spoon set", trial(func(t *model.Trial) { t.SpoonSet = "uk" }), "trial[0].spoon_set",
			`the spoon set "uk" is not known`, "us, metric, own",
		},
		{
			"liquid below zero",
			trial(func(t *model.Trial) { t.LiquidG = -20 }),
			"trial[0].liquid_g", "liquid of -20 g is not possible", "from 0 to 100000 g",
		},
		{
			"liquid NaN", trial(func(t *model.Trial) { t.LiquidG = nan }), "trial[0].liquid_g", "liquid of NaN g",
			"give a number",
		},
		{
			"liquid spoon",
			trial(func(t *model.Trial) { t.LiquidBy, t.LiquidSpoon = model.BySpoon, "ladle" }),
			"trial[0].liquid_spoon", `"ladle" is not known`, "spoons.toml",
		},
		{
			"liquid count",
			trial(func(t *model.Trial) { t.LiquidCount = -4 }),
			"trial[0].liquid_count", "count of -4 spoons", "whole number",
		},
		{
			"liquid density",
			trial(func(t *model.Trial) { t.LiquidDensity = 998 }),
			"trial[0].liquid_density", "liquid density of 998 g/mL", "up to 25",
		},
		{
			"too hot", trial(func(t *model.Trial) { t.TemperatureC = specimen.Ptr(210.0) }), "trial[0].temperature_c",
			"temperature of 210 °C", "from -20 to 120",
		},
		{
			"scale at the dish",
			trial(func(t *model.Trial) { t.ResolutionG = inf }),
			"trial[0].resolution_g", "resolution of +Inf g", "above 0",
		},
		{
			"spoon at hand",
			trial(func(t *model.Trial) { t.Spoons[1] = "1/3 tsp" }),
			"trial[0].spoons", `"1/3 tsp" is not known`, "1/2 tsp",
		},
		{
			"aim too low",
			trial(func(t *model.Trial) { t.Aim = 0.5 }), "trial[0].aim", "an aim of 0.5 is not possible", "from 1 to 6",
		},
		{
			"aim too high",
			trial(func(t *model.Trial) { t.Aim = 7 }), "trial[0].aim", "an aim of 7 is not possible", "from 1 to 6",
		},
		{
			"aim between",
			trial(func(t *model.Trial) { t.Aim = 4.2 }),
			"trial[0].aim", "between the half levels", "whole or half level",
		},
		{
			"level step", trial(func(t *model.Trial) { t.LevelStep = 0.25 }), "trial[0].level_step", "nearest 0.25",
			"1.0 or 0.5",
		},
		{
			"tolerance", trial(func(t *model.Trial) { t.Tolerance = 12 }), "trial[0].tolerance", "tolerance of 12",
			"up to 2",
		},
		{
			"rest", trial(func(t *model.Trial) { t.RestS = specimen.Ptr(-1) }), "trial[0].rest_s", "a rest of -1 s",
			"from 0",
		},

		{
			"nothing said", step(3,
				func(s *model.Step) { s.Add = "" }),
			"trial[0].step[3].add", "does not say what was added", "powder, liquid, removed, none",
		},
		{
			"unknown addition", step(3,
				func(s *model.Step) { s.Add = "sand" }),
			"trial[0].step[3].add", `the addition "sand" is not known`, "powder, liquid, removed, none",
		},
		{
			"neither spoon nor grams",
			step(4, func(s *model.Step) { s.Grams = 0 }),
			"trial[0].step[4].add", "liquid was added, but neither", `spoon = "1/2 tsp"`,
		},
		{"grams below zero", step(4,
			func(s *model.Step) { s.Grams = -1.5 }), "trial[0].step[4].grams", "addition of -1.5 g", "above 0"},
		{"grams NaN", step(4,
			func(s *model.Step) { s.Grams = nan }), "trial[0].step[4].grams", "addition of NaN g", "above 0"},
		{
			"count", step(0,
				func(s *model.Step) { s.Count = 1001 }),
			"trial[0].step[0].count", "count of 1001 spoons", "from 1 to 1000",
		},
		{
			"unknown spoon", step(0,
				func(s *model.Step) { s.Spoon = "ladle" }),
			"trial[0].step[0].spoon", `"ladle" is not known`, "spoons.toml",
		},
		{
			"level", step(0,
				func(s *model.Step) { s.Level = 8 }),
			"trial[0].step[0].level", "a level of 8 is not possible", "from 0 to 7",
		},
		{"level NaN", step(0,
			func(s *model.Step) { s.Level = nan }), "trial[0].step[0].level", "a level of NaN", "from 0 to 7"},
		{
			"level between", step(0,
				func(s *model.Step) { s.Level = 0.7 }),
			"trial[0].step[0].level", "level 0.7, but this trial reads levels to the nearest 0.5", "round it",
		},
		{
			"half level in a trial of whole ones",
			trial(func(t *model.Trial) { t.LevelStep = 0 }),
			"trial[0].step[0].level", "level 0.5, but this trial reads levels to the nearest 1",
			"level_step to 0.5",
		},
		{
			"rested", step(0,
				func(s *model.Step) { s.RestedS = specimen.Ptr(-3) }),
			"trial[0].step[0].rested_s", "a rest of -3 s", "from 0",
		},
		{
			"mark", step(0,
				func(s *model.Step) { s.Marks = []string{"sinks", "pink"} }),
			"trial[0].step[0].marks", `the mark "pink" is not known`, "sinks, floats",
		},
		{
			"empty mark", step(0,
				func(s *model.Step) { s.Marks = []string{""} }),
			"trial[0].step[0].marks", "a behaviour is empty", "leave it out",
		},

		{
			"no weighing",
			func(p profile) { p.LevelSpoons = p.LevelSpoons[1:] },
			"trial[0].step[0].spoon", `the weighed spoon "cone" has no volume`, "set the trial aside",
		},
		{
			"liquid of unknown density by spoon",
			trial(func(t *model.Trial) { t.Liquid, t.LiquidDensity = "syrup", 0 }),
			"trial[0].step[3].spoon", `the density of "syrup" is not known`, "mend the step",
		},
		{
			"too much taken out",
			step(5, func(s *model.Step) { s.Grams = 99 }),
			"trial[0].step[5].grams", "99 g of paste taken out of a dish that holds", "mend the step",
		},
		{
			"nothing taken out",
			step(5, func(s *model.Step) { s.Grams = 0 }),
			"trial[0].step[5].grams", "0 g of paste taken out", "mend the step",
		},
		{"a dish beyond all bounds", func(p profile) {
			p.LevelSpoons[0].Grams = []float64{90000}
			p.Trials[0].Steps[0].Count = 900
		}, "trial[0].step[0]", "the dish would hold", "check the grams and counts"},
	}
	require.GreaterOrEqual(t, len(tests), 35)
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			p := specimen.Sound()
			tt.wreck(&p)
			ps := bench.Check(p, blueScoop)
			require.Len(t, ps, 1)
			assert.Equal(t, tt.path, ps[0].Path)
			assert.Contains(t, ps[0].What, tt.what)
			assert.Contains(t, ps[0].Fix, tt.fix)
		})
	}
}

func TestValidateSaysEverythingAtOnce(t *testing.T) {
	p := specimen.Sound()
	p.Powder.Name, p.LevelSpoons[0].Grams[0], p.Trials[1].Aim = "", -1, 9
	var paths []string
	for _, problem := range bench.Check(p, blueScoop) {
		paths = append(paths, problem.Path)
	}
	assert.Equal(t, []string{"powder.name", "level_spoon[0].grams", "trial[1].aim"}, paths, "in the order of the file")
}

// The complaint about a trial that cannot be calculated offers to set it aside,
// so that has to help.
func TestSetAsideTrialNeedNotAddUp(t *testing.T) {
	p := specimen.Sound()
	p.Trials[0].Steps[5].Grams = 99
	require.Len(t, bench.Check(p, blueScoop), 1)
	p.Trials[0].SetAside = "wrong scale"
	assert.Empty(t, bench.Check(p, blueScoop))
}

// Without spoons.toml the maker's own spoon is unknown, and said to be.
func TestOwnSpoonWithoutItsList(t *testing.T) {
	ps := bench.Check(specimen.Sound(), nil)
	require.Len(t, ps, 2)
	assert.Equal(t, "trial[0].spoons", ps[0].Path)
	assert.Equal(t, "trial[0].step[1].spoon", ps[1].Path)
}

func TestPlaceCountsFromOne(t *testing.T) {
	for path, place := range map[string]string{
		"powder.name":                      "powder, name",
		"level_spoon[0].grams":             "level spoon 1, grams",
		"trial[1].step[3].level":           "trial 2, step 4, level",
		"spoon[9].volume_ml":               "spoon 10, volume ml",
		"trial[0].step[11]":                "trial 1, step 12",
		"schema":                           "schema",
		"":                                 "",
		"trial[x].step[":                   "trial, step",
		"spoon[1].standard_uncertainty_ml": "spoon 2, standard uncertainty ml",
	} {
		assert.Equal(t, place, model.Problem{Path: path}.PathWords(), path)
	}
	assert.EqualError(t, model.Problem{
		Path: "trial[0].aim", What: "an aim of 9 is not possible",
		Fix: "give a number from 1 to 6",
	},
		"trial 1, aim: an aim of 9 is not possible; give a number from 1 to 6")
}

// Every trial that Validate passes can be calculated, and it complains about every one that
// cannot, whatever the steps.
func TestValidateAgreesWithTheBench(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := specimen.Sound()
		p.Trials = p.Trials[:1]
		trial := &p.Trials[0]
		trial.Steps = nil
		for range rapid.IntRange(1, 6).Draw(rt, "steps") {
			s := model.Step{
				Add: rapid.SampledFrom([]model.Add{
					model.AddPowder, model.AddLiquid, model.Removed,
					model.AddNone,
				}).Draw(rt, "add"),
				Spoon: rapid.SampledFrom([]string{"1 tsp", "1/8 tsp", "cone", "blue scoop"}).Draw(rt, "spoon"),
				Count: rapid.IntRange(0, 3).Draw(rt, "count"),
			}
			if rapid.Bool().Draw(rt, "by weight") {
				s.Grams = rapid.Float64Range(0.01, 30).Draw(rt, "grams")
			}
			trial.Steps = append(trial.Steps, s)
		}
		_, err := bench.Read(p, *trial, blueScoop)
		problems := bench.Check(p, blueScoop)
		if err == nil {
			assert.Empty(rt, problems)
			return
		}
		require.Len(rt, problems, 1)
		assert.Contains(rt, err.Error(), problems[0].What)
	})
}
