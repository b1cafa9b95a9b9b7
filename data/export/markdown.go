package export

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
)

// exportMarkdown writes one table to paste into a page, how to read it, the meaning
// of its levels, and the cautions.
func exportMarkdown(out *bytes.Buffer, sheets []sheet, _ Options) error {
	line := func(format string, args ...any) { fmt.Fprintf(out, format+"\n", args...) }
	line("| powder | liquid | rest | level | g liquid per g powder | next dish | g liquid per level teaspoon | " +
		"trials |")
	line("| --- | --- | --- | --- | --- | --- | --- | ---: |")
	var levels []float64
	for _, s := range sheets {
		title := mdCell(s.powder.Title())
		if len(s.ratios) == 0 {
			why := "no finished trial"
			if s.beside {
				why = model.BesideOnly
			}
			line("| %s | | | | %s | | | 0 |", title, why)
		}
		for _, r := range s.ratios {
			levels = append(levels, r.Level)
			line("| %s | %s | %s | %s | %s | %s | %s | %d |", title, mdCell(r.Basis.Liquid),
				model.Seconds(r.Basis.RestS),
				model.LevelName(r.Level), ratioText(r), nextText(r.Next), intervalText(r.PerTsp), r.Trials)
		}
	}
	line("\nEach ratio is the middle value with its 95 %% interval; the next dish, made the same way, falls into " +
		"its range 19 times in 20.")
	slices.Sort(levels)
	if levels = slices.Compact(levels); len(levels) > 0 {
		line("\nLevels: stir ten turns, rest, do not stir again, then look.\n")
		for _, c := range model.Scale() {
			if slices.ContainsFunc(levels, func(l float64) bool { return l > c.Level-1 && l < c.Level+1 }) {
				line("- %s: %s.", model.LevelName(c.Level), c.Test)
			}
		}
	}
	line("\nCautions:\n")
	for _, c := range cautions(sheets) {
		line("- %s", c)
	}
	line("- %s", care.Deferral)
	return nil
}

// cautions returns the cautions of all powders, each once, with the names of its
// powders unless it is for all.
func cautions(sheets []sheet) []string {
	var order []string
	powders := map[string][]string{}
	for _, s := range sheets {
		for _, c := range care.Of(s.powder) {
			if powders[c] == nil {
				order = append(order, c)
			}
			powders[c] = append(powders[c], mdCell(s.powder.Title()))
		}
	}
	for i, c := range order {
		if names := powders[c]; len(names) < len(sheets) {
			order[i] = fmt.Sprintf("%s: %s", strings.Join(names, ", "), c)
		}
	}
	return order
}

// ratioText gives a ratio, or the known bound of one that was not reached.
func ratioText(r repeats.Ratio) string {
	switch {
	case r.Powder != nil && r.Reach == fit.OneSided:
		return "about " + intervalText(r.Powder) + ", tested from one side"
	case r.Powder != nil:
		return intervalText(r.Powder)
	case r.Bound != nil:
		return "not reached: " + bench.BoundText(*r.Bound)
	default:
		return "not reached"
	}
}

func intervalText(iv *fit.Interval) string {
	if iv == nil || !finite(iv.Median) || !finite(iv.Low) || !finite(iv.High) {
		return ""
	}
	return bench.IntervalText(*iv)
}

func nextText(next *fit.Interval) string {
	if next == nil || !finite(next.Low) || !finite(next.High) {
		return ""
	}
	return bench.RangeText(*next)
}

// mdCell makes text from a file safe for a cell or a sentence.
func mdCell(s string) string { return printable.Markdown(printable.Words(s)) }
