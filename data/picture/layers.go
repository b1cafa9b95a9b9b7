package picture

import (
	"cmp"
	"image/color"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// manyPowders is from when on bands would hide each other: they are drawn very
// faint and without edges.
const manyPowders = 4

// bandShade is the colour of a band, paler where the powder was tested from one
// side only.
func (s scene) bandShade(i int, oneSided bool) color.Color {
	share := 0.12
	switch {
	case !s.several():
		if oneSided {
			return color.Gray{0xea}
		}
		return color.Gray{0xd4}
	case len(s.series) >= manyPowders:
		share = 0.07
	}
	if oneSided {
		share /= 2
	}
	return faint(styleOf(i).color, share)
}

func (s scene) bands(c draw.Canvas, at func(x, level float64) vg.Point) {
	if s.noBands {
		return
	}
	for i, one := range s.series {
		one.stretches(func(part []bench.CurvePoint, oneSided bool) {
			low, high := s.outline(part, at)
			slices.Reverse(high)
			c.FillPolygon(s.bandShade(i, oneSided), c.ClipPolygonXY(append(low, high...)))
		})
	}
	if !s.several() || len(s.series) >= manyPowders {
		return
	}
	for i, one := range s.series {
		edge := draw.LineStyle{Color: styleOf(i).color, Width: 0.3, Dashes: styleOf(i).dashes}
		for _, run := range one.runs {
			low, high := s.outline(run, at)
			c.StrokeLines(edge, c.ClipLinesXY(low, high)...)
		}
	}
}

// outline is the two edges of a band. What has no limit ends well beyond the
// picture.
func (s scene) outline(part []bench.CurvePoint, at func(x, level float64) vg.Point) (low, high []vg.Point) {
	inside := func(x float64) float64 { return min(max(x, s.axis.low/2, s.axis.high/1e4), s.axis.high*2) }
	for _, k := range part {
		low = append(low, at(inside(k.Low), k.Level))
		high = append(high, at(inside(k.High), k.Level))
	}
	return low, high
}

// level draws the target, and for a single powder where its ratio meets the two
// axes, with the ratio's value on each.
func (s scene) level(c draw.Canvas, at func(x, level float64) vg.Point) {
	dashed := draw.LineStyle{Color: color.Black, Width: 0.7, Dashes: []vg.Length{5, 3}}
	y := at(s.axis.high, s.target).Y
	c.StrokeLine2(dashed, c.Min.X, y, c.Max.X, y)
	sty := lettering(textSize, true)
	c.FillText(sty, vg.Point{X: c.Min.X + 4, Y: y + 3}, fitting(sty, model.LevelName(s.target), c.Size().X/2))
	one := s.series[0]
	if s.several() || one.answer.Powder == nil || !drawable(one.target.X) {
		return
	}
	x := at(one.target.X, 0).X
	if x < c.Min.X || x > c.Max.X {
		return
	}
	c.StrokeLine2(dashed, x, c.Min.Y, x, c.Max.Y)
	below, above := model.RatioText(one.target.X), model.RatioText(one.answer.Powder.Median)
	beside := vg.Length(3)
	if x+beside+max(sty.Width(below), sty.Width(above)) > c.Max.X {
		beside, sty.XAlign = -3, draw.XRight
	}
	c.FillText(sty, vg.Point{X: x + beside, Y: c.Min.Y + 3}, below)
	c.FillText(sty, vg.Point{X: x + beside, Y: c.Max.Y - textSize - 1}, above)
}

// answers draws the intervals at the target as bars; those that would lie over
// each other stand a little apart.
func (s scene) answers(c draw.Canvas, at func(x, level float64) vg.Point) {
	const apart, half = 3, 3
	lanes := s.lanes()
	for i, one := range s.series {
		if one.answer.Powder == nil || !drawable(one.target.X) {
			continue
		}
		line := draw.LineStyle{Color: styleOf(i).color, Width: 1.2}
		if one.answer.Reach == fit.OneSided {
			line.Width = 0.6
		}
		y := at(s.axis.high, s.target).Y + vg.Length(lanes[i])*apart
		from, to := c.Min.X, c.Max.X
		if x := one.target.Low; drawable(x) {
			from = max(from, at(x, s.target).X)
			c.StrokeLine2(line, from, y-half, from, y+half)
		}
		if x := one.target.High; drawable(x) {
			to = min(to, at(x, s.target).X)
			c.StrokeLine2(line, to, y-half, to, y+half)
		}
		c.StrokeLine2(line, from, y, to, y)
	}
}

// lanes are how many bars beside the target's line each powder's stands: as
// near to it as no other is in the way.
func (s scene) lanes() []int {
	lanes := make([]int, len(s.series))
	for i, one := range s.series {
		for try := 0; ; try++ {
			lane := (try + 1) / 2
			if try%2 == 0 {
				lane = -lane
			}
			taken := false
			for j, other := range s.series[:i] {
				taken = taken || lanes[j] == lane &&
					one.target.Low <= other.target.High && other.target.Low <= one.target.High
			}
			if lanes[i] = lane; !taken {
				break
			}
		}
	}
	return lanes
}

func (s scene) curves(c draw.Canvas, at func(x, level float64) vg.Point) {
	for i, one := range s.series {
		one.stretches(func(part []bench.CurvePoint, oneSided bool) {
			var line []vg.Point
			for _, k := range part {
				line = append(line, at(k.X, k.Level))
			}
			c.StrokeLines(styleOf(i).line(oneSided), c.ClipLinesXY(line)...)
		})
	}
}

func (s scene) points(c draw.Canvas, at func(x, level float64) vg.Point) {
	for i, one := range s.series {
		for _, l := range one.looks {
			p := at(l.X, l.Level)
			switch {
			case l.X < s.axis.low:
				c.FillText(lettering(textSize, true), vg.Point{X: c.Min.X + 1, Y: p.Y - 3}, "‹"+one.letter)
			case l.X > s.axis.high:
				sty := lettering(textSize, true)
				sty.XAlign = draw.XRight
				c.FillText(sty, vg.Point{X: c.Max.X - 1, Y: p.Y - 3}, one.letter+"›")
			case l.LeftOut:
				s.lookStyle(i, l).cross(&c, p, pointRadius*0.8)
			default:
				s.lookStyle(i, l).point(&c, p, l.Open(), l.Far)
			}
		}
	}
}

// lookStyle is that of the powder, or, for a single one, of the trial.
func (s scene) lookStyle(i int, l bench.LookPoint) seriesStyle {
	if s.several() {
		return styleOf(i)
	}
	return styleOf(max(slices.Index(s.series[i].trials(), l.Trial), 0))
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
		sty.Color = styleOf(l.series).color
		c.FillText(sty, letters[i].at, s.series[l.series].letter)
	}
}
