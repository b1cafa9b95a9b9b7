package compare

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

var compareKeys = struct{ level, reference, basis, scroll, swap, export, copy, leave, quit key.Binding }{
	level:     ui.Bind("←→", "level", "left", "right"),
	reference: ui.Bind("↑↓", "against which", "up", "down", "tab", "shift+tab"),
	basis:     ui.Bind("l", "liquid and rest", "l"),
	scroll:    ui.Bind("Pg↑↓", "scroll", "pgup", "pgdown"),
	swap:      ui.Bind("s", "swap", "s"),
	export:    ui.Bind("e", "export or picture", "e"),
	copy:      ui.Bind("y", "copy", "y"),
	leave:     ui.Bind("Esc", "shelf", "esc"),
	quit:      ui.Bind("q", "quit", "q"),
}
