package bench_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/assert"
)

// A simulated bench: makers with a known truth play whole trials, and what daub
// says at the end is held against the truth. The makers know nothing of the fit:
// they scoop, stir and look. The same trial number is the same maker.
//
//	go test ./model -run TestSimulatedBench -v -trials 2000
//
// prints the table that DEVELOPERS.md shows.

// maker is one maker with one powder.
type maker struct {
	ratio  float64            // truth, g liquid per g powder at level 5
	slope  float64            // levels per e-fold of powder per liquid
	bend   float64            // relative change of the slope per e-fold away from level 5; 0 is straight
	eye    float64            // SD of a look, levels
	tspG   float64            // g per level teaspoon
	scoops float64            // relative SD of a scoop
	absent float64            // chance of a look made absent-mindedly
	sizes  map[string]float64 // true size of a spoon over its name's
	rng    *rand.Rand
}

// simulatedBench is what makers are drawn from and how their trials are set up.
type simulatedBench struct {
	bend, scoops, absent float64
	sizes                float64 // relative SD of the size of every spoon but the one weighed
	weighings            int     // 0: the spoon weight is known exactly
	tolerance            float64
	family               bool // the maker knows the powder's family
}

var simSpoons = []string{"1 tsp", "1/2 tsp", "1/4 tsp", "1/8 tsp", "1/16 tsp"}

func teaspoons(spoon string) float64 {
	return map[string]float64{"1 tsp": 1, "1/2 tsp": 0.5, "1/4 tsp": 0.25, "1/8 tsp": 0.125, "1/16 tsp": 0.0625}[spoon]
}

// drawMaker draws the maker of trial n; the same n is the same maker.
func (b simulatedBench) drawMaker(n int) *maker {
	rng := rand.New(rand.NewPCG(20260501, uint64(n)))
	between := func(low, high float64) float64 { return math.Exp(math.Log(low) + rng.Float64()*math.Log(high/low)) }
	m := &maker{
		ratio: between(0.4, 7), slope: 6 * math.Exp(0.3*rng.NormFloat64()), eye: 0.4 * math.Exp(0.2*rng.NormFloat64()),
		tspG: between(1.2, 5), bend: b.bend * rng.NormFloat64(), scoops: b.scoops, absent: b.absent, rng: rng,
		sizes: map[string]float64{},
	}
	for _, s := range simSpoons[1:] {
		m.sizes[s] = 1 + b.sizes*rng.NormFloat64()
	}
	m.sizes[simSpoons[0]] = 1
	return m
}

// consistency is the true level, without ends, at x g powder per g liquid.
func (m *maker) consistency(x float64) float64 {
	v := math.Log(x * m.ratio)
	turned := v
	if m.bend != 0 { // the slope runs from one value to another, never backwards
		turned = v + m.bend*v*math.Abs(v)/(1+math.Abs(v))
	}
	return 5 + m.slope*turned
}

func (m *maker) look(x float64) float64 {
	z := m.consistency(x) + m.eye*m.rng.NormFloat64()
	if m.absent > 0 && m.rng.Float64() < m.absent {
		z += 3 * (2*m.rng.Float64() - 1)
	}
	return math.Min(math.Max(math.Round(z), 0), 7)
}

// scoop is what count level spoons really weigh.
func (m *maker) scoop(spoon string, count int) float64 {
	sum := 0.0
	for range max(count, 1) {
		sum += m.tspG * m.sizes[spoon] * teaspoons(spoon) * math.Max(1+m.scoops*m.rng.NormFloat64(), 0.5)
	}
	return sum
}

// profile is the powder as the maker knows it, with the trial set up.
func (b simulatedBench) profile(m *maker) model.Profile {
	p := model.Profile{Powder: model.Powder{Name: "simulated", Family: model.Other}}
	if b.family {
		var fit []model.Family
		for _, f := range model.Families()[:6] {
			if low, high := f.FirstRange(); m.ratio >= low && m.ratio <= high {
				fit = append(fit, f)
			}
		}
		if len(fit) > 0 {
			p.Powder.Family = fit[m.rng.IntN(len(fit))]
		}
	}
	// Masses as good as exact: every size weighed very often.
	for _, s := range simSpoons {
		l := model.LevelSpoon{Spoon: s, ResolutionG: 1e-6, Grams: slices.Repeat([]float64{m.tspG * teaspoons(s)}, 500)}
		p.LevelSpoons = append(p.LevelSpoons, l)
	}
	if b.weighings > 0 {
		l := model.LevelSpoon{Spoon: "1 tsp", ResolutionG: 0.01}
		for range b.weighings {
			l.Grams = append(l.Grams, math.Round(m.scoop("1 tsp", 1)*100)/100)
		}
		p.LevelSpoons = []model.LevelSpoon{l}
	}
	p.Trials = []model.Trial{{
		State: model.Open, Liquid: "water", LiquidG: 5, Spoons: simSpoons, Aim: 5, LevelStep: 1, Tolerance: b.tolerance,
	}}
	return p
}

