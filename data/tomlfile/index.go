package tomlfile

import (
	"fmt"
	"strings"
)

// index gives the place of everything in a TOML text. It holds the comments too.
//
// The TOML library cannot: it reports a type error at the wrong place when tables
// repeat. A path counts from 0, "trial[1].step[0].level"; a key that is not bare is
// quoted in it.
type index struct {
	src        string         // the text
	lines      map[string]int // path of a header, key or list item → line, from 1
	twice      map[int]int    // line of a second definition → line of the first
	nameless   int            // line of a key that is "", 0 if there is none
	comments   []comment
	statements []statement // only after a full scan
}

// statement is a header, or a key with its value, in the text.
type statement struct {
	path   string
	header bool
	span   // whole lines, without the last line end
}

// comment is a comment, or several lines of comment together, as in the text, with
// blank lines between them.
type comment struct {
	text  string
	path  string // the path it belongs to; "" with head and tail
	where where
	at    int // where it begins in the text
}

// lines gives the comment's lines without the space around them. Blank lines, "",
// stay between comments, one at a time, and between the last one and the line
// below.
func (c comment) lines(yield func(string) bool) {
	blank := false
	for line := range strings.SplitSeq(c.text, "\n") {
		line = strings.Trim(line, " \t\r")
		if line == "" {
			blank = true
			continue
		}
		if blank && !yield("") || !yield(line) {
			return
		}
		blank = false
	}
	if blank && c.where != tail {
		yield("")
	}
}

type where int

const (
	above  where = iota // on lines of its own, above path
	beside              // behind path on its line
	head                // before everything else in the file
	tail                // after everything else
)

// Limits that keep a hostile file from exhausting the stack or taking for ever.
const (
	maxNesting  = 64
	maxSegments = 64
)

// line returns the line of path, for a list of tables the first; for something
// absent, that of its table.
func (ix *index) line(path string) int {
	for path != "" {
		if n, ok := ix.lines[path]; ok {
			return n
		}
		if n, ok := ix.lines[item(path, 0)]; ok {
			return n
		}
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
	}
	return 1
}

// scanner goes through a TOML text once. It relies on the text being TOML, which
// the library checks elsewhere. It stops at anything it does not understand.
type scanner struct {
	*index
	pos    int
	lineNo int
	depth  int
	full   bool           // whether every statement is kept
	tables map[string]int // path of a list of tables → how many so far
	prefix string         // path of the table the keys belong to
	lead   span           // comment lines waiting for the line below
	seen   bool           // a header or key was met
}

// span is a part of the text, from one byte up to another.
type span struct{ from, to int }

// errTooDeep refuses a file nested too deeply for any use.
type errTooDeep struct{ line int }

func (e errTooDeep) Error() string { return fmt.Sprintf("line %d: nested too deeply", e.line) }

// scan indexes a text without a byte order mark. The error is errTooDeep; a text
// that is not TOML is indexed up to its first mistake.
func scan(src string) (ix *index, err error) { return scanned(src, false) }

// fullScan is scan that also keeps every statement; few texts need that.
func fullScan(src string) (ix *index, err error) { return scanned(src, true) }

func scanned(src string, full bool) (ix *index, err error) {
	s := &scanner{
		full:   full,
		index:  &index{src: src, lines: map[string]int{}, twice: map[int]int{}},
		lineNo: 1, tables: map[string]int{},
	}
	defer func() {
		if r := recover(); r != nil {
			deep, ok := r.(errTooDeep)
			if !ok {
				panic(r)
			}
			ix, err = s.index, deep
		}
	}()
	for s.statement() {
	}
	if s.seen {
		s.keep(tail, "")
	} else {
		s.keep(head, "") // nothing but comments
	}
	return s.index, nil
}

func (s *scanner) peek() byte {
	if s.pos < len(s.src) {
		return s.src[s.pos]
	}
	return 0
}

func (s *scanner) more() bool { return s.pos < len(s.src) }

func (s *scanner) skipSpace() {
	for s.more() && (s.peek() == ' ' || s.peek() == '\t' || s.peek() == '\r') {
		s.pos++
	}
}

