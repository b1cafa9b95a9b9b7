package atomicfile

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ended is the number of a program that has run and ended.
func ended(t *testing.T) int {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(self, "-test.run", "^$")
	require.NoError(t, cmd.Run())
	return cmd.Process.Pid
}

func TestSweep(t *testing.T) {
	dir := t.TempDir()
	gone, now := ended(t), time.Now()
	old := now.Add(-3 * 24 * time.Hour)
	for _, c := range []struct {
		name   string
		made   time.Time
		sweeps bool
	}{
		{fmt.Sprintf(".rye.toml.%s-%d-0.tmp", machine(), gone), now, true},
		{fmt.Sprintf(".rye.toml.%s-%d-0.tmp", machine(), os.Getpid()), old, false},
		{fmt.Sprintf(".rye.toml.%s-%d-0.tmp", machine(), os.Getppid()), old, false},
		{fmt.Sprintf(".oat.toml.otherbench-%d-0.tmp", gone), now, false},
		{fmt.Sprintf(".oat.toml.otherbench-%d-1.tmp", gone), old, true},
		{fmt.Sprintf(".oat.toml.%d-0.tmp", gone), now, false}, // of an older version, on whatever machine
		{fmt.Sprintf(".oat.toml.%d-1.tmp", gone), old, true},
		{".notes.tmp", old, false},
		{"rye.toml", old, false},
	} {
		path := filepath.Join(dir, c.name)
		put(t, path, "half a pro")
		require.NoError(t, os.Chtimes(path, c.made, c.made))
		Sweep(dir, now)
		if c.sweeps {
			assert.NoFileExists(t, path)
		} else {
			assert.FileExists(t, path)
		}
	}
	folder := filepath.Join(dir, fmt.Sprintf(".rye.toml.%s-%d-7.tmp", machine(), gone))
	require.NoError(t, os.Mkdir(folder, 0o755))
	Sweep(dir, now)
	assert.DirExists(t, folder, "no file of ours")
	Sweep(filepath.Join(dir, "nowhere"), now)
}

// What a save writes beside the file is known again as ours.
func TestUnfinishedNamesAreKnownAgain(t *testing.T) {
	name := filepath.Base(unfinishedName("/shelf/powders/rye.toml", 3))
	parts := unfinished().FindStringSubmatch(name)
	require.NotNil(t, parts, name)
	assert.Equal(t, []string{machine(), fmt.Sprint(os.Getpid())}, parts[1:])
}
