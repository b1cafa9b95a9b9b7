package tui

import "fmt"

// scroll is a text that may be longer than its room.
type scroll struct{ top int } // first line in sight

// scrollBy moves the text by the key that was pressed.
func (s *scroll) scrollBy(key string) {
	by := map[string]int{"up": -1, "down": 1, "pgup": -8, "pgdown": 8}[key]
	s.top = max(s.top+by, 0)
}

// sight is what of the lines can be seen in h lines; the last of them says how
// many more there are.
func (s *scroll) sight(lines []string, h int) []string {
	if h <= 0 {
		return nil
	}
	s.top = min(s.top, max(len(lines)-h, 0))
	seen := append([]string{}, lines[s.top:min(s.top+h, len(lines))]...)
	if below := len(lines) - s.top - h; below > 0 {
		seen[h-1] = dimStyle.Render(fmt.Sprintf("↓ %d more lines (PgDn)", below+1))
	}
	return seen
}
