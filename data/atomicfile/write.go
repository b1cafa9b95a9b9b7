package atomicfile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrUnconfirmed is the only error of a write after which the file is the new one.
var ErrUnconfirmed = errors.New("the file is written, but the disk did not confirm it")

// ErrReadOnly refuses to replace a file that is marked so.
var ErrReadOnly = errors.New("the file is marked read-only")

// Written reports whether the file is the new one after a write that ended with
// err.
func Written(err error) bool { return err == nil || errors.Is(err, ErrUnconfirmed) }

// Replace writes text to the file at path in one step. At any moment, even at a
// loss of power, the file is whole: old or new. On an error the old one stays and
// nothing is left beside it. A link is followed; permissions stay.
//
// When the new text is on the disk, just before it takes its place, last is called
// if not nil; its error stops the write.
func (d Disk) Replace(path string, text []byte, last func() error) error {
	target, err := d.linked(path)
	if err != nil {
		return fmt.Errorf("follow the link: %w", err)
	}
	mode, isNew := fs.FileMode(0o644), true
	if info, err := d.calls().Stat(target); err == nil {
		if !info.Mode().IsRegular() {
			return fmt.Errorf("open it: %w", ErrNotPlain)
		}
		mode, isNew = info.Mode().Perm(), false
	}
	if mode&0o200 == 0 {
		return fmt.Errorf("open it: %w", ErrReadOnly)
	}
	return d.stage(target, text, mode, isNew, func(temp string) error {
		if last != nil {
			if err := last(); err != nil {
				return err
			}
		}
		return d.calls().Rename(temp, target)
	})
}

// Create makes a new file of text, whole or not at all. A name that is taken, even
// by a link that leads nowhere, is an fs.ErrExist and stays as it is.
func (d Disk) Create(path string, text []byte) error {
	return d.stage(path, text, 0o644, true, func(temp string) error { return d.putNew(temp, path) })
}

// putNew gives the file temp a name that is free. If the file system has no links,
// it first takes the name by an empty file, which nobody else then can; a program
// that dies between the two leaves that behind.
func (d Disk) putNew(temp, path string) error {
	calls := d.calls()
	err := calls.Link(temp, path)
	switch {
	case err == nil:
		_ = calls.Remove(temp) // its second name, which nobody reads
		return nil
	case errors.Is(err, fs.ErrExist):
		return err
	}
	f, err := calls.Create(path, 0o644)
	if err != nil {
		return err
	}
	if err = f.Close(); err == nil {
		err = calls.Rename(temp, path)
	}
	if err != nil {
		_ = calls.Remove(path) // ours, and empty
	}
	return err
}

// stage writes text to a file beside target, syncs it, and lets put bring it there.
func (d Disk) stage(
	target string, text []byte, mode fs.FileMode, isNew bool, put func(temp string) error,
) (err error) {
	temp, err := d.beside(target, mode)
	if err != nil {
		return fmt.Errorf("write beside it: %w", reason(err))
	}
	defer func() {
		if !Written(err) {
			_ = d.calls().Remove(temp.Name()) // report the first error, not this one
		}
	}()
	_, err = temp.Write(text)
	if err == nil && !isNew {
		err = temp.Chmod(mode) // the umask changed that of the new file
	}
	if err == nil {
		err = temp.Sync()
	}
	if closing := temp.Close(); err == nil {
		err = closing
	}
	if err != nil {
		return fmt.Errorf("write beside it: %w", reason(err))
	}
	if err = put(temp.Name()); err != nil {
		return fmt.Errorf("put the new file in its place: %w", reason(err))
	}
	if syncing := d.calls().Sync(filepath.Dir(target)); syncing != nil {
		return fmt.Errorf("%w: %w", ErrUnconfirmed, syncing)
	}
	return nil
}

// reason returns err without the file names that the system puts before it: they
// name the temporary file, which the maker need not know.
func reason(err error) error {
	var file *fs.PathError
	var two *os.LinkError
	switch {
	case errors.As(err, &file):
		return file.Err
	case errors.As(err, &two):
		return two.Err
	}
	return err
}

// beside makes a hidden file in the folder of path, under a free name.
func (d Disk) beside(path string, mode fs.FileMode) (File, error) {
	for n := 0; ; n++ {
		f, err := d.calls().Create(unfinishedName(path, n), mode)
		if err == nil || !errors.Is(err, fs.ErrExist) || n > 1000 {
			return f, err
		}
	}
}

// Confirm makes the disk keep the file at path as it is, and its name. It is for a
// text that is there already, perhaps from a write that the disk did not confirm.
func (d Disk) Confirm(path string) error {
	target, err := d.linked(path)
	if err != nil {
		return fmt.Errorf("follow the link: %w", err)
	}
	for _, what := range []string{target, filepath.Dir(target)} {
		if err := d.calls().Sync(what); err != nil {
			return fmt.Errorf("%w: %w", ErrUnconfirmed, err)
		}
	}
	return nil
}

// MakeFolder makes a folder and those above it, if missing, and makes the disk keep
// each. It also does so with a folder that is there: the program that made it may
// have died before, or the disk may have refused.
func (d Disk) MakeFolder(path string) error {
	calls, parent := d.calls(), filepath.Dir(path)
	if info, err := calls.Stat(path); err == nil && info.IsDir() {
		err = calls.Sync(parent)
		if errors.Is(err, fs.ErrPermission) {
			return nil // somebody else's folder, which need not be synced
		}
		return err
	}
	if parent != path {
		if err := d.MakeFolder(parent); err != nil {
			return err
		}
	}
	err := calls.Mkdir(path)
	if errors.Is(err, fs.ErrExist) { // another program was faster, or it is no folder
		if info, there := calls.Stat(path); there == nil && info.IsDir() {
			err = nil
		}
	}
	if err != nil {
		return err
	}
	return calls.Sync(parent)
}

// linked returns the file that path leads to, path itself if it is no link. The
// file need not exist.
func (d Disk) linked(path string) (string, error) {
	for range 40 {
		info, err := d.calls().Lstat(path)
		if errors.Is(err, fs.ErrNotExist) || err == nil && info.Mode()&fs.ModeSymlink == 0 {
			return path, nil
		}
		if err != nil {
			return "", err
		}
		to, err := d.calls().Readlink(path)
		if err != nil {
			return "", err
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", errors.New("the links go round in a circle")
}
