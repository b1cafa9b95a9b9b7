package kitchen

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
)

// Difference is one ingredient of a recipe before and after a change, g; 0 where the recipe
// does not have it.
type Difference struct {
	What          string
	Before, After float64
}

// Differences lists every ingredient and the total before and after a change, also those
// that stay. Powders, liquids and extras come in this order, each as in the recipe before
// it.
func Differences(before, after model.Recipe) []Difference {
	var out []Difference
	was, is := RecipeAmounts(before), RecipeAmounts(after)
	add := func(what string, put func(*Difference)) {
		at := slices.IndexFunc(out, func(d Difference) bool { return d.What == what })
		if at < 0 {
			at = len(out)
			out = append(out, Difference{What: what})
		}
		put(&out[at])
	}
	for i, p := range before.Powders {
		add(p.Powder().Title(), func(d *Difference) { d.Before += was.Powder.Median * before.Fraction(i) })
	}
	for i, p := range after.Powders {
		add(p.Powder().Title(), func(d *Difference) { d.After += is.Powder.Median * after.Fraction(i) })
	}
	add(before.Liquid, func(d *Difference) { d.Before += was.Liquid.Median })
	add(after.Liquid, func(d *Difference) { d.After += is.Liquid.Median })
	for i, e := range before.Extras {
		add(e.Name, func(d *Difference) { d.Before += was.ExtrasG[i] })
	}
	for i, e := range after.Extras {
		add(e.Name, func(d *Difference) { d.After += is.ExtrasG[i] })
	}
	total := Difference{What: "total"}
	for _, d := range out {
		total.Before += d.Before
		total.After += d.After
	}
	if total.Before > before.TotalG+0.005 || total.After > after.TotalG+0.005 {
		total.What = "total, with what stays in the bowl"
	}
	return append(out, total)
}

// SameAmounts reports whether every amount is written as before.
func SameAmounts(all []Difference) bool {
	return !slices.ContainsFunc(all, func(d Difference) bool { return model.Grams(d.Before) != model.Grams(d.After) })
}

// Reworded lists the changes other than amounts, one sentence each: notes, order, portions
// and what else stands on the card.
func Reworded(before, after model.Recipe) []string {
	var out []string
	add := func(what, was, is string) {
		if was != is {
			out = append(out, fmt.Sprintf("%s: %s (before: %s)", what, cmp.Or(is, "none"), cmp.Or(was, "none")))
		}
	}
	quoted := func(text string) string {
		if text = printable.Words(text); text == "" {
			return ""
		}
		return fmt.Sprintf("%q", text)
	}
	add("level", model.LevelName(before.Level), model.LevelName(after.Level))
	add("portions", portioned(before), portioned(after))
	add("jar", volume(before.JarML), volume(after.JarML))
	add("for the bowl", AllowanceText(before), AllowanceText(after))
	for _, e := range after.Extras {
		for _, was := range before.Extras {
			if model.SameLiquid(e.Name, was.Name) {
				add(e.Name+" counts as", string(was.Kind()), string(e.Kind()))
				add("note to "+e.Name, quoted(was.Notes), quoted(e.Notes))
			}
		}
	}
	if !slices.Equal(before.Order, after.Order) {
		add("weighed in turn", strings.Join(AdditionOrder(before), ", "), strings.Join(AdditionOrder(after), ", "))
	}
	add("made", before.Made, after.Made)
	add("use by", before.UseBy, after.UseBy)
	add("notes", quoted(before.Notes), quoted(after.Notes))
	return out
}

// portioned writes the portions of a recipe, "20 of 75 g"; "" for one bowl.
func portioned(r model.Recipe) string {
	if r.Portions == 0 {
		return ""
	}
	return fmt.Sprintf("%d of %s g", r.Portions, model.Number(model.RoundSignificant(jarFilling(r), 4)))
}

// volume writes a volume in mL; "" for 0.
func volume(ml float64) string {
	if ml == 0 {
		return ""
	}
	return model.Number(ml) + " mL"
}

// AllowanceText writes the allowance for what sticks to the bowl, as it is typed; "" for
// none.
func AllowanceText(r model.Recipe) string {
	switch {
	case r.AllowanceShare > 0:
		return model.Number(model.RoundSignificant(100*r.AllowanceShare, 6)) + " %"
	case r.AllowanceG > 0:
		return model.Number(r.AllowanceG) + " g"
	default:
		return ""
	}
}

// FreeName gives the name, or, where it is taken, the name with the next free number: "Face
// mask 2".
func FreeName(name string, taken []string) string {
	isTaken := func(n string) bool {
		return slices.ContainsFunc(taken, func(t string) bool { return repeats.SameName(t, n) })
	}
	base, n := name, 1
	if at := strings.LastIndex(name, " "); at > 0 {
		if last, err := strconv.Atoi(name[at+1:]); err == nil && last > 0 {
			base, n = name[:at], last
		}
	}
	for ; isTaken(name); name = fmt.Sprintf("%s %d", base, n) {
		n++
	}
	return name
}
