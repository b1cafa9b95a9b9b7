package trial

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// mending gives a key to the step under the cursor. Every change is kept at
// once, saved and undoable.
func (b *benchScreen) mending(msg tea.KeyMsg) {
	k := mendKeys
	n := len(b.trial().Steps)
	switch {
	case key.Matches(msg, k.done):
		b.next()
	case key.Matches(msg, k.move) && msg.String() == "up":
		b.mend, b.half = max(b.mend-1, 0), false
	case key.Matches(msg, k.move):
		b.mend, b.half = min(b.mend+1, n-1), false
	case key.Matches(msg, k.undo):
		b.mendBack(b.session.Undo, "nothing to undo")
	case key.Matches(msg, k.redo):
		b.mendBack(b.session.Redo, "nothing to redo")
	case key.Matches(msg, k.marks):
		b.pick(b.mend, mending)
	case key.Matches(msg, k.note):
		b.askNote(b.mend)
	case key.Matches(msg, k.remove):
		b.mendRemove()
	default:
		b.mendValue(msg)
	}
}

// mendValue changes the addition or the look of the step.
func (b *benchScreen) mendValue(msg tea.KeyMsg) {
	k := mendKeys
	step := b.trial().Steps[b.mend]
	bySpoon := step.Spoon != "" && !step.Weighed()
	weighable := step.Add != model.AddNone
	switch {
	case key.Matches(msg, k.spoon) && step.Weighed():
		b.Refuse("this addition was weighed: g changes the grams")
	case key.Matches(msg, k.other) && weighable && step.Add != model.Removed:
		b.mendOther()
	case key.Matches(msg, k.spoon) && weighable && step.Add != model.Removed:
		b.mendSpoon(msg.String() == "left")
	case key.Matches(msg, k.count) && bySpoon:
		by := 1
		if msg.String() == "-" {
			by = -1
		}
		count := min(max(step.Spoons()+by, 1), 20)
		b.change(func(s *model.Step) { s.Count = count })
	case key.Matches(msg, k.grams) && weighable:
		b.askMended()
	case key.Matches(msg, k.half):
		b.halfKey()
	case key.Matches(msg, k.level):
		b.levelKey(msg, b.mendLevel)
	case key.Matches(msg, k.none):
		b.change(func(s *model.Step) { s.Looked, s.Level, s.RestedS = false, 0, nil })
	case key.Matches(msg, k.spoon, k.count, k.grams, k.other):
		b.Refuse("this step has no such amount; Del removes it")
	}
}

// change edits the step under the cursor.
func (b *benchScreen) change(change func(s *model.Step)) {
	b.done(fmt.Sprintf("step %d mended", b.mend+1), b.session.Mend(b.mend, change))
}

func (b *benchScreen) mendSpoon(larger bool) {
	t := b.trial()
	step := t.Steps[b.mend]
	if len(t.Spoons) == 0 {
		b.Refuse("no spoons at hand in this trial: g takes grams")
		return
	}
	at := slices.Index(t.Spoons, step.Spoon)
	switch {
	case at < 0:
		at = len(t.Spoons) - 1
	case larger:
		at = max(at-1, 0)
	default:
		at = min(at+1, len(t.Spoons)-1)
	}
	b.change(func(s *model.Step) { s.Spoon, s.Count, s.Grams = t.Spoons[at], s.Spoons(), 0 })
}

// mendOther makes liquid of what was taken for powder, or the other way round.
func (b *benchScreen) mendOther() {
	b.change(func(s *model.Step) {
		if s.Add == model.AddPowder {
			s.Add = model.AddLiquid
		} else {
			s.Add = model.AddPowder
		}
	})
}

func (b *benchScreen) mendLevel(level float64) {
	b.change(func(s *model.Step) { s.Looked, s.Level = true, level })
}

func (b *benchScreen) mendRemove() {
	if b.done(fmt.Sprintf("step %d removed; u brings it back", b.mend+1), b.session.DeleteStep(b.mend)) {
		b.afterMend()
	}
}

func (b *benchScreen) mendBack(step func() (bench.Change, bool), no string) {
	if _, ok := step(); !ok {
		b.Refuse(no)
		return
	}
	b.afterMend()
}

// afterMend keeps the cursor on a step, or leaves mending without one.
func (b *benchScreen) afterMend() {
	n := len(b.trial().Steps)
	b.mend = min(b.mend, n-1)
	if n == 0 {
		b.mend = 0
		b.next()
	}
}
