package trial

import (
	"cmp"
	"errors"
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// askWeighing asks for weighings of level spoons during the trial, one after the other
// until an empty line or Esc. ↑↓ goes to those made before.
func (b *benchScreen) askWeighing() {
	l := b.session.SpoonWeighedHere()
	why := "Level spoons, filled loosely and struck off. Or type tapped 2.9, packed 3.1."
	if w, ok := l.Weight(); ok {
		why = fmt.Sprintf("So far %d, %s: %s g a spoon ± %s. Or type tapped 2.9.", len(l.Grams),
			cmp.Or(l.Filling(), printable.Line(l.How)), model.Significant(w.Mean, 3),
			model.Significant(w.HalfWidth(), 2))
	}
	q := ui.Question{
		Title: fmt.Sprintf("grams of %s, tared (Enter alone: done)", model.LevelSpoons(l.Each(), l.Spoon)),
		Why:   why,
		Answer: func(text string) (tea.Cmd, error) {
			if text == "" {
				return nil, nil
			}
			filled, grams, err := typed.Weighings(text, "2.3 g")
			if err != nil {
				return nil, err
			}
			return nil, b.weighingDone(b.session.WeighHere(filled, grams...), func() string {
				packs := handling.SpoonPacks(b.session.Powder(), l.Spoon)
				switch {
				case filled == model.Tapped && packs != "":
					return packs
				case len(grams) == 1:
					return fmt.Sprintf("weighing kept: %s g", model.Number(grams[0]))
				default:
					return fmt.Sprintf("%d weighings kept", len(grams))
				}
			})
		},
	}
	if n := len(l.Grams); n > 0 {
		q.Turns = "mend an earlier one"
		q.Turn = func(by int) { b.askMendedWeighing((n + 1 + n + by) % (n + 1)) }
	}
	b.Ask(q, "")
}

// askMendedWeighing asks for weighing i of the level spoon weighed here, counted from 0,
// anew; the one behind the last is a new one.
func (b *benchScreen) askMendedWeighing(i int) {
	l := b.session.SpoonWeighedHere()
	n := len(l.Grams)
	if i >= n {
		b.askWeighing()
		return
	}
	was := model.Number(l.Grams[i])
	b.Ask(ui.Question{
		Title: fmt.Sprintf("weighing %d of %d, grams of %s (an empty line deletes it)", i+1, n,
			model.LevelSpoons(l.Each(), l.Spoon)),
		Turns: "another one",
		Turn:  func(by int) { b.askMendedWeighing((i + n + 1 + by) % (n + 1)) },
		Answer: func(text string) (tea.Cmd, error) {
			if text == "" {
				deleted := func() string { return was + " g deleted" }
				return nil, b.weighingDone(b.session.DeleteWeighing(l.Spoon, i), deleted)
			}
			grams, err := someGrams(text)
			if err != nil {
				return nil, err
			}
			said := fmt.Sprintf("weighing %d: %s g (was %s)", i+1, model.Number(grams), was)
			return nil, b.weighingDone(b.session.MendWeighing(l.Spoon, i, grams), func() string { return said })
		},
	}, was)
}

// weighingDone takes the result of a change to the weighings, and asks for the next one. An
// unlikely weighing is asked about first.
func (b *benchScreen) weighingDone(err error, said func() string) error {
	again := func() {
		b.rechoose()
		b.askWeighing()
	}
	q := new(bench.Question)
	switch {
	case errors.As(err, &q):
		b.sure = &doubt{
			text: q.Text, yes: "keep it", no: "go back", back: again,
			do: func() {
				err := q.Insist()
				again()
				b.done(said(), err)
			},
		}
		return nil
	case err != nil:
		return err
	}
	again()
	b.Say(said())
	return ui.ErrAskedAgain
}
