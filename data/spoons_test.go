package data

import (
	"errors"
	"os"
	"testing"
	"time"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSpoons(t *testing.T) {
	s := newShelf(t)
	own, err := s.Spoons()
	require.NoError(t, err)
	assert.Empty(t, own)
	want := model.OwnSpoons{
		{Name: "blue scoop", VolumeML: 2.4, UncertaintyML: 0.05, Own: true},
		{Name: "lid", VolumeML: 11, Own: true},
	}
	require.NoError(t, s.SaveSpoons(nil, want))
	own, err = s.Spoons()
	require.NoError(t, err)
	assert.Equal(t, want, own)

	commented := "# my spoons\n\n[[spoon]]\nname = \"lid\"  # of the jar\nvolume_ml = 11.0\n"
	require.NoError(t, os.WriteFile(s.SpoonsPath(), []byte(commented), 0o644))
	require.ErrorIs(t, s.SaveSpoons(want, want), ErrChanged)
	require.NoError(t, s.SaveSpoons(want[1:], want))
	text, err := os.ReadFile(s.SpoonsPath())
	require.NoError(t, err)
	assert.Equal(t, "# my spoons\n\n[[spoon]]\nname = \"blue scoop\"\nvolume_ml = 2.4\nstandard_uncertainty_ml = "+
		"0.05\n\n[[spoon]]\nname = \"lid\"  # of the jar\nvolume_ml = 11.0\n", string(text))

	broken := []byte("[[spoon]]\nName = \"lid\"\nvolume_ml = 0\n")
	require.NoError(t, os.WriteFile(s.SpoonsPath(), broken, 0o644))
	_, err = s.Spoons()
	var refused *tomlfile.Error
	require.ErrorAs(t, err, &refused)
	assert.Equal(t, []int{1, 2, 3}, []int{refused.Problems[0].Line, refused.Problems[1].Line, refused.Problems[2].Line})
	require.ErrorAs(t, s.SaveSpoons(want, want[:1]), &refused)
	text, err = os.ReadFile(s.SpoonsPath())
	require.NoError(t, err)
	assert.Equal(t, broken, text)
	require.Error(t, s.SaveSpoons(nil, model.OwnSpoons{{Name: "", VolumeML: 1}}))
	save(t, s, "Alpha", "") // needs no spoon of the maker's own
	entries, errs := s.List()
	assert.Len(t, entries, 1)
	require.Len(t, errs, 1)
	assert.True(t, errors.As(errs[0], &refused))
}

func TestSpoonInUseStays(t *testing.T) {
	s := newShelf(t)
	own := model.OwnSpoons{{Name: "cap", VolumeML: 4}, {Name: "lid", VolumeML: 11}}
	require.NoError(t, s.SaveSpoons(nil, own))
	p := profile("Alpha", "")
	p.Trials = []model.Trial{{
		Started: time.Date(2026, 5, 3, 10, 12, 0, 0, time.UTC), LiquidG: 20,
		Spoons: []string{"cap"},
	}}
	_, err := s.Save(Entry{Profile: p})
	require.NoError(t, err)
	require.NoError(t, s.SaveSpoons(own, own[:1]))
	err = s.SaveSpoons(own[:1], nil)
	require.ErrorContains(t, err, "alpha.toml")
	again, err := s.Spoons()
	require.NoError(t, err)
	assert.Len(t, again, 1)
}
