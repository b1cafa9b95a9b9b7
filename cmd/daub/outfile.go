package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"
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

// write puts the text into the file, whole or not at all: it is written beside
// it first. Without --force nothing that is there is ever written over, also
// when it came while the text was made.
func (f *outFlags) write(text []byte) (err error) {
	path := f.file
	if to, err := filepath.EvalSymlinks(path); err == nil && f.force {
		path = to
	}
	fail := func(err error) error {
		var at *fs.PathError // of the file beside it, which is not the maker's concern
		if errors.As(err, &at) {
			err = at.Err
		}
		return fmt.Errorf("write %s: %w; nothing was written: check that the folder is there, may be written and has room", f.file, err)
	}
	there, missing := os.Stat(path)
	if missing == nil && !there.Mode().IsRegular() {
		return fail(errors.New("it is no plain file"))
	}
	temp, err := newBeside(path)
	if err != nil {
		return fail(err)
	}
	defer func() { _ = os.Remove(temp.Name()) }() // gone already when it was renamed
	_, err = temp.Write(text)
	if err == nil && missing == nil {
		err = temp.Chmod(there.Mode().Perm()) // who may read it stays as it was
	}
	if err == nil {
		err = temp.Sync()
	}
	if closing := temp.Close(); err == nil {
		err = closing
	}
	if err != nil {
		return fail(err)
	}
	if f.force {
		err = os.Rename(temp.Name(), path)
	} else {
		err = putNew(temp.Name(), path)
	}
	switch {
	case errors.Is(err, fs.ErrExist):
		return f.exists()
	case err != nil:
		return fail(err)
	}
	return nil
}

// newBeside makes a hidden file in the folder of path, with the permissions
// that a new file has.
func newBeside(path string) (*os.File, error) {
	for n := 0; ; n++ {
		name := filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s.%d-%d.tmp", filepath.Base(path), os.Getpid(), n))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
		if err == nil || !errors.Is(err, fs.ErrExist) || n > 1000 {
			return f, err
		}
	}
}

// putNew gives a file its name unless that is taken. Where the file system
// knows no links, it looks before it renames.
func putNew(from, to string) error {
	err := os.Link(from, to)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return err
	}
	if _, err := os.Lstat(to); err == nil {
		return fs.ErrExist
	}
	return os.Rename(from, to)
}
