package drive

import (
	"fmt"
	"html"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
)

// Coloured returns the frame in the 16 colours of a terminal.
func (d *Driver) Coloured(t testing.TB) string {
	lipgloss.SetColorProfile(termenv.ANSI)
	t.Cleanup(func() { lipgloss.SetColorProfile(termenv.Ascii) })
	return d.App.View()
}

// The size of a cell in a picture, and the margin around the frame, in pixels.
const cellWidth, cellHeight, edge = 8.4, 17.0, 12.0

// The colours of a picture: background, text, and the 16 of a terminal, all
// readable on the background.
const ground, ink = "#fbfaf6", "#24282c"

var terminalColours = strings.Fields(`
	#24282c #b3261e #1f7a2e #8a6a00 #1d4fb8 #8a2f9e #00707a #6b7280
	#6b7280 #c43a33 #2c8a3c #9a7400 #2f5fc8 #9a45ac #1a808a #24282c`)

// look is a cell's style: the parameters of the SGR sequences before it.
type look struct {
	colour               string
	bold, faint, reverse bool
}

// cell is one character of a frame.
type cell struct {
	r rune
	look
}

// SVG draws a frame as a picture that looks the same in any font. Blocks and dots
// are shapes; every other run of characters is stretched to its cells.
func SVG(frame, title string) string {
	lines := strings.Split(frame, "\n")
	width := 0
	for _, line := range lines {
		width = max(width, ansi.StringWidth(line))
	}
	w, h := 2*edge+float64(width)*cellWidth, 2*edge+float64(len(lines))*cellHeight
	var out strings.Builder
	fmt.Fprintf(&out,
		`<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 %.0f %.0f" width="%.0f" height="%.0f">`+"\n",
		w, h, w, h)
	fmt.Fprintf(&out, "<title>%s</title>\n", html.EscapeString(title))
	fmt.Fprintf(&out, `<rect width="100%%" height="100%%" rx="6" fill="%s" stroke="#c8c8c0"/>`+"\n", ground)
	out.WriteString(`<g font-family="DejaVu Sans Mono, Menlo, Consolas, monospace" font-size="14"` +
		` xml:space="preserve">` + "\n")
	var now look
	for y, line := range lines {
		var cells []cell
		cells, now = cellsOf(line, now)
		drawLine(&out, cells, edge+float64(y)*cellHeight)
	}
	out.WriteString("</g>\n</svg>\n")
	return out.String()
}

// cellsOf splits a line into cells, given the style before it, and returns the
// style after it.
func cellsOf(line string, now look) ([]cell, look) {
	var cells []cell
	for line != "" {
		if rest, is := strings.CutPrefix(line, "\x1b["); is {
			codes, after, _ := strings.Cut(rest, "m")
			for _, code := range strings.Split(codes, ";") {
				now = now.after(code)
			}
			line = after
			continue
		}
		for _, r := range line {
			cells = append(cells, cell{r, now})
			line = line[len(string(r)):]
			break
		}
	}
	return cells, now
}

func (l look) after(code string) look {
	n, _ := strconv.Atoi(code)
	switch {
	case n == 0:
		return look{}
	case n == 1:
		l.bold = true
	case n == 2:
		l.faint = true
	case n == 7:
		l.reverse = true
	case n >= 30 && n <= 37:
		l.colour = terminalColours[n-30]
	case n >= 90 && n <= 97:
		l.colour = terminalColours[n-90+8]
	}
	return l
}

// drawLine draws the cells of a line whose top is at y.
func drawLine(out *strings.Builder, cells []cell, y float64) {
	for x := 0; x < len(cells); {
		end := x + 1
		for end < len(cells) && cells[end].look == cells[x].look && !shaped(cells[end].r) && !shaped(cells[x].r) &&
			!(cells[end].r == ' ' && cells[end-1].r == ' ' && !cells[x].reverse) {
			end++
		}
		drawRun(out, cells[x:end], edge+float64(x)*cellWidth, y)
		x = end
	}
}

// shaped reports whether a character is drawn as shapes.
func shaped(r rune) bool {
	return r >= 0x2800 && r < 0x2900 || slices.Contains([]rune("█▀▄▌▐"), r)
}

func drawRun(out *strings.Builder, run []cell, x, y float64) {
	l := run[0].look
	fill := l.colour
	if fill == "" {
		fill = ink
	}
	width := float64(len(run)) * cellWidth
	if l.reverse {
		fmt.Fprintf(out, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f" fill="%s"/>`+"\n", x, y, width,
			cellHeight, fill)
		fill = ground
	}
	attributes := fmt.Sprintf(` fill="%s"`, fill)
	if l.bold {
		attributes += ` font-weight="bold"`
	}
	if l.faint {
		attributes += ` opacity="0.65"`
	}
	if shaped(run[0].r) {
		drawShape(out, run[0].r, x, y, attributes)
		return
	}
	var text strings.Builder
	for _, c := range run {
		text.WriteRune(c.r)
	}
	words := strings.TrimRight(text.String(), " ")
	trimmed := strings.TrimLeft(words, " ")
	if trimmed == "" {
		return
	}
	x += float64(len(words)-len(trimmed)) * cellWidth
	words = trimmed
	fmt.Fprintf(out, `<text x="%.1f" y="%.1f" textLength="%.1f" lengthAdjust="spacingAndGlyphs"%s>%s</text>`+"\n",
		x, y+13, float64(len([]rune(words)))*cellWidth, attributes, html.EscapeString(words))
}

// drawShape draws a block or the dots of a braille character.
func drawShape(out *strings.Builder, r rune, x, y float64, attributes string) {
	block := map[rune][4]float64{
		'█': {0, 0, 1, 1}, '▀': {0, 0, 1, 0.5}, '▄': {0, 0.5, 1, 0.5}, '▌': {0, 0, 0.5, 1}, '▐': {0.5, 0, 0.5, 1},
	}
	if b, is := block[r]; is {
		fmt.Fprintf(out, `<rect x="%.1f" y="%.1f" width="%.1f" height="%.1f"%s/>`+"\n",
			x+b[0]*cellWidth, y+b[1]*cellHeight, b[2]*cellWidth+0.1, b[3]*cellHeight+0.1, attributes)
		return
	}
	bits := [4][2]rune{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}
	for row, pair := range bits {
		for column, bit := range pair {
			if (r-0x2800)&bit != 0 {
				fmt.Fprintf(out, `<circle cx="%.1f" cy="%.1f" r="1.2"%s/>`+"\n",
					x+(float64(column)+0.5)*cellWidth/2, y+(float64(row)+0.5)*cellHeight/4, attributes)
			}
		}
	}
}
