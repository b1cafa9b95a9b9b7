package chart

import "strings"

// Role says what a cell shows, for styling. Later roles lie over earlier ones.
type Role uint8

// The layers, lowest first.
const (
	Axis Role = iota + 1
	Band
	Aim
	Curve
	Dot
	Label
)

// cell is one character of the frame: a glyph, or dots if it has none.
type cell struct {
	glyph  rune
	series int16
	dots   uint8
	role   Role
}

// canvas is a frame of cells; dots can be set in a window of it. A cell of the
// window holds dx × dy dots: 2 × 4 in braille, one in ASCII.
type canvas struct {
	layout
	cells  []cell
	dx, dy int
	ascii  bool
}

func newCanvas(l layout, ascii bool) canvas {
	c := canvas{layout: l, cells: make([]cell, l.w*l.h), dx: 2, dy: dotsPerCell(ascii), ascii: ascii}
	if ascii {
		c.dx = 1
	}
	return c
}

// dotsPerCell returns how many dots a cell has from top to bottom.
func dotsPerCell(ascii bool) int {
	if ascii {
		return 1
	}
	return 4
}

// brailleBit gives the bit of U+2800 for a dot, by row and column in its cell.
var brailleBit = [4][2]uint8{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}

// at returns the cell around a dot of the window, nil outside.
func (c *canvas) at(x, y int) *cell {
	if x < 0 || y < 0 || x >= c.cols*c.dx || y >= c.rows*c.dy {
		return nil
	}
	return &c.cells[(c.top+y/c.dy)*c.w+c.left+x/c.dx]
}

// dot sets one dot of the window, unless a higher layer owns its cell.
func (c *canvas) dot(x, y int, role Role, series int) {
	if at := c.at(x, y); at != nil && role >= at.role {
		at.role, at.series = role, int16(series)
		at.dots |= brailleBit[y%c.dy][x%c.dx]
	}
}

// clear removes everything below a layer from the cell around a dot.
func (c *canvas) clear(x, y int, role Role) {
	if at := c.at(x, y); at != nil && at.role < role {
		*at = cell{}
	}
}

// text writes s from cell x, y on, one cell a rune, cut at the frame's edge. A rune
// that does not fit one cell becomes a question mark.
func (c *canvas) text(x, y int, role Role, series int, s string) {
	for _, r := range clean(s, c.ascii) {
		if x >= 0 && y >= 0 && x < c.w && y < c.h {
			if !fitsCell(r) {
				r = '?'
			}
			c.cells[y*c.w+x] = cell{glyph: r, role: role, series: int16(series)}
		}
		x++
	}
}

// free reports whether n cells from x, y on are in the frame, without a glyph, and
// on a layer below the given one.
func (c *canvas) free(x, y, n int, below Role) bool {
	if x < 0 || y < 0 || x+n > c.w || y >= c.h {
		return false
	}
	for _, at := range c.cells[y*c.w+x : y*c.w+x+n] {
		if at.glyph != 0 || at.role >= below {
			return false
		}
	}
	return true
}

// line returns row y of the frame as text. A blank inside a run belongs to the run:
// fewer changes of style make smaller frames.
func (c *canvas) line(y int, paint func(Role, int, string) string) string {
	row := c.cells[y*c.w : (y+1)*c.w]
	var out, run strings.Builder
	out.Grow(3 * c.w)
	for x := 0; x < len(row); {
		if row[x].role == 0 {
			out.WriteByte(' ')
			x++
			continue
		}
		first, end := row[x], x+1
		for j := end; j < len(row); j++ {
			if row[j].role == 0 {
				continue
			}
			if row[j].role != first.role || row[j].series != first.series {
				break
			}
			end = j + 1
		}
		dst := &out
		if paint != nil {
			run.Reset()
			dst = &run
		}
		for ; x < end; x++ {
			dst.WriteRune(c.glyph(row[x]))
		}
		if paint != nil {
			out.WriteString(paint(first.role, int(first.series), run.String()))
		}
	}
	return out.String()
}

// glyph returns the character of a cell.
func (c *canvas) glyph(at cell) rune {
	switch {
	case at.glyph != 0:
		return at.glyph
	case at.role == 0:
		return ' '
	case !c.ascii:
		return 0x2800 + rune(at.dots)
	case at.role == Band:
		return ':'
	case at.role == Aim:
		return '-'
	default:
		return styles[int(uint16(at.series))%len(styles)].ascii
	}
}
