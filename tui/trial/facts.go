package trial

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// facts lists what can be changed of the trial as a whole.
var facts = typed.TrialFacts()

// factKeys work while the trial's facts are changed.
var factKeys = struct{ next, prev, done key.Binding }{
	next: ui.Bind("Enter", "next", "enter", "down", "tab"),
	prev: ui.Bind("↑", "back", "up", "shift+tab"),
	done: ui.Bind("Esc", "done", "esc"),
}

// openFacts shows the trial's facts for changing. A fact is kept, saved and can be
// undone as soon as its line is left.
func (b *benchScreen) openFacts() {
	t := b.trial()
	form := &ui.Form{Apply: b.applyFact}
	for _, f := range facts {
		field := ui.TextField(f.Label, f.Hint)
		field.Set(f.Show(t))
		form.Fields = append(form.Fields, field)
	}
	if t.PotWeighed() {
		field := ui.TextField("Pot", "before the first step; 0: not weighed")
		field.Set(potText(t))
		form.Fields = append(form.Fields, field)
	}
	b.facts, b.mode = form, changing
	form.Focus()
}

// potText gives the pot's weight before the first step, as it is typed.
func potText(t model.Trial) string { return model.Number(t.PotG) + " g" }

// applyPot mends the pot's weight before the first step; an unlikely one is asked
// about.
func (b *benchScreen) applyPot(field *ui.Field) error {
	if field.Value() == potText(b.trial()) {
		return nil
	}
	grams, err := typed.Mass(field.Value(), "152.4 g")
	if err != nil {
		return err
	}
	said := fmt.Sprintf("the pot weighed %s g before the first step", model.Number(grams))
	if grams == 0 {
		said = "the pot was not weighed before the first step"
	}
	return b.kept(said, b.session.PotStart(grams), func() { field.Set(potText(b.trial())) })
}

func (b *benchScreen) applyFact(i int) error {
	if i == len(facts) {
		return b.applyPot(&b.facts.Fields[i])
	}
	f, text := facts[i], b.facts.Fields[i].Value()
	if text == f.Show(b.trial()) {
		return nil
	}
	var wrong error
	what := fmt.Sprintf("%s %s (was %s)", strings.ToLower(f.Label), text, f.Show(b.trial()))
	err := b.session.Edit(what, func(_ *model.Profile, t *model.Trial) {
		wrong = f.Set(t, text)
	})
	if wrong != nil {
		return wrong
	}
	if err == nil {
		b.facts.Fields[i].Set(f.Show(b.trial()))
		b.Say("changed: " + what)
	}
	return err
}

// changeFact hands a key to the facts. A line that asks a question keeps the cursor
// until it is answered.
func (b *benchScreen) changeFact(msg tea.KeyMsg) {
	f := b.facts
	leaves := func() bool { return f.LeaveField() && b.sure == nil }
	switch {
	case !msg.Paste && key.Matches(msg, factKeys.done):
		if leaves() {
			b.next()
		}
	case !msg.Paste && key.Matches(msg, factKeys.next):
		if !leaves() {
			return
		}
		if f.At == len(f.Fields)-1 && msg.String() == "enter" {
			b.next()
			return
		}
		f.Move(1)
	case !msg.Paste && key.Matches(msg, factKeys.prev):
		if leaves() {
			f.Move(-1)
		}
	default:
		b.Hush()
		f.Press(msg)
	}
}
