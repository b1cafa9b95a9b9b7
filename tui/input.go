package tui

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/charmbracelet/bubbles/cursor"
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// NewInput is a line of text with a cursor that does not blink: a blinking one
// makes every key wait.
func NewInput(prompt string) textinput.Model {
	in := textinput.New()
	in.Prompt = prompt
	in.CharLimit = 200
	in.Cursor.SetMode(cursor.CursorStatic)
	return in
}

// TypeInto gives a key to an input. A pasted text arrives as one key message:
// only its first line counts.
func TypeInto(in *textinput.Model, msg tea.KeyMsg) {
	if msg.Paste {
		msg.Runes = []rune(Sanitise(string(msg.Runes)))
	}
	// The library's deletion of the word ahead fails on the last letter, where Del does the same.
	if key.Matches(msg, in.KeyMap.DeleteWordForward) && in.Position() == len([]rune(in.Value()))-1 {
		msg = tea.KeyMsg{Type: tea.KeyDelete}
	}
	*in, _ = in.Update(msg)
}

// number reads a positive number of grams and the like; a comma serves as the
// point, and a unit behind it is passed over.
func number(text, unit string) (float64, error) {
	t := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), unit))
	v, err := strconv.ParseFloat(strings.ReplaceAll(t, ",", "."), 64)
	if err != nil || !(v >= 0 && v <= 100000) {
		return 0, fmt.Errorf("%q is not a number of %s: type it as 1.14", strings.TrimSpace(text), unit)
	}
	return v, nil
}

// optional reads a number that may be left empty.
func optional(v, unit string) (float64, error) {
	if v == "" {
		return 0, nil
	}
	return number(v, unit)
}
