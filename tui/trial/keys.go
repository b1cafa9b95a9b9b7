package trial

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

var setupKeys = struct{ next, prev, change, toggle, take, back, begin, leave key.Binding }{
	next:   ui.Bind("Enter", "next", "enter", "down"),
	prev:   ui.Bind("↑", "back", "up", "shift+tab"),
	change: ui.Bind("←→", "choose", "left", "right"),
	toggle: ui.Bind("Space", "at hand or not", " "),
	take:   ui.Bind("Tab", "take it from the shelf", "tab"),
	back:   ui.Bind("Del", "delete a weighing", "delete"),
	begin:  ui.Bind("Ctrl+G", "to the bench now", "ctrl+g"),
	leave:  ui.Bind("Esc", "back to the shelf", "esc"),
}

var benchKeys = struct {
	add, spoon, count, grams, scale, liquid, level, half, without, again, removed key.Binding
	marks, note, undo, redo, mend, weigh, finish, aside, leave, quit              key.Binding
}{
	add:     ui.Bind("Enter", "add", "enter"),
	spoon:   ui.Bind("←→", "spoon", "left", "right"),
	count:   ui.Bind("↑↓", "count", "up", "down"),
	grams:   ui.Bind("g", "grams", "g"),
	scale:   ui.Bind("=", "scale reading", "="),
	liquid:  ui.Bind("l", "liquid/powder", "l"),
	level:   ui.Bind("0-7", "the level seen", "0", "1", "2", "3", "4", "5", "6", "7"),
	half:    ui.Bind(".", "half a level more", "."),
	without: ui.Bind("a", "add without a look", "a"),
	again:   ui.Bind("k", "look again", "k"),
	removed: ui.Bind("t", "take paste out", "t"),
	marks:   ui.Bind("m", "marks", "m"),
	note:    ui.Bind("n", "note", "n"),
	undo:    ui.Bind("u", "undo", "u"),
	redo:    ui.Bind("U", "redo", "U"),
	mend:    ui.Bind("e", "mend", "e"),
	weigh:   ui.Bind("w", "weigh a level spoon", "w"),
	finish:  ui.Bind("f", "finish", "f"),
	aside:   ui.Bind("x", "set aside", "x"),
	leave:   ui.Bind("Esc", "shelf", "esc"),
	quit:    ui.Bind("q", "quit", "q"),
}

var markKeys = struct{ move, toggle, done key.Binding }{
	move:   ui.Bind("↑↓", "move", "up", "down"),
	toggle: ui.Bind("Space", "seen or not", " "),
	done:   ui.Bind("Enter", "done", "enter", "esc", "m"),
}

var mendKeys = struct {
	move, spoon, count, grams, other, level, half, none key.Binding
	marks, note, remove, undo, redo, done               key.Binding
}{
	move:   ui.Bind("↑↓", "step", "up", "down"),
	spoon:  ui.Bind("←→", "spoon", "left", "right"),
	count:  ui.Bind("+-", "count", "+", "-"),
	grams:  ui.Bind("g", "grams", "g"),
	other:  ui.Bind("l", "liquid/powder", "l"),
	level:  ui.Bind("0-7", "level", "0", "1", "2", "3", "4", "5", "6", "7"),
	half:   ui.Bind(".", "half a level more", "."),
	none:   ui.Bind("d", "no look after all", "d"),
	marks:  ui.Bind("m", "marks", "m"),
	note:   ui.Bind("n", "note", "n"),
	remove: ui.Bind("Del", "remove the step", "delete", "backspace"),
	undo:   ui.Bind("u", "undo", "u"),
	redo:   ui.Bind("U", "redo", "U"),
	done:   ui.Bind("Enter", "back to the bench", "enter", "esc", "e"),
}

var resultKeys = struct{ scroll, trial, repeat, benchScreen, aside, export, copy, leave, quit key.Binding }{
	scroll:      ui.Bind("↑↓", "scroll", "up", "down", "pgup", "pgdown"),
	trial:       ui.Bind("←→", "other trials", "left", "right"),
	repeat:      ui.Bind("r", "repeat this trial", "r"),
	benchScreen: ui.Bind("b", "back to the bench", "b"),
	aside:       ui.Bind("x", "set aside, or use again", "x"),
	export:      ui.Bind("e", "export this powder", "e"),
	copy:        ui.Bind("y", "copy the answer", "y"),
	leave:       ui.Bind("Esc", "shelf", "esc"),
	quit:        ui.Bind("q", "quit", "q"),
}
