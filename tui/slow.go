package tui

import (
	"time"

	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// patience is the longest a write may take before the maker is told: 4 s. A disk
// that has to wake up takes a second or two.
const patience = 4 * time.Second

// slowTick says that patience has passed since a write began; ended counts the
// writes that had ended by then.
type slowTick struct{ ended int }

// timeWrites starts the clock for a write under way. A hung disk (a lost network
// folder, a stick pulled out) neither fails nor answers.
func (a *App) timeWrites(cmd tea.Cmd) tea.Cmd {
	if a.timing || !a.inFlight() || a.deps.Wait == nil {
		return cmd
	}
	a.timing = true
	tick := slowTick{a.ended}
	return tea.Batch(cmd, func() tea.Msg { a.deps.Wait(patience); return tick })
}

// timed notes a write as slow if none has ended since its clock was started.
func (a *App) timed(tick slowTick) {
	a.timing = false
	a.slow = a.inFlight() && tick.ended == a.ended
}

// inFlight reports whether anything is being written.
func (a *App) inFlight() bool {
	s := a.screen.Session()
	return s != nil && s.Writing() || a.writing()
}

// slowLines say that a write takes too long.
func (a *App) slowLines() []string {
	if !a.slow {
		return nil
	}
	text := "! NOT SAVED YET: the disk does not answer. Go on; it is saved when the disk answers. " +
		appKeys.quit.Help().Key + " twice leaves: what is not saved then goes into a temporary file."
	return ui.Painted(ui.RiskStyle, text, a.w)
}
