package tomlfile

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
)

// Walker checks decoded text against the known fields, fills their values, and
// gathers every problem with its path.
type Walker struct {
	problems []model.Problem
	more     int             // number of problems beyond those kept
	broken   map[string]bool // paths with a problem
	ids      identities
	kept     []keptValue
}

// maxProblems is the most problems kept of one file; a hostile file has hundreds of
// thousands.
const maxProblems = 200

// Add adds a problem at a path, with its fix.
func (w *Walker) Add(path, fix, format string, args ...any) {
	if len(w.problems) >= maxProblems {
		w.more++
		return
	}
	if w.broken == nil {
		w.broken = map[string]bool{}
	}
	w.broken[path] = true
	w.problems = append(w.problems, model.Problem{Path: path, What: fmt.Sprintf(format, args...), Fix: fix})
}

// identify notes the value that tells the next table of a list from others.
func (w *Walker) identify(list, id string) {
	if w.ids == nil {
		w.ids = identities{}
	}
	w.ids[list] = append(w.ids[list], id)
}

// covers reports whether path, a table around it or a part of it has a problem
// already.
func (w *Walker) covers(path string) bool {
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

// uncovered returns the problems with paths that had none yet.
func (w *Walker) uncovered(problems []model.Problem) []model.Problem {
	var out []model.Problem
	for _, p := range problems {
		if !w.covers(p.Path) {
			out = append(out, p)
		}
	}
	return out
}

// readTable reads one table into its value. A value of the wrong kind is read as
// left out.
func readTable[T any](w *Walker, path string, t map[string]any, fields []Field[T], into *T) {
	known := 0
	for _, f := range fields {
		v, ok := t[f.name]
		switch {
		case !ok && f.required:
			w.Add(Join(path, f.name), "add it, as in "+f.example, "%s is missing", f.name)
		case !ok:
		case f.walk != nil:
			known++
			if at := Join(path, f.name); !f.walk(w, at, v, into) {
				w.wrongKind(at, f.key, v)
			}
		default:
			known++
			if w.value(Join(path, f.name), f.key, v) {
				f.set(into, v)
			}
		}
	}
	for _, f := range fields {
		if f.rule != nil {
			f.rule(w, path, t, into)
		}
	}
	if known < len(t) {
		w.unknown(path, t, keysOf(fields))
	}
}

func keysOf[T any](fields []Field[T]) []string {
	out := make([]string, len(fields))
	for i, f := range fields {
		out[i] = f.name
	}
	return out
}

// unknown refuses keys that nothing reads: they would be lost at the next save.
func (w *Walker) unknown(path string, t map[string]any, keys []string) {
	var names []string
	for name := range t {
		if !slices.Contains(keys, name) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for i, name := range names {
		if len(w.problems) >= maxProblems {
			w.more += len(names) - i
			return
		}
		w.Add(Join(path, name), insteadOf(name, keys), "the key %q is not known", name)
	}
}

// insteadOf says what to do about an unknown key.
func insteadOf(name string, keys []string) string {
	for _, k := range keys {
		if strings.EqualFold(k, name) {
			return fmt.Sprintf("did you mean %q? keys are written in lower case", k)
		}
	}
	if near := model.Suggest(name, keys); len(near) > 0 {
		return fmt.Sprintf("did you mean %q? if not, take it out", near[0])
	}
	return "take it out, or put it into a comment; keys known here: " + strings.Join(keys, ", ")
}

// value checks the value of a plain key at a path, or a list of them. It reports
// whether the kind is right. A value of the right kind that is impossible is a
// problem, but is read.
func (w *Walker) value(path string, k key, v any) bool {
	switch k.kind {
	case kindTexts, kindDecimals:
		list, ok := v.([]any)
		if !ok {
			w.wrongKind(path, k, v)
			return false
		}
		one := k.entry()
		for i, v := range list {
			at := func() string { return item(path, i) }
			if !w.scalar(at, one, v) {
				w.wrongKind(at(), one, v)
			}
		}
		return true
	default:
		ok := w.scalar(func() string { return path }, k, v)
		if !ok {
			w.wrongKind(path, k, v)
		}
		return ok
	}
}

// entry gives the kind of a list's entries.
func (k key) entry() key {
	if k.kind == kindDecimals {
		k.kind = kindDecimal
	} else {
		k.kind = kindText
	}
	return k
}

func (w *Walker) wrongKind(at string, k key, v any) {
	if !w.broken[at] {
		w.Add(at, "write it as in "+k.example, "%s is %s, not %s", k.name, describe(v), wanted(k.kind))
	}
}

// scalar checks a single value.
func (w *Walker) scalar(at func() string, k key, v any) bool {
	switch k.kind {
	case kindText:
		_, ok := v.(string)
		return ok
	case kindFlag:
		_, ok := v.(bool)
		return ok
	case kindMoment:
		t, ok := v.(time.Time)
		if ok {
			w.moment(at, k, t)
		}
		return ok
	case kindWhole:
		n, ok := v.(int64)
		if ok && int64(int(n)) != n {
			w.Add(at(), "give a smaller number", "%s of %d is not possible", k.name, n)
		} else if ok && n == 0 {
			w.zero(at, k)
		}
		return ok
	default:
		f, ok := toFloat(v)
		switch {
		case ok && (math.IsNaN(f) || math.IsInf(f, 0)):
			w.Add(at(), "give a finite number, as in "+k.example, "%s of %s is not a number that can be measured",
				k.name, exactText(f))
		case ok && f == 0:
			w.zero(at, k)
		}
		return ok
	}
}

// zero refuses a written 0 that would be read as "left out".
func (w *Walker) zero(at func() string, k key) {
	if k.nonzero {
		w.Add(at(), "give a number above 0, or leave it out", "%s of 0 is not possible", k.name)
	}
}

// Years outside which a time must be a typing error.
const (
	minYear = 1900
	maxYear = 9999
)

// moment checks a time. Without an offset it is refused: two machines that share a
// shelf would read two different moments.
func (w *Walker) moment(at func() string, k key, t time.Time) {
	switch localName(t) {
	case "":
		if y := t.Year(); y < minYear || y > maxYear {
			w.Add(at(), "give the date and time, as in "+k.example, "%s in the year %d is not possible", k.name, y)
		}
	case localDatetime:
		w.Add(at(), "add Z for UTC or the offset, as in "+k.example, "%s does not say in which time zone", k.name)
	case localDate:
		w.Add(at(), "give date, time and offset, as in "+k.example, "%s has no time of day", k.name)
	default:
		w.Add(at(), "give date, time and offset, as in "+k.example, "%s has no date", k.name)
	}
}

// describe names a value's kind in words.
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

// wanted names the kind of value a key needs.
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

// tableList reads a list of tables in either spelling, [[key]] or [{…}, …].
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
