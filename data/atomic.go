package data

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// errUnconfirmed is the one failure of a save after which the file is new.
var errUnconfirmed = errors.New("the file is written, but the disk did not confirm it")

// write puts text into a file in one step: at any moment, a loss of power
// included, the file is whole, old or new. On failure the old one stays and no
// other file is left behind. A link is followed; permissions stay.
func (s *Shelf) write(path string, text []byte) (err error) {
	fail := func(what string, err error) error {
		return fmt.Errorf("save %s: %s: %w; nothing was changed: check that the folder may be written and the disk has room", path, what, err)
	}
	target, err := linked(path)
	if err != nil {
		return fail("follow the link", err)
	}
	folder := filepath.Dir(target)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fail("make the folder", err)
	}
	mode, isNew := fs.FileMode(0o644), true
	if info, err := os.Stat(target); err == nil {
		mode, isNew = info.Mode().Perm(), false
	}
	if mode&0o200 == 0 {
		return fail("open it", errors.New("the file is marked read-only"))
	}
	temp, err := newTemp(folder, filepath.Base(target), mode)
	if err != nil {
		return fail("write beside it", err)
	}
	defer func() {
		if err != nil {
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
		return fail("write beside it", err)
	}
	if err = s.replace(temp.Name(), target); err != nil {
		return fail("put the new file in its place", err)
	}
	if syncing := syncFolder(folder); syncing != nil {
		return fmt.Errorf("save %s: %w: %w; save again", path, errUnconfirmed, syncing)
	}
	return nil
}

// newTemp makes a hidden file in folder, of a name that is nobody's slug.
func newTemp(folder, base string, mode fs.FileMode) (*os.File, error) {
	for n := 0; ; n++ {
		name := filepath.Join(folder, fmt.Sprintf(".%s.%d-%d.tmp", base, os.Getpid(), n))
		f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
		if err == nil || !errors.Is(err, fs.ErrExist) || n > 1000 {
			return f, err
		}
	}
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
