package data

import (
	"fmt"
	"os"
	"testing"
	"time"

	"daub.example/daub/data/record"
	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

// benchProfile has n done trials of eight looks.
func benchProfile(n int) model.Profile {
	p := profile("Bench powder", "1")
	p.Powder.Family = model.Flour
	p.LevelSpoons = []model.LevelSpoon{{Spoon: "1 tsp", Grams: []float64{2.31, 2.27, 2.35}}}
	for i := range n {
		t := model.Trial{
			Started: time.Date(2026, 5, 1+i, 9, 0, 0, 0, time.UTC), State: model.Done, Liquid: "water", LiquidG: 20,
			SpoonSet: model.US, Spoons: model.DefaultSpoons(), Aim: 5, LevelStep: 1,
		}
		for level := range 8 {
			rested := 120
			t.Steps = append(t.Steps, model.Step{
				At: t.Started.Add(time.Duration(level*3) * time.Minute), Add: model.AddPowder, Spoon: "1/2 tsp",
				Count:  1 + i%2,
				Looked: true, Level: float64(min(level, 6)), RestedS: &rested, Marks: []string{"sinks"},
			})
		}
		p.Trials = append(p.Trials, t)
	}
	return p
}

func BenchmarkDecode(b *testing.B) {
	for _, n := range []int{1, 10, 100} {
		text, err := record.Encode(benchProfile(n), nil, nil)
		require.NoError(b, err)
		b.Run(fmt.Sprint(n, " trials"), func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := record.Decode("x", text, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkEncode(b *testing.B) {
	for _, n := range []int{1, 10, 100} {
		p := benchProfile(n)
		old, err := record.Encode(p, nil, nil)
		require.NoError(b, err)
		old = append([]byte("# mine\n"), old...)
		b.Run(fmt.Sprint(n, " trials"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := record.Encode(p, nil, old); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkList(b *testing.B) {
	for _, n := range []int{10, 100, 1000} {
		s := newShelf(b)
		text, err := record.Encode(benchProfile(3), nil, nil)
		require.NoError(b, err)
		save(b, s, "Alpha", "")
		for i := range n - 1 {
			require.NoError(b, os.WriteFile(powders.path(s, fmt.Sprint("p", i)), text, 0o644))
		}
		b.Run(fmt.Sprint(n, " profiles"), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if entries, errs := s.List(); len(entries) != n || errs != nil {
					b.Fatal(len(entries), errs)
				}
			}
		})
	}
}
