package typed

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
)

// TrialFact is one setting of a trial that may be changed while it is made: its key, and
// how to read and show it.
type TrialFact struct {
	Key   string
	Label string // as screens call it
	Hint  string // how it is typed
	// Show writes the setting of a trial whose defaults are filled in.
	Show func(t model.Trial) string
	read func(t *model.Trial, text string) error
}

// Set reads the setting from a text into t; a text that cannot be read leaves t as it was.
func (f TrialFact) Set(t *model.Trial, text string) error {
	next := *t
	if err := f.read(&next, strings.TrimSpace(printable.Line(text))); err != nil {
		return err
	}
	*t = next
	return nil
}

// TrialFacts lists all settings, in the order they are asked.
func TrialFacts() []TrialFact {
	return []TrialFact{
		{
			"target", "Target level", "1 to 6, such as 4.5",
			func(t model.Trial) string { return model.Number(t.Aim) },
			func(t *model.Trial, text string) (err error) { t.Aim, err = Target(text); return err },
		},
		{
			"levels", "Level steps", "1 or 0.5 (halves)",
			func(t model.Trial) string { return model.Number(t.LevelStep) },
			func(t *model.Trial, text string) (err error) { t.LevelStep, err = Step(text); return err },
		},
		{
			"precision", "Precision", "such as ±10 %",
			func(t model.Trial) string { return PrecisionText(t.Tolerance) },
			func(t *model.Trial, text string) (err error) { t.Tolerance, err = Precision(text); return err },
		},
		{
			"rest", "Rest", "such as 30 s, 2 min or 0:30",
			func(t model.Trial) string { return model.Seconds(*t.RestS) },
			func(t *model.Trial, text string) error {
				seconds, err := Rest(text)
				t.RestS = &seconds
				return err
			},
		},
		{
			"liquid", "Liquid", "its name",
			func(t model.Trial) string { return t.Liquid },
			func(t *model.Trial, text string) error {
				name, err := Liquid(text)
				if err == nil && !model.SameLiquid(name, t.Liquid) {
					t.LiquidDensity = 0 // that of the liquid before
				}
				t.Liquid = name
				return err
			},
		},
		{
			"start", "Starting with", "g of liquid in the dish before the first step",
			func(t model.Trial) string { return model.Number(t.LiquidG) + " g" },
			func(t *model.Trial, text string) error {
				grams, err := Mass(text, "25 g")
				if err == nil && grams != t.LiquidG {
					t.LiquidG, t.LiquidBy, t.LiquidSpoon, t.LiquidCount = grams, model.ByWeight, "", 0
				}
				return err
			},
		},
		{
			"reading", "Measured", "spread 15 mL, slump 50 mm, cone, drain, blows; none",
			func(t model.Trial) string { return MeasuredText(t.Measured) },
			func(t *model.Trial, text string) (err error) { t.Measured, err = Measured(text); return err },
		},
	}
}

// Liquid reads the name of a liquid. A number, or an amount such as 20 g, is refused.
func Liquid(text string) (string, error) {
	if text == "" {
		return "", errors.New("a liquid needs a name, as water")
	}
	_, _, amount := mass.split(text)
	if amount || !strings.ContainsFunc(text, unicode.IsLetter) {
		return "", fmt.Errorf("%q is an amount, not the name of a liquid: type its name, as water", text)
	}
	return text, nil
}

// PrecisionText writes a half-width in ln R as Precision reads it: "±12 %".
func PrecisionText(half float64) string {
	return fmt.Sprintf("±%s %%", model.Number(model.RoundSignificant(100*half, 3)))
}
