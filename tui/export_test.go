package tui

import (
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// Shown returns the screen on display, for tests.
func (a *App) Shown() ui.Screen { return a.screen }

// OwnKeys returns the keys that every screen has, for tests.
func OwnKeys() []key.Binding { return []key.Binding{appKeys.help, appKeys.quit} }

// PatienceIsOver returns the message that comes when a write has taken too long.
func PatienceIsOver(a *App) tea.Msg { return slowTick{a.ended} }
