package drawing

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"golang.org/x/image/font/sfnt"
)

// pdfFont is a font in a PDF, with the letters used of it. Letters are named by
// their number in the font (ISO 32000-1, 9.7: a composite font with Identity-H).
type pdfFont struct {
	*face
	used map[sfnt.GlyphIndex]glyph
}

func newPDFFont(f *face) *pdfFont { return &pdfFont{f, map[sfnt.GlyphIndex]glyph{}} }

// thousandths converts a length for letters of size 1 to PDF's units.
func thousandths(length float64) int { return int(math.Round(length * 1000)) }

// show writes text for the operator TJ: letters, and how much nearer the next one
// stands.
func (f *pdfFont) show(words string) string {
	var out strings.Builder
	out.WriteString("[<")
	for _, g := range f.glyphs(words) {
		f.used[g.index] = g
		if kern := thousandths(g.kern); kern != 0 {
			fmt.Fprintf(&out, "> %d <", -kern)
		}
		fmt.Fprintf(&out, "%04X", int(g.index))
	}
	return out.String() + ">]"
}

// objects writes the objects of a font and returns the number of the last, which
// stands for the font.
func (f *pdfFont) objects(object func(string) int) int {
	file := object(stream(fmt.Sprintf("/Length1 %d ", len(f.file)), f.file))
	const symbolic = 4 // letters are named only by their number
	descriptor := object(fmt.Sprintf("<< /Type /FontDescriptor /FontName /%s /Flags %d /FontBBox [%s] "+
		"/ItalicAngle 0 /Ascent %d /Descent %d /CapHeight 729 /StemV 80 /FontFile2 %d 0 R >>", f.name, symbolic,
		f.box(), thousandths(f.ascent), -thousandths(f.descent), file))

	var widths, meanings strings.Builder
	used := slices.Sorted(maps.Keys(f.used))
	for _, index := range used {
		g := f.used[index]
		fmt.Fprintf(&widths, "%d [%d] ", index, thousandths(g.advance))
		fmt.Fprintf(&meanings, "1 beginbfchar <%04X> <%s> endbfchar\n", int(index), pdfUnits(string(g.letter)))
	}
	letters := object(fmt.Sprintf("<< /Type /Font /Subtype /CIDFontType2 /BaseFont /%s /FontDescriptor %d 0 R "+
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (Identity) /Supplement 0 >> /CIDToGIDMap /Identity "+
		"/W [%s] >>", f.name, descriptor, widths.String()))
	meaning := object(stream("", []byte("/CIDInit /ProcSet findresource begin 12 dict begin begincmap\n"+
		"/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"+
		"/CMapName /Adobe-Identity-UCS def /CMapType 2 def\n"+
		"1 begincodespacerange <0000> <FFFF> endcodespacerange\n"+meanings.String()+
		"endcmap CMapName currentdict /CMap defineresource pop end end\n")))
	return object(fmt.Sprintf("<< /Type /Font /Subtype /Type0 /BaseFont /%s /Encoding /Identity-H "+
		"/DescendantFonts [%d 0 R] /ToUnicode %d 0 R >>", f.name, letters, meaning))
}

// box writes the font's bounding box.
func (f *pdfFont) box() string {
	b, err := f.font.Bounds(nil, f.em(), 0)
	if err != nil {
		panic(err) // cannot fail: the font is part of the program
	}
	return fmt.Sprintf("%d %d %d %d", thousandths(f.length(b.Min.X)), -thousandths(f.length(b.Max.Y)),
		thousandths(f.length(b.Max.X)), -thousandths(f.length(b.Min.Y)))
}
