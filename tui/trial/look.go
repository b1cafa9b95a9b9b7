package trial

import (
	"fmt"
	"time"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// rest is the wait before a look. It begins with the addition, or later, when the
// maker says that stirring is done.
type rest struct {
	from  time.Time // when stirring was done; zero: the rest began with the addition
	asked bool      // an early look was asked about
}

// reading is the level recorded last; "." can still make it a half.
type reading struct {
	at    time.Time // zero: none that can be changed
	level float64
	rest  *int // the wait before it, s
}

// afterthought is the time after a digit in which "." still makes it a half.
const afterthought = 1500 * time.Millisecond

// tick keeps the clock of a rest running.
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

// restS returns how long the trial rests before a look, s.
func (b *benchScreen) restS() int { return b.trial().Rest(b.session.Powder().Kind()) }

// rested returns the wait so far, in whole seconds; nil if it is unknown, or too
// long for a rest.
func (b *benchScreen) rested() *int {
	last := b.last()
	if last == nil {
		return nil
	}
	if !b.rest.from.IsZero() {
		last.At = b.rest.from
	}
	return last.Rested(b.now)
}

// restLeft returns the time left of the rest, s; 0 or less when it is over.
func (b *benchScreen) restLeft() int {
	if rested := b.rested(); rested != nil {
		return b.restS() - *rested
	}
	return 0
}

// early reports whether less than half the rest has passed.
func (b *benchScreen) early() bool { return 2*b.restLeft() > b.restS() }

// lookKey handles the keys of a look; false passes the key on.
func (b *benchScreen) lookKey(msg tea.KeyMsg) bool {
	k := benchKeys
	switch {
	case key.Matches(msg, k.level):
		b.levelKey(msg, b.look)
	case key.Matches(msg, k.half):
		b.halfKey()
	case key.Matches(msg, k.rest):
		b.rest, b.rang = rest{from: b.now}, false
		b.Say("")
	case key.Matches(msg, k.without):
		b.mode = adding
		b.Say("no level recorded; choose what to add, or Esc goes back to the look")
	case key.Matches(msg, k.back):
		b.Say("everything is saved: s goes to the shelf, u takes the addition back")
	case key.Matches(msg, k.add):
		b.Refuse("the level first: 0 to 7 is what you see; a adds again without a look")
	default:
		return b.beyondScale(msg)
	}
	return true
}

// beyondScale explains why a digit is no level.
func (b *benchScreen) beyondScale(msg tea.KeyMsg) bool {
	if s := msg.String(); s != "8" && s != "9" {
		return false
	}
	if b.trial().Match != nil {
		b.Refuse(onlyBeside)
		return true
	}
	b.Refuse("levels go from 0 watery to 7 crumbly")
	return true
}

// halfKey handles ".": the next digit, or the level just recorded, becomes half a
// level higher. It works in trials that read halves.
func (b *benchScreen) halfKey() {
	switch {
	case b.trial().Match != nil:
		b.Refuse(onlyBeside)
	case b.trial().LevelStep != 0.5:
		b.Refuse("this trial reads whole levels: type 0 to 7 (c changes that)")
	case b.mode == adding:
		b.makeHalf()
	default:
		b.half = !b.half
	}
}

// halfInTime reports whether a level was just recorded.
func (b *benchScreen) halfInTime() bool {
	return !b.read.at.IsZero() && b.now.Sub(b.read.at) <= afterthought
}

// makeHalf changes the level just recorded; both are undone as one.
func (b *benchScreen) makeHalf() {
	was := b.read
	switch {
	case !b.halfInTime():
		b.Refuse("too late to make the last level a half: e mends it")
	case was.level >= model.MaxLevel:
		b.Refuse("levels end at 7")
	default:
		b.session.Undo()
		b.record(was.level+0.5, was.rest)
		b.read = reading{}
	}
}

// levelKey reads a level from a digit and hands it to take.
func (b *benchScreen) levelKey(msg tea.KeyMsg, record func(level float64)) {
	level := float64(msg.Runes[0] - '0')
	half := b.half
	if half {
		level += 0.5
		b.half = false
	}
	if level > model.MaxLevel {
		b.Refuse("levels end at 7: type the level again")
		return
	}
	record(level)
	if half {
		b.read = reading{}
	}
}

// onlyBeside refuses a digit that is no look beside a dish.
const onlyBeside = "beside the reference dish: 1 much thinner, 2 thinner, 3 the same, 4 thicker, 5 much thicker"

// besideDigit returns the look beside a dish for a digit.
func besideDigit(number float64) (model.Beside, bool) {
	i := int(number) - 1
	if words := model.Besides(); i >= 0 && i < len(words) {
		return words[i], true
	}
	return "", false
}

// look records a level for the last step, or a comparison with the reference dish.
// Before half the rest has passed it asks once.
func (b *benchScreen) look(level float64) {
	if _, ok := besideDigit(level); !ok && b.trial().Match != nil {
		b.Refuse(onlyBeside)
		return
	}
	if !b.early() || b.rest.asked {
		b.record(level, b.rested())
		return
	}
	waited := b.rested()
	b.askEarly(b.lookName(level), func() { b.record(level, waited) }, func(msg tea.KeyMsg) bool {
		return (key.Matches(msg, benchKeys.level) || key.Matches(msg, benchKeys.rest)) && b.lookKey(msg)
	})
}

// askEarly asks, once in a rest, whether to keep a look made before half of it has
// passed; other may take further keys.
func (b *benchScreen) askEarly(read string, do func(), other func(tea.KeyMsg) bool) {
	b.rest.asked = true
	b.sure = &doubt{
		text: fmt.Sprintf("only %s of %s: keep %s?", model.Seconds(*b.rested()), model.Seconds(b.restS()), read),
		yes:  "yes", no: "wait", do: do, other: other,
	}
	if other != nil {
		b.sure.keys = []key.Binding{b.lookKeys(), benchKeys.rest}
	}
}

// lookName names a digit in few words.
func (b *benchScreen) lookName(level float64) string {
	if look, ok := besideDigit(level); ok && b.trial().Match != nil {
		return look.Words()
	}
	return model.Number(level)
}

// record keeps a level, with the wait before it.
func (b *benchScreen) record(level float64, rested *int) {
	if b.trial().Match != nil {
		look, _ := besideDigit(level)
		if b.done(look.Words()+" beside the reference dish, recorded", b.session.LookBeside(look, rested)) {
			b.next()
		}
		return
	}
	before := b.halfWidth()
	err := b.session.LookAfter(level, rested)
	said := fmt.Sprintf("level %s recorded", model.LevelName(level))
	if before > 0 && b.halfWidth() > muchWider*before {
		said += ": it does not fit the looks before it, so the range is wider"
	}
	if b.done(said, err) {
		b.next()
		b.read = reading{b.now, level, rested}
	}
}

// muchWider is the factor by which a look must widen the range before a message
// says so (chosen).
const muchWider = 1.1

// halfWidth returns half the width of this dish's range at the target level, in ln
// R; 0 without a range.
func (b *benchScreen) halfWidth() float64 {
	if dish := b.session.Outcome().Answer(b.trial().Aim).Dish; dish != nil {
		return dish.HalfWidth()
	}
	return 0
}
