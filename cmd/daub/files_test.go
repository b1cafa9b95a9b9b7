package main

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"daub.example/daub/cmd/daub/internal/term"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/data/picture"
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/tui/ui"
	"github.com/stretchr/testify/require"
)

// sampleDeps gives the screens a shelf over a copy of the sample shelf.
func sampleDeps(t *testing.T) (ui.Deps, *shelfAdapter, []data.Entry) {
	a, adapter := testApp(t)
	require.NoError(t, data.WriteSample(a.host.shelf))
	w := a.deps(adapter, &term.Output{}, false)
	l, err := w.List()
	require.NoError(t, err)
	require.NotEmpty(t, l.Items)
	var entries []data.Entry
	for _, one := range l.Items {
		entries = append(entries, one.Entry)
	}
	return w, adapter, entries
}

func TestScreensExportByTheEndingOfTheName(t *testing.T) {
	w, _, items := sampleDeps(t)
	dir := t.TempDir()
	var ratios []data.Entry
	for _, i := range items {
		if p := i.Profile; p.Powder.Kind() == model.PlainClay || p.Powder.Kind() == model.Mineral {
			ratios = append(ratios, i)
		}
	}
	require.NotEmpty(t, ratios)
	for _, ending := range append(export.Formats(), picture.Formats()...) {
		file := filepath.Join(dir, "out."+ending)
		path, err := w.Export(ratios, 5, ui.File{Name: file})
		require.NoError(t, err, ending)
		require.Equal(t, file, path)
		require.NotEmpty(t, read(t, path), ending)
	}
	_, err := w.Export(ratios, 5, ui.File{Name: filepath.Join(dir, "out.bmp")})
	require.Error(t, err)
	require.NoFileExists(t, filepath.Join(dir, "out.bmp"))
}

func TestScreensNeverWriteOverUnlessTold(t *testing.T) {
	w, _, _ := sampleDeps(t)
	file := filepath.Join(t.TempDir(), "card.md")
	card := func(name, file string, over bool) (string, error) {
		return w.WriteCard(model.Recipe{Name: name}, nil, ui.File{Name: file, Over: over})
	}
	path, err := card("one", file, false)
	require.NoError(t, err)
	require.Equal(t, file, path)
	_, err = card("two", file, false)
	require.ErrorIs(t, err, fs.ErrExist)
	require.Contains(t, read(t, file), "# one")
	_, err = card("two", file, true)
	require.NoError(t, err)
	require.Contains(t, read(t, file), "# two")
	_, err = card("x", filepath.Join(filepath.Dir(file), "gone", "card.md"), false)
	require.Error(t, err)
	page := filepath.Join(filepath.Dir(file), "card.html")
	_, err = card("three", page, false)
	require.NoError(t, err)
	require.Contains(t, read(t, page), "<h1>three</h1>")
}

func TestScreensKeepRecipes(t *testing.T) {
	w, adapter, _ := sampleDeps(t)
	book, err := w.Recipes()
	require.NoError(t, err)
	require.NotEmpty(t, book.Items)
	require.Empty(t, book.Broken)

	own := book.Items[0]
	own.Recipe, err = kitchen.Scale(own.Recipe, 33)
	require.NoError(t, err)
	stands, err := w.SaveRecipe(own)
	require.NoError(t, err)
	require.Equal(t, own.Slug, stands.Slug)

	_, err = w.SaveRecipe(own)
	require.NoError(t, err, "the same once more changes nothing")
	own.Recipe.Notes = "again"
	_, err = w.SaveRecipe(own)
	require.ErrorIs(t, err, data.ErrChanged, "an old token is what was read then")

	_, err = w.SaveRecipe(data.RecipeEntry{Recipe: own.Recipe})
	require.ErrorContains(t, err, "there is a recipe called")
	own.Recipe.Name = "Another mask"
	fresh, err := w.SaveRecipe(data.RecipeEntry{Recipe: own.Recipe})
	require.NoError(t, err)
	require.NotEqual(t, own.Slug, fresh.Slug, "without a slug it gets a file of its own")
	require.FileExists(t, fresh.Path)

	require.NoError(t, os.WriteFile(fresh.Path, []byte("schema = 1\n[recipe]\nnam = \"x\"\n"), 0o644))
	book, err = w.Recipes()
	require.NoError(t, err)
	require.Len(t, book.Broken, 1)
	require.NotContains(t, book.Broken[0], "\n")
	adapter.done = true
	_, err = w.SaveRecipe(fresh)
	require.ErrorIs(t, err, errLeft)
}

