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

// factKeys are those while the trial is changed.
var factKeys = struct{ next, prev, done key.Binding }{
	next: ui.Bind("Enter", "next", "enter", "down", "tab"),
	prev: ui.Bind("↑", "back", "up", "shift+tab"),
	done: ui.Bind("Esc", "done", "esc"),
}

// openFacts shows the trial's facts to be changed. Each is kept, saved and
// undoable when its line is left.
func (b *benchScreen) openFacts() {
	t := b.trial()
	form := &ui.Form{Apply: b.applyFact}
	for _, f := range facts {
		field := ui.TextField(f.Label, f.Hint)
		field.Set(f.Show(t))
		form.Fields = append(form.Fields, field)
	}
	b.facts, b.mode = form, changing
	form.Focus()
}

func (b *benchScreen) applyFact(i int) error {
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

// changeFact gives a key to the facts.
func (b *benchScreen) changeFact(msg tea.KeyMsg) {
	f := b.facts
	switch {
	case !msg.Paste && key.Matches(msg, factKeys.done):
		if f.LeaveField() {
			b.next()
		}
	case !msg.Paste && key.Matches(msg, factKeys.next):
		if f.LeaveField() && f.At == len(f.Fields)-1 && msg.String() == "enter" {
			b.next()
			return
		} else if f.Problem == "" {
			f.Move(1)
		}
	case !msg.Paste && key.Matches(msg, factKeys.prev):
		if f.LeaveField() {
			f.Move(-1)
		}
	default:
		b.Hush()
		f.Press(msg)
	}
}
