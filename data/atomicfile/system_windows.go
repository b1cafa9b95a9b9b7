package atomicfile

import (
	"errors"
	"os"
	"time"
)

// withoutWaiting opens a pipe without waiting for its other end.
const withoutWaiting = 0

// rename puts one file in the place of another in one step: os.Rename is
// MoveFileEx with MOVEFILE_REPLACE_EXISTING there, which on NTFS swaps the name
// in one journalled step, so that after a crash the file is old or new. Both
// names lie in the same folder, so it never becomes a copy.
//
// Unlike elsewhere, the system refuses while another program (a virus scanner,
// an indexer, a sync client, an editor) holds the old file open without sharing
// its deletion, be it for a moment; so it is tried again for half a second.
// What is still refused then is an error, and the old file stays.
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

// runs reports whether a program of that number runs on this machine: opening
// one that has ended fails there, unless somebody still holds on to it, which
// counts as running.
func runs(pid int) bool {
	p, err := os.FindProcess(pid)
	if err != nil {
		return errors.Is(err, os.ErrPermission) // somebody else's
	}
	_ = p.Release()
	return true
}

// syncName does nothing: the system has no such call for folders, and flushes a
// file only through whoever has it open to write, which place does.
func syncName(string) error { return nil }