// No command that writes a file writes over the shelf's own, and each takes - for
// standard output.
func TestOutputs(t *testing.T) {
	for ending, args := range map[string][]string{
		"csv":  {"export", "light-white-clay", "--to", "csv"},
		"svg":  {"picture", "light-white-clay", "--to", "svg"},
		"html": {"page", "light-white-clay"},
	} {
		h := clays(t)
		got := daub(h, append(args, "-o", "-")...)
		require.Zero(t, got.code, got.err)
		require.NotEmpty(t, got.out)
		require.NoFileExists(t, "-")

		own := filepath.Join(h.shelf, "powders", "light-white-clay.toml")
		before := read(t, own)
		links := t.TempDir()
		require.NoError(t, os.Symlink(own, filepath.Join(links, "link."+ending)))
		for _, file := range []string{
			filepath.Join(h.shelf, "powders", "x."+ending), filepath.Join(links, "link."+ending),
		} {
			got = daub(h, append(args, "-o", file, "--force")...)
			require.Equal(t, exitMisused, got.code, got.out)
			require.Contains(t, got.err, "belongs to the shelf")
		}
		require.Equal(t, before, read(t, own))
	}
	got := daub(clays(t), "picture", "light-white-clay", "-o", "-")
	require.Equal(t, exitMisused, got.code)
	require.Contains(t, got.err, "give --to with -o -")
}

// An unsaved profile goes to a file that keeps the comments of the original.
func TestRescueKeepsComments(t *testing.T) {
	h := clays(t)
	path := shelve(t, h, "mine", "# from the blue sack\n"+read(t, lightClay))
	adapter := newShelfAdapter(h.shelf)
	e, err := adapter.shelf.Load("mine")
	require.NoError(t, err)
	require.NoError(t, os.Rename(path, path+".away"))
	e.Profile.Powder.Notes = "sifted"
	err = (&app{host: h, patience: lastPatience}).saveOnExit(adapter, e)
	require.ErrorContains(t, err, "the file is no longer there")
	rescued, _ := filepath.Glob(filepath.Join(h.temp, "daub-*.toml"))
	require.Len(t, rescued, 1)
	require.ErrorContains(t, err, rescued[0])
	text := read(t, rescued[0])
	require.Contains(t, text, "# from the blue sack")
	require.Contains(t, text, "sifted")
	require.NoFileExists(t, path)
}

// A hung disk keeps nobody waiting: the profile goes elsewhere.
func TestHungDiskIsLeftWithTheProfileElsewhere(t *testing.T) {
	t.Parallel()
	h := clays(t)
	adapter := newShelfAdapter(h.shelf)
	e, err := adapter.shelf.Load("light-white-clay")
	require.NoError(t, err)
	e.Profile.Powder.Notes = "sifted"
	adapter.mu.Lock() // the write before it never ends
	err = (&app{host: h, patience: time.Second}).saveOnExit(adapter, e)
	require.ErrorIs(t, err, errHung)
	adapter.mu.Unlock()
	rescued, _ := filepath.Glob(filepath.Join(h.temp, "daub-*.toml"))
	require.Len(t, rescued, 1)
	require.ErrorContains(t, err, rescued[0])
	require.Contains(t, read(t, rescued[0]), "sifted")
	require.Eventually(t, func() bool { // the abandoned write happens later; then the folder can be removed
		return strings.Contains(read(t, e.Path), "sifted") && adapter.mu.TryLock()
	}, 20*time.Second, 5*time.Millisecond)
}

// Only the exact name of another recipe is taken, not the beginning of one and not
// its file's name.
func TestScreensSaveARecipeBesideOneNamedMuchTheSame(t *testing.T) {
	w, _, _ := sampleDeps(t)
	book, err := w.Recipes()
	require.NoError(t, err)
	there := book.Items[0]
	require.Contains(t, there.Slug, "-")
	first, _, _ := strings.Cut(there.Recipe.Name, " ")
	require.NotEqual(t, there.Recipe.Name, first)
	for _, name := range []string{first, there.Slug} {
		fresh := there.Recipe
		fresh.Name = name
		_, err = w.SaveRecipe(data.RecipeEntry{Recipe: fresh})
		require.NoError(t, err, name)
	}
	same := there.Recipe
	same.Name = " " + strings.ToUpper(strings.ReplaceAll(there.Recipe.Name, " ", "  "))
	_, err = w.SaveRecipe(data.RecipeEntry{Recipe: same})
	require.ErrorContains(t, err, "there is a recipe called")
}
