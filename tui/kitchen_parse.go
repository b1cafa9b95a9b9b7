package tui

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"daub.example/daub/model"
)

// Readers of what a maker types in the kitchen. Empty text is nothing given.

// share reads a part of the whole, 0.03 of "3 %" or "0.03".
func share(text, example string) (float64, error) {
	percent, isPercent := strings.CutSuffix(strings.TrimSpace(text), "%")
	v, err := number(percent, "")
	switch {
	case err != nil:
		return 0, fmt.Errorf("%q is no share: type it as %s", strings.TrimSpace(text), example)
	case isPercent:
		return v / 100, nil
	case v >= 1:
		return 0, fmt.Errorf("%s of the total is more than there is: type %s %% for a percentage", model.Number(v), model.Number(v))
	}
	return v, nil
}

// extras reads "oil 3 %, glycerine 0.02". A comma between digits is a decimal
// point, as everywhere.
func extras(text string) ([]model.Extra, error) {
	var out []model.Extra
	for _, part := range parts(text) {
		at := strings.IndexFunc(part, func(r rune) bool { return r >= '0' && r <= '9' })
		name := ""
		if at >= 0 {
			name = strings.TrimSpace(part[:at])
		}
		if name == "" {
			return nil, fmt.Errorf("extras: %q needs a name and its share of the total: type oil 3 %%, honey 5 %%", part)
		}
		v, err := share(part[at:], "oil 3 %")
		if err != nil {
			return nil, fmt.Errorf("extras, %s: %w", name, err)
		}
		out = append(out, model.Extra{Name: name, Share: v})
	}
	return out, nil
}

// allowance reads what sticks to the bowl, "5 %" or "2 g".
func allowance(text string) (ofTotal, grams float64, err error) {
	switch text = strings.TrimSpace(text); {
	case text == "":
	case strings.HasSuffix(text, "%"):
		ofTotal, err = share(text, "5 %")
	case strings.HasSuffix(text, "g"):
		grams, err = number(text, "g")
	default:
		err = fmt.Errorf("for the bowl: say what %s is: %s %% of the total, or %s g", text, text, text)
	}
	return ofTotal, grams, err
}

// spoonNames reads "1 tsp, 1/2 tsp"; nil for nothing given.
func spoonNames(text string, d model.Drawer) ([]string, error) {
	var out []string
	for _, part := range parts(text) {
		name, err := spoonName(part, d)
		if err != nil {
			return nil, err
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out, nil
}

// spoonName finds a spoon as typed, whatever the case; "tsp" alone is 1 tsp.
func spoonName(text string, d model.Drawer) (string, error) {
	typed := strings.Join(strings.Fields(text), " ")
	for _, name := range d.Names() {
		if strings.EqualFold(name, typed) || strings.EqualFold(name, "1 "+typed) {
			return name, nil
		}
	}
	return "", fmt.Errorf("the spoon %q is not known: name one as %s", typed, strings.Join(model.DefaultSpoons(), ", "))
}

// spoonSum reads "2 x 1 tsp + 1/4 tsp"; ok is false for a text that names no
// spoon, which then is grams.
func spoonSum(text string, d model.Drawer) (sum []model.SpoonCount, ok bool, err error) {
	if !strings.ContainsFunc(strings.TrimSuffix(strings.TrimSpace(text), "g"), func(r rune) bool { return r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' }) {
		return nil, false, nil
	}
	for _, part := range strings.Split(strings.ReplaceAll(text, "×", "x"), "+") {
		count := 1
		before, spoon, counted := strings.Cut(part, "x")
		if n, err := strconv.Atoi(strings.TrimSpace(before)); counted && err == nil {
			count = n
		} else {
			spoon = part
		}
		name, err := spoonName(spoon, d)
		if err != nil {
			return nil, true, err
		}
		sum = append(sum, model.SpoonCount{Spoon: name, Count: count})
	}
	return sum, true, nil
}

// parts splits a list at semicolons and at commas that are no decimal point.
func parts(text string) []string {
	var out []string
	start := 0
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	take := func(end int) {
		if part := strings.TrimSpace(text[start:end]); part != "" {
			out = append(out, part)
		}
		start = end + 1
	}
	for i, r := range text {
		if r == ';' || r == ',' && !(digit(i-1) && digit(i+1)) {
			take(i)
		}
	}
	if start <= len(text) {
		take(len(text))
	}
	return out
}

// amount reads the grams or millilitres of a field, 0 for nothing given.
func (t *calculator) amount(i int, unit string) (float64, error) {
	v, err := optional(t.fields[i].value(), unit)
	if err != nil {
		return 0, fmt.Errorf("%s: %w", t.fields[i].label, err)
	}
	return v, nil
}

var errNoSize = errors.New("give a total in grams, or a jar in millilitres")
