package ui

import (
	"cmp"
	"fmt"
)

// Scroll scrolls text that may be longer than its window.
type Scroll struct {
	top    int  // first line shown
	page   int  // lines that were in view at the last Sight; 0 before it
	follow bool // the cursor has moved: scroll it into view
}

// ScrollKey scrolls where the arrows do something else.
var ScrollKey = Bind("Pg↑↓", "scroll", "pgup", "pgdown")

// Follow makes the next SightAt scroll the cursor into view.
func (s *Scroll) Follow() { s.follow = true }

// SightAt is Sight for text with a cursor.
func (s *Scroll) SightAt(lines []string, cursor, h int) []string {
	if s.follow {
		s.top = max(min(s.top, cursor), cursor-h+2)
		s.follow = false
	}
	return s.Sight(lines, h)
}

// ToTop goes back to the first line.
func (s *Scroll) ToTop() { s.top = 0 }

// ScrollBy scrolls by the key that was pressed; a page is as much as was in view.
func (s *Scroll) ScrollBy(key string) { s.top = max(s.top+step(key, cmp.Or(s.page, 8)), 0) }

// Sight returns the h lines in view; the last of them says how many more there are.
func (s *Scroll) Sight(lines []string, h int) []string {
	if h <= 0 {
		return nil
	}
	s.top, s.page = min(s.top, max(len(lines)-h, 0)), max(h-1, 1) // the last line only counts the others
	seen := append([]string{}, lines[s.top:min(s.top+h, len(lines))]...)
	if below := len(lines) - s.top - h; below > 0 {
		seen[h-1] = NoteStyle.Render(fmt.Sprintf("↓ %d more lines (PgDn)", below+1))
	}
	return seen
}

// MoveCursor moves a cursor in a list of n by the key that was pressed.
func MoveCursor(at, n int, key string) int { return min(max(at+step(key, 10), 0), max(n-1, 0)) }

// step returns how many lines a key moves; down is positive.
func step(key string, page int) int {
	return map[string]int{"up": -1, "down": 1, "pgup": -page, "pgdown": page}[key]
}

// Window returns the h entries around the cursor and the index of the first.
func Window[T any](lines []T, cursor, h int) ([]T, int) {
	if h <= 0 {
		return nil, 0
	}
	if len(lines) <= h {
		return lines, 0
	}
	first := min(max(cursor-h/2, 0), len(lines)-h)
	return lines[first : first+h], first
}
