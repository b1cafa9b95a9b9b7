package fit

import (
	"math"
	"slices"
)

// weighted is a value with its weight.
type weighted struct{ at, weight float64 }

// sortWeighted sorts by value, and equal ones by weight, so that the order they came in
// does not matter.
func sortWeighted(values []weighted) {
	slices.SortFunc(values, func(a, b weighted) int {
		switch { // cmp.Compare would look for NaN, which takes longer than the rest
		case a.at < b.at || a.at == b.at && a.weight < b.weight:
			return -1
		case a == b:
			return 0
		default:
			return 1
		}
	})
}

// quantileOf gives the quantile q of sorted values. The cumulative is straight between the
// middles of the values.
func quantileOf(values []weighted, q float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v.weight
	}
	want, below := q*sum, 0.0
	for i, v := range values {
		if middle := below + v.weight/2; middle >= want {
			if i == 0 {
				return v.at
			}
			before := values[i-1]
			part := (want - (below - before.weight/2)) / (v.weight/2 + before.weight/2)
			return before.at + part*(v.at-before.at)
		}
		below += v.weight
	}
	return values[len(values)-1].at
}

// slope gives the median slope of the curves where they reach a level, or would: dz/du = β
// + γ·(z - anchor).
func (s *sheaf) slope(level float64) float64 {
	slopes := make([]weighted, len(s.curves))
	for i := range s.curves {
		c := &s.curves[i]
		slopes[i] = weighted{c.beta + c.gamma*(level-s.anchor), total(c.mass)}
	}
	sortWeighted(slopes)
	return max(quantileOf(slopes, 0.5), 0)
}

// The distribution of z runs from level -1 to 8, in these steps.
const (
	lowestLevel, highestLevel = -1, 8
	levelsApart               = 1.0 / 64
)

// levels gives the distribution of z of a paste of x g powder per g liquid.
func (s *sheaf) levels(x float64) Interval {
	if !(x > 0) {
		x = 0
	}
	u := math.Log(x)
	const bins = (highestLevel - lowestLevel) / levelsApart
	share := make([]float64, bins+1)
	for i := range s.curves {
		c := &s.curves[i]
		for j, m := range c.mass {
			z := s.offset + s.anchor + height(u-c.low-(float64(j)+0.5)*s.step, c.beta, c.gamma)
			at := (min(max(z, lowestLevel), highestLevel) - lowestLevel) / levelsApart
			k := min(int(at), bins-1)
			part := at - float64(k)
			share[k] += m * (1 - part)
			share[k+1] += m * part
		}
	}
	values := make([]weighted, 0, len(share))
	for k, m := range share {
		if m > 0 {
			values = append(values, weighted{lowestLevel + float64(k)*levelsApart, m})
		}
	}
	return Interval{quantileOf(values, 0.5), quantileOf(values, 0.025), quantileOf(values, 0.975)}
}

// cumulate writes the integral of a density from the first node up to each node, in steps
// of the axis. Cells use the cubic through the four nodes around them, the end cells the
// parabola through three. So a density that is cut off at an end is integrated as well as
// one that fades out.
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

// quantile gives the quantile q, 0 < q < 1, of a density from its cumulate, in steps from
// the first node. In each cell the cumulative is the cubic with the known values and slopes
// at both ends.
func quantile(density, cumulative []float64, q float64) float64 {
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
	return float64(i) + low
}
