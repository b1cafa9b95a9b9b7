package fit

import "math"

// axis is a row of evenly spaced nodes from low to high, two ends included.
type axis struct {
	low, high float64
	nodes     int
}

func (a axis) step() float64 { return (a.high - a.low) / float64(a.nodes-1) }

func (a axis) at(i int) float64 { return a.low + float64(i)*a.step() }

// span is the nodes in a stretch and the next one on either side, where there
// is one; for an empty stretch it is empty.
func (a axis) span(s stretch) span {
	if s.low > s.high {
		return span{}
	}
	first := int(math.Floor((s.low - a.low) / a.step()))
	last := int(math.Ceil((s.high - a.low) / a.step()))
	first, last = max(first, 0), min(last, a.nodes-1)
	if first > last {
		return span{}
	}
	return span{first, last + 1}
}

// within is the part of the axis that holds every node whose density is above
// floor times the largest, and one node more on either side where there is one.
func (a axis) within(density []float64, floor float64) axis {
	top := 0.0
	for _, p := range density {
		top = max(top, p)
	}
	first, last := 0, a.nodes-1
	for first < last && density[first] <= floor*top {
		first++
	}
	for last > first && density[last] <= floor*top {
		last--
	}
	return axis{a.at(max(first-1, 0)), a.at(min(last+1, a.nodes-1)), a.nodes}
}

// cumulate writes the integral of a density from the first node up to each
// node, in steps of the axis. Cells use the cubic through the four nodes around
// them, the end cells the parabola through three, so a density that is cut off
// at an end is integrated as well as one that fades out.
func cumulate(into, density []float64) {
	p, last := density, len(density)-1
	into[0] = 0
	for i := range last {
		var area float64
		switch i {
		case 0:
			area = (5*p[0] + 8*p[1] - p[2]) / 12
		case last - 1:
			area = (5*p[last] + 8*p[last-1] - p[last-2]) / 12
		default:
			area = (13*(p[i]+p[i+1]) - p[i-1] - p[i+2]) / 24
		}
		into[i+1] = into[i] + max(area, 0)
	}
}

// quantile is the place on an axis below which the share q of a density lies,
// 0 < q < 1, given its cumulate. In each cell the cumulative is the cubic with
// the known values and slopes at both ends.
func quantile(a axis, density, cumulative []float64, q float64) float64 {
	last := len(density) - 1
	want := q * cumulative[last]
	i := 0
	for i < last-1 && cumulative[i+1] < want {
		i++
	}
	rise, p0, p1 := cumulative[i+1]-cumulative[i], density[i], density[i+1]
	low, high := 0.0, 1.0
	for range 48 {
		t := (low + high) / 2
		if cumulative[i]+t*(p0+t*(3*rise-2*p0-p1+t*(p0+p1-2*rise))) < want {
			low = t
		} else {
			high = t
		}
	}
	return a.low + (float64(i)+low)*a.step()
}
