package main

import (
	"math"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// What the JSON answers are made of. A number has four significant digits; one
// that the data cannot give is null.

// digits is the precision of numbers in JSON, in significant digits.
const digits = 4

// number is v rounded; null when it is not finite.
func number(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	r := model.RoundSignificant(v, digits)
	return &r
}

// positive is number for a value whose 0 means "unknown".
func positive(v float64) *float64 {
	if !(v > 0) {
		return nil
	}
	return number(v)
}

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

// intervalJSON is a ratio with its 95 % interval.
type intervalJSON struct {
	Median *float64 `json:"median"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
}

func toInterval(iv *fit.Interval) *intervalJSON {
	if iv == nil {
		return nil
	}
	return &intervalJSON{number(iv.Median), number(iv.Low), number(iv.High)}
}

// rangeJSON is an interval without a best value; an open end is null.
type rangeJSON struct {
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
}

func toNext(iv *fit.Interval) *rangeJSON {
	if iv == nil {
		return nil
	}
	return &rangeJSON{number(iv.Low), number(iv.High)}
}

func toBound(b *fit.Bound) *rangeJSON {
	if b == nil {
		return nil
	}
	return &rangeJSON{positive(b.Low), number(b.High)}
}

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
	return &budgetJSON{number(b.Looks), number(b.SpoonWeight), number(b.Scoops), number(b.PowderScale), number(b.Liquid), number(b.SpoonSize)}
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
	return &powderBudgetJSON{*toBudget(b), number(b.Repeats)}
}

// levelJSON is what all trials of one powder on one basis say of one level.
type levelJSON struct {
	Level  float64       `json:"level"`
	Reach  string        `json:"reach"`   // bracketed, one-sided or not-reached
	Trials int           `json:"trials"`  // those the ratio, or the bound, rests on
	Ratio  *intervalJSON `json:"ratio"`   // of this powder; null when not reached
	Next   *rangeJSON    `json:"next"`    // of the next dish; null when not reached
	PerTsp *intervalJSON `json:"per_tsp"` // g liquid per level teaspoon
	Bound  *rangeJSON    `json:"bound"`   // when not reached; null without a look
}

func toLevel(r model.PowderRatio) levelJSON {
	return levelJSON{
		Level: r.Level, Reach: r.Reach.String(), Trials: r.Trials,
		Ratio: toInterval(r.Powder), Next: toNext(r.Next), PerTsp: toInterval(r.PerTsp), Bound: toBound(r.Bound),
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
