package typed

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"daub.example/daub/model"
)

// share reads n, the number in a text, as a part of a whole. bare is true for 1 or more
// without a percent sign, which leaves open what is meant.
func share(text, n, what, example string) (v float64, bare bool, err error) {
	n, percent := strings.CutSuffix(tidy(n), "%")
	v, err = number(text, n, what, example)
	if percent {
		v /= 100
	}
	return v, !percent && v >= 1, err
}

// Share reads a part of a whole, 0 or more and below 1: "3 %", "0.03".
func Share(text, example string) (float64, error) {
	const what = "a share, from 0 % to below 100 %"
	v, bare, err := share(text, text, what, example)
	switch {
	case err != nil:
		return 0, err
	case bare:
		return 0, ask(text, model.Number(v)+" %", "then type "+model.Number(v)+" %")
	case !(v >= 0 && v < 1):
		return 0, refuse(text, "is not "+what, example)
	}
	return v, nil
}

// Precision reads the precision wanted, as a half-width in ln R, above 0 and up to 2: "±10
// %", "0.1".
func Precision(text string) (float64, error) {
	const what, example = "a precision above 0 and up to ±200 %", "±10 %"
	n := strings.TrimPrefix(strings.TrimPrefix(tidy(text), "±"), "+/-")
	v, bare, err := share(text, n, what, example)
	switch {
	case err != nil:
		return 0, err
	case bare:
		return 0, ask(text, "±"+model.Number(v)+" %", "then type ±"+model.Number(v)+" %")
	case !(v > 0 && v <= 2):
		return 0, refuse(text, "is not "+what, example)
	}
	return v, nil
}

// Allowance reads what sticks to the bowl, as a share of the total or in grams: "5 %",
// "0.05", "2 g". Nothing typed is none.
func Allowance(text string) (ofTotal, grams float64, err error) {
	const example = "5 % or 2 g"
	t := tidy(text)
	if t == "" {
		return 0, 0, nil
	}
	if n, _, isMass := mass.split(t); isMass && n != t {
		grams, err = Mass(text, example)
		return 0, grams, err
	}
	v, bare, err := share(text, t, "a share or a number of grams", example)
	if err == nil && bare {
		return 0, 0, ask(text, fmt.Sprintf("%s %% of the total, or %[1]s g", model.Number(v)), "type it with % or g")
	}
	if err == nil {
		v, err = Share(text, example)
	}
	return v, 0, err
}

// Part reads a powder's part by mass in a mix, above 0 and of any sum: "60",
// "60 %".
func Part(text string) (float64, error) {
	const what, example = "a part by mass above 0", "60"
	v, err := number(text, strings.TrimSuffix(tidy(text), "%"), what, example)
	if err == nil && v <= 0 {
		err = refuse(text, "is not "+what, example)
	}
	return v, err
}

// nameShare splits a name, the share after it and the word for how it counts;
// nameAmount splits off an amount with its unit.
var (
	nameShare  = pattern(`^(.+?)[\s=]*([+-]?[0-9.,]+\s*%?)\s*(?::\s*([a-z]*))?$`)
	nameAmount = pattern(`^.+?[\s=]+([0-9.,]+\s*[a-zA-Z]+)$`)
)

// Extra reads an extra of a paste: its name, its share of the total, and how it counts
// where the maker says so. "honey 3 %", "honey=0.03" and "honey 3 %:liquid" will do. An
// error answers in the form of the example.
func Extra(text, example string) (model.Extra, error) {
	plain := strings.TrimSpace(spaced.Replace(text))
	if m := nameAmount.FindStringSubmatch(plain); m != nil && isAmount(m[1]) {
		return model.Extra{}, fmt.Errorf("%q: an extra is a share of the total, not an amount: type it like %s",
			plain, example)
	}
	m := nameShare.FindStringSubmatch(plain)
	if m == nil || !strings.ContainsFunc(m[1], unicode.IsLetter) {
		return model.Extra{}, refuse(text, "is not a name and its share of the total", example)
	}
	name := strings.Trim(m[1], "= ")
	switch last := name[len(name)-1]; {
	case strings.Contains(name, "="):
		return model.Extra{}, refuse(text, "is not one name and its share", example+", two with a comma between them")
	case strings.ContainsRune("-:,;", rune(last)), strings.HasSuffix(name, "–"), strings.HasSuffix(name, "—"):
		return model.Extra{}, refuse(text, "is not a name and its share of the total", example)
	}
	like := func(share string) string {
		if strings.Contains(example, "=") {
			return name + "=" + share + "%"
		}
		return name + " " + share + " %"
	}
	if _, bare, err := share(m[2], m[2], "a share", example); err == nil && bare {
		n := strings.ReplaceAll(tidy(m[2]), ",", ".")
		return model.Extra{}, ask(text, n+" %", "then type "+like(n))
	}
	v, err := Share(m[2], example)
	if err == nil && v == 0 {
		err = refuse(m[2], "is nothing", example)
	}
	if err != nil {
		return model.Extra{}, fmt.Errorf("%s: %w", name, err)
	}
	kind := model.Counts(m[3])
	if kind != "" && !slices.Contains(model.CountsAs(), kind) {
		return model.Extra{}, refuse(text, "does not count as liquid, oil or dry", like("3")+":oil")
	}
	return model.Extra{Name: name, Share: v, Counts: kind}, nil
}

// isAmount reports whether a text is a number with a unit of mass, volume or spoons.
func isAmount(text string) bool {
	for _, k := range []kind{mass, volume} {
		if n, _, known := k.split(text); known && n != tidy(text) {
			return true
		}
	}
	_, unit, _ := strings.Cut(tidy(text), " ")
	return slices.Contains([]string{"tsp", "tbsp"}, unit)
}

// Extras reads a list of extras, each name once: "oil 3 %, glycerine 0.02". Nothing typed
// is none.
func Extras(text, example string) ([]model.Extra, error) {
	var out []model.Extra
	for _, item := range list(text) {
		e, err := Extra(item, example)
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(out, func(x model.Extra) bool { return model.SameLiquid(x.Name, e.Name) }) {
			return nil, fmt.Errorf("%s is named twice: give all of it as one share", e.Name)
		}
		out = append(out, e)
	}
	return out, nil
}

// Portions reads the number of portions, and what each weighs, 0 where that is left open:
// "20", "20 x 75 g". Nothing typed is one bowl.
func Portions(text string) (n int, eachG float64, err error) {
	const what, example = "a number of portions", "20 x 75 g"
	count, each, given := strings.Cut(strings.NewReplacer("×", "x", "*", "x", " of ", " x ").Replace(text), "x")
	if strings.TrimSpace(text) == "" {
		return 0, 0, nil
	}
	v, err := number(text, tidy(count), what, example)
	switch {
	case err != nil:
		return 0, 0, err
	case v != math.Trunc(v) || v < 1 || v > model.MaxPortions:
		return 0, 0, refuse(text, "is not "+what, example)
	case given:
		eachG, err = Mass(each, "75 g")
	}
	return int(v), eachG, err
}

// list splits a text at semicolons, and at commas that are no decimal point.
func list(text string) []string {
	var out []string
	digit := func(i int) bool { return i >= 0 && i < len(text) && text[i] >= '0' && text[i] <= '9' }
	start := 0
	take := func(end int) {
		if item := strings.TrimSpace(text[start:end]); item != "" {
			out = append(out, item)
		}
		start = end + 1
	}
	for i := range len(text) {
		if text[i] == ';' || text[i] == ',' && !(digit(i-1) && digit(i+1)) {
			take(i)
		}
	}
	take(len(text))
	return out
}
