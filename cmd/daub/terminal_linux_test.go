package main

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
	"unsafe"

	"github.com/stretchr/testify/require"
)

// built is the program's folder, "" before a test asked for it.
var built string

// build makes the program once for all tests.
var build = sync.OnceValues(func() (path string, err error) {
	if built, err = os.MkdirTemp("", "daub-test-"); err != nil {
		return "", err
	}
	path = filepath.Join(built, "daub")
	out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("%w: %s", err, out)
	}
	return path, nil
})

func TestMain(m *testing.M) {
	code := m.Run()
	if built != "" {
		_ = os.RemoveAll(built)
	}
	os.Exit(code)
}

// patience is the time that a busy machine may take: 20 s.
const patience = 20 * time.Second

// mute is a terminal that takes everything and never answers a question.
type mute struct {
	keys *os.File // the other end: writing here is typing
	cmd  *exec.Cmd
	read chan struct{} // closed when all was read
	mu   sync.Mutex
	seen bytes.Buffer
}

// onMute starts the program on a mute terminal of 80 by 24.
func onMute(t testing.TB, args ...string) *mute {
	t.Helper()
	return onTerminal(t, terminal{cols: 80, rows: 24}, args...)
}

// terminal describes a mute terminal.
type terminal struct {
	cols, rows uint16
	env        []string      // added to every terminal's environment
	by         []string      // the command that starts the program
	slow       time.Duration // pause between two readings of 256 bytes
}

// onTerminal starts the program on a mute terminal.
func onTerminal(t testing.TB, like terminal, args ...string) *mute {
	t.Helper()
	path, err := build()
	require.NoError(t, err)
	ptmx, err := os.OpenFile("/dev/ptmx", os.O_RDWR|syscall.O_NOCTTY, 0)
	if err != nil {
		t.Skip("no terminals here: ", err)
	}
	raw, err := ptmx.SyscallConn() // Fd would let a blocked reading keep the terminal open
	require.NoError(t, err)
	control := func(request uintptr, arg unsafe.Pointer) {
		require.NoError(t, raw.Control(func(fd uintptr) {
			_, _, errno := syscall.Syscall(syscall.SYS_IOCTL, fd, request, uintptr(arg))
			require.Zero(t, errno)
		}))
	}
	var unlocked, n int32
	control(syscall.TIOCSPTLCK, unsafe.Pointer(&unlocked))
	control(syscall.TIOCGPTN, unsafe.Pointer(&n))
	size := [4]uint16{like.rows, like.cols}
	control(syscall.TIOCSWINSZ, unsafe.Pointer(&size))
	tty, err := os.OpenFile(fmt.Sprintf("/dev/pts/%d", n), os.O_RDWR|syscall.O_NOCTTY, 0)
	require.NoError(t, err)
	defer tty.Close()

	home := t.TempDir()
	command := append(append(like.by[:len(like.by):len(like.by)], path), args...)
	m := &mute{keys: ptmx, cmd: exec.Command(command[0], command[1:]...), read: make(chan struct{})}
	m.cmd.Stdin, m.cmd.Stdout, m.cmd.Stderr = tty, tty, tty
	m.cmd.SysProcAttr = &syscall.SysProcAttr{Setsid: true, Setctty: true}
	m.cmd.Env = append(os.Environ(), "TERM=xterm-256color", "HOME="+home, "XDG_DATA_HOME="+home,
		"XDG_STATE_HOME="+home, "TMPDIR="+home, "DAUB_SHELF=")
	m.cmd.Env = append(m.cmd.Env, like.env...)
	require.NoError(t, m.cmd.Start())
	t.Cleanup(func() { _ = m.cmd.Process.Kill(); _ = ptmx.Close() })
	go func() {
		defer close(m.read)
		buf := make([]byte, 4096)
		if like.slow > 0 {
			buf = buf[:256]
		}
		for {
			time.Sleep(like.slow)
			n, err := ptmx.Read(buf)
			m.mu.Lock()
			m.seen.Write(buf[:n])
			m.mu.Unlock()
			if err != nil {
				return
			}
		}
	}()
	return m
}

