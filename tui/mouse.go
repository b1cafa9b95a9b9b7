package tui

import (
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// mouse hands clicks and the wheel to the screen, in the screen's own rectangle.
// While the help is open the wheel scrolls it and a click closes it.
func (a *App) mouse(msg tea.MouseMsg) tea.Cmd {
	by := map[tea.MouseButton]int{tea.MouseButtonWheelUp: -1, tea.MouseButtonWheelDown: 1}[msg.Button]
	click := msg.Button == tea.MouseButtonLeft && msg.Action == tea.MouseActionPress
	top, h := a.rectangle()
	inside := msg.Y >= top && msg.Y < top+h
	screen, clickable := a.screen.(ui.Clickable)
	switch {
	case by == 0 && !click, a.writing(), a.w < minWidth, a.h < minHeight:
		return nil
	case a.help && click:
		a.help = false
		return nil
	case a.help || (by != 0 && !clickable):
		return a.key(tea.KeyMsg{Type: map[int]tea.KeyType{-1: tea.KeyUp, 1: tea.KeyDown}[by]})
	case by != 0:
		return a.follow(screen.Wheel(by))
	case !clickable || !inside:
		return nil
	default:
		return a.follow(screen.Click(msg.X, msg.Y-top, a.w, h))
	}
}
