package trial

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// choice is what the maker would add instead of what is advised.
type choice struct {
	liquid bool
	spoon  int // into the spoons at hand
	count  int
	own    bool // the maker has chosen; else Enter takes the advice
}

// rechoose starts the choice at what is advised, or else at the spoon used
// last, or at the smallest at hand.
func (b *benchScreen) rechoose() {
	t := b.trial()
	b.choice = choice{spoon: max(len(t.Spoons)-1, 0), count: 1}
	if a := b.advised(); a != nil {
		b.choice.liquid = a.Action == bench.ActLiquid
		if at := slices.Index(t.Spoons, a.Spoon); at >= 0 {
			b.choice.spoon, b.choice.count = at, max(a.Count, 1)
			return
		}
	}
	for i := len(t.Steps) - 1; i >= 0; i-- {
		if at := slices.Index(t.Spoons, t.Steps[i].Spoon); at >= 0 && t.Steps[i].Add == model.AddPowder {
			b.choice.spoon = at
			return
		}
	}
}

// advised is the advice that Enter would take, nil where there is none or the
// maker has chosen otherwise.
func (b *benchScreen) advised() *bench.Advice {
	if b.choice.own {
		return nil
	}
	return b.session.Outcome().Advice
}

// stopAdvised reports whether Enter would take the advice to stop.
func (b *benchScreen) stopAdvised() bool {
	a := b.advised()
	return a != nil && a.Action == bench.ActStop
}

// step adds a step and waits for its look.
func (b *benchScreen) step(s model.Step) {
	if b.done("", b.session.Add(b.now, s)) {
		b.next()
	}
}

// benchKey handles the keys that serve while adding and while looking.
func (b *benchScreen) benchKey(msg tea.KeyMsg) {
	k := benchKeys
	switch {
	case b.mode == adding && key.Matches(msg, k.add):
		b.add()
	case b.mode == adding && key.Matches(msg, k.spoon):
		b.turn(msg.String() == "left")
	case b.mode == adding && key.Matches(msg, k.count):
		b.more(msg.String() == "up")
	case b.mode == adding && key.Matches(msg, k.liquid):
		b.choice.liquid, b.choice.own = !b.choice.liquid, true
	case b.mode == adding && key.Matches(msg, k.grams):
		b.askGrams("", "")
	case b.mode == adding && key.Matches(msg, k.scale):
		b.askScale()
	case b.mode == adding && key.Matches(msg, k.again):
		if b.done("", b.session.LookAgain(b.now)) {
			b.next()
		}
	case b.mode == adding && b.awaitsLook() && (key.Matches(msg, k.level) || key.Matches(msg, k.half)):
		b.lookKey(msg) // the last addition was passed over; it is looked at after all
	case b.mode == adding && key.Matches(msg, k.level):
		b.Refuse("nothing was added since the last look: Enter adds, k looks at the same dish again")
	case key.Matches(msg, k.removed):
		b.askRemoved()
	case key.Matches(msg, k.weigh):
		b.askWeighing()
	case key.Matches(msg, k.aside):
		b.askReason()
	case key.Matches(msg, k.undo):
		b.back(b.session.Undo, "taken back", "nothing to undo")
	case key.Matches(msg, k.redo):
		b.back(b.session.Redo, "done again", "nothing to redo")
	case b.last() == nil && key.Matches(msg, k.note, k.marks, k.mend):
		b.Refuse("no step yet: add something first")
	case key.Matches(msg, k.note):
		b.askNote(len(b.trial().Steps) - 1)
	case key.Matches(msg, k.marks):
		b.pick(len(b.trial().Steps)-1, b.mode)
	case key.Matches(msg, k.mend):
		b.mode, b.mend = mending, len(b.trial().Steps)-1
	}
}

// back goes back or forth by one change.
func (b *benchScreen) back(step func() (bench.Change, bool), yes, no string) {
	if _, ok := step(); !ok {
		b.Refuse(no)
		return
	}
	b.Say(yes)
	b.next()
}

// turn chooses another spoon: left is larger, right is smaller.
func (b *benchScreen) turn(larger bool) {
	n := len(b.trial().Spoons)
	b.choice.own = true
	if n == 0 {
		b.Refuse("no spoons at hand in this trial: g adds by weight")
		return
	}
	if larger {
		b.choice.spoon = max(b.choice.spoon-1, 0)
	} else {
		b.choice.spoon = min(b.choice.spoon+1, n-1)
	}
}

func (b *benchScreen) more(up bool) {
	b.choice.own = true
	if up {
		b.choice.count = min(b.choice.count+1, 20)
	} else {
		b.choice.count = max(b.choice.count-1, 1)
	}
}

// chosen is the step Enter would make; ok is false when it has to be weighed.
func (b *benchScreen) chosen() (model.Step, bool) {
	t := b.trial()
	if b.choice.spoon >= len(t.Spoons) {
		return model.Step{}, false
	}
	s := model.Step{Add: model.AddPowder, Spoon: t.Spoons[b.choice.spoon], Count: b.choice.count}
	if b.choice.liquid {
		s.Add = model.AddLiquid
	}
	return s, true
}

// chosenG is the weight of the chosen addition, g.
func (b *benchScreen) chosenG(s model.Step) (float64, error) {
	if s.Add == model.AddLiquid {
		grams, err := b.trial().LiquidSpoonG(s.Spoon, b.deps.Drawer)
		return grams * float64(s.Spoons()), err
	}
	scoop, err := b.session.Outcome().Reading.Scales.Scoop(s.Spoon)
	return scoop.Grams * float64(s.Spoons()), err
}

// accept takes the advice.
func (b *benchScreen) accept(a bench.Advice) {
	step, _ := a.Step()
	switch {
	case a.Action == bench.ActWeigh:
		b.askWeighing()
	case step.Weighed():
		b.choice.liquid = step.Add == model.AddLiquid
		why := fmt.Sprintf("Add about %s g, then type what it really was.", model.Number(step.Grams))
		if len(b.trial().Spoons) > 0 && step.Add == model.AddPowder {
			why = "No level spoon of this powder has been weighed (w weighs one), so by weight. " + why
		}
		b.askGrams(why, model.Number(step.Grams))
	default:
		b.step(step)
	}
}

// add makes the chosen step; where a spoon has no weight it asks for grams.
func (b *benchScreen) add() {
	if a := b.advised(); a != nil {
		b.accept(*a)
		return
	}
	s, ok := b.chosen()
	if !ok {
		b.askGrams("", "")
		return
	}
	if _, err := b.chosenG(s); err != nil {
		b.askGrams(err.Error(), "")
		return
	}
	b.step(s)
}
