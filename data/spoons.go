package data

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"reflect"
	"slices"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
)

// SpoonsPath returns the file of the maker's own spoons.
func (s *Shelf) SpoonsPath() string { return filepath.Join(s.dir, spoonsFile) }

// Spoons reads the maker's own spoons; without a list there are none. The error is
// a *FileError or one of the system.
func (s *Shelf) Spoons() (model.OwnSpoons, error) {
	src, err := readFile(s.SpoonsPath())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	own, _, problems := record.ReadSpoons(src)
	if err := tomlfile.Refuse(s.SpoonsPath(), problems); err != nil {
		return nil, err
	}
	return own, nil
}

// SaveSpoons writes the maker's own spoons in one step and keeps comments. was is
// the list as it was read: if it has changed since, the error is ErrChanged and
// nothing is written. A spoon that a profile on the shelf needs cannot be removed,
// because the profile could not be read without it.
func (s *Shelf) SaveSpoons(was, now model.OwnSpoons) error {
	path := s.SpoonsPath()
	if problems := now.Validate(); len(problems) > 0 {
		return fmt.Errorf("save: %w", tomlfile.Refuse(path, unplaced(problems)))
	}
	unlock, err := s.lock()
	if err != nil {
		return err
	}
	defer unlock()
	old, err := readFile(path)
	isNew := errors.Is(err, fs.ErrNotExist)
	if err != nil && !isNew {
		return fmt.Errorf("save %s: %w", path, err)
	}
	there, doc, problems := record.ReadSpoons(old)
	if err := tomlfile.Refuse(path, problems); err != nil {
		return fmt.Errorf("save %s: what is there would be lost: %w", path, err)
	}
	if !slices.EqualFunc(there, was, sameSpoon) {
		return &ChangedError{path, isNew}
	}
	entries, _ := powders.list(s, there) // a profile that is refused already gets no worse
	for _, e := range entries {
		if problems := bench.Check(e.value, now); len(problems) > 0 {
			return fmt.Errorf("save %s: a powder needs what this list takes away: %w", path,
				tomlfile.Refuse(e.Path, unplaced(problems)))
		}
	}
	text, err := record.WriteSpoons(now, doc)
	switch {
	case err != nil:
		return fmt.Errorf("save %s: %w", path, err)
	case bytes.Equal(old, text):
		return nil
	case !isNew:
		return s.replace(path, text, old)
	}
	if err = s.create(path, text); errors.Is(err, fs.ErrExist) {
		return &ChangedError{path, false}
	}
	return err
}

// sameSpoon reports whether two lists say the same of a spoon.
func sameSpoon(a, b model.Spoon) bool {
	return a.Name == b.Name && a.VolumeML == b.VolumeML && a.UncertaintyML == b.UncertaintyML &&
		slices.Equal(a.WaterG, b.WaterG) && a.Measured.Equal(b.Measured) && a.BeforeML == b.BeforeML &&
		reflect.DeepEqual(a.Reserved, b.Reserved)
}
