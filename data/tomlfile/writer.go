package tomlfile

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"daub.example/daub/model/printable"
)

// Writer writes TOML: two spaces of indent for each list of tables around a line,
// one line a key.
type Writer struct {
	strings.Builder
	indent string
	err    error // the first value that TOML cannot hold
	noting bool  // whether to note the place of everything
	lineNo int   // lines written
	spots  map[string]spot
	raw    map[string]string // text of a kept value, by the path at which it was written back
	ids    identities
}

// spot is the place of a path in the written text.
type spot struct {
	line   int
	header bool
}

func (w *Writer) fail(name, format string, args ...any) {
	if w.err == nil {
		w.err = fmt.Errorf("write %s: %s", name, fmt.Sprintf(format, args...))
	}
}

// header begins the table at path, with a blank line before it. title stands in the
// brackets, depth is the number of indents, row says whether it is one of a list.
func (w *Writer) header(path, title string, depth int, row bool) {
	w.indent = strings.Repeat("  ", depth)
	if w.Len() > 0 {
		w.put("\n")
	}
	opening, closing := "[", "]"
	if row {
		opening, closing = "[[", "]]"
	}
	w.note(path, true)
	w.put(w.indent + opening + title + closing + "\n")
}

// line writes a key of the table at path.
func (w *Writer) line(path, name, value string) {
	w.note(Join(path, name), false)
	w.put(w.indent + keyText(name) + " = " + value + "\n")
}

func (w *Writer) put(text string) {
	w.WriteString(text)
	w.lineNo += strings.Count(text, "\n")
}

// note remembers that path is on the next line.
func (w *Writer) note(path string, header bool) {
	if !w.noting {
		return
	}
	if w.spots == nil {
		w.spots, w.ids = map[string]spot{}, identities{}
	}
	w.spots[path] = spot{w.lineNo + 1, header}
}

// identify notes the value that tells the next table of a list from others.
func (w *Writer) identify(list, id string) {
	if w.noting {
		w.ids[list] = append(w.ids[list], id)
	}
}

// number writes a number, or notes that TOML cannot hold it.
func (w *Writer) number(name string, v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		w.fail(name, "%v is not a number that can be recorded", v)
	}
	return decimalText(v)
}

// moment writes a time with the offset it was given in.
func (w *Writer) moment(name string, t time.Time) string {
	if _, offset := t.Zone(); offset%60 != 0 {
		t = t.UTC() // TOML has no offsets in seconds
	}
	if y := t.Year(); y < minYear || y > maxYear {
		w.fail(name, "the year %d cannot be recorded", y)
	}
	return t.Format(time.RFC3339Nano)
}

// typedDigits is the most digits that anybody types or reads off a scale. A number
// with more came out of arithmetic, as 0.1 + 0.2 gives 0.30000000000000004, and is
// rounded to keptDigits.
const (
	typedDigits = 15
	keptDigits  = 10
)

// decimalText writes a bench value in full, without an exponent, with a point.
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

// quote writes a string in TOML's basic form, always on one line. Bytes that are
// not text become the replacement character: TOML cannot hold them.
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
		case printable.Steers(r) && r > 0xffff:
			fmt.Fprintf(&b, `\U%08X`, r)
		case printable.Steers(r):
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

// keyText writes a key, quoted if it must be.
func keyText(name string) string {
	if allBare(name) {
		return name
	}
	return quote(name)
}
