package main

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/typed"
	"github.com/spf13/cobra"
)

// levelFlag is a level that a ratio may be asked for at: 1 to 6 in halves. Its
// zero value stands for the aim.
type levelFlag float64

func (l *levelFlag) String() string {
	if *l == 0 {
		return ""
	}
	return model.Number(float64(*l))
}

// Type is the word that help has for the value.
func (l *levelFlag) Type() string { return "L" }

// Set reads a level.
func (l *levelFlag) Set(text string) error {
	v, err := typed.Target(text)
	*l = levelFlag(v)
	return err
}

// or is the level, or the other one where none was given.
func (l levelFlag) or(aim float64) float64 {
	if l == 0 {
		return aim
	}
	return float64(l)
}

// addLevel gives a command --level.
func addLevel(cmd *cobra.Command, l *levelFlag) {
	cmd.Flags().Var(l, "level", "consistency, 1 to 6 in halves (default: the aim)")
	var levels []string
	for _, level := range model.CurveLevels() {
		levels = append(levels, cobra.CompletionWithDesc(model.Number(level), model.LevelWord(level)))
	}
	_ = cmd.RegisterFlagCompletionFunc("level", words(levels))
}

// addChoice gives a command --in and --rest.
func addChoice(cmd *cobra.Command, on *model.Choice) {
	cmd.Flags().StringVar(&on.In, "in", "", "of trials in this `LIQUID` (default: the main one)")
	cmd.Flags().Var(restFlag{on}, "rest", "of trials with this rest (default: the main one)")
	var liquids []string
	for _, l := range model.Liquids() {
		liquids = append(liquids, l.Name)
	}
	_ = cmd.RegisterFlagCompletionFunc("in", words(liquids))
	_ = cmd.RegisterFlagCompletionFunc("rest", cobra.NoFileCompletions)
}

// restFlag is a wait before a look.
type restFlag struct{ on *model.Choice }

func (r restFlag) String() string {
	if r.on == nil || r.on.Rest == nil {
		return ""
	}
	return model.Seconds(*r.on.Rest)
}

// Type is the word that help has for the value.
func (r restFlag) Type() string { return "TIME" }

// Set reads a wait.
func (r restFlag) Set(text string) error {
	seconds, err := typed.Rest(text)
	if err == nil {
		r.on.Rest = &seconds
	}
	return err
}

// addJSON gives a command --json.
func addJSON(cmd *cobra.Command, asJSON *bool) {
	cmd.Flags().BoolVar(asJSON, "json", false, "the answer as JSON, for other programs")
}

// quantity is a kind of number that a flag may take: how it is read, and an
// example.
type quantity struct {
	unit, example string
	read          func(text, example string) (float64, error)
}

var (
	grams       = quantity{"G", "20", typed.Mass}
	millilitres = quantity{"ML", "60", typed.Volume}
	density     = quantity{"G/ML", "2.7", func(text, _ string) (float64, error) { return typed.Density(text) }}
)

// amount is the value of a flag that takes a number above 0 with or without
// its unit; 0 stands for one that was not given.
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

// Type is the word that help has for the value.
func (m amount) Type() string { return m.unit }

// Set reads the number.
func (m amount) Set(text string) error {
	v, err := m.read(text, m.example)
	if err == nil && v == 0 {
		err = fmt.Errorf("%q is nothing: give a number above 0, as in %s", text, m.example)
	}
	if err != nil {
		return err
	}
	*m.value = v
	return nil
}

// addAmount gives a command a flag that takes an amount.
func addAmount(cmd *cobra.Command, value *float64, q quantity, name, usage string) {
	cmd.Flags().Var(amount{q, value}, name, usage)
	_ = cmd.RegisterFlagCompletionFunc(name, cobra.NoFileCompletions)
}

// allowance is what sticks to the bowl, as a share of the total, in grams, or
// both when it is given twice.
type allowance struct{ share, grams float64 }

func (w *allowance) String() string { return "" }

// Type is the word that help has for the value.
func (w *allowance) Type() string { return "SHARE|G" }

// Set reads 0.05, 5% or 5g.
func (w *allowance) Set(text string) error {
	share, grams, err := typed.Allowance(text)
	if err != nil {
		return err
	}
	if grams > 0 {
		w.grams = grams
	} else {
		w.share = share
	}
	return nil
}

// addSpoons gives a command --spoons.
func addSpoons(cmd *cobra.Command, spoons *[]string) {
	const usage = "`SPOONS` at hand, by commas (default 1 to 1/8 tsp)"
	cmd.Flags().StringSliceVar(spoons, "spoons", nil, usage)
	_ = cmd.RegisterFlagCompletionFunc("spoons", cobra.FixedCompletions(
		model.StandardSpoonNames(), cobra.ShellCompDirectiveNoFileComp|cobra.ShellCompDirectiveNoSpace))
}

// atHand checks the names of spoons; nil stays nil, for the usual ones. A size
// that one of the powders was weighed with counts as known.
func atHand(spoons []string, d model.OwnSpoons, profiles ...model.Profile) ([]string, error) {
	known := typed.SpoonsOf(d, profiles...)
	var names []string
	for _, text := range spoons {
		name, err := known.Name(text)
		if err != nil {
			return nil, misuse{err}
		}
		names = append(names, name)
	}
	return names, nil
}

// addKeep gives a command --keep.
func addKeep(cmd *cobra.Command, keep *string) {
	cmd.Flags().StringVar(keep, "keep", string(kitchen.KeepLiquid), "`WHAT` stays: liquid, powder or total")
	_ = cmd.RegisterFlagCompletionFunc("keep", words(kitchen.Keeps()))
}

// keepOf checks what --keep was given.
func keepOf(text string) (kitchen.Keep, error) {
	for _, k := range kitchen.Keeps() {
		if string(k) == text {
			return k, nil
		}
	}
	return "", misused("a swap cannot keep %q; --keep takes liquid, powder or total", text)
}
