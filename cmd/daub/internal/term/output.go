// Package term is the terminal that the screens fill. It keeps key sequences whole,
// and gives frames, bell and clipboard one locked way out.
package term

import (
	"errors"
	"os"
	"strings"
	"sync"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/term"
)

// Output is a terminal with one writer at a time, so that the bell never rings
// within a frame. It embeds the file because the terminal library asks that for the
// size of the window.
type Output struct {
	*os.File
	mu sync.Mutex
}

var _ term.File = (*Output)(nil)

// NewOutput locks a terminal's output.
func NewOutput(file *os.File) *Output { return &Output{File: file} }

// Write writes one piece, whole before the next begins.
func (o *Output) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.File.Write(p)
}

// WriteString is Write for a string; without it the file's own would bypass the
// lock.
func (o *Output) WriteString(s string) (int, error) { return o.Write([]byte(s)) }

// Bell rings the bell.
func (o *Output) Bell() { _, _ = o.WriteString("\a") }

// Clipboard returns a function that puts text on the terminal's clipboard (OSC 52).
// Inside screen the sequence is wrapped, to reach the terminal around it. Inside
// tmux it is sent both ways, because tmux's settings decide which of them it lets
// through.
func (o *Output) Clipboard(environment func(name string) string) func(text string) error {
	return func(text string) error {
		if text == "" {
			return errors.New("there is nothing to copy")
		}
		sequence := ansi.SetSystemClipboard(text)
		switch {
		case environment("TMUX") != "":
			sequence += ansi.TmuxPassthrough(sequence)
		case strings.HasPrefix(environment("TERM"), "screen"):
			sequence = ansi.ScreenPassthrough(sequence, 0)
		}
		_, err := o.WriteString(sequence)
		return err
	}
}
