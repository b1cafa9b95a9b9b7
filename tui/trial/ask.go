package trial

import (
	"errors"
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// askGrams asks for the grams of an addition; why gives the reason.
func (b *benchScreen) askGrams(why, suggestion string) {
	b.Ask(ui.Question{
		Title: "grams of " + b.what() + " added",
		Why:   why,
		Answer: func(text string) (tea.Cmd, error) {
			return nil, b.addGrams(text, func(grams float64) (model.Step, error) {
				return b.weighed(grams), nil
			})
		},
	}, suggestion)
}

// askScale asks what the scale shows; the addition is the difference.
func (b *benchScreen) askScale() {
	dish := b.session.Outcome().Dish()
	held := bench.GramsText(dish.PasteG(), dish.Guess)
	b.Ask(ui.Question{
		Title: "the scale shows now (tared with the empty dish; it held " + held + ")",
		Answer: func(text string) (tea.Cmd, error) {
			return nil, b.addGrams(text, func(shown float64) (model.Step, error) {
				grams, err := b.session.ByScale(shown)
				if err != nil {
					return model.Step{}, fmt.Errorf("%w: g takes the grams added, t paste taken out", err)
				}
				return b.weighed(grams), nil
			})
		},
	}, "")
}

// weighed makes a weighed addition of powder or liquid.
func (b *benchScreen) weighed(grams float64) model.Step {
	if b.choice.liquid {
		return model.Step{Add: model.AddLiquid, Grams: grams}
	}
	return model.Step{Add: model.AddPowder, Grams: grams}
}

// askRemoved asks for the grams of paste taken out.
func (b *benchScreen) askRemoved() {
	b.Ask(ui.Question{
		Title: "grams of paste taken out",
		Answer: func(text string) (tea.Cmd, error) {
			return nil, b.addGrams(text, func(grams float64) (model.Step, error) {
				return model.Step{Add: model.Removed, Grams: grams}, nil
			})
		},
	}, "")
}

// addGrams makes a step from typed grams; if it is refused, the line stays.
func (b *benchScreen) addGrams(text string, step func(grams float64) (model.Step, error)) error {
	grams, err := someGrams(text)
	if err != nil {
		return err
	}
	s, err := step(grams)
	if err != nil {
		return err
	}
	if why := b.session.Outcome().Reading.Unlikely(s); why != "" && s.Add != model.Removed {
		b.sure = &doubt{text: why, yes: "add it all the same", no: "go back", do: func() { b.done("", b.step(s)) }}
		return nil
	}
	return b.step(s)
}

// someGrams reads grams and refuses 0.
func someGrams(text string) (float64, error) {
	grams, err := typed.Mass(text, "2.3 g")
	if err == nil && grams == 0 {
		err = errors.New("0 g is nothing: type the grams, or Esc")
	}
	return grams, err
}

// askMended asks for the grams of the step being mended. Grams win over the spoon,
// which stays on record.
func (b *benchScreen) askMended() {
	b.Ask(ui.Question{
		Title: fmt.Sprintf("step %d, grams", b.mend+1),
		Answer: func(text string) (tea.Cmd, error) {
			grams, err := someGrams(text)
			if err == nil {
				b.change(func(s *model.Step) { s.Grams = grams })
			}
			return nil, err
		},
	}, "")
}

// askPot asks what the open pot of powder weighs now; its loss is the powder added.
func (b *benchScreen) askPot() {
	why := "Weigh the open pot after taking powder: what it lost is in the dish."
	if b.trial().PotG == 0 {
		why = "Weigh the open pot before the first spoon, and again later: what it lost is in the dish."
	}
	b.Ask(ui.Question{
		Title:  "grams the pot of powder weighs now, with what is in it",
		Why:    why,
		Answer: b.potAnswer(b.session.Pot),
	}, "")
}

// potAnswer reads the pot's weight and records it.
func (b *benchScreen) potAnswer(record func(grams float64) error) func(text string) (tea.Cmd, error) {
	return func(text string) (tea.Cmd, error) {
		grams, err := someGrams(text)
		if err != nil {
			return nil, err
		}
		return nil, b.kept(fmt.Sprintf("the pot weighs %s g", model.Number(grams)), record(grams), func() {
			if b.mode == adding {
				b.rechoose()
			}
		})
	}
}

// askNote asks for the note to a step.
func (b *benchScreen) askNote(step int) {
	b.Ask(ui.Question{
		Title: fmt.Sprintf("note to step %d", step+1), Mends: true,
		Answer: func(text string) (tea.Cmd, error) {
			b.done("note kept", b.session.Note(step, text))
			return nil, nil
		},
	}, b.trial().Steps[step].Note)
}

// askStirred asks for the level just after stirring; it is kept beside the level
// after the rest.
func (b *benchScreen) askStirred(step int) {
	was := ""
	if l := b.trial().Steps[step].LevelStirred; l != nil {
		was = model.Number(*l)
	}
	b.Ask(ui.Question{
		Title: fmt.Sprintf("level just after stirring, step %d; empty: not read", step+1),
		Answer: func(text string) (tea.Cmd, error) {
			var stirred *float64
			if text != "" {
				level, err := typed.Reading(text, 0.5)
				if err != nil {
					return nil, err
				}
				stirred = &level
			}
			b.done("just stirred: kept", b.session.Mend(step, func(s *model.Step) { s.LevelStirred = stirred }))
			return nil, nil
		},
	}, was)
}

// askReason asks why the trial is set aside; an empty reason uses it again.
func (b *benchScreen) askReason() {
	b.Ask(ui.Question{
		Title: "set aside: the reason (the trial is kept and shown, not used)",
		Answer: func(reason string) (tea.Cmd, error) {
			said := "set aside: kept, shown, not used"
			if reason == "" {
				said = "in use again"
			}
			b.done(said, b.session.SetAside(reason))
			return nil, nil
		},
	}, "")
}

// picker holds the list of behaviours while it is open.
type picker struct {
	step int
	back benchMode
}

func (b *benchScreen) pick(step int, back benchMode) {
	b.marks = picker{step: step, back: back}
	b.mode = marking
}

// mark hands a key to the list of behaviours; each has a letter.
func (b *benchScreen) mark(msg tea.KeyMsg) {
	if key.Matches(msg, markKeys.done) {
		b.mode = b.marks.back
		return
	}
	for _, seen := range model.Behaviours() {
		if msg.String() == seen.Letter {
			have := b.trial().Steps[b.marks.step].Marks
			b.done("", b.session.SetMarks(b.marks.step, model.WithMark(have, seen.Name)))
			return
		}
	}
	if msg.Type == tea.KeyRunes {
		b.Refuse("no behaviour has the letter " + msg.String() + "; Enter closes")
	}
}
