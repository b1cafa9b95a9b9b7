package main

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"daub.example/daub/data"
	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

// scene is the program in a real terminal: tmux draws the screen, types the keys
// and reads what is shown.
type scene struct {
	t     *testing.T
	sock  string
	shelf string
	path  string
	env   string // added to the environment of every scene
	runs  int
}

// stage prepares an own terminal and an empty shelf. Scenes mostly wait, so they
// run side by side.
func stage(t *testing.T) *scene {
	t.Helper()
	t.Parallel()
	if _, err := exec.LookPath("tmux"); err != nil {
		t.Skip("tmux is not installed: the scenes need it")
	}
	path, err := build()
	require.NoError(t, err)
	dir := t.TempDir()
	s := &scene{t: t, shelf: filepath.Join(dir, "shelf"), path: path}
	t.Cleanup(func() {
		if s.sock != "" {
			_ = exec.Command("tmux", "-S", s.sock, "kill-server").Run()
		}
	})
	return s
}

func (s *scene) tmux(args ...string) string {
	s.t.Helper()
	cmd := exec.Command("tmux", append([]string{"-u", "-S", s.sock, "-f", "/dev/null"}, args...)...)
	cmd.Env = append(os.Environ(), "LC_ALL=C.UTF-8") // line drawing, whatever the machine's locale
	out, err := cmd.CombinedOutput()
	require.NoError(s.t, err, "tmux %v: %s", args, out)
	return string(out)
}

// start runs the program on the shelf in a window of the given size.
func (s *scene) start(w, h int, args ...string) {
	s.t.Helper()
	home := filepath.Dir(s.shelf)
	command := fmt.Sprintf("exec env XDG_STATE_HOME=%s %s %s --shelf %s %s", home, s.env, s.path, s.shelf,
		strings.Join(args, " "))
	s.runs++
	s.sock = filepath.Join(home, fmt.Sprintf("tmux%d", s.runs)) // the last server may still be ending
	s.tmux("new-session", "-d", "-s", "daub", "-x", strconv.Itoa(w), "-y", strconv.Itoa(h), command)
	s.shows("daub  Shelf")
}

func (s *scene) keys(keys ...string) {
	s.t.Helper()
	s.tmux(append([]string{"send-keys", "-t", "daub"}, keys...)...)
}

func (s *scene) text(text string) { s.tmux("send-keys", "-t", "daub", "-l", text) }

// look records a level before half the rest has passed, which is asked about.
func (s *scene) look(level string) {
	s.t.Helper()
	s.keys(level)
	s.shows("keep " + level + "?")
	s.keys("Enter")
	s.shows("level "+level, "recorded", "saved")
}

func (s *scene) screen() string { return s.tmux("capture-pane", "-p", "-t", "daub") }

// shows waits until the screen holds all texts at once, and returns the screen.
func (s *scene) shows(texts ...string) (screen string) {
	s.t.Helper()
	pause := 10 * time.Millisecond // each look at the screen starts a program: wait longer and longer
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(pause) {
		screen, pause = s.screen(), min(pause*3/2, 100*time.Millisecond)
		if holds(screen, texts) {
			return screen
		}
	}
	s.t.Fatalf("waited for %q, but the screen is\n%s", texts, screen)
	return ""
}

func holds(screen string, texts []string) bool {
	return !slices.ContainsFunc(texts, func(text string) bool { return !strings.Contains(screen, text) })
}

// scrollsTo goes down line by line until the texts are on one screen.
func (s *scene) scrollsTo(texts ...string) {
	s.t.Helper()
	const most = 80
	for n := 0; n < most && !holds(s.screen(), texts); n++ {
		s.keys("Down")
	}
	s.shows(texts...)
}

// kill ends the program at once, as a flat battery would.
func (s *scene) kill() {
	s.t.Helper()
	pid, err := strconv.Atoi(strings.TrimSpace(s.tmux("display-message", "-p", "-t", "daub", "#{pane_pid}")))
	require.NoError(s.t, err)
	require.NoError(s.t, syscall.Kill(pid, syscall.SIGKILL))
}

// setUp makes a powder with three weighings and goes to the bench.
func (s *scene) setUp(name string) {
	s.keys("n")
	s.text(name)
	s.keys("Enter", "Enter", "f", "Enter", "2", "Enter") // flour, level spoons weighed, 1 tsp
	for _, grams := range []string{"2.61", "2.55", "2.66"} {
		s.text(grams)
		s.keys("Enter")
	}
	s.shows("2.61 ± 0.16 g a spoon", "saved")
	s.keys("C-g")
	s.shows("Trial › bench", "saved")
}

