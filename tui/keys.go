package tui

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

// appKeys work on every screen.
var appKeys = struct{ help, retry, beside, suspend, quit key.Binding }{
	help:    ui.Bind("?", "help", "?", "f1"),
	retry:   ui.Bind("Ctrl+S", "save again", "ctrl+s"),
	beside:  ui.Bind("Ctrl+B", "save as a file beside it", "ctrl+b"),
	suspend: ui.Bind("Ctrl+Z", "to the shell; fg comes back", "ctrl+z"),
	quit:    ui.Bind("Ctrl+C", "quit", "ctrl+c"),
}

// helpKeys scroll the help.
var helpKeys = ui.Bind("↑↓", "scroll", "up", "down", "pgup", "pgdown")
