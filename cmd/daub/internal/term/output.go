// Package term is the terminal that the screens fill: its keys, kept whole, and
// one guarded way out for frames, bell and clipboard.
package term

import (
	"errors"
	"os"
	"strings"
	"sync"

	"github.com/charmbracelet/x/ansi"
	"github.com/charmbracelet/x/term"
)

// Output is the terminal with one writer at a time, so that the bell never
// rings in the middle of a frame. It embeds the file because the terminal
// library asks that for the size of the window.
type Output struct {
	*os.File
	mu sync.Mutex
}

var _ term.File = (*Output)(nil)

// NewOutput guards a terminal's output.
func NewOutput(file *os.File) *Output { return &Output{File: file} }

// Write writes one piece, whole before the next begins.
func (o *Output) Write(p []byte) (int, error) {
	o.mu.Lock()
	defer o.mu.Unlock()
	return o.File.Write(p)
}

// WriteString is Write; without it the file's own would go past the guard.
func (o *Output) WriteString(s string) (int, error) { return o.Write([]byte(s)) }

// Bell rings the bell.
func (o *Output) Bell() { _, _ = o.WriteString("\a") }

// Clipboard gives a function that puts texts on the clipboard of the terminal
// (OSC 52). Inside screen the sequence is wrapped, to reach the terminal around
// it; inside tmux it is sent both ways, for its settings decide which of them
// it lets through.
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
