package chart

import "math"

// dashedLine draws a dashed polyline two dots thick, unlike the target line and the
// band. The dashes run on across its points.
type dashedLine struct {
	plot         *plot
	series       int
	dash         string
	thin         bool // one dot thick
	n            int  // dots passed so far
	lastX, lastY int
	steep        bool
	end          dot
}

// stroke draws the part of a segment that is inside the window.
func (l *dashedLine) stroke(x0, y0, x1, y1 float64) {
	p := l.plot
	x0, y0, x1, y1, ok := clip(x0, y0, x1, y1, float64(p.cols*p.dx-1), float64(p.rows*p.dy-1))
	if !ok {
		return
	}
	l.steep = math.Abs(y1-y0) > math.Abs(x1-x0)
	steps := math.Ceil(max(math.Abs(x1-x0), math.Abs(y1-y0), 1))
	for i := 0.0; i <= steps; i++ {
		t := i / steps
		l.visit(int(math.Round(x0+t*(x1-x0))), int(math.Round(y0+t*(y1-y0))))
	}
}

func (l *dashedLine) visit(x, y int) {
	if l.n > 0 && x == l.lastX && y == l.lastY {
		return
	}
	p := l.plot
	if len(l.dash) > 1 {
		p.clear(x, y, Curve) // the band would fill the gaps
	}
	if l.dash[l.n%len(l.dash)] == '#' {
		p.dot(x, y, Curve, l.series)
		switch {
		case p.ascii, l.thin:
		case l.steep:
			p.dot(x+1, y, Curve, l.series)
		default:
			p.dot(x, y+1, Curve, l.series)
		}
	}
	if !l.end.ok || y < l.end.y {
		l.end = dot{x, y, true}
	}
	l.lastX, l.lastY = x, y
	l.n++
}

// clip cuts a segment to the rectangle from 0, 0 to right, bottom (Liang and Barsky
// 1984, ACM TOG 3(1) 1-22). ok is false if nothing of it is inside.
func clip(x0, y0, x1, y1, right, bottom float64) (_, _, _, _ float64, ok bool) {
	dx, dy := x1-x0, y1-y0
	from, to := 0.0, 1.0
	for _, edge := range [4][2]float64{{-dx, x0}, {dx, right - x0}, {-dy, y0}, {dy, bottom - y0}} {
		d, room := edge[0], edge[1]
		switch {
		case d == 0 && room < 0:
			return 0, 0, 0, 0, false
		case d < 0:
			from = max(from, room/d)
		case d > 0:
			to = min(to, room/d)
		}
	}
	if from > to {
		return 0, 0, 0, 0, false
	}
	return x0 + from*dx, y0 + from*dy, x0 + to*dx, y0 + to*dy, true
}
