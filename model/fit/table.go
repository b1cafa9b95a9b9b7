package fit

import (
	"math"
	"sync"
)

// Prior and noise of the thickening line (METHOD, the thickening line: see
// there for the slopes that have been published).
const (
	kappa = 0.20 // loss of weight per level away from the asked level; chosen

	medianSlope = 6   // beta, levels per e-fold; chosen wide around published slopes
	spreadSlope = 0.5 // SD of ln beta

	medianEye = 0.4  // sigma, levels: a careful eye repeats to about half a level; chosen
	spreadEye = 0.35 // SD of ln sigma; chosen

	eyeReach = 4 // the nodes of sigma go this many SD out
)

// eyes is the number of nodes in ln sigma, even over the prior: 1 SD apart.
const eyes = 9

// eye holds the nodes of sigma, in levels, and the log of their prior weight.
var eye, lnEye = eyeNodes()

func eyeNodes() (sigma, lnWeight [eyes]float64) {
	for k := range sigma {
		t := eyeReach * (2*float64(k)/(eyes-1) - 1)
		sigma[k] = medianEye * math.Exp(spreadEye*t)
		lnWeight[k] = -t * t / 2
	}
	return sigma, lnWeight
}

// The rows of a table are places d = z - L, in levels. Up to fine they are
// 1/pitch apart; beyond, they are even in 1/d, because the noise then grows with
// d and the likelihood changes with its logarithm only. The two meet with the
// same spacing.
const (
	fine   = 4
	pitch  = 32
	middle = 2*fine*pitch - 1 // the row of d = 0
	rows   = 2*middle + 1
)

// table is ln P(look | d, sigma) of one cell, a row for each place and a column
// for each node of sigma.
type table [rows][eyes]float64

// place is where between the rows of a table d lies: the row below, and how far
// on the way to the next, 0 to 1. Beyond 500 levels d is taken as 500.
func place(d float64) (row int, part float64) {
	at := middle + pitch*d
	if d > fine {
		at = middle + 2*fine*pitch - fine*fine*pitch/min(d, 500)
	} else if d < -fine {
		at = middle - 2*fine*pitch - fine*fine*pitch/max(d, -500)
	}
	row = int(at)
	return row, at - float64(row)
}

// placed is the d of a row.
func placed(row int) float64 {
	at := float64(row - middle)
	if math.Abs(at) <= fine*pitch {
		return at / pitch
	}
	return math.Copysign(fine*fine*pitch/(2*fine*pitch-math.Abs(at)), at)
}

// tables are built when first needed and kept: there are a few dozen cells at
// most, whatever the looks.
var tables = struct {
	sync.Mutex
	of map[cell]*table
}{of: map[cell]*table{}}

// tableFor is the table of a cell measured from the asked level. A cell above
// the level is the mirror image of one below: side is then -1, and the table is
// to be read at side·d.
func tableFor(c cell) (t *table, side float64) {
	side = 1
	if c.low+c.high > 0 {
		c, side = cell{-c.high, -c.low}, -1
	}
	tables.Lock()
	defer tables.Unlock()
	t = tables.of[c]
	if t == nil {
		t = newTable(c)
		tables.of[c] = t
	}
	return t, side
}

func newTable(c cell) *table {
	a, b := edge(c.low), edge(c.high)
	t := new(table)
	for row := range t {
		d := placed(row)
		for k, sigma := range eye {
			s := math.Hypot(sigma, kappa*d)
			t[row][k] = lnBetween((a-d)/s, (b-d)/s)
		}
	}
	return t
}

func edge(quarters int) float64 {
	switch quarters {
	case -open:
		return math.Inf(-1)
	case open:
		return math.Inf(1)
	default:
		return float64(quarters) / 4
	}
}

// lnBetween is the logarithm of the standard normal probability between a and
// b, a < b. It keeps its relative accuracy in both tails.
func lnBetween(a, b float64) float64 {
	if a+b > 0 {
		a, b = -b, -a
	}
	high := lnNormal(b)
	return high + math.Log1p(-math.Exp(lnNormal(a)-high))
}

// lnNormal is the logarithm of the standard normal cumulative. Far below, where
// that underflows, it is the asymptotic series of Abramowitz & Stegun 26.2.12,
// whose first term left out is then below 1e-6.
func lnNormal(x float64) float64 {
	if x > -20 {
		return math.Log(math.Erfc(-x/math.Sqrt2) / 2)
	}
	r := 1 / (x * x)
	return -x*x/2 - math.Log(-x*math.Sqrt(2*math.Pi)) + math.Log1p(-r*(1-3*r))
}
