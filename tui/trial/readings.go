package trial

import (
	"errors"
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/measure"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// askReading asks for what was measured after the last step. Before the first
// reading it asks, once, what is measured and how.
func (b *benchScreen) askReading() {
	m := b.trial().Measured
	if m == nil {
		b.askKind()
		return
	}
	b.Ask(ui.Question{
		Title: "reading, " + m.Kind.Unit() + " (" + m.Words() + ")",
		Answer: func(text string) (tea.Cmd, error) {
			v, err := typed.MeasuredReading(text, *m)
			if err != nil {
				return nil, err
			}
			if waited := b.rested(); b.awaitsLook() && b.early() && !b.rest.asked {
				b.askEarly(m.Text(v), func() { b.measure(v, waited) }, nil)
				return nil, nil
			}
			b.measure(v, b.rested())
			return nil, nil
		},
	}, "")
}

// measure keeps a reading, with the wait before it.
func (b *benchScreen) measure(v float64, rested *int) {
	if err := b.session.MeasureAfter(v, rested, b.now); err != nil {
		b.Refuse(err.Error())
		return
	}
	b.next()
	said := "reading " + b.trial().Measured.Text(v) + " recorded"
	if when := b.last().Timing(b.restS()); when != model.InTime {
		said += ", " + string(when)
	}
	b.Say(strings.TrimSpace(said + ". " + b.measured()))
}

// measured says what the readings still need; their answer stands above it.
func (b *benchScreen) measured() string {
	m, ok := readings.Of(b.session.Outcome().Reading)
	if !ok {
		return "It counts once the powder has a weight."
	}
	return m.Next(b.trial().Tolerance)
}

// askKind asks once what is measured; questions about its sizes follow.
func (b *benchScreen) askKind() {
	b.Ask(ui.Question{
		Why: "Asked once in a trial. spread: the diameter a measured volume spreads to. slump: how far a lifted " +
			"cylinder's filling sinks. cone: how deep a cone sinks in. drain: seconds until a funnel is empty. " +
			"blows: of the cup.",
		Title: "what is measured: spread, slump, cone, drain or blows",
		Answer: func(text string) (tea.Cmd, error) {
			m, err := typed.Measured(text)
			if err == nil && m == nil {
				err = errors.New("type one of the five, or Esc")
			}
			if err != nil {
				return nil, err
			}
			b.askGeometry(*m)
			return nil, ui.ErrAskedAgain
		},
	}, "")
}

// geometry is one question, asked once, about a kind of reading.
type geometry struct {
	title string
	value *float64
	read  func(text string) (float64, error)
}

// paste reads a volume of paste.
func paste(text string) (float64, error) { return typed.Volume(text, "15 mL") }

// geometryOf returns the questions about a kind, in order.
func geometryOf(m *model.Measured) (all []geometry) {
	switch m.Kind {
	case measure.Spread:
		all = append(all, geometry{"mL of paste put down for a spread", &m.VolumeML, paste})
	case measure.Slump:
		all = append(all, geometry{"height of the cylinder, mm", &m.HeightMM, typed.Height})
	}
	if len(all) > 0 {
		all = append(all, geometry{"density of the paste, g/mL, for its yield stress", &m.PasteDensity, typed.Density})
	}
	wanted := func(text string) (float64, error) { return typed.MeasuredReading(text, *m) }
	return append(all, geometry{"the reading that is wanted, " + m.Kind.Unit(), &m.Wanted, wanted})
}

// askGeometry asks for everything still open, then keeps it and asks for the
// reading.
func (b *benchScreen) askGeometry(m model.Measured) { b.askFrom(m, 0) }

func (b *benchScreen) askFrom(m model.Measured, from int) {
	all := geometryOf(&m)
	for from < len(all) && *all[from].value > 0 {
		from++
	}
	if from == len(all) {
		if b.done("measured: "+m.Words(), b.session.Measures(m)) {
			b.askReading()
			b.Say("measured: " + m.Words() + "; c changes it")
		}
		return
	}
	one := all[from]
	b.Ask(ui.Question{
		Title: one.title + " (Enter alone: not known)",
		Answer: func(text string) (tea.Cmd, error) {
			if text != "" {
				v, err := one.read(text)
				if err != nil {
					return nil, err
				}
				*one.value = v
			}
			b.askFrom(m, from+1)
			return nil, ui.ErrAskedAgain
		},
	}, "")
}

// askReadingAt asks for the reading of the step being mended.
func (b *benchScreen) askReadingAt(step int) {
	m := b.trial().Measured
	if m == nil {
		b.Refuse("nothing is measured in this trial: r at the bench says what")
		return
	}
	was := ""
	if v := b.trial().Steps[step].Reading; v > 0 {
		was = model.Number(v)
	}
	b.Ask(ui.Question{
		Title: fmt.Sprintf("reading of step %d, %s; empty: none", step+1, m.Kind.Unit()),
		Answer: func(text string) (tea.Cmd, error) {
			v, err := 0.0, error(nil)
			if text != "" {
				v, err = typed.MeasuredReading(text, *m)
			}
			if err == nil {
				err = b.session.MendReading(step, v)
			}
			if err == nil {
				b.Say(fmt.Sprintf("step %d mended", step+1))
			}
			return nil, err
		},
	}, was)
}

// byReading gives the answers by readings, in their own unit, of this dish and of
// the powder.
func (r *result) byReading() (texts []string) {
	m, ok := readings.Of(r.session.Outcome().Reading)
	if !ok {
		return nil
	}
	texts = append(texts, "this dish: "+m.Sentence())
	all, ok := readings.Pool(r.session.Profile(), m.Basis, m.Measured, m.Wanted, r.deps.OwnSpoons)
	if ok {
		texts = append(texts, "this powder: "+all.Sentence())
	}
	return append(texts, "Levels and what was measured are two scales: neither is part of the other's answer.")
}

// acidTest gives the result of the acid test.
func (r *result) acidTest() (texts []string) {
	a, ok := readings.AcidOf(r.session.Outcome().Reading, r.deps.OwnSpoons)
	if !ok {
		return nil
	}
	texts = append(append(texts, a.Sentence()), a.Lines()...)
	return append(texts, a.Notes(r.session.Powder())...)
}
