package main

import (
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"daub.example/daub/data/tomlfile"
	"github.com/stretchr/testify/require"
)

// hostileFiles are files of the largest size, or with the most content, that are
// read, one of each kind.
func hostileFiles() map[string]string {
	const sound = "schema = 1\n[powder]\nname = \"x\"\n"
	odd := strings.ReplaceAll(sound, `"`, "'") // not as daub writes it: only the TOML library reads it
	trial := sound + "[[trial]]\nstarted = 2026-05-03T10:12:00Z\nliquid_g = 20.0\n"
	step := "[[trial.step]]\nadd = \"powder\"\ngrams = 0.01\nlevel = 0.0\nnote = \"as before\"\n"
	spoon := "[[level_spoon]]\nspoon = '1 tsp'\ngrams = ["
	keys := func(n int, value string) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, "a%d = %s\n", i, value)
		}
		return b.String()
	}
	return map[string]string{
		"blank":       sound,
		"comments":    sound + strings.Repeat("#\n", (tomlfile.MaxFileSize-len(sound))/2),
		"odd":         odd + strings.Repeat("#\n", (tomlfile.MaxFileSize-len(odd))/2),
		"trials":      sound + strings.Repeat("[[trial]]\n", 49_000),
		"steps":       trial + strings.Repeat(step, 49_000),
		"keys":        sound + keys(299_000, "1"),
		"odd keys":    odd + keys(99_000, "'x'"),
		"list":        odd + spoon + strings.Repeat("1,", 199_000) + "1]\n",
		"text":        sound + "notes = \"" + strings.Repeat("x", tomlfile.MaxFileSize-len(sound)-12) + "\"\n",
		"more tables": sound + strings.Repeat("[[trial]]\n", 800_000),
		"more keys":   sound + keys(600_000, "1"),
		"more values": odd + spoon + strings.Repeat("1,", 4_000_000) + "1]\n",
		"nesting":     "a = " + strings.Repeat("[", tomlfile.MaxFileSize-8),
	}
}

// keptFile is of the largest size and has nearly as many unknown values as are
// kept. Each gets a warning, which takes more memory than hostileFiles do.
func keptFile() string {
	const steps, inTrial = 49_000, 4_900
	trial := "[[trial]]\nstarted = 2026-05-03T10:12:00Z\nliquid_g = 20.0\n"
	step := "[[trial.step]]\nadd = \"powder\"\ngrams = 0.01\nreading = \"\"\n"
	text := "schema = 1\n[powder]\nname = \"x\"\n" +
		strings.Repeat(trial+strings.Repeat(step, inTrial), steps/inTrial)
	return text + strings.Repeat("#", tomlfile.MaxFileSize-len(text)-2) + "\n"
}

// checked runs `daub check` on a file. It returns the processor time and the peak
// memory, MB, looked at every few milliseconds.
func checked(t testing.TB, program, file string) (took time.Duration, peakMB float64) {
	t.Helper()
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	cmd := exec.CommandContext(ctx, program, "check", file)
	require.NoError(t, cmd.Start())
	ended := make(chan struct{})
	go func() {
		_ = cmd.Wait() // most of the files are refused
		close(ended)
	}()
	for running := true; running; {
		select {
		case <-ended:
			running = false
		case <-time.After(2 * time.Millisecond):
			peakMB = max(peakMB, highWaterMB(cmd.Process.Pid))
		}
	}
	require.NoError(t, ctx.Err(), "%s hangs", file)
	return cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), peakMB
}

// highWaterMB returns a program's peak memory so far, MB; 0 once it has ended.
func highWaterMB(pid int) float64 {
	text, _ := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	kB := 0.0
	if _, after, found := strings.Cut(string(text), "VmHWM:"); found {
		_, _ = fmt.Sscan(after, &kB)
	}
	return kB / 1024
}

// costs writes files and calls each with a run on every one.
func costs(t testing.TB, files map[string]string, each func(name string, run func() (time.Duration, float64))) {
	program, err := build()
	require.NoError(t, err)
	dir := t.TempDir()
	for name, text := range files {
		file := filepath.Join(dir, strings.ReplaceAll(name, " ", "-")+".toml")
		require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
		each(name, func() (time.Duration, float64) { return checked(t, program, file) })
	}
}

// A hostile file adds at most 100 MB to a command. BenchmarkHostileFile shows the
// time it adds.
func TestHostileFileCostsLittleMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("ten seconds of reading")
	}
	const most, runs = 100, 3 // MB
	blank := 0.0
	costs(t, map[string]string{"blank": hostileFiles()["blank"]}, func(_ string, run func() (time.Duration, float64)) {
		for range runs { // a short run may end between two looks
			_, peak := run()
			blank = max(blank, peak)
		}
	})
	costs(t, hostileFiles(), func(name string, run func() (time.Duration, float64)) {
		least := math.Inf(1)
		for n := 0; n < runs && least-blank >= most; n++ { // the peak strays by when memory is swept
			_, peak := run()
			least = min(least, peak)
		}
		t.Logf("%-12s %4.0f MB more than a sound file", name, least-blank)
		require.Less(t, least-blank, float64(most), name)
	})
}

// A file full of unknown values is read in time that grows only with its size.
func TestKeptFileCostsLittleTime(t *testing.T) {
	if testing.Short() {
		t.Skip("a second of reading")
	}
	costs(t, map[string]string{"kept": keptFile()}, func(_ string, run func() (time.Duration, float64)) {
		took, _ := run()
		t.Logf("%.2f s", took.Seconds())
		require.Less(t, took, 10*time.Second)
	})
}

// BenchmarkHostileFile shows the processor time and memory of `daub check` on each
// file; "blank" is the program itself.
func BenchmarkHostileFile(b *testing.B) {
	files := hostileFiles()
	files["kept"] = keptFile()
	costs(b, files, func(name string, run func() (time.Duration, float64)) {
		b.Run(name, func(b *testing.B) {
			total, peak := time.Duration(0), 0.0
			for b.Loop() {
				took, mb := run()
				total, peak = total+took, max(peak, mb)
			}
			b.ReportMetric(total.Seconds()/float64(b.N), "cpu-s/op")
			b.ReportMetric(peak, "peak-MB")
		})
	})
}
