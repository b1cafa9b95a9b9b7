// Command daub is a bench assistant in the terminal: it walks a maker through
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

	_ "daub.example/daub/tui/noquery" // start-up asks the terminal nothing
	"github.com/adrg/xdg"
	"github.com/charmbracelet/x/term"
)

func main() {
	// A run is short and memory is at hand: collecting it half as often makes a
	// long list a tenth quicker.
	debug.SetGCPercent(200)
	os.Exit(run(os.Args[1:], system()))
}

// host is all that the commands get of the world around them.
type host struct {
	in       io.Reader
	out, err io.Writer
	shelf    string // the shelf's folder where --shelf does not say
	// shelfNamed says that the environment names that folder.
	shelfNamed bool
	temp       string // where new temporary folders and files go
	now        func() time.Time
}

// system is the host of the real program.
func system() host {
	return host{
		in: os.Stdin, out: os.Stdout, err: os.Stderr,
		shelf: defaultShelf(os.Getenv("DAUB_SHELF"), xdg.DataHome), shelfNamed: os.Getenv("DAUB_SHELF") != "",
		temp: os.TempDir(),
		now:  func() time.Time { return time.Now().Truncate(time.Second) },
	}
}

// defaultShelf is the shelf where --shelf does not say: what the environment
// names, else the daub folder among the user's data.
func defaultShelf(fromEnvironment, dataHome string) string {
	if fromEnvironment != "" {
		return fromEnvironment
	}
	return filepath.Join(dataHome, "daub")
}

// plainLocale reports whether the environment says that the terminal shows
// something else than UTF-8. An environment that says nothing is no reason to
// think so.
func plainLocale(environment func(name string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if said := strings.ToUpper(environment(name)); said != "" { // the first that speaks
			return !strings.Contains(said, "UTF-8") && !strings.Contains(said, "UTF8")
		}
	}
	return false
}

// terminal gives the files of a terminal at both ends; ok is false when input
// or output is something else.
func (h host) terminal() (in, out *os.File, ok bool) {
	in, isIn := h.in.(*os.File)
	out, isOut := h.out.(*os.File)
	ok = isIn && isOut && term.IsTerminal(in.Fd()) && term.IsTerminal(out.Fd())
	return in, out, ok
}

// toTerminal reports whether what is answered goes to a terminal.
func (h host) toTerminal() bool {
	out, isFile := h.out.(*os.File)
	return isFile && term.IsTerminal(out.Fd())
}
