//go:build !windows

package atomicfile

import (
	"errors"
	"os"
	"syscall"
)

// withoutWaiting opens a pipe without waiting for its other end.
const withoutWaiting = syscall.O_NONBLOCK | syscall.O_NOCTTY

// rename replaces a file by another in one step.
func rename(from, to string) error { return os.Rename(from, to) }

// runs reports whether a program with that number runs on this machine, whoever
// owns it.
func runs(pid int) bool { return !errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) }

// syncName makes the disk keep a file, or the names in a folder. Some file systems,
// mostly network ones, cannot do that; it is not an error.
func syncName(name string) error {
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	err = f.Sync()
	if closing := f.Close(); err == nil {
		err = closing
	}
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, errors.ErrUnsupported) {
		return nil
	}
	return err
}
