package tui_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the golden frames")

// TestFrames holds what the screens look like. Each frame is paired with the
// facts that it is for: rewriting the goldens cannot lose them.
func TestFrames(t *testing.T) {
	frames := []struct {
		name  string
		keys  string
		facts []string
	}{
		{"shelf", "", []string{
			"▸ Barley · lot A7", "unfinished trial", "Enter goes on where it stopped", "2.61",
			"── Barley · lot A7",
		}},
		{"page", "p down down", []string{
			"Shelf › powder Barley", "▸ family ← flour", "fizzes not tested",
			"── level spoons", "── trials", "a archive",
		}},
		{"setup", "t", []string{
			"WHAT IS WEIGHED? 2 of 2", "g per level spoon ±", "Ctrl+G to the bench now",
			"Tab changes the rest: target 5 spread",
		}},
		{"setup-powder", "n Bar", []string{
			"WHICH POWDER? 1 of 2", "▸ name", "Tab Barley · lot A7",
			"Not on the shelf yet",
		}},
		{"setup-more", "t tab", []string{"▸ target level", "precision", "How thick the paste is wanted"}},
		{"result", "enter f enter", []string{
			"RESULT", "g per level teaspoon; the next dish",
			"for labels and recipes (1 trial)", "to judge the trial",
		}},
		{"help", "enter ?", []string{"The bench finds how much liquid", "any other key back"}},
	}
	sizes := [][2]int{{80, 24}, {120, 40}, {60, 20}, {50, 20}, {40, 12}}
	for _, f := range frames {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				shelf := drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6))
				d := drive.Start(t, shelf.Deps(), size[0], size[1]).Press(f.keys)
				shelf.Clock = shelf.Clock.Add(time.Hour)
				got := d.Frame()
				for _, fact := range f.facts {
					if size[0] >= 80 {
						assert.Contains(t, drive.Flat(got), fact)
					}
				}
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
	want, err := os.ReadFile(file)
	require.NoError(t, err, "go test ./tui -update makes it")
	assert.Equal(t, string(want), got)
}

// placeSizes are the windows in which shelf, comparison and kitchen must serve.
var placeSizes = [][2]int{{80, 24}, {120, 40}, {60, 20}, {50, 20}, {40, 12}}

// inCorner are the facts that stand in sight even in the smallest window.
var inCorner = map[string]string{
	"shelf-marked": "▸*Rye", "compare": "g liquid per g", "compare-refused": "! NOT COMPARED with A: B.",
	"kitchen": "▸ Batch", "batch": "▸", "swap": "▸ its powder, g", "mix": "▸", "spoons": "▸ amount",
	"recipes": "▸ Oat mask", "recipe": "! Not saved: total now 40.00 g.", "recipe-edit": "▸ total, g 300",
	"recipe-save": "▸ Save over", "recipe-swap": "▸ take rye", "recipe-name": "▸ Its new name",
	"compare-help": "side by side",
}

func TestPlacesInFrames(t *testing.T) {
	frames := []struct {
		name, keys string
		facts      []string
	}{
		{"compare-help", drive.ToCompare + " ?", []string{"side by side", "In the chart:", "gram for gram|Gram for gram"}},
		{"shelf-marked", "down space down space", []string{"▸*Rye", "* 2 marked: Oat, Rye", "c compare", "k kitchen"}},
		{"compare", drive.ToCompare, []string{"against A Oat", "×A per g", "B: Rye takes", "Esc shelf"}},
		{"compare-refused", "down space down down down space c", []string{"! NOT COMPARED with A: B.", "not drawn"}},
		{"kitchen", "k", []string{"▸ Batch", "Nothing here changes a profile"}},
		{"batch", drive.ToBatch + " down down 120 down 60", []string{
			"! 120.0 g is too much for the jar",
			"water into the bowl; keep", "Ctrl+S save as a recipe", "Not saved",
		}},
		{
			"swap", "down space down space k down enter down down down 10",
			[]string{"For 10.00 g of Oat", "Can it stand in?"},
		},
		{
			"mix", "down space down space k down down enter",
			[]string{"! A first estimate", "Ctrl+T make a trial of the mix"},
		},
		{"spoons", "down k down down down enter down 12.5", []string{"12.50 g is", "that rounding"}},
		{"recipes", "k up enter", []string{"▸ Oat mask", "Enter open"}},
		{"recipe", drive.ToRecipe + " t 40 enter", []string{
			"! Not saved: total now 40.00 g.",
			"Makes 40.00 g at 5 spread", "Ctrl+S save",
		}},
		{"recipe-edit", drive.ToRecipe + " e 300", []string{
			"▸ total, g 300", "before",
			"Ctrl+G take it into the recipe",
		}},
		{"recipe-save", drive.ToRecipe + " t 40 enter ctrl+s", []string{"▸ Save over", "before", "after"}},
		{
			"recipe-swap", drive.ToRecipe + " s rye",
			[]string{"take rye", "before", "keep the total to make as much as before"},
		},
		{"recipe-name", drive.ToRecipe + " n", []string{"▸ Its new name", "Esc never mind"}},
	}
	for _, f := range frames {
		for _, size := range placeSizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				got := drive.Start(t, drive.Pantry().Deps(), size[0], size[1]).Press(f.keys).Frame()
				assert.True(t, holds(got, inCorner[f.name]), "%q is not in sight:\n%s", inCorner[f.name], got)
				for _, fact := range f.facts {
					if size[0] >= 80 {
						assert.True(t, holds(got, fact), "%q is not in sight:\n%s", fact, got)
					}
				}
				golden(t, name, got)
			})
		}
	}
}
