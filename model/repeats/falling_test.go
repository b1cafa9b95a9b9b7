package repeats_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/internal/specimen"
	"daub.example/daub/model/repeats"
	"pgregory.net/rapid"
)

// anyTrial is a finished trial with any looks, in or out of order, by scale and by spoon.
func anyTrial(t *rapid.T, n int) model.Trial {
	step := rapid.SampledFrom([]float64{0.5, 1}).Draw(t, "level step")
	trial := model.Trial{
		Started: specimen.Day(n), State: model.Done, LiquidG: 20, LevelStep: step,
		Aim:      rapid.SampledFrom([]float64{2.5, 4.5, 5}).Draw(t, "aim"),
		LiquidBy: rapid.SampledFrom([]model.By{model.ByWeight, model.BySpoon}).Draw(t, "liquid by"),
	}
	for range rapid.IntRange(1, 6).Draw(t, "steps") {
		s := specimen.Weighed(math.Exp(rapid.Float64Range(-3, 3).Draw(t, "ln grams")), 0)
		switch rapid.SampledFrom([]string{"scale", "spoon", "liquid"}).Draw(t, "added by") {
		case "spoon":
			s = specimen.Spoons("1 tsp", rapid.IntRange(1, 6).Draw(t, "spoons"), 0)
		case "liquid":
			s.Add = model.AddLiquid
		}
		s.Level = step * float64(rapid.IntRange(0, int(model.MaxLevel/step)).Draw(t, "level"))
		trial.Steps = append(trial.Steps, s)
	}
	return trial
}

// numbersOf are the ends and the middle of the powder and of the next dish.
func numbersOf(r repeats.Ratio) [6]float64 {
	return [6]float64{r.Powder.Low, r.Powder.Median, r.Powder.High, r.Next.Low, r.Next.Median, r.Next.High}
}

// tableNumbers are those of the table in the file, 0 where they are not told.
func tableNumbers(r repeats.Row) [6]float64 {
	return [6]float64{r.Low, r.Median, r.High, r.NextLow, r.Median, r.NextHigh}
}

// Whatever the looks and the repeats, a stiffer paste never takes more liquid: not
// in the ratios that screens and pictures show, nor in the rounded table of the file.
func TestNothingRisesWithTheLevel(t *testing.T) {
	const lastBits = 1 + 1e-12 // sums in another order
	rapid.Check(t, func(t *rapid.T) {
		p := specimen.Oats()
		for n := range rapid.IntRange(1, 4).Draw(t, "trials") {
			p.Trials = append(p.Trials, anyTrial(t, n+1))
		}
		for _, b := range p.Bases() {
			thinner := repeats.Ratio{}
			for _, r := range repeats.Ratios(p, b, model.CurveLevels(), nil) {
				if r.Powder == nil {
					continue
				}
				if thinner.Powder != nil {
					before, now := numbersOf(thinner), numbersOf(r)
					tableBefore, tableNow := tableNumbers(thinner.Row()), tableNumbers(r.Row())
					for i := range now {
						if now[i] > before[i]*lastBits || tableBefore[i] > 0 && tableNow[i] > tableBefore[i] {
							t.Fatalf("%v, %v at level %v, but %v, %v at %v", now, tableNow, r.Level,
								before, tableBefore, thinner.Level)
						}
					}
				}
				thinner = r
			}
		}
	})
}
