package tui

import (
	"fmt"
	"path/filepath"
	"runtime"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
)

// Fault is an error in the program that ended it by a panic. The caller of App
// saves what is unsaved and reports it once the terminal is given back.
type Fault struct {
	Reason any    // the recovered value
	Where  string // file and line in the program, "" if unknown
}

func (f Fault) Error() string {
	at := ""
	if f.Where != "" {
		at = " at " + f.Where
	}
	return fmt.Sprintf("run the screens: daub itself has a mistake%s (%v) and had to stop; start it again, "+
		"the trial goes on where it stopped; please report this line and the keys pressed before it", at, f.Reason)
}

// faulted brings a panic out of a command.
type faulted struct{ fault Fault }

// Fault returns the error that ended the program, nil if there was none.
func (a *App) Fault() error {
	if a.fault == nil {
		return nil
	}
	return *a.fault
}

// catch keeps a panic as a Fault and calls then; it is deferred around everything
// that runs a screen.
func (a *App) catch(then func()) {
	if reason := recover(); reason != nil {
		if a.fault == nil {
			a.fault = &Fault{reason, culprit()}
		}
		then()
	}
}

// guard turns a panic in a command, or in those of a batch, into a message.
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

// culprit returns where the panic being recovered began: the innermost call in this
// module.
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
