package tomlfile

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// anything writes a kept value that is a table or a list of them: plain values
// first, then the tables in it.
func (w *Writer) anything(path, title string, depth int, v any) {
	switch v := v.(type) {
	case map[string]any:
		w.header(path, title, depth, false)
		w.anythingIn(path, title, depth, v)
	case []map[string]any:
		for i, t := range v {
			w.header(item(path, i), title, depth, true)
			w.anythingIn(item(path, i), title, depth, t)
		}
	}
}

func (w *Writer) anythingIn(path, title string, depth int, t map[string]any) {
	names := sortedNames(t)
	for _, name := range names {
		if !isTables(t[name]) {
			w.line(path, name, w.inline(name, t[name]))
		}
	}
	for _, name := range names {
		if isTables(t[name]) {
			w.anything(Join(path, name), title+"."+keyText(name), depth+1, t[name])
		}
	}
}

func isTables(v any) bool {
	switch v := v.(type) {
	case map[string]any:
		return true
	case []map[string]any:
		return len(v) > 0
	default:
		return false
	}
}

func sortedNames(t map[string]any) []string {
	names := make([]string, 0, len(t))
	for name := range t {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// inline is a value on one line, exactly as it was read.
func (w *Writer) inline(name string, v any) string {
	switch v := v.(type) {
	case string:
		return quote(v)
	case bool:
		return strconv.FormatBool(v)
	case int64:
		return strconv.FormatInt(v, 10)
	case float64:
		return exactText(v)
	case time.Time:
		return timeText(v)
	case []any:
		parts := make([]string, len(v))
		for i, one := range v {
			parts[i] = w.inline(name, one)
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case []map[string]any:
		parts := make([]string, len(v))
		for i, one := range v {
			parts[i] = w.inline(name, one)
		}
		return "[" + strings.Join(parts, ", ") + "]"
	case map[string]any:
		parts := make([]string, 0, len(v))
		for _, key := range sortedNames(v) {
			parts = append(parts, keyText(key)+" = "+w.inline(name, v[key]))
		}
		return "{" + strings.Join(parts, ", ") + "}"
	default:
		w.fail(name, "a value of type %T cannot be recorded", v)
		return `""`
	}
}

// exactText is a number to the last bit.
func exactText(v float64) string {
	switch {
	case math.IsNaN(v):
		return "nan"
	case math.IsInf(v, 1):
		return "inf"
	case math.IsInf(v, -1):
		return "-inf"
	}
	if a := math.Abs(v); a != 0 && (a < 1e-6 || a >= 1e15) {
		return strconv.FormatFloat(v, 'e', -1, 64)
	}
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if !strings.Contains(s, ".") {
		s += ".0"
	}
	return s
}

// timeText is a time with an offset, or one of TOML's three local forms.
func timeText(t time.Time) string {
	switch localName(t) {
	case localDatetime:
		return t.Format("2006-01-02T15:04:05.999999999")
	case localDate:
		return t.Format("2006-01-02")
	case localTime:
		return t.Format("15:04:05.999999999")
	default:
		return t.Format(time.RFC3339Nano)
	}
}
