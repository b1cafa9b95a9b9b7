package picture

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// row draws one row of the legend; at is the middle of its left end.
type row func(at vg.Point)

// legend is the rows under the plot: for a single powder its answer as a
// sentence, else each powder with its line, point and answer. The last one
// says what is what.
func (s scene) legend(page draw.Canvas) []row {
	plain := lettering(textSize, false)
	plain.YAlign = draw.YCenter
	write := func(words string) row {
		return func(at vg.Point) { page.FillText(plain, at, words) }
	}
	var rows []row
	paragraph := func(words string) {
		for _, line := range wrapped(plain.Width, words, page.Size().X) {
			rows = append(rows, write(line))
		}
	}
	if !s.several() {
		paragraph(printable.Words(s.series[0].answer.Sentence()))
	} else {
		for i, one := range s.series {
			rows = append(rows, func(at vg.Point) { s.entry(page, i, one, at) })
		}
	}
	paragraph(s.explained())
	return rows
}

// entry draws one powder of the legend.
func (s scene) entry(page draw.Canvas, i int, one series, at vg.Point) {
	d := s.dress(i)
	page.StrokeLine2(d.line(), at.X, at.Y, at.X+keyWidth, at.Y)
	d.point(&page, vg.Point{X: at.X + keyWidth/2, Y: at.Y}, false, false)
	bold, plain := lettering(textSize, true), lettering(textSize, false)
	bold.YAlign, plain.YAlign = draw.YCenter, draw.YCenter
	page.FillText(bold, vg.Point{X: at.X + keyWidth + 6, Y: at.Y}, one.letter)
	says := ": " + one.says()
	if s.restsApart() && len(one.looks) > 0 {
		says += ", rest " + model.Seconds(one.answer.Basis.RestS)
	}
	room := page.Max.X - at.X - keyWidth - 20
	name := fitting(plain, printable.Words(one.powder.Title()), room-plain.Width(says))
	page.FillText(plain, vg.Point{X: at.X + keyWidth + 18, Y: at.Y}, name+says)
}

// explained says what the picture shows.
func (s scene) explained() string {
	words := []string{"Points: looks"}
	if s.several() {
		words = []string{fmt.Sprintf("Numbers: g %s per g powder at %s (95 %%)", s.liquid, model.LevelName(s.level)), "points: looks"}
	}
	if slices.ContainsFunc(s.series, func(one series) bool { return one.runs != nil }) {
		words = append(words, "curve: median", "grey: 95 %")
	}
	if s.any(bench.LookPoint.Open) {
		words = append(words, "hollow: at most or at least")
	}
	if s.any(func(l bench.LookPoint) bool { return l.Far }) {
		words = append(words, "crossed: far from the others")
	}
	if low, high := s.ratioRange(); s.any(func(l bench.LookPoint) bool { return l.X < low || l.X > high }) {
		words = append(words, "‹ ›: beyond the edge")
	}
	for _, one := range s.series {
		if len(one.dropped) > 0 {
			words = append(words, printable.Words(one.powder.Title())+": "+repeats.DroppedText(one.dropped))
		}
	}
	return strings.Join(words, "; ") + "."
}

// any reports whether one of the looks is so.
func (s scene) any(so func(bench.LookPoint) bool) bool {
	return slices.ContainsFunc(s.series, func(one series) bool { return slices.ContainsFunc(one.looks, so) })
}

// wrapped breaks a text into lines of a width, between words.
func wrapped(width func(string) vg.Length, words string, room vg.Length) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(words) {
		if line != "" && width(line+" "+word) > room {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	return append(lines, line)
}

// letters puts each powder's letter above the end of its curve, beside the
// others where curves end close together.
func (s scene) letters(c draw.Canvas, at func(x, level float64) vg.Point) {
	const above, apart = 9, 9
	type letter struct {
		series int
		at     vg.Point
	}
	var letters []letter
	for i, one := range s.series {
		if one.letter == "" || len(one.runs) == 0 {
			continue
		}
		run := one.runs[len(one.runs)-1]
		end := at(run[len(run)-1].X, run[len(run)-1].Level)
		letters = append(letters, letter{i, vg.Point{X: min(max(end.X, c.Min.X), c.Max.X), Y: end.Y + above}})
	}
	slices.SortStableFunc(letters, func(a, b letter) int {
		return cmp.Or(cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.at.X, b.at.X))
	})
	sty := lettering(9, true)
	sty.XAlign, sty.YAlign = draw.XCenter, draw.YCenter
	for i, l := range letters {
		if i > 0 && l.at.Y-letters[i-1].at.Y < above {
			letters[i].at.X = max(l.at.X, letters[i-1].at.X+apart)
		}
		sty.Color = s.dress(l.series).color
		c.FillText(sty, letters[i].at, s.series[l.series].letter)
	}
}