func (s *scene) only() model.Profile {
	files, err := filepath.Glob(filepath.Join(s.shelf, "powders", "*.toml"))
	require.NoError(s.t, err)
	require.Len(s.t, files, 1)
	p, err := data.ReadPowder(files[0], nil)
	require.NoError(s.t, err)
	return p
}

var ratioShown = regexp.MustCompile(`powder: ([0-9.]+) g`)

// eye plays a maker: it reads from the screen what is in the dish, and returns the
// level of a powder of this ratio there.
func (s *scene) eye(screen string, ratio float64) string {
	found := ratioShown.FindStringSubmatch(screen)
	require.NotNil(s.t, found, screen)
	shown, err := strconv.ParseFloat(found[1], 64)
	require.NoError(s.t, err)
	level := math.Round(5 + 6*math.Log(ratio/shown))
	return strconv.Itoa(int(math.Min(math.Max(level, 0), 7)))
}

// onlyInFull skips a scene in a short run, where a few stand for all.
func onlyInFull(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("a scene in a terminal")
	}
}

// sizes are the windows that whole trials are made in.
func sizes() [][2]int {
	if testing.Short() {
		return [][2]int{{80, 24}}
	}
	return [][2]int{{80, 24}, {120, 40}}
}

// TestSceneEnterAndDigits follows the advice with Enter and digits only, from the
// first spoon to "Stop". The screen is compared with the file, check and fit.
func TestSceneEnterAndDigits(t *testing.T) {
	for _, size := range sizes() {
		t.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(t *testing.T) {
			s := stage(t)
			s.start(size[0], size[1])
			s.setUp("Barley flour")
			steps := 0
			for ; steps < 14; steps++ {
				screen := s.shows("In the dish", "saved")
				if strings.Contains(screen, " STOP ") {
					break
				}
				require.NotContains(t, screen, " WEIGH ", "three weighings are enough here")
				s.keys("Enter")
				screen = s.shows(" LOOK ", "saved")
				s.look(s.eye(screen, 1.7))
			}
			require.Less(t, steps, 12, "the advice ends by itself")
			require.Len(t, s.only().Trials[0].Steps, steps)
			s.keys("Enter")
			screen := s.shows("Trial › result", "this dish", "saved")
			s.keys("q")

			f := s.agrees(screen)
			require.Equal(t, steps, f.Looks)
			require.Equal(t, "stop", f.Advice.Action)
			require.InDelta(t, 1.7, *f.Fit.Median, 0.12*1.7)
			require.LessOrEqual(t, math.Log(*f.Fit.High / *f.Fit.Low)/2, 0.12, "inside the tolerance")
		})
	}
}

// TestSceneWithThePot follows the advice through a whole trial with the pot on the
// scale and no spoon weighed. A level teaspoon of the powder holds 2.6 g and it
// takes 1.7 g of water per g.
func TestSceneWithThePot(t *testing.T) {
	onlyInFull(t)
	const tspG, ratio, pot = 2.6, 1.7, 152.4
	s := stage(t)
	s.start(80, 24)
	s.keys("n")
	s.text("Barley flour")
	s.keys("Enter", "Enter", "f", "Enter", "Enter") // flour, the pot on the scale
	s.text(model.Number(pot))
	s.keys("Enter")
	s.shows("saved")
	s.keys("C-g")
	s.shows("Trial › bench", "saved")
	dish := func() (powder, liquid float64) {
		trial := s.only().Trials[0]
		liquid = trial.LiquidG
		for _, step := range trial.Steps {
			size, known := model.OwnSpoons{}.Spoon(model.US, step.Spoon)
			require.True(t, known, step.Spoon)
			if teaspoons := size.VolumeML / model.USTeaspoonML * float64(step.Spoons()); step.Add == model.AddPowder {
				powder += teaspoons * tspG
			} else {
				liquid += teaspoons * model.USTeaspoonML
			}
		}
		return powder, liquid
	}
	readings := 0
	for range 24 {
		screen := s.shows("saved")
		powder, _ := dish()
		if strings.Contains(screen, " STOP ") {
			break
		}
		s.keys("Enter")
		if strings.Contains(screen, " WEIGH ") {
			s.shows("grams the pot of powder weighs now")
			s.text(fmt.Sprintf("%.2f", pot-powder))
			s.keys("Enter")
			s.shows("the pot weighs", "saved")
			readings++
			continue
		}
		s.shows(" LOOK ", "saved")
		powder, liquid := dish()
		level := math.Round(5 + 6*math.Log(ratio*powder/liquid))
		s.look(strconv.Itoa(int(math.Min(math.Max(level, 0), 7))))
	}
	require.GreaterOrEqual(t, readings, 1)
	s.keys("Enter")
	s.shows("SURE?", "Powder was taken since the pot was weighed last", "p weigh the powder's pot")
	powder, _ := dish()
	s.keys("p")
	s.shows("grams the pot of powder weighs now")
	s.text(fmt.Sprintf("%.2f", pot-powder))
	s.keys("Enter")
	s.shows("the pot weighs", "saved")
	s.keys("Enter")
	screen := s.shows("Trial › result", "a level ", " weighs 2.6", "by the pot", "saved")
	s.keys("q")
	p := s.only()
	require.Empty(t, p.LevelSpoons)
	require.Equal(t, model.Done, p.Trials[0].State)
	f := s.agrees(screen)
	require.InEpsilon(t, tspG, *f.GramsPerTsp, 0.02)
	require.InEpsilon(t, ratio, *f.Ratio.Median, 0.15)
}

