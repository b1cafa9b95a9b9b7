package chart

import "math"

// Ratios outside these do not stretch the axis (chosen: a paste is between 0.02 and
// 50).
const minRatio, maxRatio = 1e-4, 1e4

// maxWidening is the factor by which less important values may widen the axis.
const maxWidening = 2

// linearWidening is the factor by which the answer and the dish may widen a linear
// axis beyond the looks. Beyond it the axis is logarithmic (chosen: the looks keep
// a quarter of it).
const linearWidening = 4

// span is a range that grows to hold each value added; the zero value is empty.
type span struct{ lo, hi float64 }

func (s *span) add(x float64) {
	if !(x >= minRatio && x <= maxRatio) {
		return
	}
	if s.hi == 0 {
		*s = span{x, x}
		return
	}
	s.lo, s.hi = min(s.lo, x), max(s.hi, x)
}

func (s *span) addNear(x float64) {
	if s.hi == 0 || (x >= s.lo/maxWidening && x <= s.hi*maxWidening) {
		s.add(x)
	}
}

// ratioRange returns the ends of the ratio axis, and whether it is logarithmic.
// Looks that give a value set it, without them the curves. Bounds and far looks
// widen it only if near, so that none squeezes the rest. What is in the dish and
// the whole interval at the target are always in sight.
func (c Chart) ratioRange() (lo, hi float64, log bool) {
	s := c.looksRange()
	for _, series := range c.Series {
		for _, p := range series.Points {
			s.addNear(p.X)
		}
	}
	looks := s.hi
	for _, series := range c.Series {
		if c.aimText() != "" {
			at := crossing(series.Curve, c.Aim)
			s.add(at.X)
			s.add(at.Low)
			s.add(at.High)
		}
	}
	s.add(c.NowX)

	log = c.LogX || looks > 0 && s.hi > linearWidening*looks
	switch {
	case s.hi == 0 && log:
		return 0.1, 10, log
	case s.hi == 0:
		return 0, 1, log
	case log && s.lo == s.hi:
		return s.lo / 2, s.hi * 2, log
	case log:
		return s.lo / 1.15, s.hi * 1.15, log
	default:
		return 0, s.hi * 1.06, log
	}
}

// Log reports whether the ratio axis is logarithmic.
func (c Chart) Log() bool {
	_, _, log := c.ratioRange()
	return log
}

// looksRange returns the range of the looks that give a value; if there are none,
// of the curves, else of all looks.
func (c Chart) looksRange() (s span) {
	for _, series := range c.Series {
		for _, p := range series.Points {
			if finite(p.Y) && !p.open() && p.counts() {
				s.add(p.X)
			}
		}
	}
	if s.hi != 0 {
		return s
	}
	for _, series := range c.Series {
		for _, k := range series.Curve {
			s.add(k.X)
		}
	}
	if s.hi != 0 {
		return s
	}
	for _, series := range c.Series {
		for _, p := range series.Points {
			s.add(p.X)
		}
	}
	return s
}

// crossing returns the point where the curve first passes a level, straight between
// its points; NaN if it never does.
func crossing(curve []CurvePoint, level float64) CurvePoint {
	for i := 1; i < len(curve); i++ {
		a, b := curve[i-1], curve[i]
		if (a.Y-level)*(b.Y-level) <= 0 && a.Y != b.Y {
			t := (level - a.Y) / (b.Y - a.Y)
			between := func(a, b float64) float64 {
				switch t {
				case 0:
					return a
				case 1:
					return b
				}
				return a + t*(b-a)
			}
			return CurvePoint{Y: level, X: between(a.X, b.X), Low: between(a.Low, b.Low), High: between(a.High, b.High)}
		}
	}
	nan := math.NaN()
	return CurvePoint{Y: level, X: nan, Low: nan, High: nan}
}
