// Package trial is the place for making a trial: the bench with its loop of adding
// and looking, and the result. Its set-up is in setup. It knows no other place; it
// may import tui/ui, tui/chart, tui/glyph and model/….
package trial

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// benchMode decides what a key means at the bench.
type benchMode int

const (
	adding   benchMode = iota // choose and add
	looking                   // something was added: wait, then name the level
	marking                   // choosing behaviours seen in the dish
	mending                   // changing an earlier step
	changing                  // changing the trial: target level, rest, liquid
)

// benchScreen is the second part of a trial: add, look, add, look. A step takes two
// keys, for hands with paste on them.
type benchScreen struct {
	deps    ui.Deps
	session *ui.Session
	mode    benchMode
	choice  choice
	rest    rest
	read    reading // the level recorded last
	half    bool    // "." was pressed: the next digit is half a level higher
	sure    *doubt  // the question before an action, nil for none
	now     time.Time
	ticking bool
	rang    bool
	ui.Prompt

	marks picker
	mend  int // index of the step being mended
	facts *ui.Form
	more  bool // the statistics are shown
	above int  // how many of the newest steps are scrolled out of sight
	ended bool // the trial was finished here

	forecast forecast // for the addition that Enter would make
}

// doubt is a question before an action; Enter confirms it.
type doubt struct {
	text  string
	yes   string                // what Enter does
	no    string                // what Esc does
	do    func()                // on Enter
	back  func()                // on Esc; may be nil
	other func(tea.KeyMsg) bool // any other key; false or nil keeps the question open
	keys  []key.Binding         // the keys that other takes
}

// ticked comes every second while a rest runs.
type ticked struct {
	to *benchScreen // the bench that waits
	at time.Time
}

// NewBench opens the bench for the session's trial. An addition without a look is
// looked at first.
func NewBench(deps ui.Deps, s *ui.Session) (*benchScreen, tea.Cmd) {
	b := &benchScreen{deps: deps, session: s, now: deps.Now()}
	s.Steer(repeats.Steering(s.Powder(), s.Profiles(deps), deps.OwnSpoons))
	b.next()
	if b.last() == nil {
		b.Warn(s.CautionsOnce(care.BeforeMetal, care.BeforeDust))
	}
	return b, b.tick()
}

func (b *benchScreen) Session() *ui.Session { return b.session }
func (b *benchScreen) Typing() bool         { return b.Asking() || b.mode == changing }

func (b *benchScreen) Title() string {
	return "Trial › bench  " + printable.Line(b.session.Powder().Title())
}

func (b *benchScreen) trial() model.Trial { return b.session.Trial() }

// last returns the newest step, nil before the first.
func (b *benchScreen) last() *model.Step { return b.session.Last() }

// next chooses between looking at what was added and adding, after the steps have
// changed.
func (b *benchScreen) next() {
	b.half, b.rang, b.sure, b.above = false, false, nil, 0
	b.rest = rest{}
	b.mode = adding
	b.rechoose()
	if b.awaitsLook() {
		b.mode = looking
	}
}

// awaitsLook reports whether the last step still has no look.
func (b *benchScreen) awaitsLook() bool { return b.session.AwaitsLook() }

func (b *benchScreen) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	switch msg := msg.(type) {
	case ticked:
		if msg.to != b {
			return b, nil // of a bench that was left
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
		if msg.Paste && !b.Typing() {
			return b, nil
		}
		before := b.trial().State
		next, cmd := b.key(msg)
		if next == b { // on another screen the trial may be gone
			b.tellState(before)
		}
		return next, cmd
	}
	return b, nil
}

// tellState says that a key reopened a finished trial, or that undo closed it.
func (b *benchScreen) tellState(before model.State) {
	switch now := b.trial().State; {
	case before == model.Done && now != model.Done:
		b.Also("this finished trial is open again: f finishes it, u takes the change back")
	case before != model.Done && now == model.Done:
		b.Also("the trial is finished, as it was")
	}
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
	if b.sure != nil {
		return b.answerDoubt(msg)
	}
	if b.mode == changing {
		b.changeFact(msg)
		return b, b.tick()
	}
	b.Hush()
	if next, cmd, gone := b.away(msg); gone {
		return next, cmd
	}
	switch {
	case b.mode == marking:
		b.mark(msg)
	case b.mode == mending:
		b.mending(msg)
	case key.Matches(msg, benchKeys.back) && b.more:
		b.more = false
	case key.Matches(msg, benchKeys.more):
		b.more = !b.more
	case b.mode == looking && b.lookKey(msg):
	default:
		b.benchKey(msg)
	}
	return b, b.tick()
}

