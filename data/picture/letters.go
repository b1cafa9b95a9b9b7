package picture

import (
	"math"
	"slices"

	"daub.example/daub/data/drawing"
)

// The size of a letter, and the room it needs across and up, in points.
const letterSize, letterRoom = 9.0, 7.5

// letters puts each powder's letter beside the end of its curve.
func (s scene) letters(p drawing.Page, at toPage) {
	taken := append(s.marks(at), areasOf(s.figures(at))...)
	ends := map[int]drawing.Point{}
	for i, one := range s.series {
		if one.letter != "" && len(one.runs) > 0 {
			run := one.runs[len(one.runs)-1]
			ends[i] = at(run[len(run)-1].X, run[len(run)-1].Level)
		}
	}
	sty := lettering(letterSize, true)
	sty.Across, sty.Up = drawing.AtMiddle, drawing.AtMiddle
	for i, one := range s.series {
		end, has := ends[i]
		if !has {
			continue
		}
		var others []drawing.Point
		for j, other := range ends {
			if j != i {
				others = append(others, other)
			}
		}
		spot := letterSpot(end, others, p.Area, taken)
		taken = append(taken, around(spot, letterRoom))
		sty.Color = styleOf(i).color
		p.Write(sty, spot, one.letter)
	}
}

// letterSpot returns the middle of a letter at the end of its curve. It is over the
// end, else beside it, wherever in the frame nothing else stands and no other curve
// ends nearer.
func letterSpot(end drawing.Point, others []drawing.Point, frame drawing.Area, taken []drawing.Area) drawing.Point {
	const half = letterRoom/2 + 1 // from the frame
	inside := func(x, y float64) drawing.Point {
		return drawing.Point{
			X: min(max(x, frame.Min.X+half), frame.Max.X-half), Y: min(max(y, frame.Min.Y+half), frame.Max.Y-half),
		}
	}
	near := func(spot drawing.Point) bool {
		return !slices.ContainsFunc(others, func(other drawing.Point) bool {
			return distance(spot, other) < distance(spot, end)
		})
	}
	for beside := 0.0; beside <= 4*letterSize; beside += letterSize / 4 {
		for _, x := range []float64{end.X + beside, end.X - beside} {
			for _, up := range []float64{1, 1.5, 0} {
				spot := inside(x, end.Y+up*letterSize)
				if near(spot) && !touches(around(spot, letterRoom), taken) {
					return spot
				}
			}
		}
	}
	return inside(end.X, end.Y+letterSize)
}

func distance(a, b drawing.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// around returns a square around middle.
func around(middle drawing.Point, side float64) drawing.Area {
	return drawing.Area{
		Min: drawing.Point{X: middle.X - side/2, Y: middle.Y - side/2},
		Max: drawing.Point{X: middle.X + side/2, Y: middle.Y + side/2},
	}
}
