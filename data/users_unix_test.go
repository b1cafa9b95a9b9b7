//go:build !windows

package data

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"daub.example/daub/data/record"
	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// savesEach is the number of saves that each of two users makes at the same time as
// the other.
const savesEach = 25

// saveAsAnother is a program that puts its own step into the one powder again and
// again. Each save runs at the same time as others, and the program says how each
// ended. Every third save makes a new powder.
func saveAsAnother(dir, who string) {
	s := Open(dir, nil)
	done := make(chan string)
	for n := range savesEach {
		go func() {
			note := fmt.Sprintf("%s %d", who, n)
			if n%3 == 0 {
				_, err := s.Save(Entry{Profile: model.Profile{Powder: model.Powder{Name: "New", Notes: note}}})
				done <- said("new", note, err)
				return
			}
			e, err := s.Load("shared")
			if err == nil {
				t := &e.Profile.Trials[0]
				t.Steps = append(t.Steps, model.Step{Add: model.AddNone, Note: note})
				_, err = s.Save(e)
			}
			done <- said("step", note, err)
		}()
	}
	for range savesEach {
		fmt.Println(<-done)
	}
	os.Exit(0)
}

func said(what, note string, err error) string {
	switch {
	case err == nil:
		return what + " saved: " + note
	case errors.Is(err, ErrChanged), errors.Is(err, ErrBusy):
		return what + " refused: " + note
	default:
		return what + " failed: " + strings.ReplaceAll(err.Error(), "\n", " ")
	}
}

// Two programs of two users save to one folder at the same time. What either
// was told is saved is there; what is not there, it was told.
func TestTwoUsersOneShelf(t *testing.T) {
	if os.Geteuid() != 0 {
		t.Skip("only root can be two users")
	}
	dir := t.TempDir()
	for at := dir; at != os.TempDir() && at != "/"; at = filepath.Dir(at) {
		require.NoError(t, os.Chmod(at, 0o777))
	}
	self, err := os.ReadFile(os.Args[0])
	require.NoError(t, err)
	program := filepath.Join(dir, "program")
	require.NoError(t, os.WriteFile(program, self, 0o755))
	shelf := filepath.Join(dir, "shelf")
	for _, folder := range []string{shelf, filepath.Join(shelf, powdersFolder)} {
		require.NoError(t, os.Mkdir(folder, 0o777))
		require.NoError(t, os.Chmod(folder, 0o777))
	}
	s := Open(shelf, nil)
	p := profile("Shared", "")
	p.Trials = []model.Trial{{Started: time.Date(2026, 5, 3, 10, 12, 0, 0, time.UTC), LiquidG: 20}}
	text, err := record.Encode(p, nil, nil)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(powders.path(s, "shared"), text, 0o644))

	var programs []*exec.Cmd
	lines := make(chan string, 2*savesEach)
	for _, uid := range []uint32{60001, 60002} {
		cmd := exec.Command(program)
		cmd.Dir = dir
		cmd.Env = []string{"SAVE_AS=" + fmt.Sprint(uid), "SAVE_TO=" + shelf}
		cmd.Stderr = os.Stderr
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: uid, Gid: uid}}
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		if err := cmd.Start(); err != nil {
			t.Skip("no other users here:", err)
		}
		programs = append(programs, cmd)
		go func() {
			for scan := bufio.NewScanner(out); scan.Scan(); {
				lines <- scan.Text()
			}
			lines <- ""
		}()
	}
	var steps, powdersMade, refused []string
	for ended := 0; ended < len(programs); {
		line := <-lines
		what, note, _ := strings.Cut(line, ": ")
		switch what {
		case "":
			ended++
		case "step saved":
			steps = append(steps, note)
		case "new saved":
			powdersMade = append(powdersMade, note)
		case "step refused":
			refused = append(refused, note)
		default:
			assert.Fail(t, "neither saved nor refused", line)
		}
	}
	for _, cmd := range programs {
		require.NoError(t, cmd.Wait())
	}
	assert.Len(t, append(append(steps, powdersMade...), refused...), 2*savesEach)

	entries, errs := s.List()
	require.Empty(t, errs)
	var stepsThere, powdersThere []string
	for _, e := range entries {
		if e.Slug != "shared" {
			powdersThere = append(powdersThere, e.Profile.Powder.Notes)
			continue
		}
		for _, step := range e.Profile.Trials[0].Steps {
			stepsThere = append(stepsThere, step.Note)
		}
	}
	assert.ElementsMatch(t, steps, stepsThere, "refused: %v", refused)
	assert.ElementsMatch(t, powdersMade, powdersThere)
	assert.NotEmpty(t, steps)
	left, err := filepath.Glob(filepath.Join(shelf, powdersFolder, ".*"))
	require.NoError(t, err)
	assert.Empty(t, left)
}
