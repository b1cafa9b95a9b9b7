package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A trial side by side in lines, from the reference dish to the factor in the
// answer, the comparison and its JSON. An unfinished trial by levels is not what
// is gone on with.
func TestBesideInLines(t *testing.T) {
	h := testHost(t)
	clay := read(t, lightClay)
	shelve(t, h, "light-white-clay", clay)
	rye := strings.Replace(clay, "Light white clay", "Rye flour", 1)
	rye = strings.Replace(rye, `state = "done"`, `state = "open"`, 1)
	shelve(t, h, "rye-flour", rye)

	typed := []string{"", "us", "1/4 tsp", "0.01", "20 g"} // weighings go on; spoons, scale, liquid
	typed = append(typed, "16 g", "2", "10 g", "4", "liquid 1 g", "3", "again", "3", "finish")
	got := daub(typing(h, typed...), "trial", "--plain", "rye-flour", "--beside", "light-white-clay")
	require.Zero(t, got.code, got.err)
	for _, part := range []string{
		"The reference dish: trial 1 of Light white clay, at 5 spread", "Keep it covered",
		"Beside trial 1 of Light white",
		"1 much thinner, 2 thinner, 3 the same, 4 thicker, 5 much thicker", "It looks thinner; saved.",
		"as much water as", "by weight", "The trial is finished",
	} {
		require.Contains(t, flat(got.out), part)
	}
	require.NotContains(t, got.out, "is unfinished", "a trial by levels is another one")
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
