package fit

import "math"

// size is the number of nodes of a grid along each axis.
type size struct {
	centres, slopes, bends int
	eyes                   eyes
}

// passes are the sizes of the passes of solve. first goes over the whole prior, rough finds
// the window, and last gives the answer.
type passes struct{ first, rough, last size }

// ending gives the passes of a full fit that ends in a size.
func ending(last size) passes {
	return passes{size{33, 9, 7, roughEyes}, size{20, 9, 7, roughEyes}, last}
}

// SketchLimit is the half-width in ln R up to which a Sketch can be relied on.
const SketchLimit = 0.3

// sketching gives the passes of Sketch, for so many different readings.
func sketching(readings int) passes {
	last := size{24, 17, 13, wideEyes}
	if readings > 8 {
		last = size{20, 14, 11, fine(readings).eyes}
	}
	return passes{size{25, 7, 5, roughEyes}, size{16, 7, 5, roughEyes}, last}
}

// fine gives the size of the last pass for so many different readings. The posterior of a
// few looks has a narrow core and long tails, which takes more nodes, and their fit is
// quick anyway.
//
// A single look takes the most bends: where a curve comes close to its floor its c runs
// away with γ. With 17 bends a limit that a thin look sees from one side was 11 % off, with
// 41 it is 1.6 %. With these the reference cases hold within 0.5 %.
func fine(readings int) size {
	switch {
	case readings <= 1:
		return size{48, 19, 41, wideEyes}
	case readings <= 3:
		return size{42, 19, 25, wideEyes}
	case readings <= 8:
		return size{34, 21, 22, wideEyes}
	case readings <= 16:
		return size{28, 27, 21, wideEyes}
	default:
		return size{26, 21, 15, fineEyes}
	}
}

// faded is the density, relative to its peak, below which nodes are left out of the next
// pass: about 4.8 SD of a normal.
const faded = 1e-5

// solve finds the posterior of readings in passes.
//
// The window starts as the whole prior and closes in over a few passes. Many looks make a
// posterior that a wide grid would step over, so the first pass weakens the likelihood to
// that of two looks. Each further pass allows sixteen times as many, until it counts in
// full; one pass more follows the ridge. The centres of a size are those along a pair of
// middling width.
func solve(s scale, readings []reading, p passes) *grid {
	g := whole(s, p.first)
	looks := looksIn(readings)
	for carried := 2.0; carried < 16*looks; carried *= 16 {
		g.fill(readings, min(1, carried/looks))
		g = g.closer(p.rough)
	}
	g.fill(readings, 1)
	g = g.closer(p.last)
	g.fill(readings, 1)
	return g
}

// closer makes the grid over what has not faded. A pair between some of the present ones
// gets the c of all of those and what lies between.
func (g *grid) closer(n size) *grid {
	bySlope := make([]float64, g.slope.cells)
	byCentre := make([]float64, g.centre.cells)
	ridge := make([]segment, g.slope.cells*g.bend.cells)
	for i := range ridge {
		ridge[i] = nowhere
	}
	top := 0.0
	g.each(func(p *pair, centre int, eyes []float64) {
		w := total(eyes)
		bySlope[p.slope] += w
		byCentre[centre] += w
		top = max(top, w)
	})
	step := g.centre.step()
	g.each(func(p *pair, centre int, eyes []float64) {
		if total(eyes) > faded*top {
			at := g.centre.at(centre)
			r := &ridge[p.bend*g.slope.cells+p.slope]
			*r = r.hull(segment{at - 1.5*step, at + 1.5*step})
		}
	})
	next := &grid{
		scale: g.scale,
		slope: g.slope.within(bySlope, faded, n.slopes),
		eyes:  n.eyes,
		seen:  g.eyesFor(n.eyes),
	}
	next.lean(g, ridge, n.bends)
	segmentOf := func(lnBeta, gamma float64) segment {
		j0, j1 := g.slope.between(lnBeta)
		m0, m1 := g.bend.between(gamma - g.tilt*(lnBeta-g.mid))
		row := func(m int) segment { return ridge[m*g.slope.cells+j0].hull(ridge[m*g.slope.cells+j1]) }
		return row(m0).hull(row(m1))
	}
	next.centre = g.centre.within(byCentre, 0, 1)
	next.centre = g.cut(next, segmentOf, n.centres)
	next.lay(func(lnBeta, gamma float64) span { return next.centre.span(segmentOf(lnBeta, gamma)) })
	return next
}

// lean tilts the bends of the next grid along the regression of γ on ln β, and cuts their
// axis.
func (g *grid) lean(last *grid, ridge []segment, bends int) {
	var w, b, c, bb, bc float64
	last.each(func(p *pair, _ int, eyes []float64) {
		m, x, y := total(eyes), math.Log(p.beta), p.gamma
		w += m
		b += m * x
		c += m * y
		bb += m * x * x
		bc += m * x * y
	})
	g.mid = b / w
	g.tilt = (bc - b*c/w) / (bb - b*b/w + 1e-3) // the last for a single slope
	// Half a cell more on either side, but not beyond the prior.
	step := last.bend.step()
	edge := bendReach*sdBend + math.Abs(g.tilt)*max(g.slope.high-g.mid, g.mid-g.slope.low)
	low, high := edge, -edge
	for i := range last.pairs {
		p := &last.pairs[i]
		if r := ridge[p.bend*last.slope.cells+p.slope]; r.low <= r.high {
			at := p.gamma - g.tilt*(math.Log(p.beta)-g.mid)
			low, high = min(low, at-step), max(high, at+step)
		}
	}
	g.bend = axis{max(low, -edge), min(high, edge), bends}
}

// cut gives the axis of c for the next grid. Its cells are so wide that a pair has the
// given number of centres on average.
func (g *grid) cut(next *grid, segmentOf func(lnBeta, gamma float64) segment, centres int) axis {
	all, sum, pairs := nowhere, 0.0, 0.0
	for m := range next.bend.cells {
		for j := range next.slope.cells {
			s := segmentOf(next.slope.at(j), next.gamma(j, m))
			if s.low > s.high {
				continue
			}
			s = segment{max(s.low, g.centre.low), min(s.high, g.centre.high)}
			all = all.hull(s)
			sum += s.high - s.low
			pairs++
		}
	}
	cells := math.Ceil((all.high - all.low) / (sum / pairs) * float64(centres))
	return axis{all.low, all.high, int(cells)}
}

// eyesFor gives those of the next pass's nodes of σ that have not faded.
func (g *grid) eyesFor(next eyes) span {
	byEye := make([]float64, g.columns())
	g.each(func(_ *pair, _ int, eyes []float64) {
		for k, w := range eyes {
			byEye[k] += w
		}
	})
	top := 0.0
	for _, w := range byEye {
		top = max(top, w)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for k, w := range byEye {
		if w > faded*top {
			low = min(low, g.eyes.at(g.seen.first+k)-g.eyes.apart)
			high = max(high, g.eyes.at(g.seen.first+k)+g.eyes.apart)
		}
	}
	s := span{0, next.nodes}
	for s.first < s.end-1 && next.at(s.first) < low {
		s.first++
	}
	for s.end > s.first+1 && next.at(s.end-1) > high {
		s.end--
	}
	return s
}
