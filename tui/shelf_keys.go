package tui

import "github.com/charmbracelet/bubbles/key"

var shelfKeys = struct {
	move, open, mark, unmark, compare, kitchen, trial, fresh, filter key.Binding
	export, samples, reload, quit, apply, clear                      key.Binding
}{
	open:    Bind("Enter", "open", "enter"),
	mark:    Bind("Space", "mark", " "),
	unmark:  Bind("u", "unmark all", "u"),
	compare: Bind("c", "compare", "c"),
	kitchen: Bind("k", "kitchen", "k"),
	export:  Bind("e", "export", "e"),
	trial:   Bind("t", "new trial", "t"),
	fresh:   Bind("n", "new powder", "n"),
	filter:  Bind("/", "filter", "/"),
	move:    Bind("↑↓", "choose", "up", "down", "pgup", "pgdown"),
	samples: Bind("s", "add the samples", "s"),
	reload:  Bind("r", "read the shelf again", "r"),
	quit:    Bind("q", "quit", "q"),
	apply:   Bind("Enter", "keep the filter", "enter"),
	clear:   Bind("Esc", "clear the filter", "esc"),
}
