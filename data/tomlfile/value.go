package tomlfile

import "strings"

// value steps over one value, indexing the tables and lists in it.
func (s *scanner) value(path string) bool {
	s.skipSpace()
	switch s.peek() {
	case '"', '\'':
		return s.str()
	case '[':
		return s.nested(func() bool { return s.list(path) })
	case '{':
		return s.nested(func() bool { return s.inlineTable(path) })
	}
	start := s.pos
	for s.more() && !strings.ContainsRune(",]}#\n", rune(s.peek())) {
		s.pos++
	}
	return strings.TrimSpace(s.src[start:s.pos]) != ""
}

func (s *scanner) nested(read func() bool) bool {
	if s.depth++; s.depth > maxNesting {
		panic(errTooDeep{s.lineNo})
	}
	ok := read()
	s.depth--
	return ok
}

// str steps over a string of any of the four kinds.
func (s *scanner) str() bool {
	quote := s.src[s.pos : s.pos+1]
	if strings.HasPrefix(s.src[s.pos:], strings.Repeat(quote, 3)) {
		return s.longStr(quote)
	}
	for s.pos++; s.more(); s.pos++ {
		switch c := s.peek(); {
		case c == quote[0]:
			s.pos++
			return true
		case c == '\n':
			return false
		case c == '\\' && quote == `"`:
			s.pos++
		}
	}
	s.pos = len(s.src)
	return false
}

// longStr steps over a string in three quotes. Up to two more quotes may stand
// before the closing ones.
func (s *scanner) longStr(quote string) bool {
	three := strings.Repeat(quote, 3)
	for s.pos += 3; s.more(); s.pos++ {
		switch c := s.peek(); {
		case c == '\n':
			s.lineNo++
		case c == '\\' && quote == `"`:
			if s.pos++; s.peek() == '\n' {
				s.lineNo++
			}
		case strings.HasPrefix(s.src[s.pos:], three):
			s.pos += 3
			for range 2 {
				if s.more() && s.peek() == quote[0] {
					s.pos++
				}
			}
			return true
		}
	}
	s.pos = len(s.src)
	return false
}

// inner gathers the comments inside a value. They belong to the entry before them
// on the same line, else to the next entry.
type inner struct {
	waiting []comment
	last    string // path of the latest entry
	ended   int    // line on which it ended
}

// gap steps over space, line ends and comments inside a value.
func (s *scanner) gap(in *inner) {
	for {
		s.skipSpace()
		switch {
		case s.more() && s.peek() == '\n':
			s.newline()
		case s.more() && s.peek() == '#':
			at := s.pos
			c := comment{s.commentText(), in.last, above, at}
			if in.last != "" && in.ended == s.lineNo {
				s.comments = append(s.comments, c)
			} else {
				in.waiting = append(in.waiting, c)
			}
		default:
			return
		}
	}
}

// attach gives the waiting comments to an entry.
func (s *scanner) attach(in *inner, path string) {
	for _, c := range in.waiting {
		c.path = path
		s.comments = append(s.comments, c)
	}
	in.waiting = nil
}

// list reads [ … ].
func (s *scanner) list(path string) bool {
	n := -1
	return s.entries(path, ']', func(in *inner) (at string, ok bool) {
		n++
		at = item(path, n)
		s.note(at, true)
		s.attach(in, at)
		return at, s.value(at)
	})
}

// inlineTable reads { … }.
func (s *scanner) inlineTable(path string) bool {
	return s.entries(path, '}', func(in *inner) (at string, ok bool) {
		if at, ok = s.keyValue(path); ok {
			s.attach(in, at)
		}
		return at, ok
	})
}

// entries reads the entries between two brackets, with commas between them.
func (s *scanner) entries(path string, closing byte, entry func(in *inner) (at string, ok bool)) bool {
	s.pos++
	var in inner
	for {
		s.gap(&in)
		if s.peek() == closing {
			break
		}
		at, ok := entry(&in)
		if !ok {
			return false
		}
		in.last, in.ended = at, s.lineNo
		s.gap(&in)
		if s.peek() == closing {
			break
		}
		if s.peek() != ',' {
			return false
		}
		s.pos++
	}
	s.pos++
	s.attach(&in, path)
	return true
}
