package fit

import (
	"math"
	"sync"
)

// table holds ln P(look | z, σ) of every look with a cell of one width. It has a row for
// each distance d of z from the middle of the cell, or from its only edge, and a column for
// each node of σ. Levels do not matter, so a few tables serve every look.
type table struct {
	columns int
	ln      []float64
	chance  []float64 // the probabilities themselves
}

// The rows go from -farthest to farthest levels, 1/pitch apart. Beyond, the likelihood
// stays at that of the end, of a look which no eye would give.
const (
	farthest = 20
	pitch    = 32
	rows     = 2*farthest*pitch + 2 // the last for interpolation only
)

// eyes are nodes of σ, evenly spaced over its prior.
type eyes struct {
	nodes int
	apart float64 // in SD
}

// Nodes of σ for passes that find the window, and for those that answer. An even grid of a
// smooth density that fades out at both ends is exact to nearly all digits as long as its
// SD is not below the spacing.
var (
	roughEyes = eyes{5, 1.25}
	wideEyes  = eyes{9, 1.0}
	fineEyes  = eyes{13, 0.7}
)

// at gives node k in SD from the prior's middle.
func (e eyes) at(k int) float64 { return e.apart * (float64(k) - float64(e.nodes-1)/2) }

// sigma gives node k, in levels, for a prior median.
func (e eyes) sigma(median float64, k int) float64 { return median * math.Exp(sdEye*e.at(k)) }

// tableKey tells tables apart.
type tableKey struct {
	width, eye float64 // width +Inf: one edge only
	eyes       eyes
}

// tables holds the tables built so far, each when first needed: there are a dozen at most.
var tables = struct {
	sync.Mutex
	of map[tableKey]*table
}{of: map[tableKey]*table{}}

// lookup finds a reading's probability in the table, at the distance side·(z - from), in
// levels.
type lookup struct {
	*table
	from, side float64
}

// lookupFor finds or builds the table for a cell.
func lookupFor(c cell, eye float64, e eyes) lookup {
	l := lookup{from: (c.low + c.high) / 2, side: 1}
	width := c.high - c.low
	switch {
	case math.IsInf(c.low, -1):
		l.from, width = c.high, math.Inf(1)
	case math.IsInf(c.high, 1):
		l.from, l.side, width = c.low, -1, math.Inf(1)
	}
	width = math.Round(width*1e9) / 1e9
	key := tableKey{width, eye, e}
	tables.Lock()
	defer tables.Unlock()
	l.table = tables.of[key]
	if l.table == nil {
		l.table = newTable(key)
		tables.of[key] = l.table
	}
	return l
}

// newTable computes a table.
func newTable(key tableKey) *table {
	n := key.eyes.nodes
	t := &table{n, make([]float64, rows*n), make([]float64, rows*n)}
	for k := range n {
		sigma := key.eyes.sigma(key.eye, k)
		for row := range rows {
			d := float64(row)/pitch - farthest
			var ln float64
			if math.IsInf(key.width, 1) {
				ln = lnNormal(-d / sigma)
			} else {
				ln = lnBetween((-key.width/2-d)/sigma, (key.width/2-d)/sigma)
			}
			t.ln[row*n+k] = ln
			t.chance[row*n+k] = math.Exp(ln)
		}
	}
	return t
}

// row gives the row at or below z, and the fraction of the way to the next, 0 to 1.
func (l *lookup) row(z float64) (row int, part float64) {
	const last = 2 * farthest * pitch
	at := l.side*(z-l.from)*pitch + farthest*pitch
	if !(at > 0) {
		at = 0
	} else if at > last {
		at = last
	}
	row = int(at)
	return row, at - float64(row)
}

// lnBetween gives the logarithm of the standard normal probability between a and b, a < b.
// It takes the difference in the smaller tail and so keeps its relative accuracy in both.
func lnBetween(a, b float64) float64 {
	if a+b > 0 {
		a, b = -b, -a
	}
	high := lnNormal(b)
	return high + math.Log1p(-math.Exp(lnNormal(a)-high))
}

// lnNormal gives the logarithm of the standard normal cumulative. Far below, where that
// underflows, it is the asymptotic series of Abramowitz & Stegun 26.2.12, whose first term
// left out is then below 1e-6.
func lnNormal(x float64) float64 {
	if x > -20 {
		return math.Log(math.Erfc(-x/math.Sqrt2) / 2)
	}
	r := 1 / (x * x)
	return -x*x/2 - math.Log(-x*math.Sqrt(2*math.Pi)) + math.Log1p(-r*(1-3*r))
}

// normal gives the standard normal cumulative.
func normal(x float64) float64 { return math.Erfc(-x/math.Sqrt2) / 2 }
