package atomicfile

import (
	"errors"
	"os"
	"time"
)

// withoutWaiting opens a pipe without waiting for its other end.
const withoutWaiting = 0

// rename replaces a file by another in one step. os.Rename is MoveFileEx with
// MOVEFILE_REPLACE_EXISTING there, which on NTFS swaps the name in one journalled
// step: after a crash the file is old or new. Both names lie in the same folder, so
// it never becomes a copy.
//
// Windows refuses while another program (a virus scanner, an indexer, a sync
// client, an editor) holds the old file open without sharing its deletion, even for
// a moment. So rename tries again for half a second. If it is still refused, that
// is the error, and the old file stays.
func rename(from, to string) error {
	var err error
	for range 25 {
		if err = os.Rename(from, to); err == nil {
			return nil
		}
		time.Sleep(20 * time.Millisecond)
	}
	return err
}

// runs reports whether a program with that number runs on this machine. Opening one
// that has ended fails, unless somebody still holds on to it, which counts as
// running.
func runs(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return errors.Is(err, os.ErrPermission) // somebody else's
	}
	_ = p.Release()
	return true
}

// syncName does nothing. Windows has no such call for folders, and flushes a file
// only for the program that has it open to write, which stage does.
func syncName(string) error { return nil }
