package tui

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// benchMode decides who gets the keys.
type benchMode int

const (
	adding   benchMode = iota // choose and add
	looking                   // something was added: wait, then the level
	entering                  // a number or a note is being typed
	marking                   // picking marks
	mending                   // changing an earlier step
)

// bench is the second part of a trial: add, look, add, look. Two key presses
// a step, made for hands with paste on them.
type bench struct {
	world   World
	session *Session
	mode    benchMode
	choice  choice
	half    bool // "." was pressed: the next digit is half a level more
	now     time.Time
	ticking bool
	rang    bool
	said    string // what the last key did or why it did not
	wrong   bool   // said is a refusal

	entry entry
	marks picker
	mend  int // step being mended
}

// choice is what the maker would add instead of what is advised.
type choice struct {
	liquid bool
	spoon  int // into the spoons at hand
	count  int
	own    bool // the maker has chosen; else Enter takes the advice
}

// newBench takes the session to the bench; a step that was added but not
// looked at waits for its look.
func newBench(w World, s *Session) (*bench, tea.Cmd) {
	b := &bench{world: w, session: s, now: w.Now()}
	b.rest()
	return b, b.tick()
}

func (b *bench) Session() *Session { return b.session }
func (b *bench) Typing() bool      { return b.mode == entering }

func (b *bench) Title() string {
	return "Trial › bench  " + sanitise(b.session.Powder().Title())
}

func (b *bench) trial() model.Trial { return b.session.Trial() }

// last is the step made last, nil before the first.
func (b *bench) last() *model.Step {
	steps := b.trial().Steps
	if len(steps) == 0 {
		return nil
	}
	return &steps[len(steps)-1]
}

// rest decides what comes next after the steps have changed: a look at what
// was added, or an addition.
func (b *bench) rest() {
	b.half, b.rang = false, false
	b.mode = adding
	b.rechoose()
	if last := b.last(); last != nil && !last.Looked && b.session.out.reading.Dish().Mixed() {
		b.mode = looking
	}
}

