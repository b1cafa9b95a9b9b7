package bench

import (
	"math"

	"daub.example/daub/model"
)

// Liquid at the start of a trial: the usual amount, g, and the step to which a
// larger one is rounded up (chosen).
const (
	UsualLiquidG = 20.0
	liquidStepG  = 5.0
)

// PlannedLiquidG is the amount of liquid, g, that suits a trial of the powder:
// enough for the smallest spoon at hand to move the paste by about one level,
// and never less than 20 g. Where nothing is weighed yet, a spoon is taken to
// hold what is usual for the family.
func PlannedLiquidG(p model.Profile, t model.Trial, d model.OwnSpoons) float64 {
	weights := p.SpoonWeights(t.SpoonSet, d).Guessing(p.Powder.Kind())
	smallest := math.Inf(1)
	for _, name := range t.Spoons {
		if scoop, err := weights.Scoop(name); err == nil {
			smallest = math.Min(smallest, scoop.Grams)
		}
	}
	if math.IsInf(smallest, 1) {
		return UsualLiquidG
	}
	low, high := p.Powder.Kind().FirstRange()
	return math.Max(UsualLiquidG, math.Ceil(6*math.Sqrt(low*high)*smallest/liquidStepG)*liquidStepG)
}
