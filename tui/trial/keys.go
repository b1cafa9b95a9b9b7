package trial

import (
	"daub.example/daub/model"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

var benchKeys = struct {
	add, spoon, count, grams, scale, liquid, level, beside, half, rest, without, again key.Binding
	removed, stirred, measure, marks, note, undo, redo, mend, pot, weigh               key.Binding
	finish, aside, change, more, back, leave, quit                                     key.Binding
}{
	add:     ui.Bind("Enter", "add", "enter"),
	spoon:   ui.Bind("←→", "spoon", "left", "right"),
	count:   ui.Bind("↑↓", "count", "up", "down"),
	grams:   ui.Bind("g", "grams", "g"),
	scale:   ui.Bind("=", "scale", "="),
	liquid:  ui.Bind("l", "liquid/powder", "l"),
	level:   ui.Bind("0-7", "level", "0", "1", "2", "3", "4", "5", "6", "7"),
	beside:  ui.Bind("1-5", "beside the reference dish", "1", "2", "3", "4", "5"),
	half:    ui.Bind(".", "and a half", "."),
	rest:    ui.Bind("Space", "stirred", " "),
	without: ui.Bind("a", "add without a look", "a"),
	again:   ui.Bind("k", "look again", "k"),
	removed: ui.Bind("t", "take paste out", "t"),
	stirred: ui.Bind("v", "level just stirred", "v"),
	measure: ui.Bind("r", "type a measurement (mm, s)", "r"),
	marks:   ui.Bind("m", "behaviour", "m"),
	note:    ui.Bind("n", "note", "n"),
	undo:    ui.Bind("u", "undo", "u"),
	redo:    ui.Bind("U", "redo", "U"),
	mend:    ui.Bind("e", "mend a step", "e"),
	pot:     ui.Bind("p", "weigh the powder's pot", "p"),
	weigh:   ui.Bind("w", "weigh level spoons", "w"),
	finish:  ui.Bind("f", "finish", "f"),
	aside:   ui.Bind("x", "set aside", "x"),
	change:  ui.Bind("c", "change target, rest, liquid", "c"),
	more:    ui.Bind("i", "statistics", "i"),
	back:    ui.Bind("Esc", "back, never out of the bench", "esc"),
	leave:   ui.Bind("s", "shelf", "s"),
	quit:    ui.Bind("q", "quit", "q"),
}

var markKeys = struct{ toggle, done key.Binding }{
	toggle: ui.Bind("a letter", "seen or not", letters()...),
	done:   ui.Bind("Enter", "done", "enter", "esc"),
}

// letters returns the keys of the behaviours.
func letters() []string {
	var keys []string
	for _, b := range model.Behaviours() {
		keys = append(keys, b.Letter)
	}
	return keys
}

var mendKeys = struct {
	move, spoon, count, grams, other, level, half, rest, measure, none key.Binding
	marks, note, insert, remove, use, pot, undo, redo, done            key.Binding
}{
	move:    ui.Bind("↑↓", "step", "up", "down"),
	spoon:   ui.Bind("←→", "spoon", "left", "right"),
	count:   ui.Bind("+-", "count", "+", "-"),
	grams:   ui.Bind("g", "grams", "g"),
	other:   ui.Bind("l", "powder, liquid, taken out, look", "l"),
	level:   ui.Bind("0-7", "level", "0", "1", "2", "3", "4", "5", "6", "7"),
	half:    ui.Bind(".", "and a half, or not", "."),
	rest:    ui.Bind("Space", "rest before it", " "),
	measure: ui.Bind("r", "type a measurement (mm, s)", "r"),
	none:    ui.Bind("d", "delete this look", "d"),
	marks:   ui.Bind("m", "behaviour", "m"),
	note:    ui.Bind("n", "note", "n"),
	insert:  ui.Bind("Ins", "insert a step before", "insert"),
	remove:  ui.Bind("Del", "delete the step", "delete", "backspace"),
	use:     ui.Bind("x", "leave a look out, or use it", "x"),
	pot:     ui.Bind("p", "the powder's pot", "p"),
	undo:    ui.Bind("u", "undo", "u"),
	redo:    ui.Bind("U", "redo", "U"),
	done:    ui.Bind("Enter", "done", "enter", "esc", "e"),
}

var resultKeys = struct {
	acid, scroll, trial, repeat, match, later, benchScreen, aside, export, copy, leave, quit key.Binding
}{
	scroll:      ui.Bind("↑↓", "scroll", "up", "down", "pgup", "pgdown"),
	acid:        ui.Bind("p", "pH and acid", "p"),
	trial:       ui.Bind("←→", "other trials", "left", "right"),
	repeat:      ui.Bind("r", "repeat this trial", "r"),
	match:       ui.Bind("m", "match another powder to this dish", "m"),
	later:       ui.Bind("l", "later looks", "l"),
	benchScreen: ui.Bind("b", "back to the bench", "b"),
	aside:       ui.Bind("x", "set aside, or use again", "x"),
	export:      ui.Bind("e", "export this powder", "e"),
	copy:        ui.Bind("y", "copy the answer", "y"),
	leave:       ui.Bind("Esc", "shelf", "esc"),
	quit:        ui.Bind("q", "quit", "q"),
}
