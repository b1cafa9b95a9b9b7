package data

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"daub.example/daub/data/atomicfile"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
)

// deletedFolder holds what was deleted: files are moved there, never destroyed.
const deletedFolder = "deleted"

// Delete moves an entry's file to the deleted files. If the file does not hold what
// was read, the error is ErrChanged and nothing is moved. restore moves it back, to
// its own slug or, if that is taken by then, to the next free one.
func (s *Shelf) Delete(e Entry) (restore func() (Entry, error), err error) {
	back, err := powders.remove(s, fileOf(e.Slug, e.Path, e.Read))
	if err != nil {
		return nil, err
	}
	return func() (Entry, error) {
		slug, err := back()
		if err != nil {
			return e, err
		}
		return s.Load(slug)
	}, nil
}

// DeleteRecipe is Delete for a recipe.
func (s *Shelf) DeleteRecipe(e RecipeEntry) (restore func() (RecipeEntry, error), err error) {
	back, err := recipes.remove(s, fileOf(e.Slug, e.Path, e.Read))
	if err != nil {
		return nil, err
	}
	return func() (RecipeEntry, error) {
		slug, err := back()
		if err != nil {
			return e, err
		}
		return s.LoadRecipe(slug)
	}, nil
}

// UndeleteRecipe brings the deleted recipe with a slug or name back to the shelf,
// with the rules of FindRecipe.
func (s *Shelf) UndeleteRecipe(recipe string) (RecipeEntry, error) {
	among := recipes
	among.name = deletedFolder
	f, err := among.find(s, recipe, nil)
	if err != nil {
		return RecipeEntry{}, err
	}
	slug, err := recipes.bringBack(s, f.Slug, f.Slug)
	if err != nil {
		return RecipeEntry{}, err
	}
	return s.LoadRecipe(slug)
}

// KeepTrial copies one trial of an entry, by its index, with its powder to a new
// file among the deleted files, and returns the path. It is called before the trial
// is taken out.
func (s *Shelf) KeepTrial(e Entry, trial int) (path string, err error) {
	among := powders
	among.name = deletedFolder
	p := e.Profile
	p.Trials = []model.Trial{p.Trials[trial]}
	v := s.Visit()
	file, err := among.saveAsNew(s, File{}, p, v.OwnSpoons)
	return file.Path, v.blamed(err)
}

// remove moves a file to the deleted files; back moves it back to the folder and
// returns its slug there.
func (f folder[T]) remove(s *Shelf, file File) (back func() (slug string, err error), err error) {
	path := f.path(s, file.Slug)
	unlock, err := s.lock()
	if err != nil {
		return nil, err
	}
	defer unlock()
	text, err := atomicfile.Read(path, tomlfile.MaxFileSize)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("delete %s: it is gone already: read the shelf again", path)
	case err != nil:
		return nil, fmt.Errorf("delete %s: read what is there: %w; check that the file may be read", path, err)
	case file.read == nil || !bytes.Equal(text, file.read.Text):
		return nil, fmt.Errorf("delete %s: %w; nothing was deleted: read the shelf again", path, ErrChanged)
	}
	kept, err := s.createFree(deletedFolder, file.Slug, text)
	if err != nil { // also of an unconfirmed copy: the file stays
		return nil, err
	}
	if err := os.Remove(path); err != nil {
		return nil, fmt.Errorf("delete %s: %w; check that the folder may be written (a copy lies in %s)", path, err,
			deletedFolder)
	}
	return func() (string, error) { return f.bringBack(s, kept, file.Slug) }, nil
}

// bringBack moves a deleted file to the folder again.
func (f folder[T]) bringBack(s *Shelf, kept, slug string) (free string, err error) {
	from := filepath.Join(s.dir, deletedFolder, kept+extension)
	text, err := atomicfile.Read(from, tomlfile.MaxFileSize)
	if err != nil {
		return "", fmt.Errorf("bring %s back: %w; check that it is still there", from, err)
	}
	if free, err = s.writeNew(f.name, slug, text); !atomicfile.Written(err) {
		return "", err
	}
	if err == nil { // otherwise the disk did not confirm it, and the copy stays
		err = os.Remove(from)
	}
	if err != nil {
		s.warn(fmt.Sprintf("%s is back on the shelf, but a copy stays in %s: %v", free, from, err))
	}
	return free, nil
}
