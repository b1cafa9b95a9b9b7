package data

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"daub.example/daub/model"
)

// SpoonsPath is the file of the maker's own spoons.
func (s *Shelf) SpoonsPath() string { return filepath.Join(s.dir, spoonsFile) }

// Spoons reads the maker's own spoons; none when there is no list. The error
// is a *FileError or one of the system.
func (s *Shelf) Spoons() (model.Drawer, error) {
	src, err := readFile(s.SpoonsPath())
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	return DecodeSpoons(s.SpoonsPath(), src)
}

// SaveSpoons writes the maker's own spoons in one step, comments kept. was is
// the list as it was read: when another is there by now, the error is
// ErrChanged and nothing is written. A spoon that a profile on the shelf needs
// cannot be taken out: without it the profile could not be read.
func (s *Shelf) SaveSpoons(was, now model.Drawer) error {
	path := s.SpoonsPath()
	if problems := now.Validate(); len(problems) > 0 {
		return fmt.Errorf("save: %w", &FileError{path, unplaced(problems)})
	}
	unlock, err := s.lock()
	if err != nil {
		return err
	}
	defer unlock()
	old, err := os.ReadFile(path)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("save %s: read what is there: %w; check that the file may be read", path, err)
	}
	there, err := DecodeSpoons(path, old)
	if err != nil {
		return fmt.Errorf("save %s: what is there would be lost: %w", path, err)
	}
	if !slices.EqualFunc(there, was, sameSpoon) {
		return &ChangedError{path}
	}
	entries, _ := s.List() // a profile that is refused already is not made worse
	for _, e := range entries {
		if problems := model.Check(e.Profile, now); len(problems) > 0 {
			return fmt.Errorf("save %s: a profile needs what this list takes away: %w", path, &FileError{e.Path, unplaced(problems)})
		}
	}
	text, err := EncodeSpoons(now, old)
	if err != nil {
		return fmt.Errorf("save %s: %w", path, err)
	}
	if bytes.Equal(old, text) {
		return nil
	}
	return s.write(path, text)
}

// sameSpoon compares what a list says of a spoon.
func sameSpoon(a, b model.Spoon) bool {
	return a.Name == b.Name && a.VolumeML == b.VolumeML && a.UncertaintyML == b.UncertaintyML
}

// DecodeSpoons reads a list of own spoons, as strictly as Decode.
func DecodeSpoons(file string, src []byte) (model.Drawer, error) {
	d, _, problems := decodeSpoons(src)
	return d, refuse(file, problems)
}

func decodeSpoons(src []byte) (model.Drawer, *index, []Problem) {
	if len(bytes.TrimSpace(bytes.TrimPrefix(src, byteOrderMark))) == 0 {
		return nil, &index{}, nil // an empty list
	}
	tree, ix, problems := parse(src)
	if problems != nil {
		return nil, nil, problems
	}
	var w walker
	w.table("", tree, spoonsKeys)
	var d model.Drawer
	for _, t := range fields(tree).tables("spoon") {
		f := fields(t)
		d = append(d, model.Spoon{
			Name:          f.text("name"),
			VolumeML:      f.decimal("volume_ml"),
			UncertaintyML: f.decimal("standard_uncertainty_ml"),
			Own:           true,
		})
	}
	return d, ix, ix.place(append(w.problems, w.uncovered(d.Validate())...))
}

// EncodeSpoons writes a list of own spoons, keeping the comments of old.
func EncodeSpoons(d model.Drawer, old []byte) ([]byte, error) {
	var w writer
	for _, s := range d {
		w.header(0, "[[spoon]]")
		w.line("name", quote(s.Name))
		w.number("volume_ml", s.VolumeML)
		w.decimal("standard_uncertainty_ml", s.UncertaintyML)
	}
	if w.err != nil {
		return nil, w.err
	}
	return finish(w.String(), old), nil
}
