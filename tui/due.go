package tui

import (
	"time"

	"daub.example/daub/tui/shelf"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// dueCheck is how often the clock is looked at while a covered dish waits for a
// later look.
const dueCheck = 20 * time.Second

// dueTick says that the clock is to be looked at again.
type dueTick struct{}

// watch rings the bell once for every later look that has become due, and keeps
// the clock running while a covered dish waits. Without one it does nothing.
func (a *App) watch(cmd tea.Cmd) tea.Cmd {
	if !a.list.Keeps() {
		a.due = 0
		return cmd
	}
	now := a.deps.Now()
	waiting := a.list.Waiting(now)
	due := 0
	for _, w := range waiting {
		if w.Due(now) {
			due++
		}
	}
	if due > a.due && a.deps.Bell != nil {
		cmd = tea.Batch(cmd, func() tea.Msg { a.deps.Bell(); return nil })
	}
	a.due = due
	if len(waiting) == 0 || a.watching || a.deps.Wait == nil {
		return cmd
	}
	a.watching = true
	return tea.Batch(cmd, func() tea.Msg { a.deps.Wait(dueCheck); return dueTick{} })
}

// dueLines say which later looks are due, on every screen but those
// of the same powder.
func (a *App) dueLines() []string {
	if !a.list.Keeps() {
		return nil
	}
	now := a.deps.Now()
	var due []shelf.Waiting
	for _, w := range a.list.Waiting(now) {
		if s := a.screen.Session(); w.Due(now) && (s == nil || s.Entry().Slug != w.Entry.Slug) {
			due = append(due, w)
		}
	}
	if len(due) == 0 {
		return nil
	}
	text := "▸ " + due[0].Text()
	if a.screen == ui.Screen(a.list) {
		text += " (l)"
	}
	return []string{ui.WaitStyle.Render(ui.Cut(text, a.w))}
}
