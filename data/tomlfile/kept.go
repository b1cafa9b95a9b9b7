package tomlfile

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// OrKept makes a field for a key or table where earlier versions kept any value. A
// value of another shape is still kept: it is read and written back untouched,
// without a problem. A plain key has the right shape if its value is of its kind, a
// table if nothing in it is wrong.
func OrKept[T any](f Field[T], at func(*T) *map[string]any) Field[T] {
	walk, text, tables := f.walk, f.text, f.tables
	f.walk = func(w *Walker, path string, v any, into *T) bool {
		if walk == nil && f.ofKind(v) {
			w.value(path, f.key, v)
			f.set(into, v)
			return true
		}
		var aside T
		if try := (&Walker{}); walk != nil && walk(try, path, v, &aside) && len(try.problems) == 0 {
			return walk(w, path, v, into)
		}
		w.Keep(path, f.name, v, at(into))
		return true
	}
	f.kept = func(from *T) any { return (*at(from))[f.name] }
	f.text = func(w *Writer, k key, from *T) string {
		if f.kept(from) == nil && text != nil {
			return text(w, k, from)
		}
		return ""
	}
	f.tables = func(w *Writer, k key, in string, depth int, from *T) {
		if f.kept(from) == nil && tables != nil {
			tables(w, k, in, depth, from)
		}
	}
	return f
}

// Keep keeps the value at a path, by its key, among those kept in its table.
func (w *Walker) Keep(path, name string, v any, among *map[string]any) {
	put := func(v any) {
		if *among == nil {
			*among = map[string]any{}
		}
		(*among)[name] = v
	}
	put(v)
	w.kept = append(w.kept, keptValue{path, v, put})
}

// ofKind reports whether a value is of a plain key's kind; it may still be
// impossible.
func (k key) ofKind(v any) bool {
	switch k.kind {
	case kindTexts, kindDecimals:
		list, ok := v.([]any)
		return ok && !slices.ContainsFunc(list, func(one any) bool { return !k.entry().ofKind(one) })
	case kindMoment:
		t, ok := v.(time.Time)
		return ok && localName(t) == ""
	default:
		return new(Walker).scalar(func() string { return "" }, k, v)
	}
}

// keptValue is a value to keep, and where to put it.
type keptValue struct {
	path string
	v    any
	put  func(v any)
}

// keptText is the text of a kept value, and its place.
type keptText struct {
	span
	path string
	text string
}

// Verbatim is a kept value with the text it was read from.
type Verbatim struct {
	Value  any
	text   string
	header bool   // begins with a header, not with a key
	within string // path of its first line, from that of the value
}

// keep takes over the text of every kept value, to be written back to the byte
// except for blanks at its ends. A value that does not have lines of its own is
// kept without its text.
func (d *Document) keep(kept []keptValue) {
	if len(kept) == 0 {
		return
	}
	ix, err := fullScan(d.plain())
	if err != nil {
		return // the text was parsed, so it is not too deep
	}
	places := ix.linesOf(kept)
	for _, k := range kept {
		at := places[k.path]
		if !at.met || at.broken {
			continue
		}
		text := strings.ReplaceAll(ix.src[at.from:at.to], "\r", "")
		if !at.first.header {
			text = strings.TrimLeft(text, " \t")
		}
		text = strings.TrimRight(text, " \t")
		d.kept = append(d.kept, keptText{at.span, k.path, text})
		k.put(Verbatim{k.v, text, at.first.header, at.first.path[len(k.path):]})
	}
	slices.SortFunc(d.kept, func(a, b keptText) int { return cmp.Compare(a.from, b.from) })
}

// linesOfKept are the lines of one kept value.
type linesOfKept struct {
	span
	first  statement
	last   int  // number of the last statement in it, from 0
	met    bool // it has lines of its own
	broken bool // it is in several places
}

// linesOf returns the place of each kept value, by its path. It goes through the
// text once, however many there are.
func (ix *index) linesOf(kept []keptValue) map[string]*linesOfKept {
	places := make(map[string]*linesOfKept, len(kept))
	longest := 0
	for _, k := range kept {
		places[k.path] = &linesOfKept{}
		longest = max(longest, len(k.path))
	}
	for n, s := range ix.statements {
		for end := range min(len(s.path), longest) + 1 {
			if end < len(s.path) && s.path[end] != '.' && s.path[end] != '[' {
				continue
			}
			if at := places[s.path[:end]]; at != nil {
				at.add(n, s)
			}
		}
	}
	return places
}

// add adds the n-th statement of the text, a part of the value.
func (l *linesOfKept) add(n int, s statement) {
	if !l.met {
		l.span, l.first, l.met = s.span, s, true
	} else if l.last != n-1 || s.header && !l.first.header {
		l.broken = true
	}
	l.to, l.last = s.to, n
}

// keptLines writes a kept value among the plain keys of its table.
func (w *Writer) keptLines(in, name string, v any) bool {
	raw, ok := v.(Verbatim)
	switch {
	case ok && !raw.header:
		w.verbatim(Join(in, name), w.indent, raw)
	case ok || v == nil || isTables(v):
		return false
	default:
		w.line(in, name, w.inline(name, v))
	}
	return true
}

// keptTables writes a kept value that has a header.
func (w *Writer) keptTables(path string, depth int, v any) bool {
	raw, ok := v.(Verbatim)
	switch {
	case ok && raw.header:
		w.put("\n")
		w.verbatim(path, "", raw)
		return true
	case !ok && isTables(v):
		w.anything(path, title(path), depth, v)
		return true
	}
	return false
}

func (w *Writer) verbatim(path, indent string, raw Verbatim) {
	w.note(path, raw.header)
	w.note(path+raw.within, raw.header)
	if w.raw == nil {
		w.raw = map[string]string{}
	}
	w.raw[path] = raw.text
	w.put(indent + raw.text + "\n")
}

// keptWith reports whether an old comment is part of a kept value that was written
// back.
func (w *Writer) keptWith(c comment, old *Document, moved tablePaths) bool {
	n, _ := slices.BinarySearchFunc(old.kept, c.at, func(k keptText, at int) int { return cmp.Compare(k.to, at+1) })
	if n == len(old.kept) || c.at < old.kept[n].from {
		return false
	}
	return w.raw[moved.to(old.kept[n].path)] == old.kept[n].text
}

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

// inline writes a value on one line, exactly as it was read.
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

// exactText writes a number to the last bit.
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

// timeText writes a time with an offset, or in one of TOML's three local forms.
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
