package picture

import (
	"bytes"
	"encoding/binary"
	"encoding/xml"
	"fmt"
	"hash/crc32"
	"math"
	"regexp"
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"
)

// sheet is a page to draw on, and what it says of itself.
type sheet struct {
	width, height      vg.Length
	dpi                int // of a PNG
	title, description string
}

// render draws a picture in one of Formats.
func (s sheet) render(format string, paint func(draw.Canvas)) ([]byte, error) {
	switch format {
	case "svg":
		return s.svg(paint)
	case "pdf":
		return s.pdf(paint)
	default:
		return s.png(paint)
	}
}

// svgCanvas notes how wide the texts are that are drawn on it.
type svgCanvas struct {
	*vgsvg.Canvas
	widths *[]vg.Length
}

// FillString draws a text.
func (c svgCanvas) FillString(f font.Face, at vg.Point, text string) {
	*c.widths = append(*c.widths, f.Width(text))
	c.Canvas.FillString(f, at, text)
}

var (
	svgRoot = regexp.MustCompile(`(?s)<svg ([^>]*)>`)
	svgText = regexp.MustCompile(`<text `)
)

// svg leaves texts as text. Where their font is missing, the next ones in the
// list are as wide, and any other is squeezed into the same width.
func (s sheet) svg(paint func(draw.Canvas)) ([]byte, error) {
	var widths []vg.Length
	c := svgCanvas{vgsvg.New(s.width, s.height), &widths}
	paint(draw.NewCanvas(c, s.width, s.height))
	var out bytes.Buffer
	if _, err := c.WriteTo(&out); err != nil {
		return nil, err
	}
	text := strings.ReplaceAll(out.String(),
		`style="font-family:Liberation Sans;`, `style="font-family:Liberation Sans, Arial, Helvetica, sans-serif;`)
	text = svgText.ReplaceAllStringFunc(text, func(tag string) string {
		width := widths[0]
		widths = widths[1:]
		return fmt.Sprintf(`%stextLength="%.2f" lengthAdjust="spacingAndGlyphs" `, tag, width.Points())
	})
	var said bytes.Buffer
	for _, part := range [][2]string{{"title", s.title}, {"desc", s.description}} {
		said.WriteString("\n<" + part[0] + ">")
		_ = xml.EscapeText(&said, []byte(part[1])) // a buffer takes everything
		said.WriteString("</" + part[0] + ">")
	}
	root := svgRoot.FindStringIndex(text)
	return []byte(text[:root[1]-1] + ` role="img">` + said.String() + text[root[1]:]), nil
}

func (s sheet) png(paint func(draw.Canvas)) ([]byte, error) {
	c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(s.width, s.height), vgimg.UseDPI(s.dpi))}
	paint(draw.New(c))
	var out bytes.Buffer
	if _, err := c.WriteTo(&out); err != nil {
		return nil, err
	}
	return withResolution(out.Bytes(), s.dpi), nil
}

// withResolution gives a PNG its dots an inch, so that a text program places it
// in its size: a pHYs chunk behind the header, which is 33 bytes with the
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

func (s sheet) pdf(paint func(draw.Canvas)) ([]byte, error) {
	c := vgpdf.New(s.width, s.height)
	paint(draw.NewCanvas(westernCanvas{c}, s.width, s.height))
	var out bytes.Buffer
	if _, err := c.WriteTo(&out); err != nil {
		return nil, err
	}
	return withTitle(out.Bytes(), s.title, s.description), nil
}
