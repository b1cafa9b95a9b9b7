package drawing

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image/color"
	"math"

	"git.sr.ht/~sbinet/gg"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// dots writes a page as PNG.
type dots struct {
	*gg.Context
	dpi    int
	height float64
}

func newPNG(s Sheet) *dots {
	scale := float64(s.DPI) / 72
	side := func(length float64) int { return int(math.Round(length * scale)) }
	d := &dots{gg.NewContext(side(s.Width), side(s.Height)), s.DPI, s.Height}
	d.Scale(scale, scale)
	d.SetLineCapButt()
	return d
}

// fill fills a shape.
func (d *dots) fill(s Shape, c color.NRGBA) {
	d.outline(s)
	d.SetColor(c)
	d.Fill()
}

// stroke draws an outline. Line widths and dashes are counted in dots.
func (d *dots) stroke(s Shape, l Line) {
	scale := float64(d.dpi) / 72
	dashes := make([]float64, len(l.Dashes))
	for i, dash := range l.Dashes {
		dashes[i] = dash * scale
	}
	d.outline(s)
	d.SetDash(dashes...)
	d.SetLineWidth(l.Width * scale)
	d.SetColor(l.Color)
	d.Stroke()
}

func (d *dots) outline(s Shape) {
	if s.Radius > 0 {
		d.DrawCircle(s.Points[0].X, d.height-s.Points[0].Y, s.Radius)
		return
	}
	for _, p := range s.Points {
		d.LineTo(p.X, d.height-p.Y)
	}
	if s.Closed {
		d.ClosePath()
	}
}

// write fills the outlines of letters.
func (d *dots) write(words string, l Lettering, at Point) {
	f := l.face()
	d.Push()
	defer d.Pop()
	d.Translate(at.X, d.height-at.Y)
	if l.Turned {
		d.Rotate(-math.Pi / 2)
	}
	d.SetColor(l.Color)
	var buffer sfnt.Buffer
	x := 0.0
	for _, g := range f.glyphs(words) {
		x += g.kern * l.Size
		segments, err := f.font.LoadGlyph(&buffer, g.index, f.em(), nil)
		if err == nil {
			d.letter(segments, func(p fixed.Point26_6) (float64, float64) {
				return x + f.length(p.X)*l.Size, f.length(p.Y) * l.Size
			})
		}
		x += g.advance * l.Size
	}
	d.Fill()
}

// letter draws the outline of one letter.
func (d *dots) letter(segments sfnt.Segments, at func(fixed.Point26_6) (float64, float64)) {
	for _, s := range segments {
		x0, y0 := at(s.Args[0])
		x1, y1 := at(s.Args[1])
		x2, y2 := at(s.Args[2])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			d.MoveTo(x0, y0)
		case sfnt.SegmentOpLineTo:
			d.LineTo(x0, y0)
		case sfnt.SegmentOpQuadTo:
			d.QuadraticTo(x0, y0, x1, y1)
		case sfnt.SegmentOpCubeTo:
			d.CubicTo(x0, y0, x1, y1, x2, y2)
		}
	}
}

func (d *dots) close() ([]byte, error) {
	var out bytes.Buffer
	if err := d.EncodePNG(&out); err != nil {
		return nil, err
	}
	return withResolution(out.Bytes(), d.dpi), nil
}

// withResolution adds the dots per inch to a PNG, so that a text program shows it
// in its size. It puts a pHYs chunk behind the header, which is 33 bytes with the
// signature (PNG specification, 11.3.5.3).
func withResolution(png []byte, dpi int) []byte {
	const header = 33
	chunk := append([]byte{0, 0, 0, 9}, "pHYs"...)
	for range 2 {
		chunk = binary.BigEndian.AppendUint32(chunk, uint32(math.Round(float64(dpi)/0.0254))) // dots a metre
	}
	chunk = append(chunk, 1)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	return append(append(append([]byte{}, png[:header]...), chunk...), png[header:]...)
}
