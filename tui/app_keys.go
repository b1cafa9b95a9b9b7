package tui

import "github.com/charmbracelet/bubbles/key"

// Keys that work on every screen.
var appKeys = struct{ help, retry, beside, quit key.Binding }{
	help:   Bind("?", "help", "?", "f1"),
	retry:  Bind("Ctrl+S", "save again", "ctrl+s"),
	beside: Bind("Ctrl+B", "save as a file beside it", "ctrl+b"),
	quit:   Bind("Ctrl+C", "quit", "ctrl+c"),
}

// helpKeys scroll the help.
var helpKeys = Bind("↑↓", "scroll", "up", "down", "pgup", "pgdown")
