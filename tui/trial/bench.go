package trial

import (
	"fmt"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// benchMode decides who gets the keys.
type benchMode int

const (
	adding  benchMode = iota // choose and add
	looking                  // something was added: wait, then the level
	marking                  // picking marks
	mending                  // changing an earlier step
)

// benchScreen is the second part of a trial: add, look, add, look. Two key presses
// a step, made for hands with paste on them.
type benchScreen struct {
	deps    ui.Deps
	session *ui.Session
	mode    benchMode
	choice  choice
	half    bool // "." was pressed: the next digit is half a level more
	now     time.Time
	ticking bool
	rang    bool
	ui.Prompt

	marks picker
	mend  int // step being mended
}

// ticked comes every second while a rest runs.
type ticked struct {
	to *benchScreen // whose rest it is
	at time.Time
}

// newBench takes the session to the bench; a step that was added but not
// looked at waits for its look.
func newBench(deps ui.Deps, s *ui.Session) (*benchScreen, tea.Cmd) {
	b := &benchScreen{deps: deps, session: s, now: deps.Now()}
	b.next()
	return b, b.tick()
}

func (b *benchScreen) Session() *ui.Session { return b.session }
func (b *benchScreen) Typing() bool         { return b.Asking() }

func (b *benchScreen) Title() string {
	return "Trial › bench  " + printable.Line(b.session.Powder().Title())
}

func (b *benchScreen) trial() model.Trial { return b.session.Trial() }

// last is the step made last, nil before the first.
func (b *benchScreen) last() *model.Step { return b.session.Last() }

// next decides what comes next after the steps have changed: a look at what
// was added, or an addition.
func (b *benchScreen) next() {
	b.half, b.rang = false, false
	b.mode = adding
	b.rechoose()
	if b.awaitsLook() {
		b.mode = looking
	}
}

// awaitsLook reports whether the last step waits for its look.
func (b *benchScreen) awaitsLook() bool { return b.session.LookOwed() }

// tick keeps the clock of the rest running while one is being waited for.
func (b *benchScreen) tick() tea.Cmd {
	if b.ticking || b.deps.Wait == nil || !b.awaitsLook() || b.restLeft() <= 0 {
		return nil
	}
	b.ticking = true
	return func() tea.Msg {
		b.deps.Wait(time.Second)
		return ticked{to: b, at: b.deps.Now()}
	}
}

// rested is the wait since the last addition, in whole seconds.
func (b *benchScreen) rested() int {
	last := b.last()
	if last == nil {
		return 0
	}
	rested := last.Rested(b.now)
	if rested == nil {
		return 0
	}
	return *rested
}

func (b *benchScreen) restLeft() int {
	return b.trial().Rest(b.session.Powder().Kind()) - b.rested()
}

func (b *benchScreen) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	switch msg := msg.(type) {
	case ticked:
		if msg.to != b {
			return b, nil // of a visit that is over
		}
		b.ticking = false
		b.now = msg.at
		if b.awaitsLook() && b.restLeft() <= 0 && !b.rang {
			b.rang = true
			return b, b.bell()
		}
		return b, b.tick()
	case tea.KeyMsg:
		b.now = b.deps.Now()
		if msg.Paste && !b.Asking() {
			return b, nil
		}
		return b.key(msg)
	}
	return b, nil
}

func (b *benchScreen) bell() tea.Cmd {
	if b.deps.Bell == nil {
		return nil
	}
	return func() tea.Msg { b.deps.Bell(); return nil }
}

func (b *benchScreen) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	if b.Asking() {
		return b, tea.Batch(b.Press(msg), b.tick())
	}
	b.Hush()
	switch b.mode {
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
func (b *benchScreen) away(msg tea.KeyMsg) (ui.Next, tea.Cmd, bool) {
	k := benchKeys
	switch {
	case key.Matches(msg, k.leave):
		b.session.DropEmpty()
		return ui.OpenShelf{Left: b.session}, nil, true
	case key.Matches(msg, k.quit):
		return ui.Quit{}, nil, true
	case key.Matches(msg, k.finish), b.mode == adding && key.Matches(msg, k.add) && b.stopAdvised():
		if err := b.session.Finish(); err != nil {
			b.Refuse(err.Error() + ". Esc leaves the trial unfinished")
			return b, nil, true
		}
		return newResult(b.deps, b.session), nil, true
	}
	return b, nil, false
}

// done says what a change did, or why it was refused.
func (b *benchScreen) done(said string, err error) bool {
	if err != nil {
		b.Refuse(err.Error())
		return false
	}
	b.Say(said)
	return true
}

// lookKey handles the keys of a look; false passes the key on.
func (b *benchScreen) lookKey(msg tea.KeyMsg) bool {
	k := benchKeys
	switch {
	case key.Matches(msg, k.level):
		b.levelKey(msg, b.look)
	case key.Matches(msg, k.half):
		b.halfKey()
	case key.Matches(msg, k.without):
		b.mode = adding
		b.Say("no look recorded; choose what to add")
	case key.Matches(msg, k.add):
		b.Refuse("look first: 0 to 7 is the level you see; a adds again without a look")
	default:
		return false
	}
	return true
}

// halfKey makes the next digit half a level more, where the trial reads halves.
func (b *benchScreen) halfKey() {
	if b.trial().LevelStep != 0.5 {
		b.Refuse("this trial reads whole levels: type 0 to 7")
		return
	}
	b.half = !b.half
}

// levelKey reads a level from a digit and hands it on.
func (b *benchScreen) levelKey(msg tea.KeyMsg, take func(level float64)) {
	level := float64(msg.Runes[0] - '0')
	if b.half {
		level += 0.5
		b.half = false
	}
	if level > model.MaxLevel {
		b.Refuse("the scale ends at 7: type the level again")
		return
	}
	take(level)
}

// look records a level for the last step.
func (b *benchScreen) look(level float64) {
	said := fmt.Sprintf("level %s recorded", model.LevelName(level))
	if b.done(said, b.session.Look(level, b.now)) {
		b.next()
	}
}
