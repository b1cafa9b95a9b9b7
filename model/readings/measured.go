package readings

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

// confidence of every interval.
const confidence = 0.95

// Measured holds the ratio at the wanted reading by the readings of one dish.
type Measured struct {
	model.Measured
	Liquid string
	Wanted float64 // in the kind's unit
	N      int     // readings that count
	Curve  measure.Curve
	measure.RatioAtReading
	StressPa float64 // yield stress at the wanted reading; 0 where the geometry does not allow it
}

// Of works out the answer of a trial's readings; ok is false where it measures nothing or has
// no reading yet.
func Of(r bench.Reading) (m Measured, ok bool) {
	t := r.Trial
	if t.Measured == nil {
		return m, false
	}
	m = Measured{Measured: *t.Measured, Liquid: t.Liquid, Wanted: t.Measured.Wanted}
	var points []measure.Point
	last := 0.0
	for i, dish := range r.Dishes {
		s := t.Steps[i]
		if s.Reading <= 0 || s.LeftOut || !dish.Mixed() || dish.Guess {
			continue
		}
		last = s.Reading
		points = append(points, measure.Point{PowderPerLiquid: dish.PowderPerLiquid(), Reading: s.Reading})
	}
	if len(points) == 0 {
		return m, false
	}
	if m.Wanted == 0 {
		m.Wanted = last
	}
	m.N = len(points)
	m.Curve = measure.FitCurve(m.Kind, points)
	m.RatioAtReading = m.Curve.RatioAt(m.Wanted, confidence)
	m.StressPa, _ = m.Stress(m.Wanted)
	return m, true
}

// Scale names what the answer is on: "at a spread of 15 mL of 61 mm".
func (m Measured) Scale() string { return fmt.Sprintf("at %s, %s", m.Text(m.Wanted), m.Words()) }

// Headline is the ratio in few words, with its scale; without one, "".
func (m Measured) Headline() string {
	switch {
	case m.Ratio.Median == 0:
		return ""
	case m.Status == measure.NoInterval:
		return model.RatioText(m.Ratio.Median) + " " + m.Scale()
	default:
		return bench.IntervalText(m.Ratio) + " " + m.Scale()
	}
}

// Sentence is the answer in its own scale.
func (m Measured) Sentence() string {
	var text string
	switch m.Status {
	case measure.Solved:
		text = fmt.Sprintf(
			"%s g %s per g powder %s, by %d readings",
			bench.IntervalText(m.Ratio),
			m.Liquid,
			m.Scale(),
			m.N,
		)
	case measure.NoInterval:
		text = fmt.Sprintf("%s g %s per g powder %s, by two readings: no interval before a third",
			model.RatioText(m.Ratio.Median), m.Liquid, m.Scale())
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
		text += fmt.Sprintf("; yield stress about %s Pa", model.Significant(m.StressPa, 2))
	}
	return text + "."
}

// Powder holds the answer of a powder's trials together at one reading.
type Powder struct {
	model.Measured
	Wanted       float64
	Trials       int
	Ratio, Next  fit.Interval // g/g: this powder, the next dish
	BetweenRatio float64      // spread between trials, in ln R
}

// Pool joins the trials of a profile that count and read on the scale of m in its
// liquid, at the wanted reading; ok is false where none has an interval there.
func Pool(p model.Profile, liquid string, m model.Measured, wanted float64, d model.OwnSpoons) (out Powder, ok bool) {
	out = Powder{Measured: m, Wanted: wanted}
	var repeats []fit.Repeat
	for _, t := range p.Trials {
		if !t.Used() || t.Measured == nil || !t.Measured.Like(m) ||
			!model.SameLiquid(t.WithDefaults(p.Powder.Kind()).Liquid, liquid) {
			continue
		}
		r, err := bench.Read(p, t, d)
		if err != nil {
			continue
		}
		r.Trial.Measured = &m
		one, some := Of(r)
		if !some {
			continue
		}
		at := one.Curve.RatioAt(wanted, confidence)
		if at.Status != measure.Solved {
			continue
		}
		repeats = append(repeats, fit.Repeat{
			LnRatio: math.Log(at.Ratio.Median), StandardUncertainty: at.Ratio.HalfWidth() / fit.Normal95,
		})
	}
	joined, ok := fit.Combine(repeats, 0)
	if !ok {
		return out, false
	}
	out.Trials, out.BetweenRatio = len(repeats), joined.BetweenTrials
	out.Ratio, out.Next = fromLn(joined.Powder), fromLn(joined.Next)
	return out, true
}

// fromLn turns an interval in ln R into one in R.
func fromLn(iv fit.Interval) fit.Interval {
	return fit.Interval{Median: math.Exp(iv.Median), Low: math.Exp(iv.Low), High: math.Exp(iv.High)}
}

// Factor is how many times as much liquid powder b takes as a at equal reading.
func Factor(a, b Powder) fit.Interval { return b.Ratio.Over(a.Ratio) }
