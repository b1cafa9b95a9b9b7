package trial

import (
	"fmt"
	"math"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// choice is the addition chosen with the arrows; it begins as the advised one.
type choice struct {
	liquid bool
	spoon  int // index into the spoons at hand
	count  int
	own    bool // the maker chose it; else Enter follows the advice
}

// forecast holds the likely outcome of the addition that Enter would make, and of
// one spoon more.
type forecast struct {
	of       model.Step
	revision int
	known    bool
	of1      []bench.Forecast // of the addition, and of one more; empty if nothing can be said
}

// rechoose sets the choice to the advice; without one, to the spoon used last, else
// to the smallest.
func (b *benchScreen) rechoose() {
	t := b.trial()
	b.choice = choice{count: 1}
	if a := b.advised(); a != nil {
		b.choice.liquid = a.Action == bench.ActLiquid
		if at := slices.Index(t.Spoons, a.Spoon); at >= 0 {
			b.choice.spoon, b.choice.count = at, max(a.Count, 1)
			return
		}
	}
	b.choice.spoon = b.usual(model.AddPowder)
}

// usual returns the index of the spoon last used for this kind of addition, else of
// the smallest.
func (b *benchScreen) usual(add model.Add) int {
	t := b.trial()
	for i := len(t.Steps) - 1; i >= 0; i-- {
		if at := slices.Index(t.Spoons, t.Steps[i].Spoon); at >= 0 && t.Steps[i].Add == add {
			return at
		}
	}
	return max(len(t.Spoons)-1, 0)
}

// turnOver changes the choice from powder to liquid or back and starts the count
// anew.
func (b *benchScreen) turnOver() {
	liquid := !b.choice.liquid
	b.rechoose()
	if b.choice.liquid != liquid {
		add := model.AddPowder
		if liquid {
			add = model.AddLiquid
		}
		b.choice = choice{liquid: liquid, spoon: b.usual(add), count: 1}
		if liquid {
			b.chooseBack()
		}
	}
	b.ownChoice()
}

// ownChoice says that the choice is the maker's, unless it is just what is advised.
func (b *benchScreen) ownChoice() {
	b.choice.own = true
	if a := b.session.Outcome().Advice; a != nil {
		advised, ok := a.Step()
		chosen, has := b.chosen()
		same := advised.Add == chosen.Add && advised.Spoon == chosen.Spoon && advised.Count == chosen.Count
		b.choice.own = !(ok && has && same)
	}
}

// chooseBack chooses spoonfuls of liquid that bring a too thick dish to its target:
// the spoon that comes nearest. Of spoons within a tenth of the amount it takes the
// largest.
func (b *benchScreen) chooseBack() {
	want := b.session.Outcome().Reading.BackG()
	nearest := math.Inf(1)
	for i, name := range b.trial().Spoons {
		grams, err := b.trial().LiquidSpoonG(name, b.deps.OwnSpoons)
		if err != nil || want <= 0 {
			continue
		}
		count := math.Min(math.Max(math.Round(want/grams), 1), 20)
		if off := math.Abs(count*grams/want - 1); off < nearest && nearest > 0.1 {
			nearest = off
			b.choice.spoon, b.choice.count = i, int(count)
		}
	}
}

// backText gives the liquid that a too thick dish lacks, in g as typed; "" if it
// lacks none or powder is chosen.
func (b *benchScreen) backText() string {
	if want := b.session.Outcome().Reading.BackG(); b.choice.liquid && want > 0 {
		return model.Significant(want, 2)
	}
	return ""
}

// advised returns the advice that Enter would follow; nil without one, or if the
// maker chose otherwise.
func (b *benchScreen) advised() *bench.Advice {
	if b.choice.own {
		return nil
	}
	return b.session.Outcome().Advice
}

// stopAdvised reports whether Enter would follow the advice to stop.
func (b *benchScreen) stopAdvised() bool {
	a := b.advised()
	return a != nil && a.Action == bench.ActStop
}

// forecasts predicts the look after the planned step, and after one spoon more.
func (b *benchScreen) forecasts() []bench.Forecast {
	s, ok := b.planned()
	if !ok {
		return nil
	}
	f := &b.forecast
	if !f.known || f.revision != b.session.Revision() || f.of.Add != s.Add || f.of.Amount() != s.Amount() {
		more := s
		more.Count = s.Spoons() + 1
		*f = forecast{of: s, revision: b.session.Revision(), known: true}
		if s.Weighed() {
			more.Grams = 1.5 * s.Grams
		}
		f.of1 = b.session.Outcome().Reading.Forecasts(s, more)
	}
	return f.of1
}

// planned returns the step that Enter would make. ok is false if Enter would first
// ask for grams.
func (b *benchScreen) planned() (model.Step, bool) {
	if a := b.advised(); a != nil {
		return a.Step()
	}
	return b.chosen()
}

// step adds a step; its look comes next.
func (b *benchScreen) step(s model.Step) error {
	if err := b.session.Add(b.now, s); err != nil {
		return err
	}
	b.Say("")
	if b.next(); b.awaitsLook() && !b.trial().WasRead() {
		b.Warn(b.session.CautionsOnce(care.BeforeWet))
	}
	return nil
}

// benchKey handles the keys that work both while adding and while looking.
func (b *benchScreen) benchKey(msg tea.KeyMsg) {
	k := benchKeys
	switch {
	case b.mode == adding && b.addKey(msg):
	case b.mode == adding && b.beyondScale(msg):
	case key.Matches(msg, k.removed):
		b.askRemoved()
	case key.Matches(msg, k.weigh):
		b.askWeighing()
	case key.Matches(msg, k.pot):
		b.askPot()
	case key.Matches(msg, k.aside):
		b.askReason()
	case key.Matches(msg, k.change):
		b.openFacts()
	case key.Matches(msg, k.undo):
		b.back(b.session.Undo, "undone: ", "nothing to undo")
	case key.Matches(msg, k.redo):
		b.back(b.session.Redo, "redone: ", "nothing to redo")
	case b.last() == nil && key.Matches(msg, k.note, k.marks, k.mend, k.measure, k.stirred):
		b.Refuse("no step yet: add something first")
	case key.Matches(msg, k.measure):
		b.askReading()
	case key.Matches(msg, k.stirred) && b.trial().Match != nil:
		b.Refuse(onlyBeside)
	case key.Matches(msg, k.stirred):
		b.askStirred(len(b.trial().Steps) - 1)
	case key.Matches(msg, k.note):
		b.askNote(len(b.trial().Steps) - 1)
	case key.Matches(msg, k.marks):
		b.pick(len(b.trial().Steps)-1, b.mode)
	case key.Matches(msg, k.mend):
		b.startMending(len(b.trial().Steps) - 1)
	}
}

// addKey handles the keys for choosing and adding; false passes the key on.
func (b *benchScreen) addKey(msg tea.KeyMsg) bool {
	k := benchKeys
	switch {
	case key.Matches(msg, k.add):
		b.add()
	case key.Matches(msg, k.spoon):
		b.turn(msg.String() == "left")
	case key.Matches(msg, k.count):
		b.count(msg.String() == "up")
	case key.Matches(msg, k.liquid):
		b.turnOver()
	case key.Matches(msg, k.grams):
		b.askGrams("", b.backText())
	case key.Matches(msg, k.scale):
		b.askScale()
	case key.Matches(msg, k.again):
		if b.done("", b.session.LookAgain(b.now)) {
			b.next()
		}
	case key.Matches(msg, k.back):
		b.stepBack()
	case (b.awaitsLook() || b.onlyMeasured()) && key.Matches(msg, k.level):
		b.lookKey(msg) // the look was skipped before; now it is made
	case key.Matches(msg, k.half):
		b.halfKey()
	case key.Matches(msg, k.level):
		b.Refuse("nothing was added since the last look: Enter adds, k looks at the same dish again")
	default:
		return false
	}
	return true
}

// onlyMeasured reports whether the last step has a reading and no level; a level
// may still be added.
func (b *benchScreen) onlyMeasured() bool {
	last := b.last()
	return last != nil && last.Reading > 0 && !last.Looked
}

// stepBack drops the maker's choice, or else returns to a skipped look.
func (b *benchScreen) stepBack() {
	switch {
	case b.choice.own:
		b.rechoose()
	case b.awaitsLook():
		b.mode = looking
	default:
		b.Say("everything is saved: s goes to the shelf, u takes the last step back")
	}
}

// back undoes or redoes one change.
func (b *benchScreen) back(step func() (bench.Change, bool), said, no string) {
	c, ok := step()
	if !ok {
		b.Refuse(no)
		return
	}
	b.Say(said + c.What)
	b.read = reading{}
	b.next()
}

// turn chooses the next larger spoon, or the next smaller one.
func (b *benchScreen) turn(larger bool) {
	at := b.choice.spoon + 1
	if larger {
		at = b.choice.spoon - 1
	}
	b.choose(min(max(at, 0), len(b.trial().Spoons)-1))
}

// choose chooses one of the spoons at hand.
func (b *benchScreen) choose(spoon int) {
	if len(b.trial().Spoons) == 0 {
		b.Refuse("no spoons at hand in this trial: g adds by weight")
		return
	}
	b.choice.spoon = spoon
	b.ownChoice()
}

func (b *benchScreen) count(up bool) {
	if up {
		b.choice.count = min(b.choice.count+1, 20)
	} else {
		b.choice.count = max(b.choice.count-1, 1)
	}
	b.ownChoice()
}

// chosen returns the step of the maker's choice; ok is false without a spoon.
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

// chosenG returns the weight of an addition by spoon, g.
func (b *benchScreen) chosenG(s model.Step) (float64, error) {
	if s.Add == model.AddLiquid {
		grams, err := b.trial().LiquidSpoonG(s.Spoon, b.deps.OwnSpoons)
		return grams * float64(s.Spoons()), err
	}
	scoop, err := b.session.Outcome().Reading.SpoonWeights.Scoop(s.Spoon)
	return scoop.Grams * float64(s.Spoons()), err
}

// chosenText writes the weight of an addition by spoon: " (2.31 g)", or " (about 2.3 g)"
// if it is a guess, or of liquid. It is "" if the weight is not known.
func (b *benchScreen) chosenText(s model.Step) string {
	grams, err := b.chosenG(s)
	if err != nil {
		return ""
	}
	scoop, _ := b.session.Outcome().Reading.SpoonWeights.Scoop(s.Spoon)
	return " (" + bench.GramsText(grams, scoop.Guess || s.Add == model.AddLiquid) + ")"
}

// accept follows the advice.
func (b *benchScreen) accept(a bench.Advice) {
	step, _ := a.Step()
	switch {
	case a.Action == bench.ActWeigh && a.Pot:
		b.askPot()
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
		b.done("", b.step(step))
	}
}

// add makes the chosen step; if a spoon has no weight it asks for grams.
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
	b.unlessUnlikely(s)
}

// unlessUnlikely makes the maker's own step. It asks first if the step would almost
// surely overshoot, or is more than the dish holds.
func (b *benchScreen) unlessUnlikely(s model.Step) {
	why := b.session.Outcome().Reading.Unlikely(s)
	if why == "" {
		b.done("", b.step(s))
		return
	}
	b.sure = &doubt{text: why, yes: "add it all the same", no: "go back", do: func() { b.done("", b.step(s)) }}
}
