package picture

import (
	"fmt"
	"math"
	"strconv"

	"daub.example/daub/model"
	"gonum.org/v1/plot"
)

// stretch is how far what matters less may widen the axis.
const stretch = 2

// ratioRange is the ends of the ratio axis. The curves and the looks that give
// a value set it; open and far looks are taken in if near, and the band is cut.
func (s scene) ratioRange() (low, high float64) {
	low, high = math.Inf(1), 0
	add := func(x float64) { low, high = min(low, x), max(high, x) }
	for _, one := range s.series {
		for _, l := range one.looks {
			if !l.Open() && !l.Far {
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
	lowest, highest := low/stretch, high*stretch
	for _, one := range s.series {
		for _, l := range one.looks {
			if !closed || l.X >= lowest && l.X <= highest {
				add(l.X)
			}
		}
	}
	if s.several() {
		return low / 1.2, high * 1.2
	}
	return 0, high * 1.06
}

// manyDecades is the span beyond which only powers of ten have room for their
// labels.
const manyDecades = 3000

// ratioTicks are round values from low to high. Several powders have a
// logarithmic axis, for they may be far apart.
func (s scene) ratioTicks(low, high float64) []plot.Tick {
	if !s.several() {
		return linearTicks(low, high)
	}
	var ticks []plot.Tick
	labels := 0
	for e := math.Floor(math.Log10(low)); e <= math.Log10(high); e++ {
		for m := 1.0; m < 10; m++ {
			v := m * math.Pow(10, e)
			if v < low || v > high {
				continue
			}
			tick := plot.Tick{Value: v}
			if m == 1 || (m == 2 || m == 5) && high/low < manyDecades {
				tick.Label, labels = decimals(v, int(max(-e, 0))), labels+1
			}
			ticks = append(ticks, tick)
		}
	}
	if labels < 3 {
		return linearTicks(low, high)
	}
	return ticks
}

// linearTicks are four to ten values, 1, 2 or 5 times a power of ten apart.
func linearTicks(low, high float64) []plot.Tick {
	e := math.Floor(math.Log10((high - low) / 10))
	step := math.Pow(10, e)
	for _, m := range []float64{1, 2, 5, 10} {
		if step = m * math.Pow(10, e); (high-low)/step <= 10 {
			break
		}
	}
	places := int(max(-math.Floor(math.Log10(step)+1e-9), 0))
	var ticks []plot.Tick
	for i := math.Ceil(low / step); i <= math.Floor(high/step); i++ {
		tick := plot.Tick{Value: i * step, Label: decimals(i*step, places)}
		if i == 0 {
			tick.Label = "0"
		}
		ticks = append(ticks, tick)
	}
	return ticks
}

func decimals(v float64, places int) string { return strconv.FormatFloat(v, 'f', places, 64) }

// levelTicks are the levels with their words.
func levelTicks() []plot.Tick {
	var ticks []plot.Tick
	for _, c := range model.Scale() {
		ticks = append(ticks, plot.Tick{Value: c.Level, Label: fmt.Sprintf("%s %s", c.Word, model.Number(c.Level))})
	}
	return ticks
}
