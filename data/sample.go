package data

import (
	"embed"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

//go:embed samples
var samples embed.FS

// WriteSample copies the sample shelf into dir, which is made when missing. It
// must hold no profiles and no spoons yet: no file of the maker's is ever
// written over.
func WriteSample(dir string) error {
	profiles, err := filepath.Glob(filepath.Join(dir, powdersFolder, "*"+extension))
	if err != nil {
		return err
	}
	if _, err := os.Lstat(filepath.Join(dir, spoonsFile)); err == nil || len(profiles) > 0 {
		return fmt.Errorf("copy the samples to %s: there are profiles or spoons on this shelf already; give a new or an empty one", dir)
	}
	shelf, err := fs.Sub(samples, "samples")
	if err != nil {
		return err
	}
	return fs.WalkDir(shelf, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		to := filepath.Join(dir, filepath.FromSlash(path))
		if d.IsDir() {
			err = os.MkdirAll(to, 0o755)
		} else {
			var text []byte
			if text, err = fs.ReadFile(shelf, path); err == nil {
				err = os.WriteFile(to, text, 0o644)
			}
		}
		if err != nil {
			return fmt.Errorf("copy the samples to %s: %w; check that it may be written", dir, err)
		}
		return nil
	})
}
