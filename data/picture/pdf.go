package picture

import (
	"bytes"
	"fmt"
	"image/color"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf16"

	"daub.example/daub/model/printable"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/vgpdf"
)

var pdfTrailer = regexp.MustCompile(`/Size (\d+)\s+/Root (\d+) 0 R\s+/Info (\d+) 0 R\s+>>\s+startxref\s+(\d+)\s+%%EOF\s*$`)

// withTitle gives a PDF its title and subject, which the library cannot: an
// update behind its end that replaces what the file says of itself (ISO 32000-1,
// 7.5.6 and 14.3.3).
func withTitle(pdf []byte, title, subject string) []byte {
	found := pdfTrailer.FindSubmatch(pdf)
	if found == nil {
		return pdf // not as the library wrote it so far: sound without a title
	}
	size, root, info, before := found[1], found[2], found[3], found[4]
	out := bytes.NewBuffer(bytes.TrimRight(pdf, "\n"))
	out.WriteByte('\n')
	object := out.Len()
	fmt.Fprintf(out, "%s 0 obj\n<< /Title %s /Subject %s >>\nendobj\n", info, pdfText(title), pdfText(subject))
	table := out.Len()
	fmt.Fprintf(out, "xref\n%s 1\n%010d 00000 n \n", info, object)
	fmt.Fprintf(out, "trailer\n<< /Size %s /Root %s 0 R /Info %s 0 R /Prev %s >>\n", size, root, info, before)
	fmt.Fprintf(out, "startxref\n%d\n%%%%EOF\n", table)
	return out.Bytes()
}

// pdfText is a text string: UTF-16 with its byte order mark, in hexadecimal.
func pdfText(text string) string {
	var out strings.Builder
	out.WriteString("<FEFF")
	for _, unit := range utf16.Encode([]rune(text)) {
		fmt.Fprintf(&out, "%04X", unit)
	}
	return out.String() + ">"
}

// westernCanvas writes text as the library's PDF fonts want it: in Windows
// code page 1252, and nothing bold, for it embeds a single font: regular takes
// its place, about the same middle.
type westernCanvas struct{ *vgpdf.Canvas }

// SetColor sets the colour. The library lays a colour on as thin as it is
// twice, for it takes its parts as they are already multiplied.
func (c westernCanvas) SetColor(from color.Color) {
	if from == nil {
		from = color.Black
	}
	c.Canvas.SetColor(straight(color.NRGBAModel.Convert(from).(color.NRGBA)))
}

// straight is a colour that gives its parts as if it were opaque.
type straight color.NRGBA

// RGBA are the parts and the opacity, each up to 0xffff.
func (s straight) RGBA() (r, g, b, a uint32) {
	return uint32(s.R) * 0x101, uint32(s.G) * 0x101, uint32(s.B) * 0x101, uint32(s.A) * 0x101
}

// FillString draws a text.
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
