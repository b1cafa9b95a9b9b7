package tomlfile

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// Field is one key of a table that is read into a T: its name, its kind of value,
// and how it is read, checked and written. Keys that no field names are refused.
type Field[T any] struct {
	key
	set    func(into *T, v any)                                  // of a value of the right kind
	text   func(w *Writer, k key, from *T) string                // as written in the file; "" leaves it out
	walk   func(w *Walker, at string, v any, into *T) (ok bool)  // of a table or tables
	tables func(w *Writer, k key, in string, depth int, from *T) // writes tables with a header of their own
	rule   func(w *Walker, at string, t map[string]any, into *T) // checks keys against each other
	kept   func(from *T) any                                     // kept untouched in its place; nil for nothing
}

// key describes a key, whatever it is read into.
type key struct {
	name     string
	kind     kind
	example  string // an example line, for advice
	required bool
	always   bool // written even if 0 or empty
	nonzero  bool // 0 would be read as "left out", so it may not be written
	identity bool // tells one table of a list from another, wherever it stands
}

// kind is the kind of a key's value.
type kind int

const (
	kindText     kind = iota
	kindDecimal       // a whole number will do
	kindWhole         // 2, not 2.0
	kindFlag          // true or false
	kindMoment        // a date and time with its offset from UTC
	kindTexts         // a list of text
	kindDecimals      // a list of numbers
	kindTable         // [key]
	kindTables        // [[key]]
)

// Required refuses a table without the key, and always writes it.
func (f Field[T]) Required() Field[T] { f.required, f.always = true, true; return f }

// Always writes the key even if its value is 0 or empty.
func (f Field[T]) Always() Field[T] { f.always = true; return f }

// NotZero refuses a written 0, which would be taken for "left out".
func (f Field[T]) NotZero() Field[T] { f.nonzero = true; return f }

// Identity makes the key one of those that tell a table of a list from
// another, so that comments follow it when it moves.
func (f Field[T]) Identity() Field[T] { f.identity = true; return f }

// Rule adds a check between the keys of the table; it is called after the whole
// table was read.
func (f Field[T]) Rule(rule func(w *Walker, at string, t map[string]any, into *T)) Field[T] {
	f.rule = rule
	return f
}

// Text is a string.
func Text[T any, S ~string](name, example string, at func(*T) *S) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindText, example: example},
		set: func(into *T, v any) { *at(into) = S(v.(string)) },
		text: func(_ *Writer, k key, from *T) string {
			if v := *at(from); v != "" || k.always {
				return quote(string(v))
			}
			return ""
		},
	}
}

// Decimal is a number; 0 is left out.
func Decimal[T any](name, example string, at func(*T) *float64) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindDecimal, example: example},
		set: func(into *T, v any) { *at(into), _ = toFloat(v) },
		text: func(w *Writer, k key, from *T) string {
			if v := *at(from); v != 0 || k.always {
				return w.number(k.name, v)
			}
			return ""
		},
	}
}

// MaybeDecimal is a number that may be 0; nil is left out.
func MaybeDecimal[T any](name, example string, at func(*T) **float64) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindDecimal, example: example},
		set: func(into *T, v any) {
			n, _ := toFloat(v)
			*at(into) = &n
		},
		text: func(w *Writer, k key, from *T) string {
			if v := *at(from); v != nil {
				return w.number(k.name, *v)
			}
			return ""
		},
	}
}

// FlaggedDecimal is a number that may be 0; there says whether it was given.
func FlaggedDecimal[T any](name, example string, at func(*T) (value *float64, there *bool)) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindDecimal, example: example},
		set: func(into *T, v any) {
			value, there := at(into)
			*value, *there = toFloat(v)
		},
		text: func(w *Writer, k key, from *T) string {
			if value, there := at(from); *there {
				return w.number(k.name, *value)
			}
			return ""
		},
	}
}

// Whole is a whole number; 0 is left out.
func Whole[T any](name, example string, at func(*T) *int) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindWhole, example: example},
		set: func(into *T, v any) { *at(into) = int(v.(int64)) },
		text: func(_ *Writer, k key, from *T) string {
			if v := *at(from); v != 0 || k.always {
				return strconv.Itoa(v)
			}
			return ""
		},
	}
}

