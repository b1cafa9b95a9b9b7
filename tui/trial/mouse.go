package trial

import (
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// Click acts on the spoon, level, step or behaviour under the mouse. While a
// question is open only its own keys work.
func (b *benchScreen) Click(x, y, w, h int) (ui.Next, tea.Cmd) {
	if b.Typing() || b.sure != nil {
		return b, nil
	}
	b.now = b.deps.Now()
	d := b.draw(w, h)
	if does := d.at(x, y); does != nil {
		b.Hush()
		does()
	}
	return b, b.tick()
}

// Wheel scrolls the steps.
func (b *benchScreen) Wheel(by int) (ui.Next, tea.Cmd) {
	if b.mode == mending {
		b.mend = min(max(b.mend+by, 0), len(b.trial().Steps)-1)
		return b, nil
	}
	b.above = min(max(b.above-by, 0), max(len(b.trial().Steps)-1, 0))
	return b, nil
}

// Help explains the bench.
func (b *benchScreen) Help() []string {
	reads := "a digit from 0 to 7 is the level you see"
	if b.trial().Match != nil {
		reads = "a digit from 1, much thinner, to 5, much thicker, is how it stands beside the reference dish"
	}
	return []string{
		"The bench finds how much liquid this powder takes: you add a little, stir, let it rest, read the level, " +
			"and go on until the answer is as narrow as you asked for.",
		"Enter adds what is shown; the arrows choose another spoon or count, with what it would bring. Space " +
			"starts the rest when the stirring is done; " + reads + ". Everything is saved at once, u takes back " +
			"any step, and e mends an earlier one.",
		"Signs: [3] a level where the addition will likely land, ◂ the target level, ▸ the step being mended; " +
			"beside a step " + allSigns() + " (the key e shows them in words).",
		ui.ChartSigns(b.deps.ASCII),
	}
}
