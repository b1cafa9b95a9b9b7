package tomlfile

import (
	"strconv"
	"strings"
	"time"
)

// plainTree reads a text of the form that Write gives, as nearly every file has:
// tables by headers, one bare key a line, plain values. It gives the same as the
// TOML library in a fifth of the time. ok is false for a text with anything else in
// it, right or wrong; the library then reads it.
func plainTree(text string) (tree map[string]any, ok bool) {
	for i := range len(text) {
		if c := text[i]; c < ' ' && c != '\n' && c != '\t' || c == 0x7f {
			return nil, false
		}
	}
	tree = map[string]any{}
	table := tree
	for text != "" {
		var line string
		line, text, _ = strings.Cut(text, "\n")
		line = strings.Trim(line, " \t")
		switch {
		case line == "" || line[0] == '#':
		case line[0] == '[':
			if table, ok = plainHeader(tree, line); !ok {
				return nil, false
			}
		default:
			if !plainKey(table, line) {
				return nil, false
			}
		}
	}
	return tree, true
}

// plainHeader makes the table of [a.b], or one more of [[a.b]].
func plainHeader(tree map[string]any, line string) (map[string]any, bool) {
	open, shut := "[", "]"
	if strings.HasPrefix(line, "[[") {
		open, shut = "[[", "]]"
	}
	path, rest, found := strings.Cut(line[len(open):], shut)
	if !found || !nothingBehind(rest) || strings.Count(path, ".") >= maxSegments {
		return nil, false
	}
	in, dotted := tree, false
	for {
		var name string
		name, path, dotted = strings.Cut(path, ".")
		if !allBare(name) {
			return nil, false
		}
		there, known := in[name]
		if !dotted {
			list, isList := there.([]map[string]any)
			table := map[string]any{}
			switch {
			case open == "[[" && (isList || !known):
				in[name] = append(list, table)
			case open == "[" && !known:
				in[name] = table
			default:
				return nil, false
			}
			return table, true
		}
		switch there := there.(type) {
		case map[string]any:
			in = there
		case []map[string]any:
			in = there[len(there)-1]
		default:
			return nil, false
		}
	}
}

// plainKey reads key = value into a table.
func plainKey(table map[string]any, line string) bool {
	name, rest, found := strings.Cut(line, "=")
	name = strings.TrimRight(name, " \t")
	if _, twice := table[name]; !found || twice || !allBare(name) {
		return false
	}
	value, rest, ok := plainValue(strings.TrimLeft(rest, " \t"))
	if !ok || !nothingBehind(rest) {
		return false
	}
	table[name] = value
	return true
}

// plainValue reads the value that text begins with and returns the rest.
func plainValue(text string) (value any, rest string, ok bool) {
	switch {
	case text == "":
		return nil, "", false
	case text[0] == '"':
		words, rest, found := strings.Cut(text[1:], `"`)
		empty := words == "" && strings.HasPrefix(rest, `"`) // a text of several lines begins
		return words, rest, found && !empty && !strings.Contains(words, `\`)
	case text[0] == '[':
		return plainList(text[1:])
	}
	end := strings.IndexAny(text, " \t,]#")
	if end < 0 {
		end = len(text)
	}
	value, ok = plainWord(text[:end])
	return value, text[end:], ok
}

func plainList(text string) (list []any, rest string, ok bool) {
	list = []any{}
	text = strings.TrimLeft(text, " \t")
	if strings.HasPrefix(text, "]") {
		return list, text[1:], true
	}
	for {
		var one any
		if strings.HasPrefix(text, "[") {
			return nil, "", false
		}
		if one, text, ok = plainValue(text); !ok {
			return nil, "", false
		}
		list = append(list, one)
		text = strings.TrimLeft(text, " \t")
		switch {
		case strings.HasPrefix(text, "]"):
			return list, text[1:], true
		case strings.HasPrefix(text, ","):
			text = strings.TrimLeft(text[1:], " \t")
		default:
			return nil, "", false
		}
	}
}

// plainWord reads true, false, a whole number, a decimal, or a moment in UTC.
func plainWord(word string) (any, bool) {
	switch {
	case word == "true", word == "false":
		return word == "true", true
	case len(word) == len("2026-05-03T10:12:00Z") && word[10] == 'T' && word[19] == 'Z':
		t, err := time.Parse("2006-01-02T15:04:05Z07:00", word)
		return t, err == nil
	}
	whole, part, isDecimal := strings.Cut(word, ".")
	digits := strings.TrimPrefix(whole, "-")
	if !areDigits(digits) || len(digits) > 1 && digits[0] == '0' || isDecimal && !areDigits(part) {
		return nil, false
	}
	if isDecimal {
		v, err := strconv.ParseFloat(word, 64)
		return v, err == nil
	}
	v, err := strconv.ParseInt(word, 10, 64)
	return v, err == nil
}

func areDigits(text string) bool {
	for i := range len(text) {
		if text[i] < '0' || text[i] > '9' {
			return false
		}
	}
	return text != ""
}

// nothingBehind reports whether nothing follows in a line, except a comment.
func nothingBehind(rest string) bool {
	rest = strings.TrimLeft(rest, " \t")
	return rest == "" || rest[0] == '#'
}
