// Package reply holds the parts that the JSON answers of several commands share,
// under the keys of JSON.md. It calculates nothing and writes nothing. It may
// import data/export and the rooms of model.
package reply

import (
	"time"

	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
)

// OrNull is a text; null for "".
func OrNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// Moment is a time; null when there is none.
func Moment(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}

// Filled is a list that JSON writes as [] when it is empty.
func Filled(texts []string) []string { return append([]string{}, texts...) }

// Budget splits a dish's interval by its causes: shares that sum to 1.
type Budget struct {
	Looks       *float64 `json:"looks"`
	SpoonWeight *float64 `json:"spoon_weight"`
	Scoops      *float64 `json:"scoops"`
	PowderScale *float64 `json:"powder_scale"`
	Liquid      *float64 `json:"liquid"`
	SpoonSize   *float64 `json:"spoon_size"`
}

func BudgetOf(b *fit.Budget) *Budget {
	if b == nil {
		return nil
	}
	return &Budget{
		export.Number(b.Looks), export.Number(b.SpoonWeight), export.Number(b.Scoops),
		export.Number(b.PowderScale), export.Number(b.Liquid), export.Number(b.SpoonSize),
	}
}

// PowderBudget splits a powder's interval by its causes: shares that sum to 1.
type PowderBudget struct {
	Budget
	Repeats *float64 `json:"repeats"` // one dish differing from the next
}

func PowderBudgetOf(b *fit.Budget) *PowderBudget {
	if b == nil {
		return nil
	}
	return &PowderBudget{*BudgetOf(b), export.Number(b.Repeats)}
}

// AtLevel holds the answer of all trials of one powder, on one basis, at one level.
type AtLevel struct {
	Level  float64          `json:"level"`
	Reach  string           `json:"reach"`   // bracketed, one-sided or not-reached
	Trials int              `json:"trials"`  // those the ratio, or the bound, rests on
	Ratio  *export.Interval `json:"ratio"`   // of this powder; null when not reached
	Next   *export.Range    `json:"next"`    // of the next dish; null when not reached
	PerTsp *export.Interval `json:"per_tsp"` // g liquid per level teaspoon
	Bound  *export.Range    `json:"bound"`   // when not reached; null without a look
}

func LevelOf(r repeats.Ratio) AtLevel {
	return AtLevel{
		Level: r.Level, Reach: r.Reach.String(), Trials: r.Trials,
		Ratio: export.IntervalOf(r.Powder), Next: export.RangeOf(r.Next),
		PerTsp: export.IntervalOf(r.PerTsp), Bound: export.BoundOf(r.Bound),
	}
}

// Basis names what a ratio holds for beside its level: liquid and rest; null without a trial
// that counts.
type Basis struct {
	Liquid *string `json:"liquid"`
	RestS  *int    `json:"rest_s"`
}

func BasisOf(b model.Basis) Basis {
	if b.Liquid == "" {
		return Basis{}
	}
	return Basis{&b.Liquid, &b.RestS}
}
