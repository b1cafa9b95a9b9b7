package setup

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

var keys = struct{ next, prev, change, toggle, take, back, begin, leave key.Binding }{
	next:   ui.Bind("Enter", "next", "enter", "down"),
	prev:   ui.Bind("↑", "back", "up", "shift+tab"),
	change: ui.Bind("←→", "choose", "left", "right"),
	toggle: ui.Bind("Space", "at hand or not", " "),
	take:   ui.Bind("Tab", "take it from the shelf", "tab"),
	back:   ui.Bind("Del", "delete a weighing", "delete"),
	begin:  ui.Bind("Ctrl+G", "to the bench now", "ctrl+g"),
	leave:  ui.Bind("Esc", "back, text is kept", "esc"),
}
