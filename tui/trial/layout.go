package trial

// layout gives the rows of the bench's bands. It depends only on the window, so
// that no band moves when a key is pressed.
type layout struct {
	w, h   int
	narrow bool // short words instead of tests, small digits
	now    int  // first row of the band "what to do now"
	nowH   int
	dish   int // row of the dish; the answer is below it
	rule   int // row of the last message
	lower  int // first row of steps and chart
}

// Rows of the first band: a head and the eight levels, or half as many in two
// columns.
const (
	nowRows       = 9
	nowRowsNarrow = 5
	lowHeight     = 15 // below this height the band is narrow at any width
)

func layoutOf(w, h int) layout {
	l := layout{w: w, h: h, nowH: nowRows, narrow: w < 60 || h < lowHeight}
	if l.narrow {
		l.nowH = nowRowsNarrow
	}
	gap := 0
	if h >= 26 {
		gap = 1
	}
	l.now = gap
	l.dish = l.now + l.nowH + gap
	l.rule = l.dish + 2
	l.lower = l.rule + 1
	return l
}

func (l layout) lowerH() int { return max(l.h-l.lower, 0) }

// low reports whether the first band leaves hardly a row for anything else.
func (l layout) low() bool { return l.h < lowHeight }

// zone is a rectangle of the screen that reacts to a click.
type zone struct {
	x, y, w, h int
	does       func()
}

// drawn is a screen as lines, with its clickable zones.
type drawn struct {
	lines []string
	zones []zone
}

// put replaces lines from a row on.
func (d *drawn) put(row int, lines ...string) {
	for i, l := range lines {
		if at := row + i; at >= 0 && at < len(d.lines) {
			d.lines[at] = l
		}
	}
}

// area makes a rectangle clickable.
func (d *drawn) area(x, y, w, h int, does func()) {
	d.zones = append(d.zones, zone{x, y, w, h, does})
}

// at returns the action of a click on a cell, nil for none.
func (d *drawn) at(x, y int) func() {
	for i := len(d.zones) - 1; i >= 0; i-- {
		if z := d.zones[i]; x >= z.x && x < z.x+z.w && y >= z.y && y < z.y+z.h {
			return z.does
		}
	}
	return nil
}
