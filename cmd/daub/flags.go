package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"daub.example/daub/model"
)

// thousands is a comma that may part thousands or begin decimals.
var thousands = regexp.MustCompile(`^[1-9][0-9]{0,2}(,[0-9]{3})+$`)

// measure reads a number of 0 or more as a maker types it: a unit behind it is
// passed over, a comma serves as the point.
func measure(text, unit string) (float64, error) {
	t := strings.TrimSpace(text)
	if n := len(t) - len(unit); n > 0 && strings.EqualFold(t[n:], unit) {
		t = strings.TrimSpace(t[:n])
	}
	if thousands.MatchString(t) {
		return 0, fmt.Errorf("%q could be thousands or decimals: write it without a comma, or with a point", t)
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(t, ",", "."), 64)
	if err != nil || !(v >= 0) || math.IsInf(v, 0) {
		return 0, fmt.Errorf("%q is not a number of %s: type it as 1.14", strings.TrimSpace(text), unit)
	}
	return v, nil
}

// share reads a part of a whole: 0.03 or 3%.
func share(text string) (float64, error) {
	number, percent := strings.CutSuffix(strings.TrimSpace(text), "%")
	v, err := measure(number, "")
	if percent {
		v /= 100
	}
	if err != nil || !(v > 0 && v < 1) {
		return 0, fmt.Errorf("%q is no share of the total: give one above 0 and below 1, as in 0.03 or 3%%", strings.TrimSpace(text))
	}
	return v, nil
}

// amount is the value of a flag that takes a number above 0 with or without
// its unit; 0 stands for one that was not given.
type amount struct {
	value *float64
	unit  string
}

func (m amount) String() string {
	if m.value == nil || *m.value == 0 {
		return ""
	}
	return model.Number(*m.value)
}

// Type is the word that help has for the value.
func (m amount) Type() string { return strings.ToUpper(m.unit) }

// Set reads the number.
func (m amount) Set(text string) error {
	v, err := measure(text, m.unit)
	if err == nil && v == 0 {
		err = fmt.Errorf("give a number of %s above 0, as in 20", m.unit)
	}
	if err != nil {
		return err
	}
	*m.value = v
	return nil
}

// addAmount gives a command a flag that takes an amount.
func addAmount(cmd *cobra.Command, value *float64, name, unit, usage string) {
	cmd.Flags().Var(amount{value, unit}, name, usage)
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
	t := strings.TrimSpace(text)
	if strings.HasSuffix(strings.ToLower(t), "g") {
		return amount{&w.grams, "g"}.Set(t)
	}
	v, err := share(t)
	if err != nil {
		return fmt.Errorf("an allowance is a share of the total, as in 0.05 or 5%%, or grams, as in 5g")
	}
	w.share = v
	return nil
}

// addSpoons gives a command --spoons.
func addSpoons(cmd *cobra.Command, spoons *[]string) {
	const usage = "`SPOONS` at hand, by commas (default 1 to 1/8 tsp)"
	cmd.Flags().StringSliceVar(spoons, "spoons", nil, usage)
	_ = cmd.RegisterFlagCompletionFunc("spoons", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return model.StandardSpoonNames(), cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveNoSpace
	})
}

// atHand checks the names of spoons; nil stays nil, for the usual ones. A size
// that one of the powders was weighed with counts as known.
func atHand(spoons []string, d model.Drawer, profiles ...model.Profile) ([]string, error) {
	var names []string
	for _, typed := range spoons {
		name, ok := spoonName(typed, d, profiles...)
		if !ok {
			return nil, misused("there is no spoon %q; the spoons are %s, or your own from spoons.toml", strings.TrimSpace(typed), strings.Join(d.Names(), ", "))
		}
		names = append(names, name)
	}
	return names, nil
}

// addKeep gives a command --keep.
func addKeep(cmd *cobra.Command, keep *string) {
	cmd.Flags().StringVar(keep, "keep", string(model.KeepLiquid), "`WHAT` stays: liquid, powder or total")
	_ = cmd.RegisterFlagCompletionFunc("keep", words(model.Keeps()))
}

// keepOf checks what --keep was given.
func keepOf(text string) (model.Keep, error) {
	for _, k := range model.Keeps() {
		if string(k) == text {
			return k, nil
		}
	}
	return "", misused("a swap cannot keep %q; --keep takes liquid, powder or total", text)
}
