package main

import (
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// initLine matches the runtime's line on a package's initialisation under
// GODEBUG=inittrace=1: which, when, how long, and what it took.
var initLine = regexp.MustCompile(`(?m)^init (\S+) @\S+ ms, (\S+) ms clock, (\d+) bytes, (\d+) allocs$`)

// mayTake is the longest that a package may take before main, in ms.
const mayTake = 0.5

// Every command pays for what packages do before main. It is the best of many
// starts that counts: a busy machine makes any single one slow.
func TestStartIsQuick(t *testing.T) {
	if testing.Short() {
		t.Skip("builds the program")
	}
	program := filepath.Join(t.TempDir(), "daub")
	require.NoError(t, exec.Command("go", "build", "-o", program, ".").Run())
	best := map[string]float64{}
	for range 20 {
		start := exec.Command(program, "version")
		start.Env = append(start.Environ(), "GODEBUG=inittrace=1")
		out, err := start.CombinedOutput()
		require.NoError(t, err)
		for _, m := range initLine.FindAllStringSubmatch(string(out), -1) {
			took, err := strconv.ParseFloat(m[2], 64)
			require.NoError(t, err)
			if was, seen := best[m[1]]; !seen || took < was {
				best[m[1]] = took
			}
		}
	}
	require.NotEmpty(t, best)
	for name, took := range best {
		assert.LessOrEqual(t, took, mayTake, "package %s takes %v ms before main", name, took)
	}
}
