package data

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A client that keeps two machines' shelves alike puts another file in the
// place of one that is open here, with a time of its own, and the same size:
// the save is refused, and neither state is lost.
func TestSyncClientBringsAnotherFile(t *testing.T) {
	s := newShelf(t)
	here := save(t, s, "Rye", "1")
	info, err := os.Stat(here.Path)
	require.NoError(t, err)
	there := []byte("schema = 1\n\n[powder]\nname = \"Rye\"\nlot = \"2\"\n")
	require.Len(t, there, int(info.Size()), "as long as what stands there")
	brought := filepath.Join(t.TempDir(), "brought")
	require.NoError(t, os.WriteFile(brought, there, 0o644))
	require.NoError(t, os.Chtimes(brought, info.ModTime(), info.ModTime()))
	require.NoError(t, os.Rename(brought, here.Path))

	here.Profile.Powder.Notes = "sifted"
	_, err = s.Save(here)
	require.ErrorIs(t, err, ErrChanged)
	assert.Equal(t, there, read(t, here.Path))
	here.Slug, here.Path, here.Read = "", "", nil // saved beside it
	beside, err := s.Save(here)
	require.NoError(t, err)
	assert.NotEqual(t, filepath.Join(s.Dir(), powdersFolder, "rye-2.toml"), here.Path)
	entries, errs := s.List()
	require.Empty(t, errs)
	require.Len(t, entries, 2)
	assert.Contains(t, string(read(t, beside.Path)), "sifted")
}

// The copy that such a client makes of two states, and its own half-written
// files, leave the powder itself readable and writable.
func TestSyncClientLeavesCopies(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Rye", "")
	text := read(t, e.Path)
	folder := filepath.Dir(e.Path)
	for _, name := range []string{
		"rye (copy of another machine 2026-05-03).toml", ".rye.toml.part", "~rye.toml.tmp", "rye.toml.partial",
	} {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), text[:len(text)-3], 0o644))
	}
	e, err := s.Load("rye")
	require.NoError(t, err)
	e.Profile.Powder.Notes = "sifted"
	_, err = s.Save(e)
	require.NoError(t, err)
	assert.Len(t, files(t, s), 5, "nothing of another program is taken away")
	entries, errs := s.List()
	assert.Len(t, entries, 1)
	require.Len(t, errs, 1, "the cut copy is told, the unfinished ones are nobody's powders")
	assert.ErrorContains(t, errs[0], "copy of another machine")
}

// The times of files, which a clock that was set wrong gives them, decide nothing.
func TestClockSetBackOnTheShelf(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Rye", "")
	for _, at := range []time.Time{time.Unix(0, 0), time.Date(2199, 1, 1, 0, 0, 0, 0, time.UTC)} {
		for _, path := range []string{e.Path, filepath.Dir(e.Path), s.Dir()} {
			require.NoError(t, os.Chtimes(path, at, at))
		}
		e.Profile.Powder.Notes += "."
		next, err := s.Save(e)
		require.NoError(t, err)
		require.NoError(t, os.Chtimes(next.Path, at, at))
		back, err := s.Load("rye")
		require.NoError(t, err)
		require.Equal(t, e.Profile.Powder.Notes, back.Profile.Powder.Notes)
		e = next
	}
}
