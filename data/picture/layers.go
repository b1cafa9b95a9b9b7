package picture

import (
	"cmp"
	"image/color"
	"math"
	"slices"
	"strconv"

	"daub.example/daub/data/drawing"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// manyPowders is from when on bands would hide each other: they are drawn very
// faint and without edges.
const manyPowders = 4

// bandShade is the colour of a band, paler where the powder was tested from one
// side only.
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

func (s scene) bands(p drawing.Page, at place) {
	if s.noBands {
		return
	}
	for i, one := range s.series {
		one.stretches(func(part []bench.CurvePoint, oneSided bool) {
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

// outline is the two edges of a band. What has no limit ends well beyond the
// picture.
func (s scene) outline(part []bench.CurvePoint, at place) (low, high []drawing.Point) {
	inside := func(x float64) float64 { return min(max(x, s.axis.low/2, s.axis.high/1e4), s.axis.high*2) }
	for _, k := range part {
		low = append(low, at(inside(k.Low), k.Level))
		high = append(high, at(inside(k.High), k.Level))
	}
	return low, high
}

// level draws the target, and for a single powder where its ratio meets the two
// axes, with the ratio's value on each.
func (s scene) level(p drawing.Page, at place) {
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
	below, above := model.RatioText(one.target.X), model.RatioText(one.answer.Told().Powder.Median)
	beside := 3.0
	if x+beside+max(sty.Width(below), sty.Width(above)) > p.Max.X {
		beside, sty.Across = -3, drawing.AtEnd
	}
	p.Write(sty, drawing.Point{X: x + beside, Y: p.Min.Y + 3}, below)
	p.Write(sty, drawing.Point{X: x + beside, Y: p.Max.Y - textSize - 1}, above)
}

// answers draws the intervals at the target as bars; those that would lie over
// each other stand a little apart.
func (s scene) answers(p drawing.Page, at place) {
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

func (s scene) curves(p drawing.Page, at place) {
	for i, one := range s.series {
		one.stretches(func(part []bench.CurvePoint, oneSided bool) {
			var line []drawing.Point
			for _, k := range part {
				line = append(line, at(k.X, k.Level))
			}
			stroke(p, styleOf(i).line(oneSided), line)
		})
	}
}

func (s scene) points(p drawing.Page, at place) {
	for i, one := range s.series {
		for _, l := range one.looks {
			spot := at(l.X, l.Level)
			switch {
			case l.X < s.axis.low:
				p.Write(lettering(textSize, true), drawing.Point{X: p.Min.X + 1, Y: spot.Y - 3}, "‹"+one.letter)
			case l.X > s.axis.high:
				sty := lettering(textSize, true)
				sty.Across = drawing.AtEnd
				p.Write(sty, drawing.Point{X: p.Max.X - 1, Y: spot.Y - 3}, one.letter+"›")
			case l.LeftOut:
				s.lookStyle(i, l).cross(p, spot, pointRadius*0.8)
			default:
				s.lookStyle(i, l).point(p, spot, l.Open(), l.Far)
			}
		}
	}
}

// trialNumbers writes above each look which trial of its powder it is of, where
// that cannot be told by the point.
func (s scene) trialNumbers(p drawing.Page, at place) {
	const size, above = 6, pointRadius + 1
	sty := lettering(size, true)
	sty.Across = drawing.AtMiddle
	for i, one := range s.series {
		sty.Color = styleOf(i).color
		for _, l := range one.looks {
			if spot := at(l.X, l.Level); s.numbered(i) && !s.axis.beyond(l) {
				p.Write(sty, drawing.Point{X: spot.X, Y: spot.Y + above}, strconv.Itoa(l.Trial+1))
			}
		}
	}
}

// numbered reports whether the looks of a powder carry the number of their
// trial: among several powders a point's shape is the powder's.
func (s scene) numbered(i int) bool { return s.several() && len(s.series[i].trials()) > 1 }

// lookStyle is that of the powder, or, for a single one, of the trial.
func (s scene) lookStyle(i int, l bench.LookPoint) seriesStyle {
	if s.several() {
		return styleOf(i)
	}
	return styleOf(max(slices.Index(s.series[i].trials(), l.Trial), 0))
}

// letter is that of a powder, with where it stands.
type letter struct {
	series int
	at     drawing.Point
}

// letters puts each powder's letter above the end of its curve.
func (s scene) letters(p drawing.Page, at place) {
	var letters []letter
	for i, one := range s.series {
		if one.letter == "" || len(one.runs) == 0 {
			continue
		}
		run := one.runs[len(one.runs)-1]
		end := at(run[len(run)-1].X, run[len(run)-1].Level)
		y := end.Y + letterRoom
		if s.numbered(i) {
			y += letterRoom / 2 // over the figures of the looks
		}
		letters = append(letters, letter{i, drawing.Point{X: min(max(end.X, p.Min.X), p.Max.X), Y: y}})
	}
	sty := lettering(9, true)
	sty.Across, sty.Up = drawing.AtMiddle, drawing.AtMiddle
	for _, l := range apart(letters) {
		sty.Color = styleOf(l.series).color
		p.Write(sty, l.at, s.series[l.series].letter)
	}
}

// letterRoom is what a letter takes across and up, in points.
const letterRoom = 9.0

// apart sets letters that would touch beside each other, from the left.
func apart(letters []letter) []letter {
	slices.SortStableFunc(letters, func(a, b letter) int { return cmp.Compare(a.at.X, b.at.X) })
	for i := range letters {
		for _, before := range letters[:i] {
			if math.Abs(letters[i].at.Y-before.at.Y) < letterRoom {
				letters[i].at.X = max(letters[i].at.X, before.at.X+letterRoom)
			}
		}
	}
	return letters
}
