package model_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// A simulated bench: makers with a known truth play whole trials. It knows
// nothing of the fit; what it returns is compared with the truth.

// maker is one maker with one powder.
type maker struct {
	ratio  float64 // truth, g liquid per g powder at level 5
	slope  float64 // levels per e-fold of powder per liquid
	bend   float64 // relative change of the slope per e-fold away from level 5; 0 is straight
	eye    float64 // SD of a look, levels
	tspG   float64 // g per level teaspoon
	scoops float64 // relative SD of a scoop
	absent float64 // chance of a look made absent-mindedly
	rng    *rand.Rand
}

// bench is what makers are drawn from and how their trials are set up.
type bench struct {
	bend, scoops, absent float64
	weighings            int // 0: the spoon weight is known exactly
	tolerance            float64
	family               bool // the maker knows the powder's family
}

var simSpoons = []string{"1 tsp", "1/2 tsp", "1/4 tsp", "1/8 tsp", "1/16 tsp"}

func teaspoons(spoon string) float64 {
	return map[string]float64{"1 tsp": 1, "1/2 tsp": 0.5, "1/4 tsp": 0.25, "1/8 tsp": 0.125, "1/16 tsp": 0.0625}[spoon]
}

// drawMaker draws the maker of trial n; the same n is the same maker.
func (b bench) drawMaker(n int) *maker {
	rng := rand.New(rand.NewPCG(20260501, uint64(n)))
	between := func(low, high float64) float64 { return math.Exp(math.Log(low) + rng.Float64()*math.Log(high/low)) }
	return &maker{
		ratio: between(0.4, 7), slope: 6 * math.Exp(0.3*rng.NormFloat64()), eye: 0.4 * math.Exp(0.2*rng.NormFloat64()),
		tspG: between(1.2, 5), bend: b.bend * rng.NormFloat64(), scoops: b.scoops, absent: b.absent, rng: rng,
	}
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
		sum += m.tspG * teaspoons(spoon) * math.Max(1+m.scoops*m.rng.NormFloat64(), 0.5)
	}
	return sum
}

// profile is the powder as the maker knows it, with the trial set up.
func (b bench) profile(m *maker) model.Profile {
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
func (b bench) advised(n int) outcome {
	m := b.drawMaker(n)
	p := b.profile(m)
	t := &p.Trials[0]
	powder, liquid := 0.0, 5.0
	more := 0
	for len(t.Steps) < mostAdditions {
		r, err := model.Read(p, *t, nil)
		if err != nil {
			panic(err)
		}
		a, ok := r.Advice()
		if !ok || a.Action == model.ActStop {
			break
		}
		if a.Action == model.ActWeigh {
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
func (b bench) byHand(n int, careful bool) outcome {
	m := b.drawMaker(n)
	b.profile(m)
	spoons := []string{"1/2 tsp"}
	if careful {
		spoons = []string{"1/2 tsp", "1/4 tsp", "1/8 tsp", "1/16 tsp"}
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
func (b bench) score(m *maker, p model.Profile) outcome {
	r, err := model.Read(p, p.Trials[0], nil)
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
	trials               int
	rms, bias            float64 // in ln R, of the trials with an estimate
	coverage             float64 // of the bracketed
	half                 float64 // median half-width
	additions            float64 // mean
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

func (r report) String() string {
	return fmt.Sprintf("%5d trials  error %5.1f %%  bias %+5.1f %%  coverage %5.1f %%  half-width %5.1f %%  additions %4.2f (most %d, above 14: %d)  without estimate %d",
		r.trials, 100*r.rms, 100*r.bias, 100*r.coverage, 100*r.half, r.additions, r.most, r.above14, r.ungiven)
}

func (b bench) play(n int, how func(n int) outcome) report {
	outs := make([]outcome, n)
	for i := range outs {
		outs[i] = how(i)
	}
	return sumUp(outs)
}

var _ = strings.Repeat
