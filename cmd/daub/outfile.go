package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"daub.example/daub/data/atomicfile"
)

// outFlags say where a file goes.
type outFlags struct {
	file  string // -o
	force bool
}

// add gives a command -o and --force.
func (f *outFlags) add(cmd *cobra.Command, usage string) {
	cmd.Flags().StringVarP(&f.file, "output", "o", "", usage)
	cmd.Flags().BoolVar(&f.force, "force", false, "write over a FILE that is there")
}

// check refuses, before any work, a file that cannot be meant.
func (f *outFlags) check(cmd *cobra.Command) error {
	if cmd.Flags().Changed("output") && f.file == "" {
		return misused("-o names no file: give one, as in -o oat.csv")
	}
	if f.file == "" || f.force {
		return nil
	}
	if _, err := os.Lstat(f.file); err == nil {
		return f.exists()
	}
	return nil
}

func (f *outFlags) exists() error {
	return misused("%s is there already; give another name, or --force to write over it", f.file)
}

// ending is the file's, in lower case without the dot.
func (f *outFlags) ending() string {
	return strings.ToLower(strings.TrimPrefix(filepath.Ext(f.file), "."))
}

// write puts the text into the file, whole or not at all. Without --force
// nothing that is there is ever written over, also when it came while the text
// was made.
func (f *outFlags) write(text []byte) error {
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
	return fmt.Errorf("write %s: %w; nothing was written: check that the folder is there, may be written and has room", f.file, err)
}
