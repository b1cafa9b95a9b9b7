package picture

import (
	"image/color"
	"slices"

	"daub.example/daub/data/drawing"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// manyPowders is the number of powders from which bands would hide each other: they
// are then very faint and without edges.
const manyPowders = 4

// bandShade is the colour of a band, paler if the powder was tested from one side
// only.
func (s scene) bandShade(i int, oneSided bool) color.NRGBA {
	share := 0.12
	switch {
	case !s.several():
		if oneSided {
			return grey(0xea)
		}
		return grey(0xd4)
	case len(s.series) >= manyPowders:
		share = 0.07
	}
	if oneSided {
		share /= 2
	}
	return faint(styleOf(i).color, share)
}

func (s scene) bands(p drawing.Page, at toPage) {
	if s.noBands {
		return
	}
	for i, one := range s.series {
		one.pieces(func(part []bench.CurvePoint, oneSided bool) {
			low, high := s.outline(part, at)
			slices.Reverse(high)
			p.Fill(drawing.Polygon(p.ClipPolygon(append(low, high...))...), s.bandShade(i, oneSided))
		})
	}
	if !s.several() || len(s.series) >= manyPowders {
		return
	}
	for i, one := range s.series {
		edge := drawing.Line{Color: styleOf(i).color, Width: 0.3, Dashes: styleOf(i).dashes}
		for _, run := range one.runs {
			low, high := s.outline(run, at)
			stroke(p, edge, low, high)
		}
	}
}

// outline returns the two edges of a band. An open end lies well beyond the
// picture.
func (s scene) outline(part []bench.CurvePoint, at toPage) (low, high []drawing.Point) {
	inside := func(x float64) float64 { return min(max(x, s.axis.low/2, s.axis.high/1e4), s.axis.high*2) }
	for _, k := range part {
		low = append(low, at(inside(k.Low), k.Level))
		high = append(high, at(inside(k.High), k.Level))
	}
	return low, high
}

// level draws the target. For a single powder it also marks on both axes where its
// ratio meets them, with the value.
func (s scene) level(p drawing.Page, at toPage) {
	dashed := drawing.Line{Color: ink, Width: 0.7, Dashes: []float64{5, 3}}
	y := at(s.axis.high, s.target).Y
	p.Line(dashed, p.Min.X, y, p.Max.X, y)
	sty := lettering(textSize, true)
	p.Write(sty, drawing.Point{X: p.Min.X + 4, Y: y + 3}, fitting(sty, model.LevelName(s.target), p.Width()/2))
	one := s.series[0]
	if s.several() || one.answer.Powder == nil || !drawable(one.target.X) {
		return
	}
	x := at(one.target.X, 0).X
	if x < p.Min.X || x > p.Max.X {
		return
	}
	p.Line(dashed, x, p.Min.Y, x, p.Max.Y)
	below, above := model.RatioText(one.target.X), model.RatioText(one.answer.Rounded().Powder.Median)
	marks := s.marks(at)
	for i, value := range []string{below, above} {
		const beside = 3
		y := []float64{p.Min.Y + 3, p.Max.Y - textSize - 1}[i]
		right := drawing.Area{Min: drawing.Point{X: x + beside, Y: y}}
		right.Max = drawing.Point{X: right.Min.X + sty.Width(value), Y: y + textSize}
		if right.Max.X > p.Max.X || touches(right, marks) {
			left := sty
			left.Across = drawing.AtEnd
			p.Write(left, drawing.Point{X: x - beside, Y: y}, value)
			continue
		}
		p.Write(sty, right.Min, value)
	}
}

// answers draws the intervals at the target as bars; bars that would overlap are
// drawn a little apart.
func (s scene) answers(p drawing.Page, at toPage) {
	const apart, half = 3, 3
	lanes := s.lanes()
	for i, one := range s.series {
		if one.answer.Powder == nil || !drawable(one.target.X) {
			continue
		}
		line := drawing.Line{Color: styleOf(i).color, Width: 1.2}
		if one.answer.Reach == fit.OneSided {
			line.Width = 0.6
		}
		y := at(s.axis.high, s.target).Y + float64(lanes[i])*apart
		from, to := p.Min.X, p.Max.X
		if x := one.target.Low; drawable(x) {
			from = max(from, at(x, s.target).X)
			p.Line(line, from, y-half, from, y+half)
		}
		if x := one.target.High; drawable(x) {
			to = min(to, at(x, s.target).X)
			p.Line(line, to, y-half, to, y+half)
		}
		p.Line(line, from, y, to, y)
	}
}

// lanes returns for each powder how many bars its own is away from the target's
// line, as near as no other is in the way.
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

func (s scene) curves(p drawing.Page, at toPage) {
	for i, one := range s.series {
		one.pieces(func(part []bench.CurvePoint, oneSided bool) {
			var line []drawing.Point
			for _, k := range part {
				line = append(line, at(k.X, k.Level))
			}
			stroke(p, styleOf(i).line(oneSided), line)
		})
	}
}
