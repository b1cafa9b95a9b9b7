package data

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"
)

// writer writes TOML: two spaces of indent for each table inside another, one
// line a key.
type writer struct {
	strings.Builder
	indent string
	err    error // the first value that TOML cannot hold
}

func (w *writer) fail(name, format string, args ...any) {
	if w.err == nil {
		w.err = fmt.Errorf("write %s: %s", name, fmt.Sprintf(format, args...))
	}
}

// header begins a table, with a blank line before it; depth counts the tables
// it lies in.
func (w *writer) header(depth int, text string) {
	w.indent = strings.Repeat("  ", depth)
	if w.Len() > 0 {
		w.WriteByte('\n')
	}
	w.WriteString(w.indent + text + "\n")
}

func (w *writer) line(name, value string) {
	w.WriteString(w.indent + name + " = " + value + "\n")
}

// text writes a string, nothing when empty.
func (w *writer) text(name, v string) {
	if v != "" {
		w.line(name, quote(v))
	}
}

func (w *writer) texts(name string, vs []string) {
	if len(vs) == 0 {
		return
	}
	quoted := make([]string, len(vs))
	for i, v := range vs {
		quoted[i] = quote(v)
	}
	w.line(name, "["+strings.Join(quoted, ", ")+"]")
}

// number writes a decimal even when it is 0; decimal only when it is not.
func (w *writer) number(name string, v float64) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		w.fail(name, "%v is not a number that can be recorded", v)
	}
	w.line(name, decimalText(v))
}

func (w *writer) decimal(name string, v float64) {
	if v != 0 {
		w.number(name, v)
	}
}

func (w *writer) decimals(name string, vs []float64) {
	if len(vs) == 0 {
		return
	}
	out := make([]string, len(vs))
	for i, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			w.fail(name, "%v is not a number that can be recorded", v)
		}
		out[i] = decimalText(v)
	}
	w.line(name, "["+strings.Join(out, ", ")+"]")
}

func (w *writer) whole(name string, v int) {
	if v != 0 {
		w.line(name, strconv.Itoa(v))
	}
}

func (w *writer) optional(name string, v *int) {
	if v != nil {
		w.line(name, strconv.Itoa(*v))
	}
}

func (w *writer) flag(name string, v bool) {
	if v {
		w.line(name, "true")
	}
}

// moment writes a time as it was given, with its offset; nothing for the zero
// time.
func (w *writer) moment(name string, t time.Time) {
	if t.IsZero() {
		return
	}
	if _, offset := t.Zone(); offset%60 != 0 {
		t = t.UTC() // TOML has no offsets in seconds
	}
	if y := t.Year(); y < minYear || y > maxYear {
		w.fail(name, "the year %d cannot be recorded", y)
	}
	w.line(name, t.Format(time.RFC3339Nano))
}

// typedDigits is the most digits that anybody types or reads off a scale. A
// number that needs more came out of arithmetic, as 0.30000000000000004 does
// out of 0.1 + 0.2, and is rounded to keptDigits.
const (
	typedDigits = 15
	keptDigits  = 10
)

// decimalText is a bench value: in full, without an exponent, with a point.
func decimalText(v float64) string {
	v += 0 // -0 becomes 0
	mantissa, _, _ := strings.Cut(strconv.FormatFloat(math.Abs(v), 'e', -1, 64), "e")
	if len(mantissa)-1 > typedDigits {
		if r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', keptDigits-1, 64), 64); err == nil {
			v = r
		}
	}
	s := strconv.FormatFloat(v, 'f', -1, 64)
	if strings.Contains(s, ".") || math.IsNaN(v) || math.IsInf(v, 0) {
		return s
	}
	return s + ".0"
}

// quote is a string in TOML's basic form, always on one line. Bytes that are
// no text become the replacement character: TOML holds nothing else.
func quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r == '\n':
			b.WriteString(`\n`)
		case r == '\t':
			b.WriteString(`\t`)
		case r == '\r':
			b.WriteString(`\r`)
		case r < 0x20 || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		case r == utf8.RuneError:
			b.WriteRune(utf8.RuneError)
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// keyText is a key as a file has it, quoted where it must be.
func keyText(name string) string {
	if allBare(name) {
		return name
	}
	return quote(name)
}

// anything writes a reserved value under its key: plain values first, then
// the tables in it. path is the header's text so far.
func (w *writer) anything(path string, depth int, v any) {
	switch v := v.(type) {
	case map[string]any:
		w.header(depth, "["+path+"]")
		w.anythingIn(path, depth, v)
	case []map[string]any:
		for _, t := range v {
			w.header(depth, "[["+path+"]]")
			w.anythingIn(path, depth, t)
		}
	}
}

func (w *writer) anythingIn(path string, depth int, t map[string]any) {
	names := sortedNames(t)
	for _, name := range names {
		if !isTables(t[name]) {
			w.line(keyText(name), w.inline(name, t[name]))
		}
	}
	for _, name := range names {
		if isTables(t[name]) {
			w.anything(path+"."+keyText(name), depth+1, t[name])
		}
	}
}

// plainReserved writes the reserved values that are no tables of their own;
// they have to stand among the keys. tablesReserved writes the others.
func (w *writer) plainReserved(kept map[string]any) {
	for _, name := range sortedNames(kept) {
		if !isTables(kept[name]) {
			w.line(keyText(name), w.inline(name, kept[name]))
		}
	}
}

func (w *writer) tablesReserved(prefix string, depth int, kept map[string]any) {
	for _, name := range sortedNames(kept) {
		if isTables(kept[name]) {
			w.anything(prefix+keyText(name), depth, kept[name])
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
func (w *writer) inline(name string, v any) string {
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
