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

// TestBenchFrames holds the frames of the bench.
func TestBenchFrames(t *testing.T) {
	frames := []struct {
		name, keys string
		facts
	}{
		{"bench-add", "enter", facts{
			[]string{"ADD", "1/4 tsp water", "[5◂]", "5.68", "u undo"},
			[]string{"saved", "comes back to 5 to 6"},
			[]string{"Enter add 1/4 tsp water", "6  1/4 tsp", "stiff", "target 5"},
		}},
		{"bench-look", "enter enter", facts{
			[]string{
				"LOOK", "█▀█|██  ██", "0 watery|0  watery", "7 crumbly|7  crumbly", "5 spread◂|◂ target|◂",
				"u undo",
			},
			[]string{"stir ten turns|stir, rest, test", "0-7 level"},
			[]string{"keeps a line|keeps a drawn line", "Space when you have stirred", "7  1/4 tsp water"},
		}},
		{"bench-own", "enter l right up up", facts{
			[]string{"ADD", "3 × 1/4 tsp powder", "[7]"},
			[]string{"almost every time thicker than 6"},
			[]string{"advised: 1/4 tsp water (Esc goes back to it)"},
		}},
		{"bench-sure", "enter l left left up up enter", facts{
			[]string{
				"SURE?",
				"3 × 1 tsp would nearly always make it thicker than 6.",
				"Enter: add it all the same",
				"Esc: go back",
			},
			nil, nil,
		}},
		{"bench-early", "enter enter 3", facts{
			[]string{"only 0 s of 2 min: keep 3?", "0 watery|0  watery", "crumbly", "Esc wait"},
			nil,
			[]string{"SURE?", "Enter: yes, Esc: wait|Enter: yes · Esc: wait"},
		}},
		{"bench-seen", "enter m s b", facts{
			[]string{"SEEN", "h hardens when stirred", "s sinks", "t settles"},
			[]string{"[x] s sinks|*s sinks", "*b holds bubbles|[x] b holds"},
			[]string{"[x] s sinks", "sets like jelly"},
		}},
		{"bench-mend", "enter e up up", facts{
			[]string{"MEND", "step 4 of 6", "1/4 tsp powder", "4 dollop, after 2 min", "u undo"},
			nil,
			[]string{"▸  4  1/4 tsp", "Ins insert"},
		}},
		{"bench-change", "enter c", facts{
			[]string{"CHANGE", "▸ Target level   5"}, []string{"Precision      ±12 %"}, []string{"Starting with  20 g"},
		}},
		{"bench-grams", "enter l g", facts{
			[]string{"▸ grams of powder added", "Esc"}, nil, []string{"Enter keeps it"},
		}},
		{"bench-more", "enter i", facts{
			[]string{"Statistics", "At 5 spread this dish takes"},
			[]string{"The looks alone give"},
			[]string{"±12 % wanted"},
		}},
	}
	for _, f := range frames {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6)).Deps(), size[0],
					size[1]).Press(f.keys)
				got := d.Frame()
				f.hold(t, got, size[0])
				golden(t, name, got)
			})
		}
	}
}

// TestBenchBandsNeverJump holds that dish, answer and steps keep their rows in
// every state of the bench.
func TestBenchBandsNeverJump(t *testing.T) {
	row := func(frame, text string) int {
		for i, line := range strings.Split(frame, "\n") {
			if strings.Contains(line, text) {
				return i
			}
		}
		return -1
	}
	for _, size := range sizes {
		for _, keys := range []string{
			"", "enter", "right", "right up", "enter a", "m", "e", "e up", "g", "c", "w",
			"f", "enter 3", "n",
		} {
			d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6)).Deps(), size[0], size[1]).Press("enter")
			dish, answer := row(d.Frame(), "g powder: "), row(d.Frame(), "5.68")
			if size[1] == 12 {
				dish, answer = row(d.Frame(), " g/g"), row(d.Frame(), "at 5")
			}
			require.Positive(t, dish)
			require.Equal(t, dish+1, answer)
			if size[0] < 60 && keys == "m" {
				continue // the list of behaviours needs more rows than the band has
			}
			frame := d.Press(keys).Frame()
			assert.Equal(t, dish, max(row(frame, "g powder: "), row(frame, "g/g")), "%v %q\n%s", size, keys, frame)
		}
	}
}

// The countdown goes on while another question is open. The rest begins again when
// the maker says that stirring is done.
func TestTheRestCountsDownInBigDigits(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 60, 20).Press("enter enter")
	f.Clock = f.Clock.Add(100 * time.Second)
	d.Press("m")
	assert.Contains(t, d.Frame(), "rest 0:20")
	d.Press("esc space")
	assert.Contains(t, d.Frame(), "▀▀▀   ▀▀▀ ▀▀▀", "two minutes again")
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
