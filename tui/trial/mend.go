package trial

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// startMending puts the cursor on a step.
func (b *benchScreen) startMending(step int) {
	b.mode, b.mend, b.half, b.above = mending, step, false, 0
}

// mending hands a key to the step under the cursor. Every change is kept and saved
// at once and can be undone.
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
		b.mendBack(b.session.Undo, "undone: ", "nothing to undo")
	case key.Matches(msg, k.redo):
		b.mendBack(b.session.Redo, "redone: ", "nothing to redo")
	case key.Matches(msg, k.marks):
		b.pick(b.mend, mending)
	case key.Matches(msg, k.note):
		b.askNote(b.mend)
	case key.Matches(msg, k.use):
		b.mendUse()
	case key.Matches(msg, k.pot):
		b.askPotAt(b.mend)
	case key.Matches(msg, k.insert):
		b.mendInsert()
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
	weighable := step.Add != model.AddNone
	bySpoon := step.Spoon != "" && !step.Weighed()
	switch {
	case key.Matches(msg, k.spoon) && step.Weighed():
		b.Refuse("this addition was weighed: g changes the grams")
	case key.Matches(msg, k.other):
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
	case key.Matches(msg, k.grams):
		b.askMended()
	case key.Matches(msg, k.half) && step.Looked && step.Beside == "" && step.Level < model.MaxLevel &&
		b.trial().LevelStep == 0.5:
		b.mendHalf(step.Level)
	case key.Matches(msg, k.half):
		b.Refuse("nothing to make a half of: the trial reads whole levels, or none is recorded here")
	case key.Matches(msg, k.level):
		b.levelKey(msg, b.mendLevel)
	case key.Matches(msg, k.measure):
		b.askReadingAt(b.mend)
	case key.Matches(msg, k.none) && !step.Looked && step.Reading > 0:
		b.done(fmt.Sprintf("step %d mended", b.mend+1), b.session.MendReading(b.mend, 0))
	case key.Matches(msg, k.none):
		b.change((*model.Step).Unlook)
	case key.Matches(msg, k.rest) && (step.Looked || step.Reading > 0):
		b.askRested(step)
	case key.Matches(msg, k.rest):
		b.Refuse("nothing was read here, so no rest before it")
	case key.Matches(msg, k.spoon, k.count):
		b.Refuse("this step has no such amount: g gives it grams, Del removes it")
	default:
		b.beyondScale(msg)
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

// mendOther changes the kind of step, if its amount allows: powder, liquid, paste
// taken out, look only.
func (b *benchScreen) mendOther() {
	turn := map[model.Add]model.Add{
		model.AddPowder: model.AddLiquid, model.AddLiquid: model.Removed,
		model.Removed: model.AddNone, model.AddNone: model.AddPowder,
	}
	b.change(func(s *model.Step) {
		s.Add = turn[s.Add]
		if s.Add == model.Removed && !s.Weighed() {
			s.Add = model.AddNone // paste is taken out only by weight
		}
		switch {
		case s.Add == model.AddNone:
			s.Spoon, s.Count, s.Grams = "", 0, 0
		case !s.Weighed() && s.Spoon == "":
			*s = withAmount(*s, b.smallest())
		}
	})
}

// smallest returns the smallest addition of powder: the smallest spoon at hand, or
// one step of the scale.
func (b *benchScreen) smallest() model.Step {
	t := b.trial()
	if n := len(t.Spoons); n > 0 {
		s := model.Step{Add: model.AddPowder, Spoon: t.Spoons[n-1], Count: 1}
		if _, err := b.chosenG(s); err == nil {
			return s
		}
	}
	return model.Step{Add: model.AddPowder, Grams: t.ResolutionG}
}

func withAmount(s, from model.Step) model.Step {
	s.Spoon, s.Count, s.Grams = from.Spoon, from.Count, from.Grams
	return s
}

func (b *benchScreen) mendLevel(level float64) {
	if b.trial().Match != nil {
		if look, ok := besideDigit(level); ok {
			b.change(func(s *model.Step) { s.Looked, s.Beside = true, look })
		} else {
			b.Refuse(onlyBeside)
		}
		return
	}
	b.change(func(s *model.Step) { s.Looked, s.Level = true, level })
}

// mendHalf makes a whole level a half one, or a half one whole.
func (b *benchScreen) mendHalf(level float64) {
	if level != float64(int(level)) {
		b.mendLevel(level - 0.5)
		return
	}
	b.mendLevel(level + 0.5)
}

// askRested asks for the wait before the step's look.
func (b *benchScreen) askRested(step model.Step) {
	was := ""
	if step.RestedS != nil {
		was = model.Seconds(*step.RestedS)
	}
	b.Ask(ui.Question{
		Title: fmt.Sprintf("rest before the look of step %d (such as 30 s, 2 min or 0:30)", b.mend+1),
		Answer: func(text string) (tea.Cmd, error) {
			seconds, err := typed.Rest(text)
			if err == nil {
				b.change(func(s *model.Step) { s.RestedS = &seconds })
			}
			return nil, err
		},
	}, was)
}

// mendUse leaves the step's look out of the answer, or uses it again.
func (b *benchScreen) mendUse() {
	leftOut := b.trial().Steps[b.mend].LeftOut
	said := "left out: kept and shown, not used; x uses it again"
	if leftOut {
		said = "used again"
	}
	b.done(said, b.session.UseLook(b.mend, leftOut))
}

// askPotAt asks what the pot weighed after the step.
func (b *benchScreen) askPotAt(step int) {
	was := ""
	if s := b.trial().Steps[step]; s.PotG > 0 {
		was = model.Number(s.PotG)
	}
	b.Ask(ui.Question{
		Title:  fmt.Sprintf("grams the pot of powder weighed after step %d", step+1),
		Answer: b.potAnswer(func(grams float64) error { return b.session.PotAt(step, grams) }),
	}, was)
}

// mendInsert inserts the smallest addition before the step under the cursor, to be
// mended into the forgotten one.
func (b *benchScreen) mendInsert() {
	if b.done(fmt.Sprintf("step %d inserted: mend it into what was added", b.mend+1),
		b.session.InsertStep(b.mend, b.smallest())) {
		b.half = false
	}
}

func (b *benchScreen) mendRemove() {
	if b.done(fmt.Sprintf("step %d removed; u brings it back", b.mend+1), b.session.DeleteStep(b.mend)) {
		b.afterMend()
	}
}

func (b *benchScreen) mendBack(step func() (bench.Change, bool), said, no string) {
	c, ok := step()
	if !ok {
		b.Refuse(no)
		return
	}
	b.Say(said + c.What)
	b.afterMend()
}

// afterMend keeps the cursor on a step, or ends mending if there is none.
func (b *benchScreen) afterMend() {
	n := len(b.trial().Steps)
	b.mend = min(b.mend, n-1)
	if n == 0 {
		b.mend = 0
		b.next()
	}
}
