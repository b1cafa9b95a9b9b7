package data

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A file of the shelf is known for one by whatever path leads to it; what lies
// beside the shelf's own files is not the shelf's.
func TestOwns(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Rye flour", "7")
	elsewhere := t.TempDir()
	link := func(to, name string) string {
		path := filepath.Join(elsewhere, name)
		if err := os.Symlink(to, path); err != nil {
			t.Skip("no links here:", err)
		}
		return path
	}
	linked := filepath.Join(elsewhere, "linked.toml")
	require.NoError(t, os.WriteFile(linked, []byte("x"), 0o644))
	require.NoError(t, os.Symlink(linked, filepath.Join(s.dir, powdersFolder, "linked.toml")))

	for _, path := range []string{
		e.Path, filepath.Join(s.dir, powdersFolder, "new.csv"),
		filepath.Join(s.dir, powdersFolder, "..", powdersFolder, "x"),
		s.SpoonsPath(), strings.ToUpper(filepath.Base(s.SpoonsPath())), filepath.Join(s.dir, ".gitignore"),
		link(e.Path, "to-file"), filepath.Join(link(filepath.Join(s.dir, powdersFolder), "to-folder"), "new.csv"),
		filepath.Join(link(s.dir, "to-shelf"), "spoons.toml"), linked,
	} {
		if !filepath.IsAbs(path) {
			path = filepath.Join(s.dir, path)
		}
		assert.True(t, s.Owns(path), path)
	}
	for _, path := range []string{
		filepath.Join(s.dir, "rye.csv"), filepath.Join(elsewhere, "rye.toml"),
		filepath.Join(elsewhere, "none", "rye.toml"),
		filepath.Join(elsewhere, "spoons.toml"), "rye.csv",
	} {
		assert.False(t, s.Owns(path), path)
	}
}
