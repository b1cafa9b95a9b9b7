//go:build !windows

package data

import (
	"errors"
	"os"
	"syscall"
)

// replace puts one file in the place of another in one step.
func replace(from, to string) error { return os.Rename(from, to) }

// syncFolder makes the disk remember the new name. Some file systems, network
// ones above all, cannot be asked to; that is not an error.
func syncFolder(folder string) error {
	f, err := os.Open(folder)
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
