package tui

import (
	"fmt"
	"path/filepath"
	"runtime"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// Fault is a mistake in the program itself that ended it. Whoever runs the App
// saves what is dirty and says it once the terminal is given back.
type Fault struct {
	Reason any    // what was recovered
	Where  string // file and line of the program, "" when unknown
}

func (f Fault) Error() string {
	at := ""
	if f.Where != "" {
		at = " at " + f.Where
	}
	return fmt.Sprintf("run the screens: daub itself has a mistake%s (%v) and had to stop; start it again, "+
		"the trial goes on where it stopped; please report this line and the keys pressed before it", at, f.Reason)
}

// faulted brings a fault out of a command.
type faulted struct{ fault Fault }

// Fault returns the error that ended the program, nil when there was none.
func (a *App) Fault() error {
	if a.fault == nil {
		return nil
	}
	return *a.fault
}

// catch keeps what a panic said; deferred around everything that runs a
// screen.
func (a *App) catch(then func()) {
	if reason := recover(); reason != nil {
		if a.fault == nil {
			a.fault = &Fault{reason, culprit()}
		}
		then()
	}
}

// guard makes a command, and those of a batch, bring a panic as a message.
func guard(cmd tea.Cmd) tea.Cmd {
	if cmd == nil {
		return nil
	}
	return func() (msg tea.Msg) {
		defer func() {
			if reason := recover(); reason != nil {
				msg = faulted{Fault{reason, culprit()}}
			}
		}()
		msg = cmd()
		if batch, ok := msg.(tea.BatchMsg); ok {
			for i := range batch {
				batch[i] = guard(batch[i])
			}
		}
		return msg
	}
}

// culprit is where a panic that is being recovered began: the innermost call
// of this module.
func culprit() string {
	pcs := make([]uintptr, 64)
	frames := runtime.CallersFrames(pcs[:runtime.Callers(1, pcs)])
	panicked := false
	for {
		frame, more := frames.Next()
		if panicked && strings.HasPrefix(frame.Function, "daub.example/daub/") {
			return fmt.Sprintf("%s:%d", filepath.Base(frame.File), frame.Line)
		}
		panicked = panicked || frame.Function == "runtime.gopanic"
		if !more {
			return ""
		}
	}
}