// statement reads one line: blank, comment, header or key. It reports whether
// to go on.
func (s *scanner) statement() bool {
	s.skipSpace()
	if !s.more() {
		return false
	}
	switch s.peek() {
	case '\n':
		s.newline()
		if s.lead.to > 0 {
			s.lead.to = s.pos
		}
		return true
	case '#':
		if s.lead.to == 0 {
			s.lead.from = s.pos
		}
		s.commentText()
		if s.more() {
			s.newline()
		}
		s.lead.to = s.pos
		return true
	case '[':
		begin := s.pos
		return s.header() && s.endOfLine(begin, s.prefix, true)
	default:
		begin := s.pos
		path, ok := s.keyValue(s.prefix)
		return ok && s.endOfLine(begin, path, false)
	}
}

// newline steps over a line end.
func (s *scanner) newline() { s.pos++; s.lineNo++ }

// commentText reads a comment up to the end of its line.
func (s *scanner) commentText() string {
	end := strings.IndexByte(s.src[s.pos:], '\n')
	if end < 0 {
		end = len(s.src) - s.pos
	}
	text := s.src[s.pos : s.pos+end]
	s.pos += end
	return strings.TrimRight(text, " \t\r")
}

// endOfLine reads what may follow a header or a value that begins there.
func (s *scanner) endOfLine(begin int, path string, header bool) bool {
	s.skipSpace()
	if at := s.pos; s.peek() == '#' && s.more() {
		s.comments = append(s.comments, comment{s.commentText(), path, beside, at})
	}
	if s.more() && s.peek() != '\n' {
		return false
	}
	begin = strings.LastIndexByte(s.src[:begin], '\n') + 1
	if s.full {
		s.statements = append(s.statements, statement{path, header, span{begin, s.pos}})
	}
	if s.more() {
		s.newline()
	}
	return true
}

// keep attaches the waiting comment lines.
func (s *scanner) keep(w where, path string) {
	if s.lead.to == 0 {
		return
	}
	text := strings.TrimSuffix(s.src[s.lead.from:s.lead.to], "\n")
	s.comments = append(s.comments, comment{strings.ReplaceAll(text, "\r", ""), path, w, s.lead.from})
	s.lead = span{}
}

// meet notes a header or key and attaches the comments above it.
func (s *scanner) meet(path string) {
	if s.seen {
		s.keep(above, path)
	} else {
		s.keep(head, "")
	}
	s.seen = true
	s.note(path, true)
}

// note records the place of a path; the first one counts.
func (s *scanner) note(path string, defined bool) {
	if first, ok := s.lines[path]; !ok {
		s.lines[path] = s.lineNo
	} else if defined {
		s.twice[s.lineNo] = first
	}
}

// header reads [a.b] or [[a.b]]; the next keys belong to its table.
func (s *scanner) header() bool {
	s.pos++
	list := s.peek() == '['
	if list {
		s.pos++
	}
	keys, ok := s.key()
	if !ok || s.peek() != ']' {
		return false
	}
	s.pos++
	if list {
		if s.peek() != ']' {
			return false
		}
		s.pos++
	}
	path := ""
	for i, k := range keys {
		path = Join(path, k)
		if n := s.tables[path]; i < len(keys)-1 {
			if n > 0 {
				path = item(path, n-1)
			}
			s.note(path, false)
		} else if list {
			s.tables[path] = n + 1
			path = item(path, n)
		}
	}
	s.prefix = path
	s.meet(path)
	return true
}

// keyValue reads key = value in the table prefix.
func (s *scanner) keyValue(prefix string) (path string, ok bool) {
	keys, ok := s.key()
	if !ok || s.peek() != '=' {
		return "", false
	}
	s.pos++
	path = prefix
	for i, k := range keys {
		path = Join(path, k)
		if i < len(keys)-1 {
			s.note(path, false)
		}
	}
	if s.depth == 0 {
		s.meet(path)
	} else {
		s.note(path, true)
	}
	return path, s.value(path)
}
