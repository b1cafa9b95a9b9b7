package picture

import (
	"fmt"
	"math"

	"daub.example/daub/data/drawing"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/ticks"
)

// maxWidening is the factor by which less important values may widen the axis.
const maxWidening = 2

// linearWidening is the factor by which the interval at the target may widen a
// linear axis beyond the rest. Beyond it the axis is logarithmic (chosen: the looks
// keep a quarter of it).
const linearWidening = 4

// axis is the ratio axis: its ends in g powder per g liquid.
type axis struct {
	low, high float64
	log       bool
}

// ratioAxis chooses the axis for the curves and the looks that give a value. Open
// and far looks widen it only if near, and bands may be cut. The whole interval at
// the target is in sight. Several powders may be far apart: their axis is
// logarithmic.
func (s scene) ratioAxis() axis {
	low, high := math.Inf(1), 0.0
	add := func(x float64) {
		if drawable(x) {
			low, high = min(low, x), max(high, x)
		}
	}
	for _, one := range s.series {
		for _, l := range one.looks {
			if !l.Open() && !l.Far && !l.LeftOut {
				add(l.X)
			}
		}
		for _, run := range one.runs {
			for _, k := range run {
				add(k.X)
			}
		}
	}
	closed := high > 0
	lowest, highest := low/maxWidening, high*maxWidening
	for _, one := range s.series {
		for _, l := range one.looks {
			if !closed || l.X >= lowest && l.X <= highest {
				add(l.X)
			}
		}
	}
	before := high
	for _, one := range s.series {
		if one.answer.Powder != nil {
			add(one.target.Low)
			add(one.target.High)
		}
	}
	if s.several() || high > linearWidening*before {
		return axis{low / 1.2, high * 1.2, true}
	}
	return axis{0, high * 1.06, false}
}

// fraction says how far along the axis a ratio stands, 0 at the low end to 1 at the high one.
func (a axis) fraction(ratio float64) float64 {
	if a.log {
		return math.Log(ratio/a.low) / math.Log(a.high/a.low)
	}
	return (ratio - a.low) / (a.high - a.low)
}

// mark is a mark on an axis, fraction 0 at its low end to 1 at its high one; a
// small one goes without a label.
type mark struct {
	value, fraction float64
	label           string
}

// ticks returns round values with labels, as far as there is room on an axis of
// this length.
func (a axis) ticks(length float64) []mark {
	room := newRoom(6)
	var out []mark
	if a.log {
		for _, t := range ticks.Log(a.low, a.high) {
			if room.claim(t.Text, length*a.fraction(t.At)) {
				out = append(out, mark{t.At, a.fraction(t.At), t.Text})
			}
		}
	}
	if len(out) < 3 {
		out = nil
		for _, t := range ticks.Linear(a.low, a.high, func(step float64, widest string) bool {
			apart := length * (a.fraction(a.high) - a.fraction(a.high-step))
			return (a.high-a.low)/step <= 10 && apart > room.font.Width(widest)+6
		}) {
			out = append(out, mark{t.At, a.fraction(t.At), t.Text})
		}
		return out
	}
	for e := math.Floor(math.Log10(a.low)); e <= math.Log10(a.high); e++ {
		for m := 1.0; m < 10; m++ {
			if v := m * math.Pow(10, e); v >= a.low && v <= a.high {
				out = append(out, mark{v, a.fraction(v), ""})
			}
		}
	}
	return out
}

// room keeps labels on an axis from touching each other.
type room struct {
	font  drawing.Lettering
	apart float64
	taken [][2]float64
}

func newRoom(apart float64) *room { return &room{font: lettering(textSize, false), apart: apart} }

// claim takes the room around a point for a label, and reports whether it was free.
func (r *room) claim(label string, at float64) bool {
	half := r.font.Width(label)/2 + r.apart/2
	for _, other := range r.taken {
		if at-half < other[1] && at+half > other[0] {
			return false
		}
	}
	r.taken = append(r.taken, [2]float64{at - half, at + half})
	return true
}

// inverseHeight is the height of the upper axis with its words, pt.
const inverseHeight = 30

// inverseAxis draws the inverse ratios above the plot: liquid per powder, as in the
// answers.
func (s scene) inverseAxis(p drawing.Page, at toPage) {
	line := drawing.Line{Color: black, Width: 0.5}
	p.Line(line, p.Min.X, p.Max.Y, p.Max.X, p.Max.Y)
	sty := lettering(textSize, false)
	sty.Across = drawing.AtMiddle
	room := newRoom(10)
	ticks.Inverse(max(s.axis.low, s.axis.high/200), s.axis.high, func(t ticks.Tick) bool {
		x := at(t.At, 0).X
		if half := sty.Width(t.Text) / 2; x+half > p.Max.X+margin || x-half < p.Min.X || !room.claim(t.Text, x) {
			return false
		}
		p.Line(line, x, p.Max.Y, x, p.Max.Y+4)
		p.Write(sty, drawing.Point{X: x, Y: p.Max.Y + 6}, t.Text)
		return true
	})
	sty = lettering(labelSize, false)
	sty.Across = drawing.AtMiddle
	p.Write(sty, drawing.Point{X: p.Centre().X, Y: p.Max.Y + 17}, s.axisWords("g %s per g powder", sty, p.Width()))
}

// axisWords names an axis, with the liquid if it fits; an axis without equal steps
// says so.
func (s scene) axisWords(words string, sty drawing.Lettering, width float64) string {
	scale := ""
	if s.axis.log {
		scale = ", log scale"
	}
	return fmt.Sprintf(words, fitting(sty, s.liquid, width-sty.Width(words+scale))) + scale
}

// levelTicks returns the levels with their words.
func levelTicks() []mark {
	var out []mark
	for _, c := range model.Scale() {
		out = append(out, mark{c.Level, levelFraction(c.Level), fmt.Sprintf("%s %s", c.Word, model.Number(c.Level))})
	}
	return out
}

// beyond reports whether a look lies outside the axis.
func (a axis) beyond(l bench.LookPoint) bool { return l.X < a.low || l.X > a.high }