// outcome is one finished trial.
type outcome struct {
	err       float64 // ln R estimated - ln R true
	covered   bool
	half      float64
	additions int
	bracketed bool
	given     bool // an estimate was given
}

const mostAdditions = 30

// advised plays a trial by the advice alone.
func (b simulatedBench) advised(n int) outcome {
	m := b.drawMaker(n)
	p := b.profile(m)
	t := &p.Trials[0]
	powder, liquid := 0.0, 5.0
	more := 0
	for len(t.Steps) < mostAdditions {
		r, err := bench.Read(p, *t, nil)
		if err != nil {
			panic(err)
		}
		a, ok := r.Advice()
		if !ok || a.Action == bench.ActStop {
			break
		}
		if a.Action == bench.ActWeigh {
			if b.weighings == 0 || more == 3 {
				break
			}
			more++
			for range 2 {
				p.LevelSpoons[0].Grams = append(p.LevelSpoons[0].Grams, math.Round(m.scoop("1 tsp", 1)*100)/100)
			}
			continue
		}
		step, _ := a.Step()
		if step.Add == model.AddLiquid {
			liquid += a.Grams
		} else {
			powder += m.scoop(step.Spoon, step.Count)
		}
		step.Looked, step.Level = true, m.look(powder/liquid)
		t.Steps = append(t.Steps, step)
	}
	return b.score(m, p)
}

// byHand plays a trial without advice: half teaspoons until it looks right,
// or, careful, halving the spoon once it thickens. The estimate is what the
// count of spoons says, which is what is done on paper.
func (b simulatedBench) byHand(n int, careful bool) outcome {
	m := b.drawMaker(n)
	b.profile(m)
	spoons := []string{"1/2 tsp"}
	if careful {
		spoons = []string{"1/2 tsp", "1/4 tsp"}
	}
	powder, counted, at, additions := 0.0, 0.0, 0, 0
	for additions < mostAdditions {
		powder += m.scoop(spoons[at], 1)
		counted += m.tspG * teaspoons(spoons[at])
		additions++
		y := m.look(powder / 5)
		if y >= 5 {
			break
		}
		if y >= 2 && at < len(spoons)-1 {
			at++
		}
	}
	return outcome{err: math.Log(5/counted) - math.Log(m.ratio), additions: additions, given: true}
}

// score compares the trial's answer with the truth.
func (b simulatedBench) score(m *maker, p model.Profile) outcome {
	r, err := bench.Read(p, p.Trials[0], nil)
	if err != nil {
		panic(err)
	}
	a := r.At(5)
	out := outcome{additions: len(p.Trials[0].Steps)}
	if a.Dish == nil {
		return out
	}
	iv := *a.Dish
	if b.weighings == 0 {
		iv = *a.Ratio // masses exact: the fit alone is judged
	}
	out.given, out.bracketed = true, a.Reach.String() == "bracketed"
	out.err = math.Log(iv.Median / m.ratio)
	out.covered = iv.Low <= m.ratio && m.ratio <= iv.High
	out.half = (math.Log(iv.High) - math.Log(iv.Low)) / 2
	return out
}

// report sums up many trials.
type report struct {
	trials                 int
	rms, bias              float64 // in ln R, of the trials with an estimate
	coverage               float64 // of the bracketed
	half                   float64 // median half-width
	additions              float64 // mean
	above14, most, ungiven int
}

