package data

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"daub.example/daub/data/atomicfile"
	"daub.example/daub/data/tomlfile"
)

// ErrChanged is the error of a save whose file was changed elsewhere since it was
// read. Nothing was written. errors.As finds the *ChangedError.
var ErrChanged = errors.New("changed elsewhere since it was read")

// ChangedError is ErrChanged with its file.
type ChangedError struct {
	File string
	Gone bool // the file is gone: moved, renamed or deleted
}

func (e *ChangedError) Error() string {
	if e.Gone {
		return fmt.Sprintf("save %s: the file is no longer there, it was moved, renamed or deleted elsewhere; "+
			"nothing was written: look at the shelf again, or save beside it, which makes it anew", e.File)
	}
	return fmt.Sprintf("save %s: %v; nothing was written: read it again, or save beside it", e.File, ErrChanged)
}

// ChangedElsewhere marks the error for callers that do not know this package.
func (e *ChangedError) ChangedElsewhere() {}

// Unwrap returns ErrChanged.
func (e *ChangedError) Unwrap() error { return ErrChanged }

// rewrite replaces the file at path by text, if it still holds what was read.
func (s *Shelf) rewrite(path string, text []byte, read *tomlfile.Document) error {
	unlock, err := s.lock()
	if err != nil {
		return err
	}
	defer unlock()
	now, err := atomicfile.Read(path, tomlfile.MaxFileSize)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, atomicfile.ErrNowhere):
		return &ChangedError{path, true}
	case err != nil:
		return fmt.Errorf("save %s: read what is there: %w; check that the file may be read", path, err)
	case bytes.Equal(now, text): // perhaps by a write that the disk did not confirm
		return unsaved(path, s.disk.Confirm(path))
	case read == nil || !bytes.Equal(now, read.Text):
		return &ChangedError{path, false}
	}
	return s.replace(path, text, now)
}

// writeNew writes text to a new file of the folder, under slug or, if that is
// taken, the next free one.
func (s *Shelf) writeNew(folder, slug string, text []byte) (free string, err error) {
	unlock, err := s.lock()
	if err != nil {
		return "", err
	}
	defer unlock()
	return s.createFree(folder, slug, text)
}

// createFree is writeNew for a caller that holds the lock.
func (s *Shelf) createFree(folder, slug string, text []byte) (free string, err error) {
	taken, err := s.taken(folder)
	if err != nil {
		return "", err
	}
	for n := 1; ; n++ {
		if free = slug; n > 1 {
			free = numbered(slug, n)
		}
		if taken[free+extension] {
			continue
		}
		err := s.create(filepath.Join(s.dir, folder, free+extension), text)
		if !errors.Is(err, fs.ErrExist) { // another program was faster
			return free, err
		}
	}
}

// taken returns the names in a folder of the shelf, be they files, folders or
// links. They are in lower case, because some file systems ignore case.
func (s *Shelf) taken(folder string) (map[string]bool, error) {
	dir := filepath.Join(s.dir, folder)
	found, err := os.ReadDir(dir)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("list the shelf %s: %w; check that the folder may be read", dir, err)
	}
	names := map[string]bool{}
	for _, f := range found {
		names[strings.ToLower(f.Name())] = true
	}
	return names, nil
}

// replace replaces the file at path by text, if at the last moment it still holds
// there; nil skips that check.
func (s *Shelf) replace(path string, text, there []byte) error {
	return unsaved(path, s.disk.Replace(path, text, func() error {
		if there != nil {
			if now, err := atomicfile.Read(path, tomlfile.MaxFileSize); err != nil || !bytes.Equal(now, there) {
				return &ChangedError{path, false}
			}
		}
		if s.last != nil {
			return s.last()
		}
		return nil
	}))
}

// create makes the file at path, and the folders above it.
func (s *Shelf) create(path string, text []byte) error {
	if err := s.disk.MakeFolder(filepath.Dir(path)); err != nil {
		return unsaved(path, fmt.Errorf("make the folder: %w", err))
	}
	return unsaved(path, s.disk.Create(path, text))
}

// unsaved says which file could not be written, and what to do.
func unsaved(path string, err error) error {
	var changed *ChangedError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &changed):
		return changed
	case errors.Is(err, atomicfile.ErrUnconfirmed):
		return fmt.Errorf("save %s: %w; save again", path, err)
	}
	return fmt.Errorf("save %s: %w; nothing was changed: check that the folder may be written and the disk has room",
		path, err)
}
