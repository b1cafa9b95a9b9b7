package tui

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

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
		{"shelf", "", []string{"▸ Barley · lot A7", "unfinished trial", "Enter goes on where it stopped", "2.61"}},
		{"setup", "t", []string{"Trial › set-up", "g per level spoon ±", "Ctrl+G to the bench now", "On the shelf"}},
		{"bench-add", "enter", []string{"▸ Add", "likely comes back to", "Enter take the advice", "u undo", "f finish", "saved", "aim 5 spread"}},
		{"bench-look", "enter enter", []string{"▸ Look: stir ten turns, rest 2 min more", "5 spread", "0-7 the level seen"}},
		{"bench-marks", "enter m", []string{"Marks of step 6", "[ ] sinks", "Space seen or not"}},
		{"bench-mend", "enter e up up", []string{"Mending step 4", "Del remove the step"}},
		{"result", "enter f", []string{"This dish.", "This powder.", "bracketed", "The interval at 5 spread is ±"}},
		{"help", "enter ?", []string{"set aside", "crumbly", "any other key back"}},
	}
	sizes := [][2]int{{80, 24}, {120, 40}, {50, 20}}
	for _, f := range frames {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				shelf := newFake(barley(0, 1, 2, 4, 4, 6))
				d := drive(t, shelf.deps(), size[0], size[1]).press(f.keys)
				shelf.now = shelf.now.Add(time.Hour)
				got := d.frame()
				for _, fact := range f.facts {
					if size[0] >= 80 {
						assert.Contains(t, flat(got), fact)
					}
				}
				golden(t, name, got)
			})
		}
	}
}

// flat is a frame as one line, so that a fact may be wrapped.
func flat(frame string) string { return strings.Join(strings.Fields(frame), " ") }

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
