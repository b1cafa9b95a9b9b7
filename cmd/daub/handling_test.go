package main

import (
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// gelling is a swelling clay tried by the spoon over half an hour.
const gelling = `schema = 1

[powder]
name = "Marsh clay"
family = "swelling-clay"

[[level_spoon]]
spoon = "1 tsp"
grams = [4.0, 4.1, 4.05]

[[trial]]
started = 2026-05-03T09:00:00Z
state = "done"
liquid_g = 40.0
rest_s = 300

  [[trial.step]]
  at = 2026-05-03T09:00:00Z
  add = "powder"
  spoon = "blue scoop"
  level = 3.0
  rested_s = 300
  marks = ["rafts"]

  [[trial.step]]
  at = 2026-05-03T09:30:00Z
  add = "powder"
  spoon = "1 tsp"
  level = 5.0
  rested_s = 300
  marks = ["gels"]
`

func marsh(t *testing.T, minutes int) host {
	h := testHost(t)
	shelve(t, h, "marsh-clay", gelling)
	later := time.Date(2026, 5, 3, 9, 30+minutes, 0, 0, time.UTC)
	h.now = func() time.Time { return later }
	return h
}

// A later look typed in lines is the same in the file, in show, in JSON and in an
// export.
func TestLaterLooksInLines(t *testing.T) {
	h := marsh(t, 40)
	require.Zero(t, daub(h, "calibrate", "blue scoop", "--water", "8.00,8.02,8.01").code)
	say := func(lines ...string) said {
		h.in = strings.NewReader(strings.Join(lines, "\n") + "\nquit\n")
		return daub(h, "trial", "--plain", "marsh clay")
	}
	got := say("later keep", "later 6, stirred 5, holds bubbles, note a skin on top", "later")
	require.Zero(t, got.code, got.err)
	assert.Contains(t, got.out, "Later look 1, 2026-05-03 10:10: 6, stirred 5, holds bubbles, note a skin on top.")
	assert.Contains(t, got.out, "Stirring takes a level")
	p := shelved(t, h, "marsh-clay")
	require.Len(t, p.Trials[0].Later, 1)
	assert.Equal(t, 6.0, *p.Trials[0].Later[0].Level)
	assert.True(t, p.Trials[0].Covered)
	assert.Equal(t, model.Done, p.Trials[0].State, "a later look leaves a finished trial finished")

	h.now = func() time.Time { return time.Date(2026, 5, 3, 14, 0, 0, 0, time.UTC) }
	got = say()
	assert.Contains(t, got.out, "due for its later look, 4 hours")
	got = say("later 6.5", "later mend 2 6", "undo", "redo",
		"later 7", "later delete 3", "later mend 9 1", "later much")
	require.Zero(t, got.code, got.err)
	assert.Contains(t, got.out, "Redone: the last change of the finished dish; saved.")
	assert.Contains(t, got.out, "Later look 2, 2026-05-03 14:00: 6.", "redo brings the mended one back")
	assert.NotContains(t, got.out, "nothing to redo")
	assert.NotContains(t, got.out, "Left unfinished", "no trial was begun")
	assert.Contains(t, got.out, "Left; all that was recorded is saved.")
	assert.Contains(t, got.out, "Later look 3 is deleted")
	assert.Contains(t, got.out, "Not done: there is no such later look")

	show := daub(h, "show", "marsh clay")
	require.Zero(t, show.code, show.err)
	assert.Contains(t, show.out, "How it behaves:")
	assert.Contains(t, show.out, "rafts at first, holds bubbles, gels")
	assert.Contains(t, show.out, "Mix a little thinner")
	assert.Contains(t, show.out, "wait about 35 min")
	asJSON := daub(h, "show", "marsh clay", "--json").out
	for _, part := range []string{`"stirred_level": 5`, `"covered": true`, `"contact_s": 2100`, `"levels": 1`} {
		assert.Contains(t, asJSON, part)
	}
	assert.Contains(t, daub(h, "export", "marsh clay", "--looks", "--to", "csv").out, "later")
	assert.Contains(t, daub(h, "check", strings.TrimSpace(h.shelf+"/powders/marsh-clay.toml")).out, "ok")

	require.Zero(t, daub(h, "batch", "marsh clay", "--total", "100", "--save", "Mud").code)
	card := daub(h, "recipe", "card", "Mud")
	require.Zero(t, card.code, card.err)
	assert.Contains(t, card.out, "How it behaves")
	assert.Contains(t, card.out, "40 min after the last addition: a level thicker", "what was seen later, too")
	assert.Contains(t, card.out, "Stirring takes a level, and rest gives it back")
	assert.Contains(t, card.out, "Mix a little thinner")
	assert.Contains(t, card.out, ": strew slowly, let it sink.")
}

// USP <1174>: 1.30 is passable.
func TestPackingTellsToWeigh(t *testing.T) {
	h := marsh(t, 0)
	require.Zero(t, daub(h, "calibrate", "blue scoop", "--water", "8.00,8.02,8.01").code)
	got := daub(h, "edit", "marsh clay", "packing=1 tsp: loose 4.0 4.04, tapped 5.2 5.25")
	require.Zero(t, got.code, got.err)
	assert.Contains(t, got.out, "packing=1 tsp: loose 4 4.04, tapped 5.2 5.25")
	assert.Contains(t, read(t, h.shelf+"/powders/marsh-clay.toml"),
		"[[packing]]\nspoon = \"1 tsp\"\nloose_g = [4.0, 4.04]")
	assert.Contains(t, daub(h, "show", "marsh clay").out, "flow passable")
	assert.Contains(t, daub(h, "show", "marsh clay", "--json").out, `"in_grams": true`)
	assert.Equal(t, exitMisused, daub(h, "edit", "marsh clay", "packing=4 and 5").code)
	require.Zero(t, daub(h, "edit", "marsh clay", "packing=").code)
	assert.NotContains(t, read(t, h.shelf+"/powders/marsh-clay.toml"), "packing")
}

// The water for a spoon can be typed at any question; the file is the same as that
// of the command.
func TestSpoonCheckInLines(t *testing.T) {
	h := marsh(t, 60)
	shelve(t, h, "marsh-clay", strings.ReplaceAll(gelling, "blue scoop", "1/2 tsp"))
	h.in = strings.NewReader("calibrate blue scoop: 9.21 9.24 9.22 at 21\ncalibrate blue scoop\ncalibrate x: 1 2\n" +
		"calibrate blue scoop: 9.21 9.24 9.22 at 95\nquit\n")
	got := daub(h, "trial", "--plain", "marsh clay")
	require.Zero(t, got.code, got.err)
	assert.Contains(t, got.out, "blue scoop holds 9.252 mL") // 9.2233 g at 1.0031 mL per g
	assert.Equal(t, 3, strings.Count(got.out, "Not done:"), got.out)
	typed := read(t, h.shelf+"/spoons.toml")
	other := marsh(t, 60)
	require.Zero(t, daub(other, "calibrate", "blue scoop", "--water", "9.21,9.24,9.22", "--at", "21").code)
	assert.Equal(t, read(t, other.shelf+"/spoons.toml"), typed)
}

// The end of a trial in lines says how long the powder stood, and how it behaves.
func TestContactTimeInLines(t *testing.T) {
	h := testHost(t)
	shelve(t, h, "marsh-clay", strings.Replace(strings.ReplaceAll(gelling, "blue scoop", "1/2 tsp"), `state = "done"`,
		`state = "open"`, 1))
	h.now = func() time.Time { return time.Date(2026, 5, 3, 9, 40, 0, 0, time.UTC) }
	h.in = strings.NewReader("\nfinish\n")
	got := daub(h, "trial", "--plain", "marsh clay")
	require.Zero(t, got.code, got.err)
	flat := strings.Join(strings.Fields(got.out), " ")
	assert.Contains(t, flat, "The first powder stood 35 min before the last look")
	assert.Contains(t, flat,
		"Seen with this powder: rafts at first, gels. Strew slowly, let it sink; stir again before use.")
	h.in = nil
	require.Zero(t, daub(h, "batch", "marsh clay", "--total", "100", "--save", "mud").code)
	card := strings.Join(strings.Fields(daub(h, "recipe", "card", "mud").out), " ")
	assert.Contains(t, card, "Let it soak about 35 min: until then it looks too thin. Then stir ten turns and "+
		"let it rest")
}

// The filling of a spoon is a word before its grams. Tapped and loose weighings
// together say how the powder packs.
func TestFillingInLines(t *testing.T) {
	h := testHost(t)
	h.in = strings.NewReader("dunes clay\n\nplain-clay\n1 tsp\n\n\n2.0 2.02 1.98\ntapped 2.6 2.62 2.58\npacked 3\n" +
		"\n\n\n\n\n\n\n\n20 g\nweigh tapped 2.61\nweighing tapped\nquit\n")
	got := daub(h, "trial", "--plain")
	assert.Contains(t, got.out, "flow passable. Give this one in grams")
	assert.Contains(t, got.out, "what is packed weighs")
	assert.Contains(t, got.out, "The weighings were filled tapped")
	p := shelved(t, h, "dunes-clay")
	assert.Equal(t, []float64{2.6, 2.62, 2.58, 2.61}, p.Powder.Packings[0].TappedG)
	assert.Equal(t, model.Tapped, p.LevelSpoons[0].How)
	assert.Contains(t, daub(h, "show", "dunes clay").out, "a level 1 tsp, tapped, weighs")
	assert.Contains(t, daub(h, "show", "dunes clay", "--json").out, `"filled": "tapped"`)
}

// Z factor at 21 °C: 1.0031 mL per g (as used with ISO 8655-6).
func TestCalibrateMeasuresASpoon(t *testing.T) {
	h := marsh(t, 60)
	require.Zero(t, daub(h, "calibrate", "blue scoop", "--water", "8.00,8.02,8.01").code) // 8.03 mL
	before := daub(h, "fit", h.shelf+"/powders/marsh-clay.toml").out
	h.now = func() time.Time { return time.Date(2026, 5, 4, 9, 0, 0, 0, time.UTC) }
	got := daub(h, "calibrate", "blue scoop", "--water", "9.21,9.24,9.22", "--at", "21")
	require.Zero(t, got.code, got.err)
	assert.Contains(t, got.out, "blue scoop holds 9.252 mL")
	assert.Contains(t, got.out, "% more than the 8.033 mL it was taken for")
	list := read(t, h.shelf+"/spoons.toml")
	assert.Contains(t, list, "water_g = [9.21, 9.24, 9.22]")
	assert.Contains(t, list, "before_ml = 8.03")
	assert.Equal(t, before, daub(h, "fit", h.shelf+"/powders/marsh-clay.toml").out, "older trials stay")

	moved := daub(h, "calibrate", "blue scoop", "--older")
	require.Zero(t, moved.code, moved.err)
	assert.Contains(t, moved.out, "Marsh clay at 5 spread: ")
	assert.Contains(t, moved.out, " before, ")
	assert.NotContains(t, read(t, h.shelf+"/spoons.toml"), "before_ml")
	assert.NotEqual(t, before, daub(h, "fit", h.shelf+"/powders/marsh-clay.toml").out)

	tsp := daub(h, "calibrate", "1 tsp", "--water", "4.70,4.72,4.71", "--json")
	require.Zero(t, tsp.code, tsp.err)
	assert.Contains(t, tsp.out, `"before_ml": 4.929`)
	for _, bad := range [][]string{
		{"blue scoop"},
		{"blue scoop", "--water", "9.2,9.3"},
		{"x", "--older"},
		{"blue scoop", "--water", "9,9,9", "--at", "95"},
		{"blue scoop", "--water", "9,9,nine"},
	} {
		assert.Equal(t, exitMisused, daub(h, append([]string{"calibrate"}, bad...)...).code, "%v", bad)
	}
}

// A fill far from the others is asked about, and kept only if confirmed.
func TestCalibrateAsksAboutAWildFill(t *testing.T) {
	h := marsh(t, 60)
	wild := []string{"calibrate", "1 tsp", "--water", "4.71,4.74,9.72"}
	got := daub(h, wild...)
	require.Equal(t, exitMisused, got.code, got.out)
	assert.Equal(t, "daub: calibrate 1 tsp: 9.72 g of water? The others say 4.72 g. Nothing was saved: weigh "+
		"again, or keep it with --anyway\n", got.err)
	assert.NoFileExists(t, h.shelf+"/spoons.toml")
	kept := daub(h, append(wild, "--anyway")...)
	require.Zero(t, kept.code, kept.err)
	assert.Contains(t, read(t, h.shelf+"/spoons.toml"), "9.72")
	assert.NotContains(t, kept.out, "near enough")

	assert.Contains(t, daub(h, "calibrate", "1 tsp", "--water", "a,b,c").err, `"a" is not a number of grams`)
	commas := daub(h, "calibrate", "1 tsp", "--water", "4,71 4,74 4,72")
	require.Zero(t, commas.code, commas.err)
	assert.Contains(t, read(t, h.shelf+"/spoons.toml"), "[4.71, 4.74, 4.72]")
	for _, water := range []string{
		"4.71,4.74, 4.73", "4.71, 4.74,4.73", "4.71 ,4.74 ,4.73", "4.71,4.74,4.73 ", " 4.71, 4.74, 4.73",
		"4.71 4.74 4.73", "4,71; 4,74; 4,73", "4,71, 4,74, 4,73", "4.71 g, 4.74 g, 4.73 g",
	} {
		got := daub(h, "calibrate", "1 tsp", "--water", water)
		require.Zero(t, got.code, "%q: %s", water, got.err)
		assert.Contains(t, read(t, h.shelf+"/spoons.toml"), "[4.71, 4.74, 4.73]", water)
		require.Zero(t, daub(h, "calibrate", "1 tsp", "--water", "4.71,4.74,4.72").code)
	}
	mixed := daub(h, "calibrate", "1 tsp", "--water", "4,9 5 4,8")
	assert.Equal(t, exitMisused, mixed.code)
	assert.Contains(t, mixed.err, "are the commas decimal, or between the fills?")
	for water, want := range map[string]string{"5,5,6": "[5.0, 5.0, 6.0]", "5, 5, 6": "[5.0, 5.0, 6.0]"} {
		require.Zero(t, daub(h, "calibrate", "1 tsp", "--water", water, "--scale", "1", "--anyway").code)
		assert.Contains(t, read(t, h.shelf+"/spoons.toml"), want, water)
	}

	shelve(t, h, "marsh-clay", strings.ReplaceAll(gelling, "blue scoop", "1/2 tsp"))
	h.in = strings.NewReader("calibrate 1 tsp: 4.8 4.81 9.6\nno\ncalibrate 1 tsp: 4.8 4.81 9.7\nyes\nquit\n")
	lines := daub(h, "trial", "--plain", "marsh clay")
	require.Zero(t, lines.code, lines.err)
	assert.Contains(t, lines.out,
		"9.60 g of water? The others say 4.80 g. Keep it all the same? yes or no (Enter:\nno)")
	assert.Contains(t, read(t, h.shelf+"/spoons.toml"), "[4.8, 4.81, 9.7]")
}

// Weighings typed after a change of a finished dish are undone one by one, never
// together with that change.
func TestUndoAfterALaterLookKeepsTheWeighings(t *testing.T) {
	h := testHost(t)
	shelve(t, h, "marsh-clay", strings.ReplaceAll(gelling, "blue scoop", "1/2 tsp"))
	weighings := func() (n int) {
		for _, l := range shelved(t, h, "marsh-clay").LevelSpoons {
			n += len(l.Grams)
		}
		return n
	}
	before := weighings()
	say := func(lines ...string) string {
		got := daub(typing(h, append(lines, "quit")...), "trial", "--plain", "marsh clay")
		require.Zero(t, got.code, got.err)
		return got.out
	}
	say("later 6", "3.61", "3.62", "undo")
	assert.Equal(t, before+1, weighings(), "the last weighing alone is undone")
	require.Len(t, shelved(t, h, "marsh-clay").Trials[0].Later, 1)

	say("later 7", "undo", "3.63", "redo")
	assert.Equal(t, before+2, weighings(), "redo takes no weighing away")
	require.Len(t, shelved(t, h, "marsh-clay").Trials[0].Later, 1)
}

// A spoon checked with water is named wherever its spoonfuls are, in words and in
// JSON. Without one nothing is said.
func TestACheckedSpoonIsTold(t *testing.T) {
	const told = "1 tsp holds 4.71 mL, checked 2026-05-03"
	h := marsh(t, 60)
	shelve(t, h, "marsh-clay", strings.Replace(strings.ReplaceAll(gelling, "blue scoop", "1/2 tsp"), "liquid_g = 40.0",
		"liquid_g = 40.0\nspoon_set = \"own\"\nspoons = [\"1 tsp\"]", 1))
	asked := [][]string{
		{"show", "marsh clay"},
		{"batch", "marsh clay", "--total", "100", "--save", "Mud", "--force"},
		{"spoons", "marsh clay", "20"},
		{"recipe", "card", "Mud"},
	}
	for _, command := range asked {
		got := daub(h, command...)
		require.Zero(t, got.code, got.err)
		assert.NotContains(t, got.out, "checked", "%v", command)
	}
	require.Zero(t, daub(h, "calibrate", "1 tsp", "--water", "4.70,4.69,4.70").code)
	h.now = func() time.Time { return time.Date(2026, 5, 4, 9, 0, 0, 0, time.UTC) }
	require.Zero(t, daub(h, "calibrate", "1 tsp", "--older").code)
	for _, command := range asked {
		got := daub(h, command...)
		require.Zero(t, got.code, got.err)
		assert.Contains(t, strings.Join(strings.Fields(got.out), " "), told, "%v", command)
		asJSON := daub(h, append(command, "--json")...).out
		if command[0] == "recipe" {
			assert.Contains(t, asJSON, told)
		} else {
			assert.Contains(t, asJSON, `"checked": "2026-05-03T10:30:00Z"`, "%v", command)
		}
	}
	assert.Contains(t, daub(h, "show", "marsh clay", "--json").out, `"standard_uncertainty_ml": 0.0`)
}
