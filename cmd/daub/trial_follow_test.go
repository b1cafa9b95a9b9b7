package main

import (
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/require"
)

// follower answers each question from what was said before it.
type follower struct {
	out    *strings.Builder
	read   int
	answer func(said string) string
}

func (f *follower) Read(into []byte) (int, error) {
	said := f.out.String()[f.read:]
	f.read = f.out.Len()
	line := f.answer(said)
	if line == "" && strings.Contains(said, "finished") {
		return 0, io.EOF
	}
	return copy(into, line+"\n"), nil
}

var (
	ratioSaid = regexp.MustCompile(`powder: ([0-9]*\.?[0-9]+) g`)
	addSaid   = regexp.MustCompile(`then type what it really was, as (.+ g)`)
)

// A maker who follows every advice and looks well gets the ratio, with spoons and
// with only a scale.
func TestPlainTrialLedByItsAdvice(t *testing.T) {
	const truth, slope = 0.9, 6.0 // level 5 at this ratio; so many levels to an e-fold
	for name, start := range map[string][]string{
		"spoons": {"Clay", "", "plain-clay", "1 tsp", "1", "0.01", "2.50 2.52 2.48", ""},
		"scale":  {"Clay", "", "plain-clay", "each"},
	} {
		t.Run(name, func(t *testing.T) {
			h := testHost(t)
			var out strings.Builder
			asked, weighed := 0, 0
			ratio := 0.0
			h.in = &follower{&out, 0, func(said string) string {
				if len(start) > 0 {
					line := start[0]
					start = start[1:]
					return line
				}
				if asked++; asked > 200 {
					return "quit"
				}
				if m := ratioSaid.FindAllStringSubmatch(said, -1); m != nil {
					ratio, _ = strconv.ParseFloat(m[len(m)-1][1], 64)
				}
				switch m := addSaid.FindStringSubmatch(said); {
				case strings.Contains(said, "Which level, 0 to 7"):
					return fmt.Sprint(math.Min(math.Max(math.Round(5-slope*math.Log(ratio/truth)), 0), 7))
				case m != nil:
					return m[1]
				case strings.Contains(said, "and type the grams as weigh"):
					weighed++
					return fmt.Sprintf("weigh 2.5%d", weighed%3)
				default:
					return "" // follow the advice and the set-up's offers
				}
			}}
			h.out, h.err = &out, io.Discard
			require.Zero(t, run([]string{"trial", "--plain"}, h))
			require.True(t, strings.Contains(out.String(), "The trial is finished; saved."), "%.3000s", out.String())
			p := shelved(t, h, "clay")
			r, err := bench.Read(p, p.Trials[0], nil)
			require.NoError(t, err)
			require.Equal(t, model.Done, p.Trials[0].State)
			require.LessOrEqual(t, r.Looks(), 12)
			require.InEpsilon(t, truth, r.At(5).Dish.Median, 0.15)
		})
	}
}
