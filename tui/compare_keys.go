package tui

import "github.com/charmbracelet/bubbles/key"

var compareKeys = struct{ level, reference, scroll, swap, export, copy, leave, quit key.Binding }{
	level:     Bind("←→", "level", "left", "right"),
	reference: Bind("↑↓", "against which", "up", "down", "tab", "shift+tab"),
	scroll:    Bind("Pg↑↓", "scroll", "pgup", "pgdown"),
	swap:      Bind("s", "swap", "s"),
	export:    Bind("e", "export or picture", "e"),
	copy:      Bind("y", "copy", "y"),
	leave:     Bind("Esc", "shelf", "esc"),
	quit:      Bind("q", "quit", "q"),
}
