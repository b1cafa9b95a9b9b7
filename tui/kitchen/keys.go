package kitchen

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

var kitchenKeys = struct{ move, open, leave, quit key.Binding }{
	move:  ui.Bind("↑↓", "choose", "up", "down"),
	open:  ui.Bind("Enter", "open", "enter"),
	leave: ui.Bind("Esc", "shelf", "esc"),
	quit:  ui.Bind("q", "quit", "q"),
}

// In the forms of the kitchen letters are text, so that what is a letter
// elsewhere is the same letter with Ctrl here.
var calculatorKeys = struct{ next, prev, change, scroll, save, trial, take, export, copy, leave key.Binding }{
	next:   ui.Bind("Enter ↓", "next", "enter", "down"),
	prev:   ui.Bind("↑", "back", "up", "shift+tab"),
	change: ui.Bind("←→", "choose", "left", "right"),
	scroll: ui.Bind("Pg↑↓", "scroll", "pgup", "pgdown"),
	save:   ui.Bind("Ctrl+S", "save as a recipe", "ctrl+s"),
	trial:  ui.Bind("Ctrl+T", "make a trial of the mix", "ctrl+t"),
	take:   ui.Bind("Ctrl+G", "take it into the recipe", "ctrl+g"),
	export: ui.Bind("Ctrl+E", "card to a file", "ctrl+e"),
	copy:   ui.Bind("Ctrl+Y", "copy", "ctrl+y"),
	leave:  ui.Bind("Esc", "back", "esc"),
}

var cookbookKeys = struct{ move, open, reload, leave, quit key.Binding }{
	open:   ui.Bind("Enter", "open", "enter"),
	move:   ui.Bind("↑↓", "choose", "up", "down", "pgup", "pgdown"),
	reload: ui.Bind("r", "read again", "r"),
	leave:  ui.Bind("Esc", "kitchen", "esc"),
	quit:   ui.Bind("q", "quit", "q"),
}

var recipeKeys = struct{ scroll, total, swap, save, rename, export, copy, leave, quit key.Binding }{
	scroll: ui.Bind("↑↓", "scroll", "up", "down", "pgup", "pgdown"),
	total:  ui.Bind("t", "another total", "t"),
	swap:   ui.Bind("s", "swap the powder", "s"),
	save:   ui.Bind("Ctrl+S", "save", "ctrl+s"),
	rename: ui.Bind("n", "save under a new name", "n"),
	export: ui.Bind("e", "card to a file", "e"),
	copy:   ui.Bind("y", "copy the card", "y"),
	leave:  ui.Bind("Esc", "recipes", "esc"),
	quit:   ui.Bind("q", "quit", "q"),
}
