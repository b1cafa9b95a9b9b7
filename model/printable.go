package model

import (
	"strings"
	"unicode"
)

// Printable is a text without the characters that no page can show; tabs and
// line ends stay.
func Printable(s string) string {
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

// OneLine is a text on one line.
func OneLine(s string) string { return strings.Join(strings.Fields(Printable(s)), " ") }

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
