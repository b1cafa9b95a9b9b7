//go:build !windows

package atomicfile

import (
	"errors"
	"os"
	"syscall"
)

// withoutWaiting opens a pipe without waiting for its other end.
const withoutWaiting = syscall.O_NONBLOCK | syscall.O_NOCTTY

// rename puts one file in the place of another in one step.
func rename(from, to string) error { return os.Rename(from, to) }

// runs reports whether a program of that number runs on this machine, also one
// that belongs to somebody else.
func runs(pid int) bool { return !errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) }

// syncName makes the disk remember a file, or the names in a folder. Some file
// systems, network ones above all, cannot be asked to; that is not an error.
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
