package picture

import (
	"image/color"

	"daub.example/daub/model"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes on the page.
const (
	margin     = 4 * vg.Millimeter
	titleSize  = 11
	labelSize  = 9
	textSize   = 8
	rowHeight  = 11
	keyWidth   = 34                 // of a line in the legend
	leastPlot  = 44 * vg.Millimeter // both axes with it: each level's word has room
	levelWords = 75                 // what the level axis takes, about
)

// bolder is the weight that the library's fonts call bold, regular being 0.
const bolder = 3

// lettering is a style of text; bold for titles and letters.
func lettering(size vg.Length, bold bool) text.Style {
	f := font.Font{Typeface: "Liberation", Variant: "Sans"}
	if bold {
		f.Weight = bolder
	}
	return text.Style{Color: color.Black, Font: font.From(f, size), Handler: plot.DefaultTextHandler}
}

// What the title takes, and each row of words.
const titleHeight = titleSize + 8

func wordsHeight(rows []row) vg.Length { return vg.Length(len(rows))*rowHeight + 5 }

// leastHeight is what a page so wide needs, that the words leave the plot
// enough.
func (s scene) leastHeight(width vg.Length) vg.Length {
	page := draw.Canvas{Rectangle: vg.Rectangle{Max: vg.Point{X: width - 2*margin}}}
	return wordsHeight(s.legend(page)) + titleHeight + leastPlot + 2*margin
}

// draw puts the scene on a page: title, plot, and under it what the powders
// say.
func (s scene) draw(page draw.Canvas) {
	page.SetColor(color.White)
	page.Fill(page.Rectangle.Path())
	page = draw.Crop(page, margin, -margin, margin, -margin)
	rows := s.legend(page)
	below := wordsHeight(rows)

	title := lettering(titleSize, true)
	title.XAlign, title.YAlign = draw.XCenter, draw.YTop
	page.FillText(title, vg.Point{X: page.Center().X, Y: page.Max.Y}, fitting(title, s.title, page.Size().X))
	s.plot(page.Size().X).Draw(draw.Crop(page, 0, 0, below, -titleHeight-inverseHeight))
	for i, row := range rows {
		row(vg.Point{X: page.Min.X, Y: page.Min.Y + (vg.Length(len(rows)-i)-0.5)*rowHeight})
	}
}

// fitting is a text cut to a width, in the middle: lots differ at the end.
func fitting(sty text.Style, words string, width vg.Length) string {
	runes := []rune(words)
	for kept := len(runes); sty.Width(words) > width && kept > 0; kept-- {
		head := (kept + 1) / 2
		words = string(runes[:head]) + "…" + string(runes[len(runes)-(kept-head):])
	}
	return words
}

// plot is the axes and, in this order, bands, the target, curves, looks and
// letters.
func (s scene) plot(width vg.Length) *plot.Plot {
	p := plot.New()
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font = lettering(labelSize, false).Font
		axis.Tick.Label.Font = lettering(textSize, false).Font
		axis.Padding = 0
	}
	p.X.Label.Text = s.axisWords("g powder per g %s", p.X.Label.TextStyle, width-levelWords)
	p.X.Label.Padding, p.Y.Label.Padding = 3, 4
	p.Y.Label.Text = "level"
	p.X.Min, p.X.Max = s.axis.low, s.axis.high
	p.Y.Min, p.Y.Max = model.MinLevel-0.25, model.MaxLevel+0.25
	if s.axis.log {
		p.X.Scale = plot.LogScale{}
	}
	p.X.Tick.Marker = plot.ConstantTicks(s.axis.ticks(width - levelWords))
	p.Y.Tick.Marker = plot.ConstantTicks(levelTicks())
	p.Add(layer(s.bands), layer(s.level), layer(s.curves), layer(s.answers), layer(s.points), layer(s.letters),
		layer(s.inverseAxis))
	return p
}

// layer is one layer of the plot; at turns ratio and level into a place.
type layer func(c draw.Canvas, at func(x, level float64) vg.Point)

// Plot draws the layer.
func (l layer) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	l(c, func(ratio, level float64) vg.Point { return vg.Point{X: x(ratio), Y: y(level)} })
}
