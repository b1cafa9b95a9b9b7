package main

import (
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"daub.example/daub/data"
	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

// framesOf returns the screens that the program wrote; the last may be cut short.
// It knows only the sequences that they use, and letters one cell wide.
func framesOf(written string) (frames []string) {
	lines := make([][]rune, 24)
	for i := range lines {
		lines[i] = []rune(strings.Repeat(" ", 80))
	}
	x, y := 0, 0
	text := []rune(written)
	for i := 0; i < len(text); i++ {
		switch r := text[i]; {
		case r == '\r':
			x = 0
		case r == '\n':
			y = min(y+1, 23)
		case r == '\x1b' && i+1 < len(text) && text[i+1] == '[':
			from := i + 2
			for i = from; i < len(text) && (text[i] < '@' || text[i] > '~'); i++ {
			}
			if i == len(text) {
				break
			}
			n, row, column := 1, 1, 1
			_, _ = fmt.Sscanf(string(text[from:i]), "%d", &n)
			_, _ = fmt.Sscanf(string(text[from:i]), "%d;%d", &row, &column)
			switch text[i] {
			case 'A':
				y = max(y-n, 0)
			case 'B':
				y = min(y+n, 23)
			case 'C':
				x = min(x+n, 79)
			case 'D':
				x = max(x-n, 0)
			case 'H':
				if from == i { // the next frame begins
					frames = append(frames, joined(lines))
				}
				y, x = min(row, 24)-1, min(column, 80)-1
			case 'K':
				for c := min(x, 80); c < 80; c++ {
					lines[y][c] = ' '
				}
			case 'J':
				for row := y; row < 24; row++ {
					for c := range 80 {
						if row > y || c >= x {
							lines[row][c] = ' '
						}
					}
				}
			}
		case r >= ' ' && x < 80:
			lines[y][x] = r
			x++
		}
	}
	return append(frames, joined(lines))
}

func joined(lines [][]rune) string {
	var all strings.Builder
	for _, line := range lines {
		all.WriteString(strings.TrimRight(string(line), " ") + "\n")
	}
	return all.String()
}

// claim reads from a screen what is said to be on disk: how many steps, and whether
// the last was looked at. claimed is false if it says nothing.
func claim(screen string) (steps int, looked, claimed bool) {
	header, _, _ := strings.Cut(screen, "\n")
	if !strings.Contains(header, " saved") || strings.Contains(header, "NOT SAVED") {
		return 0, false, false
	}
	for _, row := range regexp.MustCompile(`(?m)^[▸ ]{1,3}(\d+)  \S+ (tsp|g) .*$`).FindAllStringSubmatch(screen, -1) {
		if n, _ := strconv.Atoi(row[1]); n >= steps {
			steps, looked = n, !strings.Contains(row[0], " – ")
		}
	}
	return steps, looked, true
}

var kills = flag.Int("kills", 5, "how often TestKilledAtAnyMoment kills the program")

// TestKilledAtAnyMoment makes steps as fast as fingers can and ends the program at
// a random moment. It is killed, told to end, its terminal hung up or closed, or it
// is killed inside a system call of a save. Every step that the screen called saved
// is on disk, and every file is whole.
//
//	nice -n 19 go test ./cmd/daub -run TestKilledAtAnyMoment -v -timeout 2h -kills 500
func TestKilledAtAnyMoment(t *testing.T) {
	if testing.Short() {
		t.Skip("starts the program again and again")
	}
	t.Parallel()
	tracer, err := exec.LookPath("strace")
	traced := err == nil && exec.Command(tracer, "-o", "/dev/null", "true").Run() == nil
	seed := uint64(time.Now().UnixNano())
	t.Logf("seed %d; kills inside system calls: %v", seed, traced)
	random := rand.New(rand.NewPCG(seed, 1))
	ways, claims, saved := map[string]int{}, 0, 0
	for n := range *kills {
		way := []string{"kill", "term", "hang up", "close", "inside"}[n%5]
		if way == "inside" && !traced {
			way = "kill"
		}
		t.Run(fmt.Sprintf("%d %s", n, way), func(t *testing.T) {
			like := terminal{cols: 80, rows: 24, env: []string{"LC_ALL=C.UTF-8"}}
			if way == "inside" {
				call := []string{"fsync", "linkat", "renameat", "unlinkat", "flock"}[random.IntN(5)]
				like.by = []string{
					tracer, "-f", "-qq", "-o", "/dev/null", "-e", "trace=" + call, "-e",
					fmt.Sprintf("inject=%s:signal=KILL:when=%d", call, 1+random.IntN(16)),
				}
			}
			shelf := filepath.Join(t.TempDir(), "shelf")
			m := onTerminal(t, like, "--shelf", shelf)
			m.shows(t, "This shelf is empty.")
			end := time.Now().Add(time.Duration(500+random.IntN(2500)) * time.Millisecond)
			_, _ = m.keys.WriteString("nBarley flour\a")
			for i := 0; time.Now().Before(end); i++ {
				_, _ = m.keys.WriteString([]string{"\x1b[C", "\x1b[D", "\r", strconv.Itoa(random.IntN(8)), "\r"}[i%5])
				time.Sleep(time.Duration(random.IntN(40)) * time.Millisecond)
			}
			switch way {
			case "term":
				_ = m.cmd.Process.Signal(syscall.SIGTERM)
			case "hang up":
				_ = m.cmd.Process.Signal(syscall.SIGHUP)
			case "inside": // the program never made that call; its tracer did not fail
				_ = syscall.Kill(-m.cmd.Process.Pid, syscall.SIGHUP)
			case "close":
				_ = m.keys.Close()
			case "kill":
				_ = m.cmd.Process.Kill()
			}
			m.ends(t)
			ways[way]++
			var screen string // the last screen that says saved
			var steps int
			var looked bool
			for _, frame := range framesOf(m.untilLeft()) {
				if n, l, claimed := claim(frame); claimed {
					steps, looked, screen = n, l, frame
				}
			}
			if screen == "" {
				return
			}
			claims++
			trial, err := onDisk(t, shelf)
			if steps == 0 && errors.Is(err, fs.ErrNotExist) {
				return
			}
			require.NoError(t, err, screen)
			saved += steps
			require.GreaterOrEqual(t, len(trial.Steps), steps, screen)
			if steps > 0 && looked {
				require.True(t, trial.Steps[steps-1].Looked, screen)
			}
		})
	}
	t.Logf("kills: %v; %d screens said saved, with %d steps", ways, claims, saved)
}

// onDisk reads the only trial of the only powder on a shelf.
func onDisk(t *testing.T, shelf string) (model.Trial, error) {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(shelf, "powders", "*.toml"))
	require.NoError(t, err)
	if len(files) == 0 {
		return model.Trial{}, fs.ErrNotExist
	}
	require.Len(t, files, 1)
	p, err := data.ReadPowder(files[0], nil)
	if err != nil || len(p.Trials) == 0 {
		return model.Trial{}, err
	}
	return p.Trials[0], nil
}

// untilLeft returns the output written while the screens were up.
func (m *mute) untilLeft() string {
	screens, _, _ := strings.Cut(m.screen(), "\x1b[?1049l")
	return screens
}
