package picture

import (
	"image/color"
	"math"

	"daub.example/daub/data/drawing"
)

// seriesStyle is the style of one powder among several, or of one trial of a single
// powder.
type seriesStyle struct {
	color  color.NRGBA
	dashes []float64
	shape  [][2]float64 // corners of its points, in a circle of radius 1; nil for a circle
}

var (
	black = color.NRGBA{0x1b, 0x1b, 0x1b, 0xff}
	ink   = grey(0) // of words and axes
	white = grey(0xff)
)

// seriesStyles differ without colour, by dash and by shape. There are six; all
// colours are dark, so that none fades in grey.
var seriesStyles = []seriesStyle{
	{black, nil, nil},
	{color.NRGBA{0x00, 0x4b, 0x8d, 0xff}, []float64{7, 3}, polygon(4, 45)},
	{color.NRGBA{0xa6, 0x3a, 0x00, 0xff}, []float64{1.5, 2}, polygon(3, 90)},
	{color.NRGBA{0x00, 0x5f, 0x43, 0xff}, []float64{8, 2.5, 1.5, 2.5}, polygon(4, 0)},
	{color.NRGBA{0x7a, 0x1f, 0x6b, 0xff}, []float64{3.5, 2}, polygon(3, -90)},
	{color.NRGBA{0x5a, 0x48, 0x00, 0xff}, []float64{10, 2, 1.5, 2, 1.5, 2}, star()},
}

// styleOf returns style i from 0; after the last they begin again.
func styleOf(i int) seriesStyle { return seriesStyles[i%len(seriesStyles)] }

// line returns the line of the curve; thin if tested from one side only.
func (d seriesStyle) line(oneSided bool) drawing.Line {
	width := 1.5
	if oneSided {
		width = 0.6
	}
	return drawing.Line{Color: d.color, Width: width, Dashes: d.dashes}
}

// faint returns a colour to lay over others, from 0 for nothing to 1.
func faint(c color.NRGBA, share float64) color.NRGBA {
	return color.NRGBA{c.R, c.G, c.B, uint8(math.Round(255 * share))}
}

// polygon returns n corners on a circle, the first at an angle in degrees.
func polygon(n int, first float64) [][2]float64 {
	var corners [][2]float64
	for i := range n {
		sin, cos := math.Sincos((first + 360*float64(i)/float64(n)) * math.Pi / 180)
		corners = append(corners, [2]float64{cos, sin})
	}
	return corners
}

// star returns a star with five points.
func star() [][2]float64 {
	outer, inner := polygon(5, 90), polygon(5, 126)
	var corners [][2]float64
	for i := range outer {
		corners = append(corners, outer[i], [2]float64{inner[i][0] * 0.42, inner[i][1] * 0.42})
	}
	return corners
}

// pointRadius is half the size of a point.
const pointRadius = 3

// cross draws a cross: a look left out of the answer, or the mark of a far one.
func (d seriesStyle) cross(p drawing.Page, at drawing.Point, arm float64) {
	edge := drawing.Line{Color: d.color, Width: 0.9}
	p.Line(edge, at.X-arm, at.Y-arm, at.X+arm, at.Y+arm)
	p.Line(edge, at.X-arm, at.Y+arm, at.X+arm, at.Y-arm)
}

// point draws a look: full, hollow when open, crossed out when far.
func (d seriesStyle) point(p drawing.Page, at drawing.Point, open, far bool) {
	shape := drawing.Circle(at, pointRadius*0.85)
	if d.shape != nil {
		shape = drawing.Polygon()
		for _, corner := range d.shape {
			shape.Points = append(shape.Points,
				drawing.Point{X: at.X + corner[0]*pointRadius, Y: at.Y + corner[1]*pointRadius})
		}
	}
	within := d.color
	if open {
		within = white
	}
	p.Fill(shape, within)
	p.Stroke(shape, drawing.Line{Color: d.color, Width: 0.9})
	if far {
		d.cross(p, at, pointRadius*1.7)
	}
}

// grey returns a grey, 0 for black to 255 for white.
func grey(shade uint8) color.NRGBA { return color.NRGBA{shade, shade, shade, 0xff} }