// MaybeWhole is a whole number that may be 0; nil is left out.
func MaybeWhole[T any](name, example string, at func(*T) **int) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindWhole, example: example},
		set: func(into *T, v any) {
			n := int(v.(int64))
			*at(into) = &n
		},
		text: func(_ *Writer, _ key, from *T) string {
			if v := *at(from); v != nil {
				return strconv.Itoa(*v)
			}
			return ""
		},
	}
}

// Flag is true or false; false is left out.
func Flag[T any](name, example string, at func(*T) *bool) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindFlag, example: example},
		set: func(into *T, v any) { *at(into) = v.(bool) },
		text: func(_ *Writer, k key, from *T) string {
			if v := *at(from); v || k.always {
				return strconv.FormatBool(v)
			}
			return ""
		},
	}
}

// MaybeFlag is true or false; nil, which is neither, is left out.
func MaybeFlag[T any](name, example string, at func(*T) **bool) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindFlag, example: example},
		set: func(into *T, v any) {
			flag := v.(bool)
			*at(into) = &flag
		},
		text: func(_ *Writer, _ key, from *T) string {
			if v := *at(from); v != nil {
				return strconv.FormatBool(*v)
			}
			return ""
		},
	}
}

// Unless is a flag that is true unless the file says false; true is left out.
func Unless[T any](name, example string, at func(*T) *bool) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindFlag, example: example},
		set: func(into *T, v any) { *at(into) = !v.(bool) },
		text: func(_ *Writer, k key, from *T) string {
			if v := *at(from); v || k.always {
				return strconv.FormatBool(!v)
			}
			return ""
		},
	}
}

// Moment is a time, written with the offset it was given in; the zero time is left
// out.
func Moment[T any](name, example string, at func(*T) *time.Time) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindMoment, example: example},
		set: func(into *T, v any) { *at(into) = v.(time.Time) },
		text: func(w *Writer, k key, from *T) string {
			if v := *at(from); !v.IsZero() {
				return w.moment(k.name, v)
			}
			return ""
		},
	}
}

// Texts is a list of strings on one line; an empty one is left out.
func Texts[T any](name, example string, at func(*T) *[]string) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindTexts, example: example},
		set: func(into *T, v any) { *at(into) = each(v, func(one any) string { s, _ := one.(string); return s }) },
		text: func(_ *Writer, _ key, from *T) string {
			return listed(*at(from), quote)
		},
	}
}

// LongTexts is Texts with one line for each text.
func LongTexts[T any](name, example string, at func(*T) *[]string) Field[T] {
	f := Texts(name, example, at)
	f.text = func(w *Writer, _ key, from *T) string {
		if len(*at(from)) == 0 {
			return ""
		}
		var b strings.Builder
		b.WriteString("[\n")
		for _, v := range *at(from) {
			b.WriteString(w.indent + "  " + quote(v) + ",\n")
		}
		return b.String() + w.indent + "]"
	}
	return f
}

// Decimals is a list of numbers; an empty one is left out.
func Decimals[T any](name, example string, at func(*T) *[]float64) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindDecimals, example: example},
		set: func(into *T, v any) { *at(into) = each(v, func(one any) float64 { n, _ := toFloat(one); return n }) },
		text: func(w *Writer, k key, from *T) string {
			return listed(*at(from), func(v float64) string { return w.number(k.name, v) })
		},
	}
}

// each converts a list of values; an empty list is nil.
func each[U any](list any, one func(any) U) []U {
	var out []U
	for _, v := range list.([]any) {
		out = append(out, one(v))
	}
	return out
}

// listed writes a list on one line, "" for an empty one.
func listed[U any](vs []U, text func(U) string) string {
	if len(vs) == 0 {
		return ""
	}
	out := make([]string, len(vs))
	for i, v := range vs {
		out[i] = text(v)
	}
	return "[" + strings.Join(out, ", ") + "]"
}

