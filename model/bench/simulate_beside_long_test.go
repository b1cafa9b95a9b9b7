//go:build long

package bench_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"github.com/stretchr/testify/assert"
)

// Side by side the eye has an SD of 0.25 level between two dishes; levels are named
// with 0.4, shifted by one draw of SD 0.3 a day.
const (
	betweenDishes = 0.25
	dayShift      = 0.3
)

// seen is a look beside a dish that is thicker by d levels.
func seen(d float64) model.Beside {
	for i, edge := range []float64{-1.5, -0.3, 0.3, 1.5} {
		if d < edge {
			return model.Besides()[i]
		}
	}
	return model.MuchThicker
}

// sideBySide has maker n bring a powder to the thickness of a dish of another and compares
// the factor with the truth. The reference dish gains so many levels over six looks. The
// masses are exact: the looks alone are judged.
func sideBySide(n int, gains float64) outcome {
	m := exactBench.drawMaker(n)
	p := exactBench.profile(m)
	rng := rand.New(rand.NewPCG(7, uint64(n)))
	x := math.Exp(0.5*rng.NormFloat64()) / 2 // of the reference dish, which stands at 5
	t := exactBench.open(m, &p)
	t.Match = &model.Match{Powder: "reference", Trial: 1, Step: 1, PowderPerLiquid: x, Level: 5, Half: 1e-6}
	powder, liquid := 0.0, 5.0
	for len(t.Steps) < mostAdditions {
		r, err := bench.Read(p, *t, nil)
		if err != nil {
			panic(err)
		}
		a, ok := r.Advice()
		if !ok || a.Action == bench.ActStop || a.Action == bench.ActWeigh {
			break
		}
		step, _ := a.Step()
		switch step.Add {
		case model.AddLiquid:
			liquid += a.Grams
		case model.AddPowder:
			powder += m.scoop(step.Spoon, step.Count)
		}
		stands := 5 + gains*float64(len(t.Steps))/6
		step.Looked, step.Beside = true, seen(m.consistency(powder/liquid)-stands+betweenDishes*rng.NormFloat64())
		t.Steps = append(t.Steps, step)
	}
	r, err := bench.Read(p, *t, nil)
	if err != nil {
		panic(err)
	}
	out := outcome{additions: len(t.Steps)}
	f := r.Factor()
	if f == nil {
		return out
	}
	return out.against(m.ratio*x, *f, r.At(5).Reach)
}

// separately has makers 2n and 2n + 1 make a trial each, on two days, and divides.
func separately(n int) outcome {
	rng := rand.New(rand.NewPCG(8, uint64(n)))
	var ratio [2]fit.Interval
	out, truth, reach := outcome{}, 1.0, fit.Bracketed
	for k := range ratio {
		m := exactBench.drawMaker(2*n + k)
		p := exactBench.profile(m)
		truth = m.ratio / truth
		m.ratio *= math.Exp(dayShift * rng.NormFloat64() / m.slope)
		exactBench.trial(m, &p, nil)
		r, err := bench.Read(p, p.Trials[0], nil)
		if err != nil {
			panic(err)
		}
		a := r.At(5)
		out.additions += len(p.Trials[0].Steps)
		if a.Ratio == nil {
			return out
		}
		ratio[k] = *a.Ratio
		if a.Reach != fit.Bracketed {
			reach = a.Reach
		}
	}
	return out.against(truth, ratio[1].Over(ratio[0]), reach)
}

// Side by side the factor is at least twice as good as by two separate trials.
func TestSimulatedBeside(t *testing.T) {
	rows := []simulatedRow{
		{
			"factor side by side", func(n int) outcome { return sideBySide(n, 0) },
			report{rms: 0.05, additions: 5.6, coverage: 0.93},
		},
		{
			"the same, the reference gains 0.2 level meanwhile", func(n int) outcome { return sideBySide(n, 0.2) },
			report{rms: 0.055, additions: 5.6, coverage: 0.85},
		},
	}
	t.Logf(tableHead, "played", "err", "bias", "cover", "half", "adds", "max", "> 14")
	for i, row := range rows {
		got := play(trialsOfARow(), row.how)
		t.Log(got.row(row.name))
		row.holds(t, got)
		if i > 0 {
			continue
		}
		apart := play(trialsOfARow(), separately)
		t.Log(apart.row("factor by two trials, days 0.3 level apart"))
		assert.Less(t, got.rms, apart.rms/2)
		assert.Less(t, got.coverage, 0.98+0.3/math.Sqrt(float64(trialsOfARow())))
	}
}
