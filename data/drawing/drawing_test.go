package drawing

import (
	"bytes"
	"encoding/xml"
	"image/color"
	"image/png"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var red = color.NRGBA{0xff, 0, 0, 0xff}

// Letters are as wide as those of Helvetica, which the font stands in for
// (Adobe Core 14 font metrics: Helvetica.afm and Helvetica-Bold.afm).
func TestLettersHaveTheirWidths(t *testing.T) {
	for words, want := range map[string][2]float64{
		" ": {278, 278}, "0": {556, 556}, "A": {667, 722}, "W": {944, 944}, "i": {222, 278}, "%": {889, 889},
	} {
		assert.InDelta(t, want[0]/1000, Lettering{Size: 1}.Width(words), 0.001, words)
		assert.InDelta(t, want[1]*9/1000, Lettering{Size: 9, Bold: true}.Width(words), 0.009, words)
	}
	apart := Lettering{Size: 1}.Width("A") + Lettering{Size: 1}.Width("V")
	assert.Less(t, Lettering{Size: 1}.Width("AV"), apart, "letters that lean to each other stand nearer")
}

func TestWordsStandWhereTheyAreAligned(t *testing.T) {
	l := Lettering{Size: 10, Across: AtEnd}
	width := l.Width("level")
	assert.InDelta(t, 100-width, l.start(Point{100, 50}, "level").X, 1e-9)
	l.Across = AtMiddle
	assert.InDelta(t, 100-width/2, l.start(Point{100, 50}, "level").X, 1e-9)
	up := l.start(Point{100, 50}, "level").Y - 50
	l.Turned = true
	assert.InDelta(t, 50-width/2, l.start(Point{100, 50}, "level").Y, 1e-9, "turned, it runs upwards")
	assert.InDelta(t, 100-up, l.start(Point{100, 50}, "level").X, 1e-9)
}

// What leaves a square of 10 by 10 and comes back is cut where it crosses.
func TestLinesAreCut(t *testing.T) {
	square := Area{Max: Point{10, 10}}
	for name, c := range map[string]struct {
		line []Point
		want [][]Point
	}{
		"within":   {[]Point{{1, 1}, {9, 5}}, [][]Point{{{1, 1}, {9, 5}}}},
		"beside":   {[]Point{{-1, 11}, {5, 12}}, nil},
		"across":   {[]Point{{-5, 5}, {15, 5}}, [][]Point{{{0, 5}, {10, 5}}}},
		"out, in":  {[]Point{{5, 5}, {5, 15}, {7, 15}, {7, 5}}, [][]Point{{{5, 5}, {5, 10}}, {{7, 10}, {7, 5}}}},
		"a corner": {[]Point{{-2, 6}, {6, 14}}, [][]Point{{{0, 8}, {2, 10}}}},
		"past one": {[]Point{{-2, 9}, {6, 17}}, nil},
	} {
		assert.Equal(t, c.want, square.ClipLine(c.line), name)
	}
	assert.Equal(t, 16.0, area(square.ClipPolygon([]Point{{6, -5}, {14, -5}, {14, 4}, {6, 4}})))
	assert.Equal(t, 100.0, area(square.ClipPolygon([]Point{{-9, -9}, {30, -9}, {30, 30}, {-9, 30}})))
	assert.Empty(t, square.ClipPolygon([]Point{{11, 0}, {12, 0}, {12, 5}}))
	assert.Empty(t, square.ClipPolygon(nil))
}

// area is that of a polygon, counter-clockwise (the shoelace formula).
func area(corners []Point) (twice float64) {
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		twice += p.X*q.Y - q.X*p.Y
	}
	return twice / 2
}

var sheet = Sheet{Width: 144, Height: 72, DPI: 72, Title: "A & <B>", Description: "what – is seen"}

func paint(p Page) {
	p.Fill(Polygon(p.Corners()...), color.NRGBA{0xff, 0xff, 0xff, 0xff})
	p.Fill(Polygon(Point{10, 10}, Point{30, 10}, Point{30, 30}, Point{10, 30}), red)
	p.Fill(Circle(Point{100, 20}, 8), color.NRGBA{0, 0, 0, 0x80})
	p.Stroke(Circle(Point{100, 20}, 8), Line{Color: red, Width: 1})
	p.Line(Line{Color: red, Width: 2, Dashes: []float64{4, 2.5}}, 0, 60, 144, 60)
	p.Write(Lettering{Size: 10}, Point{40, 40}, "Bär AV < 5 %")
	p.Write(Lettering{Size: 10, Bold: true, Turned: true}, Point{60, 5}, "up")
	p.Write(Lettering{Size: 10}, Point{}, "")
}

func drawn(t *testing.T, format string) []byte {
	t.Helper()
	var out, again bytes.Buffer
	require.NoError(t, sheet.Write(&out, format, paint))
	require.NoError(t, sheet.Write(&again, format, paint))
	require.Equal(t, again.Bytes(), out.Bytes(), "the same page, the same bytes")
	return out.Bytes()
}

