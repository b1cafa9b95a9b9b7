package tui_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden frames")

// sizes are windows in which every screen must work, from a corner to a full
// screen.
var sizes = [][2]int{{80, 24}, {120, 40}, {60, 20}, {50, 20}, {40, 12}}

// facts are the texts that a frame must show, whatever its golden file says. Texts
// parted by | are alternatives.
type facts struct {
	corner []string // shown in every window, 40×12 too
	small  []string // from 50×20 on
	roomy  []string // from 80×24 on
}

// hold checks that the facts are shown in a window of so many columns.
func (f facts) hold(t *testing.T, frame string, columns int) {
	t.Helper()
	require.NotEmpty(t, f.corner, "a frame without facts")
	wanted := f.corner
	if columns >= 50 {
		wanted = slices.Concat(wanted, f.small)
	}
	if columns >= 80 {
		wanted = slices.Concat(wanted, f.roomy)
	}
	for _, fact := range wanted {
		assert.True(t, holds(frame, fact), "%q is not in sight:\n%s", fact, frame)
	}
}

// holds reports whether a frame has one of the texts parted by |, on a line or
// wrapped.
func holds(frame, fact string) bool {
	for _, text := range strings.Split(fact, "|") {
		if strings.Contains(frame, text) || strings.Contains(drive.Flat(frame), text) {
			return true
		}
	}
	return false
}

// TestFrames holds the frames of the screens.
func TestFrames(t *testing.T) {
	frames := []struct {
		name string
		keys string
		facts
	}{
		{"shelf", "", facts{
			[]string{"▸ Barley", "unfinished trial", "Enter goes on where it stopped", "── Barley · lot A7"},
			[]string{"▸ Barley · lot A7", "t new trial"},
			[]string{"2.61"},
		}},
		{"page", "p down down", facts{
			[]string{
				"Shelf › powder", "▸ family ← flour", "flour: milled grain, seed or pulse",
				"Not sure? Say so.", "u undo",
			},
			[]string{"fizzes not tested", "── level spoons", "── trials"},
			[]string{"a archive"},
		}},
		{"setup", "t", facts{
			[]string{"WHAT IS WEIGHED? 2 of 2", "▸ 2 (x) level spoons weighed|▸ 2.61 g", "Enter next"},
			[]string{"± 0.16 g a spoon", "Tab more settings"},
			[]string{"Ctrl+G to the bench now", "More settings (Tab): target 5 spread"},
		}},
		{"setup-powder", "n Bar", facts{
			[]string{
				"WHICH POWDER? 1 of 2", "▸ name", "Barley · lot A7",
				"Tab take it from the shelf", "Not saved yet",
			},
			[]string{"Tab Barley · lot A7"},
			nil,
		}},
		{"setup-family", "n X enter enter right", facts{
			[]string{"▸ family ← plain-clay →", "You look after"},
			nil,
			[]string{
				"▸ plain-clay clay that does not swell",
				"swelling-clay",
				"botanical ground leaf",
				"other anything",
			},
		}},
		{"setup-more", "t tab", facts{
			[]string{"▸ target level", "How thick the paste is wanted", "Tab fewer settings", "Begin the trial"},
			[]string{"precision"},
			nil,
		}},
		{"result", "enter f enter", facts{
			[]string{"RESULT", "g water per level tsp, weighing 2.61 g)", "5▸", "b back to the bench"},
			[]string{"to write down; a second trial narrows it", "of this one dish only"},
			nil,
		}},
		{"help", "enter ?", facts{
			[]string{"The bench finds how much liquid", "any other key back"},
			[]string{"the arrows choose another spoon"},
			nil,
		}},
	}
	for _, f := range frames {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				shelf := drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6))
				d := drive.Start(t, shelf.Deps(), size[0], size[1]).Press(f.keys)
				shelf.Clock = shelf.Clock.Add(time.Hour)
				got := d.Frame()
				f.hold(t, got, size[0])
				golden(t, name, got)
			})
		}
	}
}

func golden(t *testing.T, name, got string) {
	lines := strings.Split(got, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	got = strings.Join(lines, "\n") + "\n"
	file := filepath.Join("..", "testdata", "frames", name+".txt")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	assert.NotContains(t, got, "… …", "what is cut is cut once")
	want, err := os.ReadFile(file)
	require.NoError(t, err, "go test ./tui -update makes it")
	assert.Equal(t, string(want), got)
}

func TestPlacesInFrames(t *testing.T) {
	frames := []struct {
		name, keys string
		facts
	}{
		{"compare-help", drive.ToCompare + " ?", facts{
			[]string{"side by side"}, []string{"gram for gram|Gram for gram"}, []string{"In the chart:"},
		}},
		{"shelf-marked", "down space down space", facts{
			[]string{"▸*Rye", "* 2 marked: Oat, Rye"}, []string{"c compare"}, []string{"k kitchen"},
		}},
		{"compare", drive.ToCompare, facts{
			[]string{"g liquid per g", "against A Oat", "B: Rye takes"}, []string{"Esc shelf"}, []string{"times A"},
		}},
		{"compare-refused", "down space down down down space c", facts{
			[]string{"! NOT COMPARED with A: B."}, nil, []string{"not drawn"},
		}},
		{"kitchen", "k", facts{[]string{"▸ Batch", "Recipes"}, nil, []string{"Nothing here changes a powder"}}},
		{"batch", drive.ToBatch + " down down 120 down 60", facts{
			[]string{"▸", "Ctrl+S save as a recipe", "Not saved"},
			[]string{"! 120.0 g is too much for the jar"},
			[]string{"water into the bowl; keep"},
		}},
		{"swap", "down space down space k down enter down down down 10", facts{
			[]string{"▸ old powder, g", "takes the"}, nil, []string{"How the two compare"},
		}},
		{"swap-choose", "down space k down enter", facts{
			[]string{"▸ new powder", "Ctrl+R"}, []string{"What could take its place"}, []string{"Rye"},
		}},
		{"mix", "down space down space k down down enter", facts{
			[]string{"▸", "Ctrl+T make a trial of the mix"}, []string{"! A first estimate"}, nil,
		}},
		{"spoons", "down k down down down enter down 12.5", facts{
			[]string{"▸ amount", "12.50 g is"}, []string{"that rounding"}, nil,
		}},
		{"recipes", "k up enter", facts{[]string{"▸ Oat mask", "Enter open"}, nil, nil}},
		{"recipe", drive.ToRecipe + " t 40 enter", facts{
			[]string{"! Not saved: total now 40.00 g.", "Makes 40.00 g at 5 spread", "Ctrl+S save"}, nil, nil,
		}},
		{"recipe-edit", drive.ToRecipe + " e 300", facts{
			[]string{"▸ total, g 300", "before", "Ctrl+G take it into the recipe"}, nil, nil,
		}},
		{"recipe-save", drive.ToRecipe + " t 40 enter ctrl+s", facts{
			[]string{"▸ Save over", "before", "after"}, nil, nil,
		}},
		{"recipe-swap", drive.ToRecipe + " s rye", facts{
			[]string{"▸ new powder rye", "before", "keep the total to make as much as before"}, nil, nil,
		}},
		{"recipe-name", drive.ToRecipe + " n", facts{[]string{"▸ Its new name", "Esc back"}, nil, nil}},
	}
	for _, f := range frames {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				got := drive.Start(t, drive.Pantry().Deps(), size[0], size[1]).Press(f.keys).Frame()
				f.hold(t, got, size[0])
				golden(t, name, got)
			})
		}
	}
}
