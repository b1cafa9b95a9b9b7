package fit

import "math"

// axis is an interval cut into even cells with a node in the middle of each.
type axis struct {
	low, high float64
	cells     int
}

// step gives the width of a cell.
func (a axis) step() float64 { return (a.high - a.low) / float64(a.cells) }

// at gives node i.
func (a axis) at(i int) float64 { return a.low + (float64(i)+0.5)*a.step() }

// between gives the nodes on either side of a point, the same twice at an end.
func (a axis) between(at float64) (below, above int) {
	t := (at-a.low)/a.step() - 0.5
	below, above = int(math.Floor(t+1e-9)), int(math.Ceil(t-1e-9))
	last := a.cells - 1
	return min(max(below, 0), last), min(max(above, 0), last)
}

// within cuts the axis down to the cells whose weight is above floor times the largest, and
// divides that part into so many cells. It keeps one cell more on either side where there
// is one.
func (a axis) within(weight []float64, floor float64, cells int) axis {
	top := 0.0
	for _, w := range weight {
		top = max(top, w)
	}
	first, last := 0, a.cells-1
	for first < last && weight[first] <= floor*top {
		first++
	}
	for last > first && weight[last] <= floor*top {
		last--
	}
	first, last = max(first-1, 0), min(last+1, a.cells-1)
	low, high := a.low+float64(first)*a.step(), a.low+float64(last+1)*a.step()
	if last == a.cells-1 {
		high = a.high
	}
	return axis{low, high, cells}
}

// span is a run of cells, first included, end not.
type span struct{ first, end int }

// segment is a part of an axis. One with low above high is empty.
type segment struct{ low, high float64 }

// nowhere is the empty segment.
var nowhere = segment{math.Inf(1), math.Inf(-1)}

// hull gives the shortest segment that holds both.
func (s segment) hull(other segment) segment {
	return segment{min(s.low, other.low), max(s.high, other.high)}
}

// span gives the cells that overlap a segment.
func (a axis) span(s segment) span {
	if s.low > s.high {
		return span{}
	}
	first := int(math.Floor((s.low-a.low)/a.step() + 1e-9))
	end := int(math.Ceil((s.high-a.low)/a.step() - 1e-9))
	first, end = max(first, 0), min(end, a.cells)
	return span{first, max(first, end)}
}
