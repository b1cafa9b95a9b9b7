//go:build !windows

package main

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// hostileShelf is a shelf with one sound powder. Beside it are a link to an endless
// device, a pipe that nobody writes to, a link to the terminal, and a file of
// 20,000 steps. The first three are in every folder that is read.
func hostileShelf(t *testing.T) host {
	h := testHost(t)
	src, err := os.ReadFile(lightClay)
	require.NoError(t, err)
	shelve(t, h, "clay", string(src))
	for _, folder := range []string{"powders", "recipes"} {
		dir := filepath.Join(h.shelf, folder)
		require.NoError(t, os.MkdirAll(dir, 0o755))
		require.NoError(t, os.Symlink("/dev/zero", filepath.Join(dir, "zero.toml")))
		require.NoError(t, syscall.Mkfifo(filepath.Join(dir, "pipe.toml"), 0o644))
		require.NoError(t, os.Symlink("/dev/tty", filepath.Join(dir, "terminal.toml")))
	}
	var long strings.Builder
	long.WriteString("schema = 1\n[powder]\nname = \"Long\"\n[[trial]]\nstarted = 2026-05-03T10:12:00Z\nliquid_g " +
		"= 20.0\n")
	for range 20000 {
		long.WriteString("[[trial.step]]\nadd = \"powder\"\ngrams = 0.1\nlevel = 3.0\n")
	}
	shelve(t, h, "long", long.String())
	return h
}

// promptly runs a command and fails if it hangs or allocates 400 MB.
func promptly(t *testing.T, h host, args ...string) said {
	t.Helper()
	return frugally(t, h, 400<<20, args...)
}

// frugally runs a command and fails if it hangs or allocates more than most bytes
// in all.
func frugally(t *testing.T, h host, most uint64, args ...string) said {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	done := make(chan said, 1)
	go func() { done <- daub(h, args...) }()
	select {
	case got := <-done:
		runtime.ReadMemStats(&after)
		require.Less(t, after.TotalAlloc-before.TotalAlloc, most, "%v", args)
		return got
	case <-time.After(20 * time.Second):
		require.Fail(t, "hangs", "%v", args)
		return said{}
	}
}

// A file that is not plain, or too long, is reported; everything else works.
func TestHostileShelfIsServed(t *testing.T) {
	h := hostileShelf(t)
	got := promptly(t, h, "list")
	require.Equal(t, exitBadData, got.code)
	require.Contains(t, got.out, "Light white clay")
	for _, name := range []string{"zero", "pipe", "terminal"} {
		require.Contains(t, got.err, name+".toml: this is no plain file")
	}
	require.Contains(t, got.err, "a trial of 20000 steps is not possible; keep a trial within 5000 steps")

	require.Zero(t, promptly(t, h, "show", "clay").code)
	require.Zero(t, promptly(t, h, "export", "clay", "--to", "csv").code)
	require.Contains(t, promptly(t, h, "recipe", "list").err, "zero.toml: this is no plain file")
	for _, name := range []string{"zero", "pipe", "terminal"} {
		file := filepath.Join(h.shelf, "powders", name+".toml")
		require.Equal(t, exitBadData, promptly(t, h, "fit", file).code)
		require.Equal(t, exitBadData, promptly(t, h, "check", file).code)
		require.Equal(t, exitBadData, promptly(t, h, "show", name).code)
	}
}

// Own spoons in a file that is not plain are reported and stop nothing.
func TestHostileSpoonsAreTold(t *testing.T) {
	for i, make := range []func(path string) error{
		func(path string) error { return os.Symlink("/dev/zero", path) },
		func(path string) error { return syscall.Mkfifo(path, 0o644) },
		func(path string) error { return os.Symlink("/dev/tty", path) },
	} {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			h := clays(t)
			require.NoError(t, make(filepath.Join(h.shelf, "spoons.toml")))
			got := promptly(t, h, "list")
			require.Equal(t, exitBadData, got.code)
			require.Contains(t, got.out, "Light white clay")
			require.Contains(t, got.err, "spoons.toml: this is no plain file")
		})
	}
}
