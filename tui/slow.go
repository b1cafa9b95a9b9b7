package tui

import (
	"time"

	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// patience is how long a write may take before the maker is told. A disk that
// has to wake up takes a second or two.
const patience = 4 * time.Second

// slowTick says that patience has passed since a write began; ended is how many
// writes had ended then.
type slowTick struct{ ended int }

// timeWrites keeps an eye on a write that is under way: a disk that hangs (a
// network folder that is gone, a stick pulled out) neither fails nor answers.
func (a *App) timeWrites(cmd tea.Cmd) tea.Cmd {
	if a.timing || !a.inFlight() || a.deps.Wait == nil {
		return cmd
	}
	a.timing = true
	tick := slowTick{a.ended}
	return tea.Batch(cmd, func() tea.Msg { a.deps.Wait(patience); return tick })
}

// timed takes in that patience has passed.
func (a *App) timed(tick slowTick) {
	a.timing = false
	a.slow = a.inFlight() && tick.ended == a.ended
}

// inFlight reports whether anything is being written.
func (a *App) inFlight() bool {
	s := a.screen.Session()
	return s != nil && s.Writing() || a.writing()
}

// slowLines say that a write has been under way for too long.
func (a *App) slowLines() []string {
	if !a.slow {
		return nil
	}
	text := "! NOT SAVED YET: the disk does not answer. Go on; it is saved when the disk answers. " +
		appKeys.quit.Help().Key + " twice leaves: what is not saved then goes into a temporary file."
	return ui.Painted(ui.RiskStyle, text, a.w)
}
