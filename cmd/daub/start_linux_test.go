package main

import (
	"maps"
	"os/exec"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// initLine matches the runtime's line on a package's initialisation under
// GODEBUG=inittrace=1: which, when, how long, and what it took.
var initLine = regexp.MustCompile(`(?m)^init (\S+) @\S+ ms, (\S+) ms clock, (\d+) bytes, (\d+) allocs$`)

// What a package may take before main: the largest today takes 95 kB and 0.1 ms, and
// a package that once cost 21 ms took over a megabyte.
const (
	mayTakeBytes  = 128 << 10
	mayTakeAllocs = 640
	mayTakeMS     = 0.5
)

// Every command pays for what packages do before main. Memory is the same at every
// start. Time is not: a package's best of up to a hundred starts counts, for one
// that waited for the processor in some will not have in all.
func TestPackagesDoLittleBeforeMain(t *testing.T) {
	path, err := build()
	require.NoError(t, err)
	lines := initLines(t, path)
	require.NotEmpty(t, lines)
	for _, m := range lines {
		bytes, err := strconv.Atoi(m[3])
		require.NoError(t, err)
		allocs, err := strconv.Atoi(m[4])
		require.NoError(t, err)
		assert.LessOrEqual(t, bytes, mayTakeBytes, "bytes of %s before main", m[1])
		assert.LessOrEqual(t, allocs, mayTakeAllocs, "allocations of %s before main", m[1])
	}
	best := map[string]float64{}
	keepBest(t, best, lines)
	for range 99 {
		if slowest(best) <= mayTakeMS {
			break
		}
		keepBest(t, best, initLines(t, path))
	}
	for name, took := range best {
		assert.LessOrEqual(t, took, mayTakeMS, "ms of %s before main, at best", name)
	}
}

// BenchmarkInit is the time of the slowest package before main, each package's
// best of all runs, in ms.
func BenchmarkInit(b *testing.B) {
	path, err := build()
	require.NoError(b, err)
	best := map[string]float64{}
	for b.Loop() {
		keepBest(b, best, initLines(b, path))
	}
	b.ReportMetric(slowest(best), "ms-slowest")
}

// keepBest keeps the shortest time of each package, ms.
func keepBest(t testing.TB, best map[string]float64, lines [][]string) {
	for _, m := range lines {
		took, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
		if was, seen := best[m[1]]; !seen || took < was {
			best[m[1]] = took
		}
	}
}

// slowest is the longest of the times.
func slowest(best map[string]float64) float64 {
	return slices.Max(slices.Collect(maps.Values(best)))
}

// initLines are the parts of each line of initLine of a start of the program.
func initLines(t testing.TB, program string) [][]string {
	start := exec.Command(program, "version")
	start.Env = append(start.Environ(), "GODEBUG=inittrace=1")
	out, err := start.CombinedOutput()
	require.NoError(t, err)
	return initLine.FindAllStringSubmatch(string(out), -1)
}
