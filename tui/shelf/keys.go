package shelf

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

var shelfKeys = struct {
	move, open, mark, unmark, compare, kitchen, trial, fresh, filter key.Binding
	export, samples, reload, quit, apply, clear                      key.Binding
}{
	open:    ui.Bind("Enter", "open", "enter"),
	mark:    ui.Bind("Space", "mark", " "),
	unmark:  ui.Bind("u", "unmark all", "u"),
	compare: ui.Bind("c", "compare", "c"),
	kitchen: ui.Bind("k", "kitchen", "k"),
	export:  ui.Bind("e", "export", "e"),
	trial:   ui.Bind("t", "new trial", "t"),
	fresh:   ui.Bind("n", "new powder", "n"),
	filter:  ui.Bind("/", "filter", "/"),
	move:    ui.Bind("↑↓", "choose", "up", "down", "pgup", "pgdown"),
	samples: ui.Bind("s", "add the samples", "s"),
	reload:  ui.Bind("r", "read the shelf again", "r"),
	quit:    ui.Bind("q", "quit", "q"),
	apply:   ui.Bind("Enter", "keep the filter", "enter"),
	clear:   ui.Bind("Esc", "clear the filter", "esc"),
}
