package drawing

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/color"
	"strconv"
	"strings"
)

// svg writes a page as SVG. Words stay words. If their font is missing, the next
// ones in the list are as wide, and any other is squeezed into the same width. If a
// program does not squeeze, their start, middle or end is still at its place.
type svg struct {
	bytes.Buffer
	height float64
}

func newSVG(s Sheet) *svg {
	out := &svg{height: s.Height}
	width, height := short(s.Width), short(s.Height)
	fmt.Fprintf(out, `<?xml version="1.0" encoding="UTF-8"?>
<svg width="%spt" height="%spt" viewBox="0 0 %s %s" xmlns="http://www.w3.org/2000/svg" role="img">
`, width, height, width, height)
	fmt.Fprintf(out, "<title>%s</title>\n<desc>%s</desc>\n", escaped(s.Title), escaped(s.Description))
	return out
}

func (s *svg) close() ([]byte, error) {
	s.WriteString("</svg>\n")
	return s.Bytes(), nil
}

// short writes a length to a hundredth of a point.
func short(length float64) string {
	text := strconv.FormatFloat(length, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

func escaped(words string) string {
	var out bytes.Buffer
	_ = xml.EscapeText(&out, []byte(words)) // a buffer never fails
	return out.String()
}

// at writes a point as SVG counts it, downwards.
func (s *svg) at(p Point) string { return short(p.X) + "," + short(s.height-p.Y) }

func (s *svg) fill(shape Shape, c color.NRGBA) { s.path(shape, "fill:"+hex(c)+opacity("fill", c)) }

func (s *svg) stroke(shape Shape, l Line) {
	style := "fill:none;stroke:" + hex(l.Color) + opacity("stroke", l.Color) + ";stroke-width:" + short(l.Width)
	if len(l.Dashes) > 0 {
		var dashes []string
		for _, dash := range l.Dashes {
			dashes = append(dashes, short(dash))
		}
		style += ";stroke-dasharray:" + strings.Join(dashes, ",")
	}
	s.path(shape, style)
}

func (s *svg) path(shape Shape, style string) {
	if shape.Radius > 0 {
		centre := shape.Points[0]
		fmt.Fprintf(s, `<circle cx="%s" cy="%s" r="%s" style="%s" />`+"\n", short(centre.X),
			short(s.height-centre.Y), short(shape.Radius), style)
		return
	}
	var data strings.Builder
	for i, p := range shape.Points {
		data.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + s.at(p))
	}
	if shape.Closed {
		data.WriteString("Z")
	}
	fmt.Fprintf(s, `<path d="%s" style="%s" />`+"\n", data.String(), style)
}

func (s *svg) write(words string, l Lettering, at Point) {
	across := l.Width(words) * l.Across.share()
	if l.Turned {
		at.Y += across
	} else {
		at.X += across
	}
	place := fmt.Sprintf(`x="%s" y="%s"`, short(at.X), short(s.height-at.Y))
	if l.Turned {
		place = fmt.Sprintf(`transform="translate(%s) rotate(-90)"`, s.at(at))
	}
	place += [...]string{AtStart: "", AtMiddle: ` text-anchor="middle"`, AtEnd: ` text-anchor="end"`}[l.Across]
	weight := ""
	if l.Bold {
		weight = ";font-weight:bold"
	}
	fmt.Fprintf(s, `<text %s textLength="%.2f" lengthAdjust="spacingAndGlyphs" xml:space="preserve" `+
		`style="font-family:Liberation Sans, Arial, Helvetica, sans-serif%s;font-size:%spx;fill:%s%s">%s</text>`+"\n",
		place, l.Width(words), weight, short(l.Size), hex(l.Color), opacity("fill", l.Color), escaped(words))
}

func hex(c color.NRGBA) string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }

// opacity writes how strongly a colour is laid on, unless fully.
func opacity(of string, c color.NRGBA) string {
	if c.A == 0xff {
		return ""
	}
	return fmt.Sprintf(";%s-opacity:%.3g", of, float64(c.A)/0xff)
}
