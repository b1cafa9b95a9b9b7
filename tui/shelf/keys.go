package shelf

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

var shelfKeys = struct {
	move, open, mark, unmark, compare, kitchen, trial, fresh, filter  key.Binding
	export, samples, reload, quit, apply, clear, page, archive, later key.Binding
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
	page:    ui.Bind("p", "its page", "p"),
	later:   ui.Bind("l", "later looks", "l"),
	archive: ui.Bind("v", "show the archived", "v"),
	move:    ui.Bind("↑↓", "choose", "up", "down", "pgup", "pgdown"),
	samples: ui.Bind("s", "add the samples", "s"),
	reload:  ui.Bind("r", "read the shelf again", "r"),
	quit:    ui.Bind("q", "quit", "q"),
	apply:   ui.Bind("Enter", "keep the filter", "enter"),
	clear:   ui.Bind("Esc", "clear the filter", "esc"),
}

var powderKeys = struct {
	move, change, remove, undo, redo, aside, weigh, fill, archive, delete, trial, leave key.Binding
}{
	move:    ui.Bind("↑↓", "line", "up", "down", "pgup", "pgdown"),
	change:  ui.Bind("Enter", "change", "enter", "left", "right"),
	remove:  ui.Bind("Del", "delete it", "delete", "backspace"),
	undo:    ui.Bind("u", "undo", "u"),
	redo:    ui.Bind("U", "redo", "U"),
	aside:   ui.Bind("x", "set aside, or use again", "x"),
	weigh:   ui.Bind("w", "weigh a level spoon", "w"),
	fill:    ui.Bind("h", "how it was filled", "h"),
	archive: ui.Bind("a", "archive", "a"),
	delete:  ui.Bind("D", "delete the powder", "D"),
	trial:   ui.Bind("t", "new trial", "t"),
	leave:   ui.Bind("Esc", "shelf", "esc"),
}
