package ui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// Cut shortens a line to w cells, with a sign at the end if something is missing.
func Cut(s string, w int) string {
	if w <= 0 {
		return ""
	}
	return ansi.Truncate(s, w, "…")
}

// Pad cuts or fills a line to exactly w cells.
func Pad(s string, w int) string {
	s = Cut(s, w)
	return s + strings.Repeat(" ", max(w-ansi.StringWidth(s), 0))
}

// PadLeft cuts or fills a line to w cells with the text at the right.
func PadLeft(s string, w int) string {
	s = Cut(s, w)
	return strings.Repeat(" ", max(w-ansi.StringWidth(s), 0)) + s
}

// Wrap breaks text into lines of at most w cells.
func Wrap(s string, w int) []string {
	if w <= 0 {
		return nil
	}
	return strings.Split(ansi.Wrap(s, w, ""), "\n")
}

// Hang wraps text and indents its further lines: under a budget's bar, or behind a
// sign.
func Hang(s string, w int) []string {
	indent := "              "
	if !strings.Contains(s, "▇") {
		indent = "  "
	}
	if w <= len(indent) {
		return Wrap(s, w)
	}
	first, rest, _ := strings.Cut(ansi.Wrap(s, w, ""), "\n")
	lines := []string{first}
	if rest == "" {
		return lines
	}
	for _, l := range Wrap(strings.ReplaceAll(rest, "\n", " "), w-len(indent)) {
		lines = append(lines, indent+l)
	}
	return lines
}

// Justify puts left and right at the two ends of w cells. If both do not fit, right
// stays.
func Justify(left, right string, w int) string {
	room := w - ansi.StringWidth(right) - 1
	if room < 1 {
		return Pad(right, w)
	}
	return Pad(left, room) + " " + right
}

// Columns puts two blocks of lines side by side; the left one is lw cells wide.
func Columns(left, right []string, lw int) []string {
	n := max(len(left), len(right))
	lines := make([]string, n)
	for i := range lines {
		l, r := "", ""
		if i < len(left) {
			l = left[i]
		}
		if i < len(right) {
			r = right[i]
		}
		lines[i] = Pad(l, lw) + r
	}
	return lines
}

// Fitting returns the first text that fits into w cells, else the last one cut.
func Fitting(w int, texts ...string) string {
	for _, t := range texts {
		if Cells(t) <= w {
			return t
		}
	}
	return Cut(texts[len(texts)-1], w)
}

// Cells returns the width of text on screen, in cells.
func Cells(s string) int { return ansi.StringWidth(s) }

// Uncoloured joins lines to one text without colours.
func Uncoloured(lines []string) string { return ansi.Strip(strings.Join(lines, "\n")) + "\n" }
