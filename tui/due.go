package tui

import (
	"fmt"
	"time"

	"daub.example/daub/tui/later"
	"daub.example/daub/tui/shelf"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// dueCheck is the time between two looks at the clock while a covered dish waits.
const dueCheck = 20 * time.Second

// dueTick says that the clock should be read again.
type dueTick struct{}

// dueLook is one later look at one dish; the bell rings once for each.
type dueLook struct {
	slug  string
	trial int
	visit string
}

// waiting lists the covered dishes whose later look is due or still to come. The
// powder worked on is taken as it is now, the others as last read. Without a
// covered dish no clock is read.
func (a *App) waiting() (all []shelf.Waiting, now time.Time) {
	s := a.screen.Session()
	here := s != nil && shelf.Keeps(s.Profile())
	if !here && !a.list.Keeps() {
		return nil, now
	}
	now = a.deps.Now()
	if here {
		all = shelf.WaitingOf(s.Entry(), now)
	}
	for _, w := range a.list.Waiting(now) {
		if s == nil || s.Entry().Slug != w.Entry.Slug {
			all = append(all, w)
		}
	}
	return all, now
}

// watch rings the bell once for each later look that has become due. It keeps the
// clock running while a covered dish waits, and does nothing without one.
func (a *App) watch(cmd tea.Cmd) tea.Cmd {
	waiting, now := a.waiting()
	rings := false
	for _, w := range waiting {
		if look := (dueLook{w.Entry.Slug, w.Trial, w.Name}); w.Due(now) && !a.rung[look] {
			rings, a.rung[look] = true, true
		}
	}
	if rings && a.deps.Bell != nil {
		cmd = tea.Batch(cmd, func() tea.Msg { a.deps.Bell(); return nil })
	}
	if len(waiting) == 0 || a.watching || a.deps.Wait == nil {
		return cmd
	}
	a.watching = true
	return tea.Batch(cmd, func() tea.Msg { a.deps.Wait(dueCheck); return dueTick{} })
}

// dueLines says which later look is due, on every screen except the one of that
// dish, which says it itself.
func (a *App) dueLines() []string {
	waiting, now := a.waiting()
	s := a.screen.Session()
	_, looking := a.screen.(*later.Looks)
	var due []shelf.Waiting
	for _, w := range waiting {
		here := s != nil && s.Index() == w.Trial && s.Entry().Slug == w.Entry.Slug
		if w.Due(now) && !(looking && here) {
			due = append(due, w)
		}
	}
	if len(due) == 0 {
		return nil
	}
	text := "▸ " + due[0].Text()
	if n := len(due) - 1; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	if a.screen == ui.Screen(a.list) {
		text += " (l)"
	}
	return []string{ui.WaitStyle.Render(ui.Cut(text, a.w))}
}
