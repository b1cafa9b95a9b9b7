package chart

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// Ratios outside these do not set the axis (chosen: a paste is between 0.02
// and 50).
const minRatio, maxRatio = 1e-4, 1e4

// maxWidening is how far what matters less may widen the axis.
const maxWidening = 2

// span is a range that grows with what it is given; the zero value is empty.
type span struct{ lo, hi float64 }

func (s *span) add(x float64) {
	if !(x >= minRatio && x <= maxRatio) {
		return
	}
	if s.hi == 0 {
		*s = span{x, x}
		return
	}
	s.lo, s.hi = min(s.lo, x), max(s.hi, x)
}

func (s *span) addNear(x float64) {
	if s.hi == 0 || (x >= s.lo/maxWidening && x <= s.hi*maxWidening) {
		s.add(x)
	}
}

// ratioRange is the ends of the ratio axis. Looks that give a value set it,
// without them the curves; bounds, looks pointed at, the answer and what is
// in the dish are taken in if near, so that none of them squeezes the rest.
func (c Chart) ratioRange() (lo, hi float64) {
	var s span
	for _, series := range c.Series {
		for _, p := range series.Points {
			if finite(p.Y) && !p.open() && !p.FarOut {
				s.add(p.X)
			}
		}
	}
	if s.hi == 0 {
		s = c.boundsRange()
	}
	for _, series := range c.Series {
		for _, p := range series.Points {
			s.addNear(p.X)
		}
		if c.aimText() != "" {
			s.addNear(crossing(series.Curve, c.Aim))
		}
	}
	s.addNear(c.NowX)

	switch {
	case s.hi == 0 && c.LogX:
		return 0.1, 10
	case s.hi == 0:
		return 0, 1
	case c.LogX && s.lo == s.hi:
		return s.lo / 2, s.hi * 2
	case c.LogX:
		return s.lo / 1.15, s.hi * 1.15
	default:
		return 0, s.hi * 1.06
	}
}

// boundsRange is the range where no look gives a value: of the curves, else
// of all looks.
func (c Chart) boundsRange() (s span) {
	for _, series := range c.Series {
		for _, k := range series.Curve {
			s.add(k.X)
		}
	}
	if s.hi != 0 {
		return s
	}
	for _, series := range c.Series {
		for _, p := range series.Points {
			s.add(p.X)
		}
	}
	return s
}

// crossing is the ratio at which a curve first passes a level, else NaN.
func crossing(curve []CurvePoint, level float64) float64 {
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1], curve[i]
		if (a.Y-level)*(b.Y-level) <= 0 && a.Y != b.Y {
			return a.X + (level-a.Y)/(b.Y-a.Y)*(b.X-a.X)
		}
	}
	return math.NaN()
}

// levelAxis writes the levels: all of them where each has a row, else the two
// ends. The aim is always there and pointed at.
func (p *plot) levelAxis() {
	for y := range p.rows {
		p.text(p.left-1, p.top+y, Axis, none, string(p.pick('│', '|')))
	}
	if aim := p.layout.aim; aim != "" {
		p.levelLabel(p.chart.Aim, Aim, aim+string(p.pick('▸', '>')))
	}
	step := 1
	if p.rows < levels {
		step = topLevel
	}
	for level := 0; level <= topLevel; level += step {
		p.levelLabel(float64(level), Axis, strconv.Itoa(level)+" ")
	}
}

// levelLabel writes a label to the left of the axis unless its row is taken.
func (p *plot) levelLabel(level float64, role Role, s string) {
	_, y := p.cellOf(0, p.row(level))
	if !p.free(0, y, p.left-1, Label) {
		return
	}
	n := utf8.RuneCountInString(s)
	p.text(p.left-1-n, y, role, none, s)
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
		x, _ := p.cellOf(p.column(t.at), 0)
		p.text(x, y, Axis, none, string(p.pick('┬', '+')))
		n := len(t.text)
		at := min(max(x-n/2, 0), p.w-n)
		pad := max(at-1, 0)
		if p.free(pad, y+1, min(at+n+1, p.w)-pad, Label) {
			p.text(at, y+1, Axis, none, t.text)
		}
	}
	if p.chart.NowX > p.lo && p.chart.NowX <= p.hi {
		x, _ := p.cellOf(p.column(p.chart.NowX), 0)
		p.text(x, y, Dot, none, string(p.pick('▲', '^')))
	}
}

// ratioLabel writes what the axis means at the right: in a row of its own, else
// in the lower right corner of the plot, if that is empty. (Little powder is
// thin and much is thick: there it seldom is not.)
func (p *plot) ratioLabel(y int) {
	s := clean(p.chart.XLabel, p.ascii)
	n := utf8.RuneCountInString(s)
	if p.labelRow {
		p.text(max(p.w-n, p.left), y+1, Label, none, s)
	} else if n <= p.cols*2/3 && p.free(p.w-n-1, y-2, n+1, Band) {
		p.text(p.w-n, y-2, Label, none, s)
	}
}

// tick is a value on the ratio axis.
type tick struct {
	at   float64
	text string
}

// ticks are round values from lo to hi, the more important first.
func (p *plot) ticks() []tick {
	if p.chart.LogX {
		if t := logTicks(p.lo, p.hi); len(t) > 2 {
			return t
		}
	}
	return linearTicks(p.lo, p.hi, p.cols)
}

// linearTicks are 1, 2 or 5 times a power of ten apart: the closest whose
// labels fit into cols cells.
func linearTicks(lo, hi float64, cols int) []tick {
	for e := math.Floor(math.Log10((hi - lo) / float64(cols))); ; e++ {
		decimals := int(max(-e, 0))
		for _, m := range []float64{1, 2, 5} {
			step := m * math.Pow(10, e)
			first, last := math.Ceil(lo/step), math.Floor(hi/step)
			room := float64(cols) / ((hi - lo) / step) // cells from tick to tick
			if room < float64(len(number(hi, decimals))+3) && last > first+1 {
				continue
			}
			ticks := make([]tick, 0, int(last-first)+1)
			for i := first; i <= last; i++ {
				v := i * step
				text := number(v, decimals)
				if v == 0 {
					text = "0"
				}
				ticks = append(ticks, tick{v, text})
			}
			return ticks
		}
	}
}

// logTicks are 1, 2 and 5 times each power of ten; the powers come first.
func logTicks(lo, hi float64) (ticks []tick) {
	for _, m := range []float64{1, 5, 2} {
		for e := math.Floor(math.Log10(lo)); e <= math.Log10(hi); e++ {
			if v := m * math.Pow(10, e); v >= lo && v <= hi {
				ticks = append(ticks, tick{v, number(v, int(max(-e, 0)))})
			}
		}
	}
	return ticks
}

// number writes v with a fixed number of decimals, -1 for as many as needed.
func number(v float64, decimals int) string {
	return strconv.FormatFloat(v, 'f', decimals, 64)
}
