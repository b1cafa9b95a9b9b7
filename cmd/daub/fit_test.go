package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daub.example/daub/data"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// within checks a number to half a percent, the most that a change of the
// quadrature may move it.
func within(t *testing.T, want float64, got *float64) {
	t.Helper()
	require.NotNil(t, got)
	require.InEpsilon(t, want, *got, 0.005)
}

func decode[T any](t *testing.T, got said) T {
	t.Helper()
	var v T
	require.NoError(t, json.Unmarshal([]byte(got.out), &v), got.err)
	return v
}

// The main job from end to end: a file in, the ratio out. The two clays are common
// practice, no published source.
func TestFitTheTwoClays(t *testing.T) {
	tests := []struct {
		file              string
		median, low, high float64
		looks             int
		advice            string
	}{
		{lightClay, 0.627, 0.540, 0.684, 10, "weigh"},
		{heavyClay, 4.76, 4.02, 5.40, 2, "weigh"},
	}
	for _, tt := range tests {
		got := daub(testHost(t), "fit", tt.file, "--level", "5", "--json")
		require.Zero(t, got.code, got.err)
		f := decode[fitJSON](t, got)
		require.Equal(t, "bracketed", f.Reach)
		require.Equal(t, 5.0, f.Level)
		require.Equal(t, 1, f.Trial)
		require.Equal(t, tt.looks, f.Looks)
		require.Nil(t, f.Bound)
		require.NotNil(t, f.Advice)
		require.Equal(t, tt.advice, f.Advice.Action, "the spoon was weighed once only")
		within(t, tt.median, f.Fit.Median)
		within(t, tt.low, f.Fit.Low)
		within(t, tt.high, f.Fit.High)
		require.Equal(t, *f.Fit.Median, *f.Ratio.Median, "the masses widen the interval, not the ratio")
		require.Less(t, *f.Ratio.Low, *f.Fit.Low)
		require.Greater(t, *f.Ratio.High, *f.Fit.High)
		b := f.Budget
		require.InDelta(t, 1, *b.Looks+*b.SpoonWeight+*b.Scoops+*b.PowderScale+*b.Liquid+*b.SpoonSize, 0.001)
	}
}

// fit, show, list and check agree on the same shelf.
func TestCommandsAgree(t *testing.T) {
	h := clays(t)
	list := decode[[]listJSON](t, daub(h, "list", "--json"))
	require.Len(t, list, 3)
	for _, l := range list {
		f := decode[fitJSON](t, daub(h, "fit", l.File, "--json"))
		s := decode[showJSON](t, daub(h, "show", l.Slug, "--json"))
		require.Equal(t, l.Powder, f.Powder)
		require.Equal(t, l.powderJSON, s.powderJSON)
		require.Equal(t, l.Basis, s.Basis)
		require.Equal(t, l.AtLevel, s.AtLevel)
		require.Equal(t, f.Level, s.Level, "both ask at the aim")
		require.Equal(t, f.Reach, s.TrialList[0].Reach)
		require.Equal(t, f.Ratio, s.TrialList[0].Ratio, "show reads each trial as fit does")
		require.Equal(t, f.Bound, s.TrialList[0].Bound)
		if s.Trials == 1 && f.Ratio != nil {
			within(t, *f.Ratio.Median, s.Ratio.Median)
			require.Less(t, *s.Ratio.Low, *f.Ratio.Low, "one dish may differ from the next")
			require.Less(t, *s.Next.Low, *s.Ratio.Low)
		}
		c := decode[[]checkJSON](t, daub(h, "check", l.File, "--json"))
		require.True(t, c[0].OK)
	}
}

func TestFitTakesTheLastTrialThatCounts(t *testing.T) {
	trial := func(started, state, aside, aim string) string {
		return "[[trial]]\nstarted = " + started + "\nstate = \"" + state + "\"\nset_aside = \"" + aside +
			"\"\nliquid_g = 10.0\naim = " + aim +
			"\n[[trial.step]]\nadd = \"powder\"\ngrams = 5.0\nlevel = 4.0\n"
	}
	const head = "schema = 1\n[powder]\nname = \"X\"\n"
	tests := []struct {
		name   string
		trials []string
		args   []string
		trial  int
		code   int
	}{
		{"newest done", []string{
			trial("2026-03-02T10:00:00Z", "done", "", "3.0"), trial("2026-03-01T10:00:00Z", "done", "", "4.0"),
			trial("2026-03-03T10:00:00Z", "done", "spilled", "4.0"), trial("2026-03-04T10:00:00Z", "open", "", "4.0"),
		}, nil, 1, 0},
		{"else the open one", []string{
			trial("2026-03-02T10:00:00Z", "open", "", "3.0"), trial("2026-03-01T10:00:00Z", "done", "spilled", "4.0"),
		}, nil, 1, 0},
		{"of equals the later", []string{
			trial("2026-03-02T10:00:00Z", "done", "", "3.0"), trial("2026-03-02T10:00:00Z", "done", "", "4.0"),
		}, nil, 2, 0},
		{"none left", []string{trial("2026-03-02T10:00:00Z", "done", "spilled", "3.0")}, nil, 0, 1},
		{
			"asked for",
			[]string{trial("2026-03-02T10:00:00Z", "done", "spilled", "3.0")},
			[]string{"--trial", "1"},
			1,
			0,
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			file := filepath.Join(t.TempDir(), "x.toml")
			require.NoError(t, os.WriteFile(file, []byte(head+strings.Join(tt.trials, "")), 0o644))
			got := daub(testHost(t), append([]string{"fit", file, "--json"}, tt.args...)...)
			require.Equal(t, tt.code, got.code, got.err)
			if tt.code == 0 {
				require.Equal(t, tt.trial, decode[fitJSON](t, got).Trial)
			}
			if tt.args != nil {
				require.Contains(t, got.err, "set aside (spilled)")
			}
		})
	}
}

