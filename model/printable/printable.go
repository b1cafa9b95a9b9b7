// Package printable makes text safe to show. A file may hold anything, also
// what a terminal would obey; whatever comes from outside the program goes
// through here before it is shown.
package printable

import (
	"strings"

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

// FirstLine is Line of what stands before the first line end, as of a text that
// was pasted.
func FirstLine(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	return Line(s)
}

// signs are the signs that daub writes itself, with their stand-ins in ASCII.
// Those that frames are built of keep their width of one cell.
var signs = strings.NewReplacer(
	"▸", ">", "›", ">", "“", "\"", "”", "\"", "·", "-", "…", "~", "─", "-", "│", "|", "×", "x", "▇", "#",
	"↑", "^", "↓", "v", "←", "<", "→", ">", "–", "-", "³", "3", "Δ", "d",
	"±", "+/-", "°", " deg ", "≥", ">=", "≤", "<=",
)

// ASCII writes daub's own signs in ASCII. Letters of names stay as they are.
func ASCII(s string) string { return signs.Replace(s) }