func sumUp(outs []outcome) (r report) {
	var halves []float64
	given, bracketed, covered := 0, 0, 0
	for _, o := range outs {
		r.trials++
		r.additions += float64(o.additions)
		r.most = max(r.most, o.additions)
		if o.additions > 14 {
			r.above14++
		}
		if !o.given {
			r.ungiven++
			continue
		}
		given++
		r.rms += o.err * o.err
		r.bias += o.err
		halves = append(halves, o.half)
		if o.bracketed {
			bracketed++
			if o.covered {
				covered++
			}
		}
	}
	r.additions /= float64(r.trials)
	r.rms = math.Sqrt(r.rms / float64(given))
	r.bias /= float64(given)
	r.coverage = float64(covered) / math.Max(float64(bracketed), 1)
	slices.Sort(halves)
	if len(halves) > 0 {
		r.half = halves[len(halves)/2]
	}
	return r
}

// row is the report as a row of the table.
func (r report) row(name string) string {
	return fmt.Sprintf("| %-52s | %4.1f | %+5.1f | %5.1f | %5.1f | %5.2f | %3d | %5.1f |",
		name, 100*r.rms, 100*r.bias, 100*r.coverage, 100*r.half, r.additions, r.most, 100*float64(r.above14)/float64(r.trials))
}

func (b simulatedBench) play(n int, how func(n int) outcome) report {
	outs := make([]outcome, n)
	for i := range outs {
		outs[i] = how(i)
	}
	return sumUp(outs)
}

var simulated = flag.Int("trials", 40, "simulated trials for each row of the table")

func TestSimulatedBench(t *testing.T) {
	exact := simulatedBench{tolerance: 0.12, family: true}
	quick := simulatedBench{tolerance: 0.20, family: true}
	unknown := simulatedBench{tolerance: 0.12}
	// The section on masses takes scoops and spoon sizes to be this unsure.
	scooped := simulatedBench{tolerance: 0.12, family: true, scoops: 0.05, sizes: 0.05, weighings: 3}
	bent := scooped
	bent.bend = 0.3
	absent := bent
	absent.absent = 0.05
	rows := []struct {
		name string
		how  func(int) outcome
		b    simulatedBench
		most report // what it may come to at the most; coverage: at the least
	}{
		{"half spoons until it looks right", func(n int) outcome { return exact.byHand(n, false) }, exact, report{}},
		{"a careful hand: quarters once it thickens", func(n int) outcome { return exact.byHand(n, true) }, exact, report{}},
		{"advice, tolerance 0.12, masses exact", exact.advised, exact, report{rms: 0.05, additions: 5.5, coverage: 0.93}},
		{"advice, tolerance 0.20, masses exact", quick.advised, quick, report{rms: 0.07, additions: 3.9, coverage: 0.93}},
		{"advice, 0.12, family not known", unknown.advised, unknown, report{rms: 0.05, additions: 5.6, coverage: 0.93}},
		{"advice, 0.12, scoops and sizes 5 %, three weighings", scooped.advised, scooped, report{rms: 0.07, additions: 5.5, coverage: 0.93}},
		{"the same, thickening curves bent", bent.advised, bent, report{rms: 0.075, additions: 5.7, coverage: 0.90}},
		{"the same, one look in twenty absent-minded", absent.advised, absent, report{rms: 0.08, additions: 6, coverage: 0.90}},
	}
	// A short run strays: its root mean square by about 1/sqrt(2n) of itself,
	// its coverage by a few percent.
	stray := 1 + 3/math.Sqrt(2*float64(*simulated))
	t.Logf("\n| %-52s | %4s | %5s | %5s | %5s | %5s | %3s | %5s |", "played", "err", "bias", "cover", "half", "adds", "max", "> 14")
	for _, row := range rows {
		got := row.b.play(*simulated, row.how)
		t.Log(got.row(row.name))
		if row.most.rms == 0 {
			assert.Greater(t, got.rms, 0.15, "%s: counting spoons is no match", row.name)
			continue
		}
		assert.Less(t, got.rms, row.most.rms*stray, "%s: error", row.name)
		assert.Less(t, got.additions, row.most.additions*(1+0.3*(stray-1)), "%s: additions", row.name)
		assert.Greater(t, got.coverage, row.most.coverage-0.3*(stray-1), "%s: coverage", row.name)
		assert.LessOrEqual(t, got.most, 20, "%s: no trial runs away", row.name)
		assert.Zero(t, got.ungiven, "%s: every trial gives an estimate", row.name)
	}
	assert.Equal(t, exact.play(5, exact.advised), exact.play(5, exact.advised), "the same to the digit")
}
