package data

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The lock lies in the shelf, is told to git, and says nobody has it once the
// save is over.
func TestLockLiesInTheShelf(t *testing.T) {
	s := newShelf(t)
	save(t, s, "Alpha", "")
	assert.Empty(t, read(t, filepath.Join(s.dir, lockFile)))
	assert.Equal(t, ignored, string(read(t, filepath.Join(s.dir, ignoreFile))))

	s = newShelf(t)
	require.NoError(t, os.MkdirAll(s.dir, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(s.dir, ignoreFile), []byte("mine"), 0o644))
	save(t, s, "Alpha", "")
	save(t, s, "Beta", "")
	assert.Equal(t, "mine\n"+ignored, string(read(t, filepath.Join(s.dir, ignoreFile))))
}

// Another machine's lock is told with its owner, once, and hinders nobody; one
// that this machine left behind is not worth a word.
func TestLockOfAnotherMachineWarns(t *testing.T) {
	s := newShelf(t)
	save(t, s, "Alpha", "")
	var told []string
	s.warn = func(text string) { told = append(told, text) }
	lock := filepath.Join(s.dir, lockFile)
	require.NoError(t, os.WriteFile(lock,
		[]byte("owner = \"anna\"\nmachine = \"the loft\"\ntime = 2026-05-03T10:12:00Z\n"), 0o666))
	save(t, s, "Beta", "")
	require.Len(t, told, 1)
	assert.Contains(t, told[0], "anna on the loft began to save to the shelf "+s.dir+" at 2026-05-03T10:12:00Z")
	save(t, s, "Gamma", "")
	assert.Len(t, told, 1)

	here, err := os.Hostname()
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(lock, []byte("owner = \"anna\"\nmachine = \""+here+"\"\n"), 0o666))
	save(t, s, "Delta", "")
	require.NoError(t, os.WriteFile(lock, []byte("<<<<<<< anything"), 0o666))
	save(t, s, "Epsilon", "")
	assert.Len(t, told, 1)
}

// What lies in the lock's place and is no plain file is not followed.
func TestLockThatIsNoFile(t *testing.T) {
	s := newShelf(t)
	require.NoError(t, os.MkdirAll(filepath.Join(s.dir, lockFile), 0o755))
	_, err := s.Save(Entry{Profile: profile("Alpha", "")})
	require.ErrorContains(t, err, "no plain file")
}

// A name taken by a folder, whatever its case, is passed over.
func TestNewFileBesideAFolder(t *testing.T) {
	s := newShelf(t)
	require.NoError(t, os.MkdirAll(filepath.Join(s.dir, powdersFolder, "Rye.toml"), 0o755))
	require.NoError(t, os.MkdirAll(filepath.Join(s.dir, powdersFolder, "rye-2.toml"), 0o755))
	assert.Equal(t, "rye-3", save(t, s, "Rye", "").Slug)
}

// A change that comes between the comparison and the last moment is seen too.
func TestChangeAtTheLastMomentIsSeen(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Alpha", "")
	there := read(t, e.Path)
	require.NoError(t, os.WriteFile(e.Path, []byte("# written elsewhere\n"), 0o644))
	err := s.replace(e.Path, []byte("new"), there)
	require.ErrorIs(t, err, ErrChanged)
	assert.Equal(t, "# written elsewhere\n", string(read(t, e.Path)))
	assert.Equal(t, []string{"alpha.toml"}, files(t, s))
}

// A spoon list is read once a visit: what comes between is not mixed in.
func TestVisitReadsSpoonsOnce(t *testing.T) {
	s := newShelf(t)
	save(t, s, "Alpha", "")
	require.NoError(t, os.WriteFile(s.SpoonsPath(), []byte("[[spoon]]\nname = \"cap\"\nvolume_ml = 4.0\n"), 0o644))
	v := s.Visit()
	require.NoError(t, os.WriteFile(s.SpoonsPath(), []byte("broken"), 0o644))
	_, err := v.Find("Alpha")
	require.NoError(t, err)
	_, errs := v.List()
	require.Empty(t, errs)
	require.NoError(t, v.Err)
	require.Len(t, v.OwnSpoons, 1)
}

// What a killed save left is gone after the next save of another program.
func TestSaveSweepsWhatAKilledSaveLeft(t *testing.T) {
	s := newShelf(t)
	save(t, s, "Alpha", "")
	old := time.Now().Add(-72 * time.Hour)
	var left []string
	for _, folder := range []string{"", powdersFolder} {
		path := filepath.Join(s.Dir(), folder, ".alpha.toml.4711-0.tmp")
		require.NoError(t, os.WriteFile(path, []byte("sche"), 0o644))
		require.NoError(t, os.Chtimes(path, old, old))
		left = append(left, path)
	}
	save(t, s, "beta", "")
	require.FileExists(t, left[0], "a program looks once, at its first save")
	save(t, Open(s.Dir(), nil), "gamma", "")
	for _, path := range left {
		require.NoFileExists(t, path)
	}
}
