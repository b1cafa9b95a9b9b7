package atomicfile

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
)

// Reasons for which Read refuses a file.
var (
	ErrFolder   = errors.New("this is a folder, not a file")
	ErrNotPlain = errors.New("this is no plain file, but a device, a pipe or a socket")
	ErrTooLarge = errors.New("the file is too large")
	ErrNowhere  = errors.New("the link leads nowhere")
)

// Read reads a plain file of at most limit bytes. Links are followed. Only a
// missing file is an fs.ErrNotExist; other errors are those above, or one of the
// system.
//
// A file that is not plain is not opened; if it appeared after the check, opening
// does not wait for it. The size reported by the system is not trusted: at most
// limit and one byte are read.
func Read(path string, limit int64) ([]byte, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, link := os.Lstat(path); link == nil {
			return nil, ErrNowhere
		}
	}
	if err != nil {
		return nil, err
	}
	if err := plain(info, limit); err != nil {
		return nil, err
	}
	f, err := os.OpenFile(path, os.O_RDONLY|withoutWaiting, 0)
	if err != nil {
		return nil, err
	}
	defer func() { _ = f.Close() }() // nothing was written
	if info, err = f.Stat(); err != nil {
		return nil, err
	}
	if err := plain(info, limit); err != nil {
		return nil, err
	}
	text := bytes.NewBuffer(make([]byte, 0, info.Size()+bytes.MinRead)) // room to see the end without growing
	_, err = text.ReadFrom(io.LimitReader(f, limit+1))
	if err == nil && int64(text.Len()) > limit {
		return nil, ErrTooLarge
	}
	return text.Bytes(), err
}

// plain refuses a file that is not plain or too large.
func plain(info fs.FileInfo, limit int64) error {
	switch {
	case info.IsDir():
		return ErrFolder
	case !info.Mode().IsRegular():
		return ErrNotPlain
	case info.Size() > limit:
		return ErrTooLarge
	}
	return nil
}
