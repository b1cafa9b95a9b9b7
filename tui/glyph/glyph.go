// Package glyph draws what has to be read from a metre away: big digits in block
// letters, spoons in their size, a bar, and a row of levels. It knows no screen and
// no colour, and imports nothing of ours.
package glyph

import "strings"

// Size is the size of large digits.
type Size int

// The sizes.
const (
	Small Size = iota // a digit is 3 cells wide and 3 lines high
	Large             // 6 cells wide and 5 lines high
)

// Lines returns how many lines digits of this size take.
func (s Size) Lines() int {
	if s == Large {
		return 5
	}
	return 3
}

// pixels holds the digits and signs, five rows each, parted by spaces.
var pixels = map[rune]string{
	'0': "### #.# #.# #.# ###", '1': ".#. ##. .#. .#. ###", '2': "### ..# ### #.. ###",
	'3': "### ..# ### ..# ###", '4': "#.# #.# ### ..# ..#", '5': "### #.. ### ..# ###",
	'6': "### #.. ### #.# ###", '7': "### ..# ..# ..# ..#", '8': "### #.# ### #.# ###",
	'9': "### #.# ### ..# ###", ':': ". # . # .", '.': ". . . . #",
	'×': "... #.# .#. #.# ...", '–': "... ... ### ... ...",
}

// Digits draws digits, a colon, a point, × and – in block letters; other signs
// are left out.
func Digits(text string, size Size) []string {
	rows := make([]string, 5)
	for _, r := range text {
		drawn, ok := pixels[r]
		if !ok {
			continue
		}
		for i, row := range strings.Fields(drawn) {
			if rows[i] != "" {
				rows[i] += "."
			}
			rows[i] += row
		}
	}
	if size == Large {
		for i := range rows {
			rows[i] = strings.NewReplacer("#", "██", ".", "  ").Replace(rows[i])
		}
		return rows
	}
	return halved(rows)
}

// halved puts two rows of pixels into one line.
func halved(rows []string) []string {
	rows = append(rows, strings.Repeat(".", len(rows[0])))
	var lines []string
	for i := 0; i < len(rows); i += 2 {
		var line strings.Builder
		for x := range rows[i] {
			switch up, low := rows[i][x] == '#', rows[i+1][x] == '#'; {
			case up && low:
				line.WriteString("█")
			case up:
				line.WriteString("▀")
			case low:
				line.WriteString("▄")
			default:
				line.WriteString(" ")
			}
		}
		lines = append(lines, line.String())
	}
	return lines
}

// Bar draws a line of w cells in two parts: done, a share from 0 to 1, and the
// rest.
func Bar(share float64, w int) (done, left string) {
	n := min(max(int(share*float64(w)+0.5), 0), max(w, 0))
	return strings.Repeat("━", n), strings.Repeat("─", max(w-n, 0))
}

// SpoonLines is the height of a spoon, in lines.
const SpoonLines = 3

// Spoons draws n level spoons of ml mL each, side by side in at most w cells; if
// they do not fit, only one. Liquid is drawn lighter.
func Spoons(n int, ml float64, liquid bool, w int) []string {
	one := spoon(ml, liquid)
	width := len([]rune(one[0])) + 2
	if n*width > w {
		n = 1
	}
	lines := make([]string, SpoonLines)
	for i := range lines {
		lines[i] = strings.Repeat(pad(one[i], width), n)
	}
	return lines
}

// bowls gives the width of a bowl by its least volume in mL; a teaspoon holds 5.
var bowls = []struct {
	ml   float64
	wide int
}{{10, 12}, {4.5, 9}, {3, 8}, {2, 7}, {1, 5}, {0.5, 4}, {0.2, 3}, {0, 2}}

func spoon(ml float64, liquid bool) []string {
	wide := 2
	for _, b := range bowls {
		if ml >= b.ml {
			wide = b.wide
			break
		}
	}
	full := "█"
	if liquid {
		full = "▒"
	}
	lines := []string{strings.Repeat(full, wide) + "━━━━", "", ""}
	if wide >= 4 {
		lines[1] = " " + strings.Repeat(full, wide-2)
	}
	if wide >= 7 {
		lines[2] = "  " + strings.Repeat("▀", wide-4)
	}
	return lines
}

func pad(s string, w int) string { return s + strings.Repeat(" ", max(w-len([]rune(s)), 0)) }
