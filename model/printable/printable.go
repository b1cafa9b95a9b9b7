// Package printable makes text safe to show. A file may hold anything, also
// what a terminal would obey; whatever comes from outside the program goes
// through here before it is shown.
package printable

import (
	"strings"
	"unicode"

	"github.com/charmbracelet/x/ansi"
)

// Line makes one line of a text: line ends and tabs become spaces; control
// sequences, control characters and marks that turn the reading direction go.
func Line(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n', r == '\t', r == '\u2028', r == '\u2029':
			return ' '
		case r < ' ', r >= 0x7f && r < 0xa0, r == '\ufeff':
			return -1
		case r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069':
			return -1
		default:
			return r
		}
	}, ansi.Strip(strings.TrimRight(s, "\r\n")))
}

// signs are the signs that daub writes itself, with their stand-ins in ASCII.
// Those that frames are built of keep their width of one cell.
var signs = strings.NewReplacer(
	"▸", ">", "›", ">", "“", "\"", "”", "\"", "·", "-", "…", "~", "─", "-", "│", "|", "×", "x", "▇", "#",
	"↑", "^", "↓", "v", "←", "<", "→", ">", "–", "-", "³", "3", "Δ", "d",
	"█", "#", "▒", "~", "▀", "'", "▄", ",", "━", "=", "◂", "<", "✓", "*",
	"±", "+/-", "°", " deg ", "≥", ">=", "≤", "<=",
)

// ASCII writes daub's own signs in ASCII. Letters of names stay as they are.
func ASCII(s string) string { return signs.Replace(s) }

// Text is a text without the characters that no page can show; tabs and line
// ends stay.
func Text(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t', r == '\n', r == '\r':
			return r
		case unicode.IsControl(r), r == '\u2028', r == '\u2029', r == 0xfffe, r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "�"))
}

// Words are the words of a text on one line, one space between them.
func Words(s string) string { return strings.Join(strings.Fields(Text(s)), " ") }

// PlainLetters writes common small letters with accents in plain ones. Other
// scripts stay.
func PlainLetters(s string) string { return plainLetters.Replace(s) }

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
