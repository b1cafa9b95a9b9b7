package data

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDeletedFilesAreMovedAndComeBack(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Moor mud", "1")
	before, err := os.ReadFile(e.Path)
	require.NoError(t, err)

	restore, err := s.Delete(e)
	require.NoError(t, err)
	assert.NoFileExists(t, e.Path)
	kept := filepath.Join(s.Dir(), "deleted", "moor-mud-1.toml")
	now, err := os.ReadFile(kept)
	require.NoError(t, err)
	assert.Equal(t, before, now, "moved as it was")
	entries, errs := s.List()
	assert.Empty(t, entries)
	assert.Empty(t, errs)

	back, err := restore()
	require.NoError(t, err)
	assert.Equal(t, e.Slug, back.Slug)
	assert.Equal(t, e.Profile, back.Profile)
	assert.NoFileExists(t, kept)
	_, err = s.Save(back)
	assert.NoError(t, err, "what came back can be saved again")
}

// Two deleted files of one name both stay, and what was changed elsewhere is
// not deleted unseen.
func TestNothingIsLostByDeleting(t *testing.T) {
	s := newShelf(t)
	for range 2 {
		_, err := s.Delete(save(t, s, "Moor mud", ""))
		require.NoError(t, err)
	}
	assert.FileExists(t, filepath.Join(s.Dir(), "deleted", "moor-mud.toml"))
	assert.FileExists(t, filepath.Join(s.Dir(), "deleted", "moor-mud-2.toml"))

	e := save(t, s, "Moor mud", "")
	other, err := s.Load(e.Slug)
	require.NoError(t, err)
	other.Profile.Powder.Notes = "from the other machine"
	_, err = s.Save(other)
	require.NoError(t, err)
	_, err = s.Delete(e)
	require.ErrorIs(t, err, ErrChanged)
	assert.FileExists(t, e.Path)
	require.NoError(t, os.Remove(e.Path))
	_, err = s.Delete(e)
	assert.ErrorContains(t, err, "gone already")
}

func TestATrialIsKeptBeforeItIsTakenOut(t *testing.T) {
	s := newShelf(t)
	p := profile("Moor mud", "1")
	for hour := range 2 {
		p.Trials = append(p.Trials, model.Trial{Started: time.Date(2026, 5, 3, hour, 0, 0, 0, time.UTC), LiquidG: 20})
	}
	path, err := s.KeepTrial(Entry{Profile: p}, 1)
	require.NoError(t, err)
	assert.Equal(t, filepath.Join(s.Dir(), "deleted"), filepath.Dir(path))
	kept, err := ReadPowder(path, nil)
	require.NoError(t, err)
	require.Len(t, kept.Trials, 1)
	assert.Equal(t, p.Trials[1].Started, kept.Trials[0].Started)
	assert.Equal(t, p.Powder.Name, kept.Powder.Name)
}
