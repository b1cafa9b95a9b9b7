package tui_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// benchSizes are the windows in which the bench must serve, from a full screen
// to a corner.
var benchSizes = [][2]int{{80, 24}, {120, 40}, {60, 20}, {40, 12}}

// TestBenchFrames holds what the bench looks like. The facts of always are in
// sight in every window, those of roomy from 80×24 on.
func TestBenchFrames(t *testing.T) {
	frames := []struct {
		name, keys    string
		always, roomy []string
	}{
		{
			"bench-add", "enter",
			[]string{"ADD", "1/4 tsp water", "[5◂]", "5.68", "u undo"},
			[]string{"likely comes back to", "Enter add 1/4 tsp water", "saved", "target 5", "6 1/4 tsp", "stiff"},
		},
		{
			"bench-look", "enter enter",
			[]string{
				"LOOK", "█▀█|██  ██", "0 watery|0  watery", "7 crumbly|7  crumbly", "5 spread◂|◂ target|◂",
				"u undo",
			},
			[]string{
				"stir ten turns", "keeps a line|keeps a drawn line", "0-7 level", "Space: starts now",
				"7 1/4 tsp liquid",
			},
		},
		{
			"bench-own", "enter l right up up",
			[]string{"ADD", "3 × 1/4 tsp powder", "[7]"},
			[]string{"almost every time beyond 6", "advised: 1/4 tsp water (Esc takes it)"},
		},
		{
			"bench-sure", "enter l left left up up enter",
			[]string{"SURE?", "3 × 1 tsp: almost every time beyond 6.", "Enter: add it all the same, Esc: go back"},
			nil,
		},
		{
			"bench-early", "enter enter 3",
			[]string{"0 s of 2 min: record 3 as early? Enter", "0 watery|0  watery", "crumbly", "Esc wait"},
			[]string{"SURE?", "Enter: yes, Esc: wait"},
		},
		{
			"bench-seen", "enter m s b",
			[]string{"SEEN", "h hardens when stirred", "s sinks", "t settles"},
			[]string{"[x] s sinks", "sets like jelly"},
		},
		{
			"bench-mend", "enter e up up",
			[]string{"MEND", "step 4 of 6", "1/4 tsp powder", "4 dollop, after 2 min", "u undo"},
			[]string{"▸  4 1/4 tsp", "Ins insert"},
		},
		{
			"bench-change", "enter c",
			[]string{"CHANGE", "▸ Target level   5"},
			[]string{"Precision      ±12 %", "Starting with  20 g"},
		},
		{"bench-grams", "enter l g", []string{"▸ grams of powder added", "Esc"}, []string{"Enter keeps it"}},
		{
			"bench-more", "enter i",
			[]string{"Statistics", "At 5 spread this dish takes"},
			[]string{"The readings alone give", "you wanted ±12 %"},
		},
	}
	for _, f := range frames {
		for _, size := range benchSizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6)).Deps(), size[0],
					size[1]).Press(f.keys)
				got := d.Frame()
				facts := f.always
				if size[0] >= 80 {
					facts = append(facts, f.roomy...)
				}
				for _, fact := range facts {
					assert.True(t, holds(got, fact), "%q is not in sight:\n%s", fact, got)
				}
				golden(t, name, got)
			})
		}
	}
}

// holds reports whether a frame has one of some texts parted by |, as a line
// or wrapped.
func holds(frame, fact string) bool {
	for _, text := range strings.Split(fact, "|") {
		if strings.Contains(frame, text) || strings.Contains(drive.Flat(frame), text) {
			return true
		}
	}
	return false
}

// TestBenchBandsNeverJump holds the rows of the dish, the answer and the steps
// through every state of the bench.
func TestBenchBandsNeverJump(t *testing.T) {
	row := func(frame, text string) int {
		for i, line := range strings.Split(frame, "\n") {
			if strings.Contains(line, text) {
				return i
			}
		}
		return -1
	}
	for _, size := range benchSizes {
		for _, keys := range []string{
			"", "enter", "right", "right up", "enter a", "m", "e", "e up", "g", "c", "w",
			"f", "enter 3", "n",
		} {
			d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6)).Deps(), size[0], size[1]).Press("enter")
			dish, answer := row(d.Frame(), "g powder, "), row(d.Frame(), "5.68")
			if size[1] == 12 {
				dish, answer = row(d.Frame(), "ratio "), row(d.Frame(), "at 5")
			}
			require.Positive(t, dish)
			require.Equal(t, dish+1, answer)
			if size[1] == 12 && keys == "m" {
				continue // all behaviours are more than the band has room for
			}
			frame := d.Press(keys).Frame()
			assert.Equal(t, dish, max(row(frame, "g powder, "), row(frame, "ratio 5")), "%v %q\n%s", size, keys, frame)
		}
	}
}

// The countdown goes on while another question is open, and the rest begins
// anew when the stirring is done.
func TestTheRestCountsDownInBigDigits(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 60, 20).Press("enter enter")
	f.Clock = f.Clock.Add(100 * time.Second)
	d.Press("m")
	assert.Contains(t, d.Frame(), "rest 0:20")
	d.Press("esc space")
	assert.Contains(t, d.Frame(), "the rest starts now")
	f.Clock = f.Clock.Add(30 * time.Second)
	d.Press("n")
	assert.Contains(t, d.Frame(), "rest 1:30")
	d.Press("esc")
	f.Clock = f.Clock.Add(90 * time.Second)
	d.Press("4")
	s := f.Steps(t, "Barley")[2]
	require.NotNil(t, s.RestedS)
	assert.Equal(t, 120, *s.RestedS, "from when the stirring was done")
}
