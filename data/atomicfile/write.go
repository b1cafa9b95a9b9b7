package atomicfile

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// ErrUnconfirmed is the one failure of a write after which the file is new.
var ErrUnconfirmed = errors.New("the file is written, but the disk did not confirm it")

// ErrReadOnly refuses to replace a file that is marked so.
var ErrReadOnly = errors.New("the file is marked read-only")

// Written reports whether the file is the new one after a write that ended
// with err.
func Written(err error) bool { return err == nil || errors.Is(err, ErrUnconfirmed) }

// Replace puts text in the place of the file at path, or makes it, in one step:
// at any moment, a loss of power included, the file is whole, old or new. On
// failure the old one stays and nothing is left beside it. A link is followed;
// permissions stay.
//
// When the new text is on the disk and only has to take its place, last is
// called, if it is not nil; its error is the end of it.
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
	return d.place(target, text, mode, isNew, func(temp string) error {
		if last != nil {
			if err := last(); err != nil {
				return err
			}
		}
		return d.calls().Rename(temp, target)
	})
}

// Create makes a file of text where there is none, whole or not at all. A name
// that is taken, be it by a link that leads nowhere, is an fs.ErrExist and
// stays as it is.
func (d Disk) Create(path string, text []byte) error {
	return d.place(path, text, 0o644, true, func(temp string) error { return d.putNew(temp, path) })
}

// putNew gives the file temp a name that nobody has. Where the file system
// knows no links, the name is taken by an empty file first, which nobody else
// then can; a program that dies between the two leaves it there, empty.
func (d Disk) putNew(temp, path string) error {
	calls := d.calls()
	err := calls.Link(temp, path)
	switch {
	case err == nil:
		_ = calls.Remove(temp) // a second name beside it, that nobody reads
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

// place writes text beside target, has it on the disk, and lets put bring it
// there.
func (d Disk) place(
	target string, text []byte, mode fs.FileMode, isNew bool, put func(temp string) error,
) (err error) {
	temp, err := d.beside(target, mode)
	if err != nil {
		return fmt.Errorf("write beside it: %w", reason(err))
	}
	defer func() {
		if !Written(err) {
			_ = d.calls().Remove(temp.Name()) // the failure itself is what to report
		}
	}()
	_, err = temp.Write(text)
	if err == nil && !isNew {
		err = temp.Chmod(mode) // the new one went through the umask
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

// reason is err without the names of files that the system puts before it: they
// are those of the file beside it, which is not the maker's concern.
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

// beside makes a hidden file in the folder of path, of a name that is nobody's.
func (d Disk) beside(path string, mode fs.FileMode) (File, error) {
	for n := 0; ; n++ {
		f, err := d.calls().Create(unfinishedName(path, n), mode)
		if err == nil || !errors.Is(err, fs.ErrExist) || n > 1000 {
			return f, err
		}
	}
}

// Confirm has the disk remember the file at path as it is, and its name. It is
// for a text that is there already, perhaps from a write that the disk did not
// confirm.
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

// MakeFolder makes a folder and those it lies in, where they are missing, and
// has the disk remember each. So it does with one that is there already: a
// program that made it may have died before, or the disk may have refused.
func (d Disk) MakeFolder(path string) error {
	calls, parent := d.calls(), filepath.Dir(path)
	if info, err := calls.Stat(path); err == nil && info.IsDir() {
		err = calls.Sync(parent)
		if errors.Is(err, fs.ErrPermission) {
			return nil // another's folder, which is not ours to look after
		}
		return err
	}
	if parent != path {
		if err := d.MakeFolder(parent); err != nil {
			return err
		}
	}
	err := calls.Mkdir(path)
	if errors.Is(err, fs.ErrExist) { // another program was quicker, or it is no folder
		if info, there := calls.Stat(path); there == nil && info.IsDir() {
			err = nil
		}
	}
	if err != nil {
		return err
	}
	return calls.Sync(parent)
}

// linked is the file that path leads to, path itself when it is no link. The
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
