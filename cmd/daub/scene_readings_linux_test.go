package main

import (
	"os"
	"path/filepath"
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

// onShelf puts a powder's file on the scene's shelf.
func (s *scene) onShelf(slug, text string) {
	dir := filepath.Join(s.shelf, "powders")
	require.NoError(s.t, os.MkdirAll(dir, 0o755))
	require.NoError(s.t, os.WriteFile(filepath.Join(dir, slug+".toml"), []byte("schema = 1\n"+text), 0o644))
}

// ochreTrial is a clay with a trial to go on with, everything weighed.
const ochreTrial = `[powder]
name = "River ochre"
lot = "spring"
family = "plain-clay"
[[trial]]
started = 2026-05-03T10:00:00Z
state = "open"
liquid_g = 20.0
spoons = []
rest_s = 600
`

// TestSceneReadings measures a trial beside the eye by the keys shown. It is asked
// once what is measured, killed and mended, and ends with two ratios.
func TestSceneReadings(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.onShelf("river-ochre", ochreTrial)
	s.start(80, 24)
	s.keys("Enter")
	s.shows("Trial › bench", "Fine dust: spoon close to the bowl", "(? more)")
	weigh := func(key, grams string) {
		s.keys(key)
		s.shows("▸ grams of powder added")
		s.text(grams)
		s.keys("Enter")
		s.shows("LOOK", "r type a measurement", "saved")
	}
	weigh("Enter", "12.5")
	s.keys("r")
	s.shows("what is measured: spread, slump, cone, drain or blows")
	for _, answer := range []string{"spread", "15 mL", "1.4", "62"} {
		s.text(answer)
		s.keys("Enter")
	}
	s.shows("reading, mm (spread of 15 mL)")
	s.text("93")
	s.keys("Enter")
	s.shows("keep 93 mm?")
	s.keys("Enter")
	s.shows("reading 93 mm recorded", "saved", "add powder and read again")
	s.look("3")
	for _, read := range []string{"80", "69"} {
		weigh("g", "2")
		s.keys("r")
		s.text(read)
		s.keys("Enter")
		s.shows("keep " + read + " mm?")
		s.keys("Enter")
		s.shows("reading "+read+" mm recorded", "saved")
	}
	s.kill()
	s.start(80, 24)
	s.keys("Enter")
	s.shows("Trial › bench", "69 mm", "saved")
	weigh("g", "2")
	s.look("5")
	s.keys("r")
	s.text("57")
	s.keys("Enter")
	s.shows("reading 57 mm recorded", "That is within the ±12 % wanted", "saved")
	s.keys("e", "r")
	s.shows("reading of step 4, mm")
	s.text("58")
	s.keys("Enter")
	s.shows("step 4 mended", "measured 58 mm", "saved")
	s.keys("Enter", "f", "Enter")
	screen := s.shows("Trial › result", "measured     1.13 (1.04 to 1.18) at 62 mm, spread of 15 mL",
		"▸ 5 spread", "saved")
	require.Contains(t, screen, "Wet paste: same day")
	s.keys("q")

	trial := s.only().Trials[0]
	require.Equal(t, model.Done, trial.State)
	require.Equal(t, 58.0, trial.Steps[3].Reading)
	require.Equal(t, 5.0, trial.Steps[3].Level)
	f := s.agrees(screen)
	require.Equal(t, "at 62 mm, spread of 15 mL", f.Measured.Scale)
	require.InDelta(t, 1.13, *f.Measured.Median, 0.005)
}

// TestSceneAcid begins an acid test from the result by the keys shown, is killed in
// the middle, goes on, and takes the acid into a batch.
func TestSceneAcid(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.onShelf("river-ochre", ochreTrial+`
[[trial.step]]
add = "powder"
grams = 12.5
level = 3.0
[[trial.step]]
add = "powder"
grams = 8.0
level = 5.0
`)
	s.start(80, 24)
	s.keys("Enter", "f", "Enter")
	s.shows("Trial › result", "p pH and acid", "saved")
	s.keys("p")
	s.shows("Trial › pH and acid", "Not tested for fizzing", "Enter begin")
	s.keys("Enter")
	for _, answer := range []string{"citric acid 10 %", "30 g", "", "0.05"} {
		if answer != "" {
			s.text(answer)
		}
		s.keys("Enter")
	}
	s.shows("pH of the paste before any acid")
	s.text("8.5")
	s.keys("Enter")
	s.shows("pH 8.5 recorded", "saved")
	s.keys("Enter")
	s.text("7 after 5 drops")
	s.keys("Enter")
	s.shows("pH 7 recorded", "more than was tried", "saved")
	s.kill()
	s.start(80, 24)
	s.keys("Enter")
	s.shows("Trial › result")
	s.keys("p", "Enter")
	s.text("5 after 5 drops, wait 2 min, level 4, lumps")
	s.keys("Enter")
	s.shows("For pH 5.5: 1.46 g (1.35 to 1.56) of citric acid 10 %", "The acid thinned it", "saved")
	s.keys("t")
	s.text("6")
	s.keys("Enter")
	s.shows("For pH 6: 1.25 g", "saved")
	s.keys("u")
	s.shows("For pH 5.5: 1.46 g", "undone", "saved")
	s.keys("Escape")
	s.shows("Trial › result")
	s.keys("Escape")
	s.shows("daub  Shelf")
	s.keys("k", "Enter")
	s.shows("Kitchen")
	s.keys("Down", "Down")
	s.text("120")
	s.keys("NPage")
	s.shows("For pH 5.5: about 1.7 g")
	s.keys("C-a")
	s.shows("citric acid 10 %", "counts as liquid")
	s.keys("C-c")

	trial := s.only().Trials[0]
	require.Equal(t, model.Done, trial.State)
	require.Len(t, trial.Acid.Steps, 3)
	require.Equal(t, []string{"lumps"}, trial.Acid.Steps[2].Marks)
}

// TestScenePlausible finishes a trial whose grams are of another spoon. The result
// doubts them at its top, against the earlier lot, and says below what it compared.
func TestScenePlausible(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	looks := func(first, second string) string {
		return "\n[[trial.step]]\nadd = \"powder\"\ngrams = " + first +
			"\nlevel = 3.0\n[[trial.step]]\nadd = \"powder\"\ngrams = " +
			second + "\nlevel = 5.0\n[[trial.step]]\nadd = \"powder\"\ngrams = " + second + "\nlevel = 7.0\n"
	}
	s.onShelf("river-ochre", ochreTrial+looks("2.0", "1.5"))
	s.start(80, 24)
	s.keys("Enter", "f", "Enter")
	s.shows("Trial › result", "g/g is unusual for a plain clay", "saved")
	s.scrollsTo("plausible?", "liquid limit", "kaolinite", "Soga")
	s.keys("q")
}
