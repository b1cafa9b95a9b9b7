//go:build !windows

package term

import "golang.org/x/sys/unix"

// CanSuspend reports whether Ctrl+Z has a shell to return to. A program in the
// process group of its session's leader was not started by a shell with job
// control. The system would not stop it, and it would wait for ever.
func CanSuspend() bool {
	session, err := unix.Getsid(0)
	return err == nil && session != unix.Getpgrp()
}
