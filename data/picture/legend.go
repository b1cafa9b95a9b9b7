package picture

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/data/drawing"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
)

// row draws one row of the legend; at is the middle of its left end.
type row func(at drawing.Point)

// legend returns the rows below the plot. A single powder has its answer as a
// sentence and the points of its trials; several have a row each with line, point
// and answer. The last row explains the signs.
func (s scene) legend(page drawing.Page) []row {
	plain := lettering(textSize, false)
	plain.Up = drawing.AtMiddle
	small := plain
	small.Size = noteSize
	var rows []row
	paragraph := func(sty drawing.Lettering, words string) {
		for _, line := range wrapped(sty.Width, words, page.Width()/otherFonts) {
			rows = append(rows, func(at drawing.Point) { page.Write(sty, at, line) })
		}
	}
	if !s.several() {
		paragraph(plain, printable.Words(s.series[0].answer.Sentence()))
		rows = append(rows, s.trialRows(page)...)
	} else {
		for i := range s.series {
			rows = append(rows, func(at drawing.Point) { s.entry(page, i, at) })
		}
	}
	paragraph(small, s.explained())
	return rows
}

// trialRows say which points belong to which trial, if there are several.
func (s scene) trialRows(page drawing.Page) (rows []row) {
	one := s.series[0]
	trials := one.trials()
	if len(trials) < 2 {
		return nil
	}
	plain := lettering(textSize, false)
	plain.Up = drawing.AtMiddle
	const key, apart = 10, 8 // before and behind the words
	type item struct {
		x     float64
		style seriesStyle
		words string
	}
	var line []item
	used := 0.0
	end := func() {
		if items := line; len(items) > 0 {
			rows = append(rows, func(at drawing.Point) {
				for _, i := range items {
					i.style.point(page, drawing.Point{X: at.X + i.x + pointRadius, Y: at.Y}, false, false)
					page.Write(plain, drawing.Point{X: at.X + i.x + key, Y: at.Y}, i.words)
				}
			})
		}
		line, used = nil, 0
	}
	for i, trial := range trials {
		words := one.trialName(trial)
		width := key + plain.Width(words)*otherFonts
		if used+width > page.Width() {
			end()
		}
		line = append(line, item{used, styleOf(i), words})
		used += width + apart
	}
	end()
	return rows
}

// entry draws one powder of the legend.
func (s scene) entry(page drawing.Page, i int, at drawing.Point) {
	one, d := s.series[i], styleOf(i)
	page.Line(d.line(false), at.X, at.Y, at.X+keyWidth, at.Y)
	d.point(page, drawing.Point{X: at.X + keyWidth/2, Y: at.Y}, false, false)
	bold, plain := lettering(textSize, true), lettering(textSize, false)
	bold.Up, plain.Up = drawing.AtMiddle, drawing.AtMiddle
	page.Write(bold, drawing.Point{X: at.X + keyWidth + 6, Y: at.Y}, one.letter)
	says := ": " + s.says(i)
	room := (page.Max.X-at.X-keyWidth-20)/otherFonts - plain.Width(says)
	name := printable.Shorten(s.titles(), i, "…", func(name string) bool { return plain.Width(name) <= room })
	page.Write(plain, drawing.Point{X: at.X + keyWidth + 18, Y: at.Y}, name+says)
}

// titles returns the powders' names with their lots.
func (s scene) titles() (all []string) {
	for _, one := range s.series {
		all = append(all, printable.Words(one.powder.Title()))
	}
	return all
}

// explained says what the picture shows.
func (s scene) explained() string {
	words := []string{"Points: looks"}
	if s.several() {
		words = []string{
			fmt.Sprintf("Numbers: g %s per g powder at %s (95 %%)", s.liquid,
				model.LevelName(s.target)),
			"points: looks",
		}
	}
	for i := range s.series {
		if s.numbered(i) {
			words = append(words, "small figures: which trial")
			break
		}
	}
	if !s.several() && slices.ContainsFunc(s.beside()[0], func(x float64) bool { return x != 0 }) {
		words = append(words, "side by side: looks at one place")
	}
	curve := func(so func(bench.CurvePoint) bool) bool {
		return slices.ContainsFunc(s.series, func(one series) bool {
			return slices.ContainsFunc(one.runs,
				func(run []bench.CurvePoint) bool { return slices.ContainsFunc(run, so) })
		})
	}
	if curve(func(bench.CurvePoint) bool { return true }) {
		words = append(words, "curve: median")
		switch {
		case s.noBands:
			words = append(words, "bar: 95 %")
		case s.several():
			words = append(words, "shade and bar: 95 %")
		default:
			words = append(words, "grey and bar: 95 %")
		}
	}
	if curve(func(k bench.CurvePoint) bool { return k.OneSided }) {
		words = append(words, "thin and pale: tested from one side only")
	}
	if s.any(func(l bench.LookPoint) bool { return l.Open() && !l.LeftOut }) {
		words = append(words, "hollow: at most or at least")
	}
	if s.any(func(l bench.LookPoint) bool { return l.Far && !l.LeftOut }) {
		words = append(words, "crossed: far from the others")
	}
	if s.any(func(l bench.LookPoint) bool { return l.LeftOut }) {
		words = append(words, "×: left out of the answer")
	}
	if s.any(s.axis.beyond) {
		words = append(words, "‹ ›: beyond the edge")
	}
	for _, one := range s.series {
		if len(one.dropped) > 0 {
			words = append(words, printable.Words(one.powder.Title())+": "+repeats.DroppedText(one.dropped))
		}
	}
	return strings.Join(words, "; ") + "."
}

// description says in sentences what is seen, for those who cannot see it.
func (s scene) description() string {
	words := fmt.Sprintf("How thick it gets, level 0 to 7, against g powder per g %s.", s.liquid)
	if !s.several() {
		return words + " " + printable.Words(s.series[0].answer.Sentence())
	}
	words += fmt.Sprintf(" At %s, in g %s per g powder with 95 %% intervals:", model.LevelName(s.target), s.liquid)
	for i, title := range s.titles() {
		words += fmt.Sprintf(" %s %s: %s.", s.series[i].letter, title, s.says(i))
	}
	return words
}

// any reports whether so holds for one of the looks.
func (s scene) any(so func(bench.LookPoint) bool) bool {
	return slices.ContainsFunc(s.series, func(one series) bool { return slices.ContainsFunc(one.looks, so) })
}

// unbroken stands for a space at which no line breaks.
const unbroken = "\x00%"

// wrapped breaks text into lines of a width, between words but not before a "%".
func wrapped(width func(string) float64, words string, room float64) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(strings.ReplaceAll(words, " %", unbroken)) {
		word = strings.ReplaceAll(word, unbroken, " %")
		if line != "" && width(line+" "+word) > room {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	return append(lines, line)
}
