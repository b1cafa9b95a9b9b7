// Package drawing puts lines, areas and words on a page and writes it as SVG, PNG
// or PDF. The same page gives the same bytes.
//
// Lengths are points of 1/72 inch, x to the right and y upwards from the lower left
// corner. It knows no powder, opens no file and imports nothing of ours.
package drawing

import (
	"fmt"
	"image/color"
	"io"
	"strings"
)

// Millimetre is a millimetre in points.
const Millimetre = 72 / 25.4

// Sheet is a page's size in points, with its title and description.
type Sheet struct {
	Width, Height      float64
	DPI                int // dots an inch, for a PNG
	Title, Description string
}

// Formats lists the formats of Write.
func Formats() []string { return []string{"svg", "png", "pdf"} }

// Write draws on a sheet and writes it in one of Formats.
func (s Sheet) Write(w io.Writer, format string, paint func(Page)) error {
	var out interface {
		pageFormat
		close() ([]byte, error)
	}
	switch format {
	case "svg":
		out = newSVG(s)
	case "png":
		out = newPNG(s)
	case "pdf":
		out = newPDF(s)
	default:
		return fmt.Errorf("the format %q is not known; use one of: %s", format, strings.Join(Formats(), ", "))
	}
	paint(Page{Area: Area{Max: Point{s.Width, s.Height}}, pageFormat: out})
	text, err := out.close()
	if err == nil {
		_, err = w.Write(text)
	}
	return err
}

// pageFormat draws shapes in one file format.
type pageFormat interface {
	fill(Shape, color.NRGBA)
	stroke(Shape, Line)
	write(words string, l Lettering, at Point) // at is the start of the first letter on its line
}

// Page is a part of a sheet to draw on. What is drawn beyond it shows if it is
// still on the sheet.
type Page struct {
	Area
	pageFormat
}

// Line is the style of a line. Dashes are lengths drawn and left out in turn;
// without any the line is unbroken.
type Line struct {
	Color  color.NRGBA
	Width  float64
	Dashes []float64
}

// Shape is a line through points, or a circle.
type Shape struct {
	Points []Point
	Closed bool    // the last point is joined to the first
	Radius float64 // above 0: a circle around the first point
}

// Polygon returns the area within corners.
func Polygon(corners ...Point) Shape { return Shape{Points: corners, Closed: true} }

// Circle returns a circle.
func Circle(centre Point, radius float64) Shape {
	return Shape{Points: []Point{centre}, Closed: true, Radius: radius}
}

// Fill fills a shape.
func (p Page) Fill(s Shape, c color.NRGBA) {
	if len(s.Points) > 0 {
		p.fill(s, c)
	}
}

// Stroke draws a shape's outline.
func (p Page) Stroke(s Shape, l Line) {
	if len(s.Points) > 0 {
		p.stroke(s, l)
	}
}

// Line draws a straight line.
func (p Page) Line(l Line, x0, y0, x1, y1 float64) {
	p.stroke(Shape{Points: []Point{{x0, y0}, {x1, y1}}}, l)
}

// Write writes words beside or around a place, as the lettering says.
func (p Page) Write(l Lettering, at Point, words string) {
	if words != "" {
		p.write(words, l, l.start(at, words))
	}
}

// Cropped returns the page without a margin at each of its four sides.
func (p Page) Cropped(left, right, bottom, top float64) Page {
	p.Min.X, p.Max.X, p.Min.Y, p.Max.Y = p.Min.X+left, p.Max.X-right, p.Min.Y+bottom, p.Max.Y-top
	return p
}