// rechoose starts the choice at what is advised, or else at the spoon used
// last, or at the smallest at hand.
func (b *bench) rechoose() {
	t := b.trial()
	b.choice = choice{spoon: max(len(t.Spoons)-1, 0), count: 1}
	if a := b.advised(); a != nil {
		b.choice.liquid = a.Action == model.ActLiquid
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
func (b *bench) advised() *model.Advice {
	if b.choice.own {
		return nil
	}
	return b.session.out.advice
}

// tick keeps the clock of the rest running while one is being waited for.
func (b *bench) tick() tea.Cmd {
	if b.ticking || b.world.Wait == nil || b.mode != looking || b.restLeft() <= 0 {
		return nil
	}
	b.ticking = true
	return func() tea.Msg {
		b.world.Wait(time.Second)
		return ticked{b.world.Now()}
	}
}

// rested is the wait since the last addition, in whole seconds.
func (b *bench) rested() int {
	last := b.last()
	if last == nil || last.At.IsZero() {
		return 0
	}
	return max(int(b.now.Sub(last.At).Seconds()), 0)
}

func (b *bench) restLeft() int {
	return b.trial().Rest(b.session.Powder().Kind()) - b.rested()
}

func (b *bench) Update(msg tea.Msg) (screen, tea.Cmd) {
	switch msg := msg.(type) {
	case ticked:
		b.ticking = false
		b.now = msg.at
		if b.mode == looking && b.restLeft() <= 0 && !b.rang {
			b.rang = true
			return b, b.bell()
		}
		return b, b.tick()
	case tea.KeyMsg:
		b.now = b.world.Now()
		if msg.Paste && b.mode != entering {
			return b, nil
		}
		return b.key(msg)
	}
	return b, nil
}

func (b *bench) bell() tea.Cmd {
	if b.world.Bell == nil {
		return nil
	}
	return func() tea.Msg { b.world.Bell(); return nil }
}

func (b *bench) key(msg tea.KeyMsg) (screen, tea.Cmd) {
	b.said, b.wrong = "", false
	switch b.mode {
	case entering:
		b.enter(msg)
	case marking:
		b.mark(msg)
	case mending:
		b.mending(msg)
	default:
		if next, cmd, gone := b.away(msg); gone {
			return next, cmd
		}
		if b.mode == looking && b.lookKey(msg) {
			break
		}
		b.benchKey(msg)
	}
	return b, b.tick()
}

// away handles the keys that lead away from the bench.
func (b *bench) away(msg tea.KeyMsg) (screen, tea.Cmd, bool) {
	k := benchKeys
	switch {
	case key.Matches(msg, k.leave):
		next := newShelf(b.world, b.session)
		return next, readShelf(b.world), true
	case key.Matches(msg, k.quit):
		return b, func() tea.Msg { return quitWanted{} }, true
	case key.Matches(msg, k.finish), b.mode == adding && key.Matches(msg, k.add) && b.stopAdvised():
		if b.trial().Looks() == 0 {
			b.refuse(errors.New("nothing to finish yet: no look has been made. Esc leaves the trial unfinished"))
			return b, nil, true
		}
		b.session.finish()
		return newResult(b.world, b.session), nil, true
	}
	return b, nil, false
}

// stopAdvised reports whether Enter would take the advice to stop.
func (b *bench) stopAdvised() bool {
	a := b.advised()
	return a != nil && a.Action == model.ActStop
}

// refuse says why a key did nothing.
func (b *bench) refuse(err error) {
	if at := new(model.StepError); errors.As(err, &at) {
		err = at.Err
	}
	b.said, b.wrong = err.Error(), true
}

// edit changes the trial and says so, or says why not.
func (b *bench) edit(said string, change func(p *model.Profile, t *model.Trial)) bool {
	if err := b.session.edit(change); err != nil {
		b.refuse(err)
		return false
	}
	b.said = said
	return true
}

// step adds a step and waits for its look.
func (b *bench) step(said string, s model.Step) {
	s.At = b.now
	if b.edit(said, func(_ *model.Profile, t *model.Trial) { t.Steps = append(t.Steps, s) }) {
		b.rest()
	}
}

// benchKey handles the keys that serve while adding and while looking.
func (b *bench) benchKey(msg tea.KeyMsg) {
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
		b.ask(entry{kind: enterGrams})
	case b.mode == adding && key.Matches(msg, k.scale):
		b.ask(entry{kind: enterScale})
	case b.mode == adding && key.Matches(msg, k.again):
		if !b.session.out.reading.Dish().Mixed() {
			b.refuse(errors.New("nothing to look at yet: the dish needs both powder and liquid"))
			return
		}
		b.step("", model.Step{Add: model.AddNone})
	case b.mode == adding && key.Matches(msg, k.level):
		b.refuse(errors.New("nothing was added since the last look: Enter adds, k looks at the same dish again"))
	case key.Matches(msg, k.removed):
		b.ask(entry{kind: enterRemoved})
	case key.Matches(msg, k.weigh):
		b.ask(entry{kind: enterWeighing})
	case key.Matches(msg, k.aside):
		b.ask(entry{kind: enterReason})
	case key.Matches(msg, k.undo):
		b.back(b.session.undo(), "taken back", "nothing to undo")
	case key.Matches(msg, k.redo):
		b.back(b.session.redo(), "done again", "nothing to redo")
	case b.last() == nil && key.Matches(msg, k.note, k.marks, k.mend):
		b.refuse(errors.New("no step yet: add something first"))
	case key.Matches(msg, k.note):
		b.ask(entry{kind: enterNote, step: len(b.trial().Steps) - 1})
	case key.Matches(msg, k.marks):
		b.pick(len(b.trial().Steps)-1, b.mode)
	case key.Matches(msg, k.mend):
		b.mode, b.mend = mending, len(b.trial().Steps)-1
	}
}

func (b *bench) back(done bool, yes, no string) {
	if !done {
		b.refuse(errors.New(no))
		return
	}
	b.said = yes
	b.rest()
}

// turn chooses another spoon: left is larger, right is smaller.
func (b *bench) turn(larger bool) {
	n := len(b.trial().Spoons)
	b.choice.own = true
	if n == 0 {
		b.refuse(errors.New("no spoons at hand in this trial: g adds by weight"))
		return
	}
	if larger {
		b.choice.spoon = max(b.choice.spoon-1, 0)
	} else {
		b.choice.spoon = min(b.choice.spoon+1, n-1)
	}
}

func (b *bench) more(up bool) {
	b.choice.own = true
	if up {
		b.choice.count = min(b.choice.count+1, 20)
	} else {
		b.choice.count = max(b.choice.count-1, 1)
	}
}

// chosen is the step Enter would make; ok is false when it has to be weighed.
func (b *bench) chosen() (model.Step, bool) {
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
func (b *bench) chosenG(s model.Step) (float64, error) {
	if s.Add == model.AddLiquid {
		grams, err := b.trial().LiquidSpoonG(s.Spoon, b.world.Drawer)
		return grams * float64(s.Spoons()), err
	}
	scoop, err := b.session.out.reading.Scales.Scoop(s.Spoon)
	return scoop.Grams * float64(s.Spoons()), err
}

// accept takes the advice.
func (b *bench) accept(a model.Advice) {
	step, _ := a.Step()
	switch {
	case a.Action == model.ActWeigh:
		b.ask(entry{kind: enterWeighing})
	case step.Weighed():
		b.choice.liquid = step.Add == model.AddLiquid
		why := fmt.Sprintf("Add about %s g, then type what it really was.", model.Number(step.Grams))
		if len(b.trial().Spoons) > 0 && step.Add == model.AddPowder {
			why = "No level spoon of this powder has been weighed (w weighs one), so by weight. " + why
		}
		b.ask(entry{kind: enterGrams, why: why, text: model.Number(step.Grams)})
	default:
		b.step("", step)
	}
}

// add makes the chosen step; where a spoon has no weight it asks for grams.
func (b *bench) add() {
	if a := b.advised(); a != nil {
		b.accept(*a)
		return
	}
	s, ok := b.chosen()
	if !ok {
		b.ask(entry{kind: enterGrams})
		return
	}
	if _, err := b.chosenG(s); err != nil {
		b.ask(entry{kind: enterGrams, why: err.Error()})
		return
	}
	b.step("", s)
}

// lookKey handles the keys of a look; false passes the key on.
func (b *bench) lookKey(msg tea.KeyMsg) bool {
	k := benchKeys
	switch {
	case key.Matches(msg, k.level):
		b.look(float64(msg.Runes[0] - '0'))
	case key.Matches(msg, k.half):
		if b.trial().LevelStep != 0.5 {
			b.refuse(errors.New("this trial reads whole levels: type 0 to 7"))
			return true
		}
		b.half = !b.half
	case key.Matches(msg, k.without):
		b.mode = adding
		b.said = "no look recorded; choose what to add"
	case key.Matches(msg, k.add):
		b.refuse(errors.New("look first: 0 to 7 is the level you see; a adds again without a look"))
	default:
		return false
	}
	return true
}

// look records a level for the last step.
func (b *bench) look(level float64) {
	if b.half {
		level += 0.5
		b.half = false
	}
	if level > model.MaxLevel {
		b.refuse(errors.New("the scale ends at 7: type the level again"))
		return
	}
	rested := b.rested()
	said := fmt.Sprintf("level %s recorded", model.LevelName(level))
	if b.edit(said, func(_ *model.Profile, t *model.Trial) {
		s := &t.Steps[len(t.Steps)-1]
		s.Looked, s.Level, s.RestedS = true, level, &rested
	}) {
		b.rest()
	}
}