// TestSceneUndoAndMend makes six steps, undoes one, redoes it, mends an earlier one
// and finishes. The file holds all of it, and check and fit agree with the screen.
func TestSceneUndoAndMend(t *testing.T) {
	onlyInFull(t)
	for _, size := range sizes() {
		t.Run(fmt.Sprintf("%dx%d", size[0], size[1]), func(t *testing.T) {
			s := stage(t)
			s.start(size[0], size[1])
			s.setUp("Barley flour")
			for _, level := range []string{"0", "1", "3", "4", "5", "6"} {
				s.keys("Right", "Left", "Enter") // a spoon of one's own choice
				s.shows(" LOOK ")
				s.look(level)
			}
			s.keys("u")
			s.shows("undone: ", "saved", " LOOK ")
			s.look("7")
			s.shows("level 7 crumbly recorded")
			s.keys("e", "Up", "Up", "Up")
			s.shows("Mending step 3")
			s.keys("2")
			s.shows("step 3 mended", "saved")
			s.keys("Enter", "f")
			s.sure()
			screen := s.shows("Trial › result", "saved")
			s.keys("q")

			p := s.only()
			require.Equal(t, []float64{2.61, 2.55, 2.66}, p.LevelSpoons[0].Grams)
			require.Equal(t, model.Flour, p.Powder.Family)
			require.Equal(t, model.Done, p.Trials[0].State)
			var levels []float64
			for _, step := range p.Trials[0].Steps {
				levels = append(levels, step.Level)
			}
			require.Equal(t, []float64{0, 1, 2, 4, 5, 7}, levels)
			s.agrees(screen)
		})
	}
}

// sure confirms finishing, which is asked about unless the advice is to stop.
func (s *scene) sure() {
	s.t.Helper()
	require.Eventually(s.t, func() bool {
		screen := s.screen()
		if strings.Contains(screen, "SURE?") {
			s.keys("Enter")
		}
		return strings.Contains(screen, "SURE?") || strings.Contains(screen, "Trial › result")
	}, patience, 50*time.Millisecond)
}

// agrees compares a result screen with check and fit.
func (s *scene) agrees(screen string) fitJSON {
	s.t.Helper()
	h := testHost(s.t)
	file, _ := filepath.Glob(filepath.Join(s.shelf, "powders", "*.toml"))
	require.Zero(s.t, daub(h, "check", file[0]).code)
	got := daub(h, "fit", file[0], "--json")
	require.Zero(s.t, got.code, got.err)
	f := decode[fitJSON](s.t, got)
	require.Regexp(s.t, fmt.Sprintf(`%s \(%s to %s\)`, rounded(*f.Ratio.Median), rounded(*f.Ratio.Low),
		rounded(*f.Ratio.High)), flat(screen), "screen and command agree")
	return f
}

// rounded matches a number with JSON's four digits as screens show it, in three. A
// last digit of 5 may come from either side.
func rounded(v float64) string {
	texts := []string{model.RatioText(v * (1 - 5e-4)), model.RatioText(v), model.RatioText(v * (1 + 5e-4))}
	for i, text := range texts {
		texts[i] = regexp.QuoteMeta(text)
	}
	return "(?:" + strings.Join(texts, "|") + ")"
}

