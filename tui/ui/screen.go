// Package ui holds what daub's screens share: the Screen interface, the requests
// between places, and the session worked on. It also has forms, the one-line
// prompt, scrolling, text, styles and keys. It shows nothing by itself and knows no
// place; it may import tui/chart and model/….
package ui

import (
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Screen is one view of a place. It handles messages and draws itself into the
// rectangle given; it stores no size.
type Screen interface {
	// Update handles a message and returns what to show next.
	Update(tea.Msg) (Next, tea.Cmd)
	// View draws at most h lines of at most w cells.
	View(w, h int) string
	// Keys lists the keys that work now, the most useful first.
	Keys() []key.Binding
	// Typing reports whether keys are text now, so that no shortcut fires.
	Typing() bool
	// Title names the place and the screen.
	Title() string
	// Session returns the profile worked on here, nil for none.
	Session() *Session
}

// Next tells the root what to show: a Screen of the same place, or a request for
// another place (OpenShelf and the like, or Quit). No place knows another: the root
// turns requests into screens.
type Next any

// Explained is a screen whose help says more than its keys.
type Explained interface {
	// Help returns paragraphs: what the screen is for, in a sentence what to do
	// there, and what its signs mean.
	Help() []string
}

// Clickable is a screen that reacts to the mouse. To any other screen the wheel
// comes as ↑ and ↓.
type Clickable interface {
	// Click reacts to a click on cell x, y, from 0, of the screen's rectangle of w
	// by h cells.
	Click(x, y, w, h int) (Next, tea.Cmd)
	// Wheel reacts to a turn of the wheel; down is positive.
	Wheel(by int) (Next, tea.Cmd)
}
