package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestSceneSideBySide brings a second powder to the dish of the first by the keys
// shown: one on the result, then the digits at the bench, killed in between. At the
// end stands the factor, and the comparison gives it too.
func TestSceneSideBySide(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	dish := strings.Replace(ochreTrial, `"open"`, `"done"`, 1)
	for _, look := range []string{"12.5\nlevel = 3", "2\nlevel = 4", "3\nlevel = 5"} {
		dish += "[[trial.step]]\nadd = \"powder\"\ngrams = " + look + "\n"
	}
	s.onShelf("river-ochre", dish)
	s.onShelf("soft-chalk", "[powder]\nname = \"Soft chalk\"\nfamily = \"mineral\"\n")
	s.start(80, 24)
	s.keys("Enter")
	s.shows("RESULT", "m match another powder to this dish")
	s.keys("m")
	s.shows("The last dish of River ochre")
	s.keys("m")
	s.shows("Trial › side by side", "Reference dish: trial 1 of River ochre · lot spring, at 5 spread",
		"Tab Soft chalk")
	s.keys("Tab", "C-g")
	s.shows("Trial › bench", "side by side")
	look := func(key, grams, digit string) {
		s.keys(key)
		s.shows("▸ grams of")
		s.text(grams)
		s.keys("Enter")
		s.shows("LOOK", "stir both dishes", "1  much thinner", "3  the same", "saved")
		s.keys(digit)
		s.shows("? Enter: yes")
		s.keys("Enter")
		s.shows("beside the reference dish, recorded", "saved")
	}
	look("g", "14", "2")
	s.kill()
	s.start(80, 24)
	s.keys("Enter")
	s.shows("Trial › bench", "Soft chalk", "thinner", "saved")
	look("g", "6", "4")
	s.shows("as much water as River ochre")
	s.keys("f")
	s.keys("Enter")
	screen := s.shows("RESULT", "times as much water as River ochre", "by weight", "saved")
	require.NotContains(t, screen, "5 spread itself was not seen")
	require.Contains(t, flat(s.says("compare", "river-ochre", "soft-chalk")),
		"side by side (trial 1 of Soft chalk beside trial 1")
}
