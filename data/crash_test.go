package data

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A save that fails after the new text was written leaves the old file whole
// and nothing beside it.
func TestFailedSaveLeavesTheOldFile(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Alpha", "")
	before, err := os.ReadFile(e.Path)
	require.NoError(t, err)
	full := errors.New("no space left on device")
	s.last = func() error { return full }
	e.Profile.Powder.Notes = "new note"
	_, err = s.Save(e)
	require.ErrorIs(t, err, full)
	assert.Contains(t, err.Error(), e.Path)
	after, err := os.ReadFile(e.Path)
	require.NoError(t, err)
	assert.Equal(t, before, after)
	assert.Equal(t, []string{"alpha.toml"}, files(t, s))

	s.last = nil
	_, err = s.Save(e)
	require.NoError(t, err, "the entry can be saved once there is room")
}

func TestReadOnlyFolderAndFile(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Alpha", "")
	before, err := os.ReadFile(e.Path)
	require.NoError(t, err)
	e.Profile.Powder.Notes = "new note"
	require.NoError(t, os.Chmod(e.Path, 0o444))
	_, err = s.Save(e)
	require.ErrorContains(t, err, "read-only")
	require.NoError(t, os.Chmod(e.Path, 0o644))
	if runtime.GOOS != "windows" && os.Geteuid() != 0 {
		folder := filepath.Dir(e.Path)
		require.NoError(t, os.Chmod(folder, 0o555))
		_, err = s.Save(e)
		require.ErrorIs(t, err, os.ErrPermission)
		require.NoError(t, os.Chmod(folder, 0o755))
	}
	after, err := os.ReadFile(e.Path)
	require.NoError(t, err)
	assert.Equal(t, before, after)
}

// TestMain lets the test binary be the program that is killed, or one of
// another user.
func TestMain(m *testing.M) {
	if dir := os.Getenv("SAVE_UNTIL_KILLED"); dir != "" {
		saveUntilKilled(dir)
	}
	if dir := os.Getenv("SAVE_TO"); dir != "" {
		saveAsAnother(dir, os.Getenv("SAVE_AS"))
	}
	os.Exit(m.Run())
}

// version is the note of the n-th save: long, and the same letter throughout.
func version(n int) string { return fmt.Sprint(n, " ") + strings.Repeat(string(rune('a'+n%26)), 20000) }

func saveUntilKilled(dir string) {
	s := Open(filepath.Join(dir, "shelf"), nil)
	e, err := s.Load("alpha")
	if err != nil {
		panic(err)
	}
	fmt.Println("saving")
	for n := 0; ; n++ {
		e.Profile.Powder.Notes = version(n)
		if e, err = s.Save(e); err != nil {
			panic(err)
		}
	}
}

// A program killed at any moment of a save leaves a whole file, old or new,
// and a shelf that can be saved to.
func TestKilledWhileSaving(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no signal that cannot be caught")
	}
	dir := t.TempDir()
	s := Open(filepath.Join(dir, "shelf"), nil)
	save(t, s, "Alpha", "")
	saves, rounds := 0, 20
	if testing.Short() {
		rounds = 3
	}
	for round := 0; round < rounds || saves == 0 && round < 80; round++ { // longer on a busy machine
		cmd := exec.Command(os.Args[0])
		cmd.Env = append(os.Environ(), "SAVE_UNTIL_KILLED="+dir)
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		_, err = out.Read(make([]byte, 1)) // it is about to save
		require.NoError(t, err)
		time.Sleep(time.Duration(1+round*3) * time.Millisecond)
		require.NoError(t, cmd.Process.Kill())
		_ = cmd.Wait() // the kill is the error

		e, err := s.Load("alpha")
		require.NoError(t, err)
		if note := e.Profile.Powder.Notes; note != "" {
			var n int
			_, err = fmt.Sscan(note, &n)
			require.NoError(t, err)
			require.Equal(t, version(n), note)
			saves += n
		}
		entries, errs := s.List()
		require.Len(t, entries, 1)
		require.Empty(t, errs)
		e.Profile.Powder.Notes = ""
		_, err = s.Save(e)
		require.NoError(t, err)
	}
	assert.Positive(t, saves, "the kills came while saving, not before")
}
