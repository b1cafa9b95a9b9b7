package chart

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"daub.example/daub/model/ticks"
)

// levelAxis writes the labels of both ends and of each level with a row of its own.
// In a low chart two levels may share a row. It gets no label, so that neither is
// mistaken for the other. The target always has its label and a pointer.
func (p *plot) levelAxis() {
	for y := range p.rows {
		p.text(p.left-1, p.top+y, Axis, none, string(p.pick('│', '|')))
	}
	if p.layout.aim != "" {
		p.levelLabel(p.chart.Aim, p.left-1, Aim, p.layout.aim+string(p.pick('▸', '>')))
	}
	end := p.left - 1
	if p.aimBeside {
		end = p.chart.widestLevel() + 1
	}
	row := func(n int) int {
		_, y := p.cellOf(0, p.row(p.chart.labelled(n)))
		return y
	}
	last := p.chart.labels() - 1
	for n := range last + 1 {
		alone := (n == 0 || row(n-1) != row(n)) && (n == last || row(n+1) != row(n))
		if level := p.chart.labelled(n); alone || n == 0 || n == last {
			p.levelLabel(level, end, Axis, p.chart.levelText(level)+" ")
		}
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

// ratioAxis draws the line below the plot, its ticks, their values and words.
func (p *plot) ratioAxis() {
	y := p.top + p.rows
	p.text(p.left-1, y, Axis, none, string(p.pick('└', '+')))
	for x := range p.cols {
		p.text(p.left+x, y, Axis, none, string(p.pick('─', '-')))
	}
	p.ratioLabel(y + 1)
	for _, t := range p.ticks() {
		x, _ := p.cellOf(p.column(t.At), 0)
		p.text(x, y, Axis, none, string(p.pick('┬', '+')))
		p.tickLabel(x, y+1, t.Text, 1)
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
// little powder is thin and much is thick.
func (p *plot) ratioLabel(y int) {
	s := clean(p.chart.XLabel, p.ascii)
	if p.log && s != "" {
		s += ", log scale"
	}
	n := utf8.RuneCountInString(s)
	if p.labelRow {
		p.text(max(p.w-n, p.left), y+1, Label, none, s)
	} else if n <= p.cols*2/3 && p.free(p.w-n-1, y-2, n+1, Band) {
		p.text(p.w-n, y-2, Label, none, s)
	}
}

// inverseAxis writes the inverse ratios above the plot, with their unit at the
// left. There the powder is least, and its inverse is large and matters least.
func (p *plot) inverseAxis() {
	if p.inverseRow < 0 {
		return
	}
	words, level := clean(p.chart.InverseLabel, p.ascii), p.headWords()
	n := utf8.RuneCountInString(words)
	if n > p.w*2/3 { // without their unit the numbers would be read as those below
		p.text(0, p.inverseRow, Label, none, level)
		return
	}
	if at := utf8.RuneCountInString(level) + gap; at > gap && at+n <= p.w/2 {
		words = level + strings.Repeat(" ", gap) + words
	}
	p.text(0, p.inverseRow, Label, none, words)
	ticks.Inverse(max(p.lo, p.hi/100), p.hi, func(t ticks.Tick) bool {
		x, _ := p.cellOf(p.column(t.At), 0)
		return p.tickLabel(x, p.inverseRow, t.Text, 3)
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

// sharesRow reports whether a level between two whole ones lies in a cell that has the
// label of a whole one.
func sharesRow(level float64, rows, dy int) bool {
	cell := func(level float64) int { return int(math.Round(levelRow(level, rows, dy))) / dy }
	at, there := cell(level), 0
	for whole := 0.0; whole <= topLevel; whole++ {
		if cell(whole) == at {
			there++
		}
	}
	return level != math.Trunc(level) && (there == 1 || at == cell(0) || at == cell(topLevel))
}
