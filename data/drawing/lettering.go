package drawing

import (
	"image/color"
	"sync"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Lettering is the style of words, and how they lie around their place.
type Lettering struct {
	Size   float64
	Bold   bool
	Turned bool // by a quarter turn, to be read from below upwards
	Color  color.NRGBA
	Across Align // which part of the words is at the place: start, middle or end
	Up     Align // likewise: lower edge, middle or upper edge
}

// Align says which part of words lies at their place.
type Align int

// The parts of words, from the left or from below.
const (
	AtStart Align = iota
	AtMiddle
	AtEnd
)

// share returns the part of the words before their place, 0 to 1.
func (a Align) share() float64 { return float64(a) / 2 }

// Height returns the height of a line of words, from the lowest tail to the highest
// top.
func (l Lettering) Height() float64 { return l.ascent() + l.Descent() }

// Descent returns how far tails reach below the line that letters stand on.
func (l Lettering) Descent() float64 { return l.face().descent * l.Size }

func (l Lettering) ascent() float64 { return l.face().ascent * l.Size }

// Width returns the width of words.
func (l Lettering) Width(words string) float64 {
	width := 0.0
	for _, g := range l.face().glyphs(words) {
		width += g.kern + g.advance
	}
	return width * l.Size
}

// start returns where the first letter stands on its line.
func (l Lettering) start(at Point, words string) Point {
	across := l.Width(words) * l.Across.share()
	up := l.Size - l.ascent() - l.Height()*l.Up.share()
	if l.Turned {
		return Point{at.X - up, at.Y - across}
	}
	return Point{at.X - across, at.Y + up}
}

func (l Lettering) face() *face {
	if l.Bold {
		return bold()
	}
	return regular()
}

// face is a font, ready to measure and draw. Lengths are for letters of size 1.
type face struct {
	name            string
	file            []byte // TrueType
	font            *sfnt.Font
	ascent, descent float64
}

var (
	regular = sync.OnceValue(func() *face { return readFace("LiberationSans", liberationsansregular.TTF) })
	bold    = sync.OnceValue(func() *face { return readFace("LiberationSans-Bold", liberationsansbold.TTF) })
)

func readFace(name string, file []byte) *face {
	f, err := sfnt.Parse(file)
	if err != nil {
		panic(err) // cannot fail: the font is part of the program
	}
	out := &face{name: name, file: file, font: f}
	metrics, err := f.Metrics(nil, out.em(), font.HintingNone)
	if err != nil {
		panic(err)
	}
	out.ascent, out.descent = out.length(metrics.Ascent), out.length(metrics.Descent)
	return out
}

// em is the size at which the font's own units are whole numbers.
func (f *face) em() fixed.Int26_6 { return fixed.Int26_6(f.font.UnitsPerEm()) }

// length converts the font's own units to lengths for letters of size 1.
func (f *face) length(units fixed.Int26_6) float64 {
	return float64(units) / float64(f.font.UnitsPerEm())
}

// glyph is the outline of one letter.
type glyph struct {
	index   sfnt.GlyphIndex
	letter  rune
	advance float64 // to the next letter
	kern    float64 // shift towards the letter before, below 0
}

// glyphs turns text into outlines; a letter that the font lacks is an empty box.
func (f *face) glyphs(words string) []glyph {
	var all []glyph
	var buffer sfnt.Buffer
	for _, letter := range words {
		g := glyph{letter: letter}
		g.index, _ = f.font.GlyphIndex(&buffer, letter)
		if advance, err := f.font.GlyphAdvance(&buffer, g.index, f.em(), font.HintingNone); err == nil {
			g.advance = f.length(advance)
		}
		if n := len(all); n > 0 {
			if kern, err := f.font.Kern(&buffer, all[n-1].index, g.index, f.em(), font.HintingNone); err == nil {
				g.kern = f.length(kern)
			}
		}
		all = append(all, g)
	}
	return all
}
