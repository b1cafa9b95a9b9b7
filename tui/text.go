package tui

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// cut shortens a line to w cells, with a sign where something is missing.
func cut(s string, w int) string {
	if w <= 0 {
		return ""
	}
	return ansi.Truncate(s, w, "…")
}

// pad cuts or fills a line to exactly w cells.
func pad(s string, w int) string {
	s = cut(s, w)
	return s + strings.Repeat(" ", max(w-ansi.StringWidth(s), 0))
}

// padLeft is pad with the text at the right.
func padLeft(s string, w int) string {
	s = cut(s, w)
	return strings.Repeat(" ", max(w-ansi.StringWidth(s), 0)) + s
}

// wrap breaks text into lines of at most w cells.
func wrap(s string, w int) []string {
	if w <= 0 {
		return nil
	}
	return strings.Split(ansi.Wrap(s, w, ""), "\n")
}

// hang is wrap, with the lines of a budget's share set in under its text.
func hang(s string, w int) []string {
	const indent = "                "
	if !strings.Contains(s, "▇") || w <= len(indent) {
		return wrap(s, w)
	}
	first, rest, _ := strings.Cut(ansi.Wrap(s, w, ""), "\n")
	lines := []string{first}
	if rest == "" {
		return lines
	}
	for _, l := range wrap(strings.ReplaceAll(rest, "\n", " "), w-len(indent)) {
		lines = append(lines, indent+l)
	}
	return lines
}

// spread puts left and right at the ends of a line of w cells; the right
// side wins where there is no room for both.
func spread(left, right string, w int) string {
	room := w - ansi.StringWidth(right) - 1
	if room < 1 {
		return pad(right, w)
	}
	return pad(left, room) + " " + right
}

// besides puts two blocks of lines side by side, left ones padded to lw.
func besides(left, right []string, lw int) []string {
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
		lines[i] = pad(l, lw) + r
	}
	return lines
}

// window is the h entries around the one at the cursor, and the number of the
// first one shown.
func window[T any](lines []T, cursor, h int) ([]T, int) {
	if h <= 0 {
		return nil, 0
	}
	if len(lines) <= h {
		return lines, 0
	}
	first := min(max(cursor-h/2, 0), len(lines)-h)
	return lines[first : first+h], first
}

// sanitise makes one printable line of text that came from outside.
func sanitise(s string) string {
	s, _, _ = strings.Cut(s, "\n")
	return strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f || (r >= 0x80 && r < 0xa0) {
			return -1
		}
		return r
	}, ansi.Strip(s))
}

// cells is the width of a text on screen.
func cells(s string) int { return ansi.StringWidth(s) }
