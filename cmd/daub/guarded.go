package main

import (
	"os"
	"sync"

	"github.com/charmbracelet/x/term"
)

// guarded is the terminal with one writer at a time, so that the bell never
// rings in the middle of a frame. It embeds the file because the terminal
// library asks that for the size of the window.
type guarded struct {
	*os.File
	mu sync.Mutex
}

var _ term.File = (*guarded)(nil)

func (g *guarded) Write(p []byte) (int, error) {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.File.Write(p)
}

// WriteString is Write; without it the file's own would go past the guard.
func (g *guarded) WriteString(s string) (int, error) { return g.Write([]byte(s)) }

// ring rings the bell.
func (g *guarded) ring() { _, _ = g.WriteString("\a") }
