// Command daub is a bench assistant in the terminal. It walks a maker through
// thickening trials, turns spoonfuls and looks into a ratio with an honest
// interval, and keeps a profile of every powder as a plain file.
package main

import (
	"io"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"time"

	_ "daub.example/daub/tui/noquery" // keeps start-up from asking the terminal anything
	"github.com/adrg/xdg"
	"github.com/charmbracelet/x/term"
)

func main() {
	// A run is short and memory is plentiful: collecting garbage half as often makes a
	// long list a tenth faster. Beyond softLimit it is collected as it comes, so that a
	// hostile file costs little more than it holds.
	const softLimit = 80 << 20
	debug.SetGCPercent(200)
	debug.SetMemoryLimit(softLimit)
	os.Exit(run(os.Args[1:], system()))
}

// host holds the streams, folders and clock of a run.
type host struct {
	in       io.Reader
	out, err io.Writer
	shelf    string // the shelf's folder if --shelf names none
	// shelfNamed says that the environment names it.
	shelfNamed bool
	temp       string // folder for temporary folders and files
	now        func() time.Time
}

// system returns the host of the real program.
func system() host {
	return host{
		in: os.Stdin, out: os.Stdout, err: os.Stderr,
		shelf: defaultShelf(os.Getenv("DAUB_SHELF"), xdg.DataHome), shelfNamed: os.Getenv("DAUB_SHELF") != "",
		temp: os.TempDir(),
		now:  func() time.Time { return time.Now().Truncate(time.Second) },
	}
}

// defaultShelf returns the shelf used without --shelf: the one that the environment
// names, else the daub folder in the user's data.
func defaultShelf(fromEnvironment, dataHome string) string {
	if fromEnvironment != "" {
		return fromEnvironment
	}
	return filepath.Join(dataHome, "daub")
}

// plainLocale reports whether the environment names an encoding other than UTF-8.
// If it names none, UTF-8 is assumed.
func plainLocale(environment func(name string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if said := strings.ToUpper(environment(name)); said != "" { // the first that is set decides
			return !strings.Contains(said, "UTF-8") && !strings.Contains(said, "UTF8")
		}
	}
	return false
}

// terminal returns the terminal's files; ok is false if input or output is not a
// terminal.
func (h host) terminal() (in, out *os.File, ok bool) {
	in, isIn := h.in.(*os.File)
	out, isOut := h.out.(*os.File)
	ok = isIn && isOut && term.IsTerminal(in.Fd()) && term.IsTerminal(out.Fd())
	return in, out, ok
}

// toTerminal reports whether output goes to a terminal.
func (h host) toTerminal() bool {
	out, isFile := h.out.(*os.File)
	return isFile && term.IsTerminal(out.Fd())
}
