package picture

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"daub.example/daub/data/drawing"
	"daub.example/daub/model/bench"
)

func (s scene) points(p drawing.Page, at toPage) {
	beside := s.beside()
	for i, one := range s.series {
		for j, l := range one.looks {
			spot := at(l.X, l.Level)
			spot.X += beside[i][j]
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

// beside returns how far each look of each powder is moved sideways, in points.
// Looks that would lie over each other stand side by side.
func (s scene) beside() [][]float64 {
	const same = 0.004           // of the axis: about 1.5 points
	const apart, widest = 5, 15. // points
	type look struct{ series, number int }
	var spots [][]look
	out := make([][]float64, len(s.series))
	for i, one := range s.series {
		out[i] = make([]float64, len(one.looks))
		for j, l := range one.looks {
			if s.axis.beyond(l) {
				continue
			}
			k := slices.IndexFunc(spots, func(spot []look) bool {
				there := s.series[spot[0].series].looks[spot[0].number]
				return there.Level == l.Level && math.Abs(s.axis.fraction(there.X)-s.axis.fraction(l.X)) < same
			})
			if k < 0 {
				k, spots = len(spots), append(spots, nil)
			}
			spots[k] = append(spots[k], look{i, j})
		}
	}
	for _, spot := range spots {
		steps := float64(len(spot) - 1)
		for k, l := range spot {
			out[l.series][l.number] = min(apart, widest/max(steps, 1)) * (float64(k) - steps/2)
		}
	}
	return out
}

// marks returns the areas that the looks need on the page.
func (s scene) marks(at toPage) (all []drawing.Area) {
	beside := s.beside()
	for i, one := range s.series {
		for j, l := range one.looks {
			spot := at(l.X, l.Level)
			spot.X += beside[i][j]
			all = append(all, around(spot, 2*pointRadius))
		}
	}
	return all
}

// figure is the number of a look's trial, or the numbers of several looks close
// together, from the left.
type figure struct {
	series   int
	numbers  string
	from, to float64 // from the first look to the last
	at       drawing.Point
}

// figureStyle is the lettering for the numbers of trials.
func figureStyle() drawing.Lettering {
	sty := lettering(6, true)
	sty.Across = drawing.AtMiddle
	return sty
}

// area returns the area that a figure needs.
func (f figure) area() drawing.Area {
	half := figureStyle().Width(f.numbers) / 2
	return drawing.Area{
		Min: drawing.Point{X: f.at.X - half, Y: f.at.Y},
		Max: drawing.Point{X: f.at.X + half, Y: f.at.Y + figureStyle().Size},
	}
}

// figureAbove is how far over a look its figure stands, in points.
const figureAbove = pointRadius + 1

// clearOf puts the figure over its looks or, where something stands there, under or
// beside them.
func (f figure) clearOf(taken []drawing.Area) figure {
	half, middle := figureStyle().Width(f.numbers)/2, f.at.Y-figureAbove-figureStyle().Size/2
	for _, at := range []drawing.Point{
		f.at,
		{X: f.at.X, Y: f.at.Y - 2*figureAbove - figureStyle().Size},
		{X: f.from - figureAbove - half, Y: middle},
		{X: f.to + figureAbove + half, Y: middle},
	} {
		there := f
		if there.at = at; !touches(there.area(), taken) {
			return there
		}
	}
	return f
}

// figures returns the trial numbers of the looks, beside each. Numbers that would
// touch become one, as "1,2".
func (s scene) figures(at toPage) (all []figure) {
	const gap = 1.5
	marks := s.marks(at)
	for i, one := range s.series {
		if !s.numbered(i) {
			continue
		}
		looks := slices.DeleteFunc(slices.Clone(one.looks), s.axis.beyond)
		slices.SortStableFunc(looks, func(a, b bench.LookPoint) int {
			return cmp.Or(cmp.Compare(a.Level, b.Level), cmp.Compare(a.X, b.X))
		})
		var own []figure
		for _, l := range looks {
			spot := at(l.X, l.Level)
			over := drawing.Point{X: spot.X, Y: spot.Y + figureAbove}
			one := figure{i, strconv.Itoa(l.Trial + 1), spot.X, spot.X, over}
			for len(own) > 0 {
				before := own[len(own)-1]
				if before.at.Y != one.at.Y || before.area().Max.X+gap < one.area().Min.X {
					break
				}
				one.numbers, one.from = before.numbers+","+one.numbers, before.from
				one.at.X = (one.from + one.to) / 2
				own = own[:len(own)-1]
			}
			own = append(own, one)
		}
		for _, f := range own {
			all = append(all, f.clearOf(append(areasOf(all), marks...)))
		}
	}
	return all
}

func areasOf(figures []figure) (areas []drawing.Area) {
	for _, f := range figures {
		areas = append(areas, f.area())
	}
	return areas
}

// touches reports whether an area lies over one of the others.
func touches(a drawing.Area, others []drawing.Area) bool {
	return slices.ContainsFunc(others, func(b drawing.Area) bool {
		return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
	})
}

// trialNumbers writes the number of each look's trial if the point does not tell
// it.
func (s scene) trialNumbers(p drawing.Page, at toPage) {
	for _, f := range s.figures(at) {
		sty := figureStyle()
		sty.Color = styleOf(f.series).color
		p.Write(sty, f.at, f.numbers)
	}
}

// numbered reports whether a powder's looks carry the number of their trial. Among
// several powders they do: a point's shape there is the powder's.
func (s scene) numbered(i int) bool { return s.several() && len(s.series[i].trials()) > 1 }

// lookStyle returns the style of the powder or, for a single one, of the trial.
func (s scene) lookStyle(i int, l bench.LookPoint) seriesStyle {
	if s.several() {
		return styleOf(i)
	}
	return styleOf(max(slices.Index(s.series[i].trials(), l.Trial), 0))
}
