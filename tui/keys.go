package tui

import "github.com/charmbracelet/bubbles/key"

// bind makes a key with the help that is shown for it, so that the two never
// drift apart.
func bind(label, does string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(label, does))
}

// Keys that work on every screen.
var appKeys = struct{ help, retry, beside, quit key.Binding }{
	help:   bind("?", "help", "?", "f1"),
	retry:  bind("Ctrl+S", "save again", "ctrl+s"),
	beside: bind("Ctrl+B", "save as a file beside it", "ctrl+b"),
	quit:   bind("Ctrl+C", "quit", "ctrl+c"),
}

// helpKeys scroll the help.
var helpKeys = bind("↑↓", "scroll", "up", "down", "pgup", "pgdown")

var shelfKeys = struct {
	move, open, mark, unmark, compare, kitchen, trial, fresh, filter key.Binding
	export, samples, reload, quit, apply, clear                      key.Binding
}{
	open:    bind("Enter", "open", "enter"),
	mark:    bind("Space", "mark", " "),
	unmark:  bind("u", "unmark all", "u"),
	compare: bind("c", "compare", "c"),
	kitchen: bind("k", "kitchen", "k"),
	export:  bind("e", "export", "e"),
	trial:   bind("t", "new trial", "t"),
	fresh:   bind("n", "new powder", "n"),
	filter:  bind("/", "filter", "/"),
	move:    bind("↑↓", "choose", "up", "down", "pgup", "pgdown"),
	samples: bind("s", "add the samples", "s"),
	reload:  bind("r", "read the shelf again", "r"),
	quit:    bind("q", "quit", "q"),
	apply:   bind("Enter", "keep the filter", "enter"),
	clear:   bind("Esc", "clear the filter", "esc"),
}

var setupKeys = struct{ next, prev, change, toggle, take, back, begin, leave key.Binding }{
	next:   bind("Enter", "next", "enter", "down"),
	prev:   bind("↑", "back", "up", "shift+tab"),
	change: bind("←→", "choose", "left", "right"),
	toggle: bind("Space", "at hand or not", " "),
	take:   bind("Tab", "take it from the shelf", "tab"),
	back:   bind("Del", "last weighing back", "delete"),
	begin:  bind("Ctrl+G", "to the bench now", "ctrl+g"),
	leave:  bind("Esc", "back to the shelf", "esc"),
}

var benchKeys = struct {
	add, spoon, count, grams, scale, liquid, level, half, without, again, removed key.Binding
	marks, note, undo, redo, mend, weigh, finish, aside, leave, quit              key.Binding
}{
	add:     bind("Enter", "add", "enter"),
	spoon:   bind("←→", "spoon", "left", "right"),
	count:   bind("↑↓", "count", "up", "down"),
	grams:   bind("g", "grams", "g"),
	scale:   bind("=", "scale reading", "="),
	liquid:  bind("l", "liquid/powder", "l"),
	level:   bind("0-7", "the level seen", "0", "1", "2", "3", "4", "5", "6", "7"),
	half:    bind(".", "half a level more", "."),
	without: bind("a", "add without a look", "a"),
	again:   bind("k", "look again", "k"),
	removed: bind("t", "take paste out", "t"),
	marks:   bind("m", "marks", "m"),
	note:    bind("n", "note", "n"),
	undo:    bind("u", "undo", "u"),
	redo:    bind("U", "redo", "U"),
	mend:    bind("e", "mend", "e"),
	weigh:   bind("w", "weigh a level spoon", "w"),
	finish:  bind("f", "finish", "f"),
	aside:   bind("x", "set aside", "x"),
	leave:   bind("Esc", "shelf", "esc"),
	quit:    bind("q", "quit", "q"),
}

var entryKeys = struct{ done, cancel key.Binding }{
	done:   bind("Enter", "record", "enter"),
	cancel: bind("Esc", "never mind", "esc"),
}

var markKeys = struct{ move, toggle, done key.Binding }{
	move:   bind("↑↓", "move", "up", "down"),
	toggle: bind("Space", "seen or not", " "),
	done:   bind("Enter", "done", "enter", "esc", "m"),
}

