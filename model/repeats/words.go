package repeats

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// Sentence gives the powder's answer, or says why there is none.
func (r Ratio) Sentence() string {
	r = r.Rounded()
	at := model.LevelName(r.Level)
	trials := "1 trial"
	if r.Trials != 1 {
		trials = fmt.Sprintf("%d trials", r.Trials)
	}
	switch {
	case r.Powder != nil && r.Reach == fit.Bracketed:
		return fmt.Sprintf("At %s this powder takes %s (%s, rest %s). Your next dish may take %s: plan with that.", at,
			model.PerPowder(bench.IntervalText(*r.Powder), r.Basis.Liquid), trials, model.Seconds(r.Basis.RestS),
			bench.RangeText(*r.Next))
	case r.Powder != nil:
		return fmt.Sprintf("At %s this powder takes about %s, tested from one side only (%s, rest %s).", at,
			model.PerPowder(bench.IntervalText(*r.Powder), r.Basis.Liquid), trials, model.Seconds(r.Basis.RestS))
	case r.Bound != nil:
		return fmt.Sprintf("Level %s is not reached: it takes %s.", at,
			model.PerPowder(bench.BoundText(*r.Bound), r.Basis.Liquid))
	case r.OnlySideBySide:
		return "Side by side only: no trial names levels yet, so there is no ratio."
	default:
		return "No finished trial with a look yet."
	}
}
