package main

import (
	"os/exec"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// initLine matches the runtime's line on a package's initialisation under
// GODEBUG=inittrace=1: which, when, how long, and what it took.
var initLine = regexp.MustCompile(`(?m)^init (\S+) @\S+ ms, (\S+) ms clock, (\d+) bytes, (\d+) allocs$`)

// What a package may take before main. Its time rests on how busy the machine is,
// so the test counts memory: the largest today takes 95 kB, and a package that
// once cost 21 ms took over a megabyte. BenchmarkInit shows the time.
const (
	mayTakeBytes  = 128 << 10
	mayTakeAllocs = 640
)

// Every command pays for what packages do before main.
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
}

// BenchmarkInit is the time of the slowest package before main, each package's
// best of all runs, in ms: 0.5 is aimed at.
func BenchmarkInit(b *testing.B) {
	path, err := build()
	require.NoError(b, err)
	best := map[string]float64{}
	for b.Loop() {
		for _, m := range initLines(b, path) {
			took, err := strconv.ParseFloat(m[2], 64)
			require.NoError(b, err)
			if was, seen := best[m[1]]; !seen || took < was {
				best[m[1]] = took
			}
		}
	}
	slowest := 0.0
	for _, took := range best {
		slowest = max(slowest, took)
	}
	b.ReportMetric(slowest, "ms-slowest")
}

// initLines are the parts of each line of initLine of a start of the program.
func initLines(t testing.TB, program string) [][]string {
	start := exec.Command(program, "version")
	start.Env = append(start.Environ(), "GODEBUG=inittrace=1")
	out, err := start.CombinedOutput()
	require.NoError(t, err)
	return initLine.FindAllStringSubmatch(string(out), -1)
}
