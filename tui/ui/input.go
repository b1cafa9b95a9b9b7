package ui

import (
	"daub.example/daub/model/printable"
	"github.com/charmbracelet/bubbles/cursor"
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// NewInput makes a line of text. Its cursor does not blink: a blinking one delays
// every key.
func NewInput(prompt string) textinput.Model {
	in := textinput.New()
	in.Prompt = prompt
	in.CharLimit = 200
	in.Cursor.SetMode(cursor.CursorStatic)
	return in
}

// TypeInto hands a key to an input. Pasted text arrives as one key message: its
// lines are joined with a space.
func TypeInto(in *textinput.Model, msg tea.KeyMsg) {
	if msg.Paste {
		msg.Runes = []rune(printable.Words(string(msg.Runes)))
	}
	// The library panics when it deletes a word forward at the last letter; Del
	// does the same there.
	if key.Matches(msg, in.KeyMap.DeleteWordForward) && in.Position() == len([]rune(in.Value()))-1 {
		msg = tea.KeyMsg{Type: tea.KeyDelete}
	}
	*in, _ = in.Update(msg)
}

// Optional reads a value that may be left empty; empty is 0.
func Optional(text string, read func(text string) (float64, error)) (float64, error) {
	if text == "" {
		return 0, nil
	}
	return read(text)
}
