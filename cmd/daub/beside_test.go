package main

import (
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A side-by-side trial in lines: from the reference dish to the factor in the
// answer, the comparison and its JSON. An unfinished trial by levels is left alone.
func TestBesideInLines(t *testing.T) {
	h := testHost(t)
	clay := read(t, lightClay)
	shelve(t, h, "light-white-clay", clay)
	rye := strings.Replace(clay, "Light white clay", "Rye flour", 1)
	rye = strings.Replace(rye, `state = "done"`, `state = "open"`, 1)
	shelve(t, h, "rye-flour", rye)

	h.in = strings.NewReader("")
	old := daub(h, "trial", "--plain", "rye-flour", "--beside", "light-white-clay")
	require.Equal(t, exitAnswered, old.code, "the end of the input leaves, as elsewhere: %s", old.out)
	require.Empty(t, old.err)
	require.Contains(t, flat(old.out), "The last dish of Light white clay is of 2026-01-10, and a wet dish keeps "+
		"a day. Is it before you, kept covered and fit to use? yes or no (Enter: no)")
	left := daub(typing(h, "quit", "never read"), "trial", "--plain", "rye-flour", "--beside", "light-white-clay")
	require.Equal(t, exitAnswered, left.code, left.err)
	gone := daub(typing(h, ""), "trial", "--plain", "rye-flour", "--beside", "light-white-clay")
	require.Equal(t, exitCannot, gone.code, "no file is at fault")
	require.Contains(t, gone.err, "make a trial of Light white clay first, and keep its dish covered")

	typed := []string{"yes", "spoons", "", "us", "1/4 tsp", "0.01", "20 g"}
	typed = append(typed, "help", "16 g", "1", "mend 1 thinner", "10 g", "4", "liquid 1 g", "3", "again", "3",
		"mend 4 beside thicker", "mend 4 3", "finish")
	got := daub(typing(h, typed...), "trial", "--plain", "rye-flour", "--beside", "light-white-clay")
	require.Zero(t, got.code, got.err)
	for _, part := range []string{
		"The reference dish: trial 1 of Light white clay, at 5 spread", "Keep it covered",
		"Beside trial 1 of Light white",
		"1 much thinner, 2 thinner, 3 the same, 4 thicker, 5 much thicker", "It looks much thinner; saved.",
		"Step 1 is mended",
		"as much water as", "by weight", "The trial is finished",
	} {
		require.Contains(t, flat(got.out), part)
	}
	require.NotContains(t, got.out, "is unfinished", "a trial by levels is another one")
	require.NotContains(t, got.out, "look: look", "what to do is said once")
	require.NotContains(t, got.out, "Not done")
	require.Contains(t, flat(got.out), "mend 3 thicker mends the look of step 3")
	require.NotContains(t, flat(got.out), "0 to 7")
	file := read(t, filepath.Join(h.shelf, "powders", "rye-flour.toml"))
	require.Contains(t, file, "[trial.match]")
	require.Equal(t, 2, strings.Count(file, `beside = "same"`), file)

	var compared struct {
		Pairs []struct {
			Scale string `json:"scale"`
		} `json:"pairs"`
	}
	answer := daub(h, "compare", "light-white-clay", "rye-flour", "--json").out
	require.NoError(t, json.Unmarshal([]byte(answer), &compared))
	require.Equal(t, "side-by-side", compared.Pairs[0].Scale)
	require.Contains(t, flat(daub(h, "compare", "light-white-clay", "rye-flour").out),
		"side by side (trial 2 of Rye flour")
	require.Contains(t, flat(daub(h, "show", "rye-flour").out), "side by side")
}

// besideChalk is a powder that was only tried beside a dish of a clay.
const besideChalk = `schema = 1

[powder]
name = "Soft chalk"
family = "mineral"

[[trial]]
started = 2026-05-03T09:00:00Z
state = "done"
liquid = "vinegar"
liquid_g = 20.0

  [trial.match]
  powder = "light-white-clay"
  powder_per_liquid = 0.9

  [[trial.step]]
  add = "powder"
  grams = 9.0
  beside = "thinner"

  [[trial.step]]
  at = 2026-05-03T09:10:00Z
  add = "powder"
  grams = 9.0
  beside = "thicker"

  [[trial.later]]
  at = 2026-05-03T09:40:00Z
  level = 6.0
`

// A powder with only side-by-side trials has no ratio. Every list says so in the
// same words; its JSON keys stay.
func TestAPowderTriedSideBySideOnly(t *testing.T) {
	h := clays(t)
	shelve(t, h, "soft-chalk", besideChalk)
	const words = "side by side only"
	for _, command := range [][]string{
		{"list"},
		{"export", "soft-chalk", "--to", "md"},
		{"export", "soft-chalk", "--to", "csv"},
		{"compare", "soft-chalk", "heavy-swelling-clay"},
		{"show", "soft-chalk"},
	} {
		got := daub(h, command...)
		require.Zero(t, got.code, got.err)
		require.Contains(t, strings.ToLower(flat(got.out)), words, command[0])
		require.NotContains(t, strings.ToLower(got.out), "no finished trial", command[0])
	}
	require.Contains(t, flat(daub(h, "show", "soft-chalk").out),
		"30 min after the last addition: 6 stiff as it stands.")
	require.Contains(t, daub(h, "show", "soft-chalk").out, "done, side by side", "not a ratio by levels")
	picture := daub(h, "picture", "soft-chalk", "-o", filepath.Join(t.TempDir(), "chalk.svg"))
	require.Contains(t, picture.err, words)
	require.Regexp(t, `Soft chalk .* side by side only .* 1\n`, daub(h, "list").out)
	one := testHost(t) // a short list has room for the newest trial
	shelve(t, one, "soft-chalk", besideChalk)
	require.Regexp(t, `Soft chalk .* side by side only .* 1  2026-05`, daub(one, "list").out)
	listed := decode[[]listJSON](t, daub(h, "list", "--json"))
	chalk := listed[slices.IndexFunc(listed, func(l listJSON) bool { return l.Slug == "soft-chalk" })]
	require.Equal(t, 1, chalk.Trials)
	require.Equal(t, 1, decode[showJSON](t, daub(h, "show", "soft-chalk", "--json")).Trials, "as list has it")
	require.Equal(t, "2026-05", chalk.LastTrial.Format("2006-01"))
	require.Nil(t, chalk.Ratio, "not a ratio by levels")
	require.NotContains(t, daub(h, "list", "--json").out, words)
	out := filepath.Join(t.TempDir(), "chalk.html")
	require.Zero(t, daub(h, "page", "soft-chalk", "-o", out).code)
	require.Contains(t, read(t, out), "as much vinegar as", "the page has the answer side by side")
}
