// Package outfile writes a command's file: -o, --force, whole or not at all. It
// also says what may be written over. It never makes the text and never decides a
// format. It may import cmd/daub/internal/usage and data/atomicfile.
package outfile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data/atomicfile"
	"github.com/spf13/cobra"
)

// Flags say where a file goes.
type Flags struct {
	File     string // -o; "" for standard output
	Force    bool
	Standard bool              // -o - was given
	Owns     func(string) bool // reports whether a file is the shelf's own; nil without a shelf
}

// Add adds -o, with its help, and --force to a command.
func (f *Flags) Add(cmd *cobra.Command, usage string, owns func(path string) bool) {
	f.Owns = owns
	cmd.Flags().StringVarP(&f.File, "output", "o", "", usage)
	cmd.Flags().BoolVar(&f.Force, "force", false, "write over a FILE that is there")
}

// Check refuses, before any work, a file that may not be written.
func (f *Flags) Check(cmd *cobra.Command) error {
	switch {
	case f.File == "-":
		f.File, f.Standard = "", true
		if f.Force {
			return usage.Misused("--force is for a file; give -o FILE with it")
		}
		return nil
	case cmd.Flags().Changed("output") && f.File == "":
		return usage.Misused("-o names no file: give one, as in -o oat.csv, or - for standard output")
	case f.File == "":
		return nil
	case f.Owns(f.File):
		return f.isOwn()
	case f.Force:
		return nil
	}
	if _, err := os.Lstat(f.File); err == nil {
		return f.exists()
	}
	return nil
}

func (f *Flags) isOwn() error {
	return usage.Misused("%s belongs to the shelf, which keeps its files itself; give a file elsewhere", f.File)
}

func (f *Flags) exists() error {
	return usage.Misused("%s is there already; give another name, or --force to write over it", f.File)
}

// Ending returns the file's ending, in lower case without the dot.
func (f *Flags) Ending() string {
	return strings.ToLower(strings.TrimPrefix(filepath.Ext(f.File), "."))
}

// Write writes the text to the file, whole or not at all. Without --force it never
// writes over a file, even one that came into being meanwhile.
func (f *Flags) Write(text []byte) error {
	if f.Owns != nil && f.Owns(f.File) {
		return f.isOwn()
	}
	var err error
	if f.Force {
		err = atomicfile.Replace(f.File, text, nil)
	} else {
		err = atomicfile.Create(f.File, text)
	}
	switch {
	case err == nil:
		return nil
	case errors.Is(err, fs.ErrExist):
		return f.exists()
	case errors.Is(err, atomicfile.ErrUnconfirmed):
		return fmt.Errorf("write %s: %w", f.File, err)
	}
	if dir := filepath.Dir(f.File); !isFolder(dir) {
		return fmt.Errorf("write %s: there is no folder %s; make it, or give another", f.File, dir)
	}
	return fmt.Errorf("write %s: %w; nothing was written: check that the folder is there, may be written and has room",
		f.File, err)
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}
