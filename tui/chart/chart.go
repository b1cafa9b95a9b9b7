// Package chart draws consistency level against grams of powder per gram of
// liquid, as text: for one trial or powder, or for several powders over each
// other.
//
// Nothing rests on colour alone: layers differ in texture, points in glyph,
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
	Trial  int  // its place in the profile; in a series without a mark trials differ in glyph
	Latest bool // the look made last
	FarOut bool // pointed at; wins over Latest
	// LeftOut is a look that is shown, but is no part of the answer; it wins
	// over all.
	LeftOut bool
}

// CurvePoint is one level of the fitted line: X is the median ratio at level Y, Low
// and High the edges of its band, all in g powder per g liquid. Without
// Low < High the point has no band, so the zero values draw none.
type CurvePoint struct {
	Y, X, Low, High float64
	OneSided        bool // tested from one side only: drawn thin
}

// Series is one powder.
type Series struct {
	Name   string // for the legend; only marked series are in it
	Mark   rune   // letter of its points and labels, one cell wide; 0 draws circles
	Points []Point
	Curve  []CurvePoint // in order along the line; a point that is not finite leaves a gap
}

// Chart is everything on one picture. The zero value draws empty axes.
//
// The level axis always holds 0 to 7. The ratio axis is made for the looks, the
// dish, and the interval at the target; it may cut the rest of the curve and its
// band. Looks beyond its ends are drawn as ‹ and ›.
type Chart struct {
	Series []Series
	Aim    float64 // the target level, 0 to 7; drawn if HasAim
	HasAim bool
	NowX   float64 // what is in the dish, marked on the axis; 0 for none
	LogX   bool    // logarithmic ratios, for powders far apart; also where the answer is far from the looks
	XLabel string  // what a ratio is, "g powder per g water"
	// InverseLabel names the inverse of a ratio, "g water per g powder"; with it
	// a row above the plot says so, where there is one to spare.
	InverseLabel string
	YLabel       string
	// LevelStart and LevelStep make the level axis one of readings: level i stands for
	// LevelStart + i·LevelStep. A LevelStep of 0 leaves it levels.
	LevelStart, LevelStep float64
	// Words make the level axis one of so many words, from the lowest at 0 to the
	// highest at 7, equally far apart. Without them it is one of numbers.
	Words []string
	ASCII bool // draw with ASCII only

	// Paint styles a run of cells that share role and series; it must keep
	// the width. Series is an index, or -1 for what belongs to none. Nil
	// leaves all plain.
	Paint func(role Role, series int, s string) string
}

// none is the series of what belongs to no series.
const none = -1

// Beyond these the picture gets no better, only dearer; the rest is left blank.
const maxWidth, maxHeight = 400, 200

// The least plot that says anything, in cells.
const minCols, minRows = 8, 3

// Render draws the chart into exactly h lines of exactly w cells each. Where
// that is too small for a chart, the lines are blank. Heights that fit best are
// 10, 17 and 24, one more for XLabel, one more for YLabel or a legend.
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

// layout says where things are, in cells of the whole frame.
type layout struct {
	w, h       int
	left, top  int // upper left cell of the plot
	cols, rows int // size of the plot
	aim        string
	aimBeside  bool // it shares a row with a whole level, and stands beside it
	header     bool // the first row is words: the level label and the legend
	inverseRow int  // the row of the ratios the other way round, -1 for none
	labelRow   bool // the ratio label has a row of its own
}

// layout gives the plot what the axes leave, and spends rows on words only
// while each level still has a row to itself.
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
	// Levels a whole number of rows apart read best: worth up to three rows.
	if spare := (l.rows - 1) % (c.labels() - 1); l.rows > c.labels() && spare <= 3 {
		l.rows, l.h = l.rows-spare, l.h-spare
	}
	widest := c.widestLevel()
	l.left = max(utf8.RuneCountInString(l.aim), widest) + 2
	if l.aim != "" && len(c.Words) == 0 && sharesRow(c.Aim, l.rows, dotsPerCell(c.ASCII)) {
		l.aimBeside, l.left = true, widest+len(l.aim)+3
	}
	l.cols = w - l.left
	// Two words in one row would be read for each other.
	return l, l.cols >= minCols && l.rows >= max(minRows, len(c.Words))
}

// aimText is the aim as written on the axis, empty if there is none to show.
func (c Chart) aimText() string {
	if !c.HasAim || !(c.Aim >= 0 && c.Aim <= topLevel) {
		return ""
	}
	return c.levelText(math.Round(c.Aim*100) / 100)
}

// levelText is what the axis says at a level: the level, the reading it stands for, or
// the word nearest to it.
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

// labels is how many labels the level axis has, one every so many levels.
func (c Chart) labels() int {
	if len(c.Words) > 1 {
		return len(c.Words)
	}
	return levels
}

// labelled is the level of a label of the level axis, from 0.
func (c Chart) labelled(n int) float64 { return WordLevel(n, c.labels()) }

// WordLevel is the level of the n-th of so many words on an axis of words, from 0.
func WordLevel(n, words int) float64 { return topLevel * float64(n) / float64(words-1) }

// widestLevel is the width of the widest label of the level axis, in cells.
func (c Chart) widestLevel() (cells int) {
	for n := range c.labels() {
		cells = max(cells, utf8.RuneCountInString(c.levelText(c.labelled(n))))
	}
	return cells
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
