// Package typed reads what people type: amounts, shares, spoons, levels, waits. Screens,
// commands and questions in lines all use it, so that the same words mean the same
// everywhere.
//
// A comma serves as the decimal point. Where it could part thousands as well, as in 1,234,
// the reader asks instead of guessing. Units may be left out; case and space around them do
// not count. An error says what was typed, what is wrong with it, and an example of the
// field it was typed into.
package typed

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"daub.example/daub/model"
)

// refuse makes the error for a text: what is wrong with it, and an example of its field.
func refuse(text, wrong, example string) error {
	if strings.TrimSpace(text) == "" {
		return fmt.Errorf("nothing was typed: type it like %s", example)
	}
	return fmt.Errorf("%q %s: type it like %s", strings.TrimSpace(text), wrong, example)
}

// spaced turns the ways in which keyboards write spaces, minus signs and
// fractions into the plain ones.
var spaced = strings.NewReplacer(
	"\u00a0", " ", "\u202f", " ", "\t", " ", "−", "-",
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅛", " 1/8",
)

// tidy puts a text into lower case with plain spaces, none around it.
func tidy(text string) string { return strings.TrimSpace(strings.ToLower(spaced.Replace(text))) }

// Shapes of numbers.
var (
	decimal   = pattern(`^[+-]?([0-9]+[.,]?[0-9]*|[.,][0-9]+)(e[+-]?[0-9]{1,3})?$`)
	thousands = pattern(`^[+-]?[1-9][0-9]{0,2},[0-9]{3}$`)
	measured  = pattern(`^([+-]?[0-9.,]+(?:e[+-]?[0-9]+)?)\s*(.*)$`)
)

// Question is the error for a text that may mean two things.
type Question string

// Error gives the question.
func (q Question) Error() string { return string(q) }

// ask makes a Question of what was typed: what it may mean, and how to say so.
func ask(text, meanings, answer string) error {
	return Question(fmt.Sprintf("is %q %s? %s", strings.TrimSpace(text), meanings, answer))
}

// tooSmall words the error of an amount that no bench can weigh or measure.
const tooSmall = "is too small"

// number reads n, the number in a text. what names the wanted value, for the error.
func number(text, n, what, example string) (float64, error) {
	n = tidy(n)
	if thousands.MatchString(n) {
		point, none := strings.ReplaceAll(n, ",", "."), strings.ReplaceAll(n, ",", "")
		return 0, ask(text, point+" or "+none, "type it with a point or without the comma")
	}
	if !decimal.MatchString(n) {
		return 0, refuse(text, "is not "+what, example)
	}
	v, err := strconv.ParseFloat(strings.ReplaceAll(n, ",", "."), 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, refuse(text, "is too large", example)
	}
	mantissa, _, _ := strings.Cut(n, "e")
	if v == 0 && strings.ContainsAny(mantissa, "123456789") {
		return 0, refuse(text, tooSmall, example)
	}
	return v + 0, nil // -0 is 0
}

// unit is the size of a unit in the wanted one, times/parts.
type unit struct {
	times, parts float64
}

// kind is a kind of quantity.
type kind struct {
	what  string          // "a number of grams"
	units map[string]unit // by name, lower case; "" for none
}

// split splits a quantity into its number and its unit. known is false for a unit of
// another kind, and for a text of another form.
func (k kind) split(text string) (number string, u unit, known bool) {
	m := measured.FindStringSubmatch(tidy(text))
	if m == nil {
		return "", unit{}, false
	}
	u, known = k.units[m[2]]
	return m[1], u, known
}

// read reads a quantity of any sign in the wanted unit.
func (k kind) read(text, example string) (float64, error) {
	n, u, known := k.split(text)
	if !known {
		return 0, refuse(text, "is not "+k.what, example)
	}
	v, err := number(text, n, k.what, example)
	if v *= u.times / u.parts; err == nil && model.Tiny(v) {
		err = refuse(text, tooSmall, example)
	}
	return v, err
}

