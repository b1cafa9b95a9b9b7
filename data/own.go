package data

import (
	"os"
	"path/filepath"
	"strings"
)

// Owns reports whether the file at path belongs to the shelf, or would: any file in
// its folders, the list of spoons, the lock. Links and other spellings or cases of
// the path make no difference. Other files directly in the shelf's folder do not
// belong to it.
func (s *Shelf) Owns(path string) bool {
	target := path
	if whole, err := filepath.EvalSymlinks(path); err == nil {
		target = whole
	} else if dir, err := filepath.EvalSymlinks(filepath.Dir(path)); err == nil {
		target = filepath.Join(dir, filepath.Base(path))
	}
	target, err := filepath.Abs(target)
	if err != nil {
		return false
	}
	dir, name := filepath.Split(target)
	if same(dir, s.dir) {
		for _, own := range []string{spoonsFile, lockFile, ignoreFile} {
			if strings.EqualFold(name, own) {
				return true
			}
		}
	}
	return s.within(filepath.Clean(dir)) || s.linksTo(target)
}

// within reports whether a folder is one of the shelf's folders or lies in one.
func (s *Shelf) within(dir string) bool {
	for {
		for _, own := range []string{powdersFolder, recipesFolder, deletedFolder} {
			if same(dir, filepath.Join(s.dir, own)) {
				return true
			}
		}
		above := filepath.Dir(dir)
		if above == dir {
			return false
		}
		dir = above
	}
}

// linksTo reports whether a file of the shelf is a link to the target.
func (s *Shelf) linksTo(target string) bool {
	if same(target, s.SpoonsPath()) {
		return true
	}
	for _, folder := range []string{powdersFolder, recipesFolder} {
		dir := filepath.Join(s.dir, folder)
		files, _ := os.ReadDir(dir) // a folder that cannot be read has no known files
		for _, f := range files {
			if f.Type()&os.ModeSymlink != 0 && same(target, filepath.Join(dir, f.Name())) {
				return true
			}
		}
	}
	return false
}

// same reports whether two paths lead to the same file or folder.
func same(a, b string) bool {
	one, err := os.Stat(a)
	if err != nil {
		return false
	}
	other, err := os.Stat(b)
	return err == nil && os.SameFile(one, other)
}
