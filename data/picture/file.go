package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"strings"
	"unicode"

	"daub.example/daub/model/printable"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgpdf"
	"gonum.org/v1/plot/vg/vgsvg"
)

// The size of a picture, and the resolution of a PNG: 100 dots a centimetre.
const (
	pictureWidth  = 16 * vg.Centimeter
	pictureHeight = 10 * vg.Centimeter
	pictureDPI    = 254
)

// render draws a picture into out in one of PictureFormats.
func render(out *bytes.Buffer, format string, paint func(draw.Canvas)) error {
	switch format {
	case "svg":
		c := vgsvg.New(pictureWidth, pictureHeight)
		paint(draw.New(c))
		var text bytes.Buffer
		if _, err := c.WriteTo(&text); err != nil {
			return err
		}
		// Text stays text. Where its font is missing, these are as wide.
		out.WriteString(strings.ReplaceAll(text.String(), `style="font-family:Liberation Sans;`, `style="font-family:Liberation Sans, Arial, Helvetica, sans-serif;`))
		return nil
	case "pdf":
		c := vgpdf.New(pictureWidth, pictureHeight)
		paint(draw.NewCanvas(westernCanvas{c}, pictureWidth, pictureHeight))
		_, err := c.WriteTo(out)
		return err
	default:
		c := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(pictureWidth, pictureHeight), vgimg.UseDPI(pictureDPI))}
		paint(draw.New(c))
		var picture bytes.Buffer
		if _, err := c.WriteTo(&picture); err != nil {
			return err
		}
		out.Write(withSize(picture.Bytes()))
		return nil
	}
}

// withSize gives a PNG its resolution, so that a text program places it in its
// size: a pHYs chunk behind the header, which is 33 bytes with the signature.
func withSize(png []byte) []byte {
	const header = 33
	chunk := append([]byte{0, 0, 0, 9}, "pHYs"...)
	for range 2 {
		chunk = binary.BigEndian.AppendUint32(chunk, pictureDPI*10000/254) // dots a metre
	}
	chunk = append(chunk, 1)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	return append(append(append([]byte{}, png[:header]...), chunk...), png[header:]...)
}

// westernCanvas writes text as the library's PDF fonts want it: in Windows
// code page 1252, and nothing bold, for it embeds a single font: regular takes
// its place, about the same middle.
type westernCanvas struct{ *vgpdf.Canvas }

func (c westernCanvas) FillString(f font.Face, at vg.Point, text string) {
	if f.Font.Weight == bolder {
		bold := f.Width(text)
		f.Font.Weight = 0
		f = plot.DefaultTextHandler.Cache().Lookup(f.Font, f.Font.Size)
		at.X += (bold - f.Width(text)) / 2
	}
	c.Canvas.FillString(f, at, western(text))
}

// beyondLatin1 are the characters of the code page from 0x80 on; a space
// stands where there is none.
const beyondLatin1 = "€ ‚ƒ„…†‡ˆ‰Š‹Œ Ž  ‘’“”•–—˜™š›œ žŸ"

// western is a text in Windows code page 1252. A letter that it lacks goes
// without its accent, what else it lacks becomes a question mark.
func western(text string) string {
	codes := map[rune]byte{}
	for i, r := range []rune(beyondLatin1) {
		codes[r] = byte(0x80 + i)
	}
	var out []byte
	for _, r := range text {
		plain := printable.PlainLetters(string(unicode.ToLower(r)))
		switch code := codes[r]; {
		case r < 0x80 || r >= 0xa0 && r <= 0xff:
			out = append(out, byte(r))
		case code != 0:
			out = append(out, code)
		case plain[0] >= 0x80:
			out = append(out, '?')
		case unicode.IsUpper(r):
			out = append(out, strings.ToUpper(plain)...)
		default:
			out = append(out, plain...)
		}
	}
	return string(out)
}
