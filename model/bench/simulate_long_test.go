//go:build long

package bench_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// levels plays one trial and compares its answers at several levels with the truth.
func (b simulatedBench) levels(n int, levels ...float64) []outcome {
	m := b.drawMaker(n)
	p := b.profile(m)
	b.trial(m, &p, nil)
	outs := make([]outcome, len(levels))
	for i, l := range levels {
		outs[i] = b.score(m, p, l)
	}
	return outs
}

// repeated plays three trials of a powder, the later ones steered by those before, and
// compares their joint answer with the truth.
func (b simulatedBench) repeated(n int) outcome {
	m := b.drawMaker(n)
	p := b.profile(m)
	for range 3 {
		b.trial(m, &p, repeats.Steering(p.Powder, []model.Profile{p.Clone()}, nil))
		p.Trials[len(p.Trials)-1].State = model.Done
	}
	r := repeats.Ratios(p, p.MainBasis(), []float64{5}, nil)[0]
	out := outcome{}
	for _, t := range p.Trials {
		out.additions += len(t.Steps)
	}
	if r.Powder == nil {
		return out
	}
	return out.against(m.ratio, *r.Powder, r.Reach)
}

func TestSimulatedMakers(t *testing.T) {
	quick := exactBench
	quick.tolerance = 0.20
	unknown := exactBench
	unknown.family = false
	bent := scoopedBench
	bent.bend = 0.3
	absent := bent
	absent.absent = 0.05
	run(t, []simulatedRow{
		{"advice, 0.20, masses exact", quick.advised, report{rms: 0.07, additions: 3.9, coverage: 0.93}},
		{"advice, 0.12, family not known", unknown.advised, report{rms: 0.05, additions: 6, coverage: 0.93}},
		{
			"advice, 0.12, scoops and sizes 5 %, three weighings", scoopedBench.advised,
			report{rms: 0.07, additions: 5.5, coverage: 0.93},
		},
		{"the same, thickening curves bent", bent.advised, report{rms: 0.075, additions: 5.7, coverage: 0.90}},
		{"the same, one look in twenty absent-minded", absent.advised, report{rms: 0.08, additions: 6, coverage: 0.90}},
	})
}

func TestSimulatedKnowledge(t *testing.T) {
	halves, known, days := exactBench, exactBench, exactBench
	halves.halves = true
	known.known = true
	both := known
	both.halves = true
	days.days = 0.05
	run(t, []simulatedRow{
		{"advice, 0.12, read to half levels", halves.advised, report{rms: 0.047, additions: 4.3, coverage: 0.93}},
		{
			"advice, 0.12, powder known from one trial", known.advised,
			report{rms: 0.044, additions: 4.5, coverage: 0.93},
		},
		{"known, and read to half levels", both.advised, report{rms: 0.043, additions: 4.3, coverage: 0.93}},
		{"three repeats of a powder, days 5 % apart", days.repeated, report{rms: 0.05, additions: 15, coverage: 0.93}},
	})
}

// One trial that aims at 5 answers for other levels too.
func TestSimulatedLevels(t *testing.T) {
	levels := []float64{2, 3, 4, 6}
	of := make([][]outcome, len(levels))
	for n := range *simulated {
		for i, o := range exactBench.levels(n, levels...) {
			of[i] = append(of[i], o)
		}
	}
	t.Logf(tableHead, "the same trials at another level", "err", "bias", "cover", "half", "adds", "max", "> 14")
	for i, name := range []string{"level 2", "level 3", "level 4", "level 6"} {
		got := sumUp(of[i])
		t.Log(got.row(name))
		row := simulatedRow{name: name, most: report{
			rms: []float64{0.25, 0.17, 0.09, 0.09}[i], additions: 4.9,
			coverage: 0.90,
		}}
		got.ungiven = 0 // a level that was not reached has no estimate
		row.holds(t, got)
	}
}
