// Package chart draws consistency level against grams of powder per gram of liquid,
// as text: one trial or powder, or several powders in one picture.
//
// Nothing is told by colour alone: layers differ in texture, points in glyph,
// series in letter and dash. It knows no powder; it imports printable and ticks.
package chart

import (
	"math"
	"strings"
	"unicode/utf8"
)

// Point is one look at the dish. X is g powder per g liquid, Y the level from
// 0 to 7. A look of 0 or 7 says only "at most" or "at least" and is drawn
// hollow (in a marked series, as a small letter).
type Point struct {
	X, Y   float64
	Trial  int  // its index in the profile; without a mark, each trial has its own glyph
	Latest bool // the look made last
	FarOut bool // far from the others; wins over Latest
	// LeftOut marks a look that is shown but not used for the answer; it wins over
	// all.
	LeftOut bool
}

// CurvePoint is one level of the fitted line. X is the median ratio at level Y, Low
// and High are the edges of its band, all in g powder per g liquid. A band is drawn
// only if Low < High; the zero values have none.
type CurvePoint struct {
	Y, X, Low, High float64
	OneSided        bool // tested from one side only: drawn thin
}

// Series is one powder on the chart.
type Series struct {
	Name   string // for the legend, which lists marked series only
	Mark   rune   // letter of its points and labels, one cell wide; 0 draws circles
	Points []Point
	Curve  []CurvePoint // in order along the line; a point that is not finite leaves a gap
}

// Chart describes one picture. The zero value draws empty axes.
//
// The level axis always holds 0 to 7. The ratio axis has room for the looks, the
// dish, and the interval at the target; it may cut the rest of the curve and its
// band. Looks beyond its ends are drawn as ‹ and ›.
type Chart struct {
	Series []Series
	Aim    float64 // the target level, 0 to 7; drawn if HasAim
	HasAim bool
	NowX   float64 // the ratio now in the dish, marked on the axis; 0 for none
	LogX   bool    // logarithmic ratios, for powders far apart; also used if the answer is far from the looks
	XLabel string  // unit of a ratio, "g powder per g water"
	// InverseLabel is the unit of an inverse ratio, "g water per g powder". If set,
	// a row above the plot shows the inverse ratios; where none can be spared, they
	// stand below the plot in the place of the ratios.
	InverseLabel string
	YLabel       string
	// LevelStart and LevelStep label the level axis with readings: level i stands
	// for LevelStart + i·LevelStep. A LevelStep of 0 labels it with levels.
	LevelStart, LevelStep float64
	// Words label the level axis with words instead of numbers, from the lowest at
	// 0 to the highest at 7, equally far apart.
	Words []string
	ASCII bool // draw with ASCII only

	// Paint styles a run of cells with the same role and series; it must keep the
	// width. Series is an index, -1 for cells of no series. Nil leaves everything
	// plain.
	Paint func(role Role, series int, s string) string
}

// none is the series of cells that belong to no series.
const none = -1

// Larger charts get no better, only slower: cells beyond maxWidth and lines beyond
// maxHeight stay blank.
const maxWidth, maxHeight = 400, 200

// The least plot that tells anything, in cells.
const minCols, minRows = 8, 3

// Render draws the chart into exactly h lines of exactly w cells each. If that is
// too small for a chart, the lines are blank. Heights of 10, 17 and 24 fit best,
// one more for XLabel, one more for YLabel or a legend.
func (c Chart) Render(w, h int) []string {
	w, h = max(w, 0), max(h, 0)
	blank := strings.Repeat(" ", w)
	lines := make([]string, h)
	for i := range lines {
		lines[i] = blank
	}

	l, ok := c.layout(min(w, maxWidth), min(h, maxHeight))
	if !ok {
		return lines
	}
	p := newPlot(c, l)
	p.band()
	p.aim()
	p.curves()
	p.points()
	p.curveLabels()
	p.levelAxis()
	p.ratioAxis()
	p.inverseAxis()

	rest := blank[:w-l.w]
	for y := range l.h {
		if y == 0 && l.header {
			lines[0] = c.head(l.w) + rest
		} else {
			lines[y] = p.line(y, c.Paint) + rest
		}
	}
	return lines
}

