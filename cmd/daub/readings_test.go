package main

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// soured is a clay with a finished trial, looked at and measured, and an acid test;
// times multiplies its readings.
func soured(name string, times float64) string {
	text := fmt.Sprintf(`schema = 1
[powder]
name = %q
family = "plain-clay"
[[trial]]
started = 2026-03-02T10:00:00Z
state = "done"
liquid_g = 20.0
rest_s = 30
[trial.measured]
kind = "spread"
volume_ml = 15.0
paste_density = 1.4
wanted = 62.0
`, name)
	for i, reading := range []float64{93, 80, 69, 58} {
		grams := 2.0
		if i == 0 {
			grams = 12.5
		}
		text += fmt.Sprintf("[[trial.step]]\nadd = \"powder\"\ngrams = %.1f\nreading = %.1f\nlevel = %d.0\n", grams,
			reading*times, i+2)
	}
	return text + `[trial.acid]
acid = "citric acid 10 %"
drop_g = 0.05
by = "strip"
ph_step = 0.5
paste_g = 30.0
[[trial.acid.step]]
ph = 8.5
[[trial.acid.step]]
drops = 5
ph = 7.0
[[trial.acid.step]]
drops = 5
ph = 5.0
level = 4.0
`
}

// A powder that was measured and never looked at has an answer too, named by its
// scale.
func TestAPowderThatWasOnlyMeasuredIsListedByItsReading(t *testing.T) {
	h := testHost(t)
	text := regexp.MustCompile(`level = \d\.0\n`).ReplaceAllString(soured("River ochre", 1), "")
	shelve(t, h, "river-ochre", text)

	list := daub(h, "list").out
	require.Contains(t, list, "1.13 (0.900 to 1.41) at 62 mm")
	got := decode[[]listJSON](t, daub(h, "list", "--json"))
	require.Nil(t, got[0].Ratio, "no ratio by levels")
	require.Len(t, got[0].ByReading, 1)
	require.Equal(t, "at 62 mm, spread of 15 mL", got[0].ByReading[0].Scale)

	shelve(t, h, "river-ochre", soured("River ochre", 1))
	require.NotContains(t, daub(h, "list").out, "62 mm", "levels come first")
}

// The answer of a dish that was only measured comes first, with its scale. No look
// is asked for, and no empty table of levels is shown.
func TestADishThatWasOnlyMeasuredSaysSo(t *testing.T) {
	file := filepath.Join(t.TempDir(), "ochre.toml")
	text := regexp.MustCompile(`level = \d\.0\n`).ReplaceAllString(soured("River ochre", 1), "")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	got := daub(testHost(t), "fit", file)
	require.Zero(t, got.code, got.err)
	said := flat(got.out)
	require.Contains(t, said, "20.00 g water, 4 readings by spread, rest 30 s. 1.13 (1.04 to 1.18) g water")
	require.Equal(t, 1, strings.Count(said, "at 62 mm, spread of 15 mL"), said)
	require.Contains(t, said, "pH and acid")
	for _, no := range []string{"No look", "0 looks", "levels read", "5 spread", "not-reached", "\n\n\n"} {
		require.NotContains(t, got.out, no)
	}

	both := filepath.Join(t.TempDir(), "ochre.toml")
	require.NoError(t, os.WriteFile(both, []byte(soured("River ochre", 1)), 0o600))
	said = flat(daub(testHost(t), "fit", both).out)
	require.Contains(t, said, "4 looks, 4 readings by spread, rest 30 s, levels read to the nearest level.")
	require.Contains(t, said, "Measured, and acid (scales of their own):")

	chalk := filepath.Join(t.TempDir(), "chalk.toml")
	require.NoError(t, os.WriteFile(chalk, []byte(besideChalk), 0o600))
	out := daub(testHost(t), "fit", chalk).out
	require.NotContains(t, flat(out), "levels read", "side by side no level is named")
	require.NotContains(t, out, "\n\n\n")
}

