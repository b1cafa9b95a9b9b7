package acid

import (
	"errors"
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/measure"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// question is one question of an acid test; now is its present answer.
type question struct {
	title, why, now string
	answer          func(text string) error
}

// askAcid asks for the acid, the mass of paste and the way pH is read, one after
// the other. Nothing is kept before the last answer.
func (t *test) askAcid() {
	a := model.AcidTest{By: model.ByStrip, PHStep: 0.5}
	if was := t.acid(); was != nil {
		a = was.Clone()
	}
	if a.PasteG == 0 {
		a.PasteG = model.RoundSignificant(t.session.Outcome().Dish().PasteG(), 4)
	}
	t.ask(&a, 0)
}

// questions returns the questions of an acid test, in order.
func (t *test) questions(a *model.AcidTest) []question {
	amount := func(v float64) string {
		if v == 0 {
			return ""
		}
		return model.Number(v) + " g"
	}
	return []question{
		{
			"which acid, with its strength: vinegar 5 %, citric acid 10 %, lactic acid 5 %",
			"Vinegar has at least " + model.Number(measure.VinegarAcid.Low) + " " + measure.VinegarAcid.Unit + ".",
			a.Acid,
			func(text string) error {
				if text == "" {
					return errors.New("name the acid with its strength, as citric acid 10 %")
				}
				a.Acid = text
				return nil
			},
		},
		{
			"grams of paste that it goes into", "The whole dish, or a weighed part of it.", amount(a.PasteG),
			func(text string) (err error) {
				a.PasteG, err = typed.Mass(text, "30 g")
				if err == nil && a.PasteG == 0 {
					err = errors.New("0 g of paste is none: weigh what the acid goes into")
				}
				return err
			},
		},
		{
			"how pH is read: " + typed.PHByExample, "A strip to 0.5 or 1; a meter with its calibration noted.",
			strings.TrimSpace(fmt.Sprintf("%s %s %s", a.By, model.Number(a.Step()), a.Note)),
			func(text string) error { return typed.PHBy(a, text) },
		},
		{
			"grams of one drop (empty: no drops, by gram or spoon)",
			"Weigh twenty drops; a twentieth of that is one.", amount(a.DropG),
			func(text string) (err error) {
				if a.DropG = 0; text == "" {
					return nil
				}
				a.DropG, err = typed.Mass(text, "0.05 g")
				if err == nil && a.DropG == 0 {
					err = errors.New("0 g is no drop: weigh twenty and divide, or leave it empty")
				}
				return err
			},
		},
	}
}

// ask asks question n and keeps the test after the last.
func (t *test) ask(a *model.AcidTest, n int) {
	all := t.questions(a)
	q := all[n]
	t.Ask(ui.Question{
		Title: fmt.Sprintf("%d of %d: %s", n+1, len(all), q.title), Why: q.why,
		Answer: func(text string) (tea.Cmd, error) {
			if err := q.answer(text); err != nil {
				return nil, err
			}
			if n+1 < len(all) {
				t.ask(a, n+1)
				return nil, ui.ErrAskedAgain
			}
			if problems := a.Validate(); len(problems) > 0 {
				return nil, fmt.Errorf("%s; %s", problems[0].What, problems[0].Fix)
			}
			if err := t.changes.Made(t.session.BeginAcid(*a)); err != nil {
				return nil, err
			}
			if len(t.steps()) > 0 {
				t.Say("kept")
				return nil, nil
			}
			t.askPH()
			return nil, ui.ErrAskedAgain
		},
	}, q.now)
}

// askPH asks for a pH and the acid added before it.
func (t *test) askPH() {
	title, why := "pH now, and the acid added before it", "As "+typed.AcidStepExample+"."
	if len(t.steps()) == 0 {
		title, why = "pH of the paste before any acid", "Wet the strip with it, wait, read. As 8.5."
	}
	t.Ask(ui.Question{
		Title: title, Why: why,
		Answer: func(text string) (tea.Cmd, error) {
			s, err := t.read(text)
			if err == nil {
				s.At = t.deps.Now()
				err = t.changes.Made(t.session.AddAcid(s))
			}
			if err != nil {
				return nil, err
			}
			t.cursor = len(t.steps()) - 1
			t.Say(fmt.Sprintf("pH %s recorded", model.Number(s.PH)))
			return nil, nil
		},
	}, "")
}

// askMended asks for reading n again.
func (t *test) askMended(n int) {
	t.Ask(ui.Question{
		Title: fmt.Sprintf("reading %d", n+1), Why: "As " + typed.AcidStepExample + ".",
		Answer: func(text string) (tea.Cmd, error) {
			s, err := t.read(text)
			if err == nil {
				err = t.changes.Made(t.session.MendAcid(n, s))
			}
			if err == nil {
				t.Say(fmt.Sprintf("reading %d mended", n+1))
			}
			return nil, err
		},
	}, typed.ShowAcidStep(t.steps()[n]))
}

// read reads a pH as typed, with the acid before it.
func (t *test) read(text string) (model.AcidStep, error) {
	return typed.SpoonsOf(t.deps.OwnSpoons, t.session.Profile()).AcidStep(text)
}

// askTarget asks for the wanted pH.
func (t *test) askTarget() {
	a := t.acid().Clone()
	t.Ask(ui.Question{
		Title: "target pH",
		Why: "Skin itself has about " + model.Number(measure.SkinPH.Low) +
			"; a paste for it is often brought to 5 to 6.",
		Answer: func(text string) (tea.Cmd, error) {
			ph, err := typed.PH(text)
			if err == nil && ph == 0 {
				err = errors.New("pH 0 is no target for a paste: 5.5")
			}
			if err != nil {
				return nil, err
			}
			a.TargetPH = ph
			t.say("the target is pH "+model.Number(ph), t.changes.Made(t.session.BeginAcid(a)))
			return nil, nil
		},
	}, model.Number(a.Target()))
}
