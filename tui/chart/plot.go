package chart

import (
	"math"

	"github.com/charmbracelet/x/ansi"
)

const (
	topLevel = 7
	levels   = 8
)

// seriesStyle tells the curves of several series apart.
type seriesStyle struct {
	dash  string // dots along the line, repeated
	ascii rune
}

var styles = []seriesStyle{
	{"#", '*'},
	{"########....", '+'},
	{"##...", 'x'},
	{"########..##..", '#'},
	{"####......", '%'},
	{"########..##..##..", '='},
}

// plot draws a chart's layers on a canvas.
type plot struct {
	canvas
	chart  Chart
	lo, hi float64 // ends of the ratio axis
	log    bool    // it is logarithmic
	ends   []dot   // one a series: the topmost dot of its curve in sight
}

// dot is a dot of the window.
type dot struct {
	x, y int
	ok   bool
}

func newPlot(c Chart, l layout) *plot {
	p := &plot{canvas: newCanvas(l, c.ASCII), chart: c, ends: make([]dot, len(c.Series))}
	p.lo, p.hi, p.log = c.ratioRange()
	return p
}

// far bounds coordinates, so that they can be calculated with; it is well outside
// any window.
const far = 1e6

func clampFar(v float64) float64 { return min(max(v, -far), far) }

// column converts ratio x to dots from the left of the window.
func (p *plot) column(x float64) float64 {
	lo, hi := p.lo, p.hi
	if p.log {
		if x <= 0 {
			return -far
		}
		x, lo, hi = math.Log(x), math.Log(lo), math.Log(hi)
	}
	return clampFar((x - lo) / (hi - lo) * float64(p.cols*p.dx-1))
}

// row converts a level to dots from the top of the window.
func (p *plot) row(level float64) float64 { return levelRow(level, p.rows, p.dy) }

// cellOf returns the frame's cell around a dot of the window.
func (p *plot) cellOf(column, row float64) (x, y int) {
	return p.left + int(math.Round(column))/p.dx, p.top + int(math.Round(row))/p.dy
}

// band stipples the area between Low and High.
func (p *plot) band() {
	for i, s := range p.chart.Series {
		for k := 1; k < len(s.Curve); k++ {
			if a, b := s.Curve[k-1], s.Curve[k]; a.hasBand() && b.hasBand() {
				p.bandPart(a, b, i)
			}
		}
	}
}

func (k CurvePoint) hasBand() bool {
	return finite(k.Y) && finite(k.Low) && finite(k.High) && k.Low < k.High
}

// bandPart fills the band between two neighbouring points.
func (p *plot) bandPart(a, b CurvePoint, series int) {
	if a.Y < b.Y {
		a, b = b, a
	}
	top, bottom := p.row(a.Y), p.row(b.Y)
	left, right := p.column(a.Low), p.column(a.High)
	dLeft, dRight := p.column(b.Low)-left, p.column(b.High)-right
	first := int(math.Ceil(max(top, 0)))
	last := int(math.Floor(min(bottom, float64(p.rows*p.dy-1))))
	for y := first; y <= last; y++ {
		t := 0.0
		if bottom > top {
			t = (float64(y) - top) / (bottom - top)
		}
		from := int(math.Ceil(max(left+t*dLeft, 0)))
		to := int(math.Floor(min(right+t*dRight, float64(p.cols*p.dx-1))))
		for x := from; x <= to; x++ {
			// Every fourth dot is light enough to read a line over it. With several
			// series it is every eighth, each with its own phase.
			if p.ascii || (x+2*y+5*series)%p.bandStep() == 0 {
				p.dot(x, y, Band, series)
			}
		}
	}
}

// bandStep returns the distance between drawn dots of a band, in dots.
func (p *plot) bandStep() int {
	if len(p.chart.Series) > 1 {
		return 8
	}
	return 4
}

// aim draws the dashed line of the target level: a cell, then a gap.
func (p *plot) aim() {
	if p.layout.aim == "" {
		return
	}
	y := int(math.Round(p.row(p.chart.Aim)))
	for x := range p.cols * p.dx {
		if x/p.dx%2 == 0 {
			p.dot(x, y, Aim, none)
		}
	}
}

// curves draws the medians.
func (p *plot) curves() {
	for i, s := range p.chart.Series {
		whole := styles[i%len(styles)].dash
		thin := whole
		switch {
		case p.ascii: // cells are too coarse for dashes
			whole, thin = "#", "#."
		case p.chart.mark(i) == 0:
			thin = "##.."
		}
		line := dashedLine{plot: p, series: i}
		for k := 1; k < len(s.Curve); k++ {
			a, b := s.Curve[k-1], s.Curve[k]
			if finite(a.X) && finite(a.Y) && finite(b.X) && finite(b.Y) {
				line.thin, line.dash = a.OneSided || b.OneSided, whole
				if line.thin {
					line.dash = thin
				}
				line.stroke(p.column(a.X), p.row(a.Y), p.column(b.X), p.row(b.Y))
			}
		}
		p.ends[i] = line.end
	}
}

// points draws the looks as glyphs; those not used for the answer last, over the
// others.
func (p *plot) points() {
	for _, counts := range []bool{true, false} {
		for i, s := range p.chart.Series {
			mark, several := p.chart.mark(i), s.severalTrials()
			for _, at := range s.Points {
				if at.counts() == counts {
					p.point(at, i, at.glyph(mark, several, p.ascii))
				}
			}
		}
	}
}

// point draws a look at its place; beyond the edge, a sign at the edge.
func (p *plot) point(at Point, series int, r rune) {
	if !finite(at.X) || !finite(at.Y) || at.X < 0 || (p.log && at.X == 0) {
		return
	}
	column, edge := p.column(at.X), float64(p.cols*p.dx-1)
	if column < -0.5 {
		column, r = 0, p.pick('‹', '<')
	} else if column > edge+0.5 {
		column, r = edge, p.pick('›', '>')
	}
	row := p.row(at.Y)
	if row < 0 || row > float64(p.rows*p.dy-1) {
		return
	}
	x, y := p.cellOf(column, row)
	p.text(x, y, Dot, series, string(r))
}

// curveLabels writes each series' letter at the top of its curve, if possible where
// it hides neither a look nor a curve.
func (p *plot) curveLabels() {
	for i, end := range p.ends {
		mark := p.chart.mark(i)
		if mark == 0 || !end.ok {
			continue
		}
		s := "(" + string(mark) + ")"
		x, y := p.cellOf(float64(end.x), float64(end.y))
		p.tryText(s, i, []spot{
			{x - 1, y - 1, Curve},
			{x + 1, y, Curve},
			{x - 3, y, Curve},
			{x - 1, y + 1, Curve},
			{x + 1, y, Dot},
			{x - 3, y, Dot},
		})
	}
}

// spot is a cell where text may begin if it hides only layers below one.
type spot struct {
	x, y  int
	below Role
}

// tryText writes s at the first spot that is free and inside the window.
func (p *plot) tryText(s string, series int, spots []spot) {
	n := ansi.StringWidth(s)
	for _, at := range spots {
		inside := at.x >= p.left && at.y >= p.top && at.y < p.top+p.rows
		if inside && p.free(at.x, at.y, n, at.below) {
			p.text(at.x, at.y, Label, series, s)
			return
		}
	}
}

func (p *plot) pick(braille, ascii rune) rune { return pick(p.ascii, braille, ascii) }
