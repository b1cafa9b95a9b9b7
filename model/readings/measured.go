package readings

import (
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

// confidence is that of every interval.
const confidence = 0.95

// Measured holds the ratio at the wanted reading, from the readings of one dish.
type Measured struct {
	model.Measured
	Basis  model.Basis
	Wanted float64 // in the kind's unit
	Asked  bool    // the maker said what is wanted; else it is the last reading
	N      int     // readings that count
	Points []Point // all of them, also those left out
	Curve  measure.Curve
	// RatioAtReading is by the readings alone. Dish is its interval widened for the masses,
	// the zero value where there is none.
	measure.RatioAtReading
	Dish     fit.Interval
	Masses   fit.Masses // behind Dish
	StressPa float64    // yield stress at the wanted reading; 0 where the geometry does not allow it
}

// Point is one reading of the dish, and whether it was left out.
type Point struct {
	measure.Point
	LeftOut bool
}

// Of works out the answer of a trial's readings. ok is false where it measures nothing or
// has no reading that counts yet.
func Of(r bench.Reading) (m Measured, ok bool) {
	if r.Trial.Measured == nil {
		return m, false
	}
	return readAs(r, *r.Trial.Measured)
}

// Alone gives Of for a trial without a look that counts; ok is false for one with looks.
func Alone(r bench.Reading) (m Measured, ok bool) {
	if r.Looks() > 0 {
		return m, false
	}
	return Of(r)
}

// Count says how many readings there are: "4 readings by spread".
func (m Measured) Count() string {
	return model.Plural(len(m.Points), "reading") + " by " + string(m.Kind)
}

// readAs works out the answer of a trial's readings in the kind, and at the reading, that
// of asks for.
func readAs(r bench.Reading, of model.Measured) (m Measured, ok bool) {
	t := r.Trial
	m = Measured{
		Measured: of, Basis: model.Basis{Liquid: t.Liquid, RestS: *t.RestS}, Wanted: of.Wanted, Asked: of.Wanted > 0,
	}
	var points []measure.Point
	var dishes []bench.Dish
	for i, dish := range r.Dishes {
		s := t.Steps[i]
		if s.Reading <= 0 || !dish.HasRatio() {
			continue
		}
		p := measure.Point{PowderPerLiquid: dish.PowderPerLiquid(), Reading: s.Reading}
		m.Points = append(m.Points, Point{p, s.LeftOut})
		if !s.LeftOut {
			points, dishes = append(points, p), append(dishes, dish)
		}
	}
	if len(points) == 0 {
		return m, false
	}
	m.N = len(points)
	if !m.Asked {
		m.Wanted = points[m.N-1].Reading
	}
	m.Curve = measure.FitCurve(m.Kind, points)
	m.RatioAtReading = m.Curve.RatioAt(m.Wanted, confidence)
	if m.Status == measure.Solved {
		m.Masses = dishes[nearest(points, m.Wanted)].Masses(r.SpoonWeights)
		m.Dish, _ = m.Masses.Widen(m.Ratio)
	}
	m.StressPa, _ = m.Stress(m.Wanted)
	return m, true
}

// nearest gives the index of the reading nearest the wanted one in ln, the later of equals.
func nearest(points []measure.Point, wanted float64) (at int) {
	off := func(p measure.Point) float64 { return math.Abs(math.Log(p.Reading / wanted)) }
	for i, p := range points {
		if off(p) <= off(points[at]) {
			at = i
		}
	}
	return at
}

// Scale names the reading that the answer is for: "at 61 mm, spread of 15 mL".
func (m Measured) Scale() string { return scale(m.Measured, m.Wanted) }

// scale names a wanted reading and how it is taken.
func scale(m model.Measured, wanted float64) string {
	at := "at " + m.Text(wanted)
	if strings.HasSuffix(at, " "+m.Words()) { // "25 blows"
		return at
	}
	return at + ", " + m.Words()
}

// Headline gives the ratio in few words, with its scale; "" without a ratio.
func (m Measured) Headline() string {
	switch m.Status {
	case measure.Solved:
		return bench.IntervalText(m.Dish) + " " + m.Scale()
	case measure.NoInterval:
		return model.RatioText(m.Ratio.Median) + " " + m.Scale()
	default:
		return ""
	}
}

// Brief gives the answer in ever fewer words, the longest first.
func (m Measured) Brief() []string {
	ratio := ""
	switch m.Status {
	case measure.Solved:
		ratio = bench.IntervalText(m.Dish)
	case measure.NoInterval:
		ratio = model.RatioText(m.Ratio.Median)
	default:
		return []string{"none yet " + m.Scale(), "none yet"}
	}
	return []string{model.PerPowder(ratio, m.Basis.Liquid) + " " + m.Scale(), ratio + " at " + m.Text(m.Wanted), ratio}
}

// Sentence gives the answer with its scale, or says why there is none.
func (m Measured) Sentence() string {
	var text string
	switch m.Status {
	case measure.Solved:
		text = fmt.Sprintf("%s %s, by %d readings", model.PerPowder(bench.IntervalText(m.Dish), m.Basis.Liquid),
			m.Scale(), m.N)
	case measure.NoInterval:
		text = fmt.Sprintf("%s %s, by two readings: no interval before a third",
			model.PerPowder(model.RatioText(m.Ratio.Median), m.Basis.Liquid), m.Scale())
	case measure.SlopeUnclear:
		text = fmt.Sprintf("No ratio %s: the readings do not clearly change with the powder; read a dish that is "+
			"thicker or thinner", m.Scale())
	case measure.Backwards:
		text = fmt.Sprintf("No ratio %s: more powder reads thinner; check the readings", m.Scale())
	default:
		text = fmt.Sprintf("No ratio %s yet: it takes readings of two dishes, three for an interval", m.Scale())
	}
	if m.Ratio.Median > 0 && !m.Inside {
		text += "; no reading lies beyond it, so it rests on the line going on straight"
	}
	if m.StressPa > 0 {
		text += fmt.Sprintf("; yield stress there about %s Pa", model.Significant(m.StressPa, 2))
	}
	return text + "."
}

// Next says what to read next: the other side of the wanted reading, or one more near it.
// It also says when the tolerance, in ln R, is met, and why there is no ratio.
func (m Measured) Next(tolerance float64) string {
	last := m.Points[len(m.Points)-1].Reading
	between := m.Curve.Low <= m.Wanted && m.Wanted <= m.Curve.High
	thicker := (last > m.Wanted) == m.Kind.ThickerReadsMore()
	switch {
	case !m.Asked:
		return fmt.Sprintf("No reading is named as the wanted one: taken is the last, %s.", m.Text(m.Wanted))
	case m.Status == measure.Backwards, m.Status == measure.SlopeUnclear:
		return m.Sentence()
	case !between && thicker:
		return fmt.Sprintf("Thicker than %s: add liquid and read again.", m.Text(m.Wanted))
	case !between:
		return fmt.Sprintf("Thinner than %s: add powder and read again.", m.Text(m.Wanted))
	case m.Status == measure.Solved && m.Ratio.HalfWidth() <= tolerance:
		return fmt.Sprintf("That is within the %s wanted.", bench.PlusMinus(tolerance))
	case m.N == 1:
		return "A second dish gives a ratio, a third its interval."
	case m.Status == measure.NoInterval:
		return "By two readings; no interval before a third."
	default:
		return "One more reading near it tells more."
	}
}

// At gives the ratio at any reading, widened for the masses.
func (m Measured) At(reading float64) measure.RatioAtReading {
	a := m.Curve.RatioAt(reading, confidence)
	if a.Status == measure.Solved {
		a.Ratio, _ = m.Masses.Widen(a.Ratio)
	}
	return a
}
