package data

import (
	"fmt"
	"math"
	"time"

	"daub.example/daub/data/export"
	"daub.example/daub/model"
)

// tried is a profile whose looks follow the thickening line through a ratio at
// level 5, rounded to whole levels: a trial for each, up to a level.
func tried(name string, family model.Family, ratio, slope, upTo float64, trials int) export.Powder {
	p := profile(name, "1")
	p.Powder.Family = family
	p.LevelSpoons = []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.31, 2.27, 2.35}}}
	for n := range trials {
		t := model.Trial{Started: time.Date(2026, 5, 1+n, 9, 0, 0, 0, time.UTC), State: model.Done, LiquidG: 20}
		powder := 0.0
		for z := -0.6 + 0.3*float64(n); z < upTo; z += 0.9 {
			want := t.LiquidG / ratio * math.Exp((z-5)/slope)
			grams := math.Round(100*(want-powder)) / 100
			powder += grams
			level := math.Round(min(max(z, 0), 7))
			t.Steps = append(t.Steps, model.Step{Add: model.AddPowder, Grams: grams, Looked: true, Level: level})
		}
		p.Trials = append(p.Trials, t)
	}
	return export.Powder{Slug: fmt.Sprintf("%s-1", Slug(name, "")), Profile: p}
}

// sixTried are six powders in water, from little to much liquid; the last was
// not tried far enough.
func sixTried() []export.Powder {
	return []export.Powder{
		tried("Soft chalk", model.Mineral, 0.6, 9, 7.4, 1),
		tried("White clay", model.PlainClay, 0.95, 7, 6.4, 2),
		tried("Tuber starch", model.Mineral, 0.8, 6, 6.4, 1),
		tried("Bärlauch flour", model.PlainClay, 1.7, 5, 6.4, 3),
		tried("Grey swelling clay", model.SwellingClay, 4.3, 6, 6.9, 1),
		tried("Slow root powder", model.SwellingClay, 6, 5, 2.4, 1),
	}
}

// profilesOf are those of an export.
func profilesOf(powders []export.Powder) []model.Profile {
	var out []model.Profile
	for _, p := range powders {
		out = append(out, p.Profile)
	}
	return out
}