// Two ratios of one trial, each with its scale, in every form of output. By hand:
// pH 5.5 lies at 0.4375 g of acid in 30 g of paste, 1.44 % of paste and acid.
func TestMeasuredAndAcidInEveryWayOut(t *testing.T) {
	h := testHost(t)
	shelve(t, h, "river-ochre", soured("River ochre", 1))
	shelve(t, h, "hill-ochre", soured("Hill ochre", 1.1))

	show := daub(h, "show", "river-ochre").out
	require.Contains(t, flat(show), "This powder: 1.13 (0.900 to 1.41) g water per g powder at 62 mm, spread of 15 mL")
	require.Contains(t, flat(show), "For pH 5.5: 1.46 g (1.35 to 1.56) of citric acid 10 % per 100 g of paste")
	require.Contains(t, show, "> 5 spread")

	got := decode[showJSON](t, daub(h, "show", "river-ochre", "--json"))
	require.Len(t, got.ByReading, 1)
	require.Equal(t, "at 62 mm, spread of 15 mL", got.ByReading[0].Scale)
	require.Equal(t, 1, got.ByReading[0].Trials)
	require.NotEqual(t, *got.Ratio, *got.ByReading[0].Ratio, "neither is the other")
	acid := got.TrialList[0].Acid
	require.InDelta(t, 1.458, *acid.Per100G, 0.001)
	require.Equal(t, 5.0, *acid.Level)
	require.Equal(t, 4.0, *acid.LevelAfter)
	require.Len(t, acid.Readings, 3)

	fit := decode[fitJSON](t, daub(h, "fit", filepath.Join(h.shelf, "powders", "river-ochre.toml"), "--json"))
	require.Equal(t, got.TrialList[0].Measured.Dish, fit.Measured.Dish)
	require.Equal(t, acid, fit.Acid)

	pairs := decode[compareJSON](t, daub(h, "compare", "river-ochre", "hill-ochre", "--json")).Pairs
	require.Len(t, pairs[0].Measured, 1)
	require.Greater(t, *pairs[0].Measured[0].Factor.Median, 0.8)
	require.Contains(t, flat(daub(h, "compare", "river-ochre", "hill-ochre").out),
		"Measured, at 62 mm, spread of 15 mL: a gram of Hill ochre takes")

	batch := decode[pasteJSON](t, daub(h, "batch", "river-ochre", "--total", "100", "--json")).Batch.Acid
	require.InDelta(t, 100*0.4375/30.4375, *batch.Grams, 0.001)
	require.InDelta(t, 0.4375/30.4375, *batch.Share, 1e-4)
	made := flat(daub(h, "batch", "river-ochre", "--total", "100").out)
	require.Contains(t, made, "For pH 5.5: about 1.4 g (1.3 to 1.5)")
	with := decode[pasteJSON](t, daub(h, "batch", "river-ochre", "--total", "100", "--extra",
		"citric acid 10 %=1.4%:liquid", "--json")).Batch
	require.Nil(t, with.Acid, "it is in already")
	require.InDelta(t, 1.4, *with.CountedG, 1e-9, "and counts as liquid")
	require.Contains(t, flat(daub(h, "swap", "hill-ochre", "river-ochre", "--powder", "20").out), "For pH 5.5: about")

	require.Zero(t, daub(h, "batch", "river-ochre", "--total", "100", "--save", "Mask").code)
	require.Contains(t, flat(daub(h, "recipe", "card", "Mask").out), "For pH 5.5: about 1.4 g")
	for _, file := range []string{"card.html", "card.md"} {
		require.Zero(t, daub(h, "recipe", "card", "Mask", "-o", filepath.Join(h.temp, file)).code)
		text, err := os.ReadFile(filepath.Join(h.temp, file))
		require.NoError(t, err)
		require.Contains(t, string(text), "about 1.4 g", file)
		require.Contains(t, string(text), "Measured, spread of 15 mL: 1.13 (0.900 to 1.41) g water per g powder read "+
			"62 mm", file)
		require.Contains(t, string(text), "patch test", file)
	}
	page := filepath.Join(h.temp, "page.html")
	require.Zero(t, daub(h, "page", "river-ochre", "-o", page).code)
	text, err := os.ReadFile(page)
	require.NoError(t, err)
	require.Contains(t, string(text), "at 62 mm, spread of 15 mL")
	require.Contains(t, string(text), "mostly take")
	require.Contains(t, daub(h, "export", "river-ochre", "--looks", "--to", "csv").out, ",2,,,93,spread,")
}

// In plain mode: readings out of order, a target never crossed or already passed, a
// strip of one unit, a powder that fizzes (METHOD, acid).
func TestAcidInPlainWords(t *testing.T) {
	h := testHost(t)
	shelve(t, h, "river-ochre", strings.Split(soured("River ochre", 1), "[trial.acid]")[0])
	chalk := strings.Split(soured("Soft chalk", 1), "[trial.acid]")[0]
	shelve(t, h, "chalk", strings.Replace(chalk, "plain-clay", "mineral", 1))
	say := func(powder string, lines ...string) string {
		got := daub(typing(h, append(lines, "quit")...), "trial", "--plain", powder)
		require.Zero(t, got.code, got.err)
		return flat(got.out)
	}
	said := say("river-ochre", "ph 8", "acid citric acid 10 %, 30 g, strip 0.5, drop 0.05 g", "ph 9",
		"ph 6 after 5 drops",
		"ph 7 after 5 drops")
	require.Contains(t, said, "Not done: no acid test is begun")
	require.Contains(t, said, "Take care. Not tested for fizzing")
	require.Contains(t, said, "The pH rose where it should fall; such readings are averaged")
	require.Contains(t, said, "For pH 5.5: more than was tried, 1.67 g", "never extrapolated")
	require.Contains(t, say("river-ochre", "ph target 9.5"),
		"The paste reads pH 9.5 or below without acid: none is wanted")
	require.Contains(t, say("river-ochre", "ph mend 3 5 after 5 drops", "ph target 5.5"), "For pH 5.5: 1.25 g")
	require.Contains(t, say("river-ochre", "acid delete", "undo", "acid"), "For pH 5.5: 1.25 g")
	require.Contains(t, say("river-ochre", "acid citric acid 10 %, 30 g, strip 1, drop 0.05 g", "acid"),
		"A strip of whole units tells little")

	said = say("chalk", "acid vinegar, 30 g, drop 0.05 g", "ph 9", "ph 6 after 20 drops", "ph 8, wait 10 min",
		"ph 5 after 20 drops, wait 10 min")
	require.Contains(t, said, "It fizzes: open bowl, a drop at a time; never a closed jar")
	require.Contains(t, said, "read again after ten minutes. Never a closed jar")
	require.Contains(t, said, "For pH 5.5: 6.11 g", "9, then 8 and not 6 at 1 g, then 5 at 2 g")

	require.Contains(t, daub(h, "check", filepath.Join(h.shelf, "powders", "chalk.toml")).out, "sound")
}
