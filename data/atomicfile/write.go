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
func Replace(path string, text []byte, last func() error) error {
	target, err := linked(path)
	if err != nil {
		return fmt.Errorf("follow the link: %w", err)
	}
	mode, isNew := fs.FileMode(0o644), true
	if info, err := os.Stat(target); err == nil {
		if !info.Mode().IsRegular() {
			return fmt.Errorf("open it: %w", ErrNotPlain)
		}
		mode, isNew = info.Mode().Perm(), false
	}
	if mode&0o200 == 0 {
		return fmt.Errorf("open it: %w", ErrReadOnly)
	}
	return place(target, text, mode, isNew, func(temp string) error {
		if last != nil {
			if err := last(); err != nil {
				return err
			}
		}
		return rename(temp, target)
	})
}

// Create makes a file of text where there is none, whole or not at all. A name
// that is taken, be it by a link that leads nowhere, is an fs.ErrExist and
// stays as it is.
func Create(path string, text []byte) error {
	return place(path, text, 0o644, true, func(temp string) error { return putNew(temp, path, os.Link) })
}

// putNew gives the file temp a name that nobody has. Where the file system
// knows no links, the name is taken by an empty file first, which nobody else
// then can.
func putNew(temp, path string, link func(from, to string) error) error {
	err := link(temp, path)
	switch {
	case err == nil:
		return os.Remove(temp)
	case errors.Is(err, fs.ErrExist):
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	if err = f.Close(); err == nil {
		err = rename(temp, path)
	}
	if err != nil {
		_ = os.Remove(path) // ours, and empty
	}
	return err
}

// place writes text beside target, has it on the disk, and lets put bring it
// there.
func place(target string, text []byte, mode fs.FileMode, isNew bool, put func(temp string) error) (err error) {
	temp, err := beside(target, mode)
	if err != nil {
		return fmt.Errorf("write beside it: %w", err)
	}
	defer func() {
		if !Written(err) {
			_ = os.Remove(temp.Name()) // the failure itself is what to report
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
		return fmt.Errorf("write beside it: %w", err)
	}
	if err = put(temp.Name()); err != nil {
		return fmt.Errorf("put the new file in its place: %w", err)
	}
	if syncing := syncFolder(filepath.Dir(target)); syncing != nil {
		return fmt.Errorf("%w: %w", ErrUnconfirmed, syncing)
	}
	return nil
}

// beside makes a hidden file in the folder of path, of a name that is nobody's.
func beside(path string, mode fs.FileMode) (*os.File, error) {
	for n := 0; ; n++ {
		name := filepath.Join(filepath.Dir(path), fmt.Sprintf(".%s.%d-%d.tmp", filepath.Base(path), os.Getpid(), n))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if err == nil || !errors.Is(err, fs.ErrExist) || n > 1000 {
			return f, err
		}
	}
}

// MakeFolder makes a folder and those it lies in, where they are missing, and
// has the disk remember each.
func MakeFolder(path string) error {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return nil
	}
	parent := filepath.Dir(path)
	if parent != path {
		if err := MakeFolder(parent); err != nil {
			return err
		}
	}
	if err := os.MkdirAll(path, 0o755); err != nil { // another program may have been quicker
		return err
	}
	return syncFolder(parent)
}

// linked is the file that path leads to, path itself when it is no link. The
// file need not exist.
func linked(path string) (string, error) {
	for range 40 {
		info, err := os.Lstat(path)
		if errors.Is(err, fs.ErrNotExist) || err == nil && info.Mode()&fs.ModeSymlink == 0 {
			return path, nil
		}
		if err != nil {
			return "", err
		}
		to, err := os.Readlink(path)
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