// layout holds positions and sizes of the chart's parts, in cells of the whole
// frame.
type layout struct {
	w, h       int
	left, top  int // upper left cell of the plot
	cols, rows int // size of the plot
	aim        string
	aimBeside  bool // the target's label stands beside a whole level's in one row
	header     bool // the first row holds the level label and the legend
	inverseRow int  // row of the inverse ratios, -1 for none
	labelRow   bool // the ratio label has a row of its own
}

// layout gives the plot the room that the axes leave. Rows go to words only while
// each level still has a row of its own.
func (c Chart) layout(w, h int) (layout, bool) {
	l := layout{w: w, h: h, aim: c.aimText(), inverseRow: -1}
	l.rows = h - 2
	legend := c.legend() != nil
	if (legend && l.rows > minRows+1) || (c.YLabel != "" && c.InverseLabel == "" && l.rows > c.labels()) {
		l.header, l.top, l.rows = true, 1, l.rows-1
	}
	if c.InverseLabel != "" && l.rows > c.labels() {
		l.inverseRow, l.top, l.rows = l.top, l.top+1, l.rows-1
	}
	if c.XLabel != "" && l.rows > c.labels() {
		l.labelRow, l.rows = true, l.rows-1
	}
	// Levels a whole number of rows apart read best; that is worth up to three
	// rows.
	if spare := (l.rows - 1) % (c.labels() - 1); l.rows > c.labels() && spare <= 3 {
		l.rows, l.h = l.rows-spare, l.h-spare
	}
	widest := c.widestLevel(l.rows)
	l.left = max(utf8.RuneCountInString(l.aim), widest) + 2
	named := c.plainLevels() || len(c.Words) == 0 && l.rows >= levels // low, an axis of readings has few labels
	if l.aim != "" && named && sharesRow(c.Aim, l.rows, dotsPerCell(c.ASCII)) {
		l.aimBeside, l.left = true, widest+len(l.aim)+3
	}
	l.cols = w - l.left
	// Two words in one row could be mistaken for each other.
	return l, l.cols >= minCols && l.rows >= max(minRows, len(c.Words))
}

// aimText gives the target level for the axis, "" if none is shown.
func (c Chart) aimText() string {
	if !c.HasAim || !(c.Aim >= 0 && c.Aim <= topLevel) {
		return ""
	}
	return c.levelText(math.Round(c.Aim*100) / 100)
}

// levelText gives the axis label at a level: the level, the reading it stands for,
// or the nearest word.
func (c Chart) levelText(level float64) string {
	switch {
	case len(c.Words) > 0:
		return clean(c.Words[int(math.Round(level/topLevel*float64(len(c.Words)-1)))], c.ASCII)
	case c.LevelStep == 0:
		return number(level, -1)
	default:
		return number(math.Round((c.LevelStart+level*c.LevelStep)*100)/100, -1)
	}
}

// labels returns how many labels the level axis has.
func (c Chart) labels() int {
	if len(c.Words) > 1 {
		return len(c.Words)
	}
	return levels
}

// labelled returns the level of the n-th label of the level axis, from 0.
func (c Chart) labelled(n int) float64 { return WordLevel(n, c.labels()) }

// WordLevel returns the level of the n-th of so many words on an axis of words,
// from 0.
func WordLevel(n, words int) float64 { return topLevel * float64(n) / float64(words-1) }

// plainLevels reports whether the level axis counts levels, not readings or words.
func (c Chart) plainLevels() bool { return len(c.Words) == 0 && c.LevelStep == 0 }

// widestLevel returns the width of the widest label of a level axis of so many rows, in
// cells.
func (c Chart) widestLevel(rows int) (cells int) {
	if c.plainLevels() && rows < levels {
		return len("3-4")
	}
	for n := range c.labels() {
		cells = max(cells, utf8.RuneCountInString(c.levelText(c.labelled(n))))
	}
	return cells
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
