// Package ui holds what the screens of daub share: the Screen itself, what places
// ask of each other, the session that is worked on, forms, the one-line prompt,
// scrolling, text, styles and keys. It shows nothing by itself and knows no
// place; it may import tui/chart and model/….
package ui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Screen is one view of a place. It handles messages and draws itself into
// the rectangle it is given; it stores no size.
type Screen interface {
	// Update takes in a message and says what is shown next.
	Update(tea.Msg) (Next, tea.Cmd)
	// View draws at most h lines of at most w cells.
	View(w, h int) string
	// Keys are the keys that do something now, the most useful first.
	Keys() []key.Binding
	// Typing reports whether keys are text now, so that no shortcut fires.
	Typing() bool
	// Title says where we are.
	Title() string
	// Session is the profile that is being worked on here, nil for none.
	Session() *Session
}

// Next names what is shown next: a Screen of the same place, or a request for
// another place (OpenShelf and the like, or Quit). No place knows another: the
// root turns requests into screens.
type Next any

// Explained is a screen whose help says more than its keys.
type Explained interface {
	// Help says, a paragraph each, what the screen is for, what one does there
	// in a sentence, and what its signs mean.
	Help() []string
}

// Clickable is a screen that answers the mouse. The wheel comes as ↑ and ↓ to
// every screen that is not.
type Clickable interface {
	// Click is a click on a cell of the screen's own rectangle of w by h, from 0.
	Click(x, y, w, h int) (Next, tea.Cmd)
	// Wheel is a turn of the wheel, down being positive.
	Wheel(by int) (Next, tea.Cmd)
}
