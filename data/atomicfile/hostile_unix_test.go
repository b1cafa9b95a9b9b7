//go:build !windows

package atomicfile

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// Devices and pipes are refused at once, also through a link.
func TestReadOfNoPlainFile(t *testing.T) {
	dir := t.TempDir()
	pipe := filepath.Join(dir, "pipe")
	require.NoError(t, syscall.Mkfifo(pipe, 0o644))
	paths := []string{pipe}
	for _, device := range []string{"/dev/zero", "/dev/tty", "/dev/ptmx", "/dev/stdin"} {
		if info, err := os.Stat(device); err != nil || info.Mode().IsRegular() {
			continue
		}
		link := filepath.Join(dir, filepath.Base(device))
		require.NoError(t, os.Symlink(device, link))
		paths = append(paths, device, link)
	}
	for _, path := range paths {
		done := make(chan error, 1)
		go func() {
			_, err := Read(path, 1<<20)
			done <- err
		}()
		select {
		case err := <-done:
			require.ErrorIs(t, err, ErrNotPlain, path)
		case <-time.After(20 * time.Second):
			require.Fail(t, "hangs", path)
		}
	}
}
