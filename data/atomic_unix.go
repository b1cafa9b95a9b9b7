//go:build !windows

package data

import "os"

// replace puts one file in the place of another in one step.
func replace(from, to string) error { return os.Rename(from, to) }

// syncFolder makes the disk remember the new name.
func syncFolder(folder string) error {
	f, err := os.Open(folder)
	if err != nil {
		return err
	}
	err = f.Sync()
	if closing := f.Close(); err == nil {
		err = closing
	}
	return err
}
