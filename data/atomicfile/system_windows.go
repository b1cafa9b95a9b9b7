package atomicfile

import (
	"os"
	"time"
)

// withoutWaiting opens a pipe without waiting for its other end.
const withoutWaiting = 0

// rename puts one file in the place of another in one step. The system
// refuses while another program holds the file open, be it for a moment; so
// it is tried again for half a second.
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

// syncFolder does nothing: the system has no such call for folders.
func syncFolder(string) error { return nil }
