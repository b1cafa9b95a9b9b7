package ui

import "github.com/charmbracelet/bubbles/key"

// Bind makes a key with the help that is shown for it, so that the two never
// drift apart.
func Bind(label, does string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(label, does))
}

// ChooseKey turns the options of a field.
var ChooseKey = Bind("←→", "choose", "left", "right")