// positive is read for a quantity of 0 or more.
func (k kind) positive(text, example string) (float64, error) {
	v, err := k.read(text, example)
	if err == nil && v < 0 {
		err = refuse(text, "is below 0", example)
	}
	return v, err
}

// between is read for a quantity within limits; limits gives them in words.
func (k kind) between(low, high float64, limits, text, example string) (float64, error) {
	v, err := k.read(text, example)
	if err == nil && !(v >= low && v <= high) {
		err = refuse(text, "is not "+limits, example)
	}
	return v, err
}

// one is the wanted unit itself.
var one = unit{1, 1}

// named lists units by their names.
func named(units map[unit][]string) map[string]unit {
	all := map[string]unit{"": one}
	for u, names := range units {
		for _, n := range names {
			all[n] = u
		}
	}
	return all
}

var (
	mass = kind{"a number of grams", named(map[unit][]string{
		one: {"g", "gram", "grams"}, {1000, 1}: {"kg"}, {1, 1000}: {"mg"},
	})}
	volume = kind{"a number of millilitres", named(map[unit][]string{
		one: {"ml", "millilitre", "millilitres"}, {10, 1}: {"cl"}, {100, 1}: {"dl"}, {1000, 1}: {
			"l", "litre",
			"litres",
		},
	})}
	density     = kind{"a number of grams per millilitre", named(map[unit][]string{one: {"g/ml"}})}
	temperature = kind{
		"a temperature in °C",
		named(map[unit][]string{one: {"°c", "c", "°", "º", "ºc", "deg", "deg c"}}),
	}
	bare = kind{"a number", map[string]unit{"": one}}
)

// Mass reads a mass, g, of 0 or more: "2,28", "1.5 kg", "20 g".
func Mass(text, example string) (float64, error) { return mass.positive(text, example) }

// Volume reads a volume, mL, of 0 or more: "60 mL", "0,5 l".
func Volume(text, example string) (float64, error) { return volume.positive(text, example) }

// Density reads a density, g/mL, above 0 and up to that of the heaviest solid.
func Density(text string) (float64, error) {
	return density.between(math.SmallestNonzeroFloat64, 25, "a density above 0 and up to 25 g/mL", text, "0.92 g/mL")
}

// Temperature reads the temperature of a liquid, °C, within what a bench has.
func Temperature(text string) (float64, error) {
	return temperature.between(-20, 100, "a temperature from -20 to 100 °C", text, "21 °C")
}

// Resolution reads the resolution of a scale, g, above 0 and up to 100.
func Resolution(text string) (float64, error) {
	return mass.between(math.SmallestNonzeroFloat64, 100, "what a scale reads to, above 0 and up to 100 g", text,
		"0.01 g")
}

// OddScale asks about a scale that reads to so many grams; "" for a usual one, which reads
// to 1, 2 or 5 of a decimal place, and to 1 g at the most.
func OddScale(readsG float64) string {
	place := math.Pow(10, math.Floor(math.Log10(readsG)+1e-9))
	if first := math.Round(readsG/place*1e6) / 1e6; readsG <= 1 && (first == 1 || first == 2 || first == 5) {
		return ""
	}
	return fmt.Sprintf("A scale that reads to %s g? Most read to 0.01 g, 0.1 g or 1 g.", model.Number(readsG))
}

// Shapes of a wait: as clocks show it, and in units from hours to seconds.
var (
	clock = pattern(`^(?:([0-9]+):)?([0-9]+):([0-5][0-9])$`)
	spans = pattern(`^(?:([0-9.,]+)\s*(?:h|hours?)\s*)?` +
		`(?:([0-9.,]+)\s*(?:m|min|minutes?)\s*)?(?:([0-9.,]+)\s*(?:s|sec|seconds?)?)?$`)
)