// A level out of reach has an answer: a bound, and how to close it.
func TestFitNotReached(t *testing.T) {
	h := clays(t)
	file := filepath.Join(h.shelf, "powders", "new-flour-a.toml")
	got := daub(h, "fit", file, "--level", "6", "--json")
	require.Zero(t, got.code)
	f := decode[fitJSON](t, got)
	require.Equal(t, "not-reached", f.Reach)
	require.Nil(t, f.Fit)
	require.Nil(t, f.Ratio)
	require.Nil(t, f.Budget)
	require.Nil(t, f.Bound.Low)
	within(t, 4, f.Bound.High)
	require.Contains(t, daub(h, "fit", file, "--level", "6").out,
		"Level 6 stiff is not reached: it takes less than 4.00 g water per g powder")
}

// The maker's own spoons are used for files anywhere. If their list cannot be read,
// nothing is guessed.
func TestFitWithOwnSpoons(t *testing.T) {
	h := testHost(t)
	file := filepath.Join(t.TempDir(), "x.toml")
	text := strings.ReplaceAll(read(t, heavyClay), "1/8 tsp", "blue scoop")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	got := daub(h, "fit", file)
	require.Equal(t, exitBadData, got.code)
	require.Contains(t, got.err, "blue scoop")

	require.NoError(t, os.MkdirAll(h.shelf, 0o755))
	spoons := filepath.Join(h.shelf, "spoons.toml")
	require.NoError(t, os.WriteFile(spoons,
		[]byte("[[spoon]]\nname = \"blue scoop\"\nvolume_ml = 0.61611519921875\n"), 0o644))
	got = daub(h, "fit", file, "--json")
	require.Zero(t, got.code, got.err)
	within(t, 4.76, decode[fitJSON](t, got).Fit.Median)

	require.NoError(t, os.WriteFile(spoons, []byte("[[spoon]]\nname = \"blue scoop\"\n"), 0o644))
	for _, args := range [][]string{{"fit", lightClay}, {"check", lightClay}} {
		got = daub(h, args...)
		require.Equal(t, exitBadData, got.code, args)
		require.Contains(t, got.err, "spoons.toml:", args)
	}
}

// A look far from the others is reported, and kept.
func TestFitPointsAtAFarOutLook(t *testing.T) {
	file := filepath.Join(t.TempDir(), "x.toml")
	slip := "  [[trial.step]]\n  add = \"none\"\n  level = 0.0\n"
	require.NoError(t, os.WriteFile(file, []byte(read(t, lightClay)+slip), 0o644))
	got := daub(testHost(t), "fit", file)
	require.Zero(t, got.code, got.err)
	require.Contains(t, got.out, "step 12: level 0 at 0.640 g water per g powder")
	require.NotContains(t, daub(testHost(t), "fit", lightClay).out, "Far from")
}

// A dish that is done is told apart from the powder, whose next dish may differ.
func TestFitOfAFinishedDish(t *testing.T) {
	h := testHost(t)
	require.NoError(t, data.WriteSample(h.shelf))
	said := func(powder string, more ...string) string {
		got := daub(h, append([]string{"fit", powder}, more...)...)
		require.Zero(t, got.code, got.err)
		return strings.Join(strings.Fields(got.out), " ")
	}
	one := said("tuber starch")
	for _, want := range []string{
		"this dish takes 0.761", "If spoons and scale were exact: 0.761 (0.656 to 0.829).",
		"The powder, allowing for dishes that differ: 0.758 (0.581 to 0.967).", "This dish is done: the looks",
		"Dishes differ: for recipes make a second trial of the powder",
	} {
		assert.Contains(t, one, want)
	}
	assert.NotContains(t, one, "stop:")
	basin := said("grey basin clay")
	assert.NotContains(t, basin, "brings it back", "that dish is long gone")
	assert.Contains(t, basin, "34 the looks 18 what a level spoon", "what hardly helps is not advised")

	three := said("pale valley clay")
	assert.Contains(t, three, "The powder, by its 3 trials together: 0.943 (0.845 to 1.05).")
	assert.NotContains(t, three, "second trial")
	assert.NotContains(t, said("winter barley flour"), "were exact", "all was weighed")
}

// A powder of the shelf may be named instead of a file.
func TestFitNamesAPowder(t *testing.T) {
	h := testHost(t)
	require.NoError(t, data.WriteSample(h.shelf))
	byName := daub(h, "fit", "Tuber starch")
	require.Zero(t, byName.code, byName.err)
	assert.Equal(t, daub(h, "fit", h.shelf+"/powders/tuber-starch.toml").out, byName.out)
	wrong := daub(h, "fit", "tuber.toml")
	assert.Equal(t, exitBadData, wrong.code)
	assert.Equal(t, "daub: tuber.toml: there is no such file, and no powder of that name on the shelf; check the "+
		"path, or see daub list\n", wrong.err)
}
