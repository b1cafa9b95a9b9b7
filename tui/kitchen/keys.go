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

// calculatorKeys are Ctrl with the letter used elsewhere: in a form, letters are
// text.
var calculatorKeys = struct {
	next, prev, change, scroll, save, kind, acid, trial, take, recipe, export, copy, leave key.Binding
}{
	next:   ui.Bind("Enter ↓", "next", "enter", "down"),
	prev:   ui.Bind("↑", "back", "up", "shift+tab"),
	change: ui.Bind("←→", "choose", "left", "right"),
	scroll: ui.Bind("Pg↑↓", "scroll", "pgup", "pgdown"),
	save:   ui.Bind("Ctrl+S", "save as a recipe", "ctrl+s"),
	kind:   ui.Bind("Ctrl+O", "extra as liquid, oil, dry", "ctrl+o"),
	acid:   ui.Bind("Ctrl+A", "take the acid in as an extra", "ctrl+a"),
	trial:  ui.Bind("Ctrl+T", "make a trial of the mix", "ctrl+t"),
	recipe: ui.Bind("Ctrl+R", "in a saved recipe", "ctrl+r"),
	take:   ui.Bind("Ctrl+G", "take it into the recipe", "ctrl+g"),
	export: ui.Bind("Ctrl+E", "card to a file", "ctrl+e"),
	copy:   ui.Bind("Ctrl+Y", "copy", "ctrl+y"),
	leave:  ui.Bind("Esc", "back", "esc"),
}

var cookbookKeys = struct{ move, open, take, undo, reload, leave, back, quit key.Binding }{
	take:   ui.Bind("Enter", "take this one", "enter"),
	back:   ui.Bind("Esc", "back", "esc"),
	open:   ui.Bind("Enter", "open", "enter"),
	move:   ui.Bind("↑↓", "choose", "up", "down", "pgup", "pgdown"),
	undo:   ui.Bind("u", "bring the deleted one back", "u"),
	reload: ui.Bind("r", "read the shelf again", "r"),
	leave:  ui.Bind("Esc", "kitchen", "esc"),
	quit:   ui.Bind("q", "quit", "q"),
}

var recipeKeys = struct {
	edit, total, swap, save, export, rename, copy, delete, clip, renew, scroll, leave, quit key.Binding
}{
	edit:   ui.Bind("e", "edit", "e"),
	total:  ui.Bind("t", "another total or portions", "t"),
	swap:   ui.Bind("s", "swap a powder", "s"),
	save:   ui.Bind("Ctrl+S", "save", "ctrl+s"),
	export: ui.Bind("w", "write the card", "w"),
	rename: ui.Bind("n", "rename", "n"),
	copy:   ui.Bind("c", "keep a copy", "c"),
	delete: ui.Bind("D", "delete", "D"),
	clip:   ui.Bind("y", "copy the card's text", "y"),
	renew:  ui.Bind("r", "work it out anew", "r"),
	scroll: ui.Bind("↑↓", "scroll", "up", "down", "pgup", "pgdown"),
	leave:  ui.Bind("Esc", "recipes", "esc"),
	quit:   ui.Bind("q", "quit", "q"),
}

var (
	saveOverKeys = [2]key.Binding{ui.Bind("Enter", "save over it", "enter"), ui.Bind("Esc", "not yet", "esc")}
	deleteKeys   = [2]key.Binding{ui.Bind("Enter", "delete it", "enter"), ui.Bind("Esc", "keep it", "esc")}
)
