package atomicfile

import (
	"io"
	"io/fs"
	"os"
)

// Disk writes files by the calls of a file system; the zero Disk uses the system's
// own. Tests give it calls that fail and forget.
type Disk struct{ Calls Calls }

// Calls are the calls that a write makes, with the meaning and errors of package
// os.
type Calls interface {
	Stat(name string) (fs.FileInfo, error)
	Lstat(name string) (fs.FileInfo, error)
	Readlink(name string) (string, error)
	// Create makes a new file for writing.
	Create(name string, mode fs.FileMode) (File, error)
	Link(from, to string) error
	// Rename replaces the file at to, in one step.
	Rename(from, to string) error
	Remove(name string) error
	Mkdir(name string) error
	// Sync makes the disk keep a file's text, or the names in a folder.
	Sync(name string) error
}

// File is a file that is being written.
type File interface {
	io.WriteCloser
	Name() string
	Chmod(mode fs.FileMode) error
	Sync() error
}

func (d Disk) calls() Calls {
	if d.Calls == nil {
		return System{}
	}
	return d.Calls
}

// System makes the calls of the system itself.
type System struct{}

// Stat is os.Stat.
func (System) Stat(name string) (fs.FileInfo, error) { return os.Stat(name) }

// Lstat is os.Lstat.
func (System) Lstat(name string) (fs.FileInfo, error) { return os.Lstat(name) }

// Readlink is os.Readlink.
func (System) Readlink(name string) (string, error) { return os.Readlink(name) }

// Create opens a new file for writing.
func (System) Create(name string, mode fs.FileMode) (File, error) {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, mode)
	if err != nil {
		return nil, err // not a File that holds nil
	}
	return f, nil
}

// Link is os.Link.
func (System) Link(from, to string) error { return os.Link(from, to) }

// Rename is os.Rename; on Windows it tries again for a while.
func (System) Rename(from, to string) error { return rename(from, to) }

// Remove is os.Remove.
func (System) Remove(name string) error { return os.Remove(name) }

// Mkdir is os.Mkdir, with the usual permissions.
func (System) Mkdir(name string) error { return os.Mkdir(name, 0o755) }

// Sync makes the disk keep a file or the names in a folder.
func (System) Sync(name string) error { return syncName(name) }

// Replace is Disk.Replace on the system's own disk.
func Replace(path string, text []byte, last func() error) error {
	return Disk{}.Replace(path, text, last)
}

// Create is Disk.Create on the system's own disk.
func Create(path string, text []byte) error { return Disk{}.Create(path, text) }

// MakeFolder is Disk.MakeFolder on the system's own disk.
func MakeFolder(path string) error { return Disk{}.MakeFolder(path) }
