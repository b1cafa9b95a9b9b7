package setup

import (
	"cmp"
	"errors"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
)

// apply puts one field's value into the profile or the trial.
func (s *screen) apply(i int) error {
	f := &s.Fields[i]
	v := f.Value()
	p, t := &s.entry.Profile.Powder, &s.trial
	var err error
	switch i {
	case fieldName:
		err = s.name(v, p.Lot)
	case fieldLot:
		err = s.name(p.Name, v)
	case fieldFamily:
		err = familyFact.Set(p, v)
	case fieldMethod:
		s.method = bench.Method(max(f.Pick, 0))
	case fieldPot:
		t.PotG, err = ui.Optional(v, func(v string) (float64, error) { return typed.Mass(v, "152.4 g") })
	case fieldSpoon:
		s.weighedSpoon(v)
	case fieldWeighing:
		if v != "" {
			return s.addWeighing(v)
		}
	case fieldAmount:
		err = s.amount(v)
	case fieldLiquid:
		err = s.liquid(v)
	case fieldDensity:
		t.LiquidDensity, err = ui.Optional(v, typed.Density)
	case fieldTemperature:
		err = s.temperature(v)
	case fieldSet:
		t.SpoonSet = model.SpoonSet(v)
	case fieldAim:
		t.Aim = model.CurveLevels()[f.Pick]
	case fieldStep:
		t.LevelStep, err = typed.Step(v)
	case fieldTolerance:
		t.Tolerance, err = typed.Precision(v)
	case fieldRest:
		err = s.rest(v)
	case fieldScale:
		err = s.scale(v)
	case fieldEach:
		_, err = s.each()
	}
	if err == nil {
		s.suggest()
	}
	return err
}

// scale sets how finely the scale reads. An unusual one is asked about once.
func (s *screen) scale(v string) error {
	g, err := s.resolution()
	if err != nil {
		return err
	}
	if question := typed.OddScale(g); question != "" && g != s.trial.ResolutionG && s.doubted != v {
		s.doubted = v
		return ui.EnterAgain(question)
	}
	s.trial.ResolutionG = g
	return nil
}

// name sets the powder's name and lot. On a profile of the shelf, another name or
// lot means another powder: it begins a new profile.
func (s *screen) name(name, lot string) error {
	p := &s.entry.Profile.Powder
	if s.entry.Slug == "" || (name == p.Name && lot == p.Lot) {
		p.Name, p.Lot = name, lot
		return nil
	}
	if s.session.Dirty() {
		return errors.New("the last weighing is still being saved: Enter once more")
	}
	other := *p
	other.Name, other.Lot, other.Notes, other.Archived = name, lot, "", false
	s.entry, s.fresh = model.Entry{Profile: model.Profile{Powder: other}}, map[string]int{}
	s.session = ui.NewSession(model.Entry{}, bench.NoTrial, s.deps.OwnSpoons)
	s.Problem = "another name or lot: a new powder, to be weighed anew"
	return nil
}

// liquid sets the liquid by name; empty is water.
func (s *screen) liquid(v string) error {
	name, err := typed.Liquid(cmp.Or(v, "water"))
	if err != nil {
		return err
	}
	if !model.SameLiquid(name, s.trial.Liquid) {
		s.trial.LiquidDensity = 0 // it was the other liquid's
		s.Fields[fieldDensity].Set("")
	}
	s.trial.Liquid = name
	return nil
}

func (s *screen) temperature(v string) error {
	s.trial.TemperatureC = nil
	if v == "" {
		return nil
	}
	c, err := typed.Temperature(v)
	if err == nil {
		s.trial.TemperatureC = &c
	}
	return err
}

// rest sets the wait before a look; empty is the family's.
func (s *screen) rest(v string) error {
	if v == "" || !s.Fields[fieldRest].Touched {
		s.Fields[fieldRest].Touched = false
		if v == "" {
			s.trial.RestS = nil
		}
		return nil
	}
	seconds, err := typed.Rest(v)
	if err == nil {
		s.trial.RestS = &seconds
	}
	return err
}

// amount reads grams, or spoons of one size such as "4 x 1 tsp"; empty means no
// liquid yet.
func (s *screen) amount(v string) error {
	var amount typed.Amount
	if v != "" {
		var err error
		if amount, err = typed.SpoonsOf(s.deps.OwnSpoons).Amount(v, "20 g or 4 x 1 tsp"); err != nil {
			return err
		}
	}
	return amount.StartLiquid(&s.trial, s.deps.OwnSpoons)
}