var mendKeys = struct{ move, spoon, count, grams, other, level, half, none, marks, note, remove, undo, redo, done key.Binding }{
	move:   bind("↑↓", "step", "up", "down"),
	spoon:  bind("←→", "spoon", "left", "right"),
	count:  bind("+-", "count", "+", "-"),
	grams:  bind("g", "grams", "g"),
	other:  bind("l", "liquid/powder", "l"),
	level:  bind("0-7", "level", "0", "1", "2", "3", "4", "5", "6", "7"),
	half:   bind(".", "half a level more", "."),
	none:   bind("d", "no look after all", "d"),
	marks:  bind("m", "marks", "m"),
	note:   bind("n", "note", "n"),
	remove: bind("Del", "remove the step", "delete", "backspace"),
	undo:   bind("u", "undo", "u"),
	redo:   bind("U", "redo", "U"),
	done:   bind("Enter", "back to the bench", "enter", "esc", "e"),
}

var resultKeys = struct{ scroll, trial, repeat, bench, aside, export, copy, leave, quit key.Binding }{
	scroll: bind("↑↓", "scroll", "up", "down", "pgup", "pgdown"),
	trial:  bind("←→", "other trials", "left", "right"),
	repeat: bind("r", "repeat this trial", "r"),
	bench:  bind("b", "back to the bench", "b"),
	aside:  bind("x", "set aside, or use again", "x"),
	export: bind("e", "export this powder", "e"),
	copy:   bind("y", "copy the answer", "y"),
	leave:  bind("Esc", "shelf", "esc"),
	quit:   bind("q", "quit", "q"),
}

var compareKeys = struct{ level, reference, scroll, swap, export, copy, leave, quit key.Binding }{
	level:     bind("←→", "level", "left", "right"),
	reference: bind("↑↓", "against which", "up", "down", "tab", "shift+tab"),
	scroll:    bind("Pg↑↓", "scroll", "pgup", "pgdown"),
	swap:      bind("s", "swap", "s"),
	export:    bind("e", "export or picture", "e"),
	copy:      bind("y", "copy", "y"),
	leave:     bind("Esc", "shelf", "esc"),
	quit:      bind("q", "quit", "q"),
}

var kitchenKeys = struct{ move, open, leave, quit key.Binding }{
	move:  bind("↑↓", "choose", "up", "down"),
	open:  bind("Enter", "open", "enter"),
	leave: bind("Esc", "shelf", "esc"),
	quit:  bind("q", "quit", "q"),
}

// In the forms of the kitchen letters are text, so that what is a letter
// elsewhere is the same letter with Ctrl here.
var worktopKeys = struct{ next, prev, change, scroll, save, trial, take, export, copy, leave key.Binding }{
	next:   bind("Enter ↓", "next", "enter", "down"),
	prev:   bind("↑", "back", "up", "shift+tab"),
	change: bind("←→", "choose", "left", "right"),
	scroll: bind("Pg↑↓", "scroll", "pgup", "pgdown"),
	save:   bind("Ctrl+S", "save as a recipe", "ctrl+s"),
	trial:  bind("Ctrl+T", "make a trial of the mix", "ctrl+t"),
	take:   bind("Ctrl+G", "take it into the recipe", "ctrl+g"),
	export: bind("Ctrl+E", "card to a file", "ctrl+e"),
	copy:   bind("Ctrl+Y", "copy", "ctrl+y"),
	leave:  bind("Esc", "back", "esc"),
}

var cookbookKeys = struct{ move, open, reload, leave, quit key.Binding }{
	open:   bind("Enter", "open", "enter"),
	move:   bind("↑↓", "choose", "up", "down", "pgup", "pgdown"),
	reload: bind("r", "read again", "r"),
	leave:  bind("Esc", "kitchen", "esc"),
	quit:   bind("q", "quit", "q"),
}

var recipeKeys = struct{ scroll, total, swap, save, rename, export, copy, leave, quit key.Binding }{
	scroll: bind("↑↓", "scroll", "up", "down", "pgup", "pgdown"),
	total:  bind("t", "another total", "t"),
	swap:   bind("s", "swap the powder", "s"),
	save:   bind("Ctrl+S", "save", "ctrl+s"),
	rename: bind("n", "save under a new name", "n"),
	export: bind("e", "card to a file", "e"),
	copy:   bind("y", "copy the card", "y"),
	leave:  bind("Esc", "recipes", "esc"),
	quit:   bind("q", "quit", "q"),
}

var outletKeys = struct{ done, cancel key.Binding }{
	done:   bind("Enter", "done", "enter"),
	cancel: bind("Esc", "never mind", "esc"),
}
