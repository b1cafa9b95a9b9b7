package fit

import (
	"math"
	"testing"
)

// looks makes looks at n different compositions.
func looks(n int) Data {
	d := Data{LevelStep: 1}
	for i := range n {
		u := math.Log(0.1) + 2.7/float64(n)*float64(i)
		z := 5 + 6*(u-math.Log(0.55)) + 0.4*math.Sin(float64(7*i))
		d.Looks = append(d.Looks, Look{math.Exp(u), math.Round(max(0, min(7, z)))})
	}
	return d
}

func BenchmarkLevels30Looks(b *testing.B) {
	d := looks(30)
	b.ReportAllocs()
	for b.Loop() {
		forget()
		Levels(d, allLevels)
	}
}

func BenchmarkLevels5Looks(b *testing.B) {
	d := looks(5)
	b.ReportAllocs()
	for b.Loop() {
		forget()
		Levels(d, allLevels)
	}
}

func BenchmarkLevels1Look(b *testing.B) {
	d := looks(1)
	b.ReportAllocs()
	for b.Loop() {
		forget()
		Levels(d, allLevels)
	}
}

func BenchmarkFarOut30Looks(b *testing.B) {
	p := Solve(looks(30))
	b.ReportAllocs()
	for b.Loop() {
		p.findFarOut()
	}
}

func BenchmarkOutlooks30(b *testing.B) {
	p := Solve(looks(10))
	xs := make([]float64, 30)
	for i := range xs {
		xs[i] = 0.3 + 0.02*float64(i)
	}
	b.ReportAllocs()
	for b.Loop() {
		p.outlooks = memo[question, Outlook]{most: p.outlooks.most}
		p.Outlooks(5, xs, Expected{Low: 0.4, High: 1.6})
	}
}

// The first fit of a program, tables and all.
func BenchmarkFirstFit(b *testing.B) {
	d := looks(5)
	b.ReportAllocs()
	for b.Loop() {
		forget()
		tables.Lock()
		clear(tables.of)
		tables.Unlock()
		Levels(d, allLevels)
	}
}

// Three trials with 24 looks, from the looks to every level.
func BenchmarkPowder(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		forget()
		var trials []Trial
		for _, shift := range []float64{1, 1.05, 0.97} {
			d := looks(8)
			for i := range d.Looks {
				d.Looks[i].PowderPerLiquid *= shift
			}
			trials = append(trials, Trial{Solve(d), 0.04})
		}
		p := Pool(trials)
		for _, level := range allLevels {
			p.Ratio(level)
			p.Next(level)
		}
	}
}

func BenchmarkCombine(b *testing.B) {
	trials := repeats([]float64{0.62, 0.7, 0.55, 0.66, 0.81}, []float64{0.06, 0.09, 0.05, 0.12, 0.07})
	b.ReportAllocs()
	for b.Loop() {
		combined(trials, 0.05, BetweenTrials)
	}
}
