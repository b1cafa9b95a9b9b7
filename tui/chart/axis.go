package chart

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"daub.example/daub/model/ticks"
)

// levelAxis writes the labels of the axis, and that of the target with a pointer. Levels
// that share a row of a low chart are written together, as "3-4". Readings and words that
// share one get no label, so that none is mistaken for another; the ends always have theirs.
func (p *plot) levelAxis() {
	for y := range p.rows {
		p.text(p.left-1, p.top+y, Axis, none, string(p.pick('│', '|')))
	}
	if p.layout.aim != "" {
		p.levelLabel(p.chart.Aim, p.left-1, Aim, p.layout.aim+string(p.pick('▸', '>')))
	}
	end := p.left - 1
	if p.aimBeside {
		end = p.chart.widestLevel(p.rows) + 1
	}
	row := func(n int) int {
		_, y := p.cellOf(0, p.row(p.chart.labelled(n)))
		return y
	}
	last := p.chart.labels() - 1
	for n := 0; n <= last; n++ {
		first, text := n, p.chart.levelText(p.chart.labelled(n))
		for n < last && row(n+1) == row(first) {
			n++
		}
		switch highest := p.chart.levelText(p.chart.labelled(n)); {
		case n == first:
		case p.chart.plainLevels():
			text += "+" + highest
		case n == last:
			text = highest
		case first > 0:
			continue
		}
		p.levelLabel(p.chart.labelled(first), end, Axis, text+" ")
	}
}

// levelLabel writes a label that ends before column end, and a tick on the axis; a
// row that has a label already is left.
func (p *plot) levelLabel(level float64, end int, role Role, s string) {
	_, y := p.cellOf(0, p.row(level))
	if !p.free(0, y, end, Label) {
		return
	}
	p.text(end-utf8.RuneCountInString(s), y, role, none, s)
	p.text(p.left-1, y, Axis, none, string(p.pick('┤', '+')))
}

// ratioAxis draws the line below the plot, its ticks, their values and words. With room
// for one row of values, these are the inverse ratios: answers are told in them.
func (p *plot) ratioAxis() {
	y := p.top + p.rows
	p.text(p.left-1, y, Axis, none, string(p.pick('└', '+')))
	for x := range p.cols {
		p.text(p.left+x, y, Axis, none, string(p.pick('─', '-')))
	}
	labelled := p.ratioLabel(y + 1)
	if words := clean(p.chart.InverseLabel, p.ascii); p.inverseRow < 0 && p.canInvert() {
		p.text(0, y+1, Label, none, words)
		p.inverseTicks(y+1, func(x int) { p.text(x, y, Axis, none, string(p.pick('┬', '+'))) })
	} else {
		for _, t := range p.ticks() {
			x, _ := p.cellOf(p.column(t.At), 0)
			p.text(x, y, Axis, none, string(p.pick('┬', '+')))
			if labelled || p.inverseRow < 0 { // without words they would pass for the scale above
				p.tickLabel(x, y+1, t.Text, 1)
			}
		}
	}
	if p.chart.NowX > p.lo && p.chart.NowX <= p.hi {
		x, _ := p.cellOf(p.column(p.chart.NowX), 0)
		p.text(x, y, Dot, none, string(p.pick('▲', '^')))
	}
}

// tickLabel writes a value centred on column x, at least apart cells from its
// neighbours. It reports whether there was room.
func (p *plot) tickLabel(x, y int, s string, apart int) bool {
	n := len(s)
	at := min(max(x-n/2, 0), p.w-n)
	pad := max(at-apart, 0)
	if !p.free(pad, y, min(at+n+apart, p.w)-pad, Label) {
		return false
	}
	p.text(at, y, Axis, none, s)
	return true
}

// ratioLabel writes the unit of the axis at the right. It has a row of its own,
// else the lower right corner of the plot, if that is empty. It seldom is not:
// little powder is thin and much is thick. The result is false where there was no room.
func (p *plot) ratioLabel(y int) bool {
	s := clean(p.chart.XLabel, p.ascii)
	if s == "" || p.inverseRow < 0 && p.canInvert() {
		return true // none, or the row of values has its own
	}
	if p.log {
		s += ", log scale"
	}
	n := utf8.RuneCountInString(s)
	switch {
	case p.labelRow:
		p.text(max(p.w-n, p.left), y+1, Label, none, s)
	case n <= p.cols*2/3 && p.free(p.w-n-1, y-2, n+1, Band):
		p.text(p.w-n, y-2, Label, none, s)
	default:
		return false
	}
	return true
}

// inverseAxis writes the inverse ratios above the plot, with their unit at the
// left. There the powder is least, and its inverse is large and matters least.
func (p *plot) inverseAxis() {
	if p.inverseRow < 0 {
		return
	}
	words, level := clean(p.chart.InverseLabel, p.ascii), p.headWords()
	n := utf8.RuneCountInString(words)
	if !p.canInvert() {
		p.text(0, p.inverseRow, Label, none, level)
		return
	}
	if at := utf8.RuneCountInString(level) + gap; at > gap && at+n <= p.w/2 {
		words = level + strings.Repeat(" ", gap) + words
	}
	p.text(0, p.inverseRow, Label, none, words)
	p.inverseTicks(p.inverseRow, func(int) {})
}

// canInvert reports whether inverse ratios are wanted, and their unit fits beside them:
// without it they would be read as the ratios.
func (p *plot) canInvert() bool {
	n := utf8.RuneCountInString(clean(p.chart.InverseLabel, p.ascii))
	return n > 0 && n <= p.w*2/3
}

// inverseTicks writes inverse ratios into row y and hands the column of each to placed.
func (p *plot) inverseTicks(y int, placed func(x int)) {
	ticks.Inverse(max(p.lo, p.hi/100), p.hi, func(t ticks.Tick) bool {
		x, _ := p.cellOf(p.column(t.At), 0)
		ok := p.tickLabel(x, y, t.Text, 3)
		if ok {
			placed(x)
		}
		return ok
	})
}

// headWords returns the level label if the header has none.
func (p *plot) headWords() string {
	if p.header {
		return ""
	}
	return clean(p.chart.YLabel, p.ascii)
}

// ticks returns round values from lo to hi, the more important first.
func (p *plot) ticks() []ticks.Tick {
	if p.log {
		if t := ticks.Log(p.lo, p.hi); len(t) > 2 {
			return t
		}
	}
	return ticks.Linear(p.lo, p.hi, func(step float64, widest string) bool {
		cells := float64(p.cols) / ((p.hi - p.lo) / step) // cells from tick to tick
		return cells >= float64(len(widest)+3)
	})
}

// number writes v with a fixed number of decimals, -1 for as many as needed.
func number(v float64, decimals int) string {
	return strconv.FormatFloat(v, 'f', decimals, 64)
}

// levelRow converts a level to dots from the top of a plot of so many rows, dy dots
// each. Levels 7 and 0 are in the middle of the first and the last cell. So points
// and labels, which fill a cell, sit on their level.
func levelRow(level float64, rows, dy int) float64 {
	return clampFar((topLevel-level)/topLevel*float64((rows-1)*dy) + float64(dy-1)/2)
}

// sharesRow reports whether another level, a whole one, lies in the cell of a level.
func sharesRow(level float64, rows, dy int) bool {
	cell := func(level float64) int { return int(math.Round(levelRow(level, rows, dy))) / dy }
	for whole := 0.0; whole <= topLevel; whole++ {
		if whole != level && cell(whole) == cell(level) {
			return true
		}
	}
	return false
}
