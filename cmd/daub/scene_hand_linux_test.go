package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// place puts a powder on the scene's shelf. Its times are in minutes ago: "{36}".
func (s *scene) place(name, text string) {
	s.t.Helper()
	now := time.Now().UTC()
	for minutes := range 300 {
		at := now.Add(-time.Duration(minutes) * time.Minute).Format(time.RFC3339)
		text = strings.ReplaceAll(text, fmt.Sprintf("{%d}", minutes), at)
	}
	path := filepath.Join(s.shelf, "powders", name+".toml")
	require.NoError(s.t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(s.t, os.WriteFile(path, []byte(text), 0o644))
}

// says runs a command on the scene's shelf and returns its answer.
func (s *scene) says(args ...string) string {
	s.t.Helper()
	h := testHost(s.t)
	h.shelf = s.shelf
	got := daub(h, args...)
	require.Zero(s.t, got.code, got.err)
	return strings.Join(strings.Fields(got.out), " ")
}

// clay is a swelling clay whose dish is covered and has stood for 36 minutes.
const clay = `schema = 1
[powder]
name = "Marsh clay"
family = "swelling-clay"
[[level_spoon]]
spoon = "1 tsp"
grams = [4.0, 4.1, 4.05]
[[trial]]
started = {76}
state = "done"
liquid_g = 40.0
rest_s = 300
covered = true
[[trial.step]]
at = {75}
add = "powder"
spoon = "1 tsp"
count = 2
level = 3.0
rested_s = 300
marks = ["rafts"]
[[trial.step]]
at = {36}
add = "powder"
spoon = "1 tsp"
count = 2
level = 5.0
level_stirred = 4.0
rested_s = 300
marks = ["gels"]
[[trial.later]]
at = {20}
level = 6.0
`

// half is a trial with a rest of a second, so that no look is early.
const half = `schema = 1
[powder]
name = "Barley flour"
family = "flour"
[[level_spoon]]
spoon = "1 tsp"
grams = [2.61, 2.55, 2.66]
[[trial]]
started = {5}
state = "open"
liquid_g = 20.0
rest_s = 1
spoons = ["1 tsp", "1/2 tsp", "1/4 tsp", "1/8 tsp"]
`

// TestSceneNothingUnasked makes a trial with Enter and digits only. Who wants no
// later looks, packing or behaviour sees none of it and has none in the file.
func TestSceneNothingUnasked(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.place("barley-flour", half)
	s.start(80, 24)
	s.keys("Enter")
	for _, level := range []string{"3", "4", "6"} {
		s.shows("In the dish", "saved")
		s.keys("Enter")
		s.shows(" LOOK ", "rest over", "saved")
		s.keys(level)
		screen := s.shows("level "+level, "recorded", "saved")
		for _, word := range []string{"later", "covered", "tapped", "just stirred"} {
			require.NotContains(t, screen, word)
		}
	}
	s.keys("f", "Enter")
	require.NotContains(t, s.shows("Trial › result", "this dish", "saved"), "later look due")
	text := read(t, filepath.Join(s.shelf, "powders", "barley-flour.toml"))
	for _, key := range []string{"covered", "later", "packing", "level_stirred", "marks", "how"} {
		require.NotContains(t, text, key)
	}
}

// TestSceneLaterLooks makes a due look: as the dish stands, and after ten turns.
func TestSceneLaterLooks(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.place("marsh-clay", clay)
	s.start(80, 24)
	s.shows("later look due: Marsh clay, 30 min (l)", "l later looks")
	s.keys("l")
	s.shows("COVERED", "A look is due now: 30 min after the last addition.", "0-7 level as it stands",
		"Enter a look in words")
	s.keys("6")
	s.shows("Next look: ", "4 hours after the last addition", "level 6 stiff as it stands recorded", "saved ")
	s.keys("Enter")
	s.text("6, stirred 4, holds bubbles, note a skin on top")
	s.keys("Enter")
	s.shows("Stirring takes 2 levels", "saved ")
	s.keys("Escape")
	s.shows("daub  Shelf", "▸ Marsh clay")
	s.keys("Enter")
	s.shows("Trial › result", "l later looks")
	s.keys("l")
	s.shows("e mend it", "Del delete it")
	s.keys("q") // a letter that means nothing here
	s.keys("Escape")
	s.shows("Trial › result")

	p := s.only()
	require.Len(t, p.Trials[0].Later, 3)
	assert.Equal(t, 4.0, *p.Trials[0].Later[2].Stirred)
	assert.Equal(t, model.Done, p.Trials[0].State)
	text := read(t, filepath.Join(s.shelf, "powders", "marsh-clay.toml"))
	assert.Contains(t, text, "[[trial.later]]")
	assert.Contains(t, text, "stirred_level = 4.0")
	assert.Contains(t, s.says("show", "marsh clay"), "after the last addition: a level thicker")
	assert.Contains(t, s.says("show", "marsh clay", "--json"), `"stirred_level": 4`)
	s.says("batch", "marsh clay", "--total", "100", "--save", "Mud")
	assert.Contains(t, s.says("recipe", "card", "mud"), "Mix a little thinner, to ")
}

// TestSceneContactTime shows how long the first powder stood.
func TestSceneContactTime(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.place("marsh-clay", clay)
	s.start(80, 24)
	s.shows("Marsh clay")
	s.keys("Enter")
	s.shows("Trial › result")
	s.scrollsTo("The first powder stood 44 min before the last look, and each look rested 5")
	assert.Contains(t, s.says("show", "marsh clay", "--json"), `"contact_s": 2640`)
	s.says("batch", "marsh clay", "--total", "100", "--save", "Mud")
	assert.Contains(t, s.says("recipe", "card", "mud"), "Let it soak about 44 min: until then it looks too thin")
}

// TestSceneSpoonCheck measures a spoon and lets older trials use it.
func TestSceneSpoonCheck(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.place("marsh-clay", clay)
	s.start(80, 24)
	s.shows("Marsh clay")
	s.keys("k", "Down", "Down", "Down", "Down")
	s.shows("▸ Spoon check")
	s.keys("Enter")
	s.text("1 tsp")
	s.keys("Enter")
	s.text("4.41 4.44 4.42")
	s.keys("Enter")
	s.text("21")
	s.shows("1 tsp holds 4.437 mL", "less than what its name says", "Ctrl+S keep it in spoons.toml") // 1.0031 mL per g
	s.keys("C-s")
	s.shows("kept in ", "Ctrl+O older trials too")
	s.keys("C-o")
	s.shows("Marsh clay at 5 spread", " before, ", "Enter yes · Esc leave them")
	s.keys("Enter")
	s.shows("older trials go by it now")
	assert.Equal(t, model.Own, s.only().Trials[0].SpoonSet)
	assert.Contains(t, read(t, filepath.Join(s.shelf, "spoons.toml")), "water_g = [4.41, 4.44, 4.42]")
}

// TestScenePacking weighs a spoon loose and tapped, and chooses how it is filled.
func TestScenePacking(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.start(80, 24)
	s.keys("n")
	s.text("Dune clay")
	s.keys("Enter", "Enter", "p", "Enter", "2", "Enter")
	for _, grams := range []string{"2.0 2.02 1.98", "tapped 2.6 2.62 2.58"} {
		s.text(grams)
		s.keys("Enter")
	}
	s.shows("Hausner ratio 1.20 to", "flow passable. Give this one in grams", "saved")
	s.keys("Tab")
	for range 10 {
		s.keys("Down")
	}
	s.shows("▸ spoon filled   ← loose →")
	s.keys("C-g")
	s.shows("Trial › bench", "saved")
	s.keys("w")
	s.shows("So far 3, loose", "Or type tapped 2.9")
	s.text("tapped 2.61")
	s.keys("Enter")
	s.shows("A tapped 1 tsp holds 1.30 times")
	s.keys("Escape")
	s.shows("Enter add ")
	s.keys("s")
	s.shows("daub  Shelf", "▸ Dune clay")
	s.keys("p")
	for range 10 {
		s.keys("Down")
	}
	s.shows("▸ 1 tsp, loose", "h how it was filled", "Hausner ratio 1.21")
	s.keys("h")
	s.shows("▸ 1 tsp, tapped", "saved ")
	p := s.only()
	assert.Equal(t, []float64{2.6, 2.62, 2.58, 2.61}, p.Powder.Packings[0].TappedG)
	assert.Equal(t, model.Tapped, p.LevelSpoons[0].How)
	assert.Contains(t, s.says("show", "dune clay", "--json"), `"flow": "passable"`)
}

// TestSceneBehaviour notes behaviour at the bench; the result sums it up with what
// to do about it.
func TestSceneBehaviour(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.place("barley-flour", half)
	s.start(80, 24)
	s.keys("Enter")
	s.shows("In the dish", "saved")
	for _, step := range []struct{ mark, level string }{{"r", "3"}, {"l", "4"}, {"j", "6"}} {
		s.keys("Enter")
		s.shows(" LOOK ", "rest over", "saved")
		s.keys(step.level)
		s.shows("level "+step.level, "recorded", "saved")
		s.keys("m")
		s.shows("swims as one dry sheet", "sets like jelly at rest")
		s.keys(step.mark, "Enter")
		s.shows("In the dish", "saved")
	}
	s.keys("f", "Enter")
	s.shows("Trial › result")
	s.scrollsTo("Seen with this powder: rafts at first,")
	shown := s.says("show", "barley flour")
	assert.Contains(t, shown, "Seen: rafts at first, lumps at first, gels.")
	assert.Contains(t, s.says("show", "barley flour", "--json"), `"behaviour": "rafts at first, lumps at first, gels"`)
	s.says("batch", "barley flour", "--total", "100", "--save", "Porridge")
	card := s.says("recipe", "card", "porridge")
	for _, advice := range []string{
		"rafts: strew slowly, let it sink", "let lumps soak, then press them; do not chase them",
		"gels: stir again before use",
	} {
		assert.Contains(t, card, advice)
	}
}
