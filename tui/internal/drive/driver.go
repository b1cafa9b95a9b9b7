// Package drive runs the interface without a terminal, for tests: a shelf in
// memory, invented powders, and keys by their names. Only tests import it.
package drive

import (
	"strings"
	"testing"
	"time"

	"daub.example/daub/tui"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"
)

// init makes frames the same on every machine: without colour, in one time zone.
func init() {
	lipgloss.SetColorProfile(termenv.Ascii)
	time.Local = time.UTC
}

// Driver hands messages to Update and runs the commands in order.
type Driver struct {
	App  *tui.App
	Quit bool // the program has been left
	t    testing.TB
	w, h int
}

// Start opens the program in a window of w by h cells.
func Start(t testing.TB, deps ui.Deps, w, h int) *Driver {
	d := &Driver{t: t, App: tui.New(deps)}
	d.Run(d.App.Init())
	return d.Resize(w, h)
}

// Resize changes the size of the window.
func (d *Driver) Resize(w, h int) *Driver {
	if d.Quit {
		return d
	}
	d.w, d.h = w, h
	d.Send(tea.WindowSizeMsg{Width: w, Height: h})
	return d
}

// Send hands a message to the program, until it has been left.
func (d *Driver) Send(msg tea.Msg) {
	if d.Quit {
		return
	}
	m, cmd := d.App.Update(msg)
	d.App = m.(*tui.App)
	d.Run(cmd)
}

// Run runs a command, and the commands that follow from it.
func (d *Driver) Run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil:
	case tea.BatchMsg:
		for _, c := range msg {
			d.Run(c)
		}
	case tea.QuitMsg:
		d.Quit = true
	default:
		d.Send(msg)
	}
}

// Hold presses a key and returns the command without running it.
func (d *Driver) Hold(name string) tea.Cmd {
	_, cmd := d.App.Update(Key(name))
	return cmd
}

// NamedKeys are the keys that are not letters.
var NamedKeys = map[string]tea.KeyMsg{
	"enter": {Type: tea.KeyEnter}, "esc": {Type: tea.KeyEsc}, "space": {Type: tea.KeySpace, Runes: []rune{' '}},
	"up": {Type: tea.KeyUp}, "down": {Type: tea.KeyDown}, "left": {Type: tea.KeyLeft}, "right": {Type: tea.KeyRight},
	"pgup": {Type: tea.KeyPgUp}, "pgdown": {Type: tea.KeyPgDown}, "home": {Type: tea.KeyHome},
	"end": {Type: tea.KeyEnd}, "insert": {Type: tea.KeyInsert},
	"tab": {Type: tea.KeyTab}, "shift+tab": {Type: tea.KeyShiftTab},
	"del": {Type: tea.KeyDelete}, "bksp": {Type: tea.KeyBackspace},
	"alt+del": {Type: tea.KeyDelete, Alt: true}, "alt+bksp": {Type: tea.KeyBackspace, Alt: true},
	"alt+left": {Type: tea.KeyLeft, Alt: true}, "alt+right": {Type: tea.KeyRight, Alt: true},
	"ctrl+b": {Type: tea.KeyCtrlB}, "ctrl+c": {Type: tea.KeyCtrlC}, "ctrl+e": {Type: tea.KeyCtrlE},
	"ctrl+g": {Type: tea.KeyCtrlG}, "ctrl+o": {Type: tea.KeyCtrlO}, "ctrl+r": {Type: tea.KeyCtrlR},
	"f1":     {Type: tea.KeyF1},
	"ctrl+s": {Type: tea.KeyCtrlS},
	"ctrl+t": {Type: tea.KeyCtrlT},
	"ctrl+y": {Type: tea.KeyCtrlY}, "ctrl+z": {Type: tea.KeyCtrlZ},
}

// Key returns a key by its name or letter, with or without alt+ before it.
func Key(name string) tea.KeyMsg {
	if m, ok := NamedKeys[name]; ok {
		return m
	}
	letter, alt := strings.CutPrefix(name, "alt+")
	return tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(letter), Alt: alt}
}

// Press presses keys by name, separated by spaces; a word that names no key is
// typed.
func (d *Driver) Press(keys string) *Driver {
	for _, k := range strings.Fields(keys) {
		_, named := NamedKeys[k]
		if named || strings.HasPrefix(k, "alt+") {
			d.Send(Key(k))
			continue
		}
		d.Write(k)
	}
	return d
}

// Write types text with its spaces.
func (d *Driver) Write(text string) *Driver {
	for _, r := range text {
		d.Send(Key(string(r)))
	}
	return d
}

// Click clicks in the middle of text on the screen.
func (d *Driver) Click(text string) *Driver {
	for y, line := range strings.Split(d.Frame(), "\n") {
		if before, _, found := strings.Cut(line, text); found {
			x := ansi.StringWidth(before) + ansi.StringWidth(text)/2
			d.Send(tea.MouseMsg{X: x, Y: y, Button: tea.MouseButtonLeft, Action: tea.MouseActionPress})
			return d
		}
	}
	require.Contains(d.t, d.Frame(), text, "nothing to click")
	return d
}

// Erase presses Backspace n times.
func (d *Driver) Erase(n int) *Driver { return d.Press(strings.Repeat("bksp ", n)) }

// PressUntil presses a key until the frame shows text.
func (d *Driver) PressUntil(key, text string) *Driver {
	for range 50 {
		if strings.Contains(d.Frame(), text) {
			return d
		}
		d.Press(key)
	}
	require.Contains(d.t, d.Frame(), text, "pressing %s", key)
	return d
}

// Frame returns the frame, after checking that it fills the window exactly.
func (d *Driver) Frame() string {
	view := ansi.Strip(d.App.View())
	lines := strings.Split(view, "\n")
	require.Len(d.t, lines, max(d.h, 1), "lines of a frame")
	for _, l := range lines {
		require.LessOrEqual(d.t, ansi.StringWidth(l), d.w, "width of %q", l)
	}
	return view
}

// Flat returns the frame as one line, so that wrapping does not matter.
func (d *Driver) Flat() string { return Flat(d.Frame()) }

// Flat joins text to one line.
func Flat(text string) string { return strings.Join(strings.Fields(text), " ") }
