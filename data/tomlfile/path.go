package tomlfile

import (
	"strconv"
)

// key reads a key and its dotted parts, with the space around them.
func (s *scanner) key() (parts []string, ok bool) {
	for {
		s.skipSpace()
		start := s.pos
		var part string
		switch c := s.peek(); c {
		case '"', '\'':
			if !s.str() {
				return nil, false
			}
			part = unquote(s.src[start:s.pos])
		default:
			for s.more() && isBare(s.peek()) {
				s.pos++
			}
			part = s.src[start:s.pos]
			if part == "" {
				return nil, false
			}
		}
		if part == "" && s.nameless == 0 {
			s.nameless = s.lineNo
		}
		parts = append(parts, part)
		if len(parts) > maxSegments {
			panic(errTooDeep{s.lineNo})
		}
		s.skipSpace()
		if s.peek() != '.' {
			return parts, true
		}
		s.pos++
	}
}

func isBare(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '_' || c == '-'
}

func allBare(key string) bool {
	for i := range len(key) {
		if !isBare(key[i]) {
			return false
		}
	}
	return key != ""
}

// unquote returns the text of a quoted key as in the file. A key with escapes that
// Go does not share keeps them: it is unknown in any spelling.
func unquote(quoted string) string {
	inner := quoted[1 : len(quoted)-1]
	if quoted[0] == '"' {
		if text, err := strconv.Unquote(quoted); err == nil {
			return text
		}
	}
	return inner
}

// Join returns the path of a key in a table.
func Join(path, key string) string {
	if !allBare(key) {
		key = strconv.Quote(key)
	}
	if path == "" {
		return key
	}
	return path + "." + key
}

// item returns the path of the n-th entry of a list, from 0.
func item(path string, n int) string { return path + "[" + strconv.Itoa(n) + "]" }

var places = pattern(`\[[0-9]+\]`)

// title turns a path of bare keys into a header's title: without the indexes of
// lists.
func title(path string) string { return places().ReplaceAllString(path, "") }
