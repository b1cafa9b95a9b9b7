package data

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"testing"

	"daub.example/daub/data/atomicfile"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var errDisk = errors.New("input/output error")

// faulty is the system's disk with one call that fails. It notes the folders whose
// names changed since they were synced: after a save there must be none.
type faulty struct {
	atomicfile.System
	calls, fail int
	unsynced    map[string]bool
}

func (f *faulty) step(changed ...string) error {
	if f.calls++; f.calls == f.fail {
		return errDisk
	}
	for _, name := range changed {
		f.unsynced[filepath.Dir(name)] = true
	}
	return nil
}

func (f *faulty) Create(name string, mode fs.FileMode) (atomicfile.File, error) {
	if err := f.step(name); err != nil {
		return nil, err
	}
	file, err := f.System.Create(name, mode)
	if err != nil {
		return nil, err
	}
	return &faultyFile{file, f}, nil
}

func (f *faulty) Link(from, to string) error {
	if err := f.step(to); err != nil {
		return err
	}
	return f.System.Link(from, to)
}

func (f *faulty) Rename(from, to string) error {
	if err := f.step(to); err != nil {
		return err
	}
	return f.System.Rename(from, to)
}

func (f *faulty) Remove(name string) error {
	if err := f.step(); err != nil { // a name too many loses nothing
		return err
	}
	return f.System.Remove(name)
}

func (f *faulty) Mkdir(name string) error {
	if err := f.step(name); err != nil {
		return err
	}
	return f.System.Mkdir(name)
}

func (f *faulty) Sync(name string) error {
	if err := f.step(); err != nil {
		return err
	}
	delete(f.unsynced, name)
	return nil // only the note is needed
}

type faultyFile struct {
	atomicfile.File
	f *faulty
}

func (w *faultyFile) Write(text []byte) (int, error) {
	if err := w.f.step(); err != nil {
		n, _ := w.File.Write(text[:len(text)/2]) // a full disk takes a part
		return n, err
	}
	return w.File.Write(text)
}

func (w *faultyFile) Sync() error { return w.f.step() }

func (w *faultyFile) Close() error {
	closing := w.File.Close()
	if err := w.f.step(); err != nil {
		return err
	}
	return closing
}

// TestEveryCallOfASaveFails fails each call of three saves in turn. What was
// called saved is on the disk, name and all; what was not gave an error, left
// the old file whole or the new, and can be saved as soon as the disk is well.
func TestEveryCallOfASaveFails(t *testing.T) {
	faults := 0
	for fail, going := 1, true; going; fail++ {
		s := newShelf(t)
		f := &faulty{fail: fail, unsynced: map[string]bool{}}
		s.disk.Calls = f
		e := Entry{Profile: profile("Alpha", "")}
		before := ""
		for i := range 3 {
			at := fmt.Sprintf("call %d, save %d", fail, i)
			e.Profile.Powder.Notes = fmt.Sprintf("note %d", i)
			stands, err := s.Save(e)
			if err != nil {
				require.ErrorIs(t, err, errDisk, at)
				held := disk(t, s)
				require.Contains(t, []string{before, e.Profile.Powder.Notes}, held, at)
				if stands.Slug != "" { // written, not confirmed: the screens go on from there
					e = stands
				}
				if stands, err = s.Save(e); errors.Is(err, ErrChanged) {
					t.Fatalf("%s: cannot be saved again: %v", at, err)
				}
				require.NoError(t, err, at)
			}
			e = stands
			require.Equal(t, e.Profile.Powder.Notes, disk(t, s), at)
			assert.Empty(t, f.unsynced, at)
			before = e.Profile.Powder.Notes
		}
		if going = f.calls >= fail; going {
			faults++
		}
	}
	t.Logf("%d faults", faults)
	require.Greater(t, faults, 20)
}

// TestEveryCallOfADeletionFails fails each call of a deletion and of the way
// back. The profile is on the shelf or among the deleted ones, and where the
// folder it is in was not synced, a copy of it stands elsewhere.
func TestEveryCallOfADeletionFails(t *testing.T) {
	for fail, going := 1, true; going; fail++ {
		s := newShelf(t)
		e := save(t, s, "Alpha", "")
		f := &faulty{fail: fail, unsynced: map[string]bool{}}
		s.disk.Calls = f
		safe := func(at string) {
			t.Helper()
			var places []string
			for _, folder := range []string{powdersFolder, deletedFolder} {
				found, err := filepath.Glob(filepath.Join(s.dir, folder, "alpha*.toml"))
				require.NoError(t, err)
				if len(found) > 0 && !f.unsynced[filepath.Join(s.dir, folder)] {
					places = append(places, folder)
				}
			}
			require.NotEmpty(t, places, "call %d, %s: power may take it", fail, at)
		}
		restore, err := s.Delete(e)
		safe("deleted")
		if err == nil {
			_, err = restore()
			safe("brought back")
		}
		if err != nil {
			require.ErrorIs(t, err, errDisk)
		}
		going = f.calls >= fail
	}
}

// disk is the note of the only powder on a shelf, "" for an empty shelf.
func disk(t *testing.T, s *Shelf) string {
	t.Helper()
	if _, err := os.Stat(filepath.Join(s.dir, powdersFolder)); errors.Is(err, fs.ErrNotExist) {
		return ""
	}
	entries, errs := Open(s.dir, nil).List()
	require.Empty(t, errs)
	if len(entries) == 0 {
		return ""
	}
	require.Len(t, entries, 1)
	return entries[0].Profile.Powder.Notes
}
