package main

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/tui"
)

// What the screens get out: recipes, exports, pictures, cards, the clipboard.

// recipes reads the recipes of the shelf.
func (k *keeper) recipes() (tui.Cookbook, error) {
	entries, errs := k.shelf.Recipes()
	book := tui.Cookbook{Items: entries}
	for _, err := range errs {
		book.Broken = append(book.Broken, oneLine(err))
	}
	return book, nil
}

// saveRecipe writes a recipe; one without a slug is new.
func (k *keeper) saveRecipe(e data.RecipeEntry) (data.RecipeEntry, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.done {
		return e, errLeft
	}
	if there, _ := k.shelf.FindRecipe(e.Recipe.Name); there.Slug != "" && there.Slug != e.Slug {
		return e, fmt.Errorf("save the recipe %q: there is one of this name already; give another", e.Recipe.Name)
	}
	stands, err := k.shelf.SaveRecipe(e)
	if err != nil {
		return e, err
	}
	return stands, nil
}

// export writes profiles in the format that the ending of the file says.
func (k *keeper) export(entries []data.Entry, level float64, f tui.File) (string, error) {
	drawer, _ := k.shelf.Spoons() // what is wrong with them is said with the list
	return writeOut(f, func(out *bytes.Buffer) error { return exportTo(out, f, entries, drawer, level) })
}

func exportTo(out *bytes.Buffer, f tui.File, entries []data.Entry, d model.Drawer, level float64) error {
	format := strings.ToLower(strings.TrimPrefix(filepath.Ext(f.Name), "."))
	if slices.Contains(data.PictureFormats(), format) {
		return data.Picture(out, format, profiles(entries), d, data.PictureOptions{Level: level})
	}
	return data.Export(out, format, exported(entries), d, data.ExportOptions{Level: level})
}

// writeText writes a text to a file.
func writeText(text string, f tui.File) (string, error) {
	return writeOut(f, func(out *bytes.Buffer) error {
		out.WriteString(text)
		return nil
	})
}

// writeOut writes what make gives to a file and says where that is. A file that
// is there is an fs.ErrExist unless it may be written over.
func writeOut(f tui.File, make func(*bytes.Buffer) error) (path string, err error) {
	name := f.Name
	if rest, found := strings.CutPrefix(name, "~/"); found { // no shell does it here
		if home, err := os.UserHomeDir(); err == nil {
			name = filepath.Join(home, rest)
		}
	}
	if path, err = filepath.Abs(name); err != nil {
		return "", err
	}
	if _, err := os.Lstat(path); err == nil && !f.Over {
		return "", fmt.Errorf("write %s: %w", path, fs.ErrExist)
	}
	var out bytes.Buffer
	if err := make(&out); err != nil {
		return "", err
	}
	to := outFlags{file: path, force: f.Over}
	return path, to.write(out.Bytes())
}

// oneLine is an error's first line, with how many more there are.
func oneLine(err error) string {
	first, more, found := strings.Cut(err.Error(), "\n")
	if found {
		first += fmt.Sprintf(" (and %d more)", strings.Count(more, "\n")+1)
	}
	return first
}
