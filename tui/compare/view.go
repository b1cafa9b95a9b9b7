package compare

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/chart"
	"daub.example/daub/tui/ui"
)

// Sizes below which parts of a comparison are left out or moved, in cells and
// lines.
const (
	comparedBeside = 110 // least width with the chart beside the text
	comparedText   = 4   // least lines of text below a chart
	comparedChart  = 9   // least lines of a chart worth drawing
)

func (c *comparison) View(w, h int) string {
	said := c.Foot(w)
	h -= len(said)
	if c.err != nil {
		return strings.Join(append(ui.Loud(c.err.Error(), w), said...), "\n")
	}
	lines := append(c.heading(w), c.table(w)...)
	text := c.text(min(w, 100))
	room := h - len(lines)
	switch {
	case w >= comparedBeside && room >= comparedChart:
		left := w * 11 / 20
		text = c.text(w - left - 2)
		lines = append(lines, ui.Columns(c.chart(left, min(room, 24)), c.Sight(text, room), left+2)...)
	case room >= comparedChart+comparedText:
		high := max(comparedChart, min(room-comparedText, 18))
		lines = append(lines, c.chart(w, high)...)
		lines = append(lines, c.Sight(text, room-high)...)
	case room >= comparedText:
		lines = append(lines, c.Sight(text, room)...)
	default:
		lines = c.Sight(append(lines, text...), h)
	}
	for len(lines) < h {
		lines = append(lines, "")
	}
	return strings.Join(append(lines, said...), "\n")
}

// heading says what is compared with what, and warns loudly of what cannot be
// compared.
func (c *comparison) heading(w int) []string {
	basis := c.sides[c.ref].Ratio.Basis
	against := fmt.Sprintf("At %s, against %c %s: g %s per g powder, rest %s.",
		model.LevelName(c.level), letter(c.ref), c.name(c.ref), basis.Liquid, model.Seconds(basis.RestS))
	lines := ui.Inset(w, func(w int) []string { return ui.Painted(ui.PlainStyle, against, w) })
	var refused []string
	for i, p := range c.pairs {
		if p.Refused != "" {
			refused = append(refused, string(letter(i)))
		}
	}
	if len(refused) > 0 {
		others := strings.Join(refused, ", ")
		text := fmt.Sprintf("NOT COMPARED with %c: %s. The text below says why.", letter(c.ref), others)
		lines = append(lines, ui.Loud(text, w)...)
	}
	if c.rests != "" {
		lines = append(lines, ui.Warned(c.rests, w)...)
	}
	return lines
}

// name gives a powder's name, with its lot if another has the same name.
func (c *comparison) name(i int) string {
	p := c.powders[i].Profile.Powder
	for j, e := range c.powders {
		if j != i && e.Profile.Powder.Name == p.Name {
			return p.Title()
		}
	}
	return p.Name
}

// column is one column of the table.
type column struct {
	head  string
	width int
	cell  func(i int) string
}

// columns picks the columns that fit into w cells, the most important first; name
// is the width left for the name.
func (c *comparison) columns(w int) (cols []column, name int) {
	least := 15
	if w < 50 { // the ratio says more than the end of a long name
		least = 10
	}
	times := fmt.Sprintf("times %c", letter(c.ref)) // the liquid that the reference takes
	factor, intervals, perG, perTsp := 9, false, times, "per tsp"
	if w >= 104 {
		factor, intervals, perG, perTsp = 21, true, times+", per g", times+", per tsp"
	}
	byWeight := func(i int) string { return c.factorCell(i, c.pairs[i].ByWeight, intervals) }
	bySpoon := func(i int) string { return c.factorCell(i, c.pairs[i].BySpoon, intervals) }
	all := []column{
		{"g liquid per g", 22, c.ratioCell},
		{perG, factor, byWeight},
		{"gram for gram", 17, c.verdictCell},
		{perTsp, max(factor, 10), bySpoon},
	}
	if c.differ(func(b model.Basis) any { return strings.ToLower(b.Liquid) }) {
		all = append(all, column{
			"liquid", 9,
			func(i int) string { return printable.Line(c.sides[i].Ratio.Basis.Liquid) },
		})
	}
	if c.differ(func(b model.Basis) any { return b.RestS }) {
		all = append(all, column{"rest", 6, func(i int) string { return model.Seconds(c.sides[i].Ratio.Basis.RestS) }})
	}
	all = append(all,
		column{"1 tsp", 7, c.tspCell},
		column{"tested from", 11, func(i int) string { return c.sides[i].Ratio.Reach.Tested() }},
		column{"care", 15, func(i int) string { return care.Words(c.sides[i].Powder) }},
		column{"behaviour", 22, func(i int) string { return model.SeenText(c.sides[i].Seen) }},
	)
	name = w - ui.Cells("▸ A ")
	for _, col := range all {
		if name-col.width-1 < least {
			break
		}
		name -= col.width + 1
		cols = append(cols, col)
	}
	return cols, min(name, 40)
}

// differ reports whether the powders differ in one part of their basis.
func (c *comparison) differ(part func(model.Basis) any) bool {
	first := part(c.sides[0].Ratio.Basis)
	return slices.ContainsFunc(c.sides, func(s kitchen.Side) bool { return part(s.Ratio.Basis) != first })
}

