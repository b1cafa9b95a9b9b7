package tomlfile

import (
	"bytes"
	"errors"
	"fmt"
	"regexp"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// MaxFileSize is the largest file read: some thousands of trials.
const MaxFileSize = 8 << 20

// TooLarge refuses a file larger than MaxFileSize.
var TooLarge = Problem{
	0, fmt.Sprintf("the file is larger than %d MB", MaxFileSize>>20),
	"check that it is the file you meant",
}

// The most of each that is read. No bench comes near: ten trials of as many steps
// as a trial may have are 50,000 tables. More would let a hostile file cost a
// command hundreds of megabytes.
const (
	maxTables = 50_000
	maxValues = 200_000 // in lists
	maxKeys   = 300_000
	// maxOddKeys limits a text that Write would not give, which costs the library
	// four times as much.
	maxOddKeys = 100_000
)

// tooMany refuses a text with more than that.
func tooMany(src []byte, maxKeys int) (Problem, bool) {
	refused := func(line, most int, what string) (Problem, bool) {
		said := fmt.Sprintf("the file has more than %d %s", most, what)
		return Problem{line, said, "check that it is the file you meant"}, true
	}
	tables, keys, values, n := 0, 0, 0, 0
	for line := range bytes.Lines(src) {
		n++
		line = bytes.TrimSpace(line)
		switch {
		case len(line) == 0 || line[0] == '#':
			continue
		case line[0] == '[':
			tables++
		default:
			keys++
		}
		values += bytes.Count(line, []byte(","))
		switch {
		case tables > maxTables:
			return refused(n, maxTables, "tables")
		case values > maxValues:
			return refused(n, maxValues, "values in lists")
		case keys > maxKeys:
			return refused(n, maxKeys, "keys")
		}
	}
	return Problem{}, false
}

// ByteOrderMark may stand before UTF-8 text and is no part of it.
var ByteOrderMark = []byte("\xef\xbb\xbf")

// parse reads text as TOML into a tree.
func parse(src []byte) (tree map[string]any, problems []Problem) {
	if p, bad := unreadable(src); bad {
		return nil, []Problem{p}
	}
	text := string(bytes.TrimPrefix(src, ByteOrderMark))
	if tree, ok := plainTree(text); ok {
		return tree, nil
	}
	if p, bad := tooMany(src, maxOddKeys); bad {
		return nil, []Problem{p}
	}
	ix, err := scan(text)
	var deep errTooDeep
	if errors.As(err, &deep) {
		return nil, []Problem{{
			deep.line, "lists, tables or keys are nested too deeply",
			"check that it is the file you meant",
		}}
	}
	if err := decodeTOML(text, &tree); err != nil {
		return nil, []Problem{syntaxProblem(err, text, ix)}
	}
	if ix.nameless > 0 {
		// The library loses everything beside such a key in a list.
		return nil, []Problem{{ix.nameless, "a key here has no name", "give it one, or take it out"}}
	}
	return tree, nil
}

// decodeTOML turns a panic in the library into an error: no file may take the
// program down.
func decodeTOML(text string, tree *map[string]any) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%v", r)
		}
	}()
	_, err = toml.Decode(text, tree)
	return err
}

// unreadable refuses a file that is not text.
func unreadable(src []byte) (Problem, bool) {
	switch {
	case len(src) > MaxFileSize:
		return TooLarge, true
	case bytes.HasPrefix(src, []byte("\xff\xfe")), bytes.HasPrefix(src, []byte("\xfe\xff")):
		return Problem{1, "the file is written as UTF-16", "save it as UTF-8 text"}, true
	case bytes.IndexByte(src, 0) >= 0:
		return Problem{
			lineOf(src, bytes.IndexByte(src, 0)), "this is not a text file",
			"check that it is the file you meant",
		}, true
	case len(bytes.TrimSpace(bytes.TrimPrefix(src, ByteOrderMark))) == 0:
		return Problem{1, "the file is empty", "take an older copy of it, or begin anew with schema = 1"}, true
	case !utf8.Valid(src):
		at := 0
		for at < len(src) {
			r, n := utf8.DecodeRune(src[at:])
			if r == utf8.RuneError && n == 1 {
				break
			}
			at += n
		}
		return Problem{lineOf(src, at), "a character here is not UTF-8 text", "save the file as UTF-8"}, true
	}
	return tooMany(src, maxKeys)
}

func lineOf(src []byte, at int) int { return 1 + bytes.Count(src[:at], []byte("\n")) }

var (
	decimalComma = pattern(`[=\[,]\s*[0-9]+,[0-9]`)
	bareWord     = pattern(`=\s*[A-Za-z]`)
)

// pattern compiles a regular expression when first used: most files need none.
func pattern(text string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })
}

// syntaxProblem turns an error of the TOML library into a problem with a fix.
func syntaxProblem(err error, text string, ix *index) Problem {
	var at toml.ParseError
	if !errors.As(err, &at) {
		return Problem{1, "this is not TOML: " + err.Error(), "check that it is the file you meant"}
	}
	p := Problem{Line: max(at.Position.Line, 1), What: plain(at.Message)}
	lines := strings.Split(text, "\n")
	p.Line = min(p.Line, len(lines))
	line := lines[p.Line-1]
	switch {
	case strings.Contains(at.Message, "already been defined"):
		p.Fix = "keep one of the two"
		if first, ok := ix.twice[p.Line]; ok && first != p.Line {
			p.Fix = fmt.Sprintf("keep one of the two; the first is on line %d", first)
		}
	case strings.Contains(at.Message, "datetime"):
		p.Fix = "give a date and time that exist, as in 2026-05-03T10:12:00Z"
	case strings.Contains(at.Message, "strings cannot contain newlines"):
		p.Fix = "close the text with a quote on the same line"
	case decimalComma().MatchString(line):
		p.Fix = "write decimals with a point, as in 1.5"
	case strings.Contains(line, "<<<<<<<") || strings.Contains(line, "=======") || strings.Contains(line, ">>>>>>>"):
		p.Fix = "a merge left its marks here: keep one of the versions and take the marks out"
	case bareWord().MatchString(line):
		p.Fix = `text stands in quotes, as in liquid = "water"`
	default:
		p.Fix = `mend the line; lines look like key = value, tables like [[trial]], text stands in quotes`
	}
	return p
}

// plain makes a library's sentence fit in the middle of ours.
func plain(message string) string {
	message = strings.TrimRight(strings.TrimSpace(message), ".")
	message = strings.ReplaceAll(message, `'\n'`, "the end of the line")
	message = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, message)
	r, n := utf8.DecodeRuneInString(message)
	return string(unicode.ToLower(r)) + message[n:]
}

// Names of the zones in which the TOML library gives times without an offset.
const (
	localDatetime = "datetime-local"
	localDate     = "date-local"
	localTime     = "time-local"
)

// localName returns one of those names, or "" for a time with an offset.
func localName(t time.Time) string {
	switch name := t.Location().String(); name {
	case localDatetime, localDate, localTime:
		return name
	default:
		return ""
	}
}
