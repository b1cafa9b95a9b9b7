package picture

import (
	"fmt"
	"image/color"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// Sizes on the page.
const (
	margin    = 4 * vg.Millimeter
	titleSize = 11
	textSize  = 8
	rowHeight = 11
	keyWidth  = 34 // of a line in the legend
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

// draw puts the scene on a page: title, plot, and under it what the powders
// say.
func (s scene) draw(page draw.Canvas) {
	page.SetColor(color.White)
	page.Fill(page.Rectangle.Path())
	page = draw.Crop(page, margin, -margin, margin, -margin)

	title := lettering(titleSize, true)
	title.XAlign, title.YAlign = draw.XCenter, draw.YTop
	page.FillText(title, vg.Point{X: page.Center().X, Y: page.Max.Y}, fitting(title, s.title, page.Size().X))
	rows := s.legend(page)
	s.plot().Draw(draw.Crop(page, 0, 0, vg.Length(len(rows))*rowHeight+5, -titleSize-8))
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

// plot is the axes and, in this order, bands, the level asked for, curves,
// looks and letters.
func (s scene) plot() *plot.Plot {
	p := plot.New()
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font = lettering(9, false).Font
		axis.Tick.Label.Font = lettering(textSize, false).Font
		axis.Padding = 0
	}
	p.X.Label.Text = "g powder per g " + fitting(p.X.Label.TextStyle, s.liquid, pictureWidth/2)
	p.X.Label.Padding, p.Y.Label.Padding = 3, 4
	p.Y.Label.Text = "level"
	p.X.Min, p.X.Max = s.ratioRange()
	p.Y.Min, p.Y.Max = model.MinLevel-0.25, model.MaxLevel+0.25
	if s.several() {
		p.X.Scale = plot.LogScale{}
	}
	p.X.Tick.Marker = plot.ConstantTicks(s.ratioTicks(p.X.Min, p.X.Max))
	p.Y.Tick.Marker = plot.ConstantTicks(levelTicks())
	p.Add(layer(s.bands), layer(s.aim), layer(s.curves), layer(s.points), layer(s.letters))
	return p
}

// layer is one layer of the plot; at turns ratio and level into a place.
type layer func(c draw.Canvas, at func(x, level float64) vg.Point)

// Plot draws the layer.
func (l layer) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	l(c, func(ratio, level float64) vg.Point { return vg.Point{X: x(ratio), Y: y(level)} })
}

func (s scene) bands(c draw.Canvas, at func(x, level float64) vg.Point) {
	for i, one := range s.series {
		for _, run := range one.runs {
			low, high := outline(run, at)
			for j := range high {
				low = append(low, high[len(high)-1-j])
			}
			c.FillPolygon(s.dress(i).shade, c.ClipPolygonXY(low))
		}
	}
	for i, one := range s.series {
		if !s.several() {
			break
		}
		edge := draw.LineStyle{Color: s.dress(i).color, Width: 0.3, Dashes: s.dress(i).dashes}
		for _, run := range one.runs {
			low, high := outline(run, at)
			c.StrokeLines(edge, c.ClipLinesXY(low, high)...)
		}
	}
}

// outline is the two edges of a band.
func outline(run []bench.CurvePoint, at func(x, level float64) vg.Point) (low, high []vg.Point) {
	for _, k := range run {
		low, high = append(low, at(k.Low, k.Level)), append(high, at(k.High, k.Level))
	}
	return low, high
}

// aim draws the level asked for, with what a single powder takes there.
func (s scene) aim(c draw.Canvas, at func(x, level float64) vg.Point) {
	dashed := draw.LineStyle{Color: color.Black, Width: 0.7, Dashes: []vg.Length{5, 3}}
	y := at(1, s.level).Y
	c.StrokeLine2(dashed, c.Min.X, y, c.Max.X, y)
	words := model.LevelName(s.level)
	if r := s.series[0].answer; !s.several() && r.Powder != nil {
		words += fmt.Sprintf(": %s g %s per g", model.RatioText(r.Powder.Median), s.liquid)
		if k := bench.CurvePointOf(r.Level, r.Powder); isDrawn(k) {
			c.StrokeLines(dashed, c.ClipLinesXY([]vg.Point{at(k.X, s.level), {X: at(k.X, 0).X, Y: c.Min.Y}})...)
		}
	}
	sty := lettering(textSize, true)
	c.FillText(sty, vg.Point{X: c.Min.X + 4, Y: y + 3}, fitting(sty, words, c.Size().X/2))
}

func (s scene) curves(c draw.Canvas, at func(x, level float64) vg.Point) {
	for i, one := range s.series {
		for _, run := range one.runs {
			var line []vg.Point
			for _, k := range run {
				line = append(line, at(k.X, k.Level))
			}
			c.StrokeLines(s.dress(i).line(), c.ClipLinesXY(line)...)
		}
	}
}

func (s scene) points(c draw.Canvas, at func(x, level float64) vg.Point) {
	for i, one := range s.series {
		for _, l := range one.looks {
			p := at(l.X, l.Level)
			switch {
			case p.X < c.Min.X:
				c.FillText(lettering(textSize, true), vg.Point{X: c.Min.X + 1, Y: p.Y - 3}, "‹"+one.letter)
			case p.X > c.Max.X:
				sty := lettering(textSize, true)
				sty.XAlign = draw.XRight
				c.FillText(sty, vg.Point{X: c.Max.X - 1, Y: p.Y - 3}, one.letter+"›")
			default:
				s.dress(i).point(&c, p, l.Open(), l.Far)
			}
		}
	}
}
