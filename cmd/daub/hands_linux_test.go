package main

import (
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

// tally types keys and counts them.
type tally struct {
	*scene
	n int
}

func (c *tally) press(keys ...string) {
	c.n += len(keys)
	c.keys(keys...)
}

// TestSceneCountsKeys goes from an empty shelf to the bench in at most twelve keys,
// not counting the powder's name and the digits of masses. From there it makes a
// trial with two keys a step and waits for every rest.
func TestSceneCountsKeys(t *testing.T) {
	const ratio, most = 1.7, 12
	if testing.Short() {
		t.Skip("waits its rests out")
	}
	s := &tally{scene: stage(t)}
	s.start(80, 24)
	s.shows("This shelf is empty.")
	s.press("n")
	s.text("Barley flour")
	s.press("Enter", "Enter", "f", "Enter", "2", "Enter") // no lot, flour, level spoons weighed, 1 tsp
	for _, grams := range []string{"2.61", "2.55", "2.66"} {
		s.text(grams)
		s.press("Enter")
	}
	s.shows("2.61 ± 0.16 g a spoon", "saved")
	s.press("C-g")
	s.shows("Trial › bench", "saved")
	require.LessOrEqual(t, s.n, most, "from an empty shelf to the bench")

	s.keys("c", "Down", "Down", "Down", "C-u") // a rest that a test can wait for
	s.text("1 s")
	s.keys("Enter", "Escape")
	s.shows("rest 1 s", " ADD ")
	for step := 1; ; step++ {
		s.n = 0
		s.press("Enter")
		screen := s.shows(" LOOK ", "rest over", fmt.Sprintf(" %d  ", step))
		s.press(s.eye(screen, ratio))
		screen = s.shows("recorded", "saved")
		require.Equal(t, 2, s.n, "keys of step %d", step)
		require.NotContains(t, screen, "SURE?", "the rest was waited out")
		if strings.Contains(screen, " STOP ") {
			break
		}
		require.Less(t, step, 12, "the advice ends by itself")
	}
	s.keys("Enter")
	s.shows("Trial › result", "this dish", "saved")
	trial := s.only().Trials[0]
	require.Equal(t, model.Done, trial.State)
	for i, step := range trial.Steps {
		require.NotNil(t, step.RestedS, "step %d", i+1)
		require.GreaterOrEqual(t, *step.RestedS, 1, "step %d waited", i+1)
	}
}

// TestSceneSuspended puts the program into the background with Ctrl+Z and types fg,
// as people do. None of it may be read as keys: f would finish the trial, g would
// ask for grams.
func TestSceneSuspended(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	home := filepath.Dir(s.shelf)
	s.runs++
	s.sock = filepath.Join(home, fmt.Sprintf("tmux%d", s.runs))
	s.tmux("new-session", "-d", "-s", "daub", "-x", "80", "-y", "24", "exec env PS1='ready> ' sh -i")
	s.shows("ready>")
	s.text(fmt.Sprintf("XDG_STATE_HOME=%s %s --shelf %s", home, s.path, s.shelf))
	s.keys("Enter")
	s.shows("daub  Shelf", "This shelf is empty.")
	s.setUp("Barley flour")
	s.keys("Enter")
	s.shows(" LOOK ", "saved")
	for _, typed := range []string{"fg", "fg %1"} {
		s.keys("C-z")
		require.Eventually(t, func() bool { // an older prompt is back before the shell reads again
			return strings.HasSuffix(strings.TrimSpace(s.screen()), "ready>")
		}, patience, 20*time.Millisecond)
		require.NotContains(t, s.screen(), " LOOK ", "the shell has the screen")
		s.text(typed)
		s.keys("Enter")
		s.shows(" LOOK ", "Trial › bench", "saved")
		time.Sleep(100 * time.Millisecond) // time for a key held back to do harm
		screen := s.screen()
		for _, harm := range []string{"SURE?", "result", "grams of", "TYPE"} {
			require.NotContains(t, screen, harm)
		}
		require.Zero(t, s.only().Trials[0].Looks())
	}
	s.look("3")
	trial := s.only().Trials[0]
	require.Len(t, trial.Steps, 1)
	require.Equal(t, 1, trial.Looks(), "keys work as before")
	require.Equal(t, model.Open, trial.State)
	s.keys("q")
	s.shows("ready>")
}

// TestSceneMouse holds that the program asks the terminal for clicks, acts on one,
// and leaves the mouse alone if told to.
func TestSceneMouse(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	asked := func() string {
		return strings.TrimSpace(s.tmux("display-message", "-p", "-t", "daub", "#{mouse_button_flag}"))
	}
	s.start(80, 24)
	s.setUp("Barley flour")
	s.shows(" ADD ")
	require.Equal(t, "1", asked())
	s.click("1/2 tsp ")
	s.shows("[1/2 tsp]")
	s.keys("q")
	s.start(80, 24, "--no-mouse")
	s.shows("▸ Barley flour")
	require.Equal(t, "0", asked(), "with --no-mouse the terminal keeps the mouse")
	s.keys("Enter")
	s.shows("Trial › bench")
	require.Equal(t, "0", asked())
}

// click sends a click in the middle of text on the screen, as the terminal would.
func (s *scene) click(text string) {
	s.t.Helper()
	for y, line := range strings.Split(s.screen(), "\n") {
		if before, _, found := strings.Cut(line, text); found {
			x := len([]rune(before)) + len([]rune(text))/2 + 1
			for _, end := range []string{"M", "m"} { // pressed, let go: SGR coding
				s.text("\x1b[<0;" + strconv.Itoa(x) + ";" + strconv.Itoa(y+1) + end)
			}
			return
		}
	}
	s.t.Fatalf("no %q to click", text)
}
