package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/atomicfile"
	"daub.example/daub/data/export"
	"daub.example/daub/data/picture"
	"daub.example/daub/model"
	"daub.example/daub/tui/ui"
	"github.com/spf13/cobra"
)

// outFlags say where a file goes.
type outFlags struct {
	file     string // -o; "" for standard output
	force    bool
	standard bool              // -o said so
	owns     func(string) bool // whether a file is the shelf's own; nil where there is no shelf
}

// add gives a command -o and --force.
func (f *outFlags) add(a *app, cmd *cobra.Command, usage string) {
	f.owns = func(path string) bool { return a.shelf().Owns(path) }
	cmd.Flags().StringVarP(&f.file, "output", "o", "", usage)
	cmd.Flags().BoolVar(&f.force, "force", false, "write over a FILE that is there")
}

// check refuses, before any work, a file that cannot be meant.
func (f *outFlags) check(cmd *cobra.Command) error {
	switch {
	case f.file == "-":
		f.file, f.standard = "", true
		if f.force {
			return usage.Misused("--force is for a file; give -o FILE with it")
		}
		return nil
	case cmd.Flags().Changed("output") && f.file == "":
		return usage.Misused("-o names no file: give one, as in -o oat.csv, or - for standard output")
	case f.file == "":
		return nil
	case f.owns(f.file):
		return f.isOwn()
	case f.force:
		return nil
	}
	if _, err := os.Lstat(f.file); err == nil {
		return f.exists()
	}
	return nil
}

func (f *outFlags) isOwn() error {
	return usage.Misused("%s belongs to the shelf, which keeps its files itself; give a file elsewhere", f.file)
}

func (f *outFlags) exists() error {
	return usage.Misused("%s is there already; give another name, or --force to write over it", f.file)
}

// ending is the file's, in lower case without the dot.
func (f *outFlags) ending() string {
	return strings.ToLower(strings.TrimPrefix(filepath.Ext(f.file), "."))
}

// write puts the text into the file, whole or not at all. Without --force
// nothing that is there is ever written over, also when it came while the text
// was made.
func (f *outFlags) write(text []byte) error {
	if f.owns != nil && f.owns(f.file) {
		return f.isOwn()
	}
	var err error
	if f.force {
		err = atomicfile.Replace(f.file, text, nil)
	} else {
		err = atomicfile.Create(f.file, text)
	}
	var at *fs.PathError // of the file beside it, which is not the maker's concern
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return f.exists()
	case errors.Is(err, atomicfile.ErrUnconfirmed):
		return fmt.Errorf("write %s: %w", f.file, err)
	case errors.As(err, &at):
		err = at.Err
	}
	return fmt.Errorf("write %s: %w; nothing was written: check that the folder is there, may be written and has room",
		f.file, err)
}

// export writes profiles in the format that the ending of the file says.
func (k *shelfAdapter) export(entries []data.Entry, level float64, f ui.File) (string, error) {
	ownSpoons, _ := k.shelf.Spoons() // what is wrong with them is said with the list
	return k.writeOut(f, func(out *bytes.Buffer) error { return exportTo(out, f, entries, ownSpoons, level) })
}

func exportTo(out *bytes.Buffer, f ui.File, entries []data.Entry, d model.OwnSpoons, level float64) error {
	format := strings.ToLower(strings.TrimPrefix(filepath.Ext(f.Name), "."))
	if slices.Contains(picture.Formats(), format) {
		return picture.Draw(out, format, profiles(entries), d, picture.Options{Level: level})
	}
	return export.Write(out, format, exported(entries), d, export.Options{Level: level, Mark: true})
}

// card writes the card of a recipe in the format that the ending of the file
// says.
func (k *shelfAdapter) card(r model.Recipe, profiles []model.Profile, f ui.File) (string, error) {
	ownSpoons, _ := k.shelf.Spoons() // what is wrong with them is said with the list
	return k.writeOut(f, func(out *bytes.Buffer) error {
		format := strings.ToLower(strings.TrimPrefix(filepath.Ext(f.Name), "."))
		text, err := cardText(recipeAnswer{recipe: r, profiles: profiles, ownSpoons: ownSpoons}, format, "")
		out.Write(text)
		return err
	})
}

// writeOut writes what make gives to a file and says where that is. A file that
// is there is an fs.ErrExist unless it may be written over.
func (k *shelfAdapter) writeOut(f ui.File, make func(*bytes.Buffer) error) (path string, err error) {
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
	to := outFlags{file: path, force: f.Over, owns: k.shelf.Owns}
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
