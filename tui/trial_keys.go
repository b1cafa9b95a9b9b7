package tui

import "github.com/charmbracelet/bubbles/key"

var setupKeys = struct{ next, prev, change, toggle, take, back, begin, leave key.Binding }{
	next:   Bind("Enter", "next", "enter", "down"),
	prev:   Bind("↑", "back", "up", "shift+tab"),
	change: Bind("←→", "choose", "left", "right"),
	toggle: Bind("Space", "at hand or not", " "),
	take:   Bind("Tab", "take it from the shelf", "tab"),
	back:   Bind("Del", "last weighing back", "delete"),
	begin:  Bind("Ctrl+G", "to the bench now", "ctrl+g"),
	leave:  Bind("Esc", "back to the shelf", "esc"),
}

var benchKeys = struct {
	add, spoon, count, grams, scale, liquid, level, half, without, again, removed key.Binding
	marks, note, undo, redo, mend, weigh, finish, aside, leave, quit              key.Binding
}{
	add:     Bind("Enter", "add", "enter"),
	spoon:   Bind("←→", "spoon", "left", "right"),
	count:   Bind("↑↓", "count", "up", "down"),
	grams:   Bind("g", "grams", "g"),
	scale:   Bind("=", "scale reading", "="),
	liquid:  Bind("l", "liquid/powder", "l"),
	level:   Bind("0-7", "the level seen", "0", "1", "2", "3", "4", "5", "6", "7"),
	half:    Bind(".", "half a level more", "."),
	without: Bind("a", "add without a look", "a"),
	again:   Bind("k", "look again", "k"),
	removed: Bind("t", "take paste out", "t"),
	marks:   Bind("m", "marks", "m"),
	note:    Bind("n", "note", "n"),
	undo:    Bind("u", "undo", "u"),
	redo:    Bind("U", "redo", "U"),
	mend:    Bind("e", "mend", "e"),
	weigh:   Bind("w", "weigh a level spoon", "w"),
	finish:  Bind("f", "finish", "f"),
	aside:   Bind("x", "set aside", "x"),
	leave:   Bind("Esc", "shelf", "esc"),
	quit:    Bind("q", "quit", "q"),
}

var markKeys = struct{ move, toggle, done key.Binding }{
	move:   Bind("↑↓", "move", "up", "down"),
	toggle: Bind("Space", "seen or not", " "),
	done:   Bind("Enter", "done", "enter", "esc", "m"),
}

var mendKeys = struct {
	move, spoon, count, grams, other, level, half, none key.Binding
	marks, note, remove, undo, redo, done               key.Binding
}{
	move:   Bind("↑↓", "step", "up", "down"),
	spoon:  Bind("←→", "spoon", "left", "right"),
	count:  Bind("+-", "count", "+", "-"),
	grams:  Bind("g", "grams", "g"),
	other:  Bind("l", "liquid/powder", "l"),
	level:  Bind("0-7", "level", "0", "1", "2", "3", "4", "5", "6", "7"),
	half:   Bind(".", "half a level more", "."),
	none:   Bind("d", "no look after all", "d"),
	marks:  Bind("m", "marks", "m"),
	note:   Bind("n", "note", "n"),
	remove: Bind("Del", "remove the step", "delete", "backspace"),
	undo:   Bind("u", "undo", "u"),
	redo:   Bind("U", "redo", "U"),
	done:   Bind("Enter", "back to the bench", "enter", "esc", "e"),
}

var resultKeys = struct{ scroll, trial, repeat, bench, aside, export, copy, leave, quit key.Binding }{
	scroll: Bind("↑↓", "scroll", "up", "down", "pgup", "pgdown"),
	trial:  Bind("←→", "other trials", "left", "right"),
	repeat: Bind("r", "repeat this trial", "r"),
	bench:  Bind("b", "back to the bench", "b"),
	aside:  Bind("x", "set aside, or use again", "x"),
	export: Bind("e", "export this powder", "e"),
	copy:   Bind("y", "copy the answer", "y"),
	leave:  Bind("Esc", "shelf", "esc"),
	quit:   Bind("q", "quit", "q"),
}