func TestSVGCountsDownwards(t *testing.T) {
	out := drawn(t, "svg")
	var said struct {
		Title string   `xml:"title"`
		Desc  string   `xml:"desc"`
		Text  []string `xml:"text"`
	}
	require.NoError(t, xml.Unmarshal(out, &said))
	assert.Equal(t, []string{"Bär AV < 5 %", "up"}, said.Text)
	assert.Equal(t, sheet.Title+sheet.Description, said.Title+said.Desc)
	assert.Contains(t, string(out), `<path d="M10,62L30,62L30,42L10,42Z" style="fill:#FF0000" />`)
	assert.Contains(t, string(out), `<circle cx="100" cy="52" r="8" style="fill:#000000;fill-opacity:0.502" />`)
	assert.Contains(t, string(out), `stroke-dasharray:4,2.5`)
}

func TestPNGHasTheDots(t *testing.T) {
	picture, err := png.Decode(bytes.NewReader(drawn(t, "png")))
	require.NoError(t, err)
	assert.Equal(t, 144, picture.Bounds().Dx())
	at := func(x, y int) color.NRGBA { return color.NRGBAModel.Convert(picture.At(x, y)).(color.NRGBA) }
	assert.Equal(t, red, at(20, 72-20), "in the square")
	assert.Equal(t, color.NRGBA{0xff, 0xff, 0xff, 0xff}, at(20, 72-35), "above it")
	assert.InDelta(t, 0x7f, at(100, 72-20).R, 1, "half black over white")
	assert.Equal(t, red, at(2, 72-60), "on the first dash")
	assert.Equal(t, uint8(0xff), at(5, 72-60).G, "in the first gap")
}

// Each object of a PDF stands where the table says (ISO 32000-1, 7.5.4), and
// the end says where the table is.
func TestPDFFindsItsObjects(t *testing.T) {
	out := drawn(t, "pdf")
	end := regexp.MustCompile(
		`/Size (\d+) /Root (\d+) 0 R /Info \d+ 0 R >>\nstartxref\n(\d+)\n%%EOF\n$`).FindSubmatch(out)
	require.NotNil(t, end)
	number := func(text []byte) int {
		n, err := strconv.Atoi(string(text))
		require.NoError(t, err)
		return n
	}
	table := out[number(end[3]):]
	require.True(t, bytes.HasPrefix(table, []byte("xref\n0 "+string(end[1])+"\n")))
	entries := regexp.MustCompile(`(?m)^(\d{10}) 00000 n $`).FindAllSubmatch(table, -1)
	require.Len(t, entries, number(end[1])-1)
	for i, entry := range entries {
		assert.True(t, bytes.HasPrefix(out[number(entry[1]):], []byte(strconv.Itoa(i+1)+" 0 obj\n")))
	}
	root := out[number(entries[number(end[2])-1][1]):]
	pages := regexp.MustCompile(`^\d+ 0 obj\n<< /Type /Catalog /Pages (\d+) 0 R`).FindSubmatch(root)
	require.NotNil(t, pages)
	assert.Regexp(t, `^\d+ 0 obj\n<< /Type /Pages /Kids`, string(out[number(entries[number(pages[1])-1][1]):]))
	assert.Contains(t, string(out), "/MediaBox [0 0 144 72]")
	assert.Contains(t, string(out), "/Title <FEFF00410020002600200")
}

func TestUnknownFormat(t *testing.T) {
	assert.EqualError(t, sheet.Write(&bytes.Buffer{}, "gif", paint),
		`the format "gif" is not known; use one of: svg, png, pdf`)
}

// Words in an SVG hang at the place they were given, so that another font moves
// neither their middle nor their end.
func TestSVGWordsKeepTheirPlace(t *testing.T) {
	var out bytes.Buffer
	sheet := Sheet{Width: 200, Height: 100}
	require.NoError(t, sheet.Write(&out, "svg", func(p Page) {
		for i, across := range []Align{AtStart, AtMiddle, AtEnd} {
			p.Write(Lettering{Size: 8, Across: across}, Point{X: 50, Y: 10}, []string{"start", "middle", "end"}[i])
			turned := Lettering{Size: 8, Across: across, Turned: true}
			p.Write(turned, Point{X: 50, Y: 40}, []string{"from", "centre", "top"}[i])
		}
	}))
	svg := out.String()
	assert.Regexp(t, `<text x="50" y="[0-9.]+" textLength[^>]*>start<`, svg)
	assert.Regexp(t, `<text x="50" y="[0-9.]+" text-anchor="middle"[^>]*>middle<`, svg)
	assert.Regexp(t, `<text x="50" y="[0-9.]+" text-anchor="end"[^>]*>end<`, svg)
	assert.Regexp(t, `translate\([0-9.]+,60\) rotate\(-90\)" textLength[^>]*>from<`, svg)
	assert.Regexp(t, `translate\([0-9.]+,60\) rotate\(-90\)" text-anchor="middle"[^>]*>centre<`, svg)
	assert.Regexp(t, `translate\([0-9.]+,60\) rotate\(-90\)" text-anchor="end"[^>]*>top<`, svg)
}
