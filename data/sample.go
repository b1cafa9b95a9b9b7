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

// WriteSample copies the sample shelf into dir, which is made if missing. dir must
// hold no profiles, recipes or spoons yet: no file of the maker's is ever written
// over.
func WriteSample(dir string) error {
	for _, mine := range []string{powdersFolder, recipesFolder, spoonsFile} {
		if mine != spoonsFile {
			mine = filepath.Join(mine, "*"+extension)
		}
		found, err := filepath.Glob(filepath.Join(dir, mine))
		if err != nil {
			return err
		}
		if len(found) > 0 {
			return fmt.Errorf("copy the samples to %s: there are powders, recipes or spoons on this shelf "+
				"already; give a new or an empty one", dir)
		}
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
