//go:build !windows

package main

import (
	"time"

	"golang.org/x/sys/unix"
)

// typed waits until something can be read, at the most so long.
func typed(fd uintptr, wait time.Duration) bool {
	n, err := unix.Poll([]unix.PollFd{{Fd: int32(fd), Events: unix.POLLIN}}, int(wait.Milliseconds()))
	return err == nil && n > 0
}
