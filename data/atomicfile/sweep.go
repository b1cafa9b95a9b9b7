package atomicfile

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"time"
)

// unowned is the age from which an unfinished file counts as left behind, if nobody
// here can say whether its program still runs. A save takes moments; clocks of two
// machines may be hours apart.
const unowned = 48 * time.Hour

// unfinished matches the names of unfinishedName; it is compiled when first used.
// Names of older versions do not tell their machine.
var unfinished = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\..+\.(?:([a-z0-9]+)-)?([0-9]{1,10})-[0-9]{1,4}\.tmp$`)
})

// unfinishedName returns this program's n-th name for a file being written, hidden
// in the folder of path.
func unfinishedName(path string, n int) string {
	name := fmt.Sprintf(".%s.%s-%d-%d.tmp", filepath.Base(path), machine(), os.Getpid(), n)
	return filepath.Join(filepath.Dir(path), name)
}

// machine returns this machine's name, in small letters and digits, at most 32.
func machine() string {
	name, _ := os.Hostname()
	name = strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, strings.ToLower(name))
	if name == "" {
		return "unknown"
	}
	return name[:min(len(name), 32)]
}

// Sweep removes the unfinished files that killed programs left in a folder. Files
// of a running program stay, files of another machine stay until they are two days
// old, and other names always. A file that cannot be read or removed is left for
// the next time: nobody reads it.
func Sweep(dir string, now time.Time) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return
	}
	for _, e := range entries {
		parts := unfinished().FindStringSubmatch(e.Name())
		if parts == nil || !e.Type().IsRegular() {
			continue
		}
		pid, err := strconv.Atoi(parts[2])
		if err != nil {
			continue
		}
		left := parts[1] == machine() && !runs(pid)
		if parts[1] != machine() {
			info, err := e.Info()
			left = err == nil && now.Sub(info.ModTime()) > unowned
		}
		if left {
			_ = os.Remove(filepath.Join(dir, e.Name()))
		}
	}
}
