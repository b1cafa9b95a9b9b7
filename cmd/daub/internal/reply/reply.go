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

// OrNull gives text; null for "".
func OrNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// Moment gives a time; null for none.
func Moment(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}

// Filled copies a list, so that JSON writes an empty one as [].
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

// BudgetOf gives a dish's budget; nil without one.
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
	Repeats *float64 `json:"repeats"` // difference from dish to dish
}

// PowderBudgetOf gives a powder's budget; nil without one.
func PowderBudgetOf(b *fit.Budget) *PowderBudget {
	if b == nil {
		return nil
	}
	return &PowderBudget{*BudgetOf(b), export.Number(b.Repeats)}
}

// AtLevel is a powder's answer at one level, from all its trials on one basis.
type AtLevel struct {
	Level  float64          `json:"level"`
	Reach  string           `json:"reach"`   // bracketed, one-sided or not-reached
	Trials int              `json:"trials"`  // trials that the ratio or the bound is based on
	Ratio  *export.Interval `json:"ratio"`   // of this powder; null when not reached
	Next   *export.Range    `json:"next"`    // of the next dish; null when not reached
	PerTsp *export.Interval `json:"per_tsp"` // g liquid per level teaspoon
	Bound  *export.Range    `json:"bound"`   // when not reached; null without a look
}

// LevelOf gives a powder's answer at one level.
func LevelOf(r repeats.Ratio) AtLevel {
	return AtLevel{
		Level: r.Level, Reach: r.Reach.String(), Trials: r.Trials,
		Ratio: export.IntervalOf(r.Powder), Next: export.RangeOf(r.Next),
		PerTsp: export.IntervalOf(r.PerTsp), Bound: export.BoundOf(r.Bound),
	}
}

// Basis is the liquid and rest that a ratio holds for; null without a trial that
// counts.
type Basis struct {
	Liquid *string `json:"liquid"`
	RestS  *int    `json:"rest_s"`
}

// BasisOf gives a basis by its names in JSON.
func BasisOf(b model.Basis) Basis {
	if b.Liquid == "" {
		return Basis{}
	}
	return Basis{&b.Liquid, &b.RestS}
}
