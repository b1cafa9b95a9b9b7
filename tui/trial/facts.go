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

// fact is something of the trial as a whole that can be changed at the bench.
type fact struct {
	label, hint string
	shown       func(t model.Trial) string
	set         func(t *model.Trial, text string) error
}

var facts = []fact{
	{
		"Target level", "1 to 6, such as 4.5",
		func(t model.Trial) string { return model.Number(t.Aim) },
		func(t *model.Trial, text string) (err error) { t.Aim, err = typed.Target(text); return err },
	},
	{
		"Read levels to", "1 or 0.5",
		func(t model.Trial) string { return model.Number(t.LevelStep) },
		func(t *model.Trial, text string) (err error) { t.LevelStep, err = typed.Step(text); return err },
	},
	{
		"Precision", "such as ±10 %",
		func(t model.Trial) string { return fmt.Sprintf("±%s %%", model.Significant(100*t.Tolerance, 2)) },
		func(t *model.Trial, text string) (err error) { t.Tolerance, err = typed.Precision(text); return err },
	},
	{
		"Rest", "such as 30 s, 2 min or 0:30",
		func(t model.Trial) string { return model.Seconds(*t.RestS) },
		func(t *model.Trial, text string) error {
			seconds, err := typed.Rest(text)
			t.RestS = &seconds
			return err
		},
	},
	{
		"Liquid", "its name",
		func(t model.Trial) string { return t.Liquid },
		func(t *model.Trial, text string) error {
			if text == "" {
				return fmt.Errorf("a liquid needs a name, such as water")
			}
			t.Liquid = text
			return nil
		},
	},
	{
		"Starting with", "g of liquid in the dish before the first step",
		func(t model.Trial) string { return model.Number(t.LiquidG) + " g" },
		func(t *model.Trial, text string) error {
			grams, err := typed.Mass(text, "25 g")
			if err != nil || grams == t.LiquidG {
				return err
			}
			t.LiquidG, t.LiquidBy, t.LiquidSpoon, t.LiquidCount = grams, model.ByWeight, "", 0
			return nil
		},
	},
}

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
		field := ui.TextField(f.label, f.hint)
		field.Set(f.shown(t))
		form.Fields = append(form.Fields, field)
	}
	b.facts, b.mode = form, changing
	form.Focus()
}

func (b *benchScreen) applyFact(i int) error {
	f, text := facts[i], b.facts.Fields[i].Value()
	if text == f.shown(b.trial()) {
		return nil
	}
	var wrong error
	what := fmt.Sprintf("%s %s (was %s)", strings.ToLower(f.label), text, f.shown(b.trial()))
	err := b.session.Edit(what, func(_ *model.Profile, t *model.Trial) {
		was := *t
		if wrong = f.set(t, text); wrong != nil {
			*t = was
		}
	})
	if wrong != nil {
		return wrong
	}
	if err == nil {
		b.facts.Fields[i].Set(f.shown(b.trial()))
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