func (m *mute) screen() string {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.seen.String()
}

// shows waits until a text was written.
func (m *mute) shows(t testing.TB, text string) {
	t.Helper()
	require.Eventually(t,
		func() bool { return strings.Contains(m.screen(), text) }, patience, 5*time.Millisecond, "%q", m.screen())
}

// ends waits for the program to end and returns its exit code.
func (m *mute) ends(t *testing.T) int {
	t.Helper()
	ended := make(chan error, 1)
	go func() { ended <- m.cmd.Wait() }()
	select {
	case <-ended:
		<-m.read // the other end closes with the program
		return m.cmd.ProcessState.ExitCode()
	case <-time.After(patience):
		t.Fatalf("still running; it showed %q", m.screen())
		return -1
	}
}

// The terminal library asks the terminal for its background when it is initialised,
// and waits five seconds for an answer. 5.1 s were measured, against 20 to 60 ms
// without the question. daub must not ask.
func TestNoQuestionAtStartUp(t *testing.T) {
	m := onMute(t, "version")
	require.Zero(t, m.ends(t))
	require.True(t, strings.HasPrefix(m.screen(), "daub "), "%q", m.screen())
	require.NotContains(t, m.screen(), "\x1b", "no question was put")
}

// BenchmarkFirstRows measures the time from the start of daub until the first
// powders of a shelf are on the screen.
func BenchmarkFirstRows(b *testing.B) {
	for _, n := range []int{200, 10000} {
		h := bigShelf(b, n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				m := onMute(b, "--shelf", h.shelf)
				for !strings.Contains(m.screen(), "Clay 00000") {
					time.Sleep(time.Millisecond)
				}
				require.NoError(b, m.cmd.Process.Kill())
				_ = m.cmd.Wait() // it was killed
			}
		})
	}
}

// BenchmarkStart measures a command that does next to nothing, beside another
// program that does nothing.
func BenchmarkStart(b *testing.B) {
	path, err := build()
	require.NoError(b, err)
	for name, command := range map[string][]string{"daub version": {path, "version"}, "true": {"true"}} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				require.NoError(b, exec.Command(command[0], command[1:]...).Run())
			}
		})
	}
}

// The same by the order of initialisation, which shows why it holds.
func TestNoQueryComesBeforeTheTerminalLibrary(t *testing.T) {
	path, err := build()
	require.NoError(t, err)
	cmd := exec.Command(path, "version")
	cmd.Env = append(os.Environ(), "GODEBUG=inittrace=1")
	trace, err := cmd.CombinedOutput()
	require.NoError(t, err)
	ours := bytes.Index(trace, []byte("init daub.example/daub/tui/noquery "))
	theirs := bytes.Index(trace, []byte("init github.com/charmbracelet/bubbletea "))
	require.Positive(t, ours)
	require.Positive(t, theirs)
	require.Less(t, ours, theirs)
}

func TestBenchOnATerminal(t *testing.T) {
	t.Parallel()
	m := onMute(t)
	m.shows(t, "This shelf is empty.")
	_, _ = m.keys.WriteString("q")
	require.Zero(t, m.ends(t))
}

func TestDemoOnATerminal(t *testing.T) {
	t.Parallel()
	m := onMute(t, "demo")
	m.shows(t, "Shelf (demo")
	_, _ = m.keys.WriteString("q")
	require.Zero(t, m.ends(t))
	m.shows(t, "\r\n")                                   // the frames have none
	_, left, _ := strings.Cut(m.screen(), "\x1b[?1049l") // after the screens
	dir := strings.TrimSpace(left[strings.Index(left, "/"):])
	require.FileExists(t, filepath.Join(dir, "spoons.toml"), "the folder is kept")
}

// Closing the window ends the program in order, not in the middle of a write.
func TestHangup(t *testing.T) {
	t.Parallel()
	m := onMute(t)
	m.shows(t, "This shelf is empty.")
	require.NoError(t, m.cmd.Process.Signal(syscall.SIGHUP))
	require.Zero(t, m.ends(t))
}
