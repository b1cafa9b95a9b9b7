package main

import (
	"time"

	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
)

// orNull is a text; null for "".
func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// moment is a time; null when there is none.
func moment(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}

// filled is a list that JSON writes as [] when it is empty.
func filled(texts []string) []string { return append([]string{}, texts...) }

// budgetJSON is what a dish's interval is made of: shares that sum to 1.
type budgetJSON struct {
	Looks       *float64 `json:"looks"`
	SpoonWeight *float64 `json:"spoon_weight"`
	Scoops      *float64 `json:"scoops"`
	PowderScale *float64 `json:"powder_scale"`
	Liquid      *float64 `json:"liquid"`
	SpoonSize   *float64 `json:"spoon_size"`
}

func toBudget(b *fit.Budget) *budgetJSON {
	if b == nil {
		return nil
	}
	return &budgetJSON{
		export.Number(b.Looks), export.Number(b.SpoonWeight), export.Number(b.Scoops),
		export.Number(b.PowderScale), export.Number(b.Liquid), export.Number(b.SpoonSize),
	}
}

// powderBudgetJSON is what a powder's interval is made of.
type powderBudgetJSON struct {
	budgetJSON
	Repeats *float64 `json:"repeats"` // one dish differing from the next
}

func toPowderBudget(b *fit.Budget) *powderBudgetJSON {
	if b == nil {
		return nil
	}
	return &powderBudgetJSON{*toBudget(b), export.Number(b.Repeats)}
}

// levelJSON is what all trials of one powder on one basis say of one level.
type levelJSON struct {
	Level  float64          `json:"level"`
	Reach  string           `json:"reach"`   // bracketed, one-sided or not-reached
	Trials int              `json:"trials"`  // those the ratio, or the bound, rests on
	Ratio  *export.Interval `json:"ratio"`   // of this powder; null when not reached
	Next   *export.Range    `json:"next"`    // of the next dish; null when not reached
	PerTsp *export.Interval `json:"per_tsp"` // g liquid per level teaspoon
	Bound  *export.Range    `json:"bound"`   // when not reached; null without a look
}

func toLevel(r repeats.Ratio) levelJSON {
	return levelJSON{
		Level: r.Level, Reach: r.Reach.String(), Trials: r.Trials,
		Ratio: export.IntervalOf(r.Powder), Next: export.RangeOf(r.Next),
		PerTsp: export.IntervalOf(r.PerTsp), Bound: export.BoundOf(r.Bound),
	}
}

// basisJSON is what a ratio rests on beside its level; null without a trial
// that counts.
type basisJSON struct {
	Liquid *string `json:"liquid"`
	RestS  *int    `json:"rest_s"`
}

func toBasis(b model.Basis) basisJSON {
	if b.Liquid == "" {
		return basisJSON{}
	}
	return basisJSON{&b.Liquid, &b.RestS}
}
