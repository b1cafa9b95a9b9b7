package tui

import "github.com/charmbracelet/bubbles/key"

var kitchenKeys = struct{ move, open, leave, quit key.Binding }{
	move:  Bind("↑↓", "choose", "up", "down"),
	open:  Bind("Enter", "open", "enter"),
	leave: Bind("Esc", "shelf", "esc"),
	quit:  Bind("q", "quit", "q"),
}

// In the forms of the kitchen letters are text, so that what is a letter
// elsewhere is the same letter with Ctrl here.
var calculatorKeys = struct{ next, prev, change, scroll, save, trial, take, export, copy, leave key.Binding }{
	next:   Bind("Enter ↓", "next", "enter", "down"),
	prev:   Bind("↑", "back", "up", "shift+tab"),
	change: Bind("←→", "choose", "left", "right"),
	scroll: Bind("Pg↑↓", "scroll", "pgup", "pgdown"),
	save:   Bind("Ctrl+S", "save as a recipe", "ctrl+s"),
	trial:  Bind("Ctrl+T", "make a trial of the mix", "ctrl+t"),
	take:   Bind("Ctrl+G", "take it into the recipe", "ctrl+g"),
	export: Bind("Ctrl+E", "card to a file", "ctrl+e"),
	copy:   Bind("Ctrl+Y", "copy", "ctrl+y"),
	leave:  Bind("Esc", "back", "esc"),
}

var cookbookKeys = struct{ move, open, reload, leave, quit key.Binding }{
	open:   Bind("Enter", "open", "enter"),
	move:   Bind("↑↓", "choose", "up", "down", "pgup", "pgdown"),
	reload: Bind("r", "read again", "r"),
	leave:  Bind("Esc", "kitchen", "esc"),
	quit:   Bind("q", "quit", "q"),
}

var recipeKeys = struct{ scroll, total, swap, save, rename, export, copy, leave, quit key.Binding }{
	scroll: Bind("↑↓", "scroll", "up", "down", "pgup", "pgdown"),
	total:  Bind("t", "another total", "t"),
	swap:   Bind("s", "swap the powder", "s"),
	save:   Bind("Ctrl+S", "save", "ctrl+s"),
	rename: Bind("n", "save under a new name", "n"),
	export: Bind("e", "card to a file", "e"),
	copy:   Bind("y", "copy the card", "y"),
	leave:  Bind("Esc", "recipes", "esc"),
	quit:   Bind("q", "quit", "q"),
}
