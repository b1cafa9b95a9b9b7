package picture

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// seriesStyle is how one powder is drawn among several, or the looks of one
// trial among those of a single powder.
type seriesStyle struct {
	color  color.RGBA
	dashes []vg.Length
	shape  [][2]float64 // corners of its points, in a circle of radius 1; nil for a circle
}

var black = color.RGBA{0x1b, 0x1b, 0x1b, 0xff}

// seriesStyles tell six apart without colour: by dash and by shape. The colours
// are all dark, so that none fades in grey.
var seriesStyles = []seriesStyle{
	{black, nil, nil},
	{color.RGBA{0x00, 0x4b, 0x8d, 0xff}, []vg.Length{7, 3}, polygon(4, 45)},
	{color.RGBA{0xa6, 0x3a, 0x00, 0xff}, []vg.Length{1.5, 2}, polygon(3, 90)},
	{color.RGBA{0x00, 0x5f, 0x43, 0xff}, []vg.Length{8, 2.5, 1.5, 2.5}, polygon(4, 0)},
	{color.RGBA{0x7a, 0x1f, 0x6b, 0xff}, []vg.Length{3.5, 2}, polygon(3, -90)},
	{color.RGBA{0x5a, 0x48, 0x00, 0xff}, []vg.Length{10, 2, 1.5, 2, 1.5, 2}, star()},
}

// styleOf is the style numbered i from 0; they begin anew after the last.
func styleOf(i int) seriesStyle { return seriesStyles[i%len(seriesStyles)] }

// line is how the curve is drawn; thin where it was tested from one side only.
func (d seriesStyle) line(oneSided bool) draw.LineStyle {
	width := vg.Length(1.5)
	if oneSided {
		width = 0.6
	}
	return draw.LineStyle{Color: d.color, Width: width, Dashes: d.dashes}
}

// faint is a colour laid over what lies below it, from 0 for nothing to 1.
func faint(c color.RGBA, share float64) color.Color {
	return color.NRGBA{c.R, c.G, c.B, uint8(math.Round(255 * share))}
}

// polygon is n corners on a circle, the first at an angle in degrees.
func polygon(n int, first float64) [][2]float64 {
	var corners [][2]float64
	for i := range n {
		sin, cos := math.Sincos((first + 360*float64(i)/float64(n)) * math.Pi / 180)
		corners = append(corners, [2]float64{cos, sin})
	}
	return corners
}

// star has five points.
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

// cross draws a look that is left out of the answer, and what marks a far one.
func (d seriesStyle) cross(c *draw.Canvas, at vg.Point, arm vg.Length) {
	edge := draw.LineStyle{Color: d.color, Width: 0.9}
	c.StrokeLine2(edge, at.X-arm, at.Y-arm, at.X+arm, at.Y+arm)
	c.StrokeLine2(edge, at.X-arm, at.Y+arm, at.X+arm, at.Y-arm)
}

// point draws a look: full, hollow when open, crossed out when far.
func (d seriesStyle) point(c *draw.Canvas, at vg.Point, open, far bool) {
	var path vg.Path
	if d.shape == nil {
		path.Move(vg.Point{X: at.X + pointRadius*0.85, Y: at.Y})
		path.Arc(at, pointRadius*0.85, 0, 2*math.Pi)
	}
	for i, corner := range d.shape {
		p := vg.Point{X: at.X + vg.Length(corner[0])*pointRadius, Y: at.Y + vg.Length(corner[1])*pointRadius}
		if i == 0 {
			path.Move(p)
		} else {
			path.Line(p)
		}
	}
	path.Close()
	c.SetColor(d.color)
	if open {
		c.SetColor(color.White)
	}
	c.Fill(path)
	c.SetLineStyle(draw.LineStyle{Color: d.color, Width: 0.9})
	c.Stroke(path)
	if far {
		d.cross(c, at, pointRadius*1.7)
	}
}