// doubtKeys answer a question.
var doubtKeys = struct{ yes, no key.Binding }{
	yes: ui.Bind("Enter", "yes", "enter"),
	no:  ui.Bind("Esc", "no", "esc"),
}

// answerDoubt hands a key to the question. A key that is no answer keeps the
// question open and names the answers, so that a wrong key does nothing.
func (b *benchScreen) answerDoubt(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	asked := b.sure
	b.Hush()
	switch {
	case key.Matches(msg, doubtKeys.no):
		b.sure = nil
		if asked.back != nil {
			asked.back()
		}
	case key.Matches(msg, doubtKeys.yes):
		b.sure = nil
		asked.do()
		if b.ended {
			return b.result(), nil
		}
	case asked.other != nil && asked.other(msg):
		if b.sure == asked {
			b.sure = nil
		}
	default:
		var answers []string
		for _, k := range b.doubtKeys() {
			answers = append(answers, k.Help().Key+" "+k.Help().Desc)
		}
		b.Refuse("first the question: " + strings.Join(answers, " · "))
	}
	return b, b.tick()
}

// away handles the keys that lead away from the bench while adding or looking.
func (b *benchScreen) away(msg tea.KeyMsg) (ui.Next, tea.Cmd, bool) {
	k := benchKeys
	if b.mode != adding && b.mode != looking {
		return b, nil, false
	}
	switch {
	case key.Matches(msg, k.leave):
		b.session.DropEmpty()
		return ui.OpenShelf{Left: b.session}, nil, true
	case key.Matches(msg, k.quit):
		return ui.Quit{}, nil, true
	case b.mode == adding && key.Matches(msg, k.add) && b.stopAdvised():
		b.askFinish()
	case key.Matches(msg, k.finish):
		b.askFinish()
	default:
		return b, nil, false
	}
	if b.ended {
		return b.result(), nil, true
	}
	return b, nil, true
}

// howNarrow says how precise the answer is, and how precise it should be.
func (b *benchScreen) howNarrow() string {
	wanted := bench.PlusMinus(b.trial().Tolerance)
	a := b.session.Outcome().Answer(b.trial().Aim)
	if a.Ratio == nil {
		return "There is no answer at the target level yet."
	}
	return fmt.Sprintf("The looks leave %s; %s was wanted.", bench.PlusMinus(a.Ratio.HalfWidth()), wanted)
}

// askFinish finishes the trial. It asks first if the advice is to go on, or if the
// pot was not weighed again.
func (b *benchScreen) askFinish() {
	a := b.session.Outcome().Advice
	ask := &doubt{yes: "finish all the same", no: "back to the dish", do: b.finish}
	var texts []string
	if b.session.Outcome().Reading.Looks() > 0 && (a == nil || a.Action != bench.ActStop) {
		texts = append(texts, b.howNarrow())
	}
	if b.trial().PotOpen() {
		texts = append(texts, "Powder was taken since the pot was weighed last: p weighs it.")
		ask.keys = []key.Binding{benchKeys.pot}
		ask.other = func(msg tea.KeyMsg) bool {
			if !key.Matches(msg, benchKeys.pot) {
				return false
			}
			b.askPot()
			return true
		}
	}
	if len(texts) == 0 {
		b.finish()
		return
	}
	ask.text = strings.Join(texts, " ")
	b.sure = ask
}

// result opens the result of a trial finished here, with cautions for the paste
// that is left.
func (b *benchScreen) result() ui.Screen {
	r := newResult(b.deps, b.session)
	r.Warn(b.session.CautionsOnce(care.BeforeJar))
	return r
}

func (b *benchScreen) finish() {
	if err := b.session.Finish(); err != nil {
		b.Refuse(err.Error() + ". s leaves the trial unfinished")
		return
	}
	b.ended = true
}

// kept says what a change did. If the change asked a question, Enter makes it and
// Esc does not; then runs in either case.
func (b *benchScreen) kept(said string, err error, then func()) error {
	q := new(bench.Question)
	switch {
	case errors.As(err, &q):
		b.sure = &doubt{
			text: q.Text, yes: "keep it", no: "go back", back: then,
			do: func() {
				b.done(said, q.Insist())
				then()
			},
		}
		return nil
	case err != nil:
		return err
	}
	b.Say(said)
	then()
	return nil
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
