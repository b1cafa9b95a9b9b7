package bench_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
)

// maker is one maker with one powder.
type maker struct {
	ratio  float64            // truth, g liquid per g powder at level 5
	slope  float64            // levels per e-fold of powder per liquid
	bend   float64            // relative change of the slope per e-fold away from level 5; 0 is straight
	eye    float64            // SD of a look, levels
	tspG   float64            // g per level teaspoon
	scoops float64            // relative SD of a scoop
	absent float64            // chance of a look made absent-mindedly
	step   float64            // to which a look is rounded, levels
	sizes  map[string]float64 // true size of a spoon over its name's
	rng    *rand.Rand
	taken  float64 // g, out of the pot so far
}

// simulatedBench sets how makers are drawn and how their trials are set up.
type simulatedBench struct {
	bend, scoops, absent float64
	sizes                float64 // relative SD of the size of every spoon but the one weighed
	weighings            int     // 0: the spoon weight is known exactly
	tolerance            float64
	family               bool    // the maker knows the powder's family
	halves               bool    // looks are to half levels
	known                bool    // a trial of the powder is on the shelf already
	pot                  bool    // the pot is weighed at the start and when that is asked for
	days                 float64 // relative SD of a dish's truth around the powder's
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
	m.step = 1
	if b.halves {
		m.step = 0.5
	}
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
	return math.Min(math.Max(math.Round(z/m.step)*m.step, 0), 7)
}

// scoop draws the true weight of count level spoons, g.
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
	if b.pot {
		p.LevelSpoons = nil
	}
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

// open begins one more trial of the profile.
func (b simulatedBench) open(m *maker, p *model.Profile) *model.Trial {
	t := model.Trial{
		Started: time.Date(2026, 5, 1+len(p.Trials), 9, 0, 0, 0, time.UTC),
		State:   model.Open, Liquid: "water", LiquidG: 5, Spoons: simSpoons, Aim: 5, LevelStep: m.step,
		Tolerance: b.tolerance,
	}
	if b.pot {
		t.PotG = 150
	}
	p.Trials = append(p.Trials, t)
	return &p.Trials[len(p.Trials)-1]
}

// advised plays a trial by the advice alone, after one that is on the shelf
// where the powder is known.
func (b simulatedBench) advised(n int) outcome {
	m := b.drawMaker(n)
	p := b.profile(m)
	if b.known {
		b.trial(m, &p, nil)
		p.Trials[0].State = model.Done
	}
	b.trial(m, &p, repeats.Steering(p.Powder, []model.Profile{p}, nil))
	return b.score(m, p, 5)
}

// trial plays one trial by the advice.
func (b simulatedBench) trial(m *maker, p *model.Profile, steer bench.Steering) {
	t := b.open(m, p)
	day := *m
	day.ratio *= math.Exp(b.days * m.rng.NormFloat64())
	powder, liquid := 0.0, 5.0
	more := 0
	for len(t.Steps) < mostAdditions {
		r, err := bench.Read(*p, *t, nil)
		if err != nil {
			panic(err)
		}
		if steer != nil {
			r.Known = steer(*t)
		}
		a, ok := r.Advice()
		if !ok || a.Action == bench.ActStop {
			break
		}
		if a.Pot {
			t.Steps[len(t.Steps)-1].PotG = math.Round((150-m.taken)*100) / 100
			continue
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
			grams := m.scoop(step.Spoon, step.Count)
			powder += grams
			m.taken += grams
		}
		step.Looked, step.Level = true, day.look(powder/liquid)
		t.Steps = append(t.Steps, step)
	}
}

// byHand plays a trial without advice: half teaspoons until it looks right, or, careful,
// halving the spoon once it thickens. The estimate is the count of spoons, as worked out on
// paper.
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

// score compares the answer of the last trial at a level with the truth.
func (b simulatedBench) score(m *maker, p model.Profile, level float64) outcome {
	t := p.Trials[len(p.Trials)-1]
	r, err := bench.Read(p, t, nil)
	if err != nil {
		panic(err)
	}
	a := r.At(level)
	out := outcome{additions: len(t.Steps)}
	if a.Dish == nil {
		return out
	}
	iv := *a.Dish
	if b.weighings == 0 && !b.pot {
		iv = *a.Ratio // masses exact: the fit alone is judged
	}
	return out.against(m.at(level), iv, a.Reach)
}

// against compares an interval with the truth.
func (o outcome) against(truth float64, iv fit.Interval, reach fit.Reach) outcome {
	o.given, o.bracketed = true, reach == fit.Bracketed
	o.err = math.Log(iv.Median / truth)
	o.covered = iv.Low <= truth && truth <= iv.High
	o.half = (math.Log(iv.High) - math.Log(iv.Low)) / 2
	return o
}

// at is the true ratio at a level, found by halving.
func (m *maker) at(level float64) float64 {
	low, high := m.ratio/100, m.ratio*100
	for range 60 {
		mid := math.Sqrt(low * high)
		if m.consistency(1/mid) > level {
			low = mid
		} else {
			high = mid
		}
	}
	return math.Sqrt(low * high)
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
		name, 100*r.rms, 100*r.bias, 100*r.coverage, 100*r.half, r.additions, r.most,
		100*float64(r.above14)/float64(r.trials))
}

func play(n int, how func(n int) outcome) report {
	outs := make([]outcome, n)
	for i := range outs {
		outs[i] = how(i)
	}
	return sumUp(outs)
}
