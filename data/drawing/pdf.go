package drawing

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"image/color"
	"slices"
	"strings"
	"unicode/utf16"
)

// pdf writes a page as PDF 1.7 (ISO 32000-1). It holds its fonts and the meaning of
// each letter, so that words can be searched and copied.
type pdf struct {
	sheet     Sheet
	content   bytes.Buffer // of the page
	fonts     []*pdfFont
	opacities []uint8
}

func newPDF(s Sheet) *pdf { return &pdf{sheet: s} }

func (p *pdf) fill(s Shape, c color.NRGBA) {
	p.opacity(c.A)
	fmt.Fprintf(&p.content, "%s rg\n", pdfColor(c))
	p.path(s)
	p.content.WriteString("f\n")
}

func (p *pdf) stroke(s Shape, l Line) {
	p.opacity(l.Color.A)
	var dashes []string
	for _, dash := range l.Dashes {
		dashes = append(dashes, short(dash))
	}
	fmt.Fprintf(&p.content, "%s RG %s w [%s] 0 d\n", pdfColor(l.Color), short(l.Width), strings.Join(dashes, " "))
	p.path(s)
	p.content.WriteString("S\n")
}

// opacity sets how strongly the next shapes are laid on.
func (p *pdf) opacity(a uint8) {
	i := slices.Index(p.opacities, a)
	if i < 0 {
		i = len(p.opacities)
		p.opacities = append(p.opacities, a)
	}
	fmt.Fprintf(&p.content, "/G%d gs\n", i)
}

func pdfColor(c color.NRGBA) string {
	part := func(of uint8) float64 { return float64(of) / 0xff }
	return fmt.Sprintf("%.3f %.3f %.3f", part(c.R), part(c.G), part(c.B))
}

func (p *pdf) path(s Shape) {
	if s.Radius > 0 {
		p.circle(s.Points[0], s.Radius)
		return
	}
	for i, at := range s.Points {
		fmt.Fprintf(&p.content, "%s %s %s\n", short(at.X), short(at.Y), map[bool]string{true: "m", false: "l"}[i == 0])
	}
	if s.Closed {
		p.content.WriteString("h\n")
	}
}

// circle draws four cubic curves, at most 0.03 % of the radius off.
func (p *pdf) circle(c Point, r float64) {
	const bend = 0.5523
	at := func(x, y float64) string { return short(c.X+r*x) + " " + short(c.Y+r*y) }
	fmt.Fprintf(&p.content, "%s m\n", at(1, 0))
	for _, q := range [][2]float64{{1, 0}, {0, 1}, {-1, 0}, {0, -1}} { // where the quarter begins
		x, y := q[0], q[1]
		fmt.Fprintf(&p.content, "%s %s %s c\n", at(x-bend*y, y+bend*x), at(bend*x-y, bend*y+x), at(-y, x))
	}
	p.content.WriteString("h\n")
}

func (p *pdf) write(words string, l Lettering, at Point) {
	i := slices.IndexFunc(p.fonts, func(f *pdfFont) bool { return f.face == l.face() })
	if i < 0 {
		i = len(p.fonts)
		p.fonts = append(p.fonts, newPDFFont(l.face()))
	}
	turn := "1 0 0 1"
	if l.Turned {
		turn = "0 1 -1 0"
	}
	p.opacity(l.Color.A)
	fmt.Fprintf(&p.content, "BT %s rg /F%d %s Tf %s %s %s Tm %s TJ ET\n", pdfColor(l.Color), i, short(l.Size), turn,
		short(at.X), short(at.Y), p.fonts[i].show(words))
}

// close puts the file together: the objects, and where each begins.
func (p *pdf) close() ([]byte, error) {
	var out bytes.Buffer
	var begins []int
	object := func(body string) int {
		begins = append(begins, out.Len())
		fmt.Fprintf(&out, "%d 0 obj\n%s\nendobj\n", len(begins), body)
		return len(begins)
	}
	out.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n") // bytes beyond ASCII: they mark the file as binary

	var fonts, states strings.Builder
	for i, f := range p.fonts {
		fmt.Fprintf(&fonts, "/F%d %d 0 R ", i, f.objects(object))
	}
	for i, a := range p.opacities {
		fmt.Fprintf(&states, "/G%d << /ca %.3g /CA %.3g >> ", i, float64(a)/0xff, float64(a)/0xff)
	}
	content := object(stream("", p.content.Bytes()))
	pages := len(begins) + 2 // behind the page
	page := object(fmt.Sprintf("<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %s %s] /Contents %d 0 R\n"+
		"/Resources << /Font << %s>> /ExtGState << %s>> >> >>", pages, short(p.sheet.Width), short(p.sheet.Height),
		content, fonts.String(), states.String()))
	object(fmt.Sprintf("<< /Type /Pages /Kids [%d 0 R] /Count 1 >>", page))
	root := object(fmt.Sprintf(
		"<< /Type /Catalog /Pages %d 0 R /ViewerPreferences << /DisplayDocTitle true >> >>", pages))
	info := object(fmt.Sprintf("<< /Title %s /Subject %s >>", pdfText(p.sheet.Title), pdfText(p.sheet.Description)))

	table := out.Len()
	fmt.Fprintf(&out, "xref\n0 %d\n0000000000 65535 f \n", len(begins)+1)
	for _, at := range begins {
		fmt.Fprintf(&out, "%010d 00000 n \n", at)
	}
	fmt.Fprintf(&out, "trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R >>\nstartxref\n%d\n%%%%EOF\n", len(begins)+1,
		root, info, table)
	return out.Bytes(), nil
}

// stream returns the body of an object that holds bytes, packed; entries are the
// other entries of its dictionary.
func stream(entries string, content []byte) string {
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	_, _ = w.Write(content) // a buffer never fails
	_ = w.Close()
	return fmt.Sprintf("<< /Filter /FlateDecode /Length %d %s>>\nstream\n%s\nendstream", packed.Len(), entries,
		packed.String())
}

// pdfText writes a text string: UTF-16 with its byte order mark, in hexadecimal.
func pdfText(text string) string { return "<FEFF" + pdfUnits(text) + ">" }

func pdfUnits(text string) string {
	var out strings.Builder
	for _, unit := range utf16.Encode([]rune(text)) {
		fmt.Fprintf(&out, "%04X", unit)
	}
	return out.String()
}
