// Package printable makes text safe to show. A file may hold anything, even commands to a
// terminal; text from outside the program goes through here before it is shown.
package printable

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
)

// Steers reports whether a character, instead of showing, may steer a terminal or hide in
// text. These are controls, the marks that turn the reading direction or have no width, and
// the separators of lines and paragraphs (classes Cc, Cf, Zl and Zp of Unicode).
func Steers(r rune) bool {
	if r < 0x7f {
		return r < ' '
	}
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Zl, unicode.Zp)
}

// Line puts text on one line: line ends and tabs become spaces, control sequences and
// characters that steer are dropped.
func Line(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n', r == '\t', r == '\u2028', r == '\u2029':
			return ' '
		case Steers(r):
			return -1
		default:
			return r
		}
	}, ansi.Strip(strings.TrimRight(s, "\r\n")))
}

// Styled drops everything that steers from a line of a screen except its colours.
func Styled(line string) string {
	if strings.IndexFunc(line, Steers) < 0 {
		return line
	}
	var b strings.Builder
	for line != "" {
		if n := colour(line); n > 0 {
			b.WriteString(line[:n])
			line = line[n:]
			continue
		}
		r, n := utf8.DecodeRuneInString(line)
		if !Steers(r) {
			b.WriteString(line[:n])
		}
		line = line[n:]
	}
	return b.String()
}

// colour gives the length of the colour sequence at the start of s, 0 without one.
func colour(s string) int {
	if !strings.HasPrefix(s, "\x1b[") {
		return 0
	}
	for i := 2; i < len(s); i++ {
		switch c := s[i]; {
		case c == 'm':
			return i + 1
		case (c < '0' || c > '9') && c != ';' && c != ':':
			return 0
		}
	}
	return 0
}

// JSON escapes every character that steers in a JSON text, so that it reads back the same.
// The line ends between its values stay.
func JSON(src []byte) []byte {
	if bytes.IndexFunc(src, func(r rune) bool { return r != '\n' && Steers(r) }) < 0 {
		return src
	}
	var out []byte
	for _, r := range string(src) {
		if r == '\n' || !Steers(r) {
			out = utf8.AppendRune(out, r)
			continue
		}
		for _, half := range utf16.AppendRune(nil, r) {
			out = fmt.Appendf(out, `\u%04x`, half)
		}
	}
	return out
}

// signs maps the signs that daub writes itself to ASCII. Those that frames are built of
// keep their width of one cell.
var signs = strings.NewReplacer(
	"▸", ">", "›", ">", "“", "\"", "”", "\"", "·", "-", "…", "~", "─", "-", "│", "|", "×", "x", "▇", "#",
	"↑", "^", "↓", "v", "←", "<", "→", ">", "–", "-", "³", "3", "Δ", "d", "µ", "u",
	"█", "#", "▒", "~", "▀", "'", "▄", ",", "━", "=", "◂", "<", "✓", "*",
	"±", "+/-", " °", " deg ", "°", " deg ", "≥", ">=", "≤", "<=",
)

// ASCII writes daub's own signs in ASCII. Letters of names stay as they are.
func ASCII(s string) string { return signs.Replace(s) }

// Text drops the characters that steer or that no page can show; tabs and line ends stay.
func Text(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t', r == '\n', r == '\r':
			return r
		case Steers(r), r == 0xfffe, r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "�"))
}

// Markdown escapes one line of text for Markdown, so that nothing in it becomes a mark, a
// link, a cell's end or HTML.
func Markdown(s string) string {
	s = markdownSigns.Replace(s)
	digits := len(s) - len(strings.TrimLeft(s, "0123456789"))
	switch {
	case s == "":
	case strings.ContainsRune("#+-=", rune(s[0])):
		s = `\` + s
	case digits > 0 && digits < len(s) && (s[digits] == '.' || s[digits] == ')') && (digits+1 == len(s) ||
		s[digits+1] == ' '): // else a list begins
		s = s[:digits] + `\` + s[digits:]
	}
	return s
}

// markdownSigns escapes the characters and beginnings of links that Markdown gives a
// meaning.
var markdownSigns = strings.NewReplacer(
	`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "<", `\<`, ">", `\>`, "|", `\|`, "~", `\~`,
	"&", `\&`, "@", `\@`, "://", `\://`, "www.", `www\.`, "WWW.", `WWW\.`,
)

// Words puts all words on one line, one space between them.
func Words(s string) string { return strings.Join(strings.Fields(Text(s)), " ") }

// PlainLetters replaces common small letters with accents by plain ones. Other scripts
// stay.
func PlainLetters(s string) string { return plainLetters.Replace(s) }

// plainLetters maps accented small letters to plain ones.
var plainLetters = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ã", "a", "ä", "ae", "å", "a", "ā", "a", "ă", "a", "ą", "a", "æ", "ae",
	"ç", "c", "ć", "c", "č", "c", "ď", "d", "đ", "d", "ð", "d",
	"è", "e", "é", "e", "ê", "e", "ë", "e", "ē", "e", "ė", "e", "ę", "e", "ě", "e", "ğ", "g",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ī", "i", "ı", "i", "ł", "l", "ñ", "n", "ń", "n", "ň", "n",
	"ò", "o", "ó", "o", "ô", "o", "õ", "o", "ö", "oe", "ø", "o", "ō", "o", "ő", "o", "œ", "oe",
	"ř", "r", "ś", "s", "š", "s", "ş", "s", "ș", "s", "ß", "ss", "ť", "t", "ț", "t", "þ", "th",
	"ù", "u", "ú", "u", "û", "u", "ü", "ue", "ū", "u", "ů", "u", "ű", "u", "ý", "y", "ÿ", "y",
	"ź", "z", "ż", "z", "ž", "z",
)
