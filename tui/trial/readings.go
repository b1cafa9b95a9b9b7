package trial

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// askReading asks for what was measured after the last step.
func (b *benchScreen) askReading() {
	m := b.trial().Measured
	if m == nil {
		b.Refuse("nothing is measured in this trial: c, then Measured, says what (spread, slump, cone, drain, blows)")
		return
	}
	b.Ask(ui.Question{
		Title: m.Words() + ", " + m.Kind.Unit(),
		Answer: func(text string) (tea.Cmd, error) {
			v, err := typed.MeasuredReading(text, *m)
			if err == nil {
				err = b.session.Measure(v)
			}
			if err != nil {
				return nil, err
			}
			b.next()
			b.Say("reading " + m.Text(v) + " recorded; " + b.measured())
			return nil, nil
		},
	}, "")
}

// measured words the answer of the readings so far.
func (b *benchScreen) measured() string {
	m, ok := readings.Of(b.session.Outcome().Reading)
	if !ok {
		return "it counts once the powder has a weight"
	}
	return m.Sentence()
}

// byReading is the answer of the readings in their own scale, of this dish and of
// the powder.
func (r *result) byReading() (texts []string) {
	m, ok := readings.Of(r.session.Outcome().Reading)
	if !ok {
		return nil
	}
	texts = append(texts, "this dish: "+m.Sentence())
	all, ok := readings.Pool(r.session.Profile(), m.Liquid, m.Measured, m.Wanted, r.deps.OwnSpoons)
	if ok && all.Trials > 1 {
		texts = append(texts, fmt.Sprintf("this powder: %s g/g at %s (%s); the next dish %s to %s.",
			model.RatioText(all.Ratio.Median), m.Text(m.Wanted), trials(all.Trials), model.RatioText(all.Next.Low),
			model.RatioText(all.Next.High)))
	}
	return append(texts, "Levels and what was measured are two scales: neither is part of the other's answer.")
}

// acidTest words the answer of the acid test.
func (r *result) acidTest() (texts []string) {
	a, ok := readings.AcidOf(r.session.Outcome().Reading, r.target(), r.deps.OwnSpoons)
	if !ok {
		if t := r.session.Trial().Acid; t != nil {
			return []string{fmt.Sprintf("%s into %s g of paste: p takes the first pH.", t.Acid, model.Number(t.PasteG))}
		}
		return nil
	}
	texts = append(texts, a.Sentence())
	for i, s := range a.Steps {
		text := fmt.Sprintf("%d  %s of acid, pH %s", i+1, s.Text(), model.Number(s.PH))
		if s.WaitedS != nil {
			text += " after " + model.Seconds(*s.WaitedS)
		}
		if s.Level != nil {
			text += ", level " + model.LevelName(*s.Level)
		}
		texts = append(texts, text)
	}
	return append(texts, a.Notes(r.session.Powder())...)
}

// target is the pH that acid is wanted for.
func (r *result) target() float64 {
	if r.targetPH > 0 {
		return r.targetPH
	}
	return readings.SkinPH
}

// askAcid begins an acid test, or takes its next pH.
func (r *result) askAcid() {
	if r.session.Trial().Acid == nil {
		r.Ask(ui.Question{
			Title: "acid, grams of paste, strip or meter, weight of a drop: " + typed.AcidExample,
			Why:   care.Line(care.BeforeAcid, r.session.Powder()),
			Answer: func(text string) (tea.Cmd, error) {
				a, err := typed.AcidTest(text)
				if err == nil {
					err = r.session.BeginAcid(a)
				}
				if err != nil {
					return nil, err
				}
				r.askPH()
				return nil, ui.ErrAskedAgain
			},
		}, "")
		return
	}
	r.askPH()
}

// askPH takes a pH with the acid before it, or the pH that is wanted.
func (r *result) askPH() {
	r.Ask(ui.Question{
		Title: "pH now, as 8.5 or 7 after 5 drops; target 5.5 says the acid for it; undo takes the last back",
		Answer: func(text string) (tea.Cmd, error) {
			if wanted, ok := strings.CutPrefix(text, "target "); ok {
				s, err := typed.SpoonsOf(r.deps.OwnSpoons).AcidStep(wanted)
				if err == nil {
					r.targetPH = s.PH
				}
				return nil, err
			}
			if text == "undo" {
				r.session.UndoAcid()
				return nil, nil
			}
			s, err := typed.SpoonsOf(r.deps.OwnSpoons, r.session.Profile()).AcidStep(text)
			if err == nil {
				s.At = r.deps.Now()
				err = r.session.AddAcid(s)
			}
			if err == nil {
				r.Say(strings.Join(r.acidTest()[:1], " "))
			}
			return nil, err
		},
	}, "")
}