// Rest reads a wait in whole seconds, from 0 to a week: "90 s", "2 min", "2 min 30 s",
// "0:30"; without a unit it is seconds.
func Rest(text string) (seconds int, err error) {
	const what, example = "a time", "30 s"
	parts := clock.FindStringSubmatch(tidy(text))
	if parts == nil {
		parts = spans.FindStringSubmatch(tidy(text))
	}
	if parts == nil || parts[0] == "" {
		return 0, refuse(text, "is not "+what, example)
	}
	total := 0.0
	for _, part := range parts[1:] {
		total *= 60
		if part == "" {
			continue
		}
		v, err := number(text, part, what, example)
		if err != nil {
			return 0, err
		}
		total += v
	}
	if total > model.MaxRestS {
		return 0, refuse(text, "is longer than a week", example)
	}
	return int(math.Round(total)), nil
}

// maxCount is the largest number of things counted at a bench.
const maxCount = 1000

// Count reads a whole number from 1 to 1000.
func Count(text, example string) (int, error) {
	n, err := strconv.Atoi(tidy(text))
	if err != nil || n < 1 || n > maxCount {
		return 0, refuse(text, fmt.Sprintf("is not a whole number from 1 to %d", maxCount), example)
	}
	return n, nil
}

// Whole reads a whole number of any sign.
func Whole(text, example string) (int, error) {
	n, err := strconv.Atoi(tidy(text))
	if err != nil {
		return 0, refuse(text, "is not a whole number", example)
	}
	return n, nil
}

// Masses reads several masses, each above 0, with spaces or semicolons between
// them: "2.31 2,28 2.35 g".
func Masses(text, example string) ([]float64, error) {
	var out []float64
	for _, word := range words(tidy(text)) {
		g, err := Mass(word, example)
		if err == nil && g == 0 {
			err = refuse(word, "is no weight: tare before filling and type what the scale shows", example)
		}
		if err != nil {
			return nil, err
		}
		out = append(out, g)
	}
	return out, nil
}

// words splits a list at spaces and semicolons; a unit stays with its number.
func words(text string) []string {
	var out []string
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' || r == ';' }) {
		word = strings.TrimRight(word, ",")
		isUnit := !strings.ContainsAny(word, "0123456789")
		if n := len(out); isUnit && n > 0 {
			out[n-1] += " " + word
			continue
		}
		out = append(out, word)
	}
	return out
}

// level reads a level from low to high to the nearest step, 1 or 0.5, with or
// without its word: "5", "4,5", "5 spread".
func level(text string, low, high, step float64, what, example string) (float64, error) {
	n, word, _ := strings.Cut(tidy(text), " ")
	v, err := number(text, n, what, example)
	if err != nil {
		return 0, err
	}
	named := word == "" || strings.TrimSpace(word) == model.LevelWord(v)
	if !named || !(v >= low && v <= high) || v != math.Trunc(v/step)*step {
		return 0, refuse(text, "is not "+what, example)
	}
	return v, nil
}

// Target reads a level to aim at or to ask a ratio for: 1 to 6 in halves, or by its
// word alone.
func Target(text string) (float64, error) {
	for _, l := range model.CurveLevels() {
		if tidy(text) == model.LevelWord(l) {
			return l, nil
		}
	}
	return level(text, model.MinAim, model.MaxAim, 0.5, "a level from 1 to 6 in halves", "4.5 or spread")
}

// Reading reads the level that a test gave: 0 to 7, to the nearest step.
func Reading(text string, step float64) (float64, error) {
	what := "a level from 0 to 7"
	if v, err := bare.positive(text, "5"); step == 1 && err == nil && v <= model.MaxLevel {
		what = "a whole level, as this trial reads them"
	}
	if step == 0.5 {
		what += " in halves"
	}
	return level(text, model.MinLevel, model.MaxLevel, step, what, "5")
}

// Step reads the step that levels are read to, 1 or 0.5.
func Step(text string) (float64, error) {
	v, err := bare.positive(text, "0.5")
	if err != nil || v != 1 && v != 0.5 {
		return 0, refuse(text, "is neither 1 nor 0.5", "0.5")
	}
	return v, nil
}
