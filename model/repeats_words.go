package model

import (
	"fmt"

	"daub.example/daub/model/fit"
)

// Sentence says the powder's answer in one sentence.
func (r PowderRatio) Sentence() string {
	at := LevelName(r.Level)
	trials := "1 trial"
	if r.Trials != 1 {
		trials = fmt.Sprintf("%d trials", r.Trials)
	}
	switch {
	case r.Powder != nil && r.Reach == fit.Bracketed:
		return fmt.Sprintf("At %s this powder takes %s g %s per g (%s, rest %s); the next dish %s to %s.", at, IntervalText(*r.Powder), r.Basis.Liquid, trials, Seconds(r.Basis.RestS), RatioText(r.Next.Low), RatioText(r.Next.High))
	case r.Powder != nil:
		return fmt.Sprintf("At %s this powder takes about %s g %s per g, seen from one side only (%s, rest %s).", at, IntervalText(*r.Powder), r.Basis.Liquid, trials, Seconds(r.Basis.RestS))
	case r.Bound != nil:
		return fmt.Sprintf("Level %s is not reached: it takes %s g %s per g powder.", at, BoundText(*r.Bound), r.Basis.Liquid)
	default:
		return "No finished trial with a look yet."
	}
}
