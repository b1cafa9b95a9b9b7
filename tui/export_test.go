package tui

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Shown is the screen on display, for tests.
func (a *App) Shown() ui.Screen { return a.screen }

// OwnKeys are the keys that every screen has, for tests.
func OwnKeys() []key.Binding { return []key.Binding{appKeys.help, appKeys.quit} }

// PatienceIsOver is the message that comes a while after a write began.
func PatienceIsOver(a *App) tea.Msg { return slowTick{a.ended} }
