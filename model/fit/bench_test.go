package fit

import (
	"math"
	"testing"
)

// thirty are looks at thirty different compositions.
func thirty() Data {
	d := Data{LevelStep: 1}
	for i := range 30 {
		u := math.Log(0.1) + 0.09*float64(i)
		z := 5 + 6*(u-math.Log(0.55)) + 0.4*math.Sin(float64(7*i))
		d.Looks = append(d.Looks, Look{math.Exp(u), math.Round(max(0, min(7, z)))})
	}
	return d
}

// What a look at the bench costs: every level, and the far-out looks.
func BenchmarkRefit30Looks(b *testing.B) {
	d := thirty()
	b.ReportAllocs()
	for b.Loop() {
		Levels(d, allLevels)
		FarOut(d, 5)
	}
}

func BenchmarkLevels30Looks(b *testing.B) {
	d := thirty()
	b.ReportAllocs()
	for b.Loop() {
		Levels(d, allLevels)
	}
}

func BenchmarkFarOut30Looks(b *testing.B) {
	d := thirty()
	b.ReportAllocs()
	for b.Loop() {
		FarOut(d, 5)
	}
}

func BenchmarkAt(b *testing.B) {
	d := data(1, []float64{0.1, 0.2, 0.3, 0.4, 0.5}, []float64{0, 1, 3, 4, 5})
	b.ReportAllocs()
	for b.Loop() {
		At(d, 5)
	}
}

// The first fit of a program, tables and all.
func BenchmarkFirstFit(b *testing.B) {
	d := thirty()
	b.ReportAllocs()
	for b.Loop() {
		tables.Lock()
		clear(tables.of)
		tables.Unlock()
		Levels(d, allLevels)
	}
}

func BenchmarkCombine(b *testing.B) {
	trials := repeats([]float64{0.62, 0.7, 0.55, 0.66, 0.81}, []float64{0.06, 0.09, 0.05, 0.12, 0.07})
	b.ReportAllocs()
	for b.Loop() {
		Combine(trials, 0.05)
	}
}