// table draws one line a powder.
func (c *comparison) table(w int) []string {
	cols, name := c.columns(w)
	line := func(sign, title string, cell func(column) string) string {
		text := ui.Pad(sign, 4) + ui.Pad(title, name)
		for _, col := range cols {
			text += " " + ui.Pad(cell(col), col.width)
		}
		return ui.Cut(strings.TrimRight(text, " "), w)
	}
	lines := []string{ui.NoteStyle.Render(line("", "powder", func(col column) string { return col.head }))}
	for i, e := range c.powders {
		sign := "  " + string(letter(i))
		style := ui.PlainStyle
		if i == c.ref {
			sign, style = "▸ "+string(letter(i)), ui.DoStyle
		}
		text := line(sign, ui.CutTitle(e.Profile.Powder, name), func(col column) string { return col.cell(i) })
		lines = append(lines, style.Render(text))
	}
	return lines
}

func (c *comparison) ratioCell(i int) string {
	switch r := c.sides[i].Ratio.Rounded(); {
	case r.Powder != nil:
		return bench.IntervalText(*r.Powder)
	case r.Bound != nil:
		return bench.BoundText(*r.Bound)
	case r.OnlySideBySide:
		return model.BesideOnly
	default:
		return "no trial"
	}
}

func (c *comparison) factorCell(i int, f *fit.Interval, interval bool) string {
	p := c.pairs[i]
	text := ""
	digits := func(v float64) string { return model.Significant(v, 2) }
	switch {
	case i == c.ref:
		return "1"
	case p.Refused != "":
		return "! none"
	case f == nil:
		return "-"
	case interval:
		text = fmt.Sprintf("%s (%s to %s)", digits(f.Median), digits(f.Low), digits(f.High))
	default:
		text = digits(f.Median)
	}
	if p.RestsApart {
		text += " !"
	}
	return text
}

// verdictCell says how well the powder replaces the reference, gram for gram.
func (c *comparison) verdictCell(i int) string {
	switch p := c.pairs[i]; {
	case i == c.ref:
		return "-"
	case p.Verdict == kitchen.Close || p.Verdict == kitchen.Adjust:
		return p.GramForGram()
	default:
		return "! " + p.GramForGram()
	}
}

func (c *comparison) tspCell(i int) string {
	if g := c.sides[i].TspG; g > 0 {
		return model.Grams(g) + " g"
	}
	return "-"
}

// text writes the comparison, one paragraph a powder.
func (c *comparison) text(w int) []string {
	var lines []string
	again := ui.Repeated(c.pairs)
	for i, p := range c.pairs {
		if i == c.ref {
			continue
		}
		told := again
		if p.RestsApart {
			told = append(told[:len(told):len(told)], p.Warnings[0]) // the heading says it for all groups
		}
		lines = append(lines, ui.PairRest(p, string(letter(i))+": ", told, w)...)
		for _, at := range c.measured[i] {
			lines = append(lines, ui.Bullet(at.Sentence(c.name(c.ref), c.name(i)), w)...)
		}
		lines = append(lines, "")
	}
	for _, text := range again {
		lines = append(lines, ui.Bullet(text, w)...)
	}
	for i := range c.sides {
		lines = append(lines, ui.Indented(ui.PlainStyle, c.sideText(i), w)...)
	}
	return append(append(lines, ""), ui.Indented(ui.NoteStyle, care.Deferral, w)...)
}

// sideText writes the details that a narrow table may leave out.
func (c *comparison) sideText(i int) string {
	s := c.sides[i]
	text := fmt.Sprintf("%c %s, %s", letter(i), c.name(i), s.Ratio.Reach.Side())
	if s.TspG > 0 {
		text += fmt.Sprintf("; a level tsp weighs %s g", model.SpoonGrams(s.TspG))
	}
	if seen := model.SeenText(s.Seen); seen != "" {
		text += "; seen: " + seen
	}
	return text + "; care: " + care.Words(s.Powder) + "."
}

// chart draws the curves of all powders in one chart. A powder tried in another
// liquid than the reference is named, but not drawn: its ratios cannot be compared.
func (c *comparison) chart(w, h int) []string {
	liquid := c.sides[c.ref].Ratio.Basis.Liquid
	series := slices.Clone(c.series)
	for i, s := range c.sides {
		if other := s.Ratio.Basis.Liquid; !model.SameLiquid(other, liquid) {
			series[i] = chart.Series{Mark: letter(i), Name: "in " + printable.Line(other) + ", not drawn"}
		}
	}
	all := ui.Chart(liquid, c.deps.ASCII)
	all.Series, all.Aim, all.HasAim, all.LogX, all.Paint = series, c.level, true, true, ui.PaintSeries
	return all.Render(w, h)
}

// plainText writes the comparison for the clipboard.
func (c *comparison) plainText() string {
	const width = 100
	lines := append(c.heading(width), "")
	lines = append(lines, c.table(width)...)
	return ui.Uncoloured(append(lines, c.text(width)...))
}

// Help says what the comparison is for.
func (c *comparison) Help() []string {
	return []string{
		"Compare: two to six powders side by side at one level, on one chart and in one table. ←→ changes the level, " +
			"↑↓ the powder that the others are set against; l goes through the liquids and rests they were tried in. " +
			"Nothing here changes a powder on the shelf.",
		"Times A: how many times as much liquid a gram takes as a gram of A; " +
			"a wide window has the same per level teaspoon, the text below always. " +
			"Gram for gram: where the paste lands when the same weight of the other takes A's place, and whether " +
			"that will do. " +
			"? behind a ratio: tested from one side only. ! is a warning, and the text below says why.",
		"Swap (s) works the amounts out in the kitchen; export (e) writes the powders or the picture to a file.",
		ui.ChartSigns(c.deps.ASCII) + " (A), (B) …: whose curve it is; a small a, b …: at most, or at least.",
	}
}
