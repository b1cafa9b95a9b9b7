package atomicfile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// names lists what is in a folder.
func names(t *testing.T, dir string) []string {
	t.Helper()
	found, err := os.ReadDir(dir)
	require.NoError(t, err)
	var out []string
	for _, f := range found {
		out = append(out, f.Name())
	}
	return out
}

func put(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
}

func get(t *testing.T, path string) string {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(text)
}

func TestRead(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	put(t, path, "12345")
	text, err := Read(path, 5)
	require.NoError(t, err)
	assert.Equal(t, "12345", string(text))
	_, err = Read(path, 4)
	require.ErrorIs(t, err, ErrTooLarge)
	_, err = Read(dir, 4)
	require.ErrorIs(t, err, ErrFolder)
	_, err = Read(filepath.Join(dir, "none"), 4)
	require.ErrorIs(t, err, fs.ErrNotExist)
}

func TestReadOfLinks(t *testing.T) {
	dir := t.TempDir()
	link := filepath.Join(dir, "link")
	if err := os.Symlink(filepath.Join(dir, "a"), link); err != nil {
		t.Skip("no links here:", err)
	}
	_, err := Read(link, 5)
	require.ErrorIs(t, err, ErrNowhere)
	require.NotErrorIs(t, err, fs.ErrNotExist)
	put(t, filepath.Join(dir, "a"), "1")
	text, err := Read(link, 5)
	require.NoError(t, err)
	assert.Equal(t, "1", string(text))
}

func TestReplace(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	put(t, path, "old")
	stop := errors.New("stop")
	err := Replace(path, []byte("new"), func() error {
		beside := names(t, dir)
		require.Len(t, beside, 2)
		assert.Equal(t, "new", get(t, filepath.Join(dir, beside[0])), "all of it is on the disk by now")
		return stop
	})
	require.ErrorIs(t, err, stop)
	assert.Equal(t, "old", get(t, path))
	assert.Equal(t, []string{"a"}, names(t, dir))

	require.NoError(t, Replace(path, []byte("new"), nil))
	assert.Equal(t, "new", get(t, path))
	require.NoError(t, os.Chmod(path, 0o444))
	require.ErrorIs(t, Replace(path, []byte("newer"), nil), ErrReadOnly)
	require.ErrorIs(t, Replace(dir, []byte("newer"), nil), ErrNotPlain)
	assert.Equal(t, []string{"a"}, names(t, dir))
}

// noLinks is a file system without hard links.
type noLinks struct{ System }

func (noLinks) Link(string, string) error { return errors.ErrUnsupported }

// A name that is taken stays what it is, with and without links.
func TestCreate(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a")
	require.NoError(t, Create(path, []byte("first")))
	require.ErrorIs(t, Create(path, []byte("second")), fs.ErrExist)
	assert.Equal(t, "first", get(t, path))
	assert.Equal(t, []string{"a"}, names(t, dir))

	d := Disk{Calls: noLinks{}}
	temp, other := filepath.Join(dir, "temp"), filepath.Join(dir, "b")
	put(t, temp, "third")
	require.ErrorIs(t, d.putNew(temp, path), fs.ErrExist)
	assert.Equal(t, "first", get(t, path))
	require.NoError(t, d.putNew(temp, other))
	assert.Equal(t, "third", get(t, other))
	assert.Equal(t, []string{"a", "b"}, names(t, dir))
}

// Of many that make the same file, one does.
func TestCreateAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a")
	var made atomic.Int32
	var all sync.WaitGroup
	for i := range 20 {
		all.Go(func() {
			err := Create(path, []byte(strings.Repeat(string(rune('a'+i)), 1000)))
			switch {
			case err == nil:
				made.Add(1)
			default:
				assert.ErrorIs(t, err, fs.ErrExist)
			}
		})
	}
	all.Wait()
	assert.EqualValues(t, 1, made.Load())
	text := get(t, path)
	assert.Equal(t, strings.Repeat(text[:1], 1000), text)
}

func TestMakeFolder(t *testing.T) {
	dir := t.TempDir()
	deep := filepath.Join(dir, "a", "b", "c")
	require.NoError(t, MakeFolder(deep))
	require.NoError(t, MakeFolder(deep))
	assert.DirExists(t, deep)
	put(t, filepath.Join(dir, "file"), "")
	require.Error(t, MakeFolder(filepath.Join(dir, "file", "d")))
}
