package data_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daub.example/daub/data"
	"daub.example/daub/data/record"
	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const besideFile = `schema = 1

[powder]
name = "Green hill clay"

[[trial]]
started = 2026-05-03T10:12:00Z
state = "done"
liquid_g = 20.0

  [trial.match]
  powder = "grey-basin-clay"
  name = "Grey basin clay"
  trial = 1
  step = 8
  made = 2026-05-03T09:58:00Z
  powder_per_liquid = 0.231
  level = 4.5
  half = 0.03

  [[trial.step]]
  add = "powder"
  grams = 4.0
  beside = "much thinner"

  [[trial.step]]
  add = "powder"
  grams = 1.0
  beside = "same"
`

// A trial beside a reference dish is read, and written back as it was.
func TestBesideRoundTrip(t *testing.T) {
	f, doc, problems := record.ReadProfile([]byte(besideFile), nil)
	require.Empty(t, problems)
	trial := f.Profile.Trials[0]
	require.NotNil(t, trial.Match)
	assert.Equal(t, 4.5, trial.Match.Level)
	assert.Equal(t, model.MuchThinner, trial.Steps[0].Beside)
	assert.True(t, trial.Steps[1].Looked)
	assert.False(t, trial.Used(), "no ratio by levels rests on it")

	out, err := record.WriteProfile(f.Profile, nil, nil, doc)
	require.NoError(t, err)
	assert.NotContains(t, string(out), "level = 0")
	again, _, problems := record.ReadProfile(out, nil)
	require.Empty(t, problems)
	assert.Equal(t, f.Profile, again.Profile)
}

// What stood behind the reserved name before is kept as it is, with a warning.
func TestMatchOfAnotherShapeIsKept(t *testing.T) {
	head, rest, _ := strings.Cut(besideFile, "  [trial.match]")
	_, steps, _ := strings.Cut(rest, "  [[trial.step]]")
	steps = "  [[trial.step]]" + strings.NewReplacer("beside = \"much thinner\"", "level = 1.0",
		"beside = \"same\"", "level = 4.0").Replace(steps)
	for _, kept := range []string{"match = \"as thick as the grey one\"\n", "\n  [trial.match]\n  dish = 3\n\n"} {
		src := head + kept + steps
		f, doc, problems := record.ReadProfile([]byte(src), nil)
		require.Empty(t, problems, kept)
		assert.Nil(t, f.Profile.Trials[0].Match)
		out, err := record.WriteProfile(f.Profile, nil, nil, doc)
		require.NoError(t, err)
		assert.Contains(t, string(out), strings.TrimSpace(kept[strings.LastIndex(strings.TrimSpace(kept), "\n")+1:]))
		file := filepath.Join(t.TempDir(), "green-hill-clay.toml")
		require.NoError(t, os.WriteFile(file, []byte(src), 0o600))
		_, warnings := data.Check(file, nil)
		require.NotEmpty(t, warnings)
		assert.Contains(t, warnings[len(warnings)-1].What, "match is not written as daub writes it")
	}
}

func TestBesideRefuses(t *testing.T) {
	for change, want := range map[string]string{
		`beside = "same"`: "a level and a look beside a dish",
	} {
		text := strings.Replace(besideFile, change, change+"\n  level = 4.0", 1)
		_, _, problems := record.ReadProfile([]byte(text), nil)
		require.NotEmpty(t, problems)
		assert.Contains(t, problems[0].What, want)
	}
	_, _, problems := record.ReadProfile([]byte(strings.Replace(besideFile, `"same"`, `"alike"`, 1)), nil)
	require.NotEmpty(t, problems)
}
