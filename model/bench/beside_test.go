package bench_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// besideBench is two powders of one maker. Side by side the eye has an SD of 0.25
// level between two dishes; levels are named with 0.4, shifted by one draw of SD 0.3
// a day.
var besideBench = simulatedBench{tolerance: 0.12, family: true}

const (
	betweenDishes = 0.25
	dayShift      = 0.3
)

// seen is a look beside a dish that is thicker by d levels.
func seen(d float64) model.Beside {
	cells := []float64{-1.5, -0.3, 0.3, 1.5}
	for i, edge := range cells {
		if d < edge {
			return model.Besides()[i]
		}
	}
	return model.MuchThicker
}

// sideBySide brings powder B of maker n to the thickness of a dish of A and holds
// the factor against the truth.
func sideBySide(n int) outcome {
	m := besideBench.drawMaker(n)
	p := besideBench.profile(m)
	rng := rand.New(rand.NewPCG(7, uint64(n)))
	x := math.Exp(0.5*rng.NormFloat64()) / 2 // of the reference dish, which stands at 5
	t := besideBench.open(m, &p)
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
		step.Looked, step.Beside = true, seen(m.consistency(powder/liquid)-5+betweenDishes*rng.NormFloat64())
		t.Steps = append(t.Steps, step)
	}
	r, err := bench.Read(p, *t, nil)
	if err != nil {
		panic(err)
	}
	out := outcome{additions: len(t.Steps)}
	a := r.At(5)
	if a.Ratio == nil {
		return out
	}
	return out.against(m.ratio*x, a.Ratio.Times(x), a.Reach) // masses exact: the looks alone are judged
}

// separately makes a trial of each of two powders on two days and divides.
func separately(n int) outcome {
	rng := rand.New(rand.NewPCG(8, uint64(n)))
	var lnR, low, high [2]float64
	out := outcome{given: true, bracketed: true}
	truth := 0.0
	for k := range 2 {
		m := besideBench.drawMaker(2*n + k)
		p := besideBench.profile(m)
		true0 := m.ratio
		truth = math.Log(true0) - truth
		m.ratio *= math.Exp(dayShift * rng.NormFloat64() / m.slope)
		besideBench.trial(m, &p, nil)
		r, err := bench.Read(p, p.Trials[0], nil)
		if err != nil {
			panic(err)
		}
		a := r.At(5)
		if a.Ratio == nil {
			return outcome{additions: len(p.Trials[0].Steps)}
		}
		out.additions += len(p.Trials[0].Steps)
		out.bracketed = out.bracketed && a.Reach == fit.Bracketed
		lnR[k], low[k], high[k] = math.Log(a.Ratio.Median), math.Log(a.Ratio.Low), math.Log(a.Ratio.High)
	}
	f := lnR[1] - lnR[0]
	iv := fit.Interval{
		Median: math.Exp(f), Low: math.Exp(f - math.Hypot(lnR[1]-low[1], high[0]-lnR[0])),
		High: math.Exp(f + math.Hypot(high[1]-lnR[1], lnR[0]-low[0])),
	}
	reach := fit.OneSided
	if out.bracketed {
		reach = fit.Bracketed
	}
	return out.against(math.Exp(truth), iv, reach)
}

func TestSimulatedBeside(t *testing.T) {
	t.Logf(tableHead, "played", "err", "bias", "cover", "half", "adds", "max", "> 14")
	beside, apart := play(*simulated, sideBySide), play(*simulated, separately)
	t.Log(beside.row("factor, side by side"))
	t.Log(apart.row("factor, two separate trials on two days"))
	stray := 1 + 3/math.Sqrt(2*float64(*simulated))
	assert.Less(t, beside.rms, 0.05*stray)
	assert.Less(t, beside.rms, apart.rms/2*stray)
	assert.Greater(t, beside.coverage, 0.93-0.3*(stray-1))
	assert.Zero(t, beside.ungiven)
}

// A dish serves as a reference as it stands at its last look that counts, and the
// trial beside it keeps what it was.
func TestBesideKeepsItsDish(t *testing.T) {
	p := model.Profile{Powder: model.Powder{Name: "A"}, Trials: []model.Trial{{
		Started: time.Date(2026, 5, 3, 10, 0, 0, 0, time.UTC), State: model.Done, LiquidG: 20, Steps: []model.Step{
			{Add: model.AddPowder, Grams: 4, Looked: true, Level: 3},
			{Add: model.AddPowder, Grams: 1, Looked: true, Level: 5},
		},
	}}}
	r, err := bench.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	like, err := r.Beside("a", 0)
	require.NoError(t, err)
	assert.Equal(t, 0.25, like.Match.PowderPerLiquid)
	assert.Equal(t, 5.0, like.Match.Level)
	assert.Equal(t, 2, like.Match.Step)
	assert.True(t, r.Stands(*like.Match))
	p.Trials[0].Steps[1].Grams = 2
	changed, err := bench.Read(p, p.Trials[0], nil)
	require.NoError(t, err)
	assert.False(t, changed.Stands(*like.Match), "the record was changed since")
}