// TestSceneAdviceRefused makes the same trial with every advice refused.
func TestSceneAdviceRefused(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.start(80, 24)
	s.setUp("Barley flour")
	for step := range 8 {
		s.keys("Right", "Left", "Up") // two of the next larger spoon, whatever is advised
		s.shows("advised: ")
		s.keys("Enter")
		screen := s.shows(" LOOK ", "saved")
		level := s.eye(screen, 1.7)
		s.look(level)
		require.Len(t, s.only().Trials[0].Steps, step+1)
		if level >= "6" {
			break
		}
	}
	s.keys("f", "Enter")
	s.shows("Trial › result")
}

// TestSceneKilled ends the program at once after every key of a trial. What the
// screen called saved is on the shelf, and the next start continues from there.
func TestSceneKilled(t *testing.T) {
	s := stage(t)
	s.start(80, 24)
	s.setUp("Barley flour")
	keys := []string{"Enter", "0", "Enter", "1", "Enter", "3", "u", "4", "Enter", "5"}
	if testing.Short() {
		keys = keys[:4]
	}
	for i, key := range keys {
		if key != "Enter" && key != "u" {
			s.look(key)
		} else {
			s.keys(key)
		}
		switch key { // as soon as the key was taken and "saved" is shown
		case "Enter":
			s.shows(" LOOK ")
		case "u":
			s.shows("undone: ")
		default:
			s.shows("recorded")
		}
		time.Sleep(time.Duration(i*7) * time.Millisecond)
		screen := s.shows("saved")
		shown := len(regexp.MustCompile(`(?m)^ {2,3}\d+  \S+ tsp`).FindAllString(screen, -1))
		noLook := strings.Count(screen, " – ")
		s.kill()

		p := s.only()
		require.Len(t, p.Trials, 1)
		require.Equal(t, model.Open, p.Trials[0].State)
		steps := p.Trials[0].Steps
		require.GreaterOrEqual(t, len(steps), shown, "after %q the screen showed %d steps as saved:\n%s", key, shown,
			screen)
		looked := p.Trials[0].Looks()
		require.GreaterOrEqual(t, looked, shown-noLook, "after %q:\n%s", key, screen)

		s.start(80, 24)
		s.shows("▸ Barley flour", "unfinished trial")
		s.keys("Enter")
		again := s.shows("Trial › bench", "saved")
		if len(steps) > 0 {
			require.Contains(t, again, fmt.Sprintf(" %d ", len(steps)), "every step is there again")
		}
	}
}

// TestSceneResize makes the window small and large again while a step is made.
func TestSceneResize(t *testing.T) {
	s := stage(t)
	s.start(120, 40)
	s.setUp("Barley flour")
	s.keys("Enter")
	s.shows(" LOOK ")
	for _, size := range [][2]string{{"30", "8"}, {"60", "20"}, {"200", "60"}, {"80", "24"}} {
		s.tmux("resize-window", "-t", "daub", "-x", size[0], "-y", size[1])
		if size[0] == "30" {
			s.shows("daub needs 40×12")
			continue
		}
		s.shows(" LOOK ", "Trial › bench")
	}
	s.look("2")
	require.Equal(t, 1, s.only().Trials[0].Looks())
}

// TestSceneWithoutColour draws only text, and with --ascii only ASCII.
func TestSceneWithoutColour(t *testing.T) {
	onlyInFull(t)
	s := stage(t)
	s.env = "NO_COLOR=1"
	s.start(80, 24, "--ascii")
	s.setUpASCII("Barley flour")
	screen := s.tmux("capture-pane", "-p", "-e", "-t", "daub")
	require.NotRegexp(t, `\x1b\[[0-9;]*[39][0-7]m`, screen, "no colours")
	require.Contains(t, screen, "\x1b[1;7m ADD ", "what is reversed is so without them")
	for _, r := range screen {
		require.Less(t, r, rune(127), "%s", screen)
	}
}

func (s *scene) setUpASCII(name string) {
	s.keys("n")
	s.text(name)
	s.keys("C-g")
	s.shows("Trial > bench", "saved")
	s.keys("Enter")
	s.text("3")
	s.keys("Enter")
	s.shows(" LOOK ")
	s.look("4")
}
