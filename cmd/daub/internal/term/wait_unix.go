//go:build !windows

package term

import (
	"errors"
	"time"

	"golang.org/x/sys/unix"
)

// typed waits until something can be read, at most for wait. A signal, such as that
// of a resized window, does not end the wait.
func typed(fd uintptr, wait time.Duration) bool {
	for end := time.Now().Add(wait); ; {
		left := max(time.Until(end).Milliseconds(), 0)
		n, err := unix.Poll([]unix.PollFd{{Fd: int32(fd), Events: unix.POLLIN}}, int(left))
		if errors.Is(err, unix.EINTR) && left > 0 {
			continue
		}
		return err == nil && n > 0
	}
}
