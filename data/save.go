package data

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/gofrs/flock"

	"daub.example/daub/model"
)

// ErrChanged is the error of a save that found the file changed elsewhere
// since it was read. Nothing was written. errors.As finds the *ChangedError.
var ErrChanged = errors.New("changed elsewhere since it was read")

// ChangedError is ErrChanged with the file it is about.
type ChangedError struct{ File string }

func (e *ChangedError) Error() string {
	return fmt.Sprintf("save %s: %v; nothing was written: read it again, or save beside it", e.File, ErrChanged)
}

// ChangedElsewhere marks the error for those who do not know this package.
func (e *ChangedError) ChangedElsewhere() {}

// Unwrap gives ErrChanged.
func (e *ChangedError) Unwrap() error { return ErrChanged }

// ErrBusy is the error of a save that waited too long for another program.
var ErrBusy = errors.New("another daub is saving to this shelf")

// Save writes an entry and gives it back as it now is on the shelf. A new
// entry gets a slug of its name and lot, which it keeps for good. One that was
// read is written only over the content it was read with: else the error is
// ErrChanged. A file that is gone is written anew, and Recreated says so, for
// what it held must not be lost.
//
// A profile that could not be read again is a *FileError and not written.
func (s *Shelf) Save(e Entry) (Entry, error) {
	if e.Slug == "" {
		return s.SaveBeside(e)
	}
	text, err := s.encode(e, s.path(e.Slug))
	if err != nil {
		return e, err
	}
	e.Path = s.path(e.Slug)
	e.Recreated, err = s.rewrite(e.Path, text, e.Read)
	if isNew(err) {
		e.Read = text
	}
	return e, err
}

// SaveBeside writes an entry as a new file under the next free slug, so that
// it and what is on the shelf both survive.
func (s *Shelf) SaveBeside(e Entry) (Entry, error) {
	slug := Slug(e.Profile.Powder.Name, e.Profile.Powder.Lot)
	text, err := s.encode(e, s.path(slug))
	if err != nil {
		return e, err
	}
	slug, err = s.writeNew(powdersFolder, slug, text)
	if !isNew(err) {
		return e, err
	}
	return Entry{Slug: slug, Path: s.path(slug), Profile: e.Profile, Read: text}, err
}

// rewrite puts text in the place of the file at path if that still holds what
// was read. recreated says that it was gone.
func (s *Shelf) rewrite(path string, text, read []byte) (recreated bool, err error) {
	unlock, err := s.lock()
	if err != nil {
		return false, err
	}
	defer unlock()
	now, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		recreated = true
	case err != nil:
		return false, fmt.Errorf("save %s: read what is there: %w; check that the file may be read", path, err)
	case bytes.Equal(now, text):
		return false, nil
	case read == nil || !bytes.Equal(now, read):
		return false, &ChangedError{path}
	}
	return recreated, s.write(path, text)
}

// writeNew writes text as a new file of the folder, under slug or, where that
// is taken, the next free one.
func (s *Shelf) writeNew(folder, slug string, text []byte) (free string, err error) {
	unlock, err := s.lock()
	if err != nil {
		return "", err
	}
	defer unlock()
	free, err = s.freeSlug(folder, slug)
	if err != nil {
		return "", err
	}
	return free, s.write(s.file(folder, free), text)
}

// isNew reports whether the file is the new one after a save that ended with
// err.
func isNew(err error) bool { return err == nil || errors.Is(err, errUnconfirmed) }

// freeSlug is the first of slug, slug-2, slug-3 … that no file of the folder
// has, whatever the case: some file systems do not tell it apart.
func (s *Shelf) freeSlug(folder, slug string) (string, error) {
	slugs, err := s.slugs(folder)
	if err != nil {
		return "", err
	}
	taken := map[string]bool{}
	for _, t := range slugs {
		taken[strings.ToLower(t)] = true
	}
	free := slug
	for n := 2; taken[free]; n++ {
		free = numbered(slug, n)
	}
	return free, nil
}

// encode is the text of an entry, for a profile that can be read again. A
// broken list of own spoons keeps only those profiles from being saved that
// need it: a trial at the bench goes on.
func (s *Shelf) encode(e Entry, path string) ([]byte, error) {
	drawer, spoonsErr := s.Spoons()
	if problems := model.Check(e.Profile, drawer); len(problems) > 0 {
		return nil, fmt.Errorf("save: %w", errors.Join(&FileError{path, unplaced(problems)}, spoonsErr))
	}
	text, err := Encode(e.Profile, drawer, e.Read)
	if err != nil {
		return nil, fmt.Errorf("save %s: %w", path, err)
	}
	if _, err := Decode(path, text, drawer); err != nil { // never write what hides the powder
		return nil, fmt.Errorf("save: %w", err)
	}
	return text, nil
}

// unplaced are problems in what is not in a file yet: named, without a line.
func unplaced(problems []model.Problem) []Problem {
	out := make([]Problem, len(problems))
	for i, p := range problems {
		out[i] = Problem{What: p.Place() + ": " + p.What, Fix: p.Fix}
	}
	return out
}

// lock keeps other programs on this machine from saving to the shelf. It
// waits for them a while.
func (s *Shelf) lock() (unlock func(), err error) {
	if err := os.MkdirAll(s.lockDir, 0o755); err != nil {
		return nil, fmt.Errorf("lock the shelf: make the folder %s: %w; check that it may be written", s.lockDir, err)
	}
	file := filepath.Join(s.lockDir, lockName(s.dir))
	l := flock.New(file)
	ctx, cancel := context.WithTimeout(context.Background(), s.wait)
	defer cancel()
	ok, err := l.TryLockContext(ctx, 10*time.Millisecond)
	switch {
	case errors.Is(err, context.DeadlineExceeded), err == nil && !ok:
		return nil, fmt.Errorf("lock the shelf %s: %w, waited %v; try again", s.dir, ErrBusy, s.wait)
	case err != nil:
		return nil, fmt.Errorf("lock the shelf: open %s: %w; check that it may be written", file, err)
	}
	return func() { _ = l.Unlock() }, nil // closing the file lets go in any case
}

// lockName is the same for every way of writing the shelf's path.
func lockName(dir string) string {
	if abs, err := filepath.Abs(dir); err == nil {
		dir = abs
	}
	if resolved, err := filepath.EvalSymlinks(dir); err == nil {
		dir = resolved
	}
	sum := sha256.Sum256([]byte(dir))
	return fmt.Sprintf("%x.lock", sum[:16])
}
