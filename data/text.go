package data

import (
	"fmt"
	"math"
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

// longTexts is texts with a line for each.
func (w *writer) longTexts(name string, vs []string) {
	if len(vs) == 0 {
		return
	}
	w.WriteString(w.indent + name + " = [\n")
	for _, v := range vs {
		w.WriteString(w.indent + "  " + quote(v) + ",\n")
	}
	w.WriteString(w.indent + "]\n")
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
