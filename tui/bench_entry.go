package tui

import (
	"errors"
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// entryKind is what is being typed at the bench.
type entryKind int

const (
	enterGrams entryKind = iota
	enterScale
	enterRemoved
	enterWeighing
	enterNote
	enterReason
)

// entry is a number or a text being typed.
type entry struct {
	kind  entryKind
	step  int    // for a note, or grams while mending
	why   string // why grams are asked for
	text  string // what the entry starts with
	back  benchMode
	input textinput.Model
}

// ask starts an entry; Esc goes back to where the bench was.
func (b *bench) ask(e entry) {
	e.back = b.mode
	e.input = NewInput("")
	e.input.SetValue(e.text)
	if e.kind == enterNote {
		e.input.SetValue(b.trial().Steps[e.step].Note)
	}
	e.input.CursorEnd()
	e.input.Focus()
	b.entry, b.mode = e, entering
}

// prompt says what to type.
func (b *bench) prompt() string {
	switch b.entry.kind {
	case enterGrams:
		if b.entry.back == mending {
			return fmt.Sprintf("step %d, grams", b.entry.step+1)
		}
		return "grams of " + b.what() + " added"
	case enterScale:
		held := b.session.Outcome().Dish().PasteG()
		return fmt.Sprintf("the scale shows now (tared with the empty dish; it held %s g)", model.Grams(held))
	case enterRemoved:
		return "grams of paste taken out"
	case enterWeighing:
		l := b.session.SpoonWeighedHere()
		return fmt.Sprintf("grams of %d level %s, tared, struck off", l.Each(), l.Spoon)
	case enterNote:
		return fmt.Sprintf("note to step %d", b.entry.step+1)
	default:
		return "set aside: the reason (the trial is kept and shown, not used)"
	}
}

// enter gives a key to the entry. A slip leaves the text for mending.
func (b *bench) enter(msg tea.KeyMsg) {
	switch {
	case !msg.Paste && key.Matches(msg, entryKeys.cancel):
		b.mode = b.entry.back
	case !msg.Paste && key.Matches(msg, entryKeys.done):
		if err := b.record(b.entry.input.Value()); err != nil {
			b.refuse(err)
		}
	default:
		TypeInto(&b.entry.input, msg)
	}
}

// record takes what was typed.
func (b *bench) record(text string) error {
	back := b.entry.back
	switch b.entry.kind {
	case enterNote:
		b.mode = back
		b.done("note kept", b.session.Note(b.entry.step, printable.Line(text)))
		return nil
	case enterReason:
		return b.setAside(text)
	}
	grams, err := typed.Mass(text, "2.3 g")
	if err != nil {
		return err
	}
	if grams == 0 {
		return errors.New("0 g is nothing: type the grams, or Esc")
	}
	switch b.entry.kind {
	case enterWeighing:
		b.mode = back
		b.weigh(grams)
		return nil
	case enterScale:
		if grams, err = b.session.ByScale(grams); err != nil {
			return fmt.Errorf("%w: g takes the grams added, t paste taken out", err)
		}
	case enterGrams:
		if back == mending {
			b.mode = back
			b.mendGrams(grams)
			return nil
		}
	}
	b.mode = back
	b.step(b.weighedStep(model.RoundSignificant(grams, 6)))
	if b.wrong {
		b.mode = entering
	}
	return nil
}

func (b *bench) weighedStep(grams float64) model.Step {
	switch {
	case b.entry.kind == enterRemoved:
		return model.Step{Add: model.Removed, Grams: grams}
	case b.choice.liquid:
		return model.Step{Add: model.AddLiquid, Grams: grams}
	default:
		return model.Step{Add: model.AddPowder, Grams: grams}
	}
}

// weigh adds a level-spoon weighing on the spot; the trial goes on.
func (b *bench) weigh(grams float64) {
	l := b.session.SpoonWeighedHere()
	b.done(fmt.Sprintf("weighing of %d level %s kept", l.Each(), l.Spoon), b.session.WeighHere(grams))
	b.rechoose()
}

// setAside keeps the trial out of use; an empty reason uses it again.
func (b *bench) setAside(reason string) error {
	reason = printable.Line(reason)
	b.mode = b.entry.back
	said := "set aside: kept, shown, not used"
	if reason == "" {
		said = "in use again"
	}
	b.done(said, b.session.SetAside(reason))
	return nil
}

// picker is the list of marks.
type picker struct {
	step int
	at   int
	back benchMode
}

func (b *bench) pick(step int, back benchMode) {
	b.marks = picker{step: step, back: back}
	b.mode = marking
}

// mark gives a key to the list of marks: arrows and space, never digits.
func (b *bench) mark(msg tea.KeyMsg) {
	all := model.Marks()
	switch {
	case key.Matches(msg, markKeys.done):
		b.mode = b.marks.back
	case key.Matches(msg, markKeys.move) && msg.String() == "up":
		b.marks.at = (b.marks.at + len(all) - 1) % len(all)
	case key.Matches(msg, markKeys.move):
		b.marks.at = (b.marks.at + 1) % len(all)
	case key.Matches(msg, markKeys.toggle):
		name := all[b.marks.at]
		have := b.trial().Steps[b.marks.step].Marks
		b.done("", b.session.SetMarks(b.marks.step, toggled(have, name, all)))
	}
}

// toggled adds or removes a name, in the order of all.
func toggled(have []string, name string, all []string) []string {
	var out []string
	for _, n := range all {
		if had := slices.Contains(have, n); had != (n == name) {
			out = append(out, n)
		}
	}
	return out
}
