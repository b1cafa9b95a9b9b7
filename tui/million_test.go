package tui_test

import (
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"runtime"
	"slices"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/tui/internal/drive"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"
)

var randomKeys = flag.Int("keys", 1000, "keys that TestRandomKeysKeepMemoryFlat presses")

// TestRandomKeysKeepMemoryFlat presses random keys, pastes and resizes the window
// from 20×5 to 300×100. Nothing breaks, and what was saved is sound. Memory between
// runs of 500 keys stays bounded: screens keep nothing, and the fits remembered for
// them take some 30 MB at most.
//
//	nice -n 19 go test ./tui -run TestRandomKeys -v -timeout 8h -keys 1000000
func TestRandomKeysKeepMemoryFlat(t *testing.T) {
	names := slices.Sorted(maps.Keys(drive.NamedKeys))
	names = slices.DeleteFunc(names, func(n string) bool { return n == "ctrl+c" })
	for r := '!'; r <= '~'; r++ {
		names = append(names, string(r), "alt+"+string(r))
	}
	pastes := []string{"2.5", "rye\nflour\t1/2 tsp", "żółć 粉 👩‍🍳\u202e\x1b[2J\x9b", strings.Repeat("long ", 2000)}
	places := slices.Sorted(maps.Values(drive.Situations))
	var first, peak, end uint64
	random := rand.New(rand.NewPCG(1, 2))
	for pressed := 0; pressed < *randomKeys; pressed += 500 {
		shelf := drive.Pantry()
		d := drive.Start(t, shelf.Deps(), 80, 24).Press(places[random.IntN(len(places))])
		for range 500 {
			switch random.IntN(40) {
			case 0:
				d.Resize(20+random.IntN(281), 5+random.IntN(96))
			case 1:
				text := []rune(pastes[random.IntN(len(pastes))])
				d.Send(tea.KeyMsg{Type: tea.KeyRunes, Runes: text, Paste: true})
			default:
				d.Send(drive.Key(names[random.IntN(len(names))]))
			}
			if random.IntN(10) == 0 {
				d.Frame()
			}
			if d.Quit {
				d = drive.Start(t, shelf.Deps(), 80, 24)
			}
		}
		require.NoError(t, d.App.Fault())
		for _, e := range shelf.Entries {
			require.Empty(t, bench.Check(e.Profile, nil))
		}
		d, shelf = nil, nil
		runtime.GC()
		var held runtime.MemStats
		runtime.ReadMemStats(&held)
		if end = held.HeapAlloc; first == 0 {
			first = end
		}
		peak = max(peak, end)
	}
	t.Logf("%d keys; held %d kB after the first 500, %d kB at the end, %d kB at most", *randomKeys,
		first>>10, end>>10, peak>>10)
	require.Less(t, peak, first+40<<20)
}

// BenchmarkStepOfMany makes one step with its look and frame in a trial that has
// many.
func BenchmarkStepOfMany(b *testing.B) {
	for _, n := range []int{10, 100, 500} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			p := drive.Pantry().Entries[0].Profile
			steps := make([]model.Step, n)
			for i := range steps {
				steps[i] = model.Step{Add: model.AddPowder, Grams: 0.01, Looked: true, Level: float64(i * 6 / n)}
			}
			p.Trials[len(p.Trials)-1].Steps, p.Trials[len(p.Trials)-1].State = steps, model.Open
			d := drive.Start(b, drive.NewShelf(p).Deps(), 120, 40).Press("enter")
			require.Contains(b, d.Frame(), "bench")
			for b.Loop() {
				d.Press("k 3")
				d.Frame()
				d.Press("u")
			}
		})
	}
}
