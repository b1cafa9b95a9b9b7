package lines

import (
	"errors"
	"fmt"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/repeats"
	"daub.example/daub/model/typed"
)

// goesOn reports whether a trial is unfinished and of the kind asked for. A trial
// beside a dish goes on only beside the same dish.
func (t *Trial) goesOn(trial model.Trial) bool {
	if t.like == nil || !trial.Unfinished() {
		return trial.Unfinished()
	}
	return trial.Match != nil && trial.Match.Dish() == t.like.Match.Dish()
}

// setUp asks everything needed before the first addition. It begins the trial or
// goes on with an unfinished one.
func (t *Trial) setUp(powder string) error {
	if err := t.choosePowder(powder); err != nil {
		return err
	}
	t.editor = bench.NewEditor(t.entry.Profile, bench.NoTrial, t.ownSpoons)
	t.editor.Steer(t.steering())
	t.sayDue()
	trials := t.entry.Profile.Trials
	open := t.entry.Profile.NewestWhere(t.goesOn)
	if open >= 0 {
		trial := trials[open]
		steps := "no step yet"
		if n := len(trial.Steps); n > 0 {
			steps = model.Plural(n, "step") + " so far"
		}
		yes, err := t.yes(fmt.Sprintf("Trial %d, begun %s, %s, is unfinished. Go on with it?", open+1,
			trial.Started.Format(page.Day), steps))
		if err != nil {
			return err
		}
		if !yes {
			open = -1
		}
	}
	if open < 0 || len(trials[open].Steps) == 0 {
		t.sayCare(care.BeforeMetal, care.BeforeDust)
		if err := t.weighings(); err != nil {
			return err
		}
	}
	if open < 0 {
		return t.begin()
	}
	t.editor.GoTo(open)
	if len(trials[open].Steps) == 0 {
		trial := t.editor.Trial()
		t.fitSpoons(&trial)
		err := t.until(func() error { return t.amounts(&trial) }, func() error {
			return t.done("The trial is begun", t.editor.Edit("start", func(_ *model.Profile, to *model.Trial) {
				to.Spoons, to.PotG = trial.Spoons, trial.PotG
				to.LiquidG, to.LiquidBy, to.LiquidDensity = trial.LiquidG, trial.LiquidBy, trial.LiquidDensity
				to.LiquidSpoon, to.LiquidCount = trial.LiquidSpoon, trial.LiquidCount
			}))
		})
		t.editor.GoTo(open) // the set-up stays
		return err
	}
	t.sayDish()
	return t.sayAnswer("")
}

// steering looks up what the shelf knows of the powder. A file that cannot be read
// is left out.
func (t *Trial) steering() bench.Steering {
	entries, _ := t.shelf.List()
	profiles := make([]model.Profile, len(entries))
	for i, e := range entries {
		profiles[i] = e.Profile
	}
	return repeats.Steering(t.entry.Profile.Powder, profiles, t.ownSpoons)
}

// choosePowder finds the powder on the shelf, or asks for a new one.
func (t *Trial) choosePowder(powder string) error {
	if powder != "" {
		e, err := t.shelf.Find(powder)
		var unknown *data.UnknownError
		if errors.As(err, &unknown) && unknown.Broken == 0 {
			return t.newName(powder, unknown.Near)
		}
		t.entry = e
		return err
	}
	var fatal error
	err := t.ask("Which powder? Its name as on the bag, or one from the shelf; with a lot as name@lot. ? helps.",
		"Powder of "+t.now().Format(page.Day), func(name string) error {
			e, err := t.shelf.Find(name)
			var unknown *data.UnknownError
			var ambiguous *data.AmbiguousError
			switch {
			case err == nil:
				t.entry = e
				t.tell("From the shelf: %s.", e.Profile.Powder.Title())
				return nil
			case errors.As(err, &ambiguous):
				return err
			case !errors.As(err, &unknown):
				fatal = err
				return nil
			}
			err = t.newName(name, unknown.Near)
			if errors.Is(err, errQuit) {
				fatal, err = err, nil
			}
			return err
		})
	if err == nil {
		err = fatal
	}
	return err
}

// newName starts a new powder; if another has nearly the same name, it asks first.
func (t *Trial) newName(name string, near []string) error {
	if len(near) > 0 {
		yes, err := t.yes(fmt.Sprintf("%s is not on the shelf. There is %s. Is it a new powder?", name,
			strings.Join(near, ", ")))
		if err != nil {
			return err
		}
		if !yes {
			return errors.New("no powder is chosen yet")
		}
	} else {
		t.tell("A new powder: %s.", name)
	}
	return t.newPowder(name)
}

// newPowder asks for the facts of a new powder.
func (t *Trial) newPowder(name string) error {
	p := model.Powder{Name: name}
	if at := strings.LastIndex(name, "@"); at > 0 {
		p.Name, p.Lot = strings.TrimSpace(name[:at]), strings.TrimSpace(name[at+1:])
	} else if err := t.ask("Which lot or delivery? Enter alone where it is not known.", "", func(lot string) error {
		p.Lot = lot
		return nil
	}); err != nil {
		return err
	}
	family, err := typed.FactOf("family")
	if err != nil {
		return err
	}
	question := "Which family? One of " + strings.Join(family.Options[1:], ", ") +
		". The waiting time and the cautions go by it."
	err = t.ask(question, family.Options[0], func(answer string) error { return family.Set(&p, answer) })
	t.entry = data.Entry{Profile: model.Profile{Powder: p}}
	if problems := bench.Check(t.entry.Profile, t.ownSpoons); err == nil && len(problems) > 0 {
		return fmt.Errorf("%s; %s", problems[0].What, problems[0].Fix)
	}
	return err
}
