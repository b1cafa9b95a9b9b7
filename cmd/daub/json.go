package main

import (
	"time"

	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
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
		data.Number(b.Looks), data.Number(b.SpoonWeight), data.Number(b.Scoops),
		data.Number(b.PowderScale), data.Number(b.Liquid), data.Number(b.SpoonSize),
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
	return &powderBudgetJSON{*toBudget(b), data.Number(b.Repeats)}
}

// levelJSON is what all trials of one powder on one basis say of one level.
type levelJSON struct {
	Level  float64            `json:"level"`
	Reach  string             `json:"reach"`   // bracketed, one-sided or not-reached
	Trials int                `json:"trials"`  // those the ratio, or the bound, rests on
	Ratio  *data.IntervalJSON `json:"ratio"`   // of this powder; null when not reached
	Next   *data.RangeJSON    `json:"next"`    // of the next dish; null when not reached
	PerTsp *data.IntervalJSON `json:"per_tsp"` // g liquid per level teaspoon
	Bound  *data.RangeJSON    `json:"bound"`   // when not reached; null without a look
}

func toLevel(r model.PowderRatio) levelJSON {
	return levelJSON{
		Level: r.Level, Reach: r.Reach.String(), Trials: r.Trials,
		Ratio: data.ToInterval(r.Powder), Next: data.ToRange(r.Next),
		PerTsp: data.ToInterval(r.PerTsp), Bound: data.ToBound(r.Bound),
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
