package ui

import "github.com/charmbracelet/bubbles/key"

// Bind makes a key together with its help, so that the two always agree.
func Bind(label, does string, keys ...string) key.Binding {
	return key.NewBinding(key.WithKeys(keys...), key.WithHelp(label, does))
}

// ChooseKey picks among the options of a field.
var ChooseKey = Bind("←→", "choose", "left", "right")
