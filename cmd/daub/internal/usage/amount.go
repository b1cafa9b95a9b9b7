package usage

import (
	"fmt"
	"strconv"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/typed"
	"github.com/spf13/cobra"
)

// quantity is a kind of number for a flag: how it is read, and an example.
type quantity struct {
	unit, example string
	read          func(text, example string) (float64, error)
}

// The amounts that flags take, with or without their unit.
var (
	Grams       = quantity{"G", "20", typed.Mass}
	Millilitres = quantity{"ML", "60", typed.Volume}
	Density     = quantity{"G/ML", "2.7", func(text, _ string) (float64, error) { return typed.Density(text) }}
)

// amount is the value of a flag for a number above 0, with or without its unit; 0
// if not given.
type amount struct {
	quantity
	value *float64
}

func (m amount) String() string {
	if m.value == nil || *m.value == 0 {
		return ""
	}
	return model.Number(*m.value)
}

// Type names the value in help.
func (m amount) Type() string { return m.unit }

// Set reads the number.
func (m amount) Set(text string) error {
	v, err := m.read(text, m.example)
	if err == nil && v == 0 {
		err = fmt.Errorf("%q is nothing; give a number above 0, as in %s", text, m.example)
	}
	if err != nil {
		return err
	}
	*m.value = v
	return nil
}

// AddAmount adds a flag for an amount to a command.
func AddAmount(cmd *cobra.Command, value *float64, q quantity, name, usage string) {
	cmd.Flags().Var(amount{q, value}, name, usage)
	_ = cmd.RegisterFlagCompletionFunc(name, cobra.NoFileCompletions)
}

// whole is the value of a flag for a whole number.
type whole struct {
	value         *int
	unit, example string
}

func (w whole) String() string {
	if w.value == nil || *w.value == 0 {
		return ""
	}
	return strconv.Itoa(*w.value)
}

// Type names the value in help.
func (w whole) Type() string { return w.unit }

// Set reads the number.
func (w whole) Set(text string) (err error) {
	*w.value, err = typed.Whole(text, w.example)
	return err
}

// AddWhole adds a flag for a whole number to a command; unit names the value in
// help.
func AddWhole(cmd *cobra.Command, value *int, name, unit, example, usage string) {
	cmd.Flags().Var(whole{value, unit, example}, name, usage)
	_ = cmd.RegisterFlagCompletionFunc(name, cobra.NoFileCompletions)
}

// Extras reads the values of --extra: each a name and its share, or several with
// commas between.
func Extras(texts []string) ([]model.Extra, error) {
	const example = "honey=3%"
	for _, text := range texts {
		if _, err := typed.Extra(text, example); strings.TrimSpace(text) == "" {
			return nil, Misused("--extra: %w", err)
		}
	}
	extras, err := typed.Extras(strings.Join(texts, ";"), example)
	if err != nil {
		return nil, Misused("--extra: %w", err)
	}
	return extras, nil
}

// Allowance is the paste lost to the bowl: a share of the total, grams, or both if
// given twice.
type Allowance struct{ Share, Grams float64 }

func (w *Allowance) String() string { return "" }

// Type names the value in help.
func (w *Allowance) Type() string { return "SHARE|G" }

// Set reads 0.05, 5% or 5g.
func (w *Allowance) Set(text string) error {
	share, grams, err := typed.Allowance(text)
	if err != nil {
		return err
	}
	if grams > 0 {
		w.Grams = grams
	} else {
		w.Share = share
	}
	return nil
}