// Table is a table of fields of its own.
func Table[T, U any](name, example string, at func(*T) *U, fields []Field[U]) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindTable, example: example},
		walk: func(w *Walker, path string, v any, into *T) bool {
			t, ok := v.(map[string]any)
			if ok {
				readTable(w, path, t, fields, at(into))
			}
			return ok
		},
		tables: func(w *Writer, k key, in string, depth int, from *T) {
			path := Join(in, k.name)
			w.header(path, title(path), depth, false)
			writeTable(w, path, depth, fields, at(from))
		},
	}
}

// MaybeTable is a table that may be left out: nil.
func MaybeTable[T, U any](name, example string, at func(*T) **U, fields []Field[U]) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindTable, example: example},
		walk: func(w *Walker, path string, v any, into *T) bool {
			t, ok := v.(map[string]any)
			if ok {
				var read U
				readTable(w, path, t, fields, &read)
				*at(into) = &read
			}
			return ok
		},
		tables: func(w *Writer, k key, in string, depth int, from *T) {
			if kept := *at(from); kept != nil {
				path := Join(in, k.name)
				w.header(path, title(path), depth, false)
				writeTable(w, path, depth+1, fields, kept)
			}
		},
	}
}

// Tables is a list of tables.
func Tables[T, U any](name, example string, at func(*T) *[]U, fields []Field[U]) Field[T] {
	return Field[T]{
		key: key{name: name, kind: kindTables, example: example},
		walk: func(w *Walker, path string, v any, into *T) bool {
			list, ok := tableList(v)
			rows := make([]U, len(list))
			for i, t := range list {
				readTable(w, item(path, i), t, fields, &rows[i])
				w.identify(path, identityOf(fields, &rows[i]))
			}
			if len(rows) > 0 {
				*at(into) = rows
			}
			return ok
		},
		tables: func(w *Writer, k key, in string, depth int, from *T) {
			path := Join(in, k.name)
			rows := *at(from)
			for i := range rows {
				row := item(path, i)
				w.header(row, title(row), depth, true)
				w.identify(path, identityOf(fields, &rows[i]))
				writeTable(w, row, depth+1, fields, &rows[i])
			}
		},
	}
}

// writeTable writes the contents of a table: plain keys first, for below a header
// they would belong to the other table.
func writeTable[T any](w *Writer, path string, depth int, fields []Field[T], from *T) {
	for _, f := range fields {
		if f.kept != nil && w.keptLines(path, f.name, f.kept(from)) || f.text == nil {
			continue
		}
		if text := f.text(w, f.key, from); text != "" {
			w.line(path, f.name, text)
		}
	}
	for _, f := range fields {
		if f.kept != nil && w.keptTables(Join(path, f.name), depth, f.kept(from)) || f.tables == nil {
			continue
		}
		f.tables(w, f.key, path, depth, from)
	}
}

// identityOf returns the value that tells a table from others, "" where it has none.
func identityOf[T any](fields []Field[T], of *T) string {
	id := ""
	var w Writer // of which nothing is kept
	for _, f := range fields {
		if f.identity {
			if text := f.text(&w, f.key, of); text != "" {
				id += text + "\n"
			}
		}
	}
	return id
}

// Differences returns the keys in which two tables differ. Numbers of so many
// significant digits may differ by one unit in the last, because two kinds of
// processor may round a tie either way.
func Differences[T any](fields []Field[T], a, b *T, digits int) []string {
	var w Writer // of which nothing is kept
	var names []string
	for _, f := range fields {
		x, y := f.text(&w, f.key, a), f.text(&w, f.key, b)
		if x != y && !sameRounded(x, y, digits) {
			names = append(names, f.name)
		}
	}
	return names
}

func sameRounded(x, y string, digits int) bool {
	a, errA := strconv.ParseFloat(x, 64)
	b, errB := strconv.ParseFloat(y, 64)
	if errA != nil || errB != nil || !strings.Contains(x+y, ".") {
		return false
	}
	unit := math.Pow(10, math.Floor(math.Log10(math.Abs(b)))-float64(digits)+1)
	return math.Abs(a-b) < 1.5*unit
}
