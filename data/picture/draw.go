package picture

import (
	"daub.example/daub/data/drawing"
	"daub.example/daub/model"
)

// Sizes on the page.
const (
	margin     = 4 * drawing.Millimetre
	titleSize  = 11
	labelSize  = 9
	textSize   = 8
	noteSize   = 7
	rowHeight  = 11
	keyWidth   = 34                      // length of a line in the legend
	leastPlot  = 44 * drawing.Millimetre // width of a plot with both axes and room for each level's word
	levelWords = 75                      // about the width of the level axis
	otherFonts = 1.16                    // how much wider letters may be if a program shows an SVG in another font
)

// lettering is a style of text; bold for titles and letters.
func lettering(size float64, bold bool) drawing.Lettering {
	return drawing.Lettering{Size: size, Bold: bold, Color: ink}
}

// titleHeight is the height of the title line, points.
const titleHeight = titleSize + 8

func wordsHeight(rows []row) float64 { return float64(len(rows))*rowHeight + 5 }

// leastHeight returns the least height of a page of this width, so that the words
// leave the plot enough.
func (s scene) leastHeight(width float64) float64 {
	page := drawing.Page{Area: drawing.Area{Max: drawing.Point{X: width - 2*margin}}}
	return wordsHeight(s.legend(page)) + titleHeight + leastPlot + 2*margin
}

// draw draws the scene on a page: title, plot, and below it the legend.
func (s scene) draw(page drawing.Page) {
	page.Fill(drawing.Polygon(page.Corners()...), white)
	page = page.Cropped(margin, margin, margin, margin)
	rows := s.legend(page)
	below := wordsHeight(rows)

	title := lettering(titleSize, true)
	title.Across, title.Up = drawing.AtMiddle, drawing.AtEnd
	words := fitting(title, s.title, page.Width()/otherFonts)
	page.Write(title, drawing.Point{X: page.Centre().X, Y: page.Max.Y}, words)
	s.plot(page.Cropped(0, 0, below, titleHeight+inverseHeight))
	for i, row := range rows {
		row(drawing.Point{X: page.Min.X, Y: page.Min.Y + (float64(len(rows)-i)-0.5)*rowHeight})
	}
}

// fitting cuts text to a width, in the middle, because lots differ at the end.
func fitting(sty drawing.Lettering, words string, width float64) string {
	runes := []rune(words)
	for kept := len(runes); sty.Width(words) > width && kept > 0; kept-- {
		head := (kept + 1) / 2
		words = string(runes[:head]) + "…" + string(runes[len(runes)-(kept-head):])
	}
	return words
}

// toPage gives the point on the page of a ratio (g powder per g liquid) and a level.
type toPage func(ratio, level float64) drawing.Point

// plot draws the axes and, in this order, bands, the target, curves, looks and
// letters.
func (s scene) plot(page drawing.Page) {
	frame := s.axes(page)
	at := func(ratio, level float64) drawing.Point {
		return drawing.Point{
			X: frame.Min.X + s.axis.fraction(ratio)*frame.Width(),
			Y: frame.Min.Y + levelFraction(level)*frame.Height(),
		}
	}
	for _, layer := range []func(drawing.Page, toPage){
		s.bands, s.level, s.curves, s.answers, s.points, s.trialNumbers, s.letters, s.inverseAxis,
	} {
		layer(frame, at)
	}
}

// levelFraction is where a level stands, 0 at the lower end of the axis to 1 at the
// upper one.
func levelFraction(level float64) float64 {
	const beyond = 0.25 // the axis goes on at both ends
	return (level - model.MinLevel + beyond) / (model.MaxLevel - model.MinLevel + 2*beyond)
}

// stroke draws the parts of lines that lie on the page.
func stroke(p drawing.Page, sty drawing.Line, lines ...[]drawing.Point) {
	for _, line := range lines {
		for _, piece := range p.ClipLine(line) {
			p.Stroke(drawing.Shape{Points: piece}, sty)
		}
	}
}
