package data

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
)

// walker holds a decoded text against the known keys and gathers every
// complaint, each with the path it is about.
type walker struct {
	problems []model.Problem
	broken   map[string]bool // paths complained about
}

func (w *walker) add(path, fix, format string, args ...any) {
	if w.broken == nil {
		w.broken = map[string]bool{}
	}
	w.broken[path] = true
	w.problems = append(w.problems, model.Problem{Path: path, What: fmt.Sprintf(format, args...), Fix: fix})
}

// covers reports whether path, what it lies in or a part of it was complained
// about.
func (w *walker) covers(path string) bool {
	for broken := range w.broken {
		if strings.HasPrefix(broken, path+"[") || strings.HasPrefix(broken, path+".") {
			return true
		}
	}
	for path != "" {
		if w.broken[path] {
			return true
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return false
}

// uncovered are the problems with what was not complained about yet.
func (w *walker) uncovered(problems []model.Problem) []model.Problem {
	var out []model.Problem
	for _, p := range problems {
		if !w.covers(p.Path) {
			out = append(out, p)
		}
	}
	return out
}

// file checks a whole file that has a schema.
func (w *walker) file(tree map[string]any, keys []key) {
	w.table("", tree, keys)
	if n, ok := tree["schema"].(int64); ok && n < Schema {
		w.add("schema", "write schema = 1", "schema %d was never in use", n)
	}
}

// table checks the keys of one table and what is behind them.
func (w *walker) table(path string, t map[string]any, keys []key) {
	for _, k := range keys {
		at := join(path, k.name)
		v, ok := t[k.name]
		switch {
		case ok:
			w.value(at, k, v)
		case k.required:
			w.add(at, "add it, as in "+k.example, "%s is missing", k.name)
		}
	}
	unknown := make([]string, 0)
	for name := range t {
		if _, ok := findKey(keys, name); !ok {
			unknown = append(unknown, name)
		}
	}
	slices.Sort(unknown)
	for _, name := range unknown {
		w.unknown(path, name, keys)
	}
}

// unknown complains about a key that nothing reads. Leaving it would lose it
// at the next save.
func (w *walker) unknown(path, name string, keys []key) {
	at := join(path, name)
	for _, k := range keys {
		if strings.EqualFold(k.name, name) {
			w.add(at, fmt.Sprintf("did you mean %q? keys are written in lower case", k.name), "the key %q is not known", name)
			return
		}
	}
	if near := nearest(name, keyNames(keys)); len(near) > 0 {
		w.add(at, fmt.Sprintf("did you mean %q? if not, take it out", near[0]), "the key %q is not known", name)
		return
	}
	w.add(at, "take it out, or put it into a comment; keys known here: "+strings.Join(keyNames(keys), ", "), "the key %q is not known", name)
}

// value checks what is behind one key.
func (w *walker) value(at string, k key, v any) {
	switch k.kind {
	case kindTable:
		if t, ok := v.(map[string]any); ok {
			w.table(at, t, k.keys)
			return
		}
	case kindTables:
		if list, ok := tableList(v); ok {
			for i, t := range list {
				w.table(item(at, i), t, k.keys)
			}
			return
		}
	case kindTexts, kindDecimals:
		if list, ok := v.([]any); ok {
			one := key{name: k.name, kind: kindText, example: k.example}
			if k.kind == kindDecimals {
				one.kind = kindDecimal
			}
			for i, v := range list {
				w.value(item(at, i), one, v)
			}
			return
		}
	case kindReserved:
		return
	default:
		if w.scalar(at, k, v) {
			return
		}
	}
	if !w.broken[at] {
		w.add(at, "write it as in "+k.example, "%s is %s, not %s", k.name, describe(v), wanted(k.kind))
	}
}

// scalar checks a single value. It reports whether the kind is right; a value
// of the right kind that cannot be is complained about here.
func (w *walker) scalar(at string, k key, v any) bool {
	switch k.kind {
	case kindText:
		_, ok := v.(string)
		return ok
	case kindFlag:
		_, ok := v.(bool)
		return ok
	case kindMoment:
		t, ok := v.(time.Time)
		return ok && w.moment(at, k, t)
	case kindWhole:
		n, ok := v.(int64)
		if ok && int64(int(n)) != n {
			w.add(at, "give a smaller number", "%s of %d is not possible", k.name, n)
		} else if ok && n == 0 {
			w.zero(at, k)
		}
		return ok
	default:
		f, ok := toFloat(v)
		switch {
		case ok && (math.IsNaN(f) || math.IsInf(f, 0)):
			w.add(at, "give a finite number, as in "+k.example, "%s of %s is not a number that can be measured", k.name, exactText(f))
		case ok && f == 0:
			w.zero(at, k)
		}
		return ok
	}
}

// zero complains about a written 0 that would be taken for "left out".
func (w *walker) zero(at string, k key) {
	if k.nonzero {
		w.add(at, "give a number above 0, or leave the key out", "%s of 0 is not possible", k.name)
	}
}

// Years outside which a time is a slip of the hand.
const (
	minYear = 1900
	maxYear = 9999
)

// moment checks a time. One without an offset is refused: two machines that
// share a shelf would read it as two different moments.
func (w *walker) moment(at string, k key, t time.Time) bool {
	switch localName(t) {
	case "":
		if y := t.Year(); y < minYear || y > maxYear {
			w.add(at, "give the date and time, as in "+k.example, "%s in the year %d is not possible", k.name, y)
		}
		return true
	case localDatetime:
		w.add(at, "add Z for UTC or the offset, as in "+k.example, "%s does not say in which time zone", k.name)
	case localDate:
		w.add(at, "give date, time and offset, as in "+k.example, "%s has no time of day", k.name)
	default:
		w.add(at, "give date, time and offset, as in "+k.example, "%s has no date", k.name)
	}
	return true
}

// describe says what a value is.
func describe(v any) string {
	switch v := v.(type) {
	case string:
		return "text"
	case bool:
		return "true or false"
	case int64:
		return fmt.Sprintf("the whole number %d", v)
	case float64:
		return "the number " + exactText(v)
	case time.Time:
		return "a date or time"
	case map[string]any:
		return "a single table"
	case []map[string]any:
		return "a list of tables"
	default:
		return "a list"
	}
}

// wanted says what a kind wants.
func wanted(k kind) string {
	switch k {
	case kindText:
		return "text in quotes"
	case kindDecimal:
		return "a number"
	case kindWhole:
		return "a whole number without a point"
	case kindFlag:
		return "true or false"
	case kindMoment:
		return "a date and time without quotes"
	case kindTexts:
		return "a list of text"
	case kindDecimals:
		return "a list of numbers"
	case kindTable:
		return "a single table with one pair of brackets"
	default:
		return "a list of tables, each with two pairs of brackets"
	}
}

// tableList is a list of tables in either spelling, [[key]] or [{…}, …].
func tableList(v any) ([]map[string]any, bool) {
	switch v := v.(type) {
	case []map[string]any:
		return v, true
	case []any:
		list := make([]map[string]any, len(v))
		for i, one := range v {
			t, ok := one.(map[string]any)
			if !ok {
				return nil, false
			}
			list[i] = t
		}
		return list, true
	default:
		return nil, false
	}
}

// toFloat reads a number; a whole one will do.
func toFloat(v any) (float64, bool) {
	switch v := v.(type) {
	case float64:
		return v + 0, true // -0 becomes 0
	case int64:
		return float64(v), true
	default:
		return 0, false
	}
}
