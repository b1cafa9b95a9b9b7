package ui

import (
	"daub.example/daub/model/printable"
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
// its lines are joined with a space.
func TypeInto(in *textinput.Model, msg tea.KeyMsg) {
	if msg.Paste {
		msg.Runes = []rune(printable.Words(string(msg.Runes)))
	}
	// The library's deletion of the word ahead fails on the last letter, where Del does the same.
	if key.Matches(msg, in.KeyMap.DeleteWordForward) && in.Position() == len([]rune(in.Value()))-1 {
		msg = tea.KeyMsg{Type: tea.KeyDelete}
	}
	*in, _ = in.Update(msg)
}

// Optional reads what may be left empty, which is 0.
func Optional(text string, read func(text string) (float64, error)) (float64, error) {
	if text == "" {
		return 0, nil
	}
	return read(text)
}
